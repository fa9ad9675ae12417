package leaf

import (
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func sectionOf(t *testing.T, c casefile.Case) gate.Section {
	t.Helper()
	s := gate.Section{
		Round: c.Option == "round" || c.In["round"] == 1,
		Width: units.Millimeters(c.Value(t, "width_mm")),
		Wall:  units.Millimeters(c.Value(t, "wall_mm")),
	}
	s.Depth = s.Width
	if depth, given := c.In["depth_mm"]; given {
		s.Depth = units.Millimeters(depth)
	}
	return s
}

func TestHollowSectionTable(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "leaf_sections.json"), "hollow-section") {
		p, err := Properties(gate.Steel, sectionOf(t, c))
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		c.Check(t, "area_cm2", float64(p.Area)*1e4)
		c.Check(t, "second_moment_cm4", p.AlongDepth.SecondMoment*1e8)
		c.Check(t, "modulus_cm3", p.AlongDepth.Modulus*1e6)
		if _, given := c.Want["weak_cm4"]; given {
			c.Check(t, "weak_cm4", p.AlongWidth.SecondMoment*1e8)
		}
	}
}

func TestSectionsByStrips(t *testing.T) {
	for _, c := range computed(t, "section") {
		material := materialOf[c.Option]
		p, err := Properties(material, sectionOf(t, c))
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		d, err := densityOf(material)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "area_mm2", p.Area.SquareMillimeters())
		c.Check(t, "second_moment_mm4", p.AlongDepth.SecondMoment*1e12)
		c.Check(t, "kg_m", float64(p.Area)*float64(d.nominal))
	}
}

func TestSheetAndMesh(t *testing.T) {
	for _, c := range computed(t, "sheet") {
		d, err := densityOf(materialOf[c.Option])
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "areal_kg_m2", float64(d.nominal)*c.Value(t, "thickness_mm")/1000)
	}
	for _, c := range append(published(t, "welded-mesh"), computed(t, "welded-mesh")...) {
		p, err := Properties(gate.Steel, gate.Section{Round: true, Width: units.Millimeters(c.Value(t, "wire_mm"))})
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "areal_kg_m2", 2*float64(p.Area)*7850/(c.Value(t, "pitch_mm")/1000))
	}
}
