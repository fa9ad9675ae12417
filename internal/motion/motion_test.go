package motion

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/units"
)

// both is a set-up with the same line and moment each way, at full voltage.
func both(l Linkage, open, inertia, width, ramp float64, way Way) Setup {
	return Setup{
		Linkage: l, Leaf: Leaf{Width: units.Length(width), Inertia: units.Inertia(inertia)},
		Open: units.Angle(open), Opening: way, Closing: way,
		Ramp:   units.Acceleration(ramp),
		Supply: Supply{Voltage: 24, SpeedFactor: 1, ThrustFactor: 1},
	}
}

func constant(moment float64) []units.Torque {
	return []units.Torque{units.Torque(moment), units.Torque(moment)}
}

// strong is a drive whose speed no load of these tests touches.
func strong(tb testing.TB, speed float64) Line {
	return line(tb, Point{0, units.Speed(speed), 1}, Point{1e6, units.Speed(speed), 1})
}

func run(tb testing.TB, s Setup) (opening, closing Result) {
	tb.Helper()
	opening, closing, err := Run(s)
	if err != nil {
		tb.Fatal(err)
	}
	return opening, closing
}

func TestProfileCases(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "motion.json"), "profile") {
		way := Way{Line: strong(t, c.Value(t, "speed_m_s")), Moment: constant(0)}
		a, b := run(t, both(fixedArm(1), c.Value(t, "travel_m"), 1, 1, c.Value(t, "ramp_m_s2"), way))
		for _, r := range []Result{a, b} {
			c.Check(t, "time_s", float64(r.Time))
			c.Check(t, "peak_speed_m_s", float64(r.PeakRodSpeed))
		}
	}
}

func TestDrivenLeafCases(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "motion.json"), "driven leaf") {
		way := Way{Line: strong(t, c.Value(t, "speed_m_s")), Moment: constant(c.Value(t, "moment_n_m"))}
		a, b := run(t, both(fixedArm(1), c.Value(t, "travel_m"), c.Value(t, "inertia_kg_m2"),
			c.Value(t, "width_m"), c.Value(t, "ramp_m_s2"), way))
		for _, r := range []Result{a, b} {
			for name := range c.Want {
				c.Check(t, name, map[string]float64{
					"peak_thrust_n":    float64(r.PeakThrust),
					"work_j":           float64(r.Work),
					"kinetic_energy_j": float64(r.PeakKineticEnergy),
					"edge_speed_m_s":   float64(r.PeakEdgeSpeed),
					// Thrust and speed peak together, at the end of the ramp.
					"peak_power_w": float64(r.PeakThrust) * float64(r.PeakRodSpeed),
				}[name])
			}
		}
	}
}

func TestLoadLineCases(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "motion.json"), "load line") {
		l := line(t, Point{0, units.Speed(c.Value(t, "no_load_m_s")), 1}, Point{units.Force(c.Value(t, "stall_thrust_n")), 0, 1})
		way := Way{Line: l, Moment: constant(c.Value(t, "moment_n_m"))}
		a, b := run(t, both(fixedArm(c.Value(t, "arm_m")), c.Value(t, "open_rad"), c.Value(t, "inertia_kg_m2"), 1, math.Inf(1), way))
		for _, r := range []Result{a, b} {
			c.Check(t, "time_s", float64(r.Time))
			c.Check(t, "peak_speed_m_s", float64(r.PeakRodSpeed))
		}
	}
}

// At a steady rod speed the thrust is that of the equation of motion with the
// arm's own slope: (M - I sigma v^2 r'/r^3)/r, largest where the term helps most.
func TestThrustAtSteadyRodSpeed(t *testing.T) {
	const speed, inertia, moment = 0.04, 900, 20
	m := linkage.Mounting{A: 0.15, B: 0.15, C: 0.8, E: 0.05}
	open := float64(units.Degrees(90))
	way := Way{Line: strong(t, speed), Moment: constant(moment)}
	opening, closing := run(t, both(m, open, inertia, 3, math.Inf(1), way))
	for sigma, r := range map[float64]Result{1: opening, -1: closing} {
		var want float64
		for i := range 2001 {
			theta := units.Angle(open * float64(i) / 2000)
			arm := float64(m.Arm(theta))
			alpha := -sigma * speed * speed * m.ArmSlope(theta) / (arm * arm * arm)
			want = max(want, (moment+inertia*alpha)/arm)
		}
		// A start without a ramp pushes with the line's all; look past it.
		r.PeakThrust = peakPastStart(t, both(m, open, inertia, 3, math.Inf(1), way), sigma < 0)
		if off := float64(r.PeakThrust)/want - 1; math.Abs(off) > 0.005 {
			t.Errorf("direction %+.0f: peak thrust %.1f N, the equation of motion gives %.1f N", sigma, float64(r.PeakThrust), want)
		}
	}
}

// peakPastStart is the peak thrust of a direction once the asked speed is met.
func peakPastStart(t *testing.T, s Setup, reverse bool) units.Force {
	t.Helper()
	nodes := make([]node, 4*steps+1)
	if dead, err := s.sample(nodes); err != nil || dead >= 0 {
		t.Fatal(dead, err)
	}
	w := &s.Opening
	p := pass{way: w, open: float64(s.Open), inertia: float64(s.Leaf.Inertia), line: newPull(w.Line, s.Supply), fine: usual}
	last := len(nodes) - 1
	p.ask = newProfile(nodes[last].travel, p.line.fast, float64(s.Ramp), 0, 0)
	at := func(i int) node {
		n := nodes[i]
		if reverse {
			n = nodes[last-i]
			n.travel = nodes[last].travel - n.travel
		}
		return n
	}
	p.start(at(0))
	for i := 1; i <= last; i++ {
		if p.at.asked && p.tally.thrust >= p.line.stall {
			p.tally = tally{}
		}
		if outcome := p.advance(at(i)); outcome != Completed {
			t.Fatal(outcome)
		}
	}
	return units.Force(p.tally.thrust)
}

