package linkage

import "math"

// corner holds the signs of a, b, c, e at one point of the tolerance box.
type corner [4]float64

// boxPoints are the mounting as drawn, then the 16 corners of its box.
var boxPoints = func() (points [17]corner) {
	for i := 1; i < len(points); i++ {
		for k := range points[i] {
			points[i][k] = float64((i-1)>>k&1*2 - 1)
		}
	}
	return points
}()

// worst is the least value of something over the box and where it stands.
type worst struct {
	value         float64
	point, sample int
}

func (w *worst) lower(value float64, point, sample int) {
	if value < w.value {
		*w = worst{value: value, point: point, sample: sample}
	}
}

// judgement is a mounting judged by every requirement over its whole box:
// margin.value is the smallest margin, slack the least slack to each limit, m.
type judgement struct {
	margin worst
	slack  [kinds]worst
}

// unjudged is the judgement of nothing yet.
func unjudged() judgement {
	var j judgement
	j.margin.value = math.Inf(1)
	for k := range j.slack {
		j.slack[k].value = math.Inf(1)
	}
	return j
}

// exactFit is the slack, m, that the arithmetic may leave of none at all: a limit
// met exactly holds.
const exactFit = -1e-9

// holds says whether every limit is kept.
func (j *judgement) holds() bool {
	for k := range j.slack {
		if j.slack[k].value < exactFit {
			return false
		}
	}
	return true
}

// judge works out every requirement at the given points of the box around
// (a, b, c, e), m: boxPoints, or the first alone for the mounting as drawn.
func (q *prepared) judge(a, b, c, e float64, points []corner) judgement {
	return q.judgeSome(a, b, c, e, points, true)
}

// judgeLimits leaves the margins out.
func (q *prepared) judgeLimits(a, b, c, e float64, points []corner) judgement {
	return q.judgeSome(a, b, c, e, points, false)
}

func (q *prepared) judgeSome(a, b, c, e float64, points []corner, margins bool) judgement {
	j := unjudged()
	var arms [len(boxPoints)]float64
	weakest := 0
	for i := range points {
		t := q.corner(a, b, c, e, &points[i])
		arms[i] = q.judgeEnds(&j, &t, i)
		if arms[i] < arms[weakest] {
			weakest = i
		}
	}
	if margins {
		t := q.corner(a, b, c, e, &points[weakest])
		q.judgeMargin(&j, &t, weakest, arms[weakest])
		for i := range points {
			t := q.corner(a, b, c, e, &points[i])
			if i != weakest && q.mostUse(&t, arms[i])*j.margin.value > 1 {
				q.judgeMargin(&j, &t, i, arms[i])
			}
		}
	}
	q.judgeSweeps(&j, a, b, c, e, points)
	return j
}

// judgeMargin takes in the least margin over the swing at one point of the box,
// which is nothing where the arm is lost.
func (q *prepared) judgeMargin(j *judgement, t *triangle, point int, arm float64) {
	if !(arm > lostArm) {
		j.margin.lower(0, point, 0)
		return
	}
	use, sample := q.hardest(t)
	j.margin.lower(1/use, point, sample)
}

// mostUse bounds the use over the whole swing from its least arm, so that most
// corners need no walk. With q = 1/arm: load and ramp take their largest share
// there, and |r'| = |r^2 - F.R|/s is no more than the largest of each over the
// swing allows: r at most the nearer pin's distance from the axis, F.R between
// its two ends, s at least the shorter end.
func (q *prepared) mostUse(t *triangle, arm float64) float64 {
	if !(arm > lostArm) {
		return math.Inf(1)
	}
	last := len(q.p.Swing.cos) - 1
	end := t.p*q.p.Swing.cos[last] + t.q*q.p.Swing.sin[last]
	shorter := math.Sqrt(t.squaredLengths - 2*max(t.p, end))
	slope := (min(t.rear2, t.front2) + max(math.Abs(t.p), math.Abs(end))) / shorter
	reciprocal := 1 / arm
	return reciprocal * (q.mostLoad + reciprocal*(q.mostRamp+reciprocal*reciprocal*q.mostKinetic*slope))
}

func (q *prepared) corner(a, b, c, e float64, p *corner) triangle {
	return newTriangle(q.sigma, a+p[0]*q.box, b+p[1]*q.box, c+p[2]*q.box, e+p[3]*q.box)
}

