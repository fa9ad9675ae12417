package leaf

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Inertia is the moment of inertia about the hinge axis, at the mass's upper
// bound:
//
//	I = m (k^2 + t^2/12 + o^2)
//
// k the radius of gyration in the leaf's plane, t the thickness, o the offset of
// the leaf's center plane from the hinge axis. For a uniform leaf k^2 = L^2/3.
// Source: rectangular plate about its edge and the parallel-axis theorem. It
// returns an error for a thickness or an offset that is no size of a leaf.
func (b Body) Inertia(thickness, offset units.Length) (units.Inertia, error) {
	t, o, k := float64(thickness), float64(offset), float64(b.Gyration)
	if !(t >= 0 && t <= float64(largestSection)) {
		return 0, fmt.Errorf("leaf: thickness of %v m is not between 0 and %v m", t, float64(largestSection))
	}
	if !(math.Abs(o) <= float64(largestSection)) {
		return 0, fmt.Errorf("leaf: offset of %v m from the hinge axis is more than %v m", o, float64(largestSection))
	}
	return units.Inertia(float64(b.Mass.High) * (k*k + t*t/12 + o*o)), nil
}

// spreadGyration is the radius of gyration about the hinge axis of a leaf known
// by its width L and its center of mass x alone. Its mass per length is taken as
// a straight line, which is uniform at x = L/2:
//
//	x < L/3         k^2 = 3 x^2 / 2            a triangle that ends short of L
//	L/3 .. 2L/3     k^2 = L x - L^2/6          L^2/3 at x = L/2
//	x > 2L/3        k^2 = x^2 + (L - x)^2 / 2  a triangle that begins past the hinge
//
// It is continuous and grows with x. A frame holds more of its mass at its ends
// than that: a barred steel leaf by about 5 % of k^2.
func spreadGyration(width, center units.Length) units.Length {
	l, x := float64(width), float64(center)
	square := l*x - l*l/6
	switch {
	case 3*x < l:
		square = 1.5 * x * x
	case 3*x > 2*l:
		square = x*x + (l-x)*(l-x)/2
	}
	return units.Length(math.Sqrt(square))
}
