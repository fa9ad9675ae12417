package sizing_test

import (
	"slices"
	"testing"

	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/sizing"
	"leafmoment.example/leafmoment/internal/units"
	"leafmoment.example/leafmoment/internal/wire"
)

// changedDemo is the demo catalog with a change.
func changedDemo(t *testing.T, change func(*pb.CatalogDocument)) *catalog.Catalog {
	t.Helper()
	m := &pb.CatalogDocument{}
	if err := wire.UnmarshalYAML(demo.Catalog(), "demo", m); err != nil {
		t.Fatal(err)
	}
	change(m)
	c, err := wire.Catalog(m)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func optionOf(t *testing.T, a sizing.Answer, sku string) *sizing.Option {
	t.Helper()
	i := slices.IndexFunc(a.Options, func(o sizing.Option) bool { return o.Drive.SKU == sku })
	if i < 0 {
		t.Fatalf("%s is no option; rejected: %v", sku, a.Rejected)
	}
	return &a.Options[i]
}

// A pair has one lock: the one its harder leaf needs, whichever that is.
func TestPairTakesTheStrongerLock(t *testing.T) {
	c := changedDemo(t, func(m *pb.CatalogDocument) {
		m.Parts = append(m.Parts, &pb.Part{Sku: "LK-12-WEAK", Name: "weak lock", PriceMinor: proto.Int64(1), Spec: &pb.Part_Lock{
			Lock: &pb.LockSpec{VoltageV: proto.Float64(12), HoldingN: proto.Float64(900), CurrentA: proto.Float64(1)},
		}})
	})
	small := gate.Leaf{
		Width: units.Known[units.Length](1.3), Height: units.Known[units.Length](1), Mass: units.Known[units.Mass](40), Solidity: units.Known(0.35),
	}
	large := small
	large.Height, large.Solidity = units.Known[units.Length](1.7), units.Known(0.8)
	for _, leaves := range [][]gate.Leaf{{small, large}, {large, small}} {
		g := gate.Gate{Leaves: leaves, Opening: gate.Opening{Direction: gate.Inward}}
		g.Site.Gust = units.Known[units.Speed](40)
		a, err := sizing.Size(c, g, false)
		if err != nil {
			t.Fatal(err)
		}
		weak, strong := false, false
		for _, l := range optionOf(t, a, "RL-400").Parts.Lines {
			weak = weak || l.SKU == "LK-12-WEAK"
			strong = strong || l.SKU == "LK-12"
		}
		if weak || !strong {
			t.Errorf("weak lock %v, strong lock %v in the parts list", weak, strong)
		}
	}
}

// Where the wind rule says nothing, what can be judged in still air still is.
func TestMarginIsJudgedWithoutAWindRule(t *testing.T) {
	c := changedDemo(t, func(m *pb.CatalogDocument) { m.Policies.WindRule = pb.WindRule_WIND_RULE_EN_1991_1_4 })
	g := gateFile(t, "01-open-bars-single.yaml") // EN 1991-1-4 table 7.9 starts at a solidity of 0.8
	g.Leaves[0].HandOpening = units.Known[units.Force](1000)
	a, err := sizing.Size(c, g, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range a.Options {
		if o.Margin() < c.Policies.LeastMargin {
			t.Errorf("%s is an option with a margin of %.2f", o.Drive.SKU, o.Margin())
		}
	}
	if !slices.ContainsFunc(a.Rejected, func(r sizing.Rejection) bool {
		return slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Code == finding.MarginBelowOne })
	}) {
		t.Error("no drive is refused for its margin, though the leaf takes 1 kN to open by hand")
	}
}

// A drive whose own end would set the open position with too little margin gets
// a stop instead, and isn't refused. The same drive with limit switches shows
// what a stop leaves.
func TestStopWhereTheRamsEndLeavesTooLittle(t *testing.T) {
	fell := 0
	for _, name := range []string{"01-open-bars-single.yaml", "04-outward-push.yaml", "10-solar-asked.yaml"} {
		for _, least := range []float64{1.25, 1.4, 1.6, 2, 2.4, 2.8} {
			policies := func(m *pb.CatalogDocument) {
				m.Policies.MostOverOpenDeg, m.Policies.LeastMargin = proto.Float64(18), proto.Float64(least)
			}
			byCurrent := changedDemo(t, policies)
			bySwitch := changedDemo(t, func(m *pb.CatalogDocument) {
				policies(m)
				for _, p := range m.Parts {
					if d := p.GetLinearDrive(); d != nil {
						d.EndSensing = pb.EndSensing_END_SENSING_LIMIT_SWITCHES
					}
					if k := p.GetController(); k != nil {
						k.TakesLimitSwitches = true
					}
				}
			})
			for _, drive := range []string{"RL-300", "RL-400"} {
				check := func(c *catalog.Catalog) *sizing.Option {
					a, err := sizing.Check(c, gateFile(t, name), sizing.Configuration{Drive: drive}, false)
					if err != nil {
						t.Fatal(err)
					}
					return &a.Options[0]
				}
				stopped := check(bySwitch)
				if len(stopped.Leaves) == 0 || stopped.Margin() < least {
					continue
				}
				o := check(byCurrent)
				if len(o.Leaves) == 0 || o.Margin() < least {
					t.Errorf("%s, %s, least margin %v: refused, though a stop leaves %.2f", name, drive, least, stopped.Margin())
				}
				if slices.ContainsFunc(o.Findings, func(f finding.Finding) bool { return f.Code == finding.OpenStopNeeded }) {
					fell++
				}
			}
		}
	}
	if fell == 0 {
		t.Error("no case falls back to a stop, so this test shows nothing")
	}
}
