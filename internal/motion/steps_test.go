package motion

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func line(tb testing.TB, p ...Point) Line {
	tb.Helper()
	l, err := NewLine(p)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// TestSteps holds every figure against the same run with ten times the steps and
// a tenth of the thrust change per step: 0.5 %, and 1 % for the free edge's peak
// speed, which may fall between two steps. Left out are set-ups within a tenth of
// their stall, where time itself hangs on the last newtons, and drives without a
// ramp, whose peaks are those of the first millimeter.
func TestSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	fine := fineness{thrust: usual.thrust / 10, splits: 12}
	compared := 0
	worst := map[string]float64{}
	for k := range 300 {
		s := random(r, t, k)
		a, b := run(t, s)
		c, d, err := s.run(make([]node, 10*steps+1), fine)
		if err != nil {
			t.Fatal(err)
		}
		stall := s.Opening.Line.StallThrust() * units.Force(s.Supply.ThrustFactor)
		for _, p := range [][2]Result{{a, c}, {b, d}} {
			if p[1].Outcome != Completed || p[1].PeakThrust > 0.9*stall || math.IsInf(float64(s.Ramp), 1) {
				continue
			}
			compared++
			for name, pair := range map[string][2]float64{
				"time":      {float64(p[0].Time), float64(p[1].Time)},
				"work":      {float64(p[0].Work), float64(p[1].Work)},
				"energy":    {float64(p[0].MotorEnergy), float64(p[1].MotorEnergy)},
				"rod speed": {float64(p[0].PeakRodSpeed), float64(p[1].PeakRodSpeed)},
				"edge":      {float64(p[0].PeakEdgeSpeed), float64(p[1].PeakEdgeSpeed)},
				"thrust":    {float64(p[0].PeakThrust), float64(p[1].PeakThrust)},
			} {
				off := math.Abs(pair[0]/pair[1] - 1)
				worst[name] = max(worst[name], off)
				allowed := 0.005
				if name == "edge" {
					allowed = 0.01
				}
				if off > allowed {
					t.Errorf("set-up %d: %s %.5g, with ten times the steps %.5g", k, name, pair[0], pair[1])
				}
			}
		}
	}
	if compared < 150 {
		t.Errorf("only %d runs compared", compared)
	}
	t.Logf("%d runs, worst differences %v", compared, worst)
}

// random is a plausible set-up: pull for even k, push for odd, light to heavy,
// with and without a ramp, break-away at each start.
func random(r *rand.Rand, t testing.TB, k int) Setup {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	var l triangle
	if k%2 == 0 {
		l = triangle{-u(.1, .25), u(.1, .25), u(.6, 1.1), u(0, .08)}
	} else {
		b := u(.1, .25)
		l = triangle{u(.1, .25), -b, u(.6, 1.1), -u(0, .03)}
	}
	open := units.Degrees(u(70, 100))
	width := u(1, 5)
	mass := u(40, 400)
	mom := func(start int) []units.Torque {
		m := make([]units.Torque, 19)
		a, b, c := u(10, 200), u(-.5, 1), u(0, 2)
		for i := range m {
			m[i] = units.Torque(a * (1 + b*math.Sin(c*float64(i)/18)))
		}
		m[start] *= 1.3
		return m
	}
	f := u(1000, 4000)
	v := u(.012, .03)
	ln := line(t, Point{0, units.Speed(v), 1}, Point{units.Force(.3 * f), units.Speed(.9 * v), 4}, Point{units.Force(f), units.Speed(0.3 * v * float64(r.IntN(2))), 12})
	ramp := math.Inf(1)
	if r.IntN(3) > 0 {
		ramp = u(.005, .08)
	}
	s := Setup{Linkage: l, Leaf: Leaf{units.Length(width), units.Inertia(mass * width * width / 3)}, Open: open,
		Opening: Way{Line: ln, Moment: mom(0), Slow: SlowZone{units.Length(u(0, .05)), u(.3, 1)}}, Closing: Way{Line: ln, Moment: mom(18)}, Ramp: units.Acceleration(ramp), Supply: Supply{24, u(.8, 1), u(.8, 1)}}
	return s
}

func BenchmarkRun(b *testing.B) {
	s := random(rand.New(rand.NewPCG(1, 2)), b, 0)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Run(s); err != nil {
			b.Fatal(err)
		}
	}
}
