package rules

import (
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/units"
)

func leafCases() []ruleCase {
	body := leaf.Body{Width: 4, Mass: leaf.Mass{Low: 90, Nominal: 90, High: 90}}
	estimated := leaf.Body{Width: 4, Mass: leaf.Mass{Low: 80, Nominal: 90, High: 100}}
	judge := func(l gate.Leaf) []finding.Finding { return Leaf(0, l, body, policy) }
	sound := judge(gate.Leaf{
		Hinge: gate.HingePlain, HingeCondition: gate.HingesGood, Rest: gate.RestStays, Frame: gate.FrameSolidBar,
		Latch: gate.No, DropBolt: gate.No, Drags: gate.No,
		OutOfPlumb: units.Known(policy.MostOutOfPlumb), OutOfLevel: length(0.03125),
	})
	lowEdge := func(share units.Length) []finding.Finding {
		return judge(gate.Leaf{OutOfLevel: length(0.03125 * share)})
	}
	ground := func(s room.Swing) []finding.Finding {
		return Ground(0, room.GroundSwing{Swing: s, Radius: 4}, 1.5, policy)
	}
	at := func(field string) string { return "gate.leaves[0]." + field }
	return []ruleCase{
		{code: finding.HingesRising, subject: at("hinge_type"), findings: judge(gate.Leaf{Hinge: gate.HingeRising}), nearMiss: sound},
		{code: finding.HingesSpring, subject: at("hinge_type"), findings: judge(gate.Leaf{Hinge: gate.HingeSpring}), nearMiss: sound},
		{code: finding.HingesSpring, subject: "gate.leaves[1].hinge_type", findings: Leaf(1, gate.Leaf{Hinge: gate.HingeSpring}, body, policy), nearMiss: judge(gate.Leaf{})},
		{code: finding.LatchToRemove, subject: at("latch"), findings: judge(gate.Leaf{Latch: gate.Yes}), nearMiss: sound},
		{code: finding.LatchToRemove, subject: at("latch"), findings: judge(gate.Leaf{Latch: gate.Yes}), nearMiss: judge(gate.Leaf{})},
		{code: finding.DropBoltToRemove, subject: at("drop_bolt"), findings: judge(gate.Leaf{DropBolt: gate.Yes}), nearMiss: sound},
		{code: finding.DropBoltToRemove, subject: at("drop_bolt"), findings: judge(gate.Leaf{DropBolt: gate.Yes}), nearMiss: judge(gate.Leaf{})},
		{code: finding.LeafDrifts, subject: at("rest"), findings: judge(gate.Leaf{Rest: gate.RestDriftsOpen}), nearMiss: sound},
		{code: finding.LeafDrifts, subject: at("rest"), findings: judge(gate.Leaf{Rest: gate.RestDriftsClosed}), nearMiss: judge(gate.Leaf{})},
		{code: finding.LeafDrags, subject: at("drags"), findings: judge(gate.Leaf{Drags: gate.Yes}), nearMiss: sound},
		{code: finding.LeafDrags, subject: at("drags"), findings: judge(gate.Leaf{Drags: gate.Yes}), nearMiss: judge(gate.Leaf{})},
		{code: finding.HingesBind, subject: at("hinge_condition"), findings: judge(gate.Leaf{HingeCondition: gate.HingesBinding}), nearMiss: sound},
		{code: finding.HingesWorn, subject: at("hinge_condition"), findings: judge(gate.Leaf{HingeCondition: gate.HingesWorn}), nearMiss: sound},
		{code: finding.OutOfPlumb, subject: at("out_of_plumb_deg"), findings: judge(gate.Leaf{OutOfPlumb: units.Known(policy.MostOutOfPlumb * justOver)}), nearMiss: sound},
		{code: finding.OutOfLevel, subject: at("out_of_level_mm"), findings: lowEdge(justOver), nearMiss: lowEdge(1)},
		{code: finding.OutOfLevel, subject: at("out_of_level_mm"), findings: lowEdge(-justOver), nearMiss: lowEdge(-1)},
		{code: finding.MassEstimated, subject: at("construction"), findings: Leaf(0, gate.Leaf{}, estimated, policy), nearMiss: sound},
		{code: finding.BoltBracketThrough, subject: at("frame_type"), findings: judge(gate.Leaf{}), nearMiss: sound},
		{code: finding.BoltBracketThrough, subject: at("frame_type"), findings: judge(gate.Leaf{Frame: gate.FrameTimber}), nearMiss: judge(gate.Leaf{Frame: gate.FrameRoundTube})},
		{
			code: finding.GroundRises, subject: "gate.ground",
			findings: ground(room.Swing{Outcome: room.Limited, Clearance: 0.0624, At: 1.4, FreeTo: 1.3}),
			nearMiss: ground(room.Swing{Outcome: room.Free, Clearance: policy.LeastGroundClearance, FreeTo: 1.5}),
		},
		{
			code: finding.GroundRises, subject: "gate.ground",
			findings: ground(room.Swing{Outcome: room.BlockedClosed, Clearance: -0.01}),
			nearMiss: ground(room.Swing{Outcome: room.NotSurveyed}),
		},
	}
}

