// Package wind turns a wind speed into the moment it puts on a leaf's hinge
// axis.
//
// A leaf is taken as a free-standing panel hinged at one end, alone in the
// wind: the shelter or the lengthening of a fence beside it is not counted. A
// rule of a published standard gives the net pressure coefficient, what gaps
// take away, and where the resultant acts at worst; the moment is that worst
// one at every leaf angle.
//
// None of the standards was read in its own edition. Their tables and formulas
// stand here as public sources reproduce them, and what is only remembered is
// marked "from memory".
package wind

import "leafmoment.example/leafmoment/internal/units"

// Air densities, each the one its rule is calibrated with.
const (
	DensityASNZS units.Density = 1.2       // kg/m3, AS/NZS 1170.2, as reproduced in a public implementation
	DensityEN    units.Density = 1.25      // kg/m3, EN 1991-1-4 recommended value, as reproduced in the xcfem/xc library
	DensityASCE  units.Density = 2 * 0.613 // kg/m3, from q = 0.613 V^2 of ASCE 7 in SI, as reproduced in public notes
)

// DynamicPressure is q = rho V^2 / 2: rho the air density in kg/m3, V the speed
// in m/s, q in Pa. Source: Bernoulli; valid for speeds far below that of sound.
func DynamicPressure(rho units.Density, v units.Speed) units.Pressure {
	return units.Pressure(0.5 * float64(rho) * float64(v) * float64(v))
}