func TestStallAndDeadPointAreOutcomes(t *testing.T) {
	l := line(t, Point{0, 0.02, 1}, Point{1000, 0, 10})
	rising := []units.Torque{0, 300} // 150 N m, all there is, half way
	s := both(fixedArm(0.15), 1.5, 50, 2, 0.02, Way{Line: l, Moment: rising})
	opening, closing := run(t, s)
	if opening.Outcome != Stalled || math.Abs(float64(opening.Angle)-0.75) > 0.01 {
		t.Errorf("opening: %v at %.3f rad, want a stall at 0.75", opening.Outcome, float64(opening.Angle))
	}
	if opening.PeakThrust != 1000 || opening.PeakCurrent != 10 {
		t.Errorf("a stall takes the stall thrust and current, got %v N and %v A", opening.PeakThrust, opening.PeakCurrent)
	}
	if closing.Outcome != Stalled || closing.Angle != 1.5 {
		t.Errorf("closing: %v at %.3f rad, want a stall at the start", closing.Outcome, float64(closing.Angle))
	}
	// A pull mounting of 150, 150, 800, 50 mm has its dead point at 131 degrees.
	s = both(linkage.Mounting{A: 0.15, B: 0.15, C: 0.8, E: 0.05}, float64(units.Degrees(140)), 50, 2, 0.02, Way{Line: l, Moment: constant(1)})
	opening, _ = run(t, s)
	if opening.Outcome != NoArm || opening.Angle.Degrees() < 125 || opening.Angle.Degrees() > 140 {
		t.Errorf("%v at %.1f degrees, want no arm near 131", opening.Outcome, opening.Angle.Degrees())
	}
}

func TestMoreResistanceIsNeverFaster(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for k := range 200 {
		s := random(r, t, k)
		a, b := run(t, s)
		more := s
		more.Opening.Moment, more.Closing.Moment = raised(s.Opening.Moment, 10), raised(s.Closing.Moment, 10)
		c, d := run(t, more)
		for _, p := range [][2]Result{{a, c}, {b, d}} {
			if p[0].Outcome == Completed && p[1].Outcome == Completed && float64(p[1].Time) < 0.998*float64(p[0].Time) {
				t.Errorf("set-up %d: 10 N m more takes %.3f s instead of %.3f s", k, float64(p[1].Time), float64(p[0].Time))
			}
			if p[0].Outcome == Stalled && p[1].Outcome == Completed {
				t.Errorf("set-up %d: 10 N m more cures a stall", k)
			}
		}
	}
}

// At one arm and one moment a heavier leaf is never faster. Over a varying arm
// it may be, by a little: where the arm grows a heavy leaf pushes the rod on.
func TestHeavierIsNeverFasterAtOneArm(t *testing.T) {
	l := line(t, Point{0, 0.02, 1}, Point{2000, 0, 10})
	before := 0.0
	for _, inertia := range []float64{20, 100, 500, 1000, 3000} {
		a, _ := run(t, both(fixedArm(0.15), 1.6, inertia, 3, 0.03, Way{Line: l, Moment: constant(60)}))
		if float64(a.Time) < before*(1-1e-4) {
			t.Errorf("inertia %g takes %.4f s, a lighter leaf %.4f s", inertia, float64(a.Time), before)
		}
		before = float64(a.Time)
	}
}

// Forces, moments and inertia times k leave the times alone; time by k scales
// with speeds over k, ramps and inertia accordingly.
func TestUnitsScale(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	const k = 4 // a power of two: exact
	for i := range 50 {
		s := random(r, t, i)
		a, _ := run(t, s)
		big := s
		big.Leaf.Inertia *= k
		big.Opening.Moment, big.Closing.Moment = scaled(s.Opening.Moment, k), scaled(s.Closing.Moment, k)
		big.Supply.ThrustFactor *= k
		b, _ := run(t, big)
		if b.Outcome != a.Outcome || b.Time != a.Time || b.PeakThrust != k*a.PeakThrust || b.PeakKineticEnergy != k*a.PeakKineticEnergy {
			t.Errorf("set-up %d: forces times %d give %v, %v", i, k, a, b)
		}
		slow := s
		slow.Leaf.Inertia *= k * k
		slow.Supply.SpeedFactor /= k
		slow.Ramp /= k * k
		c, _ := run(t, slow)
		if c.Outcome != a.Outcome || c.Time != k*a.Time || c.PeakThrust != a.PeakThrust {
			t.Errorf("set-up %d: time times %d gives %v, %v", i, k, a, c)
		}
	}
}

func TestSymmetricLeafTakesTheSameBothWays(t *testing.T) {
	way := Way{Line: strong(t, 0.02), Moment: constant(50), Slow: SlowZone{Travel: 0.03, Share: 0.4}}
	a, b := run(t, both(linkage.Mounting{A: 0.15, B: 0.15, C: 0.8, E: 0.05}, 1.6, 300, 3, 0.03, way))
	if math.Abs(float64(a.Time/b.Time)-1) > 1e-9 {
		t.Errorf("opens in %.6f s and closes in %.6f s", float64(a.Time), float64(b.Time))
	}
}

func raised(m []units.Torque, by units.Torque) []units.Torque {
	out := make([]units.Torque, len(m))
	for i := range m {
		out[i] = m[i] + by
	}
	return out
}

func scaled(m []units.Torque, by units.Torque) []units.Torque {
	out := make([]units.Torque, len(m))
	for i := range m {
		out[i] = m[i] * by
	}
	return out
}
