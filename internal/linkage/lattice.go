package linkage

import "math"

// candidate is a mounting in whole millimeters and its score by the rows.
type candidate struct {
	a, b, c int
	score   float64
	found   bool
}

// worthWhile is the relative gain below which a neighbor isn't looked for; it
// leaves the answer well within 0.1 % of the best.
const worthWhile = 2e-4

func (best *candidate) beatenBy(t *top) bool {
	return t.holds && (!best.found || t.v > best.score*(1+worthWhile))
}

// bestWhole finds the best mounting in whole millimeters near the peak the search
// stands at, position i of b. From there it goes outwards over b and a
// for as long as the best mounting in real numbers still beats the best in whole
// ones.
func (s *search) bestWhole(i int, best candidate) candidate {
	from := s.place
	s.wholeA(i, &best)
	for _, direction := range [2]int{-1, 1} {
		s.place = from
		for k := i + direction; k >= 0 && k < s.positions.count && !s.spent(); k += direction {
			if t := s.climbAt(k); !best.beatenBy(&t) {
				break
			}
			there := s.place
			s.wholeA(k, &best)
			s.place = there
		}
	}
	return best
}

func (s *search) wholeA(i int, best *candidate) {
	from := s.place
	for _, direction := range [2]int{-1, 1} {
		s.place = from
		a := int(math.Floor(from.x[overA]*1000)) + (direction+1)/2
		for ; a >= s.p.A.Low && a <= s.p.A.High && !s.spent(); a += direction {
			s.move(overA, float64(a)/1000)
			if t := s.climb(overC); !best.beatenBy(&t) {
				break
			}
			c := s.x[overC]
			s.wholeC(a, s.positions.at(i), best)
			s.x[overC] = c
		}
	}
}

// wholeC climbs over whole c from x.
func (s *search) wholeC(a, b int, best *candidate) {
	c := min(max(int(math.Round(s.x[overC]*1000)), s.p.C.Low), s.p.C.High)
	for came := 0; ; {
		s.x[overC] = float64(c) / 1000
		t := s.readAll(exactFit)
		if t.holds && (!best.found || t.v > best.score) {
			*best = candidate{a: a, b: b, c: c, score: t.v, found: true}
		}
		direction := 1
		if t.d[overC] < 0 {
			direction = -1
		}
		if c += direction; direction == -came || c < s.p.C.Low || c > s.p.C.High {
			return
		}
		came = direction
	}
}
