package room

import "math"

// track is a point turning about the hinge axis: counterclockwise where sign
// is 1, clockwise where it is -1.
type track struct {
	radius, start, turn float64 // m, rad, rad
	sign                float64
}

func trackOf(p vec, turn, sign float64) track {
	return track{radius: p.norm(), start: p.angle(), turn: turn, sign: sign}
}

func (t track) at(theta float64) vec {
	sin, cos := math.Sincos(t.start + t.sign*theta)
	return vec{t.radius * cos, t.radius * sin}
}

// moments is a small set of turns of a track. Its array holds the most that
// nearest, reach or Leaf.PastLine adds, so that none of them allocates.
type moments struct {
	array [8]float64
	n     int
}

func (m *moments) add(theta float64) {
	m.array[m.n] = theta
	m.n++
}

func (m *moments) all() []float64 { return m.array[:m.n] }

// towards adds the turn at which the track stands in a direction, where it does.
func (m *moments) towards(t track, direction float64) {
	if theta := fullTurn(t.sign * (direction - t.start)); theta <= t.turn {
		m.add(theta)
	}
}

// fullTurn is the same direction from 0 to under 2 pi. A hair before the start
// is the start.
func fullTurn(theta float64) float64 {
	theta = math.Mod(theta, 2*math.Pi)
	if theta < 0 {
		theta += 2 * math.Pi
	}
	if theta > 2*math.Pi-1e-12 {
		return 0
	}
	return theta
}

// crossings adds the turns at which the track crosses the line n.p = c, n of
// unit length.
func (m *moments) crossings(t track, n vec, c float64) {
	if ratio := c / t.radius; math.Abs(ratio) <= 1 {
		half := math.Acos(ratio)
		m.towards(t, n.angle()+half)
		m.towards(t, n.angle()-half)
	}
}

// normal is the unit normal of a segment's line and the line's distance along
// it; false for a segment of no length.
func (s segment) normal() (n vec, c float64, ok bool) {
	along := s.b.sub(s.a)
	length := along.norm()
	if length == 0 {
		return vec{}, 0, false
	}
	n = vec{-along.y / length, along.x / length}
	return n, n.dot(s.a), true
}

// nearest is the smallest distance of a track from a segment and the first turn
// at which it is reached.
//
// The distance from a convex set is smooth off the set, so it is least at an
// end of the track, where the line is crossed, or where it is stationary: the
// track's direction is the line's normal (towards the inside of the segment)
// or that of one of its ends.
func nearest(t track, s segment) (distance, theta float64) {
	var m moments
	m.add(0)
	m.add(t.turn)
	if t.radius > 0 {
		m.towards(t, s.a.angle())
		m.towards(t, s.b.angle())
		if n, c, ok := s.normal(); ok {
			m.towards(t, n.angle())
			m.towards(t, n.angle()+math.Pi)
			m.crossings(t, n, c)
		}
	}
	distance, theta = math.Inf(1), 0
	for _, at := range m.all() {
		distance, theta = earliest(distance, theta, contact(s.distance(t.at(at))), at)
	}
	return distance, theta
}

// reach is the first turn at which a track, farther than gap from a segment at
// its start, is at that distance: where it meets the outline of the segment
// widened by gap, two parallel lines and two half circles.
func reach(t track, s segment, gap float64) (theta float64, ok bool) {
	if t.radius == 0 {
		return 0, false
	}
	var m moments
	if n, c, hasLine := s.normal(); hasLine {
		m.crossings(t, n, c+gap)
		m.crossings(t, n, c-gap)
	}
	for _, end := range [2]vec{s.a, s.b} {
		far := end.norm()
		// Law of cosines: far2 + radius2 - 2 far radius cos(between) = gap2.
		cos := (float64(far*far) + float64(t.radius*t.radius) - float64(gap*gap)) / (2 * far * t.radius)
		if math.Abs(cos) <= 1 {
			between := math.Acos(cos)
			m.towards(t, end.angle()+between)
			m.towards(t, end.angle()-between)
		}
	}
	theta = math.Inf(1)
	for _, at := range m.all() {
		if at < theta && s.distance(t.at(at)) <= gap+touching {
			theta, ok = at, true
		}
	}
	return theta, ok
}

// apart is a distance no turn of a track brings it nearer to a segment than: how
// far its circle stands off the ring about the hinge axis that holds the segment.
func apart(t track, s segment) float64 {
	return max(0, s.distance(vec{})-t.radius, t.radius-max(s.a.norm(), s.b.norm()))
}

// contact is a distance with everything under touching taken for none.
func contact(distance float64) float64 {
	if distance < touching {
		return 0
	}
	return distance
}

// earliest is the smaller of two distances with its turn; of two that rounding
// can't tell apart, the turn that comes first.
func earliest(distance, theta, other, otherTheta float64) (float64, float64) {
	if other < distance-touching || other <= distance+touching && otherTheta < theta {
		theta = otherTheta
	}
	return min(distance, other), theta
}
