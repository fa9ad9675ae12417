package leaf

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

var materialOf = map[string]gate.Material{
	"steel": gate.Steel, "aluminum": gate.Aluminum, "softwood": gate.Softwood, "hardwood": gate.Hardwood,
}

func published(t *testing.T, model string) []casefile.Case {
	t.Helper()
	return casefile.ByModel(t, casefile.Load(t, "leaf.json"), model)
}

func computed(t *testing.T, model string) []casefile.Case {
	t.Helper()
	return casefile.ByModel(t, casefile.Load(t, "leaf_computed.json"), model)
}

func weighed(t *testing.T, c casefile.Case, width string) Body {
	t.Helper()
	var center units.Opt[units.Length]
	if x, given := c.In["center_m"]; given {
		center = units.Known(units.Length(x))
	}
	b, err := Weighed(units.Mass(c.Value(t, "mass_kg")), units.Length(c.Value(t, width)), center)
	if err != nil {
		t.Fatalf("%s: %v", c.ID, err)
	}
	return b
}

func inertia(t *testing.T, b Body, thickness, offset float64) float64 {
	t.Helper()
	i, err := b.Inertia(units.Length(thickness), units.Length(offset))
	if err != nil {
		t.Fatal(err)
	}
	return float64(i)
}

func TestInertia(t *testing.T) {
	for _, c := range computed(t, "plate") {
		c.Check(t, "inertia_kg_m2", inertia(t, weighed(t, c, "length_m"), c.Value(t, "thickness_m"), c.Value(t, "offset_m")))
	}
	for _, c := range computed(t, "spread") {
		c.Check(t, "inertia_kg_m2", inertia(t, weighed(t, c, "length_m"), 0, 0))
	}
	for _, c := range published(t, "rod-and-sphere") {
		rod, err := Weighed(units.Mass(c.Value(t, "rod_kg")), units.Length(c.Value(t, "rod_m")), units.Opt[units.Length]{})
		if err != nil {
			t.Fatal(err)
		}
		// The sphere is a point at its center with an inertia of its own.
		m, r, d := c.Value(t, "sphere_kg"), c.Value(t, "sphere_radius_m"), c.Value(t, "sphere_center_m")
		c.Check(t, "inertia_kg_m2", inertia(t, rod, 0, 0)+0.4*m*r*r+m*d*d)
	}
	for _, c := range published(t, "pinned-rod") {
		b := weighed(t, c, "length_m")
		turning := c.Value(t, "couple_n_m") + float64(b.Mass.High)*units.Gravity*float64(b.Center)
		c.Check(t, "acceleration_rad_s2", turning/inertia(t, b, 0, 0))
	}
}

// barredLeaf is the leaf of case M-23.
func barredLeaf() gate.Construction {
	square := func(mm, wall float64) gate.Section {
		return gate.Section{Width: units.Millimeters(mm), Depth: units.Millimeters(mm), Wall: units.Millimeters(wall)}
	}
	return gate.Construction{
		Material: gate.Steel, Stile: square(50, 3), Rail: square(50, 3), RailCount: 3,
		Bar: units.Known(square(25, 1.6)), BarCount: 28, Hardware: units.Known(units.Mass(0)),
	}
}

func TestEstimate(t *testing.T) {
	for _, c := range computed(t, "barred-leaf") {
		w, h := units.Length(c.Value(t, "width_m")), units.Length(c.Value(t, "height_m"))
		b, err := Estimate(barredLeaf(), w, h, units.Opt[units.Length]{})
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "rails_kg", float64(b.Parts.Rails))
		c.Check(t, "stiles_kg", float64(b.Parts.Stiles))
		c.Check(t, "bars_kg", float64(b.Parts.Bars))
		c.Check(t, "mass_kg", float64(b.Mass.Nominal))
		c.Check(t, "center_m", float64(b.Center))
		k := float64(b.Gyration)
		c.Check(t, "inertia_kg_m2", float64(b.Mass.Nominal)*k*k)
		c.Check(t, "inertia_over_ml2", k*k/float64(w*w))
		solidity, ok := ProjectedSolidity(barredLeaf(), w, h)
		if !ok {
			t.Fatal("the solidity of a barred leaf can be told")
		}
		c.Check(t, "solidity", solidity)
	}
	for _, c := range computed(t, "sheeted-leaf") {
		frame := gate.Section{Width: 0.040, Depth: 0.040, Wall: 0.002}
		b, err := Estimate(gate.Construction{
			Material: gate.Aluminum, Stile: frame, Rail: frame, RailCount: 2,
			Infill:   units.Known(units.ArealMass(c.Value(t, "infill_kg_m2"))),
			Hardware: units.Known(units.Mass(c.Value(t, "hardware_kg"))),
		}, units.Length(c.Value(t, "width_m")), units.Length(c.Value(t, "height_m")), units.Opt[units.Length]{})
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "low_kg", float64(b.Mass.Low))
		c.Check(t, "mass_kg", float64(b.Mass.Nominal))
		c.Check(t, "high_kg", float64(b.Mass.High))
	}
}

