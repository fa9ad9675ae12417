package linkage

import (
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func assess(t *testing.T, p *Problem, m Mounting) Assessment {
	t.Helper()
	a, err := p.At(m)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestWrongMountings measures mountings an installer might have made and wants
// the limit they break.
func TestWrongMountings(t *testing.T) {
	good := Mounting{Side: Pull, A: 0.15, B: 0.15, C: 0.88, E: 0.045}
	if a := assess(t, somePull(), good); a.Broken != 0 || a.BoxBroken != 0 || a.Margin <= 1 {
		t.Fatalf("a good mounting breaks %v, over the box %v, margin %v", a.Broken, a.BoxBroken, a.Margin)
	}
	for name, c := range map[string]struct {
		m      Mounting
		broken Limits
		also   func(a Assessment) bool
	}{
		"too far out: doesn't close": {Mounting{Pull, 0.15, 0.15, 1.0, 0.045}, LimitClosedTravel,
			func(a Assessment) bool { return a.ClosesTo > 0 && a.ReserveClosed < 0 }},
		"too far in: the ram runs out before 90": {Mounting{Pull, 0.15, 0.15, 0.75, 0.045}, LimitOpenTravel,
			func(a Assessment) bool {
				return a.Reach < units.Degrees(90) && a.ReachLimit == LimitOpenTravel && a.ReserveOpen < 0
			}},
		"rear pivot too near the hinge axis": {Mounting{Pull, 0.03, 0.15, 0.9, 0.045}, LimitArm,
			func(a Assessment) bool { return a.LeastArm < 0.06 && a.ReachLimit == LimitArm }},
		"dead point within the swing": {Mounting{Pull, -0.05, 0.15, 0.9, 0.045}, LimitArm,
			func(a Assessment) bool {
				return a.Margin == 0 && a.BoxMargin == 0 && a.MarginAngle == a.DeadPoint && a.DeadPoint < units.Degrees(90)
			}},
	} {
		a := assess(t, somePull(), c.m)
		if a.Broken != c.broken || !c.also(a) {
			t.Errorf("%s: breaks %v, want %v: %+v", name, a.Broken, c.broken, a)
		}
	}
}

func TestOptionalLimits(t *testing.T) {
	good := Mounting{Side: Pull, A: 0.15, B: 0.15, C: 0.88, E: 0.045}
	p := somePull()
	free := assess(t, p, good)
	for name, c := range map[string]struct {
		limit  func(p *Problem)
		broken Limits
	}{
		"stroke":      {func(p *Problem) { p.MaxStroke = units.Known(free.Stroke - 0.001) }, LimitStroke},
		"rear sweep":  {func(p *Problem) { p.Ram.RearSweepMax = units.Known(free.RearSweep - 0.001) }, LimitRearSweep},
		"front sweep": {func(p *Problem) { p.Ram.FrontSweepMax = units.Known(free.FrontSweep - 0.001) }, LimitFrontSweep},
	} {
		p := somePull()
		c.limit(p)
		if a := assess(t, p, good); a.Broken != c.broken || !a.BoxBroken.Has(c.broken) {
			t.Errorf("%s: breaks %v, over the box %v", name, a.Broken, a.BoxBroken)
		}
	}
	p.OpenByRamEnd, p.Swing, p.Open = true, NewSwing(units.Degrees(95), 19), units.Degrees(90)
	if a := assess(t, p, good); a.Broken != LimitRamEndLate || a.ReserveOpen != 0 {
		t.Errorf("ram end beyond the swing: breaks %v, reserve %v", a.Broken, a.ReserveOpen)
	}
	p.MaxStroke = units.Known(units.Length(0.2))
	if a := assess(t, p, good); !a.Broken.Has(LimitStroke) || a.Broken.Has(LimitClosedTravel) {
		t.Errorf("stroke to the ram's end: breaks %v", a.Broken)
	}
}

// TestLargestAngle compares with solving at every whole degree.
func TestLargestAngle(t *testing.T) {
	checked := 0
	for _, c := range loadExhaustive(t)[:60] {
		p := c.problem()
		if c.OpenByRamEnd {
			continue
		}
		got, err := p.LargestAngle()
		if err != nil {
			t.Fatal(err)
		}
		want := units.Angle(0)
		for degrees := int(c.Open); degrees > 0 && want == 0; degrees-- {
			less := *p
			less.Open = units.Degrees(float64(degrees))
			less.Swing = NewSwing(less.Open, len(c.Opening))
			if solve(t, &less).Feasible {
				want = less.Open
			}
		}
		if got != want {
			t.Errorf("case %d: %v degrees, one by one %v", c.ID, got.Degrees(), want.Degrees())
		}
		checked++
	}
	if checked < 30 {
		t.Errorf("only %d problems checked", checked)
	}
}

func TestInfeasibleNamesWhatBlocks(t *testing.T) {
	p := somePull()
	p.C = Interval{1100, 1300}
	if s := solve(t, p); s.Feasible || s.Blocking != LimitClosedTravel || (s.Assessment != Assessment{}) {
		t.Errorf("front pivot always too far out: %+v", s)
	}
	p = somePull()
	p.A = Interval{0, 20}
	if s := solve(t, p); s.Feasible || !s.Blocking.Has(LimitArm) {
		t.Errorf("rear pivot always too near the hinge axis: %+v", s)
	}
	p = somePush()
	p.MaxStroke = units.Known(units.Length(0.1))
	if s := solve(t, p); s.Feasible || !s.Blocking.Has(LimitStroke) {
		t.Errorf("stroke far too short: %+v", s)
	}
}

func TestLimitsString(t *testing.T) {
	if got := (LimitArm | LimitRangeC).String(); got != "arm, range of c" {
		t.Error(got)
	}
	if got := Limits(0).String(); got != "none" {
		t.Error(got)
	}
	for i, name := range limitNames {
		if !strings.Contains((^Limits(0)).String(), name) || Limits(1<<i).String() != name {
			t.Errorf("limit %d is called %q", i, Limits(1<<i))
		}
	}
}
