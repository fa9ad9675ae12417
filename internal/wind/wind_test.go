package wind

import (
	"math"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

var rules = []Rule{ASNZS1170AppendixB, EN1991Table79, ASCE7Figure29}

func mustLoad(t *testing.T, rule Rule, p Panel) Loading {
	t.Helper()
	l, err := HingeMoment(rule, p)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// The figures of a loading belong together as its comment says.
func TestLoadingIdentity(t *testing.T) {
	for _, rule := range rules {
		for _, length := range []units.Length{1, 2.5, 4, 7.5} {
			p := Panel{Length: length, Height: 1.1, Top: 1.2, Solidity: 0.9}
			l := mustLoad(t, rule, p)
			force := l.Net * l.Porosity * float64(length) * 1.1
			if math.Abs(force-float64(l.ForcePerPascal)) > 1e-12*force {
				t.Errorf("%v, %v m: force %v, coefficients give %v", rule, length, l.ForcePerPascal, force)
			}
			moment := force * float64(length) * (0.5 + l.Eccentricity)
			if math.Abs(moment-l.MomentPerPascal) > 1e-12*moment {
				t.Errorf("%v, %v m: moment %v, coefficients give %v", rule, length, l.MomentPerPascal, moment)
			}
			if l.Clause == "" || l.WhyNot != "" {
				t.Errorf("%v: clause %q, why not %q", rule, l.Clause, l.WhyNot)
			}
		}
	}
}

// With the default rule, leaves that differ in solidity alone differ in moment
// by the porosity factors and in limit speed by one over their root.
func TestOnlyThePorosityFactorDependsOnSolidity(t *testing.T) {
	for _, length := range []units.Length{2, 3, 7} {
		solid := mustLoad(t, ASNZS1170AppendixB, Panel{Length: length, Height: 1.2, Top: 1.25, Solidity: 1})
		for _, delta := range []float64{0.05, 0.3, 0.6, 0.95} {
			open := mustLoad(t, ASNZS1170AppendixB, Panel{Length: length, Height: 1.2, Top: 1.25, Solidity: delta})
			kp := 1 - (1-delta)*(1-delta)
			if got := open.MomentPerPascal / solid.MomentPerPascal; math.Abs(got-kp) > 1e-12 {
				t.Errorf("solidity %v: moment ratio %v, K_p %v", delta, got, kp)
			}
			if open.Net != solid.Net || math.Abs(open.Eccentricity-solid.Eccentricity) > 1e-12 || open.Clause != solid.Clause {
				t.Errorf("solidity %v changes more than the porosity: %+v against %+v", delta, open, solid)
			}
			vOpen, _ := open.SpeedLimit(500, DensityASNZS)
			vSolid, _ := solid.SpeedLimit(500, DensityASNZS)
			if got := float64(vSolid / vOpen); math.Abs(got-math.Sqrt(kp)) > 1e-12 {
				t.Errorf("solidity %v: limit speeds differ by %v, want %v", delta, got, math.Sqrt(kp))
			}
		}
	}
}

func TestLongerOrMoreSolidNeverLowersTheMoment(t *testing.T) {
	for _, rule := range rules {
		for _, height := range []units.Length{0.5, 1.2, 1.8, 3} {
			for _, under := range []units.Length{0, 0.1, 0.6, 20} {
				before := 0.0
				for length := 0.5 * height; length < 25; length *= 1.013 {
					p := Panel{Length: length, Height: height, Top: height + under, Solidity: 1}
					l := mustLoad(t, rule, p)
					if !l.Defined {
						continue
					}
					if l.MomentPerPascal < before {
						t.Fatalf("%v: %v m by %v m turns easier than the shorter one", rule, length, height)
					}
					before = l.MomentPerPascal
					solid := 0.0
					for _, p.Solidity = range []float64{0, 0.2, 0.5, 0.7, 0.8, 0.9, 1} {
						if l := mustLoad(t, rule, p); l.Defined {
							if l.MomentPerPascal < solid {
								t.Fatalf("%v: solidity %v turns easier than the more open leaf (%v m)", rule, p.Solidity, length)
							}
							solid = l.MomentPerPascal
						}
					}
				}
			}
		}
	}
}

// A moment per pascal is a volume: all lengths doubled make it eight times as
// large.
func TestUnitsScale(t *testing.T) {
	for _, rule := range rules {
		for _, length := range []units.Length{1, 3, 6.5} {
			p := Panel{Length: length, Height: 1, Top: 1.1, Solidity: 0.95}
			one := mustLoad(t, rule, p)
			p.Length, p.Height, p.Top = 2*p.Length, 2*p.Height, 2*p.Top
			if two := mustLoad(t, rule, p); math.Abs(two.MomentPerPascal-8*one.MomentPerPascal) > 1e-9*two.MomentPerPascal {
				t.Errorf("%v: %v against 8 x %v", rule, two.MomentPerPascal, one.MomentPerPascal)
			}
		}
	}
}

func TestSpeedLimitUndoesTheMoment(t *testing.T) {
	l := mustLoad(t, EN1991Table79, Panel{Length: 3.5, Height: 1.8, Top: 1.9, Solidity: 1})
	before := units.Speed(0)
	for _, m := range []units.Torque{0, 10, 400, 9000} {
		v, ok := l.SpeedLimit(m, DensityEN)
		if !ok || (m > 0 && v <= before) {
			t.Fatalf("%v N m: %v m/s after %v", m, v, before)
		}
		before = v
		if back := l.Moment(DynamicPressure(DensityEN, v)); math.Abs(float64(back-m)) > 1e-9*float64(m) {
			t.Errorf("%v N m came back as %v", m, back)
		}
	}
	if v, ok := l.SpeedLimit(-5, DensityEN); !ok || v != 0 {
		t.Errorf("nothing available: %v, %v", v, ok)
	}
	if _, ok := l.SpeedLimit(units.Torque(math.NaN()), DensityEN); ok {
		t.Error("a limit from no number")
	}
	open := mustLoad(t, ASNZS1170AppendixB, Panel{Length: 3.5, Height: 1.8, Top: 1.9, Solidity: 0})
	if _, ok := open.SpeedLimit(5, DensityASNZS); ok {
		t.Error("a panel of nothing has no limit")
	}
}

func TestOutsideARuleIsNotDefined(t *testing.T) {
	for _, c := range []struct {
		rule Rule
		p    Panel
		why  string
	}{
		{ASNZS1170AppendixB, Panel{Length: 0.8, Height: 1.8, Top: 1.9, Solidity: 1}, "half its height"},
		{EN1991Table79, Panel{Length: 3, Height: 1.2, Top: 1.3, Solidity: 0.79}, "7.11"},
		{ASCE7Figure29, Panel{Length: 3, Height: 1.2, Top: 1.3, Solidity: 0.69}, "open sign"},
	} {
		l := mustLoad(t, c.rule, c.p)
		if l.Defined || l.MomentPerPascal != 0 || !strings.Contains(l.WhyNot, c.why) {
			t.Errorf("%v: %+v", c.rule, l)
		}
		if _, ok := l.SpeedLimit(100, 1.2); ok {
			t.Errorf("%v: a limit speed out of nothing", c.rule)
		}
	}
}

func TestBrokenInput(t *testing.T) {
	good := Panel{Length: 3, Height: 1.2, Top: 1.3, Solidity: 0.9}
	nan := math.NaN()
	for name, spoil := range map[string]func(*Panel){
		"length":     func(p *Panel) { p.Length = units.Length(nan) },
		"height":     func(p *Panel) { p.Height = 0 },
		"top":        func(p *Panel) { p.Top = units.Length(math.Inf(1)) },
		"top edge":   func(p *Panel) { p.Top = 1.1 },
		"solidity":   func(p *Panel) { p.Solidity = nan },
		"solidity 2": func(p *Panel) { p.Solidity = 2 },
	} {
		p := good
		spoil(&p)
		if _, err := HingeMoment(ASNZS1170AppendixB, p); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := HingeMoment(Rule(9), good); err == nil {
		t.Error("an unknown rule is accepted")
	}
	for _, bad := range []struct {
		mean     units.Speed
		category Category
		z        units.Length
	}{{-1, CategoryII, 2}, {units.Speed(nan), CategoryII, 2}, {20, CategoryII, 0}, {20, CategoryII, 201}, {20, 5, 2}} {
		if g, err := GustFromMean(bad.mean, bad.category, bad.z); err == nil {
			t.Errorf("%+v gives %+v", bad, g)
		}
	}
}

// Higher up, faster, or on smoother ground, the gust is never weaker.
func TestGustGrows(t *testing.T) {
	for z := units.Length(0.2); z < 200; z *= 1.3 {
		before := math.Inf(1)
		for category := Category0; category <= CategoryIV; category++ {
			low, err := GustFromMean(20, category, z)
			if err != nil {
				t.Fatal(err)
			}
			high, _ := GustFromMean(20, category, z*1.01)
			fast, _ := GustFromMean(21, category, z)
			if high.Speed < low.Speed || fast.Speed <= low.Speed {
				t.Errorf("category %d at %v m: %v, higher %v, faster %v", category, z, low.Speed, high.Speed, fast.Speed)
			}
			// A category's least height lets a rougher one pass its neighbor
			// low down, so they are compared above all of them.
			if z >= 10 && float64(low.Speed) > before {
				t.Errorf("category %d at %v m is windier than the smoother one", category, z)
			}
			before = float64(low.Speed)
			if (z < terrainLeast(category)) != low.Raised {
				t.Errorf("category %d at %v m: raised %v", category, z, low.Raised)
			}
		}
	}
}

func terrainLeast(c Category) units.Length { return units.Length(terrain[c].least) }

func TestHingeMomentDoesNotAllocate(t *testing.T) {
	p := Panel{Length: 7.5, Height: 1.2, Top: 1.3, Solidity: 0.9}
	for _, rule := range rules {
		if n := testing.AllocsPerRun(100, func() { _, _ = HingeMoment(rule, p) }); n != 0 {
			t.Errorf("%v: %v allocations", rule, n)
		}
	}
}

func FuzzHingeMoment(f *testing.F) {
	f.Add(uint8(0), 3.0, 1.2, 1.3, 0.3)
	f.Add(uint8(1), 0.0, -1.0, 1e300, 1.0)
	f.Add(uint8(2), math.NaN(), math.Inf(1), 0.05, math.Copysign(0, -1))
	f.Fuzz(func(t *testing.T, rule uint8, length, height, top, solidity float64) {
		l, err := HingeMoment(Rule(rule), Panel{units.Length(length), units.Length(height), units.Length(top), solidity})
		for _, v := range []float64{l.MomentPerPascal, float64(l.ForcePerPascal), l.Net, l.Porosity, l.Eccentricity} {
			if !units.Finite(v) {
				t.Fatalf("%+v", l)
			}
		}
		if l.MomentPerPascal < 0 || l.ForcePerPascal < 0 {
			t.Fatalf("a negative wind: %+v", l)
		}
		if err == nil && !l.Defined && (l.MomentPerPascal != 0 || l.WhyNot == "") {
			t.Fatalf("not defined, yet %+v", l)
		}
	})
}
