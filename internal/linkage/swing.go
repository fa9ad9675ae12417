package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Swing is a set of equally spaced leaf angles from closed to its end, with
// their cosines and sines. It depends on the gate alone, so one swing serves
// every drive tried on that gate.
type Swing struct {
	end      units.Angle
	cos, sin []float64
}

// NewSwing returns samples leaf angles, 2 to 4096, from 0 to end. With any other
// number, or without a positive end, the swing has no angles, and a Problem that
// uses it is refused.
func NewSwing(end units.Angle, samples int) Swing {
	if samples < 2 || samples > maxSamples || !(end > 0) {
		return Swing{end: end}
	}
	w := Swing{end: end, cos: make([]float64, samples), sin: make([]float64, samples)}
	for i := range w.cos {
		w.sin[i], w.cos[i] = math.Sincos(float64(w.Angle(i)))
	}
	return w
}

// Samples is the number of leaf angles.
func (w Swing) Samples() int { return len(w.cos) }

// End is the last leaf angle.
func (w Swing) End() units.Angle { return w.end }

// Angle is the leaf angle of sample i.
func (w Swing) Angle(i int) units.Angle {
	return w.end * units.Angle(i) / units.Angle(len(w.cos)-1)
}
