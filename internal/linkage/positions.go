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

// at is the i-th position, mm; the last one beyond the end.
func (p *positions) at(i int) int {
	for _, r := range p.ranges[:p.n] {
		size := r.High - r.Low + 1
		if i < size {
			return r.Low + i
		}
		i -= size
	}
	return p.ranges[p.n-1].High
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
