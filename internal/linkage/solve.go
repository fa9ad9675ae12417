package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// maxRows bounds the requirements a search works on at once.
const maxRows = 64

// Solution is the best mounting.
type Solution struct {
	Feasible    bool
	Mounting    Mounting
	BoxMargin   float64
	Evaluations int
	Rounds      int
}

// Solve finds the mounting.
func (p *Problem) Solve() (Solution, error) {
	if err := p.Check(); err != nil {
		return Solution{}, err
	}
	var rows [maxRows]row
	var readings [maxRows]reading
	s := search{prepared: p.prepare(), positions: newPositions(p.B), rows: rows[:0], readings: readings[:0]}
	best, rounds := s.run()
	out := Solution{Feasible: best.found, BoxMargin: best.score, Evaluations: s.evaluations, Rounds: rounds}
	if best.found {
		out.Mounting = Mounting{Side: p.Side, A: units.Millimeters(best.a), B: units.Millimeters(best.b), C: units.Millimeters(best.c), E: units.Millimeters(p.E)}
	}
	return out, nil
}

func (s *search) run() (candidate, int) {
	index, top := s.start()
	s.seed(top, float64(s.positions.at(index))/1000)
	var best candidate
	rounds := 0
	for len(s.rows) < maxRows-int(kinds) {
		rounds++
		index, top = s.alongB(index, top)
		if top.score < 0 {
			break
		}
		c := s.bestWhole(index, top, best)
		if c == best {
			break
		}
		j := s.judge(float64(c.a)/1000, float64(c.b)/1000, float64(c.c)/1000, s.e, boxPoints[:])
		s.evaluations++
		if j.holds() && (!best.found || j.margin.value > best.score) {
			best = candidate{a: c.a, b: c.b, c: c.c, score: j.margin.value, found: true}
		}
		if j.holds() && !best.beaten(c.score) {
			break
		}
		s.add(&j, c.score)
	}
	return best, rounds
}

// start guesses where the peak may lie: the ram fully used when closed.
func (s *search) start() (int, peak) {
	index := s.positions.count / 2
	b := float64(s.positions.at(index)) / 1000
	stroke := float64(s.p.Ram.Longest - s.p.Ram.Shortest)
	a := math.Min(math.Max(0.8*stroke-b, float64(s.p.A.Low)/1000), float64(s.p.A.High)/1000)
	c := s.closedLimit - s.sigma*(a+2*s.box)
	return index, peak{a: a, c: math.Min(math.Max(c, float64(s.p.C.Low)/1000), float64(s.p.C.High)/1000)}
}

// seed takes up, for each requirement, the corner that is worst at the start.
func (s *search) seed(top peak, b float64) {
	j := unjudged()
	for i := range boxPoints {
		p := &boxPoints[i]
		t := newTriangle(s.sigma, top.a+p[0]*s.box, b+p[1]*s.box, top.c+p[2]*s.box, s.e+p[3]*s.box)
		s.judgeEnds(&j, &t, i)
	}
	s.evaluations++
	for k := range j.slack {
		if !math.IsInf(j.slack[k].value, 1) {
			s.addRow(kind(k), &j.slack[k])
		}
	}
}

// add takes up what a candidate of that score fails.
func (s *search) add(j *judgement, score float64) {
	for k := range j.slack {
		if j.slack[k].value < 0 {
			s.addRow(kind(k), &j.slack[k])
		}
	}
	if j.margin.value < score*(1-worthWhile) {
		s.addRow(marginRow, &j.margin)
	}
}

func (s *search) addRow(k kind, w *worst) {
	p := &boxPoints[w.point]
	r := row{kind: k, sample: w.sample, cos: s.p.Swing.cos[w.sample], sin: s.p.Swing.sin[w.sample], da: p[0] * s.box, db: p[1] * s.box, dc: p[2] * s.box, de: p[3] * s.box}
	if k == ramEndRow {
		r.cos, r.sin = s.openCos, s.openSin
	}
	s.rows = append(s.rows, r)
	s.readings = append(s.readings, reading{})
}
