package motion

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/units"
)

// FuzzRun feeds numbers of any kind: a clear error or finite figures, never a
// panic.
func FuzzRun(f *testing.F) {
	f.Add(0.15, 0.15, 0.8, 0.05, 1.6, 300.0, 3.0, 0.03, 50.0, 60.0, 2000.0, 0.02, 0.03, 0.5, 1.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 3.1, 0.0, 0.0, 0.0, math.NaN(), 1.0, 1.0, 1.0, 0.0, 0.0, 1.0)
	f.Add(0.15, 0.15, 0.8, 0.05, 2.4, 1e-300, 1e300, math.Inf(1), -1e9, 1e9, 1e300, 1e-300, 1e300, 1e-9, 1e300)
	f.Add(0.15, 0.15, 0.8, 0.0, 1e-12, 1.0, 1.0, 1e-12, 0.0, 0.0, 1e-12, 1e12, 0.0, 0.0, 1e-12)
	f.Fuzz(func(t *testing.T, a, b, c, e, open, inertia, width, ramp, closed, opened, stall, speed, zone, share, factor float64) {
		l, err := NewLine([]Point{{0, units.Speed(speed), 1}, {units.Force(stall), 0, 9}})
		if err != nil {
			return
		}
		way := Way{Line: l, Moment: []units.Torque{units.Torque(closed), units.Torque(opened)}, Slow: SlowZone{units.Length(zone), share}}
		m := linkage.Mounting{A: units.Length(a), B: units.Length(b), C: units.Length(c), E: units.Length(e)}
		opening, closing, err := Run(Setup{
			Linkage: m, Leaf: Leaf{units.Length(width), units.Inertia(inertia)}, Open: units.Angle(open),
			Opening: way, Closing: way, Ramp: units.Acceleration(ramp), Supply: Supply{24, factor, factor},
		})
		if err != nil {
			return
		}
		for _, r := range []Result{opening, closing} {
			if !r.finite() || r.Time < 0 || math.IsNaN(float64(r.Angle)) || r.Angle < 0 || r.Angle > units.Angle(open)*(1+1e-12) {
				t.Fatalf("%+v", r)
			}
			if r.Outcome == Completed && !(r.Time > 0) {
				t.Fatalf("completed in no time: %+v", r)
			}
		}
	})
}

func TestBrokenInputIsAnError(t *testing.T) {
	good := func() Setup {
		return both(linkage.Mounting{A: 0.15, B: 0.15, C: 0.8, E: 0.05}, 1.6, 300, 3, 0.03, Way{Line: strong(t, 0.02), Moment: constant(50)})
	}
	for name, breakIt := range map[string]func(*Setup){
		"no linkage":         func(s *Setup) { s.Linkage = nil },
		"open angle":         func(s *Setup) { s.Open = units.Angle(math.NaN()) },
		"wide open":          func(s *Setup) { s.Open = 4 },
		"width":              func(s *Setup) { s.Leaf.Width = 0 },
		"inertia":            func(s *Setup) { s.Leaf.Inertia = 0 },
		"infinite inertia":   func(s *Setup) { s.Leaf.Inertia = units.Inertia(math.Inf(1)) },
		"ramp":               func(s *Setup) { s.Ramp = 0 },
		"voltage":            func(s *Setup) { s.Supply.Voltage = -12 },
		"factor":             func(s *Setup) { s.Supply.ThrustFactor = 0 },
		"no line":            func(s *Setup) { s.Opening.Line = Line{} },
		"one moment":         func(s *Setup) { s.Closing.Moment = s.Closing.Moment[:1] },
		"moment not finite":  func(s *Setup) { s.Closing.Moment = constant(math.Inf(-1)) },
		"slow zone's share":  func(s *Setup) { s.Opening.Slow = SlowZone{Travel: 0.02} },
		"slow zone's travel": func(s *Setup) { s.Opening.Slow = SlowZone{Travel: -1, Share: 1} },
	} {
		s := good()
		breakIt(&s)
		if _, _, err := Run(s); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	for name, points := range map[string][]Point{
		"none":           nil,
		"thrust falls":   {{100, 0.02, 1}, {50, 0.01, 2}},
		"speed rises":    {{0, 0.01, 1}, {50, 0.02, 2}},
		"no speed":       {{0, 0, 1}, {50, 0, 2}},
		"no thrust":      {{0, 0.02, 1}},
		"not a number":   {{0, units.Speed(math.NaN()), 1}, {50, 0, 2}},
		"current below0": {{0, 0.02, -1}, {50, 0, 2}},
	} {
		if _, err := NewLine(points); err == nil {
			t.Errorf("load line, %s: accepted", name)
		}
	}
}
