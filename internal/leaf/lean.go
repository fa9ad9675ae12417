package leaf

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Lean is how the hinge axis stands out of plumb.
type Lean struct {
	Angle     units.Angle            // from plumb
	Direction units.Opt[units.Angle] // leaf angle at which the leaf hangs lowest
}

// Motion is which way a leaf turns.
type Motion uint8

// The motions.
const (
	Opening Motion = iota // leaf angle grows
	Closing
)

// leaning is the lean of a body made ready for many angles: the moment m g x
// sin(beta) at both ends of the mass, N m.
type leaning struct {
	low, high float64
	direction float64 // rad
	known     bool
}

func (b Body) leaning(l Lean) leaning {
	perMass := units.Gravity * float64(b.Center) * math.Sin(math.Abs(float64(l.Angle)))
	direction, known := l.Direction.Get()
	return leaning{
		low:       float64(b.Mass.Low) * perMass,
		high:      float64(b.Mass.High) * perMass,
		direction: float64(direction),
		known:     known,
	}
}

// moment is what the lean sets against the motion at leaf angle theta, N m:
//
//	tau = +- m g x sin(beta) sin(theta - theta_low)
//
// m the mass, x its center from the axis, beta the lean, theta_low the leaf
// angle at which the leaf hangs lowest; plus opening, minus closing. Source:
// potential energy of a mass about a leaning axis; exact for a mass in the plane
// through the axis. A direction that isn't known is the worst one. Where the
// lean resists, the mass is the upper bound, where it helps the lower one.
func (l leaning) moment(motion Motion, theta float64) float64 {
	if !l.known {
		return l.high
	}
	s := math.Sin(theta - l.direction)
	if motion == Closing {
		s = -s
	}
	if s < 0 {
		return s * l.low
	}
	return s * l.high
}
