package linkage

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// FuzzSolve throws any numbers at the solver, the forward check and the largest
// angle: they must be refused, or answered with finite numbers that agree.
func FuzzSolve(f *testing.F) {
	f.Add(false, 80, 250, 120, 60, 500, 1100, 45, 5, 90.0, 0.0, 690.0, 1090.0, 1500.0, 60.0, 120.0, 270.0, 0.018, 0.03, 0.0)
	f.Add(true, 80, 250, 120, 60, 500, 1100, 45, 5, 90.0, 4.0, 690.0, 1090.0, 1500.0, 60.0, 120.0, 270.0, 0.018, 0.03, 95.0)
	f.Add(false, 0, 0, 0, 0, 1, 1, 0, 0, 175.0, 0.0, 1.0, 20000.0, 0.001, 1.0, 1e9, 1e9, 10.0, 1e-6, 180.0)
	f.Add(true, 0, 2000, 0, 2000, 1, 20000, -20000, 50, 1e-3, 0.0, 19999.0, 20000.0, 1e9, 1.0, 1e-6, 0.0, math.NaN(), math.Inf(1), 1e-9)
	f.Fuzz(func(t *testing.T, push bool, aLow, aHigh, b, bMore, cLow, cHigh, e, box int, open, beyond, shortest, longest, thrust, arm, moment, inertia, speed, acceleration, sweep float64) {
		p := &Problem{
			A: Interval{aLow, aHigh}, B: []Interval{{b, b}, {b + bMore/2, b + bMore}}, C: Interval{cLow, cHigh}, E: e, Box: box,
			Open: units.Degrees(open), Swing: NewSwing(units.Degrees(open+beyond), 5), OpenByRamEnd: beyond > 0,
			Ram: Ram{
				Shortest: units.Millimeters(shortest), Longest: units.Millimeters(longest),
				ThrustExtending: units.Force(thrust), ThrustRetracting: units.Force(thrust),
			},
			Demand: Demand{
				Opening: []float64{moment, moment, -moment, 0, moment}, Closing: constant(moment/2, 5),
				Inertia: units.Inertia(inertia), RodSpeed: units.Speed(speed), RodAcceleration: units.Acceleration(acceleration),
			},
			MinArm: units.Millimeters(arm),
		}
		if push {
			p.Side = Push
		}
		if sweep > 0 {
			p.Ram.RearSweepMax = units.Known(units.Degrees(sweep))
			p.MaxStroke = units.Known(units.Millimeters(sweep * 3))
		}
		s, err := p.Solve()
		if (err != nil) != (p.Check() != nil) {
			t.Fatalf("Solve says %v, Check %v", err, p.Check())
		}
		if err != nil {
			return
		}
		if s.Feasible {
			if s.Broken != 0 || s.BoxBroken != 0 {
				t.Errorf("%+v breaks limits", s)
			}
			finite(t, s.Assessment)
		}
		m := Mounting{
			Side: p.Side, A: units.Millimeters(aLow), B: units.Millimeters(b),
			C: units.Millimeters(cLow), E: units.Millimeters(e),
		}
		if a, err := p.At(m); err == nil {
			finite(t, a)
		}
		if largest, err := p.LargestAngle(); err != nil || !(largest >= 0 && largest <= p.Open) {
			t.Errorf("largest angle %v, %v", largest, err)
		}
	})
}

func finite(t *testing.T, a Assessment) {
	t.Helper()
	for _, v := range [...]float64{
		a.Margin, a.BoxMargin, float64(a.MarginAngle), float64(a.LeastArm), float64(a.Stroke),
		float64(a.ReserveClosed), float64(a.ReserveOpen), float64(a.ClosesTo), float64(a.Reach),
		float64(a.ReachLow), float64(a.ReachHigh), float64(a.DeadPoint), float64(a.RearSweep), float64(a.FrontSweep),
	} {
		if !units.Finite(v) {
			t.Fatalf("not finite: %+v", a)
		}
	}
}
