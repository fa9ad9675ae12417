package linkage

import "math"

// seed takes up, for each requirement at an end of the swing, the corner that is
// worst at x.
func (s *search) seed() {
	s.evaluations++
	j := unjudged()
	for i := range boxPoints {
		t := s.corner(s.x[overA], s.x[overB], s.x[overC], s.e, &boxPoints[i])
		s.judgeEnds(&j, &t, i)
	}
	for k := range j.slack {
		if !math.IsInf(j.slack[k].value, 1) {
			s.addRow(kind(k), &j.slack[k])
		}
	}
}

// add takes up what a mounting that promised that score fails.
func (s *search) add(j *judgement, promised float64) {
	for k := range j.slack {
		if j.slack[k].value < exactFit {
			s.addRow(kind(k), &j.slack[k])
		}
	}
	if j.margin.value < promised*(1-worthWhile/2) {
		s.addRow(marginRow, &j.margin)
	}
}

func (s *search) addRow(k kind, w *worst) {
	p := &boxPoints[w.point]
	r := row{
		kind: k, sample: w.sample, cos: s.p.Swing.cos[w.sample], sin: s.p.Swing.sin[w.sample],
		da: p[0] * s.box, db: p[1] * s.box, dc: p[2] * s.box, de: p[3] * s.box,
	}
	if k == ramEndRow {
		r.cos, r.sin = s.openCos, s.openSin
	}
	y := s.sigma * (s.e + r.de)
	r.fx, r.fy = r.dc*r.cos-y*r.sin, r.dc*r.sin+y*r.cos
	r.closedX, r.closedY = r.dc, y
	s.rows[s.n] = r
	s.n++
}
