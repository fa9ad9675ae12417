package rules

import (
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/units"
)

func postCases() []ruleCase {
	const at = "gate.leaves[0].hinge_post"
	judge := func(post gate.Post, pull bool) []finding.Finding { return Post(0, post, pull, policy) }
	thick := func(setback units.Length) gate.Post {
		return gate.Post{Shape: gate.PostPier, Material: gate.Masonry, HingeSetback: length(setback)}
	}
	deep, atLimit := thick(policy.PierReviewSetback*justOver), thick(policy.PierReviewSetback)
	known, pushed := deep, atLimit
	known.MountingPlane = length(0.1)
	pushed.Depth = length(0.4)
	bracket := func(shape gate.PostShape, pull bool, form catalog.RearBracketForm) []finding.Finding {
		return RearBracket(0, gate.Post{Shape: shape}, pull, catalog.RearBracket{Form: form}, "RB-1")
	}
	flat := bracket(gate.PostRectangular, true, catalog.FlatBracket)
	bend := func(share units.Length) []finding.Finding {
		return PostUnderThrust(0, leaf.PostBending{Deflection: policy.MostPostDeflection * share}, policy)
	}
	foot := func(shape gate.PostShape, fixity gate.Fixity) []finding.Finding {
		return judge(gate.Post{Shape: shape, Fixity: fixity, MountingPlane: length(0.1)}, true)
	}
	return []ruleCase{
		{code: finding.PierNeedsReview, subject: at, findings: judge(deep, true), nearMiss: judge(atLimit, true)},
		{code: finding.PierNeedsReview, subject: at, findings: judge(deep, true), nearMiss: judge(known, true)},
		{code: finding.PierNeedsReview, subject: at, findings: judge(gate.Post{Shape: gate.PostWall}, true), nearMiss: judge(gate.Post{Shape: gate.PostRectangular}, true)},
		{code: finding.PierNeedsReview, subject: at, findings: judge(atLimit, false), nearMiss: judge(pushed, false)},
		{code: finding.PierBlocksDrive, subject: at, findings: one(PierBlocks(0, 0.4, length(0.3))), always: true},
		{code: finding.PierBlocksDrive, subject: at, findings: one(PierBlocks(0, 0.4, noLength)), always: true},
		{code: finding.PierSuitsArmDrive, subject: at, findings: judge(deep, true), nearMiss: judge(atLimit, true)},
		{code: finding.RoundPost, subject: at + ".shape", findings: bracket(gate.PostRound, true, catalog.CurvedBracket), nearMiss: flat},
		{code: finding.RoundPost, subject: at + ".shape", findings: bracket(gate.PostRound, true, catalog.FlatBracket), nearMiss: flat},
		{code: finding.PostTooSlender, subject: at, findings: bend(justOver), nearMiss: bend(1)},
		{code: finding.FixThroughPost, subject: at, findings: judge(atLimit, true), always: true},
		{code: finding.FixThroughPost, subject: at, findings: judge(gate.Post{}, true), always: true},
		{code: finding.PostFootUncertain, subject: at + ".fixity", findings: foot(gate.PostRectangular, gate.FixityEarth), nearMiss: foot(gate.PostRectangular, gate.FixityConcreted)},
		{code: finding.PostFootUncertain, subject: at + ".fixity", findings: foot(gate.PostRectangular, gate.FixityBasePlate), nearMiss: foot(gate.PostPier, gate.FixityBasePlate)},
		{code: finding.OutwardNeedsPush, subject: "gate.opening.direction", findings: bracket(gate.PostRectangular, false, catalog.PushBracket), nearMiss: flat},
	}
}

