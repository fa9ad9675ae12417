package leaf

import (
	"errors"
	"fmt"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Body is a leaf's mass and where it sits.
type Body struct {
	Mass     Mass
	Width    units.Length // hinge axis to free edge
	Center   units.Length // center of mass from the hinge axis
	Gyration units.Length // radius of gyration about the hinge axis, of a leaf without thickness
	Parts    Parts        // zero where the mass was given
}

// Mass is a mass between its bounds; a known one has Low = Nominal = High.
type Mass struct{ Low, Nominal, High units.Mass }

// Estimated reports whether the mass is known only between bounds.
func (m Mass) Estimated() bool { return m.Low < m.High }

// Parts is what an estimated mass is made up from, nominal.
type Parts struct{ Stiles, Rails, Bars, Infill, Hardware units.Mass }

// BuildTolerance is how far a leaf of known sections may be lighter or heavier
// than they add up to, as a share: rolling tolerance, welds, caps, coating, a
// section read off by tape. Common practice, no source; for the section's own
// part, EN 10219-2 allows 6 % on a length's mass (from memory).
const BuildTolerance = 0.10

// Hardware reckoned where it isn't given: hinges, latch plates, the plates the
// drive's bracket needs. Common practice, no source.
const (
	HardwareLow     units.Mass = 2
	HardwareNominal units.Mass = 5
	HardwareHigh    units.Mass = 10
)

// Bounds of leaves that are judged at all.
const (
	narrowest units.Length = 0.05 // m
	widest    units.Length = 20   // m
	heaviest  units.Mass   = 20e3 // kg
)

// Weighed is the body of a leaf of known mass. The center of mass is at half
// the width where it isn't known. It returns an error for a width outside 0.05
// m to 20 m, a mass that is not above 0 and at most 20 t, or a center that is
// not within the leaf.
func Weighed(m units.Mass, width units.Length, center units.Opt[units.Length]) (Body, error) {
	if err := checkSize("width", width); err != nil {
		return Body{}, err
	}
	return body(Mass{m, m, m}, width, center)
}

// body is a leaf whose mass is spread as spreadGyration has it.
func body(m Mass, width units.Length, center units.Opt[units.Length]) (Body, error) {
	if !(m.Low > 0 && m.High <= heaviest) {
		return Body{}, fmt.Errorf("leaf: mass of %v kg is not above 0 and at most %v kg", float64(m.High), float64(heaviest))
	}
	x := center.Or(width / 2)
	if !(x > 0 && x <= width) {
		return Body{}, fmt.Errorf("leaf: center of mass %v m from the hinge axis is not within a leaf %v m wide", float64(x), float64(width))
	}
	return Body{Mass: m, Width: width, Center: x, Gyration: spreadGyration(width, x)}, nil
}

// Estimate is the body of a leaf built up from its construction: two stiles over
// the height, rails between the stiles, bars between the outer rails less the
// rails they cross, infill over the area inside the frame, hardware. A section's
// Width lies in the leaf's plane. The leaf begins at the hinge axis and is
// symmetric, so its center of mass is at half its width unless center tells
// otherwise; then its mass is spread as that of a weighed leaf.
//
// Low and High are the nominal mass less and plus BuildTolerance, wood also at
// its density's bounds; infill has the tolerance, hardware that is given has
// none. It returns an error where sizes are absurd or the parts don't fit
// together.
func Estimate(c gate.Construction, width, height units.Length, center units.Opt[units.Length]) (Body, error) {
	if err := errors.Join(checkSize("width", width), checkSize("height", height)); err != nil {
		return Body{}, err
	}
	f, err := layOut(c, width, height)
	if err != nil {
		return Body{}, err
	}
	d, err := densityOf(c.Material)
	if err != nil {
		return Body{}, err
	}
	framed := func(d units.Density) float64 { return float64(d) * (f.stiles + f.rails + f.bars) }
	infill := f.infill
	low, nominal, high := HardwareLow, HardwareNominal, HardwareHigh
	if given, known := c.Hardware.Get(); known {
		if !(given >= 0 && given <= heaviest) {
			return Body{}, fmt.Errorf("leaf: hardware of %v kg is not between 0 and %v kg", float64(given), float64(heaviest))
		}
		low, nominal, high = given, given, given
	}
	m := Mass{
		Low:     units.Mass((1-BuildTolerance)*(framed(d.low)+infill)) + low,
		Nominal: units.Mass(framed(d.nominal)+infill) + nominal,
		High:    units.Mass((1+BuildTolerance)*(framed(d.high)+infill)) + high,
	}
	b, err := body(m, width, center)
	if err != nil {
		return Body{}, err
	}
	rho := float64(d.nominal)
	b.Parts = Parts{
		Stiles:   units.Mass(rho * f.stiles),
		Rails:    units.Mass(rho * f.rails),
		Bars:     units.Mass(rho * f.bars),
		Infill:   units.Mass(infill),
		Hardware: nominal,
	}
	if !center.IsKnown() {
		b.Gyration = f.gyration(b.Parts)
	}
	return b, nil
}

func checkSize(name string, size units.Length) error {
	if !(size >= narrowest && size <= widest) {
		return fmt.Errorf("leaf: %s of %v m is outside %v to %v m", name, float64(size), float64(narrowest), float64(widest))
	}
	return nil
}