func TestHingeReactions(t *testing.T) {
	for _, c := range append(published(t, "hinge-reactions"), computed(t, "hinge-reactions")...) {
		r := Reactions(units.Mass(c.Value(t, "mass_kg")), units.Length(c.Value(t, "center_m")), units.Length(c.Value(t, "spacing_m")))
		c.Check(t, "horizontal_n", float64(r.Horizontal))
		c.Check(t, "vertical_each_n", float64(r.Vertical)/2)
	}
}

func TestHingeFriction(t *testing.T) {
	for _, c := range computed(t, "hinge-friction") {
		h := Hinge{
			Spacing:     units.Length(c.Value(t, "spacing_m")),
			PinRadius:   units.Length(c.Value(t, "pin_m")),
			ThrustInner: units.Length(c.Value(t, "inner_m")),
			ThrustOuter: units.Length(c.Value(t, "outer_m")),
			Friction:    c.Value(t, "friction"),
		}
		c.Check(t, "moment_n_m", float64(h.FrictionMoment(units.Mass(c.Value(t, "mass_kg")), units.Length(c.Value(t, "center_m")))))
	}
	for _, c := range published(t, "pivot") {
		// A pivot carries its load on the ring alone; a cone presses harder by
		// one over the sine of its half angle.
		ring := thrustRadius(c.Value(t, "inner_m"), c.Value(t, "outer_m"))
		torque := c.Value(t, "friction") * c.Value(t, "load_n") * ring / math.Sin(c.Value(t, "cone_half_angle_deg")*math.Pi/180)
		if _, given := c.Want["torque_n_m"]; given {
			c.Check(t, "torque_n_m", torque)
		}
		if _, given := c.Want["power_w"]; given {
			c.Check(t, "power_w", torque*c.Value(t, "speed_rpm")*math.Pi/30)
		}
	}
}

func TestHandForce(t *testing.T) {
	for _, c := range published(t, "hand-force") {
		b, err := Weighed(50, units.Length(c.Value(t, "arm_m")), units.Opt[units.Length]{})
		if err != nil {
			t.Fatal(err)
		}
		r, err := NewResistance(Facts{
			Body: b, Hinge: DefaultHinge(1, gate.HingesGood),
			HandOpening: units.Known(units.Force(c.Value(t, "force_n"))),
		})
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "moment_n_m", float64(r.Moment(Opening, 0.5)))
	}
}

func TestLean(t *testing.T) {
	for _, c := range computed(t, "lean") {
		x := units.Length(c.Value(t, "center_m"))
		b, err := Weighed(units.Mass(c.Value(t, "mass_kg")), 2*x, units.Known(x))
		if err != nil {
			t.Fatal(err)
		}
		lean := b.leaning(Lean{Angle: units.Degrees(c.Value(t, "lean_deg")), Direction: units.Known(units.Angle(0))})
		theta := c.Value(t, "angle_deg") * math.Pi / 180
		c.Check(t, "moment_n_m", lean.moment(Opening, theta))
		// The work against the lean lifts the center of mass.
		const steps = 2000
		work := 0.0
		for i := range steps {
			work += lean.moment(Opening, theta*(float64(i)+0.5)/steps) * theta / steps
		}
		c.Check(t, "rise_mm", 1000*work/(float64(b.Mass.High)*units.Gravity))
	}
}

func TestResistance(t *testing.T) {
	for _, c := range computed(t, "resistance") {
		b := weighed(t, c, "width_m")
		hinge := DefaultHinge(units.Length(c.Value(t, "spacing_m")), gate.HingesGood)
		r, err := NewResistance(Facts{Body: b, Hinge: hinge, Lean: Lean{
			Angle:     units.Degrees(c.Value(t, "lean_deg")),
			Direction: units.Known(units.Degrees(c.Value(t, "lean_direction_deg"))),
		}})
		if err != nil {
			t.Fatal(err)
		}
		dst := make([]float64, 5)
		for motion, name := range map[Motion]string{Opening: "opening", Closing: "closing"} {
			r.Fill(dst, motion, units.Degrees(c.Value(t, "open_deg")), units.Torque(c.Value(t, "wind_n_m")))
			for i, got := range dst {
				c.Check(t, name+"_"+string(rune('0'+i))+"_n_m", got)
			}
		}
	}
}
