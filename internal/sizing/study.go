package sizing

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/units"
	"leafmoment.example/leafmoment/internal/wind"
)

// study is a gate worked up as far as no drive matters, for one request.
type study struct {
	catalog  *catalog.Catalog
	gate     gate.Gate
	side     linkage.Side
	open     units.Angle
	leaves   []leafStudy
	findings []finding.Finding
	assumed  []Assumption
	brackets map[bracketKey]brackets

	jamb       units.Length // the opening's edge from the hinge axis
	peakCycles float64      // in the busiest hour
}

// leafStudy is one leaf worked up.
type leafStudy struct {
	index         int
	described     gate.Leaf
	width, height units.Length
	thickness     units.Length
	offset        units.Length
	body          leaf.Body
	inertia       units.Inertia
	resistance    leaf.Resistance
	hinge         leaf.Hinge
	solidity      float64
	loading       wind.Loading
	wind          units.Speed // operating
	gust          units.Speed
	windMoment    units.Torque
	density       units.Density // of the wind rule's air
	seat          seat

	stillOpening, stillClosing []units.Torque

	byStop demand // swing to the wanted angle
	byRam  demand // swing beyond it, for a drive whose own end sets the open position
}

// demand is a swing with the moments that resist it at each of its angles.
type demand struct {
	swing            linkage.Swing
	opening, closing []float64 // N m
}

// samples is the number of leaf angles a mounting is judged at. Between them
// the moments and the arm are smooth; at 5 degrees apart the least margin moves
// by under 0.1 %.
const samples = 19

// BadGateError lists the fields that keep a gate from being sized.
type BadGateError struct{ Faults []gate.Fault }

func (e *BadGateError) Error() string {
	return fmt.Sprintf("%d fields of the gate are missing, impossible or contradict each other", len(e.Faults))
}

// newStudy works a gate up. It returns a BadGateError where fields are missing
// or contradict each other.
func newStudy(c *catalog.Catalog, g gate.Gate) (*study, error) {
	if faults := g.Check(); len(faults) > 0 {
		return nil, &BadGateError{faults}
	}
	s := &study{catalog: c, gate: g, side: linkage.Push, brackets: map[bracketKey]brackets{}}
	if g.Opening.PullMounting() {
		s.side = linkage.Pull
	}
	s.open = assume(s, "gate.opening.angle_deg", g.Opening.Angle, rightAngle, degrees, "the usual opening")
	if g.Opening.DriveSide == gate.DriveSideUnknown {
		s.assumeText("gate.opening.drive_side", "DRIVE_SIDE_INSIDE", "the usual side")
	}
	if g.Power.Source == gate.SourceUnknown {
		s.assumeText("gate.power.source", "POWER_SOURCE_MAINS", "the usual source")
	}
	s.peakCycles = assume(s, "gate.use.cycles_per_peak_hour", g.Use.CyclesPerPeakHour, c.Policies.CyclesPerPeakHour, perHour, "the supplier's policy")
	if s.side == linkage.Push || g.Driveway.ClearWidthWanted.IsKnown() {
		s.jamb = assume(s, "gate.driveway.jamb_offset_mm", g.Driveway.JambOffset, 0, millimeters, "the opening's edge at the hinge axis")
	}
	var faults []gate.Fault
	for i, described := range g.Leaves {
		l, problems := s.newLeaf(i, described)
		faults = append(faults, problems...)
		s.leaves = append(s.leaves, l)
	}
	faults = append(faults, s.checkRoom()...)
	if len(faults) > 0 {
		return nil, &BadGateError{faults}
	}
	return s, nil
}

const rightAngle = units.Angle(math.Pi / 2)

func (s *study) newLeaf(i int, d gate.Leaf) (leafStudy, []gate.Fault) {
	p := s.catalog.Policies
	at := fmt.Sprintf("gate.leaves[%d].", i)
	l := leafStudy{index: i, described: d, width: d.Width.Or(0), height: d.Height.Or(0)}
	l.thickness = assume(s, at+"thickness_mm", d.Thickness, p.LeafThickness, millimeters, "the supplier's usual leaf")
	l.offset = assume(s, at+"axis_offset_mm", d.AxisOffset, 0, millimeters, "hinges in the leaf's center plane")
	impossible := func(field string, err error) []gate.Fault {
		return []gate.Fault{{Field: fmt.Sprintf("leaves[%d].%s", i, field), Reason: gate.Impossible, Text: err.Error()}}
	}
	var err error
	if m, known := d.Mass.Get(); known {
		l.body, err = leaf.Weighed(m, l.width, d.CenterOfMass)
	} else {
		l.body, err = leaf.Estimate(d.Construction.Or(gate.Construction{}), l.width, l.height, d.CenterOfMass)
	}
	if err != nil {
		return l, impossible("construction", err)
	}
	if l.inertia, err = l.body.Inertia(l.thickness, l.offset); err != nil {
		return l, impossible("thickness_mm", err)
	}
	spacing := assume(s, at+"hinge_spacing_mm", d.HingeSpacing, l.height*units.Length(p.HingeSpacingShare), millimeters, "the supplier's usual share of the height")
	l.hinge = leaf.DefaultHinge(spacing, d.HingeCondition)
	l.resistance, err = leaf.NewResistance(leaf.Facts{
		Body: l.body, Hinge: l.hinge,
		Lean:        leaf.Lean{Angle: d.OutOfPlumb.Or(0), Direction: d.LeanDirection},
		HandOpening: d.HandOpening, HandClosing: d.HandClosing,
	})
	if err != nil {
		return l, impossible("hinge_spacing_mm", err)
	}
	l.solidity = s.assumeSolidity(at, d)
	if err := s.addWind(&l, at); err != nil {
		return l, impossible("height_mm", err)
	}
	l.seat = s.seatOf(i, d.Post)
	l.byStop = l.demandTo(s.open)
	l.byRam = l.demandTo(s.open + p.MostOverOpen)
	l.stillOpening = l.stillMoments(leaf.Opening, s.open)
	l.stillClosing = l.stillMoments(leaf.Closing, s.open)
	return l, nil
}

