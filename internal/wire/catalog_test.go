package wire

import (
	"bytes"
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func goodCatalog(t testing.TB) []byte {
	t.Helper()
	document, err := os.ReadFile(casefile.Testdata("catalogs/good/hvassby.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return document
}

func mustDecode(t testing.TB, document []byte) *catalog.Catalog {
	t.Helper()
	c, err := DecodeCatalog(document)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// replaced is the document with one text in another's place.
func replaced(t testing.TB, document []byte, was, now string) []byte {
	t.Helper()
	if n := bytes.Count(document, []byte(was)); n != 1 {
		t.Fatalf("%q stands %d times", was, n)
	}
	return bytes.Replace(document, []byte(was), []byte(now), 1)
}

func TestUnitsAreConvertedOnce(t *testing.T) {
	c := mustDecode(t, goodCatalog(t))
	if c.SupplierCode != "hvassby" || c.Currency != "ISK" || c.TaxPercent != 24 {
		t.Errorf("supplier %s, %s, %v %%", c.SupplierCode, c.Currency, c.TaxPercent)
	}
	if c.Policies.WindRule != catalog.WindEN1991 {
		t.Errorf("wind rule %d", c.Policies.WindRule)
	}
	part, _ := c.Part("A-450")
	drive := part.Spec.(catalog.LinearDrive)
	cable, _ := c.Part("CABLE-6")
	controller, _ := c.Part("A-CTL")
	for _, v := range []struct {
		name      string
		got, want float64
	}{
		{"shortest, m", float64(drive.Shortest), 0.84},
		{"longest, m", float64(drive.Longest), 1.29},
		{"speed, m/s", float64(drive.Load[0].Speed), 0.016},
		{"ramp, m/s2", float64(drive.RodAcceleration), 0.008},
		{"rated width, m", float64(drive.MassRating[1].Width), 4},
		{"standby, A", float64(controller.Spec.(catalog.Controller).Standby), 0.055},
		{"conductor, m2", float64(cable.Spec.(catalog.Cable).Conductor.Area), 6e-6},
		{"cable step, m", float64(cable.Spec.(catalog.Cable).Step), 25},
		{"out of plumb, rad", float64(c.Policies.MostOutOfPlumb), math.Pi / 360},
		{"out of level, m/m", c.Policies.MostOutOfLevel, 0.008},
		{"drop, share", c.Policies.MostSupplyDrop, 0.08},
		{"slack, share", c.Policies.CableSlack, 0.1},
	} {
		if math.Abs(v.got-v.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", v.name, v.got, v.want)
		}
	}
	if got := cable.Spec.(catalog.Cable).Conductor.Standard; got != gate.IEC60228Class2 {
		t.Errorf("conductor standard %d", got)
	}
}

func TestWhatIsNotStatedStaysUnknown(t *testing.T) {
	part, _ := mustDecode(t, goodCatalog(t)).Part("A-450")
	d := part.Spec.(catalog.LinearDrive)
	if v, ok := d.HoldingAgainstExtension.Get(); !ok || v != 7000 {
		t.Errorf("holding against extension %v, %v", v, ok)
	}
	if d.HoldingAgainstRetraction.IsKnown() || d.RearSweep.IsKnown() || d.HighestTemperature.IsKnown() {
		t.Error("something that isn't stated is known")
	}
	if v, ok := d.LowestTemperature.Get(); !ok || v != units.Temperature(-30) {
		t.Errorf("lowest temperature %v, %v", v, ok)
	}
}

// The first wanted revision is this engine's own: it stands here so that a
// library's new version can't rename every catalog unnoticed.
func TestRevision(t *testing.T) {
	document := goodCatalog(t)
	revision := mustDecode(t, document).Revision
	if revision != "e714d61fb555d16b" {
		t.Errorf("revision %s", revision)
	}
	remote := "  - sku: A-RM\n    name: Remote\n    price_minor: 1\n    remote: {channels: 2}\n"
	first := replaced(t, document, "parts:\n", "parts:\n"+remote)
	last := replaced(t, document, "kits:\n", remote+"kits:\n")
	if a, b := mustDecode(t, first).Revision, mustDecode(t, last).Revision; a != b || a == revision {
		t.Errorf("a part more: revision %s where it comes first, %s where it comes last, %s without", a, b, revision)
	}
	for _, test := range []struct {
		name, old, new string
		same           bool
	}{
		{"a comment", "kits:\n", "kits: # sets\n\n", true},
		{"another spelling", "tax_percent: 24", "taxPercent: 24.0", true},
		{"a line more", "power_supply: {output_v: 24, continuous_a: 10, peak_a: 15}", "power_supply:\n      output_v: 24\n      peak_a: 15\n      continuous_a: 10", true},
		{"a price", "price_minor: 98000", "price_minor: 98001", false},
		{"a name", "name: Controller, 24 V", "name: Controller 24 V", false},
		{"a policy", "least_margin: 1.4", "least_margin: 1.41", false},
		{"a figure no longer stated", "      holding_against_extension_n: 7000\n", "", false},
		{"a figure stated as zero", "      lowest_temperature_c: -30\n", "      lowest_temperature_c: 0\n", false},
	} {
		got := mustDecode(t, replaced(t, document, test.old, test.new)).Revision
		if (got == revision) != test.same {
			t.Errorf("%s: revision %s, was %s", test.name, got, revision)
		}
	}
	if got := mustDecode(t, bytes.ReplaceAll(document, []byte("\n"), []byte("\r\n"))).Revision; got != revision {
		t.Errorf("with carriage returns: revision %s, was %s", got, revision)
	}
}

// A policy that comes back as another number, or under another's name, would
// mislead whoever reads the catalog.
func TestPoliciesComeBackAsTheyWentIn(t *testing.T) {
	for _, document := range [][]byte{goodCatalog(t), demo.Catalog()} {
		m := &pb.CatalogDocument{}
		if err := UnmarshalYAML(document, "", m); err != nil {
			t.Fatal(err)
		}
		c := mustDecode(t, document)
		got := PoliciesProto(c.Policies).ProtoReflect()
		want := m.GetPolicies().ProtoReflect()
		fields := want.Descriptor().Fields()
		for i := range fields.Len() {
			f := fields.Get(i)
			if !got.Has(f) || !equalValues(f, got.Get(f), want.Get(f)) {
				t.Errorf("%s: %s is %v, was %v", c.SupplierCode, f.Name(), got.Get(f), want.Get(f))
			}
		}
	}
}

func equalValues(f protoreflect.FieldDescriptor, a, b protoreflect.Value) bool {
	if f.Kind() == protoreflect.DoubleKind {
		return math.Abs(a.Float()-b.Float()) <= 1e-9*math.Abs(b.Float())
	}
	return a.Equal(b)
}

func TestDocumentsAreBounded(t *testing.T) {
	for _, test := range []struct{ name, document, want string }{
		{"bytes", strings.Repeat("#\n", largestDocument/2+1), "2097154 bytes are more than the 2097152 a document may have"},
		{"line", "# " + strings.Repeat("x", longestLine), "line 1 has 65538 bytes, more than the 65536 a line may have"},
		{"values", "parts:\n" + strings.Repeat("  - {}\n", mostNodes), "the document has more than the 120000 keys and values one may have"},
		{"lists in lists", strings.Repeat("[\n", 20000), "exceeded max depth of 10000"},
		{"mappings in mappings", strings.Repeat("{a: \n", 20000), "exceeded max depth of 10000"},
		{"aliases", "a: &a [x, x]\nb: &b [*a, *a]\nsupplier_code: &c [*b, *b]\n", "anchors and aliases aren't read; write the value out"},
		{"bytes that are no text", "supplier_name: \xff\n", "the document is not valid UTF-8"},
		{"UTF-16", "\xff\xfea\x00:\x00", "the document is not valid UTF-8"},
		{"line separator", "supplier_name: a\u2028b\n", "line 1 has a line break other than a line feed"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := DecodeCatalog([]byte(test.document))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %.200v, want %s", err, test.want)
			}
		})
	}
}

func TestAnErrorTellsSoMuchAndNoMore(t *testing.T) {
	for name, document := range map[string]string{
		"unknown keys": strings.Repeat("x: 1\n", 5000),
		"one line":     "{" + strings.Repeat("x: 1, ", 5000) + "}",
		"null parts":   "parts:\n" + strings.Repeat("  -\n", 5000),
		"empty parts":  "parts:\n" + strings.Repeat("  - {}\n", 5000),
	} {
		_, err := DecodeCatalog([]byte(document))
		var wrong *DocumentError
		if !errors.As(err, &wrong) {
			t.Fatalf("%s: error %.200v", name, err)
		}
		if n := len(wrong.Problems); n != mostProblems+1 || wrong.Problems[n-1].Text != "further problems are not listed" {
			t.Errorf("%s: %d problems, the last %q", name, n, wrong.Problems[n-1].Text)
		}
	}
}

func TestAFileIsNamed(t *testing.T) {
	err := UnmarshalYAML([]byte("gate: {}\nwhat: 1\n"), "gates/x.yaml", &pb.SizeGateRequest{})
	if err == nil || !strings.HasPrefix(err.Error(), "gates/x.yaml:") {
		t.Errorf("error %v doesn't name the file", err)
	}
	err = UnmarshalYAML(nil, "gates/x.yaml", &pb.SizeGateRequest{})
	if want := "gates/x.yaml: the document is empty"; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}

func TestJSONIsReadToo(t *testing.T) {
	m := &pb.SizeGateRequest{}
	if err := UnmarshalYAML([]byte(`{"gate": {"leaves": [{"widthMm": 3000, "height_mm": 1200}], "opening": {"direction": "OPENING_DIRECTION_INWARD"}, "wishes": {"budgetMinor": "250000"}}}`), "", m); err != nil {
		t.Fatal(err)
	}
	if w, b := m.GetGate().GetLeaves()[0].GetWidthMm(), m.GetGate().GetWishes().GetBudgetMinor(); w != 3000 || b != 250000 {
		t.Errorf("width %v, budget %v", w, b)
	}
}
