package linkage

import (
	"math"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// TestBadProblems: what can't be worked on is refused with its name.
func TestBadProblems(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for want, spoil := range map[string]func(p *Problem){
		"side 7":                func(p *Problem) { p.Side = 7 },
		"a from 200 to 100":     func(p *Problem) { p.A = Interval{200, 100} },
		"a from -1":             func(p *Problem) { p.A.Low = -1 },
		"a from 0 to 2001":      func(p *Problem) { p.A = Interval{0, 2001} },
		"c from 0":              func(p *Problem) { p.C.Low = 0 },
		"0 ranges of b":         func(p *Problem) { p.B = nil },
		"b from -5":             func(p *Problem) { p.B = []Interval{{-5, 10}} },
		"e from 30000":          func(p *Problem) { p.E = 30000 },
		"box from -1":           func(p *Problem) { p.Box = -1 },
		"box of 51":             func(p *Problem) { p.Box = 51 },
		"opening 0":             func(p *Problem) { p.Open = 0 },
		"opening NaN":           func(p *Problem) { p.Open = units.Angle(nan) },
		"swing of 0 angles":     func(p *Problem) { p.Swing = NewSwing(p.Open, 1) },
		"but the swing goes to": func(p *Problem) { p.Swing = NewSwing(p.Open+0.1, 19) },
		"shortest length":       func(p *Problem) { p.Ram.Shortest = units.Length(nan) },
		"longest length":        func(p *Problem) { p.Ram.Longest = p.Ram.Shortest / 2 },
		"thrust extending":      func(p *Problem) { p.Ram.ThrustExtending = 0 },
		"thrust retracting":     func(p *Problem) { p.Ram.ThrustRetracting = units.Force(inf) },
		"least arm":             func(p *Problem) { p.MinArm = 0 },
		"reserve at closed":     func(p *Problem) { p.ReserveClosed = -0.01 },
		"reserve at open":       func(p *Problem) { p.ReserveOpen = units.Length(nan) },
		"rear sweep":            func(p *Problem) { p.Ram.RearSweepMax = units.Known(units.Angle(nan)) },
		"front sweep":           func(p *Problem) { p.Ram.FrontSweepMax = units.Known(units.Angle(-1)) },
		"stroke limit":          func(p *Problem) { p.MaxStroke = units.Known(units.Length(inf)) },
		"18 opening":            func(p *Problem) { p.Demand.Opening = constant(1, 18) },
		"resisting moment at":   func(p *Problem) { p.Demand.Closing[4] = nan },
		"nothing resists":       func(p *Problem) { p.Demand.Opening, p.Demand.Closing = constant(0, 19), constant(-3, 19) },
		"inertia":               func(p *Problem) { p.Demand.Inertia = units.Inertia(nan) },
		"rod speed":             func(p *Problem) { p.Demand.RodSpeed = 0 },
		"rod acceleration":      func(p *Problem) { p.Demand.RodAcceleration = units.Acceleration(inf) },
	} {
		p := somePull()
		spoil(p)
		_, solveErr := p.Solve()
		_, atErr := p.At(Mounting{A: 0.15, B: 0.15, C: 0.9})
		_, angleErr := p.LargestAngle()
		for _, err := range []error{p.Check(), solveErr, atErr, angleErr} {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%q: got %v", want, err)
			}
		}
	}
	p := somePull()
	p.Side, p.MinArm, p.E = 9, 0, 1<<20
	if err := p.Check(); err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three faults at once: %v", err)
	}
}

func TestBadMountings(t *testing.T) {
	p := somePull()
	for want, m := range map[string]Mounting{
		"side 1":         {Side: Push, A: 0.1, B: 0.1, C: 0.8},
		"c (m)":          {A: 0.1, B: 0.1, C: units.Length(math.NaN())},
		"a (m)":          {A: units.Length(math.Inf(-1)), B: 0.1, C: 0.8},
		"a pivot on the": {C: 0.8},
	} {
		if _, err := p.At(m); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v", want, err)
		}
	}
}
