package linkage

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/units"
)

// exhaustiveCase is one line of testdata/reference/mounting/exhaustive.json: a
// problem and the best margin any point of its 1 mm lattice has.
type exhaustiveCase struct {
	ID              int       `json:"id"`
	Side            string    `json:"side"`
	A               [2]int    `json:"a_mm"`
	B               [][2]int  `json:"b_mm"`
	C               [2]int    `json:"c_mm"`
	E               int       `json:"e_mm"`
	Box             int       `json:"box_mm"`
	Open            float64   `json:"open_deg"`
	SwingEnd        float64   `json:"swing_end_deg"`
	OpenByRamEnd    bool      `json:"open_by_ram_end"`
	Shortest        float64   `json:"shortest_mm"`
	Longest         float64   `json:"longest_mm"`
	ThrustExtending float64   `json:"thrust_extending_n"`
	ThrustRetract   float64   `json:"thrust_retracting_n"`
	RearSweepMax    *float64  `json:"rear_sweep_max_deg"`
	FrontSweepMax   *float64  `json:"front_sweep_max_deg"`
	ReserveClosed   float64   `json:"reserve_closed_mm"`
	ReserveOpen     float64   `json:"reserve_open_mm"`
	MinArm          float64   `json:"min_arm_mm"`
	MaxStroke       *float64  `json:"max_stroke_mm"`
	Opening         []float64 `json:"opening_n_m"`
	Closing         []float64 `json:"closing_n_m"`
	Inertia         float64   `json:"inertia_kg_m2"`
	RodSpeed        float64   `json:"rod_speed_mm_s"`
	RodAcceleration float64   `json:"rod_acceleration_mm_s2"`

	Lattice int     `json:"lattice_points"`
	Margin  float64 `json:"best_margin"`
	Best    []int   `json:"best_a_b_c_mm"`
}

func (c *exhaustiveCase) problem() *Problem {
	p := &Problem{
		A: Interval{c.A[0], c.A[1]}, C: Interval{c.C[0], c.C[1]}, E: c.E, Box: c.Box,
		Open: units.Degrees(c.Open), OpenByRamEnd: c.OpenByRamEnd,
		Swing: NewSwing(units.Degrees(c.SwingEnd), len(c.Opening)),
		Ram: Ram{
			Shortest: units.Millimeters(c.Shortest), Longest: units.Millimeters(c.Longest),
			ThrustExtending: units.Force(c.ThrustExtending), ThrustRetracting: units.Force(c.ThrustRetract),
		},
		Demand: Demand{
			Opening: c.Opening, Closing: c.Closing, Inertia: units.Inertia(c.Inertia),
			RodSpeed: units.Speed(c.RodSpeed / 1000), RodAcceleration: units.Acceleration(c.RodAcceleration / 1000),
		},
		ReserveClosed: units.Millimeters(c.ReserveClosed), ReserveOpen: units.Millimeters(c.ReserveOpen),
		MinArm: units.Millimeters(c.MinArm),
	}
	if c.Side == "push" {
		p.Side = Push
	}
	for _, b := range c.B {
		p.B = append(p.B, Interval{b[0], b[1]})
	}
	if c.RearSweepMax != nil {
		p.Ram.RearSweepMax = units.Known(units.Degrees(*c.RearSweepMax))
	}
	if c.FrontSweepMax != nil {
		p.Ram.FrontSweepMax = units.Known(units.Degrees(*c.FrontSweepMax))
	}
	if c.MaxStroke != nil {
		p.MaxStroke = units.Known(units.Millimeters(*c.MaxStroke))
	}
	return p
}

func decodeExhaustive(t testing.TB, data []byte) []exhaustiveCase {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	var file struct {
		Source string           `json:"source"`
		Basis  casefile.Basis   `json:"basis"`
		Cases  []exhaustiveCase `json:"cases"`
	}
	if err := d.Decode(&file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) == 0 || file.Source == "" || file.Basis != casefile.Computed {
		t.Fatal("the exhaustive reference has no cases or no source")
	}
	return file.Cases
}

func loadExhaustive(t testing.TB) []exhaustiveCase {
	t.Helper()
	return loadMountings(t, "exhaustive.json")
}

func loadMountings(t testing.TB, name string) []exhaustiveCase {
	t.Helper()
	data, err := os.ReadFile(casefile.Path(filepath.Join("mounting", name)))
	if err != nil {
		t.Fatal(err)
	}
	return decodeExhaustive(t, data)
}

