package gate

import (
	"fmt"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func mm(v float64) units.Opt[units.Length] { return units.Known(units.Millimeters(v)) }

// plainLeaf has what a leaf can't be sized without, and no more.
func plainLeaf() Leaf {
	return Leaf{Width: mm(3000), Height: mm(1200), Mass: units.Known(units.Mass(90)), Solidity: units.Known(0.3)}
}

// fullSingle is a single leaf described in full, with every value that another
// limits at its limit exactly.
func fullSingle() Gate {
	tube := Section{Width: 0.05, Depth: 0.05, Wall: 0.003}
	l := plainLeaf()
	l.Construction = units.Known(Construction{Material: Steel, Stile: tube, Rail: tube, RailCount: 2, Bar: units.Known(tube), BarCount: 12})
	l.Infill, l.Solidity = InfillSolid, units.Known(0.9)
	l.Rails = []units.Length{0, 1.2}
	l.Hinge, l.Rest, l.Latch = HingePlain, RestStays, Yes
	l.HingeSpacing = mm(1800)
	l.CenterOfMass = mm(2999)
	l.Post = Post{Shape: PostRectangular, Width: mm(100), Wall: mm(49), HingeInset: mm(100)}
	return Gate{
		Leaves: []Leaf{l},
		Obstacles: []Obstacle{
			{Kind: ObstacleTree, Radius: mm(300)},
			{Kind: ObstacleWall, Outline: []Point{{0, 0}, {1, 0}, {0, 1}}},
		},
		Closing:  Closing{Onto: OntoPost, Gap: mm(20), Overlapping: OverlapNone},
		Driveway: Driveway{Width: units.Known(3 - drivewayOverlap), ClearWidthWanted: units.Known(3 - drivewayOverlap)},
		Site: Site{
			Gust: units.Known(units.Speed(30)), OperatingWind: units.Known(units.Speed(30)),
			LowestTemperature: units.Known(units.Temperature(10)), HighestTemperature: units.Known(units.Temperature(10)),
		},
		Power: Power{
			Conductor: units.Known(Conductor{Standard: IEC60228Class5, Area: units.SquareMillimeters(2.5)}),
			Outage:    units.Known(units.Time(3600)), OutageCycles: units.Known(4),
			Solar: units.Known(SolarSite{Monthly: make([]units.Energy, 12)}),
		},
	}
}

// fullPair is a pair described in full.
func fullPair() Gate {
	g := fullSingle()
	g.Leaves = append(g.Leaves, plainLeaf())
	g.Closing = Closing{Onto: OntoSecondLeaf, Gap: mm(20), Overlapping: OverlapSecond}
	g.Driveway.Width = units.Known(units.Length(6))
	g.Power.Conductor = units.Known(Conductor{Standard: AWG, Gauge: 0})
	return g
}

func TestGoodGatesHaveNoFault(t *testing.T) {
	for name, g := range map[string]Gate{
		"no more than is needed": {Leaves: []Leaf{plainLeaf()}},
		"pair, no more":          {Leaves: []Leaf{plainLeaf(), plainLeaf()}},
		"described in full":      fullSingle(),
		"pair in full":           fullPair(),
		"infill for solidity":    {Leaves: []Leaf{with(func(l *Leaf) { l.Solidity = units.Opt[float64]{}; l.Infill = InfillMesh })}},
		"construction for mass": {Leaves: []Leaf{with(func(l *Leaf) {
			l.Mass = units.Opt[units.Mass]{}
			l.Construction = units.Known(Construction{RailCount: 2})
		})}},
		"spring hinge that drifts": {Leaves: []Leaf{with(func(l *Leaf) { l.Hinge, l.Rest = HingeSpring, RestDriftsClosed })}},
		"onto nothing":             {Leaves: []Leaf{plainLeaf()}, Closing: Closing{Onto: OntoNothing}},
		"no cycles in an outage":   {Leaves: []Leaf{plainLeaf()}, Power: Power{OutageCycles: units.Known(0)}},
		"sun without months":       {Leaves: []Leaf{plainLeaf()}, Power: Power{Solar: units.Known(SolarSite{})}},
	} {
		if faults := g.Check(); len(faults) != 0 {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func with(change func(*Leaf)) Leaf {
	l := plainLeaf()
	change(&l)
	return l
}

func TestFaults(t *testing.T) {
	for _, c := range faultCases {
		t.Run(c.field+" "+c.reason.String()+" "+c.name, func(t *testing.T) {
			g := fullSingle()
			if c.pair {
				g = fullPair()
			}
			c.spoil(&g)
			faults := g.Check()
			if len(faults) != 1 {
				t.Fatalf("%d faults, want one: %v", len(faults), faults)
			}
			f := faults[0]
			if f.Field != c.field || f.Reason != c.reason {
				t.Errorf("fault %s at %s, want %s at %s", f.Reason, f.Field, c.reason, c.field)
			}
			if len(f.Text) < 10 || strings.Contains(f.Text, "%!") {
				t.Errorf("the text says %q", f.Text)
			}
		})
	}
}

// TestLimitsInWholeMillimeters has no rounding decide for a length that is given
// at its limit exactly.
func TestLimitsInWholeMillimeters(t *testing.T) {
	for size := 500.0; size <= 4000; size += 10 {
		g := Gate{Leaves: []Leaf{plainLeaf()}, Driveway: Driveway{Width: mm(size)}}
		g.Leaves[0].Width, g.Leaves[0].Height, g.Leaves[0].HingeSpacing = mm(size+200), mm(size), mm(size+600)
		if faults := g.Check(); len(faults) != 0 {
			t.Errorf("%.0f mm: %v", size, faults)
		}
	}
}

// TestEmptyLeafMissesEverything has all that is missing told at once, in order.
func TestEmptyLeafMissesEverything(t *testing.T) {
	var got []string
	for _, f := range (Gate{Leaves: []Leaf{{}, {}}}).Check() {
		got = append(got, f.Field+" "+f.Reason.String())
	}
	var want []string
	for i := range 2 {
		for _, field := range []string{"width_mm", "height_mm", "mass_kg", "solidity"} {
			want = append(want, fmt.Sprintf("leaves[%d].%s MISSING", i, field))
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestFaultReasonNames(t *testing.T) {
	for reason, want := range map[FaultReason]string{
		0: "UNREGISTERED", Missing: "MISSING", Contradiction: "CONTRADICTION", Impossible: "IMPOSSIBLE", 4: "UNREGISTERED",
	} {
		if got := reason.String(); got != want {
			t.Errorf("reason %d is named %s, want %s", reason, got, want)
		}
	}
}
