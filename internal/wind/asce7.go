package wind

import "math"

const (
	asceCaseB = "ASCE 7 figure 29.3-1, case B, resultant 0.2 B off mid-length (as reproduced publicly)"
	asceCaseC = "ASCE 7 figure 29.3-1, case C, regions from the windward edge (as reproduced publicly)"
)

// Figures of the rule, as reproduced publicly.
const (
	asceGustEffect    = 0.85 // G of a rigid structure
	asceLeastSolidity = 0.7  // below, the rule for open signs and lattices applies, on the solid area
	asceOffCenter     = 0.2  // eccentricity of case B over B
	asceCaseCFrom     = 2.0  // smallest B/s of case C
	asceReduceFrom    = 0.8  // above this s/h case C is multiplied by 1.8 - s/h
)

// asceCf is C_f of cases A and B by s/h (rows) and B/s (columns), as three
// public transcriptions give it. Where one of them reads 1.55 at s/h 0.7 and B/s
// 4, the two others and the commentary's surface fit give 1.60.
var (
	asceHeights = [7]float64{0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1}
	asceRatios  = [12]float64{0.05, 0.1, 0.2, 0.5, 1, 2, 4, 5, 10, 20, 30, 45}
	asceCf      = [7][12]float64{
		{1.95, 1.90, 1.85, 1.85, 1.80, 1.80, 1.85, 1.85, 1.85, 1.90, 1.90, 1.95},
		{1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.90, 1.90, 1.95},
		{1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.85, 1.85},
		{1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75},
		{1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55},
		{1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40},
		{1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30},
	}
)

// asceRegions is C_f of case C by B/s (rows) and region (columns), as reproduced
// publicly. The figure gives 3s to 10s as one region up to B/s = 10 and splits
// it beyond, so the value stands three times. A region that a row's panel is too
// short to have holds the value of the next row that has it, for the panels in
// between.
var (
	asceRegionEnds = [7]float64{1, 2, 3, 4, 5, 10, beyond} // multiples of s
	asceLengths    = [11]float64{2, 3, 4, 5, 6, 7, 8, 9, 10, 13, 45}
	asceRegions    = [11][7]float64{
		{2.25, 1.50, 1.15, 1.10, 1.10, 1.10, 0.55},
		{2.60, 1.70, 1.15, 1.10, 1.10, 1.10, 0.55},
		{2.90, 1.90, 1.30, 1.10, 1.10, 1.10, 0.55},
		{3.10, 2.00, 1.45, 1.05, 1.05, 1.05, 0.55},
		{3.30, 2.15, 1.55, 1.05, 1.05, 1.05, 0.55},
		{3.40, 2.25, 1.65, 1.05, 1.05, 1.05, 0.55},
		{3.55, 2.30, 1.70, 1.05, 1.05, 1.05, 0.55},
		{3.65, 2.35, 1.75, 1.00, 1.00, 1.00, 0.55},
		{3.75, 2.45, 1.85, 0.95, 0.95, 0.95, 0.55},
		{4.00, 2.60, 2.00, 1.50, 1.35, 0.90, 0.55},
		{4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55},
	}
)

// asceFigure29 is ASCE 7 figure 29.3-1, solid free-standing walls: F = q G C_f
// A_s, times 1 - (1 - eps)^1.5 for openings, eps the solidity. Case A acts at
// mid-length and never governs; the worse of case B (0.2 B off) and, from B/s =
// 2, case C. Defined for solidities from 0.7. A leaf has no return corners, so
// their reduction is left out.
func asceFigure29(p Panel) Loading {
	if p.Solidity < asceLeastSolidity {
		return undefined(asceCaseB, "the figure covers solidities from 0.7; a more open panel is an open sign or lattice, reckoned on its solid area")
	}
	s := float64(p.Height)
	ratio, height := float64(p.Length)/s, s/float64(p.Top)
	porosity := ascePorosity(p.Solidity)
	l := loading(p, asceGustEffect*asceForce(ratio, height), porosity, asceOffCenter, asceCaseB)
	if ratio < asceCaseCFrom {
		return l
	}
	zones := asceZones(ratio, height, s)
	return worse(l, worstEnd(p, zones[:], porosity, asceCaseC))
}

// ascePorosity is the factor for openings, 1 - (1 - eps)^1.5, eps >= 0.7.
func ascePorosity(solidity float64) float64 { return 1 - math.Pow(1-solidity, 1.5) }

// asceForce is C_f of cases A and B, bilinear in B/s and s/h.
func asceForce(ratio, height float64) float64 {
	r0, r1, along := bracket(asceRatios[:], ratio)
	h0, h1, up := bracket(asceHeights[:], height)
	return lerp(lerp(asceCf[h0][r0], asceCf[h0][r1], along), lerp(asceCf[h1][r0], asceCf[h1][r1], along), up)
}

// asceZones is G C_f of case C's regions for a panel of height s, m.
func asceZones(ratio, height, s float64) [7]zone {
	lower, upper, share := bracket(asceLengths[:], ratio)
	factor := asceGustEffect
	if height > asceReduceFrom {
		factor *= 1.8 - height
	}
	var zones [7]zone
	for i, end := range asceRegionEnds {
		zones[i] = zone{end * s, factor * lerp(asceRegions[lower][i], asceRegions[upper][i], share)}
	}
	return zones
}
