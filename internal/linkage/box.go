package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

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

// holds says whether every limit is kept.
func (j *judgement) holds() bool {
	for k := range j.slack {
		if j.slack[k].value < 0 {
			return false
		}
	}
	return true
}

func unjudged() judgement {
	var j judgement
	j.margin.value = math.Inf(1)
	for k := range j.slack {
		j.slack[k].value = math.Inf(1)
	}
	return j
}

// judge works out every requirement at the given points of the box around
// (a, b, c, e), m: boxPoints, or the first alone for the mounting as drawn.
func (q *prepared) judge(a, b, c, e float64, points []corner) judgement {
	j := unjudged()
	for i := range points {
		p := &points[i]
		t := newTriangle(q.sigma, a+p[0]*q.box, b+p[1]*q.box, c+p[2]*q.box, e+p[3]*q.box)
		q.judgeEnds(&j, &t, i)
		q.judgeMargins(&j, &t, i)
	}
	q.judgeSweeps(&j, a, b, c, e, points)
	return j
}

// judgeLengths judges what hangs on the two ends of the swing: the arm rises to
// one maximum and falls, the length changes one way.
func (q *prepared) judgeEnds(j *judgement, t *triangle, point int) {
	last := q.p.Swing.Samples() - 1
	closed := t.length(1, 0)
	end := t.length(q.p.Swing.cos[last], q.p.Swing.sin[last])
	j.slack[closedArmRow].lower(t.arm(1, 0)-q.minArm, point, 0)
	j.slack[openArmRow].lower(t.arm(q.p.Swing.cos[last], q.p.Swing.sin[last])-q.minArm, point, last)
	j.slack[closedRow].lower(q.sigma*(q.closedLimit-closed), point, 0)
	if !q.p.OpenByRamEnd {
		j.slack[openRow].lower(q.sigma*(end-q.openLimit), point, last)
		j.slack[strokeRow].lower(q.maxStroke-q.sigma*(closed-end), point, last)
		return
	}
	if point == 0 {
		j.slack[ramEndRow].lower(q.sigma*(t.length(q.openCos, q.openSin)-q.openLimit), point, last)
		j.slack[ramEndSwing].lower(q.sigma*(q.openLimit-end), point, last)
	}
}

// judgeMargins walks the swing at one point of the box. Where an end of the swing
// has no arm, no margin is left to state.
func (q *prepared) judgeMargins(j *judgement, t *triangle, point int) {
	swing := &q.p.Swing
	last := len(swing.cos) - 1
	if !(t.arm(1, 0) > 0 && t.arm(swing.cos[last], swing.sin[last]) > 0) {
		j.margin.lower(0, point, 0)
		return
	}
	largest, at := 0.0, 0
	sin := swing.sin[:last+1]
	for i, cos := range swing.cos {
		g := t.p*cos + t.q*sin[i]
		s := math.Sqrt(t.squaredLengths - 2*g)
		n := t.sigma * (t.q*cos - t.p*sin[i])
		r := n / s
		slope := t.sigma * (r*r - g) / s
		use := math.Max(q.opening.use(i, s/n, slope), q.closing.use(i, s/n, slope))
		if use > largest {
			largest, at = use, i
		}
	}
	j.margin.lower(1/largest, point, at)
}

// judgeSweeps judges the corners only where the mounting as drawn comes so near
// a limit that a corner might break it.
func (q *prepared) judgeSweeps(j *judgement, a, b, c, e float64, points []corner) {
	for _, k := range [2]kind{rearSweepRow, frontSweepRow} {
		if math.IsInf(q.sweepLimit(k), 1) {
			continue
		}
		for i, p := range points {
			slack := q.sweepSlack(k, a+p[0]*q.box, b+p[1]*q.box, c+p[2]*q.box, e+p[3]*q.box)
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

func (q *prepared) sweepSlack(k kind, a, b, c, e float64) float64 {
	m := Mounting{Side: q.p.Side, A: units.Length(a), B: units.Length(b), C: units.Length(c), E: units.Length(e)}
	turned := m.RearSweep
	if k == frontSweepRow {
		turned = m.FrontSweep
	}
	return (q.sweepLimit(k) - float64(turned(q.p.Swing.End()))) * sweepRadius
}

// sweepScatter bounds how much of that slack the box can take. Each pin moves by
// up to sqrt(2) box, so the ram's bearing at any angle by up to
// asin(2 sqrt(2) box / s), and the range of a bearing by twice that.
func (q *prepared) sweepScatter(a, b, c, e float64) float64 {
	t := newTriangle(q.sigma, a, b, c, e)
	last := q.p.Swing.Samples() - 1
	shortest := math.Min(t.length(1, 0), t.length(q.p.Swing.cos[last], q.p.Swing.sin[last]))
	moved := 2 * math.Sqrt2 * q.box / shortest
	if !(moved < 1) {
		return math.Inf(1)
	}
	return 2 * math.Asin(moved) * sweepRadius
}
