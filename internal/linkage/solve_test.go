package linkage

import (
	"math"
	"slices"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// somePull and somePush are ordinary gates, well inside every limit.
func somePull() *Problem {
	return &Problem{
		Side: Pull, A: Interval{80, 250}, B: []Interval{{120, 180}}, C: Interval{500, 1100}, E: 45,
		Open: units.Degrees(90), Swing: NewSwing(units.Degrees(90), 19),
		Ram: Ram{
			Shortest: units.Millimeters(690), Longest: units.Millimeters(1090),
			ThrustExtending: 1500, ThrustRetracting: 1400,
		},
		Demand: Demand{
			Opening: constant(120, 19), Closing: constant(110, 19),
			Inertia: 270, RodSpeed: 0.018, RodAcceleration: 0.03,
		},
		ReserveClosed: units.Millimeters(10), ReserveOpen: units.Millimeters(10),
		MinArm: units.Millimeters(60), Box: 5,
	}
}

func somePush() *Problem {
	p := somePull()
	p.Side = Push
	return p
}

func constant(v float64, n int) []float64 { return slices.Repeat([]float64{v}, n) }

func solve(t *testing.T, p *Problem) Solution {
	t.Helper()
	s, err := p.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// feasibleReference calls f with the reference problems that have a solution.
func feasibleReference(t *testing.T, f func(id int, p *Problem, s Solution)) {
	t.Helper()
	for _, c := range loadExhaustive(t) {
		p := c.problem()
		if s := solve(t, p); s.Feasible {
			f(c.ID, p, s)
		}
	}
}

func TestSolutionStandsUpToTheForwardCheck(t *testing.T) {
	feasibleReference(t, func(id int, p *Problem, s Solution) {
		again, err := p.At(s.Mounting)
		if err != nil {
			t.Fatal(err)
		}
		if again != s.Assessment {
			t.Errorf("case %d: solved %+v, assessed %+v", id, s.Assessment, again)
		}
		if s.Broken != 0 || s.BoxBroken != 0 || s.GaveUp {
			t.Errorf("case %d: breaks %v, over the box %v, gave up %v", id, s.Broken, s.BoxBroken, s.GaveUp)
		}
		if s.BoxMargin > s.Margin*(1+1e-12) {
			t.Errorf("case %d: margin %v over the box, %v as drawn", id, s.BoxMargin, s.Margin)
		}
		for _, d := range [4]units.Length{s.Mounting.A, s.Mounting.B, s.Mounting.C, s.Mounting.E} {
			if mm := d.Millimeters(); math.Abs(mm-math.Round(mm)) > 1e-9 {
				t.Errorf("case %d: %v mm isn't whole", id, mm)
			}
		}
	})
}

// TestTolerances builds each dimension off by its tolerance, which must hold, and
// by 1 mm more, which must break a limit.
func TestTolerances(t *testing.T) {
	feasibleReference(t, func(id int, p *Problem, s Solution) {
		type dimension struct {
			name      string
			tolerance Tolerance
			of        func(*Mounting) *units.Length
		}
		for _, d := range []dimension{
			{"a", s.ToleranceA, func(m *Mounting) *units.Length { return &m.A }},
			{"b", s.ToleranceB, func(m *Mounting) *units.Length { return &m.B }},
			{"c", s.ToleranceC, func(m *Mounting) *units.Length { return &m.C }},
			{"e", s.ToleranceE, func(m *Mounting) *units.Length { return &m.E }},
		} {
			broken := func(off int) Limits {
				m := s.Mounting
				*d.of(&m) += units.Millimeters(off)
				if off < -d.tolerance.Less { // a limit may stand all but exactly at a whole mm
					*d.of(&m) -= 1e-5
				} else if off > d.tolerance.More {
					*d.of(&m) += 1e-5
				}
				a, err := p.At(m)
				if err != nil {
					t.Fatal(err)
				}
				return a.Broken
			}
			for _, off := range []int{-d.tolerance.Less, d.tolerance.More} {
				if got := broken(off); got != 0 {
					t.Errorf("case %d: %s off by %d mm breaks %v; tolerance %+v", id, d.name, off, got, d.tolerance)
				}
			}
			if less := d.tolerance.Less; less < mostTolerance && broken(-less-1) == 0 {
				t.Errorf("case %d: %s off by %d mm breaks nothing; tolerance %+v", id, d.name, -less-1, d.tolerance)
			}
			if more := d.tolerance.More; more < mostTolerance && broken(more+1) == 0 {
				t.Errorf("case %d: %s off by %d mm breaks nothing; tolerance %+v", id, d.name, more+1, d.tolerance)
			}
		}
	})
}

// TestReach: up to Reach the ram's travel and the arm hold, past it one doesn't.
func TestReach(t *testing.T) {
	feasibleReference(t, func(id int, p *Problem, s Solution) {
		const step = 1e-4
		if s.Reach < p.Open-1e-9 || s.ClosesTo != 0 {
			t.Errorf("case %d: opens from %v to %v, wanted %v", id, s.ClosesTo, s.Reach, p.Open)
		}
		if s.ReachLow > s.Reach || s.ReachHigh < s.Reach {
			t.Errorf("case %d: reach %v outside its own range %v to %v", id, s.Reach, s.ReachLow, s.ReachHigh)
		}
		end := p.Ram.Shortest
		if p.Side == Push {
			end = p.Ram.Longest
		}
		if !p.OpenByRamEnd {
			end += units.Length(p.Side.sigma()) * p.ReserveOpen
		}
		holds := func(theta units.Angle) bool {
			m := s.Mounting
			return units.Length(p.Side.sigma())*(m.Length(theta)-end) >= 0 && m.Arm(theta) >= p.MinArm &&
				m.RearSweep(theta) <= p.Ram.RearSweepMax.Or(10) && m.FrontSweep(theta) <= p.Ram.FrontSweepMax.Or(10)
		}
		if !holds(s.Reach-step) || holds(s.Reach+step) {
			t.Errorf("case %d: %v isn't where limits stop holding (%v)", id, s.Reach, s.ReachLimit)
		}
	})
}

// TestRamEndOpenAngle: the range stated for the open angle is what the corners of
// the box give.
func TestRamEndOpenAngle(t *testing.T) {
	seen := 0
	feasibleReference(t, func(id int, p *Problem, s Solution) {
		if !p.OpenByRamEnd {
			return
		}
		seen++
		end := p.Ram.Shortest
		if p.Side == Push {
			end = p.Ram.Longest
		}
		low, high := s.Reach, s.Reach
		for i := range boxPoints {
			m := s.Mounting.corner(&boxPoints[i], float64(p.Box)/1000)
			angle, ok := m.AngleAt(end)
			if !ok {
				angle = m.DeadPoint()
			}
			low, high = min(low, angle), max(high, angle)
		}
		if math.Abs(float64(low-s.ReachLow)) > 1e-9 || math.Abs(float64(high-s.ReachHigh)) > 1e-9 {
			t.Errorf("case %d: %v to %v, the corners give %v to %v", id, s.ReachLow, s.ReachHigh, low, high)
		}
		if end := p.Swing.End(); s.Reach > end+1e-9 {
			t.Errorf("case %d: comes to rest at %v, beyond %v", id, s.Reach, end)
		}
	})
	if seen < 20 {
		t.Errorf("only %d problems open to the ram's end", seen)
	}
}

// TestWorseNeverHelps: a larger box, more moment, more inertia, less thrust, less
// room and more reserve never raise the best margin.
func TestWorseNeverHelps(t *testing.T) {
	worse := map[string]func(p *Problem){
		"box":      func(p *Problem) { p.Box += 3 },
		"moment":   func(p *Problem) { p.Demand.Opening = louder(p.Demand.Opening) },
		"inertia":  func(p *Problem) { p.Demand.Inertia *= 1.5 },
		"thrust":   func(p *Problem) { p.Ram.ThrustExtending *= 0.8; p.Ram.ThrustRetracting *= 0.8 },
		"speed":    func(p *Problem) { p.Demand.RodSpeed *= 1.3 },
		"room":     func(p *Problem) { p.A.High -= (p.A.High - p.A.Low) / 3 },
		"reserve":  func(p *Problem) { p.ReserveClosed += 0.01 },
		"stroke":   func(p *Problem) { p.MaxStroke = units.Known(p.MaxStroke.Or(0.6) * 0.9) },
		"leastArm": func(p *Problem) { p.MinArm *= 1.2; p.Demand.Inertia = 0 },
	}
	feasibleReference(t, func(id int, p *Problem, s Solution) {
		for name, worsen := range worse {
			other := *p
			if name == "leastArm" { // it also shortens the ramp that is counted
				still := *p
				still.Demand.Inertia = 0
				s = solve(t, &still)
			}
			worsen(&other)
			if got := solve(t, &other); got.Feasible && got.BoxMargin > s.BoxMargin*(1+2*worthWhile) {
				t.Errorf("case %d: worse %s raises the margin from %v to %v", id, name, s.BoxMargin, got.BoxMargin)
			}
		}
	})
}

// louder raises the moments that resist by a tenth and lowers those that help.
func louder(moments []float64) []float64 {
	out := slices.Clone(moments)
	for i, m := range out {
		out[i] = m + 0.1*math.Abs(m)
	}
	return out
}

// TestScaling: moments and thrust scaled alike leave the margin, thrust alone
// scales it.
func TestScaling(t *testing.T) {
	for _, p := range []*Problem{somePull(), somePush()} {
		s := solve(t, p)
		if !s.Feasible {
			t.Fatal("an ordinary gate has no mounting")
		}
		twice := *p
		twice.Ram.ThrustExtending *= 2
		twice.Ram.ThrustRetracting *= 2
		if got := solve(t, &twice); got.Mounting != s.Mounting || math.Abs(got.BoxMargin-2*s.BoxMargin) > 1e-12*s.BoxMargin {
			t.Errorf("twice the thrust: %v at %+v, was %v at %+v", got.BoxMargin, got.Mounting, s.BoxMargin, s.Mounting)
		}
		twice.Demand.Opening, twice.Demand.Closing = constant(240, 19), constant(220, 19)
		twice.Demand.Inertia *= 2
		if got := solve(t, &twice); got.Mounting != s.Mounting || math.Abs(got.BoxMargin-s.BoxMargin) > 1e-12*s.BoxMargin {
			t.Errorf("twice everything: %v at %+v, was %v at %+v", got.BoxMargin, got.Mounting, s.BoxMargin, s.Mounting)
		}
	}
}

// TestLengthsScale: a mounting, its ram and its rod's motion twice as large have
// twice the arm.
func TestLengthsScale(t *testing.T) {
	p := somePull()
	m := Mounting{Side: Pull, A: 0.15, B: 0.15, C: 0.88, E: 0.045}
	small, err := p.At(m)
	if err != nil {
		t.Fatal(err)
	}
	large := *p
	large.Ram.Shortest, large.Ram.Longest, large.MinArm = 2*p.Ram.Shortest, 2*p.Ram.Longest, 2*p.MinArm
	large.ReserveClosed, large.ReserveOpen, large.Box = 2*p.ReserveClosed, 2*p.ReserveOpen, 2*p.Box
	large.Demand.RodSpeed, large.Demand.RodAcceleration = 2*p.Demand.RodSpeed, 2*p.Demand.RodAcceleration
	got, err := large.At(Mounting{Side: Pull, A: 0.30, B: 0.30, C: 1.76, E: 0.09})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.BoxMargin-2*small.BoxMargin) > 1e-9 || math.Abs(float64(got.Stroke-2*small.Stroke)) > 1e-12 || math.Abs(float64(got.Reach-small.Reach)) > 1e-9 {
		t.Errorf("margin %v, stroke %v, reach %v; half as large: %v, %v, %v", got.BoxMargin, got.Stroke, got.Reach, small.BoxMargin, small.Stroke, small.Reach)
	}
}

// TestOrderOfBracketPositions: the order, and overlaps, of the ranges of b don't
// bear on the answer.
func TestOrderOfBracketPositions(t *testing.T) {
	p := somePull()
	p.B = []Interval{{120, 150}, {151, 160}, {170, 180}}
	want := solve(t, p)
	p.B = []Interval{{170, 180}, {140, 160}, {120, 150}, {130, 135}}
	if got := solve(t, p); got.Mounting != want.Mounting || got.BoxMargin != want.BoxMargin {
		t.Errorf("%+v, in another order %+v", want, got)
	}
}

// TestMarginFromFirstPrinciples works the margin of a mounting out from its pins
// at every angle, without the triangle's formulas.
func TestMarginFromFirstPrinciples(t *testing.T) {
	for _, p := range []*Problem{somePull(), somePush()} {
		p.Demand.Opening[7], p.Demand.Closing[3] = 190, 170
		m := Mounting{Side: p.Side, A: 0.15, B: 0.15, C: 0.88, E: 0.045}
		got, err := p.At(m)
		if err != nil {
			t.Fatal(err)
		}
		opens, closes := p.Ram.ThrustRetracting, p.Ram.ThrustExtending
		if p.Side == Push {
			opens, closes = closes, opens
		}
		v, a := float64(p.Demand.RodSpeed), float64(p.Demand.RodAcceleration)
		ramp := units.Angle(v * v / (2 * a) / float64(p.MinArm))
		want, at, motion := math.Inf(1), units.Angle(0), Opening
		for i := range p.Swing.Samples() {
			theta := p.Swing.Angle(i)
			const h = 1e-5
			r := math.Abs(float64(m.Length(theta+h)-m.Length(theta-h))) / (2 * h)
			slope := (math.Abs(float64(m.Length(theta+2*h)-m.Length(theta))) - math.Abs(float64(m.Length(theta)-m.Length(theta-2*h)))) / (4 * h * h)
			for k, need := range [2]float64{p.Demand.Opening[i], p.Demand.Closing[i]} {
				thrust, started, hard := opens, theta, -slope
				if k == 1 {
					thrust, started, hard = closes, p.Open-theta, slope
				}
				need += float64(p.Demand.Inertia) * max(0, hard) * v * v / (r * r * r)
				if started <= ramp {
					need += float64(p.Demand.Inertia) * a / r
				}
				if margin := float64(thrust) * r / need; margin < want {
					want, at, motion = margin, theta, Motion(k)
				}
			}
		}
		if math.Abs(got.Margin-want) > 1e-5*want || got.MarginAngle != at || got.MarginMotion != motion {
			t.Errorf("side %d: margin %v at %v in motion %d, from the pins %v at %v in motion %d", p.Side, got.Margin, got.MarginAngle, got.MarginMotion, want, at, motion)
		}
	}
}