func bracketCases() []ruleCase {
	const high units.Length = 1
	judge := func(pair bool, frame gate.FrameType, form catalog.LeafBracketForm, rails ...units.Length) []finding.Finding {
		out, _ := Bracket(0, gate.Leaf{Height: length(high), Frame: frame, Rails: rails}, pair, high/2, catalog.LeafBracket{Form: form}, "LB-1")
		return out
	}
	square := judge(false, gate.FrameSquareTube, catalog.FlatLeafBracket, 0.1, high/2+high/4, 0.99) // a rail at the reach exactly
	missing := judge(true, gate.FrameSquareTube, catalog.FlatLeafBracket, 0.1, high/2+high/4*justOver)
	const rails, frame = "gate.leaves[0].rail_heights_mm", "gate.leaves[0].frame_type"
	return []ruleCase{
		{code: finding.RailMissing, subject: rails, findings: missing, nearMiss: square},
		{code: finding.RailMissing, subject: rails, findings: missing, nearMiss: judge(false, gate.FrameSquareTube, catalog.FlatLeafBracket)},
		{code: finding.RailsNotGiven, subject: rails, findings: judge(false, gate.FrameSquareTube, catalog.FlatLeafBracket), nearMiss: square},
		{code: finding.RoundTubeFrame, subject: frame, findings: judge(false, gate.FrameRoundTube, catalog.ClampLeafBracket), nearMiss: square},
		{code: finding.RoundTubeFrame, subject: frame, findings: judge(false, gate.FrameRoundTube, catalog.FlatLeafBracket), nearMiss: square},
		{code: finding.MountAtMidHeight, subject: rails, findings: square, nearMiss: missing},
		{code: finding.MountLow, subject: rails, findings: missing, nearMiss: square},
	}
}

func TestBracketTakesTheNearestRail(t *testing.T) {
	for name, c := range map[string]struct {
		rails []units.Length
		want  units.Opt[units.Length]
	}{
		"none given":               {nil, noLength},
		"none near":                {[]units.Length{0.1, 0.9}, noLength},
		"at the reach":             {[]units.Length{0.75}, length(0.75)},
		"the nearest":              {[]units.Length{0.3, 0.55, 0.4, 0.7}, length(0.55)},
		"the first of two as near": {[]units.Length{0.25, 0.75}, length(0.25)},
		"from below":               {[]units.Length{0.3, 0.45, 0.7}, length(0.45)},
	} {
		if _, got := Bracket(0, gate.Leaf{Height: length(1), Rails: c.rails}, false, 0.5, catalog.LeafBracket{}, ""); got != c.want {
			t.Errorf("%s: got %v, want %v", name, got, c.want)
		}
	}
}

// TestLimitsInWholeMillimeters has no rounding decide for a length that is given
// at its limit exactly.
func TestLimitsInWholeMillimeters(t *testing.T) {
	p := catalog.Policies{MostOutOfLevel: 10.0 / 1000}
	for size := 400; size <= 8000; size += 100 {
		l := gate.Leaf{
			Height: length(units.Millimeters(size)), OutOfLevel: length(units.Millimeters(size / 100)),
			Rails: []units.Length{units.Millimeters(size * 3 / 4)},
		}
		if list := Leaf(0, l, leaf.Body{Width: units.Millimeters(size)}, p); len(withCode(list, finding.OutOfLevel)) != 0 {
			t.Errorf("%d mm: %v", size, list)
		}
		if list, _ := Bracket(0, l, false, units.Millimeters(size)/2, catalog.LeafBracket{}, ""); len(withCode(list, finding.RailMissing)) != 0 {
			t.Errorf("%d mm: %v", size, list)
		}
	}
}

// TestWhatIsClearIsRoundedDown keeps the angle that is offered within the one
// that is clear.
func TestWhatIsClearIsRoundedDown(t *testing.T) {
	for _, c := range []struct{ angle, want float64 }{{90, 90}, {89.999, 89}, {45.5, 45}, {110.2, 110}, {0.4, 0}} {
		if got := floorDegrees(units.Degrees(c.angle)); got != c.want {
			t.Errorf("%v degrees are offered as %v, want %v", c.angle, got, c.want)
		}
	}
}
