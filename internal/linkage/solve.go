package linkage

import "leafmoment.example/leafmoment/internal/units"

// Solution is the best mounting of a problem.
type Solution struct {
	// Feasible: a mounting in the ranges keeps every limit over its box. Where
	// none does, only Blocking and Evaluations stand.
	Feasible bool
	// Assessment is that of the best mounting, in whole mm.
	Assessment
	// Blocking is what the mounting that comes nearest to keeping every limit
	// still breaks.
	Blocking Limits
	// Evaluations is how many mountings were worked out, each for the rows in
	// hand or for its whole box.
	Evaluations int
}

// maxRows bounds the requirements a search works on at once; a handful is usual.
const maxRows = 40

// Solve finds the mounting, in whole mm, with the largest smallest margin over
// the swing, both motions and the box, among those that keep every limit over
// the box. It returns an error for a problem that can't be worked on (Check).
func (p *Problem) Solve() (Solution, error) {
	if err := p.Check(); err != nil {
		return Solution{}, err
	}
	best := p.search()
	out := Solution{Feasible: best.found, Blocking: best.blocking, Evaluations: best.evaluations}
	if best.found {
		q := p.prepare()
		m := Mounting{
			Side: p.Side,
			A:    units.Millimeters(best.a), B: units.Millimeters(best.b),
			C: units.Millimeters(best.c), E: units.Millimeters(p.E),
		}
		out.Assessment = q.assess(m, &best.judgement)
	}
	return out, nil
}

// outcome is what a search ends with.
type outcome struct {
	candidate
	judgement   judgement
	blocking    Limits
	evaluations int
}

// search climbs from a guess. A limit that keeps the ram from getting too short
// cuts a hole into what is allowed, and there may be a peak on either side of
// it: where such a limit binds, or nothing is found, it climbs again from afar.
func (p *Problem) search() outcome {
	s := search{prepared: p.prepare(), positions: newPositions(p.B)}
	s.low = [overB]float64{overC: float64(p.C.Low) / 1000, overA: float64(p.A.Low) / 1000}
	s.high = [overB]float64{overC: float64(p.C.High) / 1000, overA: float64(p.A.High) / 1000}
	var best outcome
	i := s.start()
	s.seed()
	if s.improve(i, &best) {
		i = s.positions.count - 1
		s.x = [unknowns]float64{s.high[overC], s.high[overA], float64(s.positions.at(i)) / 1000}
		s.improve(i, &best)
		s.x = [unknowns]float64{s.high[overC], s.low[overA], float64(s.positions.at(0)) / 1000}
		s.improve(0, &best)
	}
	best.evaluations = s.evaluations
	return best
}

// improve climbs from x, b at position i, to a better mounting than the best so
// far. The rows in hand can only promise too much, so the mounting they lead to
// is judged whole; what it fails is taken up and the climb goes on, until it
// leads to one that keeps its promise. It says whether to try from afar, too.
func (s *search) improve(i int, best *outcome) (again bool) {
	again = !best.found
	for s.n < maxRows-int(kinds) {
		var t top
		i, t = s.alongB(i)
		if !best.beatenBy(&t) {
			if !best.found {
				best.blocking = s.blocking()
			}
			break
		}
		there := s.place
		promised := s.bestWhole(i, best.candidate)
		s.place = there
		if promised == best.candidate {
			break
		}
		s.evaluations++
		j := s.judge(float64(promised.a)/1000, float64(promised.b)/1000, float64(promised.c)/1000, s.e, boxPoints[:])
		if j.holds() && (!best.found || j.margin.value > best.score) {
			best.candidate = promised
			best.score, best.judgement = j.margin.value, j
			again = s.nearHole(&j)
		}
		if best.found && best.score*(1+worthWhile) >= promised.score {
			break
		}
		s.add(&j, promised.score)
	}
	return again
}

// blocking is what breaks at x, where the climb for the least broken limit ends.
func (s *search) blocking() Limits {
	j := s.judgeLimits(s.x[overA], s.x[overB], s.x[overC], s.e, boxPoints[:])
	return s.within(&j, 0)
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
