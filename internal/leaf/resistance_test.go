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
			"heavier":        at(101, 3, 1, gate.HingesGood, 50),
			"wider":          at(100, 3.01, 1, gate.HingesGood, 50),
			"windier":        at(100, 3, 1, gate.HingesGood, 51),
			"closer hinges":  at(100, 3, 0.99, gate.HingesGood, 50),
			"unknown grease": at(100, 3, 1, gate.HingeConditionUnknown, 50),
			"binding":        at(100, 3, 1, gate.HingesBinding, 50),
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
