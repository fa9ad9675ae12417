package linkage

import "math"

// search looks for the mounting with the largest smallest margin.
//
// The arm at a given angle is the ratio of N = Fx b + Fy a to s = |F - R|. N is
// affine and s convex in (a, b) where the front pivot stands still, and in c
// where the rear one does, so the arm, and with it the smallest of any number of
// margins, is quasi-concave in each: it has no false peak. The search therefore
// nests one climb in another, over c in a in b, each led by the tangents of the
// rows. That is no proof for c, a and b together, nor where a limit isn't convex:
// search starts again where that shows, and the test against an exhaustive search
// is what the answer rests on.
type search struct {
	prepared
	positions positions // of b
	low, high [overB]float64

	rows     [maxRows]row
	readings [maxRows]reading
	n        int // rows taken up
	place
	held        meeting // what holds c at its peak
	evaluations int
}

// place is where a search stands.
type place struct {
	x    [unknowns]float64        // c, a, b, m
	path [overB][unknowns]float64 // how the peak of an unknown follows the ones above it
}

// nearFit is the slack, m, with which a limit still counts as kept while the
// search moves in real numbers; whole millimeters must fit exactly.
const nearFit = -2e-5

// top is the score at a point: the smallest margin, or the slack of the limit
// broken most (negative, m) where one is broken.
type top struct {
	line
	holds bool
}

// readAll reads every row at x. A limit with less slack than the tolerance is
// broken.
func (s *search) readAll(tolerance float64) top {
	s.evaluations++
	slack, margin := 0, 0
	for i := range s.rows[:s.n] {
		s.read(&s.rows[i], s.x[overA], s.x[overB], s.x[overC], &s.readings[i])
		if s.readings[i].slack.v < s.readings[slack].slack.v {
			slack = i
		}
		if s.readings[i].margin.v < s.readings[margin].margin.v {
			margin = i
		}
	}
	if s.readings[slack].slack.v < tolerance {
		return top{line: s.readings[slack].slack}
	}
	return top{line: s.readings[margin].margin, holds: true}
}

// closeEnough is the step, m, up to which the tangents are believed: over it an
// arm bends away from its tangent by some 1e-5 (c) and 1e-4 (a) of itself.
var closeEnough = [overB]float64{overC: 0.003, overA: 0.002}

// longestStep, m, keeps a climb over a from stepping over a peak on this side of
// a hole to a lower one beyond it.
var longestStep = [overB]float64{overC: math.Inf(1), overA: 0.07}

// tangentSteps is how often a climb follows tangents before it halves, mostSteps
// when it stops whatever happens.
const (
	tangentSteps = 8
	mostSteps    = 50
)

// climb finds the best of the unknowns up to level with the others held, from x.
// It leaves x at the peak and the readings as they are there, with the unknowns
// up to level following the others.
func (s *search) climb(level int) top {
	b := bracket{low: end{x: s.low[level]}, high: end{x: s.high[level]}}
	for step := 0; ; step++ {
		t := s.below(level)
		m := s.meet(level, &t)
		x := s.x[level]
		trusted := b.narrow(x, m.direction, &t)
		to := b.towards(m.direction)
		room := math.Abs(to.x - x)
		switch {
		case to.seen && b.high.x-b.low.x < closeEnough[level]/4, step > mostSteps:
			return s.settleIn(level, to, &t, &m)
		case m.distance < room:
		case to.seen:
			trusted = false
		default:
			m.distance, m.met = room, nothing
		}
		next := x + m.direction*min(m.distance, longestStep[level])
		if trusted && m.met != itsLimit && m.distance <= closeEnough[level] {
			if !s.risesOn(level, &t, &m) {
				return s.settle(level, &t, &m)
			}
			next += m.direction * closeEnough[level]
		}
		if !trusted || step > tangentSteps || !b.within(next) {
			next = (b.low.x + b.high.x) / 2
		}
		s.move(level, next)
	}
}

// below is the score at x with the unknowns below level at their peak.
func (s *search) below(level int) top {
	if level == overC {
		return s.readAll(nearFit)
	}
	return s.climb(level - 1)
}

// settleIn ends a climb in a bracket too small to matter, at its better end.
func (s *search) settleIn(level int, to *end, t *top, m *meeting) top {
	if t.below(&to.top) {
		s.move(level, to.x)
		*t = s.below(level)
		*m = s.meet(level, t)
	}
	if m.distance > closeEnough[level]/4 || m.met == itsLimit {
		m.distance, m.met = 0, nothing
	}
	return s.settle(level, t, m)
}

// bracket is where a peak must lie: it rises inwards from each end that was seen.
type bracket struct{ low, high end }

type end struct {
	x    float64
	seen bool
	top  top
}

// narrow takes in the score t at x with the direction its tangent rises in. Where
// the score is lower than one seen on that side, the peak is on the other
// whatever the tangent says, and the tangent isn't to be trusted.
func (b *bracket) narrow(x, direction float64, t *top) (trusted bool) {
	from, to := &b.low, &b.high
	if direction < 0 {
		from, to = to, from
	}
	trusted = !(from.seen && t.below(&from.top))
	if !trusted {
		from = to
	}
	*from = end{x: x, seen: true, top: *t}
	return trusted
}

func (b *bracket) towards(direction float64) *end {
	if direction > 0 {
		return &b.high
	}
	return &b.low
}

// within says whether x is worth trying: inside, or an end not seen yet.
func (b *bracket) within(x float64) bool {
	return (x > b.low.x || x == b.low.x && !b.low.seen) && (x < b.high.x || x == b.high.x && !b.high.seen)
}

func (t *top) below(other *top) bool {
	if t.holds != other.holds {
		return other.holds
	}
	return t.v < other.v
}

// move takes x to a value of the unknown at level; the ones below follow the
// path their peak takes.
func (s *search) move(level int, to float64) {
	by := to - s.x[level]
	s.x[level] = to
	for k := range level {
		s.x[k] = min(max(s.x[k]+s.path[k][level]*by, s.low[k]), s.high[k])
	}
}
