package rules

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/units"
)

// Sweep judges a leaf's swing past one obstacle.
func Sweep(i, obstacle int, s room.Swing, open units.Angle, p catalog.Policies) []finding.Finding {
	if s.Outcome == room.Free {
		return nil
	}
	text := fmt.Sprintf("Leaf %d comes within %.0f mm of it at %.0f degrees.", i+1, s.Clearance.Millimeters(), s.At.Degrees())
	if s.Clearance <= 0 {
		text = fmt.Sprintf("Leaf %d meets it at %.0f degrees.", i+1, s.At.Degrees())
	}
	f := measured(found(finding.SweepObstructed, fmt.Sprintf("gate.obstacles[%d]", obstacle), text),
		s.Clearance.Millimeters(), p.LeastSideClearance.Millimeters(), "mm")
	if s.FreeTo > 0 && s.FreeTo < open {
		f = remedy(f, finding.ChangeWish, "Open to %.0f degrees, up to where the leaf keeps clear of it.", floorDegrees(s.FreeTo))
	}
	return []finding.Finding{remedy(f, finding.DoWork, "Have it moved out of the swing.")}
}

// OwnPier judges how far a leaf may open before it meets its own pier.
func OwnPier(i int, s room.Swing, open units.Angle) []finding.Finding {
	if s.Outcome == room.Free || s.FreeTo >= open {
		return nil
	}
	f := measured(found(finding.LeafStrikesPier, LeafPath(i, "hinge_post"), "The leaf meets its own pier at %.0f degrees.", s.FreeTo.Degrees()),
		s.FreeTo.Degrees(), open.Degrees(), "deg")
	if s.FreeTo >= minimumUseful {
		f = remedy(f, finding.ChangeWish, "Open to %.0f degrees.", floorDegrees(s.FreeTo))
	}
	return []finding.Finding{remedy(f, finding.DoWork, "Have the hinges moved towards the pier's face.")}
}

// minimumUseful is the least angle worth offering. Common practice, no source.
const minimumUseful = units.Angle(0.7854) // 45 degrees

// PublicWay judges a gate that swings out beside a public way. left is what the
// open leaf leaves to it where its distance is known.
func PublicWay(g gate.Gate, left units.Opt[units.Length]) []finding.Finding {
	if g.Driveway.PublicWayOutside != gate.Yes || g.Opening.Direction != gate.Outward && g.Opening.DriveSide != gate.DriveOutside {
		return nil
	}
	f := found(finding.OverPublicWay, "gate.driveway.public_way_outside", "The leaf or its drive swings towards a public way; many places forbid a gate to open over one.")
	if d, known := left.Get(); known {
		f = measuredOnly(f, d.Millimeters(), "mm")
	} else {
		f = remedy(f, finding.Measure, "Measure from the closed gate to the edge of the public way (public_way_distance_mm).")
	}
	f = remedy(f, finding.ChangeWish, "Hang the gate to open into the property.")
	return []finding.Finding{remedy(f, finding.Photograph, "Photograph the gate from outside, with the footpath or road in the picture, and ask the local authority.")}
}

// DriveOutside cautions about a drive that stands on the outside.
func DriveOutside(g gate.Gate) []finding.Finding {
	if g.Opening.DriveSide != gate.DriveOutside {
		return nil
	}
	f := found(finding.DriveSideNotFree, "gate.opening.drive_side", "A drive outside the gate stands within reach of passers-by and of weather from the road.")
	return []finding.Finding{remedy(f, finding.DoWork, "Guard the drive and its brackets against reaching in.")}
}

// InDriveway judges how far a drive stands into the driveway when open. width
// is what stays clear, where the driveway's width is known.
func InDriveway(i int, over room.Overrun, fromAxis units.Length) []finding.Finding {
	if over.Open <= 0 {
		return nil
	}
	f := measuredOnly(found(finding.DriveInDriveway, LeafPath(i, "hinge_post"),
		"With the gate open the drive stands %.0f mm into the driveway, %.0f mm from the hinge axis.", over.Open.Millimeters(), fromAxis.Millimeters()),
		over.Open.Millimeters(), "mm")
	return []finding.Finding{remedy(f, finding.Measure, "Check that the widest vehicle still passes.")}
}

// ClearWidth judges what stays clear between open leaves and drives.
func ClearWidth(g gate.Gate, taken units.Length) []finding.Finding {
	width, known := g.Driveway.Width.Get()
	wanted, wantedKnown := g.Driveway.ClearWidthWanted.Get()
	if !known || !wantedKnown || width-taken >= wanted {
		return nil
	}
	f := measured(found(finding.ClearWidthTooSmall, "gate.driveway.clear_width_wanted_mm", "Open leaves and drives leave less width clear than is wanted."),
		(width - taken).Millimeters(), wanted.Millimeters(), "mm")
	f = remedy(f, finding.ChangeWish, "Make do with %.0f mm.", (width - taken).Millimeters())
	return []finding.Finding{remedy(f, finding.ChangeWish, "Have the drive on the side the gate opens to, beside the open leaf.")}
}

// NoMounting explains a drive for which no position of the brackets holds every
// limit at the wanted angle. largest is the largest angle at which one does.
func NoMounting(i int, open units.Angle, largest units.Opt[units.Angle]) finding.Finding {
	if most, known := largest.Get(); known {
		f := measured(found(finding.AngleOutOfReach, "gate.opening.angle_deg", "With its brackets on this post the drive opens leaf %d to %.0f degrees at most.", i+1, floorDegrees(most)),
			open.Degrees(), floorDegrees(most), "deg")
		return remedy(f, finding.ChangeWish, "Open to %.0f degrees.", floorDegrees(most))
	}
	f := found(finding.MountingOutOfReach, LeafPath(i, "hinge_post"), "No position of the brackets on this post satisfies the drive's travel and the least moment arm.")
	f = remedy(f, finding.Measure, "Measure the post's width and the hinge axis's place on it (width_mm, hinge_inset_mm, hinge_setback_mm).")
	return remedy(f, finding.ChangeWish, "Take a drive of another stroke.")
}

// OpeningTime judges the time an opening takes against the customer's wish.
func OpeningTime(i int, took units.Time, wish units.Opt[units.Time]) []finding.Finding {
	most, known := wish.Get()
	if !known || took <= most {
		return nil
	}
	f := measured(found(finding.OpeningTimeOverWish, "gate.opening.wanted_time_s", "Leaf %d takes %.0f s to open.", i+1, float64(took)),
		float64(took), float64(most), "s")
	return []finding.Finding{remedy(f, finding.ChangeWish, "Accept %.0f s; a slower leaf is a safer one.", math.Ceil(float64(took)))}
}
