package rules

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/units"
)

// Leaf judges one leaf and its hinges as they are, whichever drive is chosen.
func Leaf(i int, l gate.Leaf, body leaf.Body, p catalog.Policies) []finding.Finding {
	out := hinges(i, l, p)
	out = append(out, holdFast(i, l)...)
	if l.Drags == gate.Yes {
		f := found(finding.LeafDrags, LeafPath(i, "drags"), "The leaf touches the ground on its way; no drive is to fight that.")
		out = append(out, remedy(f, finding.DoWork, "Have the leaf rehung or the ground cut back until it swings free by hand."))
	}
	if level, known := l.OutOfLevel.Get(); known {
		most := units.Length(p.MostOutOfLevel) * body.Width
		if abs(level).Past(most) {
			f := measured(found(finding.OutOfLevel, LeafPath(i, "out_of_level_mm"), "The free edge hangs off level by more than the hinges should allow."),
				level.Millimeters(), most.Millimeters(), "mm")
			out = append(out, remedy(f, finding.DoWork, "Have the hinges adjusted until the closed leaf is level."))
		}
	}
	if body.Mass.Estimated() {
		f := measured(found(finding.MassEstimated, LeafPath(i, "construction"),
			"The mass is estimated from the construction, %.0f to %.0f kg; every figure is taken at the unfavorable end.", float64(body.Mass.Low), float64(body.Mass.High)),
			float64(body.Mass.Low), float64(body.Mass.High), "kg")
		out = append(out, remedy(f, finding.Measure, "Weigh the leaf at both hinges, or ask its maker for its mass."))
	}
	if l.Frame == gate.FrameTimber || l.Frame == gate.FrameSquareTube || l.Frame == gate.FrameUnknown {
		f := found(finding.BoltBracketThrough, LeafPath(i, "frame_type"), "The leaf bracket is bolted through the frame member or welded to it, never held by self-drilling screws.")
		out = append(out, remedy(f, finding.DoWork, "Bolt the leaf bracket through, with a plate behind where the member is thin or timber."))
	}
	return out
}

func hinges(i int, l gate.Leaf, p catalog.Policies) []finding.Finding {
	var out []finding.Finding
	switch l.Hinge {
	case gate.HingeRising:
		f := found(finding.HingesRising, LeafPath(i, "hinge_type"), "Rising hinges lift the leaf as it opens, out of the plane the drive works in.")
		out = append(out, remedy(f, finding.DoWork, "Have the rising hinges replaced by plain ones with an upright axis."))
	case gate.HingeSpring:
		f := found(finding.HingesSpring, LeafPath(i, "hinge_type"), "A spring hinge works against the drive one way and drives the leaf the other.")
		out = append(out, remedy(f, finding.DoWork, "Have the spring taken out or the hinges replaced by plain ones."))
	}
	switch l.HingeCondition {
	case gate.HingesBinding:
		f := found(finding.HingesBind, LeafPath(i, "hinge_condition"), "The hinges bind; no drive is to fight that.")
		out = append(out, remedy(f, finding.DoWork, "Have the hinges freed, greased or replaced until the leaf swings easily by hand."))
	case gate.HingesWorn:
		f := found(finding.HingesWorn, LeafPath(i, "hinge_condition"), "The hinges have play, which a drive will make worse.")
		out = append(out, remedy(f, finding.DoWork, "Have worn hinges replaced while the gate is being fitted."))
	}
	if lean, known := l.OutOfPlumb.Get(); known && lean > p.MostOutOfPlumb {
		f := measured(found(finding.OutOfPlumb, LeafPath(i, "out_of_plumb_deg"), "The hinge axis leans more than a drive should have to work against."),
			lean.Degrees(), p.MostOutOfPlumb.Degrees(), "deg")
		out = append(out, remedy(f, finding.DoWork, "Have the post or the hinges set plumb."))
	}
	if l.Rest == gate.RestDriftsOpen || l.Rest == gate.RestDriftsClosed {
		way := "open"
		if l.Rest == gate.RestDriftsClosed {
			way = "shut"
		}
		f := found(finding.LeafDrifts, LeafPath(i, "rest"), "Let go halfway, the leaf drifts %s: its hinge axis leans, or a spring works on it.", way)
		f = remedy(f, finding.DoWork, "Have the hinges set plumb until the leaf stays where it is left.")
		if !l.OutOfPlumb.IsKnown() {
			f = remedy(f, finding.Measure, "Hold a level against the hinge post, both ways, and say how far it leans.")
		}
		out = append(out, f)
	}
	return out
}

