package demo_test

import (
	"math"
	"slices"
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/demo/demotest"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/supply"
	"leafmoment.example/leafmoment/internal/units"
	"leafmoment.example/leafmoment/internal/wire"
)

func decode(t testing.TB, document []byte) *catalog.Catalog {
	t.Helper()
	c, err := wire.DecodeCatalog(document)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// What the demo's drives are held to is common practice of the trade, no source.
func TestDrivesLieWithinTheTrade(t *testing.T) {
	c := decode(t, demo.Catalog())
	longest := map[catalog.EndSensing]float64{}
	for _, d := range c.LinearDrives() {
		s := d.Spec
		longest[s.End] = max(longest[s.End], float64(catalog.LongestLeaf(s.MassRating, s.SolidityRating)))
		if v := s.Load[0].Speed; v < 0.012 || v > 0.022 {
			t.Errorf("%s: %v m/s unloaded, want 12 to 22 mm/s", d.Part.SKU, v)
		}
		for _, p := range s.Load[1:] {
			share := float64(p.Thrust) * float64(p.Speed) / (float64(s.Voltage) * float64(p.Current))
			if share < 0.30 || share > 0.55 {
				t.Errorf("%s: %.0f %% of the motor's power arrives at the rod at %v N, want 30 to 55", d.Part.SKU, 100*share, p.Thrust)
			}
		}
		first := float64(s.MassRating[0].Mass) * float64(s.MassRating[0].Width)
		for _, p := range s.MassRating {
			if ratio := float64(p.Mass) * float64(p.Width) / first; ratio < 0.97 || ratio > 1.03 {
				t.Errorf("%s: rated mass times width varies by %.0f %% at %v m", d.Part.SKU, 100*(ratio-1), p.Width)
			}
		}
	}
	if l := longest[catalog.EndByCurrent]; l != 4 {
		t.Errorf("light drives serve leaves to %v m, want 4", l)
	}
	if l := longest[catalog.EndByLimitSwitches]; l != 5 {
		t.Errorf("heavy drives serve leaves to %v m, want 5", l)
	}
}

func TestTwoFamiliesOfTwoSizesAtLeast(t *testing.T) {
	strokes := map[string][]int{}
	unstated := 0
	for _, d := range decode(t, demo.Catalog()).LinearDrives() {
		s := d.Spec
		stroke := (s.Longest - s.Shortest).RoundedMillimeters()
		if !slices.Contains(strokes[s.Family], stroke) {
			strokes[s.Family] = append(strokes[s.Family], stroke)
		}
		if light := s.Voltage == 12; light != (s.End == catalog.EndByCurrent) {
			t.Errorf("%s: a %v V drive senses its end by %v", d.Part.SKU, s.Voltage, s.End)
		}
		if !s.HoldingAgainstExtension.IsKnown() || !s.HoldingAgainstRetraction.IsKnown() {
			unstated++
		}
	}
	if len(strokes) != 2 {
		t.Errorf("families %v, want 2", strokes)
	}
	for family, list := range strokes {
		if len(list) < 2 {
			t.Errorf("family %s has strokes %v, want two at least", family, list)
		}
	}
	if unstated != 1 {
		t.Errorf("%d drives don't state their holding, want one", unstated)
	}
}

// Every leaf that a light drive is rated for has a heavy one rated for it, and a
// solid leaf needs the heavy one where an open one doesn't.
func TestSolidInfillNeedsTheHeavierDrive(t *testing.T) {
	c := decode(t, demo.Catalog())
	rated := func(end catalog.EndSensing, solidity float64) bool {
		for _, d := range c.LinearDrives() {
			if most, ok := catalog.MostSolidity(d.Spec.SolidityRating, 3); ok && d.Spec.End == end && solidity <= most {
				return true
			}
		}
		return false
	}
	for _, test := range []struct {
		end      catalog.EndSensing
		solidity float64
		want     bool
	}{
		{catalog.EndByCurrent, 0.3, true},
		{catalog.EndByCurrent, 1, false},
		{catalog.EndByLimitSwitches, 0.3, true},
		{catalog.EndByLimitSwitches, 1, true},
	} {
		if got := rated(test.end, test.solidity); got != test.want {
			t.Errorf("3 m at solidity %v by end sensing %v: rated %v, want %v", test.solidity, test.end, got, test.want)
		}
	}
}

// About 50 m of 2.5 mm2 at 12 V and 30 m at 24 V where a battery stands behind
// the controller; far less where the run carries the drives themselves.
func TestSupplyRunsReachAsFarAsTheTradeSays(t *testing.T) {
	c := decode(t, demo.Catalog())
	conductor, err := supply.IEC(supply.Class5, supply.Plain, units.SquareMillimeters(2.5))
	if err != nil {
		t.Fatal(err)
	}
	reach := func(v units.Voltage, i units.Current) float64 {
		d := supply.Demand{Voltage: v, Load: supply.Load{Current: i}, DropLimit: c.Policies.MostSupplyDrop}
		l, err := d.LongestRun(conductor, c.Policies.ConductorTemperature)
		if err != nil {
			t.Fatal(err)
		}
		return float64(l)
	}
	want := map[units.Voltage]float64{12: 50, 24: 30}
	for _, k := range c.Controllers() {
		charge, charges := k.Spec.ChargeCurrent.Get()
		if !charges {
			continue
		}
		l := reach(k.Spec.Voltage, charge+k.Spec.Standby)
		if w := want[k.Spec.Voltage]; math.Abs(l-w) > 0.1*w {
			t.Errorf("%s: 2.5 mm2 reaches %.1f m, want %v m within a tenth", k.Part.SKU, l, w)
		}
	}
	for _, d := range c.LinearDrives() {
		most := d.Spec.Load[len(d.Spec.Load)-1].Current
		if bare := reach(d.Spec.Voltage, 2*most); bare > want[d.Spec.Voltage] {
			t.Errorf("%s: two bare drives reach %.1f m, no less than a battery's charger", d.Part.SKU, bare)
		}
	}
}

// Everything an option may call for is on sale, in each form.
func TestEveryKindIsSold(t *testing.T) {
	c := decode(t, demo.Catalog())
	for _, d := range c.LinearDrives() {
		for _, form := range []catalog.RearBracketForm{catalog.FlatBracket, catalog.CurvedBracket, catalog.PushBracket} {
			if !slices.ContainsFunc(c.RearBrackets(), func(b catalog.Item[catalog.RearBracket]) bool {
				return b.Spec.Form == form && slices.Contains(b.Spec.Families, d.Spec.Family)
			}) {
				t.Errorf("%s has no rear bracket of form %d", d.Part.SKU, form)
			}
		}
		for _, form := range []catalog.LeafBracketForm{catalog.FlatLeafBracket, catalog.ClampLeafBracket} {
			if !slices.ContainsFunc(c.LeafBrackets(), func(b catalog.Item[catalog.LeafBracket]) bool {
				return b.Spec.Form == form && slices.Contains(b.Spec.Families, d.Spec.Family)
			}) {
				t.Errorf("%s has no leaf bracket of form %d", d.Part.SKU, form)
			}
		}
		if !slices.ContainsFunc(c.Locks(), func(l catalog.Item[catalog.Lock]) bool { return l.Spec.Voltage == d.Spec.Voltage }) {
			t.Errorf("%s has no lock of its voltage", d.Part.SKU)
		}
	}
	for _, v := range []struct {
		name string
		n    int
	}{
		{"arm drive", len(catalog.Each[catalog.ArmDrive](c))},
		{"battery", len(catalog.Each[catalog.Battery](c))},
		{"panel", len(catalog.Each[catalog.Panel](c))},
		{"charge controller", len(catalog.Each[catalog.ChargeController](c))},
		{"stop", len(catalog.Each[catalog.Stop](c))},
		{"remote", len(catalog.Each[catalog.Remote](c))},
		{"access device", len(catalog.Each[catalog.AccessDevice](c))},
		{"crossing cover", len(catalog.Each[catalog.CrossingCover](c))},
		{"sign", len(catalog.Each[catalog.Sign](c))},
		{"conduit", len(catalog.Each[catalog.Conduit](c))},
		{"supply cable", len(c.SupplyCables())},
	} {
		if v.n == 0 {
			t.Errorf("no %s is sold", v.name)
		}
	}
	if !slices.ContainsFunc(c.Parts(), func(p catalog.Part) bool { return p.Withdrawn && p.ReplacedBy != "" }) {
		t.Error("no withdrawn part with a replacement")
	}
}

func TestEnlarged(t *testing.T) {
	base := decode(t, demo.Catalog())
	for _, n := range []int{1, len(base.LinearDrives()), 40, 41} {
		document := demotest.Enlarged(t, n)
		c := decode(t, document)
		if got, want := len(c.LinearDrives()), max(n, len(base.LinearDrives())); got != want {
			t.Errorf("%d drives, want %d", got, want)
		}
		for _, d := range c.LinearDrives() {
			if _, ok := c.KitFor(d.Part.SKU, 2, gate.SourceMains); !ok {
				t.Errorf("%s has no kit for a pair", d.Part.SKU)
			}
		}
		if again := decode(t, demotest.Enlarged(t, n)); again.Revision != c.Revision {
			t.Errorf("%d drives: revision %s, then %s", n, c.Revision, again.Revision)
		}
	}
	drives := decode(t, demotest.Enlarged(t, 40)).LinearDrives()
	for i, a := range drives {
		for _, b := range drives[:i] {
			if a.Spec.ThrustRetracting == b.Spec.ThrustRetracting && a.Spec.Longest == b.Spec.Longest {
				t.Errorf("%s and %s are the same drive", a.Part.SKU, b.Part.SKU)
			}
		}
	}
}

func BenchmarkDecodeCatalog(b *testing.B) {
	for b.Loop() {
		decode(b, demo.Catalog())
	}
}