// widestSwing is the largest angle the linkage is worked out to.
const widestSwing = units.Angle(175 * math.Pi / 180)

// demandTo samples what resists the leaf on its way to an angle.
func (l *leafStudy) demandTo(end units.Angle) demand {
	end = min(end, widestSwing)
	buffer := make([]float64, 2*samples)
	d := demand{swing: linkage.NewSwing(end, samples), opening: buffer[:samples], closing: buffer[samples:]}
	l.resistance.Fill(d.opening, leaf.Opening, end, l.windMoment)
	l.resistance.Fill(d.closing, leaf.Closing, end, l.windMoment)
	return d
}

func (s *study) assumeSolidity(at string, d gate.Leaf) float64 {
	if v, known := d.Solidity.Get(); known {
		return v
	}
	v := leaf.AssumedSolidity(d.Infill)
	s.assumeText(at+"solidity", fmt.Sprintf("%.2f", v), "the closed end of what is sold under that infill")
	return v
}

// addWind works out the leaf's winds and their hold on it.
func (s *study) addWind(l *leafStudy, at string) error {
	p, site := s.catalog.Policies, s.gate.Site
	clearance := l.described.BottomClearance.Or(usualClearance)
	if !l.described.BottomClearance.IsKnown() {
		s.assumeText(at+"bottom_clearance_mm", fmt.Sprintf("%.0f mm", usualClearance.Millimeters()), "the usual gap under a leaf; it only sets the height of the wind")
	}
	rule := windRule(p.WindRule)
	l.density = rule.AirDensity()
	var err error
	l.loading, err = wind.HingeMoment(rule, wind.Panel{
		Length: l.width, Height: l.height, Top: clearance + l.height, Solidity: l.solidity,
	})
	if err != nil {
		return err
	}
	first := l.index == 0
	l.wind = site.OperatingWind.Or(p.OperatingWind)
	if !site.OperatingWind.IsKnown() && first {
		s.assumeText("gate.site.operating_wind_m_s", fmt.Sprintf("%.1f m/s", float64(p.OperatingWind)), "the supplier's policy")
	}
	switch mean, known := site.MeanWind10m.Get(); {
	case site.Gust.IsKnown():
		l.gust = site.Gust.Or(0)
	case known:
		gust, err := wind.GustFromMean(mean, terrainCategory(site.Terrain), clearance+l.height/2)
		if err != nil {
			return err
		}
		l.gust = gust.Speed
		if first {
			s.assumeText("gate.site.gust_m_s", fmt.Sprintf("%.1f m/s", float64(gust.Speed)), "converted from the ten-minute mean: "+wind.GustClause)
		}
	default:
		l.gust = p.Gust
		if first {
			s.assumeText("gate.site.gust_m_s", fmt.Sprintf("%.1f m/s", float64(p.Gust)), "the supplier's policy")
		}
	}
	if l.loading.Defined {
		l.windMoment = l.loading.Moment(wind.DynamicPressure(rule.AirDensity(), l.wind))
	}
	return nil
}

// usualClearance is the gap under a leaf where none is given. Common practice,
// no source.
const usualClearance units.Length = 0.05

func windRule(r catalog.WindRule) wind.Rule {
	switch r {
	case catalog.WindEN1991:
		return wind.EN1991Table79
	case catalog.WindASCE7:
		return wind.ASCE7Figure29
	}
	return wind.ASNZS1170AppendixB
}

// terrainCategory is the category of a terrain; an unknown one is open country,
// which the ten-minute mean is measured over.
func terrainCategory(t gate.Terrain) wind.Category {
	switch t {
	case gate.TerrainSea:
		return wind.Category0
	case gate.TerrainFlat:
		return wind.CategoryI
	case gate.TerrainSuburb:
		return wind.CategoryIII
	case gate.TerrainTown:
		return wind.CategoryIV
	}
	return wind.CategoryII
}

func assume[T ~float64](s *study, field string, given units.Opt[T], taken T, format func(T) string, reason string) T {
	if v, known := given.Get(); known {
		return v
	}
	s.assumeText(field, format(taken), reason)
	return taken
}

func (s *study) assumeText(field, value, reason string) {
	s.assumed = append(s.assumed, Assumption{field, value, reason})
}

func millimeters(l units.Length) string { return fmt.Sprintf("%.0f mm", l.Millimeters()) }
func degrees(a units.Angle) string      { return fmt.Sprintf("%.0f deg", a.Degrees()) }
func perHour(n float64) string          { return fmt.Sprintf("%g an hour", n) }
