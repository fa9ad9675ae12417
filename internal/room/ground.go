package room

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Bottom is the bottom edge of a leaf. An axis that leans by Lean carries the
// edge at radius r, turned by theta, higher by
//
//	r sin(Lean) (cos(LeanDirection) - cos(theta - LeanDirection))
//
// than when closed, LeanDirection being the leaf angle at which the leaf hangs
// lowest. The sideways shift of a leaning leaf is neglected (1 - cos(Lean), 0.1 %
// at 3 degrees).
type Bottom struct {
	Width         units.Length // hinge axis to free edge
	Clearance     units.Length // over the ground at the hinge axis
	Slope         float64      // rise over run of the edge towards the free edge, leaf closed
	Lean          units.Angle
	LeanDirection units.Angle
}

// Plane is even ground.
type Plane struct {
	Along  float64 // rise over run along the closed leaf
	Across float64 // rise over run towards the opening side
}

// Spot is a surveyed height over the ground at the hinge axis.
type Spot struct {
	At     Point
	Height units.Length
}

// GroundSwing is what a leaf meets over the ground, and how far from the hinge
// axis its clearance is smallest.
type GroundSwing struct {
	Swing
	Radius units.Length
}

// OverPlane is the clearance over even ground.
//
//	c(r, theta) = c0 + r (C - A cos(theta) - B sin(theta))
//	A = Along + sin(Lean) cos(LeanDirection)   B = Across + sin(Lean) sin(LeanDirection)
//	C = Slope + sin(Lean) cos(LeanDirection)
//
// It is linear in r, so smallest at the hinge axis or the free edge; there it is
// smallest at atan2(B, A) where the swing takes that in, else at an end.
func (b Bottom) OverPlane(open units.Angle, ground Plane, keep units.Length) (GroundSwing, error) {
	err := errors.Join(b.check(), checkSwing(open), checkKeep(keep),
		checkSlope("ground slope along the leaf", ground.Along), checkSlope("ground slope across", ground.Across))
	if err != nil {
		return GroundSwing{}, err
	}
	tilt := math.Sin(float64(b.Lean))
	sin, cos := math.Sincos(float64(b.LeanDirection))
	rise := vec{ground.Along + tilt*cos, ground.Across + tilt*sin}

	s := b.atHinge(open)
	angles := [3]float64{0, float64(open), fullTurn(rise.angle())}
	for _, theta := range angles {
		if theta <= float64(open) {
			s.lower(b.overPlane(ground, theta), b.Width, units.Angle(theta))
		}
	}
	switch {
	case !keeps(b.Clearance, keep) || !keeps(b.overPlane(ground, 0), keep):
		s.Outcome, s.FreeTo = BlockedClosed, 0
	case !keeps(s.Clearance, keep):
		s.Outcome, s.FreeTo = Limited, s.At
		// rise.(cos, sin) = height, on the way up towards rise's direction.
		height := float64((b.Clearance-keep)/b.Width) + b.Slope + tilt*cos
		if steep := rise.norm(); math.Abs(height) <= steep {
			s.FreeTo = min(s.FreeTo, units.Angle(fullTurn(rise.angle()-math.Acos(height/steep))))
		}
	}
	return s, nil
}

// overPlane is the clearance of the free edge.
func (b Bottom) overPlane(ground Plane, theta float64) units.Length {
	sin, cos := math.Sincos(theta)
	return b.Clearance + b.Width*units.Length(b.gain(theta)-ground.Along*cos-ground.Across*sin)
}

// gain is the height of the bottom edge over its hinge end, per meter of radius.
func (b Bottom) gain(theta float64) float64 {
	direction := float64(b.LeanDirection)
	return b.Slope + math.Sin(float64(b.Lean))*(math.Cos(direction)-math.Cos(theta-direction))
}

// OverSpots is the clearance over surveyed heights. Each is looked at alone, at
// the leaf angle at which the leaf stands over it; between them nothing is taken
// for granted, so the clearance found is the most there can be. A spot counts
// within the width of the leaf and the swing; with none there the outcome is
// NotSurveyed.
func (b Bottom) OverSpots(open units.Angle, spots []Spot, keep units.Length) (GroundSwing, error) {
	problems := []error{b.check(), checkSwing(open), checkKeep(keep)}
	for i, spot := range spots {
		if err := spot.At.check(); err != nil {
			problems = append(problems, fmt.Errorf("spot %d: %w", i, err))
		}
		if !(math.Abs(float64(spot.Height)) <= 100) {
			problems = append(problems, fmt.Errorf("spot %d: a height of %g m is not within 100 m", i, float64(spot.Height)))
		}
	}
	if err := errors.Join(problems...); err != nil {
		return GroundSwing{}, err
	}
	s := b.atHinge(open)
	s.Outcome = NotSurveyed
	limit := units.Angle(math.Inf(1))
	if !keeps(b.Clearance, keep) {
		limit = 0
	}
	for _, spot := range spots {
		radius, angle := spot.At.vec().norm(), fullTurn(spot.At.vec().angle())
		if radius > float64(b.Width) || angle > float64(open) {
			continue
		}
		if s.Outcome == NotSurveyed {
			s.Outcome = Free
		}
		clearance := b.Clearance + units.Length(radius*b.gain(angle)) - spot.Height
		s.lower(clearance, units.Length(radius), units.Angle(angle))
		if !keeps(clearance, keep) {
			limit = min(limit, units.Angle(angle))
		}
	}
	switch {
	case limit == 0:
		s.Outcome, s.FreeTo = BlockedClosed, 0
	case limit <= open:
		s.Outcome, s.FreeTo = Limited, limit
	case s.Outcome == NotSurveyed:
		s.FreeTo = 0
	}
	return s, nil
}

// atHinge is the clearance where the ground is known in any case.
func (b Bottom) atHinge(open units.Angle) GroundSwing {
	return GroundSwing{Swing: Swing{Outcome: Free, Clearance: b.Clearance, FreeTo: open}}
}

// lower takes in another clearance where it is smaller, or as small and sooner.
func (s *GroundSwing) lower(clearance, radius units.Length, at units.Angle) {
	if clearance < s.Clearance || clearance == s.Clearance && at < s.At {
		s.Clearance, s.Radius, s.At = clearance, radius, at
	}
}

// keeps reports whether a clearance keeps a distance; lying on the ground never does.
func keeps(clearance, keep units.Length) bool { return clearance >= keep && clearance > 0 }

func (b Bottom) check() error {
	var problems []error
	if !(b.Width > 0 && b.Width <= 50) {
		problems = append(problems, fmt.Errorf("leaf width of %g m is outside 0 to 50 m", float64(b.Width)))
	}
	if !(b.Clearance >= 0 && b.Clearance <= 10) {
		problems = append(problems, fmt.Errorf("bottom clearance of %g m is outside 0 to 10 m", float64(b.Clearance)))
	}
	if !(b.Lean >= 0 && b.Lean <= math.Pi/6) {
		problems = append(problems, fmt.Errorf("lean of %g degrees is outside 0 to 30", b.Lean.Degrees()))
	}
	if !(math.Abs(float64(b.LeanDirection)) <= 2*math.Pi) {
		problems = append(problems, fmt.Errorf("lean direction of %g degrees is outside -360 to 360", b.LeanDirection.Degrees()))
	}
	return errors.Join(append(problems, checkSlope("bottom edge's slope", b.Slope))...)
}

func checkSlope(what string, slope float64) error {
	if !(math.Abs(slope) <= 1) {
		return fmt.Errorf("%s of %g is steeper than 1 in 1", what, slope)
	}
	return nil
}
