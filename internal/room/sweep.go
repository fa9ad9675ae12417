package room

import (
	"errors"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Sweep is how near the leaf comes to an obstacle on its way from closed to
// open, and how far it may swing before it comes nearer than keep. With a keep
// of 0 it may swing until they touch.
//
// The distance of two polygons apart is that of a corner of one from an edge of
// the other, and both move on circles in the frame of the other, so every pair
// has a closed solution; bodies apart at first come into contact at such a
// pair. A polygon of n corners takes 8 n of them, a disc 4.
func (l Leaf) Sweep(open units.Angle, o Obstacle, keep units.Length) (Swing, error) {
	if err := errors.Join(l.check(), checkSwing(open), checkKeep(keep)); err != nil {
		return Swing{}, err
	}
	if len(o.corners) == 0 {
		return Swing{}, errors.New("an obstacle without a shape")
	}
	return l.sweep(open, o, keep), nil
}

func (l Leaf) sweep(open units.Angle, o Obstacle, keep units.Length) Swing {
	p := pairs{leaf: l.corners(), open: float64(open), obstacle: o}
	closed := o.clear(p.closedDistance())
	if closed == 0 || p.overlapClosed() {
		return Swing{Outcome: BlockedClosed}
	}
	distance, at := p.nearest()
	s := Swing{Outcome: Free, Clearance: units.Length(o.clear(distance)), At: units.Angle(at), FreeTo: open}
	if s.Clearance == 0 {
		s.At = min(s.At, units.Angle(p.reach(o.radius)))
	}
	switch {
	case closed < float64(keep):
		s.Outcome, s.FreeTo = BlockedClosed, 0
	case s.Clearance < keep || s.Clearance == 0:
		s.Outcome = Limited
		// Up to the nearest angle the distance is kept where rounding hides a
		// grazing approach.
		s.FreeTo = min(s.At, units.Angle(p.reach(o.radius+float64(keep))))
	}
	return s
}

// clear is what is left of a distance from the corners and edges of the
// obstacle.
func (o Obstacle) clear(distance float64) float64 {
	return contact(max(0, distance-o.radius))
}

// pairs are the corner and edge pairs of a leaf and an obstacle: the closed
// leaf's corners turn counterclockwise past the obstacle's edges, and the
// obstacle's corners, seen from the leaf, clockwise past the closed leaf's.
type pairs struct {
	leaf     [4]vec
	open     float64
	obstacle Obstacle
}

func (p *pairs) leafEdge(i int) segment { return segment{p.leaf[i], p.leaf[(i+1)%4]} }

// each calls visit for every corner's track and the edge it may meet.
func (p *pairs) each(visit func(track, segment)) {
	for _, corner := range p.leaf {
		t := trackOf(corner, p.open, 1)
		for i := range p.obstacle.edgeCount() {
			visit(t, p.obstacle.edge(i))
		}
	}
	for _, corner := range p.obstacle.corners {
		t := trackOf(corner, p.open, -1)
		for i := range p.leaf {
			visit(t, p.leafEdge(i))
		}
	}
}

func (p *pairs) closedDistance() float64 {
	least := math.Inf(1)
	p.each(func(t track, s segment) { least = min(least, s.distance(t.at(0))) })
	return least
}

func (p *pairs) nearest() (distance, theta float64) {
	distance = math.Inf(1)
	p.each(func(t track, s segment) {
		if apart(t, s) > distance+touching {
			return
		}
		d, at := nearest(t, s)
		distance, theta = earliest(distance, theta, d, at)
	})
	return distance, theta
}

func (p *pairs) reach(gap float64) float64 {
	first := math.Inf(1)
	p.each(func(t track, s segment) {
		if apart(t, s) > gap+touching {
			return
		}
		if at, ok := reach(t, s, gap); ok {
			first = min(first, at)
		}
	})
	return first
}

// overlapClosed reports whether the closed leaf and the obstacle share a point.
func (p *pairs) overlapClosed() bool {
	if inside(p.leaf[:], p.obstacle.corners[0]) || p.obstacle.holds(p.leaf[0]) {
		return true
	}
	for i := range p.leaf {
		for j := range p.obstacle.edgeCount() {
			if cross(p.leafEdge(i), p.obstacle.edge(j)) {
				return true
			}
		}
	}
	return false
}
