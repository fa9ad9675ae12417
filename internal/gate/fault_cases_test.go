package gate

import "leafmoment.example/leafmoment/internal/units"

// faultCases spoil a good gate in one way each.
var faultCases = []struct {
	name   string
	pair   bool // the second leaf is a plain one
	spoil  func(*Gate)
	field  string
	reason FaultReason
}{
	{"", false, func(g *Gate) {
		l := &g.Leaves[0]
		l.Width, g.Driveway = units.Opt[units.Length]{}, Driveway{}
	}, "leaves[0].width_mm", Missing},
	{"", true, func(g *Gate) { g.Leaves[1].Height = units.Opt[units.Length]{} }, "leaves[1].height_mm", Missing},
	{"", true, func(g *Gate) { g.Leaves[1].Mass = units.Opt[units.Mass]{} }, "leaves[1].mass_kg", Missing},
	{"", true, func(g *Gate) { g.Leaves[1].Solidity = units.Opt[float64]{} }, "leaves[1].solidity", Missing},
	{"under a solid infill", false, func(g *Gate) { g.Leaves[0].Solidity = units.Known(0.89) }, "leaves[0].solidity", Contradiction},
	{"at the width", false, func(g *Gate) { g.Leaves[0].CenterOfMass = mm(3000) }, "leaves[0].center_of_mass_mm", Contradiction},
	{"", false, func(g *Gate) { g.Leaves[0].HingeSpacing = mm(1801) }, "leaves[0].hinge_spacing_mm", Contradiction},
	{"", false, func(g *Gate) { g.Leaves[0].Rails[1] = 1.201 }, "leaves[0].rail_heights_mm[1]", Contradiction},
	{"bar without count", false, changeBuilt(func(c *Construction) { c.BarCount = 0 }), "leaves[0].construction.bar_count", Contradiction},
	{"count without bar", false, changeBuilt(func(c *Construction) { c.Bar = units.Opt[Section]{} }), "leaves[0].construction.bar_count", Contradiction},
	{"", false, func(g *Gate) { g.Leaves[0].Post.HingeInset = mm(101) }, "leaves[0].hinge_post.hinge_inset_mm", Contradiction},
	{"half the width", false, func(g *Gate) { g.Leaves[0].Post.Wall = mm(50) }, "leaves[0].hinge_post.wall_mm", Contradiction},
	{"under a spring", false, func(g *Gate) { g.Leaves[0].Hinge = HingeSpring }, "leaves[0].rest", Contradiction},

	{"pair onto a post", true, func(g *Gate) { g.Closing.Onto = OntoPost }, "closing.closes_onto", Contradiction},
	{"pair onto nothing", true, func(g *Gate) { g.Closing.Onto = OntoNothing }, "closing.closes_onto", Contradiction},
	{"one leaf", false, func(g *Gate) { g.Closing.Onto = OntoSecondLeaf }, "closing.closes_onto", Contradiction},
	{"first of one", false, func(g *Gate) { g.Closing.Overlapping = OverlapFirst }, "closing.overlapping_leaf", Contradiction},
	{"second of one", false, func(g *Gate) { g.Closing.Overlapping = OverlapSecond }, "closing.overlapping_leaf", Contradiction},
	{"onto nothing", false, func(g *Gate) { g.Closing = Closing{Onto: OntoNothing} }, "leaves[0].latch", Contradiction},
	{"onto nothing", false, func(g *Gate) { g.Closing.Onto, g.Leaves[0].Latch = OntoNothing, No }, "closing.gap_mm", Contradiction},

	{"under described ground", true, func(g *Gate) {
		g.Ground.SlopeAcross = units.Known(0.0)
		g.Leaves[0].BottomClearance, g.Leaves[1].BottomClearance = mm(50), units.Opt[units.Length]{}
	}, "leaves[1].bottom_clearance_mm", Missing},
	{"", false, func(g *Gate) { g.Obstacles[0].Radius = units.Opt[units.Length]{} }, "obstacles[0].outline", Missing},
	{"disc and outline", false, func(g *Gate) { g.Obstacles[1].Radius = mm(300) }, "obstacles[1].radius_mm", Contradiction},
	{"two corners", false, func(g *Gate) { g.Obstacles[1].Outline = g.Obstacles[1].Outline[:2] }, "obstacles[1].outline", Contradiction},

	{"", false, func(g *Gate) { g.Driveway.Width, g.Driveway.ClearWidthWanted = mm(2799), mm(2799) }, "driveway.width_mm", Contradiction},
	{"", false, func(g *Gate) { g.Driveway.ClearWidthWanted = mm(2801) }, "driveway.clear_width_wanted_mm", Contradiction},

	{"beside the gust", false, func(g *Gate) { g.Site.MeanWind10m = units.Known(units.Speed(20)) }, "site.mean_wind_10m_m_s", Contradiction},
	{"", false, func(g *Gate) { g.Site.LowestTemperature = units.Known(units.Temperature(10.1)) }, "site.lowest_temperature_c", Contradiction},
	{"", false, func(g *Gate) { g.Site.OperatingWind = units.Known(units.Speed(30.1)) }, "site.operating_wind_m_s", Contradiction},

	{"of AWG", true, func(g *Gate) {
		g.Power.Conductor = units.Known(Conductor{Standard: AWG, Gauge: 12, Area: units.SquareMillimeters(4)})
	}, "power.conductor.area_mm2", Contradiction},
	{"of IEC", false, func(g *Gate) { g.Power.Conductor = units.Known(Conductor{Standard: IEC60228Class2}) }, "power.conductor.area_mm2", Missing},
	{"cycles", false, func(g *Gate) { g.Power.Outage = units.Opt[units.Time]{} }, "power.outage_hours", Missing},
	{"eleven", false, func(g *Gate) { g.Power.Solar = units.Known(SolarSite{Monthly: make([]units.Energy, 11)}) }, "power.solar.monthly_kwh_m2_day", Contradiction},
	{"one", false, func(g *Gate) { g.Power.Solar = units.Known(SolarSite{Monthly: make([]units.Energy, 1)}) }, "power.solar.monthly_kwh_m2_day", Contradiction},
}

// changeBuilt spoils the first leaf's construction.
func changeBuilt(change func(*Construction)) func(*Gate) {
	return func(g *Gate) {
		c, _ := g.Leaves[0].Construction.Get()
		change(&c)
		g.Leaves[0].Construction = units.Known(c)
	}
}