// judgeEnds judges what hangs on the two ends of the swing alone, since the arm
// rises to one maximum and falls, and the length changes one way. It returns the
// least arm.
func (q *prepared) judgeEnds(j *judgement, t *triangle, point int) (arm float64) {
	last := q.p.Swing.Samples() - 1
	closed, first := t.lengthAndArm(1, 0)
	end, final := t.lengthAndArm(q.p.Swing.cos[last], q.p.Swing.sin[last])
	j.slack[closedArmRow].lower(first-q.minArm, point, 0)
	j.slack[openArmRow].lower(final-q.minArm, point, last)
	j.slack[closedRow].lower(q.sigma*(q.closedLimit-closed), point, 0)
	switch {
	case !q.p.OpenByRamEnd:
		j.slack[openRow].lower(q.sigma*(end-q.openLimit), point, last)
		j.slack[strokeRow].lower(q.maxStroke-q.sigma*(closed-end), point, last)
	case point == 0:
		open, _ := t.lengthAndArm(q.openCos, q.openSin)
		j.slack[ramEndRow].lower(q.sigma*(open-q.openLimit), point, last)
		j.slack[ramEndSwing].lower(q.sigma*(q.openLimit-end), point, last)
	}
	return min(first, final)
}

// hardest is the largest use over the swing and the sample it stands at. It is
// motionNeed.use for both motions at once, with one division a sample; this is
// where most of the time goes.
func (q *prepared) hardest(t *triangle) (use float64, at int) {
	cosines := q.p.Swing.cos
	sines := q.p.Swing.sin[:len(cosines)]
	opening := q.opening.moments[:len(cosines)]
	closing := q.closing.moments[:len(cosines)]
	for i, cos := range cosines {
		sin := sines[i]
		g := t.p*cos + t.q*sin
		square := t.squaredLengths - 2*g
		s := math.Sqrt(square)
		n := t.sigma * (t.q*cos - t.p*sin)
		inverse := 1 / (s * n)
		reciprocal := square * inverse
		r := n * n * inverse
		slope := t.sigma * (r*r - g) * n * inverse
		opens := opening[i] * q.opening.perThrust
		if i <= q.opening.rampLast {
			opens += q.opening.ramp * reciprocal
		}
		closes := closing[i] * q.closing.perThrust
		if i >= q.closing.rampFirst {
			closes += q.closing.ramp * reciprocal
		}
		cube := slope * reciprocal * reciprocal * reciprocal
		if slope < 0 {
			opens -= q.opening.kinetic * cube
		} else {
			closes += q.closing.kinetic * cube
		}
		if u := reciprocal * max(opens, closes); u > use {
			use, at = u, i
		}
	}
	return use, at
}

// judgeSweeps judges the corners only where the mounting as drawn comes so near
// a limit that a corner might break it.
func (q *prepared) judgeSweeps(j *judgement, a, b, c, e float64, points []corner) {
	for _, k := range [2]kind{rearSweepRow, frontSweepRow} {
		if math.IsInf(q.sweepLimit(k), 1) {
			continue
		}
		for i := range points {
			t := q.corner(a, b, c, e, &points[i])
			slack := q.sweepSlack(k, &t)
			j.slack[k].lower(slack, i, 0)
			if i == 0 && slack > q.sweepScatter(a, b, c, e) {
				break
			}
		}
	}
}

func (q *prepared) sweepLimit(k kind) float64 {
	if k == rearSweepRow {
		return q.rearMax
	}
	return q.frontMax
}

// sweepRadius turns the slack of a turning limit (rad) into m beside the others.
const sweepRadius = 0.1

func (q *prepared) sweepSlack(k kind, t *triangle) float64 {
	own2, other2 := t.rear2, t.front2
	if k == frontSweepRow {
		own2, other2 = other2, own2
	}
	last := q.p.Swing.Samples() - 1
	turned := t.sweep(q.p.Swing.cos[last], q.p.Swing.sin[last], own2, other2)
	return (q.sweepLimit(k) - turned) * sweepRadius
}

// sweepScatter bounds how much of that slack the box can take. Each pin moves by
// up to sqrt(2) box, so the ram's bearing at any angle by up to
// asin(2 sqrt(2) box / s), and the range of a bearing by twice that.
func (q *prepared) sweepScatter(a, b, c, e float64) float64 {
	t := newTriangle(q.sigma, a, b, c, e)
	last := q.p.Swing.Samples() - 1
	closed, _ := t.lengthAndArm(1, 0)
	end, _ := t.lengthAndArm(q.p.Swing.cos[last], q.p.Swing.sin[last])
	shortest := min(closed, end)
	moved := 2 * math.Sqrt2 * q.box / shortest
	if !(moved < 1) {
		return math.Inf(1)
	}
	return 2 * math.Asin(moved) * sweepRadius
}
