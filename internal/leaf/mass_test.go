package leaf

import (
	"math"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func TestSpreadIsContinuousAndGrows(t *testing.T) {
	before := units.Length(0)
	for x := units.Length(0.01); x <= 3; x += 0.001 {
		k := spreadGyration(3, x)
		if k <= before || before > 0 && k-before > 0.01 {
			t.Fatalf("center %v: %v after %v", x, k, before)
		}
		// No spread of mass between the axis and the free edge lies outside.
		if k < x-1e-12 || float64(k*k) > float64(3*x)+1e-12 {
			t.Fatalf("center %v: a radius of gyration of %v can't be", x, k)
		}
		before = k
	}
}

func TestEstimateGrowsWithEveryPart(t *testing.T) {
	base := barredLeaf()
	mass := func(c gate.Construction, w, h units.Length) Mass {
		b, err := Estimate(c, w, h, unknownCenter)
		if err != nil {
			t.Fatal(err)
		}
		return b.Mass
	}
	m := mass(base, 3.5, 1.8)
	if !(m.Low < m.Nominal && m.Nominal < m.High) {
		t.Errorf("bounds %+v", m)
	}
	for name, change := range map[string]func(*gate.Construction){
		"rail":     func(c *gate.Construction) { c.RailCount = 4 },
		"bar":      func(c *gate.Construction) { c.BarCount = 29 },
		"infill":   func(c *gate.Construction) { c.Infill = units.Known(units.ArealMass(5)) },
		"hardware": func(c *gate.Construction) { c.Hardware = units.Opt[units.Mass]{} },
		"wall":     func(c *gate.Construction) { c.Stile.Wall = 0.004 },
		"solid":    func(c *gate.Construction) { c.Rail.Wall = 0 },
	} {
		c := base
		change(&c)
		if got := mass(c, 3.5, 1.8); got.Nominal <= m.Nominal || got.High <= m.High {
			t.Errorf("%s: %+v against %+v", name, got, m)
		}
	}
	if mass(base, 3.6, 1.8).Nominal <= m.Nominal || mass(base, 3.5, 1.9).Nominal <= m.Nominal {
		t.Error("a larger leaf is heavier")
	}
	wood := gate.Construction{
		Material: gate.Hardwood, RailCount: 3,
		Stile: gate.Section{Width: 0.1, Depth: 0.045}, Rail: gate.Section{Width: 0.1, Depth: 0.045},
	}
	if m := mass(wood, 3, 1.5); m.High < 1.5*m.Nominal {
		t.Errorf("hardwood is known worse than that: %+v", m)
	}
}

func TestGivenCenter(t *testing.T) {
	b, err := Estimate(barredLeaf(), 3.5, 1.8, units.Known(units.Length(1.2)))
	if err != nil {
		t.Fatal(err)
	}
	if b.Center != 1.2 || b.Gyration != spreadGyration(3.5, 1.2) {
		t.Errorf("%+v", b)
	}
}

func TestAssumedSolidityRises(t *testing.T) {
	before := 0.0
	for _, i := range []gate.Infill{gate.InfillOpenBars, gate.InfillGappedSlats, gate.InfillLouvers, gate.InfillSolid, gate.InfillUnknown} {
		s := AssumedSolidity(i)
		if s < before || s > 1 {
			t.Errorf("infill %d: %v after %v", i, s, before)
		}
		before = s
	}
	if s, _ := ProjectedSolidity(barredLeaf(), 3.5, 1.8); s > AssumedSolidity(gate.InfillOpenBars) {
		t.Errorf("an ordinary barred leaf of %v is more solid than what is assumed for it", s)
	}
	meshed := barredLeaf()
	meshed.Infill = units.Known(units.ArealMass(4))
	if _, ok := ProjectedSolidity(meshed, 3.5, 1.8); ok {
		t.Error("how open a mesh is can't be told from its weight")
	}
}

func TestContradictoryConstruction(t *testing.T) {
	for want, change := range map[string]func(*gate.Construction){
		"counted":         func(c *gate.Construction) { c.Bar = units.Opt[gate.Section]{} },
		"count of 0":      func(c *gate.Construction) { c.BarCount = 0 },
		"don't fit":       func(c *gate.Construction) { c.BarCount = 200 },
		"fill the leaf":   func(c *gate.Construction) { c.RailCount = 40 },
		"2 to":            func(c *gate.Construction) { c.RailCount = 1 },
		"framed from":     func(c *gate.Construction) { c.Material = gate.Masonry },
		"rail: leaf":      func(c *gate.Construction) { c.Rail.Wall = 0.025 },
		"stile: leaf":     func(c *gate.Construction) { c.Stile.Depth = 0 },
		"bar: leaf":       func(c *gate.Construction) { c.Bar = units.Known(gate.Section{Width: 0.02, Depth: 0.02, Wall: -1}) },
		"infill of":       func(c *gate.Construction) { c.Infill = units.Known(units.ArealMass(math.NaN())) },
		"hardware of":     func(c *gate.Construction) { c.Hardware = units.Known(units.Mass(-3)) },
		"section width":   func(c *gate.Construction) { c.Stile.Width = units.Length(math.Inf(1)) },
		"section depth":   func(c *gate.Construction) { c.Rail.Depth = units.Length(math.NaN()) },
		"can't be negati": func(c *gate.Construction) { c.Rail.Wall = units.Length(math.NaN()) },
	} {
		c := barredLeaf()
		change(&c)
		if _, err := Estimate(c, 3.5, 1.8, unknownCenter); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
}
