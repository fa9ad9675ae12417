package leaf

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func FuzzEstimate(f *testing.F) {
	f.Add(uint8(1), 3.5, 1.8, 0.05, 0.05, 0.003, 3, 0.025, 0.0016, 28, 0.0, 0.0, false)
	f.Add(uint8(3), 0.05, 0.05, 0.02, 1e-300, 0.0, 2, 0.02, math.NaN(), -1, math.Inf(1), -1.0, true)
	f.Fuzz(func(t *testing.T, material uint8, width, height, face, depth, wall float64, rails int, bar, barWall float64, bars int, infill, hardware float64, round bool) {
		section := gate.Section{Round: round, Width: units.Length(face), Depth: units.Length(depth), Wall: units.Length(wall)}
		c := gate.Construction{
			Material: gate.Material(material), Stile: section, Rail: section, RailCount: rails,
			Bar:      units.Known(gate.Section{Round: round, Width: units.Length(bar), Depth: units.Length(bar), Wall: units.Length(barWall)}),
			BarCount: bars,
			Infill:   units.Known(units.ArealMass(infill)),
			Hardware: units.Known(units.Mass(hardware)),
		}
		b, err := Estimate(c, units.Length(width), units.Length(height), units.Opt[units.Length]{})
		if err != nil {
			return
		}
		if !(b.Mass.Low > 0 && b.Mass.Low <= b.Mass.Nominal && b.Mass.Nominal <= b.Mass.High) || !units.Finite(float64(b.Mass.High)) {
			t.Fatalf("mass %+v", b.Mass)
		}
		if !(b.Gyration > 0 && b.Gyration <= b.Width) || b.check() != nil {
			t.Fatalf("body %+v", b)
		}
	})
}

func FuzzResistance(f *testing.F) {
	f.Add(100.0, 3.0, 1.5, 1.0, 0.01, 0.2, 0.01, 0.3, 20.0, 1.5)
	f.Add(math.NaN(), -1.0, 0.0, math.Inf(1), 1e300, math.Copysign(0, -1), 9.0, 9.0, -1.0, 1e9)
	f.Fuzz(func(t *testing.T, mass, width, center, spacing, pin, mu, lean, direction, hand, open float64) {
		b, err := Weighed(units.Mass(mass), units.Length(width), units.Known(units.Length(center)))
		if err != nil {
			return
		}
		hinge := DefaultHinge(units.Length(spacing), gate.HingesGood)
		hinge.PinRadius, hinge.Friction = units.Length(pin), mu
		r, err := NewResistance(Facts{
			Body: b, Hinge: hinge,
			Lean:        Lean{Angle: units.Angle(lean), Direction: units.Known(units.Angle(direction))},
			HandOpening: units.Known(units.Force(hand)),
		})
		if err != nil || !units.Finite(open) {
			return
		}
		dst := make([]float64, 7)
		for _, m := range []Motion{Opening, Closing} {
			r.Fill(dst, m, units.Angle(open), 0)
			for i, v := range dst {
				if !units.Finite(v) {
					t.Fatalf("motion %d, angle %d: %v", m, i, v)
				}
			}
			if fr := r.Friction(m); fr.Turning < 0 || fr.Start < 0 {
				t.Fatalf("friction that drives: %+v", fr)
			}
		}
	})
}