func openingCases() []ruleCase {
	open := units.Degrees(90)
	sweep := func(s room.Swing) []finding.Finding { return Sweep(0, 2, s, open, policy) }
	pier := func(free units.Angle) []finding.Finding {
		return OwnPier(0, room.Swing{Outcome: room.Limited, FreeTo: free}, open)
	}
	way := func(outside gate.Answer, direction gate.Direction, side gate.DriveSide, left units.Opt[units.Length]) []finding.Finding {
		return PublicWay(gate.Gate{
			Driveway: gate.Driveway{PublicWayOutside: outside},
			Opening:  gate.Opening{Direction: direction, DriveSide: side},
		}, left)
	}
	side := func(s gate.DriveSide) []finding.Finding {
		return DriveOutside(gate.Gate{Opening: gate.Opening{DriveSide: s}})
	}
	clearWidth := func(d gate.Driveway, taken units.Length) []finding.Finding {
		return ClearWidth(gate.Gate{Driveway: d}, taken)
	}
	drive := gate.Driveway{Width: length(3), ClearWidthWanted: length(2.5)}
	over := func(open units.Length) []finding.Finding {
		return InDriveway(0, room.Overrun{Open: open, Furthest: 1}, 0.2)
	}
	reach := one(NoMounting(0, open, units.Known(units.Degrees(85.7))))
	none := one(NoMounting(0, open, units.Opt[units.Angle]{}))
	wish := units.Known(units.Time(20))
	const publicWay = "gate.driveway.public_way_outside"
	return []ruleCase{
		{
			code: finding.SweepObstructed, subject: "gate.obstacles[2]",
			findings: sweep(room.Swing{Outcome: room.Limited, Clearance: 0.01, At: 1.5, FreeTo: 1.4}),
			nearMiss: sweep(room.Swing{Outcome: room.Free, Clearance: policy.LeastSideClearance, FreeTo: open}),
		},
		{
			code: finding.SweepObstructed, subject: "gate.obstacles[2]",
			findings: sweep(room.Swing{Outcome: room.BlockedClosed}),
			nearMiss: sweep(room.Swing{Outcome: room.Free, Clearance: 3, FreeTo: open}),
		},
		{code: finding.LeafStrikesPier, subject: "gate.leaves[0].hinge_post", findings: pier(open * 0.999), nearMiss: pier(open)},
		{code: finding.LeafStrikesPier, subject: "gate.leaves[0].hinge_post", findings: pier(0.1), nearMiss: OwnPier(0, room.Swing{Outcome: room.Free}, open)},
		{code: finding.OverPublicWay, subject: publicWay, findings: way(gate.Yes, gate.Outward, gate.DriveInside, length(0.5)), nearMiss: way(gate.Yes, gate.Inward, gate.DriveInside, noLength)},
		{code: finding.OverPublicWay, subject: publicWay, findings: way(gate.Yes, gate.Inward, gate.DriveOutside, noLength), nearMiss: way(gate.AnswerUnknown, gate.Outward, gate.DriveOutside, noLength)},
		{code: finding.DriveSideNotFree, subject: "gate.opening.drive_side", findings: side(gate.DriveOutside), nearMiss: side(gate.DriveInside)},
		{code: finding.DriveSideNotFree, subject: "gate.opening.drive_side", findings: side(gate.DriveOutside), nearMiss: side(gate.DriveSideUnknown)},
		{code: finding.DriveInDriveway, subject: "gate.leaves[0].hinge_post", findings: over(0.001), nearMiss: over(0)},
		{code: finding.ClearWidthTooSmall, subject: "gate.driveway.clear_width_wanted_mm", findings: clearWidth(drive, 0.5*justOver), nearMiss: clearWidth(drive, 0.5)},
		{code: finding.ClearWidthTooSmall, subject: "gate.driveway.clear_width_wanted_mm", findings: clearWidth(drive, 2), nearMiss: clearWidth(gate.Driveway{ClearWidthWanted: length(2.5)}, 2)},
		{code: finding.AngleOutOfReach, subject: "gate.opening.angle_deg", findings: reach, nearMiss: none},
		{code: finding.MountingOutOfReach, subject: "gate.leaves[0].hinge_post", findings: none, nearMiss: reach},
		{code: finding.OpeningTimeOverWish, subject: "gate.opening.wanted_time_s", findings: OpeningTime(0, 20*justOver, wish), nearMiss: OpeningTime(0, 20, wish)},
		{code: finding.OpeningTimeOverWish, subject: "gate.opening.wanted_time_s", findings: OpeningTime(1, 60, wish), nearMiss: OpeningTime(1, 60, units.Opt[units.Time]{})},
	}
}

// TestAngleOffered has a smaller angle offered only where the leaf is clear up
// to one, and always one that is clear.
func TestAngleOffered(t *testing.T) {
	open := units.Degrees(90)
	limited := func(free float64) room.Swing {
		return room.Swing{Outcome: room.Limited, FreeTo: units.Degrees(free)}
	}
	ground := func(s room.Swing) []finding.Finding { return Ground(0, room.GroundSwing{Swing: s}, open, policy) }
	sweep := func(s room.Swing) []finding.Finding { return Sweep(0, 0, s, open, policy) }
	pier := func(s room.Swing) []finding.Finding { return OwnPier(0, s, open) }
	atLeast := room.Swing{Outcome: room.Limited, FreeTo: minimumUseful}
	for _, c := range []struct {
		name     string
		findings []finding.Finding
		want     string // the offer's start; empty where none is to be made
	}{
		{"ground, clear to 60.9", ground(limited(60.9)), "Open to 60 degrees"},
		{"ground, clear all the way", ground(limited(90)), ""},
		{"ground, never clear", ground(room.Swing{Outcome: room.BlockedClosed}), ""},
		{"obstacle, clear to 60.9", sweep(limited(60.9)), "Open to 60 degrees"},
		{"obstacle, clear all the way", sweep(limited(90)), ""},
		{"obstacle, never clear", sweep(room.Swing{Outcome: room.BlockedClosed}), ""},
		{"pier, clear to 60.9", pier(limited(60.9)), "Open to 60 degrees"},
		{"pier, clear to the least worth it", pier(atLeast), "Open to 45 degrees"},
		{"pier, clear to less", pier(limited(44)), ""},
	} {
		got := ""
		for _, r := range c.findings[0].Remedies {
			if r.Kind == finding.ChangeWish {
				got = r.Text
			}
		}
		if !strings.HasPrefix(got, c.want) || (got == "") != (c.want == "") {
			t.Errorf("%s: offers %q, want %q", c.name, got, c.want)
		}
	}
}

// TestContactIsSaid tells a leaf that meets something from one that comes near.
func TestContactIsSaid(t *testing.T) {
	at := func(clearance units.Length) room.Swing {
		return room.Swing{Outcome: room.Limited, Clearance: clearance}
	}
	for _, c := range []struct{ name, got, want string }{
		{"obstacle near", Sweep(0, 0, at(0.01), 1, policy)[0].Message, "comes within 10 mm"},
		{"obstacle touched", Sweep(0, 0, at(0), 1, policy)[0].Message, "meets it"},
		{"ground near", Ground(0, room.GroundSwing{Swing: at(0.01)}, 1, policy)[0].Message, "comes within 10 mm"},
		{"ground touched", Ground(0, room.GroundSwing{Swing: at(0)}, 1, policy)[0].Message, "comes within 0 mm"},
		{"ground over the edge", Ground(0, room.GroundSwing{Swing: at(-0.02)}, 1, policy)[0].Message, "stands 20 mm over"},
	} {
		if !strings.Contains(c.got, c.want) {
			t.Errorf("%s: says %q, want %q in it", c.name, c.got, c.want)
		}
	}
}
