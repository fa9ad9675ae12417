package catalog

import "leafmoment.example/leafmoment/internal/units"

// MostMass is the most mass the rating allows at that leaf width: linear
// between points, the first point's below the shortest, and nothing (false)
// beyond the longest, for a maker's table is never extrapolated.
func MostMass(rating []MassPoint, width units.Length) (units.Mass, bool) {
	v, ok := interpolate(len(rating), float64(width), func(i int) (float64, float64) {
		return float64(rating[i].Width), float64(rating[i].Mass)
	})
	return units.Mass(v), ok
}

// MostSolidity is the most solidity the rating allows at that leaf width,
// between and beyond points as MostMass.
func MostSolidity(rating []SolidityPoint, width units.Length) (float64, bool) {
	return interpolate(len(rating), float64(width), func(i int) (float64, float64) {
		return float64(rating[i].Width), rating[i].Solidity
	})
}

// LongestLeaf is the longest leaf that both ratings reach.
func LongestLeaf(mass []MassPoint, solidity []SolidityPoint) units.Length {
	return min(mass[len(mass)-1].Width, solidity[len(solidity)-1].Width)
}

func interpolate(n int, x float64, point func(int) (float64, float64)) (float64, bool) {
	if n == 0 {
		return 0, false
	}
	x0, y0 := point(0)
	if x <= x0 {
		return y0, true
	}
	for i := 1; i < n; i++ {
		x1, y1 := point(i)
		if x <= x1 {
			return y0 + (y1-y0)*(x-x0)/(x1-x0), true
		}
		x0, y0 = x1, y1
	}
	return 0, false
}
