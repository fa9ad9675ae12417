// Package linkage holds the plane linkage between an electric ram and a leaf:
// the triangle of hinge axis, rear pivot and front pivot, and the search for
// the mounting dimensions that leave the largest margin.
//
// Plan view; origin on the hinge axis, x along the closed leaf towards its free
// edge, y towards the side the leaf opens towards; the leaf angle theta runs
// from 0 (closed) to the opening angle. Inward and outward gates are the same
// problem here: what differs is Pull or Push.
package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Side is the side of the leaf the ram stands on.
type Side uint8

// Pull is on the side the leaf opens towards: the ram shortens to open. Push is
// on the far side: the ram lengthens to open.
const (
	Pull Side = iota
	Push
)

// Mounting is the four dimensions that fix a ram's triangle. With R the rear
// pivot (the pin at the post bracket) and F0 the front pivot (the pin at the
// leaf bracket) of the closed leaf,
//
//	Pull: R = (-A, +B), F0 = (C, +E)
//	Push: R = (+A, -B), F0 = (C, -E)
//
// and the front pivot turns with the leaf: F(theta) = Rot(theta) F0.
type Mounting struct {
	Side       Side
	A, B, C, E units.Length
}

// sigma is +1 for pull, -1 for push: s' = -sigma r.
func (s Side) sigma() float64 {
	if s == Push {
		return -1
	}
	return 1
}

// triangle is a mounting made ready for many angles, lengths in m:
//
//	G = F.R = p cos(theta) + q sin(theta)
//	s^2 = R^2 + F^2 - 2 G
//	s s' = p sin(theta) - q cos(theta)
//
// Elementary plane vectors; holds for every real a, b, c, e.
type triangle struct {
	sigma, p, q    float64
	rear2, front2  float64 // squared distances of the pivots from the hinge axis, m2
	squaredLengths float64 // rear2 + front2
}

func (m Mounting) triangle() triangle {
	return newTriangle(m.Side.sigma(), float64(m.A), float64(m.B), float64(m.C), float64(m.E))
}

func newTriangle(sigma, a, b, c, e float64) triangle {
	t := triangle{
		sigma:  sigma,
		p:      b*e - sigma*a*c,
		q:      a*e + sigma*b*c,
		rear2:  a*a + b*b,
		front2: c*c + e*e,
	}
	t.squaredLengths = t.rear2 + t.front2
	return t
}

// at returns, for a leaf angle given by its cosine and sine, the pin-to-pin
// length s (m), the signed moment arm r (m) and its slope dr/dtheta (m/rad):
//
//	r = sigma (q cos - p sin) / s      (= |ds/dtheta| before the dead point)
//	r' = sigma (r^2 - G) / s
//
// Where the pivots coincide there is no line of action; arm and slope are 0.
func (t *triangle) at(cos, sin float64) (s, r, slope float64) {
	g := t.p*cos + t.q*sin
	s = math.Sqrt(max(0, t.squaredLengths-2*g))
	if s == 0 {
		return 0, 0, 0
	}
	r = t.sigma * (t.q*cos - t.p*sin) / s
	return s, r, t.sigma * (r*r - g) / s
}

// lengthAndArm leaves out the slope.
func (t *triangle) lengthAndArm(cos, sin float64) (s, r float64) {
	s = math.Sqrt(max(0, t.squaredLengths-2*(t.p*cos+t.q*sin)))
	if s == 0 {
		return 0, 0
	}
	return s, t.sigma * (t.q*cos - t.p*sin) / s
}

// Length is the distance from pin to pin at leaf angle theta.
func (m Mounting) Length(theta units.Angle) units.Length {
	s, _, _ := m.atAngle(theta)
	return units.Length(s)
}

// Arm is the moment arm of the ram about the hinge axis, |ds/dtheta|: positive
// before the dead point, negative past it. Torque about the hinge is thrust
// times this arm (virtual work).
func (m Mounting) Arm(theta units.Angle) units.Length {
	_, r, _ := m.atAngle(theta)
	return units.Length(r)
}

// ArmSlope is d(Arm)/d(theta), m/rad.
func (m Mounting) ArmSlope(theta units.Angle) float64 {
	_, _, slope := m.atAngle(theta)
	return slope
}

