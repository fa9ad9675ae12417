package gate

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/units"
)

// Fault is a field that keeps a description from being answered: it is
// missing, or contradicts another.
type Fault struct {
	Field  string // path from the gate, such as leaves[0].width_mm
	Reason FaultReason
	Text   string
}

// FaultReason is why a field is at fault.
type FaultReason uint8

// The reasons.
const (
	Missing FaultReason = iota + 1
	Contradiction
	Impossible
)

// String is the reason's name in errors.
func (r FaultReason) String() string {
	switch r {
	case Missing:
		return "MISSING"
	case Contradiction:
		return "CONTRADICTION"
	case Impossible:
		return "IMPOSSIBLE"
	}
	return "UNREGISTERED"
}

type faults []Fault

func (f *faults) missing(field, text string) {
	*f = append(*f, Fault{field, Missing, text})
}

func (f *faults) contradicts(field, text string, args ...any) {
	*f = append(*f, Fault{field, Contradiction, fmt.Sprintf(text, args...)})
}

// Check returns every field without which the gate can't be sized and every
// field that contradicts another, in the order of the description.
func (g Gate) Check() []Fault {
	var f faults
	for i := range g.Leaves {
		g.Leaves[i].check(fmt.Sprintf("leaves[%d].", i), &f)
	}
	g.checkPair(&f)
	g.checkGround(&f)
	g.checkObstacles(&f)
	g.checkDriveway(&f)
	g.checkSite(&f)
	g.checkPower(&f)
	return f
}

func (l Leaf) check(at string, f *faults) {
	width, widthKnown := l.Width.Get()
	height, heightKnown := l.Height.Get()
	if !widthKnown {
		f.missing(at+"width_mm", "the leaf's width is needed")
	}
	if !heightKnown {
		f.missing(at+"height_mm", "the leaf's height is needed")
	}
	if !l.Mass.IsKnown() && !l.Construction.IsKnown() {
		f.missing(at+"mass_kg", "the leaf's mass, or its construction to estimate it from, is needed")
	}
	solidity, solidityKnown := l.Solidity.Get()
	if !solidityKnown && l.Infill == InfillUnknown {
		f.missing(at+"solidity", "the leaf's solidity, or its infill, is needed")
	}
	if solidityKnown && l.Infill == InfillSolid && solidity < 0.9 {
		f.contradicts(at+"solidity", "a solid infill leaves no such gaps")
	}
	if c, known := l.CenterOfMass.Get(); known && widthKnown && c >= width {
		f.contradicts(at+"center_of_mass_mm", "the center of mass lies beyond the leaf's width")
	}
	if s, known := l.HingeSpacing.Get(); known && heightKnown && s.Past(height+hingeOverhang) {
		f.contradicts(at+"hinge_spacing_mm", "the hinges are further apart than the leaf is high")
	}
	for i, r := range l.Rails {
		if heightKnown && r > height {
			f.contradicts(fmt.Sprintf("%srail_heights_mm[%d]", at, i), "the rail lies above the leaf")
		}
	}
	if c, known := l.Construction.Get(); known && c.Bar.IsKnown() != (c.BarCount > 0) {
		f.contradicts(at+"construction.bar_count", "bar and bar_count come together")
	}
	if w, known := l.Post.Width.Get(); known {
		if inset, known := l.Post.HingeInset.Get(); known && inset > w {
			f.contradicts(at+"hinge_post.hinge_inset_mm", "the hinge axis lies beyond the post's width")
		}
	}
	if wall, known := l.Post.Wall.Get(); known {
		if w, known := l.Post.Width.Get(); known && 2*wall >= w {
			f.contradicts(at+"hinge_post.wall_mm", "the wall fills the post")
		}
	}
	if l.Hinge == HingeSpring && l.Rest == RestStays {
		f.contradicts(at+"rest", "a spring hinge doesn't let the leaf stay where it is left")
	}
}

// hingeOverhang is how far hinges may stand above and below a leaf together.
// Common practice, no source.
const hingeOverhang units.Length = 0.6

