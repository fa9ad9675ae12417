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

func TestScratch(t *testing.T) {
	for _, n := range []int{12, 16, 20, 24, 32} {
		for _, tl := range []float64{.03, .05} {
			r := rand.New(rand.NewPCG(1, 2))
			worst := map[string]float64{}
			over := map[string]int{}
			who := map[string]int{}
			done, tot := 0, 0
			for k := range 600 {
				s := random(r, t, k)
				nsteps, tol, maxSplits = 0, tl, 6
				a, b, err := s.run(make([]node, n+1))
				if err != nil {
					t.Fatal(err)
				}
				tot += nsteps
				tol, maxSplits = tl/10, 12
				c, d, err := s.run(make([]node, 10*n+1))
				if err != nil {
					t.Fatal(err)
				}
				for _, p := range [][2]Result{{a, c}, {b, d}} {
					if p[0].Outcome != p[1].Outcome {
						t.Log("outcome", k, p[0].Outcome, p[1].Outcome, p[0].Angle, p[1].Angle)
						continue
					}
					if p[0].Outcome != Completed || float64(p[1].PeakThrust) > .9*stall(s) || math.IsInf(float64(s.Ramp), 1) {
						continue
					}
					done++
					f0, f1 := figs(p[0]), figs(p[1])
					for key := range f0 {
						e := math.Abs(f0[key]/f1[key] - 1)
						if e > .005 {
							over[key]++
						}
						if e > worst[key] {
							worst[key] = e
							who[key] = k
						}
					}
				}
			}
			t.Log(n, tl, done, tot/600)
			for _, k := range []string{"time", "rod", "edge", "thrust", "energy", "work"} {
				t.Logf("   %s %.3f%% %d %d", k, worst[k]*100, over[k], who[k])
			}
		}
	}
	tol, maxSplits = .05, 6
}

func figs(r Result) map[string]float64 {
	return map[string]float64{"time": float64(r.Time), "rod": float64(r.PeakRodSpeed), "edge": float64(r.PeakEdgeSpeed), "ke": float64(r.PeakKineticEnergy), "thrust": float64(r.PeakThrust), "energy": float64(r.MotorEnergy), "work": float64(r.Work), "mean": float64(r.MeanCurrent), "cur": float64(r.PeakCurrent)}
}

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
	r := rand.New(rand.NewPCG(1, 2))
	s := random(r, b, 0)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Run(s); err != nil {
			b.Fatal(err)
		}
	}
}

func stall(s Setup) float64 { return float64(s.Opening.Line.StallThrust()) * s.Supply.ThrustFactor }