// TestSolverFindsTheExhaustiveOptimum: within 0.1 % of the best of the lattice,
// in well under a thousandth of its points, and none where there is none.
func TestSolverFindsTheExhaustiveOptimum(t *testing.T) {
	cases := loadExhaustive(t)
	feasible, evaluations, lattice := 0, 0, 0
	for _, c := range cases {
		s := c.check(t)
		evaluations += s.Evaluations
		lattice += c.Lattice
		if s.Feasible {
			feasible++
		}
		if s.Evaluations*1000 > c.Lattice && c.Lattice > 100_000 {
			t.Errorf("case %d: %d evaluations for %d lattice points", c.ID, s.Evaluations, c.Lattice)
		}
	}
	if feasible < 150 || len(cases)-feasible < 50 {
		t.Errorf("%d of %d cases are feasible: too lopsided to tell much", feasible, len(cases))
	}
	if evaluations*10_000 > lattice {
		t.Errorf("%d evaluations for %d lattice points", evaluations, lattice)
	}
}

// TestSolverFindsHardOptima: two peaks on either side of a hole, feasible sets
// thinner than a millimeter, limits met exactly.
func TestSolverFindsHardOptima(t *testing.T) {
	for _, c := range loadMountings(t, "hard.json") {
		c.check(t)
	}
}

func (c *exhaustiveCase) check(t *testing.T) Solution {
	t.Helper()
	s, err := c.problem().Solve()
	switch {
	case err != nil:
		t.Fatalf("case %d: %v", c.ID, err)
	case s.Feasible != (len(c.Best) > 0):
		t.Errorf("case %d: feasible %v; the lattice has %v", c.ID, s.Feasible, c.Best)
	case s.Feasible && (s.BoxMargin < c.Margin*(1-1e-3) || s.BoxMargin > c.Margin*(1+1e-9)):
		t.Errorf("case %d: margin %.6g at %+v; the lattice has %.6g at %v", c.ID, s.BoxMargin, s.Mounting, c.Margin, c.Best)
	}
	return s
}

// TestExhaustiveReferenceStands works five cases out again, from the program
// that made the reference.
func TestExhaustiveReferenceStands(t *testing.T) {
	if testing.Short() {
		t.Skip("searches five whole lattices")
	}
	path := casefile.Path("mounting/exhaustive.json")
	in, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	run := exec.Command("go", "run", "exhaustive.go", "-recompute", "127,137,141,190,242")
	run.Dir, run.Stdin, run.Stderr = filepath.Dir(path), in, os.Stderr
	out, err := run.Output()
	if err != nil {
		t.Fatal(err)
	}
	given, again := loadExhaustive(t), decodeExhaustive(t, out)
	if len(again) != 5 {
		t.Fatalf("%d cases came back", len(again))
	}
	for _, c := range again {
		want := given[c.ID]
		if c.Lattice != want.Lattice || len(c.Best) != len(want.Best) || math.Abs(c.Margin-want.Margin) > 1e-9*want.Margin {
			t.Errorf("case %d: %d points, margin %v at %v; the file has %d, %v at %v", c.ID, c.Lattice, c.Margin, c.Best, want.Lattice, want.Margin, want.Best)
		}
	}
}

// BenchmarkSolve goes through the reference problems and reports the evaluations
// of a solve beside the size of the lattice.
func BenchmarkSolve(b *testing.B) {
	cases := loadExhaustive(b)
	problems := make([]*Problem, len(cases))
	for i := range cases {
		problems[i] = cases[i].problem()
	}
	evaluations, lattice, i := 0, 0, 0
	b.ReportAllocs()
	for b.Loop() {
		s, err := problems[i].Solve()
		if err != nil {
			b.Fatal(err)
		}
		evaluations += s.Evaluations
		lattice += cases[i].Lattice
		i = (i + 1) % len(problems)
	}
	b.ReportMetric(float64(evaluations)/float64(b.N), "evaluations/solve")
	b.ReportMetric(float64(lattice)/float64(b.N), "lattice_points/solve")
	b.ReportMetric(medianSolve(b, problems), "median_ns/solve")
}

// medianSolve is the time, ns, the middle one of the problems takes, each at the
// best of five.
func medianSolve(b *testing.B, problems []*Problem) float64 {
	best := make([]time.Duration, len(problems))
	for i, p := range problems {
		best[i] = time.Hour
		for range 5 {
			start := time.Now()
			if _, err := p.Solve(); err != nil {
				b.Fatal(err)
			}
			best[i] = min(best[i], time.Since(start))
		}
	}
	slices.Sort(best)
	return float64(best[len(best)/2].Nanoseconds())
}

func BenchmarkAt(b *testing.B) {
	c := loadExhaustive(b)[141]
	p := c.problem()
	s, err := p.Solve()
	if err != nil || !s.Feasible {
		b.Fatal(s, err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.At(s.Mounting); err != nil {
			b.Fatal(err)
		}
	}
}
