package linkage

import (
	"encoding/json"
	"os"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

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
		Open: units.Degrees(c.Open), Swing: NewSwing(units.Degrees(c.SwingEnd), len(c.Opening)), OpenByRamEnd: c.OpenByRamEnd,
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

func loadDev(t testing.TB) []exhaustiveCase {
	f, err := os.ReadFile(os.Getenv("EX"))
	if err != nil {
		t.Skip(err)
	}
	var d struct{ Cases []exhaustiveCase }
	if err := json.Unmarshal(f, &d); err != nil {
		t.Fatal(err)
	}
	return d.Cases
}

func TestDev(t *testing.T) {
	bad, feas := 0, 0
	var ev int
	for _, c := range loadDev(t) {
		p := c.problem()
		s, err := p.Solve()
		if err != nil {
			t.Fatal(c.ID, err)
		}
		ev += s.Evaluations
		if s.Feasible {
			feas++
		}
		if s.Feasible != (len(c.Best) > 0) {
			bad++
			t.Errorf("%d %s ramend %v: feasible %v, exhaustive %v %v; got %v %.5g", c.ID, c.Side, c.OpenByRamEnd, s.Feasible, c.Best, c.Margin, s.Mounting, s.BoxMargin)
			continue
		}
		if s.Feasible && (s.BoxMargin < c.Margin*0.999 || s.BoxMargin > c.Margin*1.000001) {
			bad++
			t.Errorf("%d %s ramend %v: %.6g, exhaustive %v %.6g (%.3f%%); got %v", c.ID, c.Side, c.OpenByRamEnd, s.BoxMargin, c.Best, c.Margin, 100*(s.BoxMargin/c.Margin-1), s.Mounting)
		}
	}
	t.Logf("bad %d feasible %d evals %d", bad, feas, ev)
}

func BenchmarkDev(b *testing.B) {
	cases := loadDev(b)
	var ps []*Problem
	for _, c := range cases {
		ps = append(ps, c.problem())
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		ps[i%len(ps)].Solve()
	}
}