func (m Mounting) atAngle(theta units.Angle) (s, r, slope float64) {
	sin, cos := math.Sincos(float64(theta))
	t := m.triangle()
	return t.at(cos, sin)
}

// DeadPoint is the leaf angle at which the ram's line passes through the hinge
// axis. For A, C > 0 and B, E >= 0:
//
//	pull: 180 - atan(B/A) - atan(E/C) degrees
//	push: 180 - atan(B/A) + atan(E/C) degrees, provided B/A > E/C
//
// A result of zero or less means that the closed leaf has no arm to open with.
func (m Mounting) DeadPoint() units.Angle {
	t := m.triangle()
	across := t.sigma * t.q
	if across == 0 {
		across = 0 // not -0, which would turn half a circle into minus that
	}
	return units.Angle(math.Atan2(across, t.sigma*t.p))
}

// RearPivot is the position of the pin at the post bracket.
func (m Mounting) RearPivot() (x, y units.Length) {
	if m.Side == Push {
		return m.A, -m.B
	}
	return -m.A, m.B
}

// FrontPivot is the position of the pin at the leaf bracket at leaf angle theta.
func (m Mounting) FrontPivot(theta units.Angle) (x, y units.Length) {
	sin, cos := math.Sincos(float64(theta))
	e := units.Length(m.Side.sigma()) * m.E
	return m.C*units.Length(cos) - e*units.Length(sin), m.C*units.Length(sin) + e*units.Length(cos)
}

// AngleAt is the leaf angle, before the dead point, at which the pins are the
// length s apart (law of cosines); negative where the leaf would have to stand
// behind closed. It reports false where no leaf angle gives that length.
func (m Mounting) AngleAt(s units.Length) (units.Angle, bool) {
	t := m.triangle()
	cosIncluded := (t.squaredLengths - float64(s*s)) / (2 * math.Sqrt(t.rear2*t.front2))
	if !(math.Abs(cosIncluded) <= 1) || s < 0 {
		return 0, false
	}
	return m.angleOfIncluded(math.Acos(cosIncluded)), true
}

// angleOfIncluded turns the angle at the hinge axis between the two pivots
// (0..pi) into the leaf angle: pull closes it to 0 at the dead point, push opens
// it to pi there.
func (m Mounting) angleOfIncluded(included float64) units.Angle {
	if m.Side == Push {
		return m.DeadPoint() - units.Angle(math.Pi-included)
	}
	return m.DeadPoint() - units.Angle(included)
}

// RearSweep is how far the pin at the post bracket turns while the leaf goes
// from closed to open: the range of the ram's bearing, not the difference of
// its two ends, since it can turn back. Up to the dead point.
func (m Mounting) RearSweep(open units.Angle) units.Angle {
	t := m.triangle()
	sin, cos := math.Sincos(float64(open))
	return units.Angle(t.sweep(cos, sin, t.rear2, t.front2))
}

// FrontSweep is how far the pin at the leaf bracket turns in the leaf while the
// leaf goes from closed to open: the range of the ram's bearing less theta. It
// turns back where the arm is largest. Up to the dead point.
func (m Mounting) FrontSweep(open units.Angle) units.Angle {
	t := m.triangle()
	sin, cos := math.Sincos(float64(open))
	return units.Angle(t.sweep(cos, sin, t.front2, t.rear2))
}

// sweep is the range of the triangle's angle at one pin from closed to the leaf
// angle given by cos and sin. With own and other the distances of that pin and
// the other from the hinge axis and N = own other sin(phi), that angle is
// atan2(N, own^2 - G); it turns back where G = other^2, at asin(other/own).
func (t *triangle) sweep(cos, sin, own2, other2 float64) float64 {
	first, last := t.angleAtPin(1, 0, own2), t.angleAtPin(cos, sin, own2)
	low, high := min(first, last), max(first, last)
	if (other2-t.p)*(other2-t.p*cos-t.q*sin) < 0 {
		high = math.Asin(math.Sqrt(other2 / own2))
	}
	return high - low
}

func (t *triangle) angleAtPin(cos, sin, own2 float64) float64 {
	n := t.sigma * (t.q*cos - t.p*sin)
	x := own2 - t.p*cos - t.q*sin
	angle := math.Atan2(n, x)
	if n < 0 && x < 0 { // past the dead point, where the angle goes on beyond pi
		angle += 2 * math.Pi
	}
	return angle
}