func holdFast(i int, l gate.Leaf) []finding.Finding {
	var out []finding.Finding
	if l.Latch == gate.Yes {
		f := found(finding.LatchToRemove, LeafPath(i, "latch"), "A latch that catches by itself holds the leaf against the drive.")
		out = append(out, remedy(f, finding.DoWork, "Take the latch off or pin it back for good."))
	}
	if l.DropBolt == gate.Yes {
		f := found(finding.DropBoltToRemove, LeafPath(i, "drop_bolt"), "A drop bolt left down holds the leaf against the drive.")
		out = append(out, remedy(f, finding.DoWork, "Take the drop bolt off."))
	}
	return out
}

// Ground judges the ground under a leaf's swing.
func Ground(i int, g room.GroundSwing, open units.Angle, p catalog.Policies) []finding.Finding {
	if g.Outcome != room.Limited && g.Outcome != room.BlockedClosed {
		return nil
	}
	where := fmt.Sprintf("leaf %d at %.0f degrees, %.0f mm from its hinge axis", i+1, g.At.Degrees(), g.Radius.Millimeters())
	text := fmt.Sprintf("The ground comes within %.0f mm of %s.", g.Clearance.Millimeters(), where)
	if g.Clearance < 0 {
		text = fmt.Sprintf("The ground stands %.0f mm over the bottom edge of %s.", -g.Clearance.Millimeters(), where)
	}
	f := measured(found(finding.GroundRises, "gate.ground", text),
		g.Clearance.Millimeters(), p.LeastGroundClearance.Millimeters(), "mm")
	if g.FreeTo > 0 && g.FreeTo < open {
		f = remedy(f, finding.ChangeWish, "Open to %.0f degrees, up to where the leaf clears the ground.", floorDegrees(g.FreeTo))
	}
	return []finding.Finding{remedy(f, finding.DoWork, "Have the ground lowered or the leaf's bottom edge raised by %.0f mm.", (p.LeastGroundClearance-g.Clearance).Millimeters()+1)}
}

// Bracket judges where the leaf bracket can go: a rail has to stand behind it.
// height is where the drive should sit over the leaf's bottom edge; the nearest
// rail is returned where the rails are known.
func Bracket(i int, l gate.Leaf, pair bool, height units.Length, bracket catalog.LeafBracket, sku string) ([]finding.Finding, units.Opt[units.Length]) {
	var out []finding.Finding
	if l.Frame == gate.FrameRoundTube {
		f := found(finding.RoundTubeFrame, LeafPath(i, "frame_type"), "A flat leaf bracket finds no seat on a round tube.")
		if bracket.Form == catalog.ClampLeafBracket {
			f = remedyPart(f, sku, "Fit the clamp bracket around the tube.")
		} else {
			f = remedy(f, finding.DoWork, "Have a flat plate welded to the tube for the leaf bracket.")
		}
		out = append(out, f)
	}
	where, code, why := "at mid height", finding.MountAtMidHeight, "A single leaf takes its drive at mid height, where it twists the leaf least."
	if pair {
		where, code, why = "low", finding.MountLow, "A pair takes its drives low, near the stop that takes the closing force."
	}
	out = append(out, measuredOnly(found(code, LeafPath(i, "rail_heights_mm"), why), height.Millimeters(), "mm"))
	if len(l.Rails) == 0 {
		f := found(finding.RailsNotGiven, LeafPath(i, "rail_heights_mm"), "The leaf bracket wants a rail or a plate behind it, %s, about %.0f mm over the bottom edge.", where, height.Millimeters())
		return append(out, remedy(f, finding.Photograph, "Photograph the whole leaf from the drive's side, with a tape held upright against it.")), units.Opt[units.Length]{}
	}
	nearest := l.Rails[0]
	for _, r := range l.Rails[1:] {
		if abs(r-height) < abs(nearest-height) {
			nearest = r
		}
	}
	reach := railReach(l)
	if abs(nearest - height).Past(reach) {
		f := measured(found(finding.RailMissing, LeafPath(i, "rail_heights_mm"), "No rail stands %s; the nearest is %.0f mm away.", where, abs(nearest-height).Millimeters()),
			nearest.Millimeters(), height.Millimeters(), "mm")
		out = append(out, remedy(f, finding.DoWork, "Have a rail or a plate between two uprights fitted %.0f mm over the leaf's bottom edge.", height.Millimeters()))
		return out, units.Opt[units.Length]{}
	}
	return out, units.Known(nearest)
}

// railReach is how far from the wanted height a rail still serves: a quarter of
// the leaf's height. Common practice, no source.
func railReach(l gate.Leaf) units.Length { return l.Height.Or(0) / 4 }

func abs[T ~float64](v T) T { return max(v, -v) }

// floorDegrees is an angle in whole degrees, rounded down: what is said to be
// clear must be clear.
func floorDegrees(a units.Angle) float64 { return float64(int(a.Degrees() + 1e-9)) }
