package linkage

// positions are the whole millimeters b may take, ascending, each once.
type positions struct {
	ranges [maxBracketRanges]Interval
	n      int
	count  int
}

func newPositions(given []Interval) positions {
	var p positions
	for _, r := range given {
		i := p.n
		for ; i > 0 && p.ranges[i-1].Low > r.Low; i-- {
			p.ranges[i] = p.ranges[i-1]
		}
		p.ranges[i] = r
		p.n++
	}
	kept := 0
	for _, r := range p.ranges[1:p.n] {
		last := &p.ranges[kept]
		if r.Low <= last.High+1 {
			last.High = max(last.High, r.High)
			continue
		}
		kept++
		p.ranges[kept] = r
	}
	p.n = kept + 1
	for _, r := range p.ranges[:p.n] {
		p.count += r.High - r.Low + 1
	}
	return p
}

// at is the i-th position, mm.
func (p *positions) at(i int) int {
	for _, r := range p.ranges[:p.n] {
		if size := r.High - r.Low + 1; i >= size {
			i -= size
			continue
		}
		return r.Low + i
	}
	panic("linkage: no such bracket position")
}

// upTo is how many positions lie at or below v, m.
func (p *positions) upTo(v float64) int {
	n := 0
	for _, r := range p.ranges[:p.n] {
		switch mm := v * 1000; {
		case mm >= float64(r.High):
			n += r.High - r.Low + 1
		case mm >= float64(r.Low):
			n += int(mm) - r.Low + 1
		}
	}
	return n
}

// alongB finds the position of b with the best peak, a and c following.
func (s *search) alongB(i int, guess peak) (int, peak) {
	low, high := -1, s.positions.count
	var left, right peak // at low and high
	bestAt, best := i, peak{}
	for stride, first := 1, true; ; first = false {
		b := float64(s.positions.at(i)) / 1000
		at := s.alongA(b, guess)
		guess = at
		if first || at.score > best.score {
			bestAt, best = i, at
		}
		if at.slopeB >= 0 {
			low, left = i, at
		} else {
			high, right = i, at
		}
		switch {
		case high-low <= 1:
			return bestAt, best
		case low < 0:
			i = max(high-stride, 0)
		case high == s.positions.count:
			i = min(low+stride, high-1)
		default:
			i = s.between(low, high, &left, &right)
		}
		stride *= 3
	}
}

// between is the position next to try between two, where the tangents meet.
func (s *search) between(low, high int, left, right *peak) int {
	if left.score >= 0 != (right.score >= 0) || !(left.slopeB > right.slopeB) {
		return (low + high) / 2
	}
	from, to := float64(s.positions.at(low))/1000, float64(s.positions.at(high))/1000
	meet := from + (right.score-left.score-right.slopeB*(to-from))/(left.slopeB-right.slopeB)
	return min(max(s.positions.upTo(meet)-1, low+1), high-1)
}
