package room

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// DriveBody is a linear drive in plan: a housing along the line from its rear
// to its front pivot, a rod that ends at the front pivot, and the brackets. The
// rear pivot and its bracket stand still, the front pivot and its bracket turn
// with the leaf.
type DriveBody struct {
	Rear          Point
	Front         Point        // on the closed leaf
	Overhang      units.Length // of the housing behind the rear pivot
	HousingLength units.Length // ahead of the rear pivot
	HousingRadius units.Length
	RodRadius     units.Length // of the eye at either pin too
	RearBracket   []Point
	FrontBracket  []Point // on the closed leaf
}

// Overrun is how far the furthest point of a body stands past a line; negative
// short of it.
type Overrun struct {
	Open       units.Length // with the leaf open
	Furthest   units.Length // over the part of the swing looked at
	FurthestAt units.Angle
}

// IntoDriveway is how far the drive stands past the jamb line into the clear
// width of the driveway: the furthest x of its body less the jamb's. Over the
// whole swing it is of little use, for until it is open the leaf itself stands
// in the way; from is the leaf angle from which on it is looked at.
func (d DriveBody) IntoDriveway(from, open units.Angle, jamb units.Length) (Overrun, error) {
	return d.past(vec{1, 0}, jamb, from, open)
}

// PastLine is how far the drive stands past a line parallel to the closed leaf,
// at distance y on the opening side, from closed to open.
func (d DriveBody) PastLine(open units.Angle, y units.Length) (Overrun, error) {
	return d.past(vec{0, 1}, y, 0, open)
}

// past looks along direction, of unit length. The extent is the greatest of a
// few points' coordinates, each a sine of the leaf angle or of the drive's own
// angle, so it is greatest at an end of the swing or where one of them is
// stationary.
func (d DriveBody) past(direction vec, line units.Length, from, open units.Angle) (Overrun, error) {
	err := errors.Join(d.check(), checkSwing(open))
	if !(from >= 0 && from <= open) {
		err = errors.Join(err, fmt.Errorf("a start at %g degrees is not within the swing", from.Degrees()))
	}
	if !(math.Abs(float64(line)) <= believedReach) {
		err = errors.Join(err, fmt.Errorf("a line at %g m is not within %g m", float64(line), believedReach))
	}
	if err != nil {
		return Overrun{}, err
	}
	at := func(theta float64) units.Length {
		return units.Length(d.extent(direction, theta)) - line
	}
	out := Overrun{Open: at(float64(open)), Furthest: at(float64(from)), FurthestAt: from}
	consider := func(theta float64) {
		if theta < float64(from) || theta > float64(open) {
			return
		}
		if past := at(theta); past > out.Furthest {
			out.Furthest, out.FurthestAt = past, units.Angle(theta)
		}
	}
	consider(float64(open))
	for _, theta := range d.stationary(direction.angle()) {
		consider(theta)
	}
	return out, nil
}

// housing is the outline of the housing beside the line from rear pivot to front
// pivot: along it and to its left.
func (d DriveBody) housing() [4]vec {
	back, ahead, radius := -float64(d.Overhang), float64(d.HousingLength), float64(d.HousingRadius)
	return [4]vec{{back, -radius}, {ahead, -radius}, {ahead, radius}, {back, radius}}
}

// extent is the body's greatest coordinate along direction.
func (d DriveBody) extent(direction vec, theta float64) float64 {
	rear, front := d.Rear.vec(), d.Front.vec().turned(theta)
	furthest := max(rear.dot(direction), front.dot(direction)) + float64(d.RodRadius)
	own := front.sub(rear).angle()
	for _, corner := range d.housing() {
		furthest = max(furthest, rear.dot(direction)+corner.turned(own).dot(direction))
	}
	for _, p := range d.RearBracket {
		furthest = max(furthest, p.vec().dot(direction))
	}
	for _, p := range d.FrontBracket {
		furthest = max(furthest, p.vec().turned(theta).dot(direction))
	}
	return furthest
}

// stationary is every leaf angle within a turn at which a point of the body may
// be furthest in a direction.
func (d DriveBody) stationary(direction float64) []float64 {
	rear, front := d.Rear.vec(), d.Front.vec()
	// The front pivot and its bracket stand in the direction.
	out := []float64{fullTurn(direction - front.angle())}
	for _, p := range d.FrontBracket {
		out = append(out, fullTurn(direction-p.vec().angle()))
	}
	// A corner of the housing, seen from the rear pivot, stands in the direction:
	// the front pivot's circle meets a ray from the rear pivot, |rear + t e| = |front|.
	for _, corner := range d.housing() {
		sin, cos := math.Sincos(direction - corner.angle())
		e := vec{cos, sin}
		half, rest := rear.dot(e), rear.dot(rear)-front.dot(front)
		root := math.Sqrt(half*half - rest)
		for _, t := range [2]float64{-half - root, -half + root} {
			if t > 0 { // not where the circle is missed, t being NaN
				out = append(out, fullTurn(vec{rear.x + t*e.x, rear.y + t*e.y}.angle()-front.angle()))
			}
		}
	}
	// The drive's own angle turns back: the front pivot moves along the drive,
	// front.(front - rear) = 0.
	if ratio := front.norm() / rear.norm(); ratio <= 1 {
		between := math.Acos(ratio)
		out = append(out, fullTurn(rear.angle()+between-front.angle()), fullTurn(rear.angle()-between-front.angle()))
	}
	return out
}

func (d DriveBody) check() error {
	var problems []error
	points := append([]Point{d.Rear, d.Front}, d.RearBracket...)
	for _, p := range append(points, d.FrontBracket...) {
		if err := p.check(); err != nil {
			problems = append(problems, fmt.Errorf("drive: %w", err))
		}
	}
	for _, size := range [4]units.Length{d.Overhang, d.HousingLength, d.HousingRadius, d.RodRadius} {
		if !(size >= 0 && size <= 10) {
			problems = append(problems, fmt.Errorf("drive: a size of %g m is outside 0 to 10 m", float64(size)))
		}
	}
	if d.Front == (Point{}) {
		problems = append(problems, errors.New("drive: the front pivot stands on the hinge axis"))
	}
	return errors.Join(problems...)
}