func (g Gate) checkPair(f *faults) {
	c := g.Closing
	if g.Pair() {
		if c.Onto == OntoPost || c.Onto == OntoNothing {
			f.contradicts("closing.closes_onto", "the leaves of a pair close on each other")
		}
		return
	}
	if c.Onto == OntoSecondLeaf {
		f.contradicts("closing.closes_onto", "there is no second leaf to meet")
	}
	if c.Overlapping != OverlapUnknown && c.Overlapping != OverlapNone {
		f.contradicts("closing.overlapping_leaf", "there is no second leaf to lap over")
	}
	if c.Onto == OntoNothing && len(g.Leaves) == 1 && g.Leaves[0].Latch == Yes {
		f.contradicts("leaves[0].latch", "the leaf closes onto nothing that could receive a latch")
	}
	if c.Onto == OntoNothing && c.Gap.IsKnown() {
		f.contradicts("closing.gap_mm", "the leaf closes onto nothing, so there is no gap")
	}
}

// checkGround wants the gap under each leaf where the ground is described: taken
// for zero, level ground would seem to stop the leaf.
func (g Gate) checkGround(f *faults) {
	ground := g.Ground
	if !ground.SlopeAlong.IsKnown() && !ground.SlopeAcross.IsKnown() && len(ground.Spots) == 0 {
		return
	}
	for i, l := range g.Leaves {
		if !l.BottomClearance.IsKnown() {
			f.missing(fmt.Sprintf("leaves[%d].bottom_clearance_mm", i), "where the ground is described, the gap under the closed leaf is needed")
		}
	}
}

func (g Gate) checkObstacles(f *faults) {
	for i, o := range g.Obstacles {
		at := fmt.Sprintf("obstacles[%d]", i)
		switch {
		case len(o.Outline) == 0 && !o.Radius.IsKnown():
			f.missing(at+".outline", "an outline, or a center with a radius, is needed")
		case len(o.Outline) > 0 && o.Radius.IsKnown():
			f.contradicts(at+".radius_mm", "an obstacle is an outline or a disc, not both")
		case len(o.Outline) > 0 && len(o.Outline) < 3:
			f.contradicts(at+".outline", "an outline has at least three corners")
		}
	}
}

func (g Gate) checkDriveway(f *faults) {
	width, known := g.Driveway.Width.Get()
	if !known {
		return
	}
	var leaves units.Length
	for _, l := range g.Leaves {
		leaves += l.Width.Or(0)
	}
	if leaves.Past(width + drivewayOverlap) {
		f.contradicts("driveway.width_mm", "the leaves together are %.0f mm wide and don't fit between", leaves.Millimeters())
	}
	if wanted, known := g.Driveway.ClearWidthWanted.Get(); known && wanted > width {
		f.contradicts("driveway.clear_width_wanted_mm", "more is to stay clear than the driveway is wide")
	}
}

// drivewayOverlap is how far leaves may lap over each other or their posts.
// Common practice, no source.
const drivewayOverlap units.Length = 0.2

func (g Gate) checkSite(f *faults) {
	if g.Site.Gust.IsKnown() && g.Site.MeanWind10m.IsKnown() {
		f.contradicts("site.mean_wind_10m_m_s", "the gust is given already; give one of the two")
	}
	low, lowKnown := g.Site.LowestTemperature.Get()
	high, highKnown := g.Site.HighestTemperature.Get()
	if lowKnown && highKnown && low > high {
		f.contradicts("site.lowest_temperature_c", "the lowest temperature is over the highest")
	}
	gust, gustKnown := g.Site.Gust.Get()
	wind, windKnown := g.Site.OperatingWind.Get()
	if gustKnown && windKnown && wind > gust {
		f.contradicts("site.operating_wind_m_s", "the gate is to move in more wind than the gust it is to hold against")
	}
}

func (g Gate) checkPower(f *faults) {
	if c, known := g.Power.Conductor.Get(); known {
		switch {
		case c.Standard == AWG && c.Area > 0:
			f.contradicts("power.conductor.area_mm2", "an AWG conductor is given by its gauge")
		case c.Standard != AWG && c.Area == 0:
			f.missing("power.conductor.area_mm2", "an IEC 60228 conductor is given by its cross-section")
		}
	}
	if g.Power.OutageCycles.Or(0) > 0 && !g.Power.Outage.IsKnown() {
		f.missing("power.outage_hours", "cycles within an outage need its length")
	}
	if s, known := g.Power.Solar.Get(); known && len(s.Monthly) != 0 && len(s.Monthly) != 12 {
		f.contradicts("power.solar.monthly_kwh_m2_day", "twelve months are needed, January first, or none")
	}
}
