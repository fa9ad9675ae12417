package linkage

import "math"

// mostTolerance is how far, mm, a tolerance is looked for.
const mostTolerance = 100

// Tolerance is how far one dimension alone may be off, in whole mm each way,
// before a limit breaks; at most 100 mm is looked at. Where a limit is broken
// already both are 0.
type Tolerance struct{ Less, More int }

// mover is a mounting at one leaf angle with one dimension off by t, m:
//
//	s^2 = s0^2 + 2 h t + t^2, N = N0 + n t
//
// since each dimension moves a pin along a straight line. N is arm times s.
type mover struct{ square, h, moment, n float64 }

// limits are the two nearest values of t, m, at which a limit breaks.
type limits struct{ less, more float64 }

// crossing takes in the roots of a t^2 + 2 b t + c = 0, by the form that loses no
// digits.
func (l *limits) crossing(a, b, c float64) {
	root := b*b - a*c
	if root < 0 {
		return
	}
	q := -(b + math.Copysign(math.Sqrt(root), b))
	l.breaksAt(q / a)
	l.breaksAt(c / q)
}

func (l *limits) breaksAt(t float64) {
	switch {
	case t >= 0:
		l.more = min(l.more, t)
	case t < 0:
		l.less = max(l.less, t)
	}
}

// lengthAt takes in where s passes a limit, sign +1 the least it may be, -1 the
// most. One met exactly doesn't break.
func (l *limits) lengthAt(m *mover, limit, sign float64) {
	limit += sign * exactFit
	l.crossing(1, m.h, m.square-limit*limit)
}

// armAt takes in where the arm falls to its least: N = least s, squared.
func (l *limits) armAt(m *mover, least float64) {
	least += exactFit
	least *= least
	l.crossing(m.n*m.n-least, m.moment*m.n-least*m.h, m.moment*m.moment-least*m.square)
}

// assessTolerance works the length and arm limits out in closed form; stroke and
// turning, where they are limited, are tried at what that leaves.
func (q *prepared) assessTolerance(out *Assessment, m Mounting) {
	if out.Broken != 0 {
		return
	}
	last := q.p.Swing.Samples() - 1
	cos, sin := q.p.Swing.cos[last], q.p.Swing.sin[last]
	for i, t := range [4]*Tolerance{&out.ToleranceA, &out.ToleranceB, &out.ToleranceC, &out.ToleranceE} {
		l := limits{less: -mostTolerance / 1000.0, more: mostTolerance / 1000.0}
		closed, end := q.mover(m, i, 1, 0), q.mover(m, i, cos, sin)
		l.lengthAt(&closed, q.closedLimit, -q.sigma)
		if q.p.OpenByRamEnd {
			open := q.mover(m, i, q.openCos, q.openSin)
			l.lengthAt(&open, q.openLimit, q.sigma)
			l.lengthAt(&end, q.openLimit, -q.sigma)
		} else {
			l.lengthAt(&end, q.openLimit, q.sigma)
		}
		l.armAt(&closed, q.minArm)
		l.armAt(&end, q.minArm)
		t.Less = q.tryTolerance(m, i, -0.001, int(-l.less*1000))
		t.More = q.tryTolerance(m, i, 0.001, int(l.more*1000))
	}
}

func (q *prepared) mover(m Mounting, i int, cos, sin float64) mover {
	a, b, c, e := float64(m.A), float64(m.B), float64(m.C), float64(m.E)*q.sigma
	fx, fy := c*cos-e*sin, c*sin+e*cos
	dx, dy := fx+q.sigma*a, fy-q.sigma*b
	out := mover{square: dx*dx + dy*dy, moment: fx*b + fy*a}
	switch i {
	case 0:
		out.h, out.n = q.sigma*dx, fy
	case 1:
		out.h, out.n = -q.sigma*dy, fx
	case 2:
		out.h, out.n = dx*cos+dy*sin, cos*b+sin*a
	case 3:
		out.h, out.n = q.sigma*(dy*cos-dx*sin), q.sigma*(cos*a-sin*b)
	}
	return out
}

// tryTolerance is the most steps up to a bound that stroke and turning allow.
func (q *prepared) tryTolerance(m Mounting, i int, step float64, bound int) int {
	if math.IsInf(q.maxStroke, 1) && math.IsInf(q.rearMax, 1) && math.IsInf(q.frontMax, 1) {
		return bound
	}
	from := [4]float64{float64(m.A), float64(m.B), float64(m.C), float64(m.E)}
	holds := func(steps int) bool {
		d := from
		d[i] += float64(steps) * step
		j := q.judgeLimits(d[0], d[1], d[2], d[3], boxPoints[:1])
		return j.holds()
	}
	if holds(bound) {
		return bound
	}
	low, high := 0, bound
	for high-low > 1 {
		if middle := (low + high) / 2; holds(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}
