package room

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"leafmoment.example/leafmoment/internal/units"
)

// MostCorners is the largest number of corners of an outline.
const MostCorners = 100

// Obstacle is something the leaf must not meet: a polygon with its inside, or a
// disc. It is made by NewOutline or NewDisc.
type Obstacle struct {
	corners []vec
	radius  float64 // of a disc about its single corner, m
}

// NewOutline is the obstacle inside a simple polygon, its corners in either
// direction, the first not repeated at the end. Fewer than three corners, more
// than MostCorners, a corner that isn't finite or stands twice, an outline that
// crosses or touches itself, or one that holds the hinge axis is an error.
func NewOutline(corners []Point) (Obstacle, error) {
	if n := len(corners); n < 3 || n > MostCorners {
		return Obstacle{}, fmt.Errorf("an outline has 3 to %d corners, not %d", MostCorners, n)
	}
	polygon := make([]vec, len(corners))
	var problems []error
	for i, p := range corners {
		if err := p.check(); err != nil {
			problems = append(problems, fmt.Errorf("corner %d: %w", i, err))
		}
		polygon[i] = p.vec()
	}
	if err := errors.Join(problems...); err != nil {
		return Obstacle{}, err
	}
	if err := simple(polygon); err != nil {
		return Obstacle{}, err
	}
	o := Obstacle{corners: polygon}
	if o.holds(vec{}) {
		return Obstacle{}, errors.New("the outline holds the hinge axis")
	}
	return o, nil
}

// NewDisc is the obstacle within radius of center. A radius that isn't positive
// or a disc that holds the hinge axis is an error.
func NewDisc(center Point, radius units.Length) (Obstacle, error) {
	if err := center.check(); err != nil {
		return Obstacle{}, fmt.Errorf("center: %w", err)
	}
	if !(radius > 0 && radius <= believedReach) {
		return Obstacle{}, fmt.Errorf("a radius of %g m is outside 0 to %g m", float64(radius), believedReach)
	}
	o := Obstacle{corners: []vec{center.vec()}, radius: float64(radius)}
	if o.holds(vec{}) {
		return Obstacle{}, errors.New("the disc holds the hinge axis")
	}
	return o, nil
}

// edge i of an outline; a disc has none.
func (o Obstacle) edge(i int) segment {
	return segment{o.corners[i], o.corners[(i+1)%len(o.corners)]}
}

func (o Obstacle) edgeCount() int {
	if len(o.corners) < 3 {
		return 0
	}
	return len(o.corners)
}

// holds reports whether p is inside the obstacle or touches it.
func (o Obstacle) holds(p vec) bool {
	if o.edgeCount() == 0 {
		return p.sub(o.corners[0]).norm() < o.radius+touching
	}
	return inside(o.corners, p)
}

// inside reports whether p is inside a simple polygon or touches it. Inside, an
// odd number of edges pass over p.
func inside(polygon []vec, p vec) bool {
	odd := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (segment{a, b}).distance(p) < touching {
			return true
		}
		if (a.x > p.x) != (b.x > p.x) && p.y < a.y+(p.x-a.x)*(b.y-a.y)/(b.x-a.x) {
			odd = !odd
		}
	}
	return odd
}

// simple checks that no two edges of a polygon cross or touch, save neighbors
// at their common corner. It takes a number of steps that grows with the square
// of the corners, at most 5000 pairs of edges.
func simple(polygon []vec) error {
	n := len(polygon)
	for i, a := range polygon {
		if j := (i + 1) % n; a == polygon[j] {
			return fmt.Errorf("corner %d repeats corner %d", j, i)
		}
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			first, second := segment{polygon[i], polygon[(i+1)%n]}, segment{polygon[j], polygon[(j+1)%n]}
			var clash bool
			switch {
			case j == i+1: // neighbors: the second must not fold back onto the first
				clash = folds(first.a, first.b, second.b)
			case i == 0 && j == n-1:
				clash = folds(second.a, second.b, first.b)
			default:
				clash = cross(first, second)
			}
			if clash {
				return fmt.Errorf("the outline crosses or touches itself: the edge from corner %d and the edge from corner %d", i, j)
			}
		}
	}
	return nil
}

// folds reports whether the line from middle to c runs back along the line from
// a to middle.
func folds(a, middle, c vec) bool {
	return orientation(a, middle, c) == 0 && a.sub(middle).dot(c.sub(middle)) > 0
}

// cross reports whether two segments have a point in common.
func cross(s, t segment) bool {
	sa, sb := orientation(t.a, t.b, s.a), orientation(t.a, t.b, s.b)
	ta, tb := orientation(s.a, s.b, t.a), orientation(s.a, s.b, t.b)
	if sa*sb < 0 && ta*tb < 0 {
		return true
	}
	return slices.ContainsFunc([]float64{t.distance(s.a), t.distance(s.b), s.distance(t.a), s.distance(t.b)},
		func(d float64) bool { return d < touching })
}

// orientation is 1 where a, b, c turn counterclockwise, -1 where clockwise, and
// 0 where rounding can't tell. The error of the two products and their
// difference is under 4 units of 1.1e-16 of their sizes.
func orientation(a, b, c vec) float64 {
	left, right := (a.x-c.x)*(b.y-c.y), (a.y-c.y)*(b.x-c.x)
	switch det, band := left-right, 4*0x1p-53*(math.Abs(left)+math.Abs(right)); {
	case det > band:
		return 1
	case det < -band:
		return -1
	}
	return 0
}
