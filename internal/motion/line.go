package motion

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Point is one point of a drive's load-speed-current line at its rated voltage.
type Point struct {
	Thrust  units.Force
	Speed   units.Speed // of the rod
	Current units.Current
}

// Line is a drive's load-speed-current line: straight between its points.
// Below the first point's thrust the first point's speed and current hold, for
// a load that pulls the leaf along too: the gearing holds it back. The last
// point's thrust is the most the drive gives; it gives that at every lower
// speed. The zero Line is empty and is refused by Run.
type Line struct {
	points []Point
}

// NewLine checks the points of a load line: at least one; thrusts from zero up,
// strictly rising; speeds never rising with thrust and the first above zero;
// currents from zero up.
func NewLine(points []Point) (Line, error) {
	if len(points) == 0 {
		return Line{}, errors.New("a load line needs at least one point")
	}
	for i, p := range points {
		switch {
		case !units.Finite(float64(p.Thrust)) || p.Thrust < 0,
			!units.Finite(float64(p.Speed)) || p.Speed < 0,
			!units.Finite(float64(p.Current)) || p.Current < 0:
			return Line{}, fmt.Errorf("load line point %d: thrust, speed and current must be finite and not negative", i)
		case i > 0 && p.Thrust <= points[i-1].Thrust:
			return Line{}, fmt.Errorf("load line point %d: thrust must rise from point to point", i)
		case i > 0 && p.Speed > points[i-1].Speed:
			return Line{}, fmt.Errorf("load line point %d: speed must not rise with thrust", i)
		}
	}
	if points[0].Speed == 0 || points[len(points)-1].Thrust == 0 {
		return Line{}, errors.New("a load line needs a speed at its first point and a thrust at its last")
	}
	return Line{points: points}, nil
}

// StallThrust is the most thrust the line gives, at the rated voltage.
func (l Line) StallThrust() units.Force { return l.points[len(l.points)-1].Thrust }

// current is the motor current at a thrust in N; it follows the thrust and not
// the voltage, as in a motor with permanent magnets.
func (l Line) current(thrust float64) float64 {
	last := len(l.points) - 1
	if thrust >= float64(l.points[last].Thrust) {
		return float64(l.points[last].Current)
	}
	for i := last; i > 0; i-- {
		a, b := l.points[i-1], l.points[i]
		if f := thrust - float64(a.Thrust); f >= 0 {
			return float64(a.Current) + float64(b.Current-a.Current)*f/float64(b.Thrust-a.Thrust)
		}
	}
	return float64(l.points[0].Current)
}

// pull is a load line at the voltage the motor gets. For a motor with permanent
// magnets whose no-load speed and stall thrust both follow the voltage, equal
// factors give the exact shifted line.
type pull struct {
	line   Line
	thrust float64 // factor on the line's thrusts
	speed  float64 // factor on the line's speeds
	stall  float64 // N, the last point's thrust
	slow   float64 // m/s, the last point's speed
	fast   float64 // m/s, the first point's speed
}

func newPull(line Line, s Supply) pull {
	first, last := line.points[0], line.points[len(line.points)-1]
	return pull{
		line: line, thrust: s.ThrustFactor, speed: s.SpeedFactor,
		stall: float64(last.Thrust) * s.ThrustFactor,
		slow:  float64(last.Speed) * s.SpeedFactor,
		fast:  float64(first.Speed) * s.SpeedFactor,
	}
}

// balance is the rod speed v >= 0 and the thrust F at which
//
//	m v^2 / 2 = stored + h F(v)
//
// m the leaf's inertia felt at the rod (kg), stored an energy (J, may be
// negative), h > 0 a rod travel (m) and F the load line. Both sides are monotone
// in v, so the root is unique however steep the line is, and on each straight
// piece it is that of a quadratic. ok is false where even the stall thrust
// leaves no energy.
func (p *pull) balance(m, stored, h float64) (v, thrust float64, ok bool) {
	w := stored + h*p.stall
	if !(w > 0) {
		return 0, p.stall, false
	}
	if 2*w <= m*p.slow*p.slow {
		return math.Sqrt(2 * w / m), p.stall, true
	}
	for i := len(p.line.points) - 1; i > 0; i-- {
		a := &p.line.points[i-1]
		vFast, fFast := float64(a.Speed)*p.speed, float64(a.Thrust)*p.thrust
		if 0.5*m*vFast*vFast-h*fFast < stored {
			continue // faster than this piece
		}
		b := &p.line.points[i]
		vSlow, fSlow := float64(b.Speed)*p.speed, float64(b.Thrust)*p.thrust
		if vFast <= vSlow {
			return vSlow, (0.5*m*vSlow*vSlow - stored) / h, true
		}
		// F = fFast + k (vFast - v): m/2 v^2 + h k v - c = 0, written so that a
		// steep line (large k) costs no digits.
		k := (fSlow - fFast) / (vFast - vSlow)
		q, c := h*k, stored+h*(fFast+k*vFast)
		v = 2 * c / (q + math.Sqrt(q*q+2*m*c))
		return v, fFast + k*(vFast-v), true
	}
	return p.fast, (0.5*m*p.fast*p.fast - stored) / h, true
}

// at is the thrust the line gives at a rod speed (m/s), N: the lower end where
// the line has several.
func (p *pull) at(speed float64) float64 {
	if speed < p.slow {
		return p.stall
	}
	for i := len(p.line.points) - 1; i > 0; i-- {
		a, b := &p.line.points[i-1], &p.line.points[i]
		vFast, vSlow := float64(a.Speed)*p.speed, float64(b.Speed)*p.speed
		if speed < vFast {
			return (float64(b.Thrust) - float64(b.Thrust-a.Thrust)*(speed-vSlow)/(vFast-vSlow)) * p.thrust
		}
	}
	return float64(p.line.points[0].Thrust) * p.thrust
}
