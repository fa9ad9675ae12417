package linkage

// alongB finds the position of b with the best peak, a and c following, from
// position i on, and leaves x and path there.
func (s *search) alongB(i int) (int, top) {
	low, high := -1, s.positions.count
	bestAt, best, place := -1, top{}, s.place
	for {
		t := s.climbAt(i)
		if bestAt < 0 || t.v > best.v {
			bestAt, best, place = i, t, s.place
		}
		m := s.meet(overB, &t)
		next := s.positions.upTo(s.x[overB]+m.direction*m.distance) - 1
		if m.direction > 0 {
			low = i
		} else {
			high = i
			next++
		}
		if high-low <= 1 {
			s.place = place
			return bestAt, best
		}
		i = min(max(next, low+1), high-1)
	}
}

// climbAt climbs over a and c with b at position i.
func (s *search) climbAt(i int) top {
	s.move(overB, float64(s.positions.at(i))/1000)
	return s.climb(overA)
}
