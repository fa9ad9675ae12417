package linkage

import "leafmoment.example/leafmoment/internal/units"

// Solution is the best mounting of a problem.
type Solution struct {
	// Feasible: a mounting in the ranges keeps every limit over its box. Where
	// none does, only Blocking and Evaluations stand.
	Feasible bool
	// Assessment is that of the best mounting, in whole mm.
	Assessment
	// AtRangeEnd is which of a, b, c stand at an end of their range: more room for
	// them might allow a better mounting.
	AtRangeEnd Limits
	// Blocking is what the mounting that comes nearest to keeping every limit
	// still breaks; none where only whole millimeters stand in the way.
	Blocking Limits
	// GaveUp: the search ran into its bound, so a better mounting may exist.
	GaveUp bool
	// Evaluations is how many mountings were worked out, each for the rows in
	// hand or for its whole box.
	Evaluations int
}

// maxRows bounds the requirements a search works on at once; six or seven are
// usual.
const maxRows = 40

// Solve finds the mounting, in whole mm, with the largest smallest margin over
// the swing, both motions and the box, among those that keep every limit over
// the box. It returns an error for a problem that can't be worked on (Check).
func (p *Problem) Solve() (Solution, error) {
	if err := p.Check(); err != nil {
		return Solution{}, err
	}
	best := p.search()
	out := Solution{Feasible: best.found, Blocking: best.blocking, GaveUp: best.gaveUp, Evaluations: best.evaluations}
	if best.found {
		q := p.prepare()
		m := Mounting{
			Side: p.Side,
			A:    units.Millimeters(best.a), B: units.Millimeters(best.b),
			C: units.Millimeters(best.c), E: units.Millimeters(p.E),
		}
		out.Assessment = q.assess(m, &best.judgement)
		out.AtRangeEnd = p.atRangeEnd(&best.candidate)
	}
	return out, nil
}

func (p *Problem) atRangeEnd(best *candidate) (ends Limits) {
	b := newPositions(p.B)
	for _, end := range [3]struct {
		limit         Limits
		at, low, high int
	}{
		{LimitRangeA, best.a, p.A.Low, p.A.High},
		{LimitRangeB, best.b, b.at(0), b.at(b.count - 1)},
		{LimitRangeC, best.c, p.C.Low, p.C.High},
	} {
		if end.at == end.low || end.at == end.high {
			ends |= end.limit
		}
	}
	return ends
}

// outcome is what a search ends with.
type outcome struct {
	candidate
	judgement   judgement
	blocking    Limits
	gaveUp      bool
	evaluations int
}

// mostEvaluations bounds a search. Some 30 are usual; a problem in which limits
// leave less than a millimeter of room over a wide range can ask for any number.
const mostEvaluations = 20000

// search climbs from a guess. A limit that keeps the ram from getting too short
// cuts a hole into what is allowed, and there may be a peak on each side of it:
// where such a limit binds, or nothing is found, it climbs again from the corners
// of the ranges of a and b.
func (p *Problem) search() outcome {
	s := search{prepared: p.prepare(), positions: newPositions(p.B)}
	s.low = [overB]float64{overC: float64(p.C.Low) / 1000, overA: float64(p.A.Low) / 1000}
	s.high = [overB]float64{overC: float64(p.C.High) / 1000, overA: float64(p.A.High) / 1000}
	var best outcome
	i := s.start()
	s.seed()
	nearest, at := s.improve(i, &best)
	if !best.found || s.nearHole(&best.judgement) {
		for i := s.positions.count - 1; i >= 0; i -= max(s.positions.count-1, 1) {
			for _, a := range [2]float64{s.high[overA], s.low[overA]} {
				s.x = [unknowns]float64{s.high[overC], a, float64(s.positions.at(i)) / 1000}
				if t, place := s.improve(i, &best); nearest.below(&t) {
					nearest, at = t, place
				}
			}
		}
	}
	if !best.found {
		best.blocking = s.blocking(&at)
	}
	best.gaveUp = s.spent() || s.full()
	best.evaluations = s.evaluations
	return best
}

// improve climbs from x, b at position i, to a better mounting than the best so
// far. The rows in hand can only promise too much, so the mounting they lead to
// is judged whole; what it fails is taken up and the climb goes on, until it
// leads to one that keeps its promise. It returns the last peak.
func (s *search) improve(i int, best *outcome) (top, place) {
	for {
		var t top
		i, t = s.alongB(i)
		peak := s.place
		if !best.beatenBy(&t) || s.full() || s.spent() {
			return t, peak
		}
		promised := s.bestWhole(i, best.candidate)
		s.place = peak
		if promised == best.candidate {
			return t, peak
		}
		s.evaluations++
		j := s.judge(float64(promised.a)/1000, float64(promised.b)/1000, float64(promised.c)/1000, s.e, boxPoints[:])
		if j.holds() && (!best.found || j.margin.value > best.score) {
			best.candidate, best.judgement = promised, j
			best.score = j.margin.value
		}
		if best.found && best.score*(1+worthWhile) >= promised.score {
			return t, peak
		}
		s.add(&j, promised.score)
	}
}

// spent says whether the search has used up its evaluations.
func (s *search) spent() bool { return s.evaluations > mostEvaluations }

// full says whether there may be no room for all the rows a judgement can add.
func (s *search) full() bool { return s.n > maxRows-int(kinds) }

// blocking is what still breaks where the climb for the least broken limit ends.
func (s *search) blocking(at *place) Limits {
	j := s.judgeLimits(at.x[overA], at.x[overB], at.x[overC], s.e, boxPoints[:])
	return s.within(&j, exactFit)
}

// nearHole says whether a limit to how short the ram may get binds.
func (s *search) nearHole(j *judgement) bool {
	const near = 0.003 // m
	if s.sigma < 0 {
		return j.slack[closedRow].value < near || j.slack[ramEndSwing].value < near
	}
	return j.slack[openRow].value < near || j.slack[ramEndRow].value < near
}

// start puts x where the peak may lie, arms alike at both ends and the ram fully
// used when closed, and returns the position of b.
func (s *search) start() int {
	i := s.positions.count / 2
	b := float64(s.positions.at(i)) / 1000
	stroke := min(float64(s.p.Ram.Longest-s.p.Ram.Shortest), s.maxStroke)
	s.x = [unknowns]float64{overA: min(b, stroke-b), overB: b}
	s.x[overC] = s.closedLimit - s.sigma*(s.x[overA]+2*s.box)
	for k := range s.low {
		s.x[k] = min(max(s.x[k], s.low[k]), s.high[k])
	}
	return i
}
