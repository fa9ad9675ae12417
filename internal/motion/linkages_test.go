package motion

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// fixedArm is a linkage of one arm at every angle: rod travel is angle x arm.
type fixedArm float64

func (a fixedArm) Length(theta units.Angle) units.Length {
	return units.Length(float64(a) * float64(theta))
}

func (a fixedArm) Arm(units.Angle) units.Length { return units.Length(a) }

// triangle is a ram between a rear pivot and a front pivot on the leaf, m.
type triangle struct{ rx, ry, fx, fy float64 }

func (l triangle) Length(theta units.Angle) units.Length {
	sin, cos := math.Sincos(float64(theta))
	return units.Length(math.Hypot(l.fx*cos-l.fy*sin-l.rx, l.fx*sin+l.fy*cos-l.ry))
}

func (l triangle) Arm(theta units.Angle) units.Length {
	sin, cos := math.Sincos(float64(theta))
	x, y := l.fx*cos-l.fy*sin, l.fx*sin+l.fy*cos
	return units.Length(math.Abs(x*l.ry-y*l.rx) / math.Hypot(x-l.rx, y-l.ry))
}
