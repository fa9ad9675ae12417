package partslist

import (
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func shelf(t *testing.T) *catalog.Catalog {
	t.Helper()
	c, err := catalog.New(catalog.Catalog{
		TaxPercent: 19,
		Policies:   catalog.Policies{CableSlack: 0.1, CableEnds: 1},
	}, []catalog.Part{
		{SKU: "DRIVE", Name: "ram", Price: 20001, Spec: catalog.ArmDrive{
			Family: "f", MassRating: []catalog.MassPoint{{Width: 2, Mass: 100}}, SolidityRating: []catalog.SolidityPoint{{Width: 2, Solidity: 1}},
		}},
		{SKU: "REMOTE", Name: "remote", Price: 1500, Spec: catalog.Remote{Channels: 2}},
		{SKU: "CABLE", Name: "cable", Price: 990, Spec: catalog.Cable{Use: catalog.CableForSupply, Step: 10}},
		{SKU: "COVER", Name: "cover", Price: 4000, Spec: catalog.CrossingCover{Length: 1}},
		{SKU: "STOP", Name: "stop", Price: 700, Spec: catalog.Stop{Form: catalog.GroundStop, Height: units.Known(units.Length(0.03))}},
	}, []catalog.Kit{{SKU: "KIT", Name: "set", Price: 50000, Power: gate.SourceMains, Lines: []catalog.KitLine{
		{SKU: "DRIVE", Quantity: 1}, {SKU: "REMOTE", Quantity: 2}, {SKU: "STOP", Quantity: 1},
	}}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestKitIsSetOffAgainstNeeds(t *testing.T) {
	c := shelf(t)
	kit, _ := c.Kit("KIT")
	list, err := Build(c, kit, []Need{
		{SKU: "DRIVE", Quantity: 1, Reason: "moves the leaf"},
		{SKU: "REMOTE", Quantity: 5, Reason: "wanted"},
		{SKU: "CABLE", Length: units.Known(units.Length(18)), Runs: 1, Reason: "supply run"},
	})
	if err != nil {
		t.Fatal(err)
	}
	type row struct {
		sku      string
		quantity int
		unit     string
		inKit    bool
		price    int64
	}
	want := []row{
		{"KIT", 1, "piece", false, 50000},
		{"DRIVE", 1, "piece", true, 0},
		{"REMOTE", 2, "piece", true, 0},
		{"REMOTE", 3, "piece", false, 4500},
		{"CABLE", 3, "10 m", false, 2970}, // 18 m and a tenth and 1 m at each end counted once: 20.8 m
		{"STOP", 1, "piece", true, 0},
	}
	if len(list.Lines) != len(want) {
		t.Fatalf("%d lines, want %d: %+v", len(list.Lines), len(want), list.Lines)
	}
	for i, w := range want {
		l := list.Lines[i]
		if got := (row{l.SKU, l.Quantity, l.Unit, l.InKit, l.Price}); got != w {
			t.Errorf("line %d is %+v, want %+v", i, got, w)
		}
	}
	if list.Net != 57470 || list.Tax != 10919 || list.Total != 68389 {
		t.Errorf("net %d tax %d total %d, want 57470 10919 68389", list.Net, list.Tax, list.Total)
	}
}

func TestNeedsOfOnePartAddUp(t *testing.T) {
	list, err := Build(shelf(t), nil, []Need{
		{SKU: "STOP", Quantity: 1, Reason: "closed"},
		{SKU: "DRIVE", Quantity: 2, Reason: "moves the leaves"},
		{SKU: "STOP", Quantity: 2, Reason: "open"},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Lines) != 2 || list.Lines[0].Quantity != 3 || list.Lines[0].Reason != "closed; open" {
		t.Errorf("lines %+v", list.Lines)
	}
}

func TestCoverIsCountedInWholePieces(t *testing.T) {
	for _, c := range []struct {
		length units.Length
		pieces int
	}{{0.2, 1}, {3, 3}, {3.00005, 3}, {3.01, 4}} {
		list, err := Build(shelf(t), nil, []Need{{SKU: "COVER", Length: units.Known(c.length)}})
		if err != nil {
			t.Fatal(err)
		}
		if got := list.Lines[0].Quantity; got != c.pieces {
			t.Errorf("%v m of cover takes %d pieces, want %d", c.length, got, c.pieces)
		}
	}
}

func TestUnknownPartIsAnError(t *testing.T) {
	if _, err := Build(shelf(t), nil, []Need{{SKU: "NOBODY"}}); err == nil {
		t.Error("a need for a part the catalog doesn't have must be an error")
	}
}

func TestTaxRoundsHalfUp(t *testing.T) {
	for _, c := range []struct {
		net     int64
		percent float64
		tax     int64
	}{{50, 19, 10}, {100, 12.5, 13}, {0, 19, 0}, {999, 0, 0}} {
		if got := Tax(c.net, c.percent); got != c.tax {
			t.Errorf("tax on %d at %v %% is %d, want %d", c.net, c.percent, got, c.tax)
		}
	}
}
