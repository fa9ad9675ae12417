// Package room works out whether a leaf and its drive have the room they need:
// over the ground, past what stands beside the swing, at their own pier, in
// the driveway and short of a public way.
//
// Everything is in plan, in the frame of reference of the leaf: origin on the
// hinge axis, x along the closed leaf towards its free edge, y towards the side
// the leaf opens towards, leaf angles from 0 (closed) upward. Heights are not
// looked at except by the ground.
//
// Results are exact up to rounding: every smallest distance is taken over the
// finite set of angles at which it can occur, not over samples of the swing.
package room

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Point is a point in plan.
type Point struct{ X, Y units.Length }

func (p Point) vec() vec { return vec{float64(p.X), float64(p.Y)} }

func (p Point) check() error {
	if v := p.vec(); !(math.Abs(v.x) <= believedReach && math.Abs(v.y) <= believedReach) {
		return fmt.Errorf("(%g, %g) m is not within %g m of the hinge axis", v.x, v.y, believedReach)
	}
	return nil
}

const (
	// believedReach bounds coordinates, m: what stands farther off is mistyped.
	believedReach = 1000.0
	// touching is the distance, m, under which two bodies count as in contact.
	// It is far over the rounding of coordinates within believedReach and far
	// under anything measured.
	touching = 1e-9
)

// Leaf is a leaf as a slab in plan, its hinge-side end on the hinge axis.
type Leaf struct {
	Width     units.Length // hinge axis to free edge
	Thickness units.Length
	Offset    units.Length // center plane from the hinge axis, positive to the opening side
}

func (l Leaf) check() error {
	var problems []error
	if !(l.Width > 0 && l.Width <= 50) {
		problems = append(problems, fmt.Errorf("leaf width of %g m is outside 0 to 50 m", float64(l.Width)))
	}
	if !(l.Thickness > 0 && l.Thickness <= 1) {
		problems = append(problems, fmt.Errorf("leaf thickness of %g m is outside 0 to 1 m", float64(l.Thickness)))
	}
	if !(l.Offset >= -2 && l.Offset <= 2) {
		problems = append(problems, fmt.Errorf("leaf offset of %g m is outside -2 to 2 m", float64(l.Offset)))
	}
	return errors.Join(problems...)
}

// corners of the closed leaf, counterclockwise from the hinge end on the far
// side of the opening.
func (l Leaf) corners() [4]vec {
	w, low, high := float64(l.Width), float64(l.Offset-l.Thickness/2), float64(l.Offset+l.Thickness/2)
	return [4]vec{{0, low}, {w, low}, {w, high}, {0, high}}
}

func checkSwing(open units.Angle) error {
	if !(open > 0 && open <= math.Pi) {
		return fmt.Errorf("opening angle of %g degrees is outside 0 to 180", open.Degrees())
	}
	return nil
}

func checkKeep(keep units.Length) error {
	if !(keep >= 0 && keep <= 10) {
		return fmt.Errorf("distance to keep of %g m is outside 0 to 10 m", float64(keep))
	}
	return nil
}

// vec is a point or a direction in plan, m.
type vec struct{ x, y float64 }

func (a vec) sub(b vec) vec     { return vec{a.x - b.x, a.y - b.y} }
func (a vec) dot(b vec) float64 { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) norm() float64     { return math.Hypot(a.x, a.y) }
func (a vec) angle() float64    { return math.Atan2(a.y, a.x) }

func (a vec) turned(angle float64) vec {
	sin, cos := math.Sincos(angle)
	return vec{float64(a.x*cos) - float64(a.y*sin), float64(a.x*sin) + float64(a.y*cos)}
}

// segment is the straight line between two points, which may coincide.
type segment struct{ a, b vec }

// distance of a point from the segment.
func (s segment) distance(p vec) float64 {
	along := s.b.sub(s.a)
	length2 := along.dot(along)
	if length2 == 0 {
		return p.sub(s.a).norm()
	}
	t := min(max(p.sub(s.a).dot(along)/length2, 0), 1)
	return p.sub(vec{s.a.x + float64(t*along.x), s.a.y + float64(t*along.y)}).norm()
}
