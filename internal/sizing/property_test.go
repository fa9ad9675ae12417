package sizing_test

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"testing"

	"buf.build/go/protoyaml"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/sizing"
	"leafmoment.example/leafmoment/internal/units"
	"leafmoment.example/leafmoment/internal/wire"
)

func demoCatalog(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := wire.DecodeCatalog(demo.Catalog())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func gateFile(t testing.TB, name string) gate.Gate {
	t.Helper()
	text, err := os.ReadFile("../../testdata/gates/" + name)
	if err != nil {
		t.Fatal(err)
	}
	m := &pb.SizeGateRequest{}
	if err := wire.UnmarshalYAML(text, name, m); err != nil {
		t.Fatal(err)
	}
	g, faults := wire.Gate(m.GetGate())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return g
}

// someGate is a gate of the kind that drives of the trade are asked for, some of
// them past what the demo's drives are rated for. Its lean has no known
// direction: one that happens to help the drive would let more mass help too.
func someGate(r *rand.Rand) gate.Gate {
	within := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	leaf := func() gate.Leaf {
		height := within(0.9, 2)
		return gate.Leaf{
			Width:          units.Known(units.Length(within(1.5, 4.5))),
			Height:         units.Known(units.Length(height)),
			Mass:           units.Known(units.Mass(within(30, 200))),
			Solidity:       units.Known(within(0.1, 0.9)),
			HingeCondition: gate.HingeCondition(r.IntN(4)),
			OutOfPlumb:     units.Known(units.Degrees(within(0, 1.5))),
			Post: gate.Post{
				Shape: gate.PostRectangular, Width: units.Known(units.Length(within(0.08, 0.2))),
				HingeSetback: units.Known(units.Length(within(0.02, 0.1))),
			},
		}
	}
	g := gate.Gate{
		Leaves: []gate.Leaf{leaf()},
		Opening: gate.Opening{
			Direction: gate.Direction(1 + r.IntN(2)), Angle: units.Known(units.Degrees(within(80, 110))),
		},
		Site:  gate.Site{OperatingWind: units.Known(units.Speed(within(0, 9)))},
		Power: gate.Power{Source: gate.SourceMains, SupplyRun: units.Known(units.Length(within(2, 60)))},
	}
	if r.IntN(2) == 0 {
		g.Power.Conductor = units.Known(gate.Conductor{Standard: gate.IEC60228Class5, Area: units.SquareMillimeters(4)})
	}
	if r.IntN(3) == 0 {
		g.Leaves = append(g.Leaves, leaf())
	}
	return g
}

func scale[T ~float64](o units.Opt[T], by float64) units.Opt[T] {
	v, _ := o.Get()
	return units.Known(T(float64(v) * by))
}

// worse are ways in which a gate gets harder for a drive. Of a supply run that
// is yet to be laid a longer one gets a thicker cable, and with it at times more
// voltage, so that is compared only where the conductor stays.
var worse = map[string]func(g *gate.Gate, by float64){
	"heavier": func(g *gate.Gate, by float64) { g.Leaves[0].Mass = scale(g.Leaves[0].Mass, by) },
	"longer":  func(g *gate.Gate, by float64) { g.Leaves[0].Width = scale(g.Leaves[0].Width, by) },
	"windier": func(g *gate.Gate, by float64) { g.Site.OperatingWind = scale(g.Site.OperatingWind, by) },
	"more solid": func(g *gate.Gate, by float64) {
		g.Leaves[0].Solidity = units.Known(min(1, g.Leaves[0].Solidity.Or(0)*by))
	},
	"further from the mains": func(g *gate.Gate, by float64) { g.Power.SupplyRun = scale(g.Power.SupplyRun, 4*by) },
}

func clone(g gate.Gate) gate.Gate {
	g.Leaves = append([]gate.Leaf(nil), g.Leaves...)
	return g
}

func mountings(o *sizing.Option) []linkage.Mounting {
	var out []linkage.Mounting
	for i := range o.Leaves {
		out = append(out, o.Leaves[i].Mounting)
	}
	return out
}

// searchTolerance is how far the search for a mounting may stay behind the best
// one; design rule of the solver.
const searchTolerance = 1e-3

// TestHarderGatesNeverHelp makes gates harder in one way at a time. With the
// mounting held, no leaf's margin grows; with the mounting searched for anew,
// the margin grows by no more than the search's tolerance. A longer leaf offers
// the leaf bracket more places, so only the held mounting is compared there.
func TestHarderGatesNeverHelp(t *testing.T) {
	c := demoCatalog(t)
	r := rand.New(rand.NewPCG(2, 7))
	compared := map[string]int{}
	for range 60 {
		g := someGate(r)
		by := 1.02 + 0.5*r.Float64()
		for _, d := range c.LinearDrives() {
			base, err := sizing.Check(c, g, sizing.Configuration{Drive: d.Part.SKU}, false)
			if err != nil {
				t.Fatal(err)
			}
			o := &base.Options[0]
			if base.Verdict == finding.Unsuitable {
				continue // not an option, and it can't get worse
			}
			for name, change := range worse {
				harder := clone(g)
				change(&harder, by)
				compared[name]++
				held, err := sizing.Check(c, harder, sizing.Configuration{Drive: d.Part.SKU, Mountings: mountings(o)}, false)
				if err != nil {
					t.Fatal(err)
				}
				compareOption(t, name+", mounting held", d.Part.SKU, by, base, held, 1e-12)
				if name == "longer" {
					continue
				}
				anew, err := sizing.Check(c, harder, sizing.Configuration{Drive: d.Part.SKU}, false)
				if err != nil {
					t.Fatal(err)
				}
				compareOption(t, name, d.Part.SKU, by, base, anew, searchTolerance)
			}
		}
	}
	for name := range worse {
		if compared[name] < 50 {
			t.Errorf("%s: %d comparisons, too few to say anything", name, compared[name])
		}
	}
}

// verdict is the answer's, but for the leaf's speed: what slows a leaf down may
// take it below the supplier's limit.
func verdict(a sizing.Answer) finding.Verdict {
	rest := slices.DeleteFunc(slices.Clone(a.Options[0].Findings), func(f finding.Finding) bool {
		return f.Code == finding.EdgeTooFast
	})
	return finding.Judge(a.Findings, rest)
}

func compareOption(t *testing.T, change, drive string, by float64, base, harder sizing.Answer, tolerance float64) {
	t.Helper()
	before, after := &base.Options[0], &harder.Options[0]
	if was, is := verdict(base), verdict(harder); is < was {
		t.Errorf("%s by %.3f, %s: verdict %v before, %v after", change, by, drive, was, is)
	}
	had, _ := before.Supply.Get()
	has, fed := after.Supply.Get()
	if len(after.Leaves) < len(before.Leaves) || fed && has.Conductor != had.Conductor {
		return
	}
	for i := range before.Leaves {
		was, is := before.Leaves[i], after.Leaves[i]
		if is.BoxMargin > was.BoxMargin*(1+tolerance) || (tolerance < searchTolerance && is.Margin > was.Margin*(1+tolerance)) {
			t.Errorf("%s by %.3f, %s leaf %d: margin %.6f (%.6f with tolerance) before, %.6f (%.6f) after", change, by, drive, i, was.Margin, was.BoxMargin, is.Margin, is.BoxMargin)
		}
	}
}

// TestStatedMarginIsTheReturnedMountings judges each returned mounting forward,
// as if somebody had measured it.
func TestStatedMarginIsTheReturnedMountings(t *testing.T) {
	c := demoCatalog(t)
	r := rand.New(rand.NewPCG(3, 11))
	judged := 0
	for range 60 {
		g := someGate(r)
		a, err := sizing.Size(c, g, false)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Options {
			o := &a.Options[i]
			check, err := sizing.Check(c, g, sizing.Configuration{Drive: o.Drive.SKU, Mountings: mountings(o)}, false)
			if err != nil {
				t.Fatal(err)
			}
			judged++
			if !reflect.DeepEqual(check.Options[0], *o) {
				t.Errorf("%s: searched\n%+v\nmeasured\n%+v", o.Drive.SKU, o.Leaves, check.Options[0].Leaves)
			}
			for j := range o.Leaves {
				for _, l := range []units.Length{o.Leaves[j].Mounting.A, o.Leaves[j].Mounting.B, o.Leaves[j].Mounting.C, o.Leaves[j].Mounting.E} {
					if l != units.Millimeters(l.RoundedMillimeters()) {
						t.Errorf("%s: %v mm isn't whole", o.Drive.SKU, l.Millimeters())
					}
				}
			}
		}
	}
	if judged < 50 {
		t.Errorf("%d mountings judged, too few to say anything", judged)
	}
}

// TestOrderOfTheCatalogDoesNotMatter shuffles parts and kits.
func TestOrderOfTheCatalogDoesNotMatter(t *testing.T) {
	c := demoCatalog(t)
	document := &pb.CatalogDocument{}
	if err := protoyaml.Unmarshal(demo.Catalog(), document); err != nil {
		t.Fatal(err)
	}
	gates := []gate.Gate{
		gateFile(t, "01-open-bars-single.yaml"), gateFile(t, "03-pair-crossing.yaml"), gateFile(t, "04-outward-push.yaml"),
		gateFile(t, "06-thick-pier.yaml"), gateFile(t, "09-long-heavy.yaml"), gateFile(t, "10-solar-asked.yaml"),
	}
	r := rand.New(rand.NewPCG(5, 13))
	for range 10 {
		r.Shuffle(len(document.Parts), func(i, j int) {
			document.Parts[i], document.Parts[j] = document.Parts[j], document.Parts[i]
		})
		r.Shuffle(len(document.Kits), func(i, j int) {
			document.Kits[i], document.Kits[j] = document.Kits[j], document.Kits[i]
		})
		shuffled, err := wire.Catalog(document)
		if err != nil {
			t.Fatal(err)
		}
		for i, g := range gates {
			want, err := sizing.Size(c, g, true)
			if err != nil {
				t.Fatal(err)
			}
			got, err := sizing.Size(shuffled, g, true)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got, want) {
				t.Errorf("gate %d: another order, another answer", i)
			}
		}
	}
}

