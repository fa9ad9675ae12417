package linkage

import "math"

// finestA is how near, m, the search over a comes to the peak between whole
// millimeters, and flatEnough the relative gain it doesn't chase.
const (
	finestA    = 0.0005
	flatEnough = 2e-4
)

// alongA finds the best a for b, c following, starting from a guess. It brackets
// the peak by the sign of the slope and steps to where the tangents from both
// sides meet.
func (s *search) alongA(b float64, guess peak) peak {
	low, high := float64(s.p.A.Low)/1000, float64(s.p.A.High)/1000
	var left, right, best peak
	leftSeen, rightSeen := false, false
	best.score = math.Inf(-1)
	a, c, stride := math.Min(math.Max(guess.a, low), high), guess.c, 0.008
	for step := 0; ; step++ {
		at := s.alongC(a, b, c)
		c = at.c
		if at.score > best.score {
			best = at
		}
		if at.slopeA >= 0 {
			left, leftSeen, low = at, true, a
		} else {
			right, rightSeen, high = at, true, a
		}
		switch {
		case leftSeen && rightSeen:
			if high-low <= finestA {
				return best.follow(&left, &right)
			}
			meet, top := meetOf(&left, &right)
			if step > tangentSteps || !(meet > low && meet < high) {
				meet = (low + high) / 2
			} else if best.score > 0 && top-best.score <= flatEnough*best.score {
				return best.follow(&left, &right)
			}
			a = meet
		case leftSeen:
			if a >= high {
				return best
			}
			a = math.Min(a+stride, high)
		default:
			if a <= low {
				return best
			}
			a = math.Max(a-stride, low)
		}
		stride *= 3
	}
}

// meetOf is where the tangents of two sides meet, and the height there. A broken
// limit's tangent is followed up to where it is mended instead: its height is in
// other terms than a margin's.
func meetOf(left, right *peak) (a, top float64) {
	switch {
	case left.score < 0 && right.score >= 0:
		return left.a - left.score/left.slopeA, math.Inf(1)
	case right.score < 0 && left.score >= 0:
		return right.a - right.score/right.slopeA, math.Inf(1)
	}
	d := (right.score - left.score - right.slopeA*(right.a-left.a)) / (left.slopeA - right.slopeA)
	return left.a + d, left.score + left.slopeA*d
}

// follow is the peak with its slope by b as a follows, weighed so that a drops
// out.
func (p peak) follow(left, right *peak) peak {
	if left.score >= 0 == (right.score >= 0) && left.slopeA > right.slopeA {
		share := left.slopeA / (left.slopeA - right.slopeA)
		p.slopeB = left.slopeB + share*(right.slopeB-left.slopeB)
	}
	return p
}
