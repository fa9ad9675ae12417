package linkage

import "math"

// candidate is a mounting in whole millimeters and its score by the rows.
type candidate struct {
	a, b, c int
	score   float64
	found   bool
}

// worthWhile is the relative gain below which a neighbor isn't looked for. With
// flatEnough it leaves the answer well within 0.1 % of the best.
const worthWhile = 1e-4

func (best *candidate) beaten(score float64) bool {
	return !best.found && score >= 0 || score > best.score*(1+worthWhile)
}

// bestWhole finds the best mounting in whole millimeters near the peak in real
// numbers. From the peak it goes outwards over b and a for as long as the best
// real mounting there still beats the best whole one.
func (s *search) bestWhole(start int, top peak, best candidate) candidate {
	s.wholeA(s.positions.at(start), top, &best)
	for _, direction := range [2]int{-1, 1} {
		at := top
		for i := start + direction; i >= 0 && i < s.positions.count; i += direction {
			b := s.positions.at(i)
			at = s.alongA(float64(b)/1000, at)
			if !best.beaten(at.score) {
				break
			}
			s.wholeA(b, at, &best)
		}
	}
	return best
}

func (s *search) wholeA(b int, top peak, best *candidate) {
	start := int(math.Floor(top.a * 1000))
	for _, direction := range [2]int{-1, 1} {
		c := top.c
		for a := start + (direction+1)/2; a >= s.p.A.Low && a <= s.p.A.High; a += direction {
			at := s.alongC(float64(a)/1000, float64(b)/1000, c)
			c = at.c
			if !best.beaten(at.score) {
				break
			}
			s.wholeC(a, b, c, best)
		}
	}
}

// wholeC climbs over whole c from the peak.
func (s *search) wholeC(a, b int, peak float64, best *candidate) {
	c := min(max(int(math.Round(peak*1000)), s.p.C.Low), s.p.C.High)
	for came := 0; ; {
		deciding, holds := s.readAll(float64(a)/1000, float64(b)/1000, float64(c)/1000, 0)
		if holds && (!best.found || deciding.v > best.score) {
			*best = candidate{a: a, b: b, c: c, score: deciding.v, found: true}
		}
		direction := 1
		if deciding.c < 0 {
			direction = -1
		}
		if c += direction; direction == -came || c < s.p.C.Low || c > s.p.C.High {
			return
		}
		came = direction
	}
}