// TestSolidAndOpenLeafDifferByPorosityAlone holds two gates that differ in
// solidity alone to the porosity factor of AS/NZS 1170.2 appendix B (from
// memory), Kp = 1 - (1 - solidity)^2: the wind's moment by Kp, the wind that
// uses up the drive if it were the only load by 1/sqrt(Kp).
func TestSolidAndOpenLeafDifferByPorosityAlone(t *testing.T) {
	c := demoCatalog(t)
	kp := 1 - (1-0.3)*(1-0.3)
	open, solid := gateFile(t, "01-open-bars-single.yaml"), gateFile(t, "02-solid-single.yaml")
	first, err := sizing.Check(c, open, sizing.Configuration{Drive: "RH-400"}, false)
	if err != nil {
		t.Fatal(err)
	}
	held := mountings(&first.Options[0])
	second, err := sizing.Check(c, solid, sizing.Configuration{Drive: "RH-400", Mountings: held}, false)
	if err != nil {
		t.Fatal(err)
	}
	x, y := first.Options[0].Leaves[0], second.Options[0].Leaves[0]
	if x.Mounting != y.Mounting || x.Taken.Mass != y.Taken.Mass {
		t.Fatalf("not the same leaf and mounting: %+v, %+v", x, y)
	}
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"wind moment", float64(x.WindMoment / y.WindMoment), kp},
		{"wind-only limit", float64(x.WindOnlyLimit / y.WindOnlyLimit), 1 / math.Sqrt(kp)},
		{"porosity factor", x.Taken.Wind.Porosity / y.Taken.Wind.Porosity, kp},
	} {
		if math.Abs(v.got/v.want-1) > 1e-12 {
			t.Errorf("%s: open over solid is %.15g, want %.15g", v.what, v.got, v.want)
		}
	}
}
