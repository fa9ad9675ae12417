package wind

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Category is a terrain category of EN 1991-1-4 table 4.1. The zero value is the
// windiest.
type Category uint8

// The terrain categories.
const (
	Category0   Category = iota // sea, or coast open to it
	CategoryI                   // lakes, flat land without obstacles
	CategoryII                  // low vegetation, single obstacles: open country
	CategoryIII                 // villages, suburbs, forest
	CategoryIV                  // town
)

// terrain is roughness length z0 and least height z_min, m, of EN 1991-1-4 table
// 4.1, as reproduced in the xcfem/xc library.
var terrain = [5]struct{ roughness, least float64 }{
	{0.003, 1}, {0.01, 1}, {0.05, 2}, {0.3, 5}, {1.0, 10},
}

// GustClause names the rule GustFromMean follows.
const GustClause = "EN 1991-1-4 clauses 4.3 to 4.5 on flat ground, gust speed sqrt(2 q_p / rho) (as reproduced publicly)"

// Gust is what a ten-minute mean at 10 m over open country becomes at a height.
type Gust struct {
	Speed      units.Speed    // speed whose dynamic pressure is the peak one
	Mean       units.Speed    // ten-minute mean at the height
	Turbulence float64        // intensity I_v
	Peak       units.Pressure // q_p, at the density of EN 1991-1-4
	Exposure   float64        // c_e: peak over the dynamic pressure of the mean at 10 m over open country
	Height     units.Length   // height reckoned with
	Raised     bool           // the height asked for lay below the category's least one
}

// Validity of the conversion.
const (
	fastestMean   units.Speed  = 100 // m/s; no ten-minute mean at 10 m on record comes near
	highestHeight units.Length = 200 // m, z_max of EN 1991-1-4 clause 4.3.2
)

// GustFromMean converts a ten-minute mean wind at 10 m over open country, the
// basic wind velocity v_b of EN 1991-1-4, to the gust at height z in a terrain
// category (clauses 4.3 to 4.5, as reproduced publicly), on flat ground:
//
//	k_r = 0.19 (z0/0.05)^0.07        terrain factor
//	c_r = k_r ln(z/z0)               roughness factor, z at least z_min
//	v_m = c_r v_b                    mean at z, m/s
//	I_v = 1/ln(z/z0)                 turbulence intensity
//	q_p = (1 + 7 I_v) rho v_m^2 / 2  peak pressure, Pa
//	V   = sqrt(2 q_p / rho)          gust speed, m/s, whatever rho is
//
// V is the speed with the standard's peak pressure and stands for the 3 s gust;
// the standard drops the square of the fluctuation, so that a measured gust
// v_m (1 + 3.5 I_v) close to the ground may be a tenth to a quarter faster. Hills,
// funnels between buildings and close obstacles are not in it.
//
// It returns an error for a mean that is not between 0 and 100 m/s, a height
// that is not above 0 and at most 200 m, or an unknown category.
func GustFromMean(mean units.Speed, category Category, z units.Length) (Gust, error) {
	if !(mean >= 0 && mean <= fastestMean) {
		return Gust{}, fmt.Errorf("wind: mean wind of %v m/s is outside 0 to %v m/s", float64(mean), float64(fastestMean))
	}
	if !(z > 0 && z <= highestHeight) {
		return Gust{}, fmt.Errorf("wind: height of %v m is not above 0 and at most %v m", float64(z), float64(highestHeight))
	}
	if int(category) >= len(terrain) {
		return Gust{}, fmt.Errorf("wind: unknown terrain category %d", uint8(category))
	}
	ground := terrain[category]
	height := math.Max(float64(z), ground.least)
	logarithm := math.Log(height / ground.roughness)
	roughness := 0.19 * math.Pow(ground.roughness/0.05, 0.07) * logarithm
	turbulence := 1 / logarithm
	exposure := (1 + 7*turbulence) * roughness * roughness
	return Gust{
		Speed:      units.Speed(float64(mean) * math.Sqrt(exposure)),
		Mean:       units.Speed(roughness * float64(mean)),
		Turbulence: turbulence,
		Peak:       units.Pressure(exposure * float64(DynamicPressure(DensityEN, mean))),
		Exposure:   exposure,
		Height:     units.Length(height),
		Raised:     height > float64(z),
	}, nil
}
