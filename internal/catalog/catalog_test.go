package catalog

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// ram is a linear drive without fault.
func ram(sku string) Part {
	return Part{SKU: sku, Name: sku, Price: 100, Spec: LinearDrive{
		Family: "light", Voltage: 12, Shortest: 0.6, Longest: 0.9, HousingLength: 0.5, HousingRadius: 0.04, RodRadius: 0.01,
		ThrustExtending: 1000, ThrustRetracting: 900,
		Load:           []LoadPoint{{0, 0.02, 1}, {1000, 0.01, 3}},
		MassRating:     []MassPoint{{2, 150}, {3, 100}},
		SolidityRating: []SolidityPoint{{2, 1}, {3, 0.5}},
		CyclesPerHour:  10,
	}}
}

func controllerFor(sku string, drives int) Part {
	return Part{SKU: sku, Spec: Controller{Families: []string{"light"}, Voltage: 12, LeastVoltage: 10, Drives: drives}}
}

func withdrawn(p Part, by string) Part {
	p.Withdrawn, p.ReplacedBy = true, by
	return p
}

func set(sku string, price int64, power gate.PowerSource, lines ...KitLine) Kit {
	return Kit{SKU: sku, Price: price, Power: power, Lines: lines}
}

func mustNew(t *testing.T, parts []Part, kits ...Kit) *Catalog {
	t.Helper()
	c, err := New(Catalog{}, parts, kits)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestWithdrawnPartsAreFoundButNotOffered(t *testing.T) {
	parts := []Part{ram("B"), withdrawn(ram("A"), "B"), controllerFor("C2", 2), withdrawn(controllerFor("C1", 2), "")}
	c := mustNew(t, parts)
	if got := skus(c.LinearDrives()); !slices.Equal(got, []string{"B"}) {
		t.Errorf("linear drives offered: %v, want B", got)
	}
	if got := skus(c.Controllers()); !slices.Equal(got, []string{"C2"}) {
		t.Errorf("controllers offered: %v, want C2", got)
	}
	old, ok := c.Part("A")
	if !ok || !old.Withdrawn || old.ReplacedBy != "B" {
		t.Errorf("the withdrawn part reads %+v, %v", old, ok)
	}
	if len(c.Parts()) != len(parts) {
		t.Errorf("%d parts, want all %d", len(c.Parts()), len(parts))
	}
}

func TestPartsStandBySKUWhateverTheOrder(t *testing.T) {
	parts := []Part{ram("D3"), ram("D1"), ram("D2"), controllerFor("C", 2)}
	want := []string{"D1", "D2", "D3"}
	for range parts {
		if got := skus(mustNew(t, parts).LinearDrives()); !slices.Equal(got, want) {
			t.Errorf("drives %v, want %v", got, want)
		}
		parts = append(parts[1:], parts[0])
	}
}

func TestListsByKind(t *testing.T) {
	iec := gate.Conductor{Standard: gate.IEC60228Class5, Area: units.SquareMillimeters(1.5)}
	c := mustNew(t, []Part{
		ram("D"),
		{SKU: "S", Spec: Cable{Use: CableForSupply, Conductor: iec, Cores: 2, Step: 10}},
		{SKU: "A", Spec: Cable{Use: CableForAccess, Conductor: iec, Cores: 4, Step: 10}},
		{SKU: "P", Spec: PowerSupply{Output: 12, Continuous: 3, Peak: 6}},
		{SKU: "L", Spec: Lock{Voltage: 12, Holding: 1000, Current: 1}},
		{SKU: "RB", Spec: RearBracket{Families: []string{"light"}, Form: FlatBracket, Standoffs: []Range{{50, 50}}, Reach: Range{40, 90}}},
		{SKU: "LB", Spec: LeafBracket{Families: []string{"light"}, Form: FlatLeafBracket}},
	})
	for name, got := range map[string][]string{
		"S": skus(c.SupplyCables()), "P": skus(c.PowerSupplies()), "L": skus(c.Locks()),
		"RB": skus(c.RearBrackets()), "LB": skus(c.LeafBrackets()),
	} {
		if !slices.Equal(got, []string{name}) {
			t.Errorf("%v, want %s", got, name)
		}
	}
	if _, ok := c.Part("X"); ok {
		t.Error("a SKU that isn't there was found")
	}
}

func TestKitFor(t *testing.T) {
	one := func(n int) KitLine { return KitLine{SKU: "D", Quantity: n} }
	c := mustNew(t, []Part{ram("D"), ram("E")},
		set("DEAR", 900, gate.SourceMains, one(1)),
		set("CHEAP", 700, gate.SourceMains, one(1)),
		set("CHEAP-TOO", 700, gate.SourceMains, one(1)),
		Kit{SKU: "GONE", Price: 100, Power: gate.SourceMains, Lines: []KitLine{one(1)}, Withdrawn: true},
		set("SUN", 500, gate.SourceSolar, one(1)),
		set("PAIR", 600, gate.SourceMains, one(2)),
	)
	for _, test := range []struct {
		drive string
		count int
		power gate.PowerSource
		want  string // SKU, empty for none
	}{
		{"D", 1, gate.SourceMains, "CHEAP"}, // the first by SKU of the cheapest still sold
		{"D", 2, gate.SourceMains, "PAIR"},
		{"D", 1, gate.SourceSolar, "SUN"},
		{"D", 2, gate.SourceSolar, ""},
		{"E", 1, gate.SourceMains, ""},
	} {
		k, ok := c.KitFor(test.drive, test.count, test.power)
		if ok != (test.want != "") || ok && k.SKU != test.want {
			t.Errorf("%d of %s, power %d: %v, want %q", test.count, test.drive, test.power, k, test.want)
		}
	}
	if k, ok := c.Kit("GONE"); !ok || !k.Withdrawn {
		t.Error("a withdrawn kit can still be looked up")
	}
}

func TestEveryProblemComesBackSorted(t *testing.T) {
	bad := ram("Z")
	spec := bad.Spec.(LinearDrive)
	spec.Longest, spec.RodRadius = spec.Shortest, 1
	bad.Spec = spec
	parts := []Part{bad, ram("D"), ram("D"), controllerFor("C", 1)}
	kits := []Kit{set("K", 1, gate.SourceMains, KitLine{"D", 2}, KitLine{"C", 1}, KitLine{"NONE", 1})}
	want := []string{
		"D: the SKU stands twice, as a part and as a part",
		"K: C doesn't go with the kit's D: not for so many drives",
		"K: the kit holds NONE, which the catalog doesn't have",
		"Z: longest_mm must be over shortest_mm",
		"Z: rod_radius_mm must not be over housing_radius_mm",
	}
	for range parts {
		_, err := New(Catalog{}, parts, kits)
		var problems Problems
		if !errors.As(err, &problems) {
			t.Fatalf("error %v, want problems", err)
		}
		if got := strings.Split(problems.Error(), "\n"); !slices.Equal(got, want) {
			t.Errorf("problems\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
		parts = append(parts[1:], parts[0])
	}
}

func TestPartWithoutSpecification(t *testing.T) {
	_, err := New(Catalog{}, []Part{ram("D"), {SKU: "X"}, withdrawn(Part{SKU: "Y"}, "X")}, nil)
	if want := "X: the part has no specification\nY: the part has no specification"; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}

func TestRatingTablesHaveAPoint(t *testing.T) {
	empty := ram("D")
	spec := empty.Spec.(LinearDrive)
	spec.SolidityRating = nil
	empty.Spec = spec
	_, err := New(Catalog{}, []Part{empty}, nil)
	if want := "D: mass_rating and solidity_rating need a point each"; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}

func skus[T Spec](items []Item[T]) []string {
	out := make([]string, len(items))
	for i, item := range items {
		out[i] = item.Part.SKU
	}
	return out
}
