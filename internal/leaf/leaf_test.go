package leaf

import (
	"math"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

var unknownCenter units.Opt[units.Length]

func mustWeigh(t *testing.T, m units.Mass, width units.Length) Body {
	t.Helper()
	b, err := Weighed(m, width, unknownCenter)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func mustResist(t *testing.T, f Facts) Resistance {
	t.Helper()
	r, err := NewResistance(f)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// worst is the largest of 19 resistances over a right angle.
func worst(r Resistance, m Motion, wind units.Torque) float64 {
	dst := make([]float64, 19)
	r.Fill(dst, m, units.Degrees(90), wind)
	most := math.Inf(-1)
	for _, v := range dst {
		most = math.Max(most, v)
	}
	return most
}

func TestHarderNeverTurnsEasier(t *testing.T) {
	lean := Lean{Angle: units.Degrees(0.7)}
	for _, m := range []Motion{Opening, Closing} {
		at := func(mass units.Mass, width, spacing units.Length, condition gate.HingeCondition, wind units.Torque) float64 {
			r := mustResist(t, Facts{Body: mustWeigh(t, mass, width), Hinge: DefaultHinge(spacing, condition), Lean: lean})
			return worst(r, m, wind)
		}
		base := at(100, 3, 1, gate.HingesGood, 50)
		for name, harder := range map[string]float64{
			"heavier":         at(101, 3, 1, gate.HingesGood, 50),
			"wider":           at(100, 3.01, 1, gate.HingesGood, 50),
			"windier":         at(100, 3, 1, gate.HingesGood, 51),
			"closer hinges":   at(100, 3, 0.99, gate.HingesGood, 50),
			"unknown grease":  at(100, 3, 1, gate.HingeConditionUnknown, 50),
			"binding":         at(100, 3, 1, gate.HingesBinding, 50),
			"farther hinges*": 2*base - at(100, 3, 1.01, gate.HingesGood, 50),
		} {
			if harder <= base {
				t.Errorf("motion %d, %s: %v against %v", m, name, harder, base)
			}
		}
	}
}

// Doubling the mass doubles friction and lean.
func TestMassScales(t *testing.T) {
	lean := Lean{Angle: units.Degrees(1), Direction: units.Known(units.Degrees(30))}
	one := mustResist(t, Facts{Body: mustWeigh(t, 60, 3), Hinge: DefaultHinge(1, gate.HingesGood), Lean: lean})
	two := mustResist(t, Facts{Body: mustWeigh(t, 120, 3), Hinge: DefaultHinge(1, gate.HingesGood), Lean: lean})
	for _, theta := range []units.Angle{0, 0.4, 1, 1.6} {
		for _, m := range []Motion{Opening, Closing} {
			if a, b := float64(one.Moment(m, theta)), float64(two.Moment(m, theta)); math.Abs(b-2*a) > 1e-9*math.Abs(b) {
				t.Errorf("motion %d at %v: %v and %v", m, theta, a, b)
			}
		}
	}
}

func TestUnfavorableEndOfTheMass(t *testing.T) {
	estimated, err := Estimate(barredLeaf(), 3.5, 1.8, unknownCenter)
	if err != nil {
		t.Fatal(err)
	}
	if !estimated.Mass.Estimated() || mustWeigh(t, 90, 3).Mass.Estimated() {
		t.Error("a mass is estimated exactly where it has bounds")
	}
	lean := Lean{Angle: units.Degrees(1), Direction: units.Known(units.Angle(0))}
	resist := func(m units.Mass) Resistance {
		return mustResist(t, Facts{Body: mustWeigh(t, m, 3.5), Hinge: DefaultHinge(1.4, gate.HingesGood), Lean: lean})
	}
	r := mustResist(t, Facts{Body: estimated, Hinge: DefaultHinge(1.4, gate.HingesGood), Lean: lean})
	low, high := resist(estimated.Mass.Low), resist(estimated.Mass.High)
	if got, want := r.Moment(Opening, 1), high.Moment(Opening, 1); math.Abs(float64(got-want)) > 1e-9 {
		t.Errorf("against the lean: %v, the heavy leaf has %v", got, want)
	}
	if got, want := r.Lean(Closing, 1), low.Lean(Closing, 1); got >= 0 || math.Abs(float64(got-want)) > 1e-9 {
		t.Errorf("with the lean: %v, the light leaf has %v", got, want)
	}
	if got, want := r.Friction(Closing).Turning, high.Friction(Closing).Turning; math.Abs(float64(got-want)) > 1e-9 {
		t.Errorf("friction: %v, the heavy leaf has %v", got, want)
	}
}

func TestLeanOfUnknownDirectionIsTheWorst(t *testing.T) {
	b := mustWeigh(t, 100, 3)
	hinge := DefaultHinge(1, gate.HingesGood)
	unknown := mustResist(t, Facts{Body: b, Hinge: hinge, Lean: Lean{Angle: 0.01}})
	for d := -180.0; d <= 180; d += 7.5 {
		known := mustResist(t, Facts{Body: b, Hinge: hinge, Lean: Lean{Angle: 0.01, Direction: units.Known(units.Degrees(d))}})
		for theta := units.Angle(0); theta < 2; theta += 0.1 {
			for _, m := range []Motion{Opening, Closing} {
				if known.Moment(m, theta) > unknown.Moment(m, theta)+1e-12 {
					t.Fatalf("direction %v asks more at %v than an unknown one", d, theta)
				}
			}
			if sum := known.Lean(Opening, theta) + known.Lean(Closing, theta); math.Abs(float64(sum)) > 1e-9 {
				t.Fatalf("the lean helps one way what it resists the other, not %v", sum)
			}
		}
	}
}

func TestMeasuredHandForce(t *testing.T) {
	f := Facts{
		Body: mustWeigh(t, 100, 3), Hinge: DefaultHinge(1, gate.HingesGood),
		Lean:        Lean{Angle: 0.02, Direction: units.Known(units.Angle(0))},
		HandClosing: units.Known(units.Force(20)),
	}
	r := mustResist(t, f)
	if got := r.Friction(Closing); !got.Measured || math.Abs(float64(got.Turning-60)) > 1e-12 {
		t.Errorf("20 N at 3 m: %+v", got)
	}
	if r.Friction(Opening).Measured {
		t.Error("opening wasn't measured")
	}
	if got := r.Lean(Closing, 1); got != 0 {
		t.Errorf("a helpful lean is counted twice: %v", got)
	}
	if got := r.Lean(Opening, 1); got <= 0 {
		t.Errorf("a lean that resists is forgotten: %v", got)
	}
	if got, want := float64(r.Friction(Closing).Start), 60*(BreakawayFactor-1); math.Abs(got-want) > 1e-9 {
		t.Errorf("start: %v, want %v", got, want)
	}
}

func TestFill(t *testing.T) {
	r := mustResist(t, Facts{
		Body: mustWeigh(t, 100, 3), Hinge: DefaultHinge(1, gate.HingeConditionUnknown),
		Lean: Lean{Angle: 0.02, Direction: units.Known(units.Angle(0.3))},
	})
	open := units.Degrees(100)
	dst := make([]float64, 37)
	for _, m := range []Motion{Opening, Closing} {
		r.Fill(dst, m, open, 12)
		start := 0
		if m == Closing {
			start = len(dst) - 1
		}
		for i, got := range dst {
			want := float64(r.Moment(m, open*units.Angle(float64(i))/36)) + 12
			if i == start {
				want += float64(r.Friction(m).Start)
			}
			if math.Abs(got-want) > 1e-9 {
				t.Errorf("motion %d, angle %d: %v, want %v", m, i, got, want)
			}
		}
		single := make([]float64, 1)
		r.Fill(single, m, open, 12)
		if single[0] != dst[start] {
			t.Errorf("motion %d: a single angle gives %v, the start %v", m, single[0], dst[start])
		}
		r.Fill(nil, m, open, 12)
	}
	if n := testing.AllocsPerRun(50, func() { r.Fill(dst, Closing, open, 12) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestSpreadIsContinuousAndGrows(t *testing.T) {
	before := units.Length(0)
	for x := units.Length(0.01); x <= 3; x += 0.001 {
		k := spreadGyration(3, x)
		if k <= before || before > 0 && k-before > 0.01 {
			t.Fatalf("center %v: %v after %v", x, k, before)
		}
		// No spread of mass between the axis and the free edge lies outside.
		if k < x-1e-12 || float64(k*k) > float64(3*x)+1e-12 {
			t.Fatalf("center %v: a radius of gyration of %v can't be", x, k)
		}
		before = k
	}
}

func TestEstimateGrowsWithEveryPart(t *testing.T) {
	base := barredLeaf()
	mass := func(c gate.Construction, w, h units.Length) Mass {
		b, err := Estimate(c, w, h, unknownCenter)
		if err != nil {
			t.Fatal(err)
		}
		return b.Mass
	}
	m := mass(base, 3.5, 1.8)
	if !(m.Low < m.Nominal && m.Nominal < m.High) {
		t.Errorf("bounds %+v", m)
	}
	for name, change := range map[string]func(*gate.Construction){
		"rail":     func(c *gate.Construction) { c.RailCount = 2; c.BarCount = 32 },
		"infill":   func(c *gate.Construction) { c.Infill = units.Known(units.ArealMass(5)) },
		"hardware": func(c *gate.Construction) { c.Hardware = units.Opt[units.Mass]{} },
		"wall":     func(c *gate.Construction) { c.Stile.Wall = 0.004 },
		"solid":    func(c *gate.Construction) { c.Rail.Wall = 0 },
	} {
		c := base
		change(&c)
		if got := mass(c, 3.5, 1.8); got.Nominal <= m.Nominal || got.High <= m.High {
			t.Errorf("%s: %+v against %+v", name, got, m)
		}
	}
	if mass(base, 3.6, 1.8).Nominal <= m.Nominal || mass(base, 3.5, 1.9).Nominal <= m.Nominal {
		t.Error("a larger leaf is heavier")
	}
	wood := gate.Construction{
		Material: gate.Hardwood, RailCount: 3,
		Stile: gate.Section{Width: 0.1, Depth: 0.045}, Rail: gate.Section{Width: 0.1, Depth: 0.045},
	}
	if m := mass(wood, 3, 1.5); m.High < 1.5*m.Nominal {
		t.Errorf("hardwood is known worse than that: %+v", m)
	}
}

func TestGivenCenter(t *testing.T) {
	b, err := Estimate(barredLeaf(), 3.5, 1.8, units.Known(units.Length(1.2)))
	if err != nil {
		t.Fatal(err)
	}
	if b.Center != 1.2 || b.Gyration != spreadGyration(3.5, 1.2) {
		t.Errorf("%+v", b)
	}
}

func TestAssumedSolidityRises(t *testing.T) {
	before := 0.0
	for _, i := range []gate.Infill{gate.InfillOpenBars, gate.InfillGappedSlats, gate.InfillLouvers, gate.InfillSolid, gate.InfillUnknown} {
		s := AssumedSolidity(i)
		if s < before || s > 1 {
			t.Errorf("infill %d: %v after %v", i, s, before)
		}
		before = s
	}
	if s, _ := ProjectedSolidity(barredLeaf(), 3.5, 1.8); s > AssumedSolidity(gate.InfillOpenBars) {
		t.Errorf("an ordinary barred leaf of %v is more solid than what is assumed for it", s)
	}
	meshed := barredLeaf()
	meshed.Infill = units.Known(units.ArealMass(4))
	if _, ok := ProjectedSolidity(meshed, 3.5, 1.8); ok {
		t.Error("how open a mesh is can't be told from its weight")
	}
}

func TestPostsThatAreNoBars(t *testing.T) {
	known := gate.Post{
		Shape: gate.PostRectangular, Material: gate.Softwood,
		Width: units.Known(units.Length(0.1)), Height: units.Known(units.Length(1.5)),
	}
	if _, reason, err := NewPostBar(known); reason != "" || err != nil {
		t.Errorf("a solid timber post bends: %s %v", reason, err)
	}
	for name, change := range map[string]func(*gate.Post){
		"pier":     func(p *gate.Post) { p.Shape = gate.PostPier },
		"concrete": func(p *gate.Post) { p.Material = gate.Concrete },
		"wall":     func(p *gate.Post) { p.Material = gate.Steel },
		"height":   func(p *gate.Post) { p.Height = units.Opt[units.Length]{} },
	} {
		p := known
		change(&p)
		if _, reason, err := NewPostBar(p); reason == "" || err != nil {
			t.Errorf("%s: reason %q, error %v", name, reason, err)
		}
	}
	bad := known
	bad.Wall = units.Known(units.Length(0.05))
	if _, _, err := NewPostBar(bad); err == nil {
		t.Error("a wall that fills the post is accepted")
	}
}

// A leaf's couple bends its post by m g x whichever way the leaf stands, and by
// nothing else.
func TestCoupleOnPost(t *testing.T) {
	post, _, err := NewPostBar(gate.Post{
		Shape: gate.PostRound, Material: gate.Steel, Width: units.Known(units.Length(0.1143)),
		Wall: units.Known(units.Length(0.004)), Height: units.Known(units.Length(2)),
	})
	if err != nil {
		t.Fatal(err)
	}
	r := Reactions(100, 1.5, 1.1)
	for theta := units.Angle(0); theta < 2; theta += 0.25 {
		loads := r.OnPost(0.3, 1.4, theta)
		b, err := post.Bend(loads[:], 2)
		if err != nil {
			t.Fatal(err)
		}
		if want := 100 * units.Gravity * 1.5; math.Abs(float64(b.Foot)-want) > 1e-9*want {
			t.Errorf("at %v: %v N m, want %v", theta, b.Foot, want)
		}
	}
	if _, err := post.Bend([]PostLoad{{Height: 3, X: 1}}, 2); err == nil {
		t.Error("a load above the top is accepted")
	}
	if _, err := post.Bend(nil, 3); err == nil {
		t.Error("a height above the top is accepted")
	}
}

func TestBrokenFacts(t *testing.T) {
	nan := math.NaN()
	good := Facts{Body: mustWeigh(t, 100, 3), Hinge: DefaultHinge(1, gate.HingesGood)}
	for name, spoil := range map[string]func(*Facts){
		"body":           func(f *Facts) { f.Body = Body{} },
		"spacing":        func(f *Facts) { f.Hinge.Spacing = 0 },
		"pin radius":     func(f *Facts) { f.Hinge.PinRadius = units.Length(nan) },
		"ring radii":     func(f *Facts) { f.Hinge.ThrustOuter = 0 },
		"coefficient":    func(f *Facts) { f.Hinge.Friction = -1 },
		"break-away":     func(f *Facts) { f.Hinge.Breakaway = 0.5 },
		"lean of":        func(f *Facts) { f.Lean.Angle = units.Angle(nan) },
		"lean direction": func(f *Facts) { f.Lean.Direction = units.Known(units.Angle(7)) },
		"opening hand":   func(f *Facts) { f.HandOpening = units.Known(units.Force(-1)) },
		"closing hand":   func(f *Facts) { f.HandClosing = units.Known(units.Force(math.Inf(1))) },
	} {
		f := good
		spoil(&f)
		if _, err := NewResistance(f); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
	f := good
	f.Hinge.Spacing, f.HandOpening = 0, units.Known(units.Force(-1))
	if _, err := NewResistance(f); err == nil || !strings.Contains(err.Error(), "spacing") || !strings.Contains(err.Error(), "hand") {
		t.Errorf("not every bad fact is named: %v", err)
	}
	for _, bad := range []struct {
		m     units.Mass
		width units.Length
		x     units.Length
	}{{0, 3, 1}, {units.Mass(nan), 3, 1}, {1e9, 3, 1}, {100, 0, 1}, {100, units.Length(nan), 1}, {100, 3, 4}, {100, 3, 0}} {
		if _, err := Weighed(bad.m, bad.width, units.Known(bad.x)); err == nil {
			t.Errorf("%+v is accepted", bad)
		}
	}
	if _, err := good.Body.Inertia(units.Length(nan), 0); err == nil {
		t.Error("a thickness of no number is accepted")
	}
	if _, err := good.Body.Inertia(0, units.Length(math.Inf(-1))); err == nil {
		t.Error("an infinite offset is accepted")
	}
}

func TestContradictoryConstruction(t *testing.T) {
	for want, change := range map[string]func(*gate.Construction){
		"counted":         func(c *gate.Construction) { c.Bar = units.Opt[gate.Section]{} },
		"count of 0":      func(c *gate.Construction) { c.BarCount = 0 },
		"don't fit":       func(c *gate.Construction) { c.BarCount = 200 },
		"fill the leaf":   func(c *gate.Construction) { c.RailCount = 40 },
		"2 to":            func(c *gate.Construction) { c.RailCount = 1 },
		"framed from":     func(c *gate.Construction) { c.Material = gate.Masonry },
		"rail: leaf":      func(c *gate.Construction) { c.Rail.Wall = 0.025 },
		"stile: leaf":     func(c *gate.Construction) { c.Stile.Depth = 0 },
		"bar: leaf":       func(c *gate.Construction) { c.Bar = units.Known(gate.Section{Width: 0.02, Depth: 0.02, Wall: -1}) },
		"infill of":       func(c *gate.Construction) { c.Infill = units.Known(units.ArealMass(math.NaN())) },
		"hardware of":     func(c *gate.Construction) { c.Hardware = units.Known(units.Mass(-3)) },
		"section width":   func(c *gate.Construction) { c.Stile.Width = units.Length(math.Inf(1)) },
		"section depth":   func(c *gate.Construction) { c.Rail.Depth = units.Length(math.NaN()) },
		"can't be negati": func(c *gate.Construction) { c.Rail.Wall = units.Length(math.NaN()) },
	} {
		c := barredLeaf()
		change(&c)
		if _, err := Estimate(c, 3.5, 1.8, unknownCenter); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
}
