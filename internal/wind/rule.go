package wind

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Rule is a published rule for the wind on a free-standing panel.
type Rule uint8

// The rules. The first is the default because it is defined at every solidity.
const (
	ASNZS1170AppendixB Rule = iota // AS/NZS 1170.2:2021 Appendix B (2011: Appendix D)
	EN1991Table79                  // EN 1991-1-4 clause 7.4.1, table 7.9
	ASCE7Figure29                  // ASCE 7-10, -16 and -22, figure 29.3-1
)

// String is the rule's name.
func (r Rule) String() string {
	switch r {
	case ASNZS1170AppendixB:
		return "AS/NZS 1170.2:2021 Appendix B"
	case EN1991Table79:
		return "EN 1991-1-4 table 7.9"
	case ASCE7Figure29:
		return "ASCE 7 figure 29.3-1"
	}
	return fmt.Sprintf("Rule(%d)", uint8(r))
}

// AirDensity is the density the rule is calibrated with; that of the default
// rule where r is none of the rules.
func (r Rule) AirDensity() units.Density {
	switch r {
	case EN1991Table79:
		return DensityEN
	case ASCE7Figure29:
		return DensityASCE
	}
	return DensityASNZS
}

// Panel is a leaf as the wind sees it.
type Panel struct {
	Length   units.Length // hinge axis to free edge
	Height   units.Length // bottom edge to top edge
	Top      units.Length // ground to top edge
	Solidity float64      // blocked area over gross area, 0 to 1
}

// Loading is the wind on a panel per pascal of dynamic pressure, in the worst
// case of its rule. ForcePerPascal = Net x Porosity x Length x Height and
// MomentPerPascal = ForcePerPascal x Length x (1/2 + Eccentricity).
type Loading struct {
	MomentPerPascal float64    // m3: moment about the hinge axis, N m per Pa
	ForcePerPascal  units.Area // resultant, N per Pa
	Net             float64    // net coefficient of the solid panel, mean over its area, with the rule's gust-effect factor where it has one
	Porosity        float64    // what the gaps leave of it; 1 for a solid panel
	Eccentricity    float64    // resultant from mid-length over the length, positive towards the free edge
	Clause          string     // rule and case that govern

	// Defined is false where the rule doesn't cover the panel. Every figure is
	// then zero and says nothing, and WhyNot tells the reason.
	Defined bool
	WhyNot  string
}

// Bounds of the panels that are judged at all, m: well past any leaf, so that a
// slip of units is refused and no figure overflows.
const (
	smallestSize units.Length = 0.05
	largestSize  units.Length = 100
)

// HingeMoment is the wind on a panel hinged at one end. It returns an error
// where the panel is no panel: a size that is not finite or outside 0.05 m to
// 100 m, a top edge lower than the panel is high, a solidity outside 0 to 1, or
// an unknown rule.
//
// The moment never falls when the solidity or the length grows. It may fall
// when the height does the same: the rules have steps in length over height.
func HingeMoment(rule Rule, p Panel) (Loading, error) {
	if err := p.check(); err != nil {
		return Loading{}, err
	}
	switch rule {
	case ASNZS1170AppendixB:
		return asnzsAppendixB(p), nil
	case EN1991Table79:
		return enTable79(p), nil
	case ASCE7Figure29:
		return asceFigure29(p), nil
	}
	return Loading{}, fmt.Errorf("wind: unknown rule %d", uint8(rule))
}

func (p Panel) check() error {
	for _, size := range []struct {
		name  string
		value units.Length
	}{{"length", p.Length}, {"height", p.Height}, {"top", p.Top}} {
		if !(size.value >= smallestSize && size.value <= largestSize) {
			return fmt.Errorf("wind: panel %s of %v m is outside %v to %v m",
				size.name, float64(size.value), float64(smallestSize), float64(largestSize))
		}
	}
	if p.Top < p.Height {
		return fmt.Errorf("wind: a panel %v m high can't have its top edge %v m over the ground",
			float64(p.Height), float64(p.Top))
	}
	if !(p.Solidity >= 0 && p.Solidity <= 1) {
		return fmt.Errorf("wind: solidity %v is outside 0 to 1", p.Solidity)
	}
	return nil
}

// Moment is the hinge moment at dynamic pressure q.
func (l Loading) Moment(q units.Pressure) units.Torque {
	return units.Torque(l.MomentPerPascal * float64(q))
}

// Force is the resultant at dynamic pressure q.
func (l Loading) Force(q units.Pressure) units.Force {
	return units.Force(float64(l.ForcePerPascal) * float64(q))
}

// SpeedLimit is the speed whose hinge moment is all of what is available:
// V = sqrt(2 M / (rho k)), M the moment in N m, rho the air density in kg/m3, k
// the moment per pascal in m3. Nothing available gives 0. It returns false where
// there is no limit to tell: the loading is not defined, the wind has no hold
// on the panel, or an argument is no number.
func (l Loading) SpeedLimit(available units.Torque, rho units.Density) (units.Speed, bool) {
	if !l.Defined || !(l.MomentPerPascal > 0) || !(rho > 0) || !units.Finite(float64(rho)) || !units.Finite(float64(available)) {
		return 0, false
	}
	if available <= 0 {
		return 0, true
	}
	return units.Speed(math.Sqrt(2 * float64(available) / (float64(rho) * l.MomentPerPascal))), true
}
