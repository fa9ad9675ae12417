package wind

const enClause = "EN 1991-1-4 clause 7.4.1, table 7.9, zones A to D from the windward end (as reproduced publicly)"

// enLeastSolidity is the lowest solidity of table 7.9; below it the standard
// treats the panel as a lattice by clause 7.11, whose coefficients are a graph.
const enLeastSolidity = 0.8

// enSolid is c_p,net of EN 1991-1-4 table 7.9 for zones A, B, C, D of a solid
// wall without return corners, at l/h of 3, 5 and 10; as reproduced in the
// xcfem/xc library, which checks it against eurocodeapplied.com.
var (
	enRatios = [3]float64{3, 5, 10}
	enSolid  = [3][4]float64{
		{2.3, 1.4, 1.2, 1.2},
		{2.9, 1.8, 1.4, 1.2},
		{3.4, 2.1, 1.7, 1.2},
	}
)

// enPorous is c_p,net of every zone at the lowest solidity.
const enPorous = 1.2

// enTable79 is EN 1991-1-4 table 7.9: zones A to 0.3 h, B to 2 h, C to 4 h, D
// beyond, h the wall's height, counted from the windward end; that end is the
// free edge or the hinge, whichever is worse. Linear in l/h and in solidity.
// Defined for solidities from 0.8. A leaf has no return corners, so the rows
// for them are left out.
func enTable79(p Panel) Loading {
	if p.Solidity < enLeastSolidity {
		return undefined(enClause, "the table begins at a solidity of 0.8; a more open panel is a lattice by clause 7.11")
	}
	h := float64(p.Height)
	ends := [4]float64{0.3 * h, 2 * h, 4 * h, beyond}
	porous := enCoefficients(float64(p.Length)/h, p.Solidity)
	solid := enCoefficients(float64(p.Length)/h, 1)
	var zones, solidZones [4]zone
	for i, end := range ends {
		zones[i] = zone{end, porous[i]}
		solidZones[i] = zone{end, solid[i]}
	}
	// The table mixes solidity into every zone, so the porosity factor is the
	// ratio of the two mean coefficients.
	l, reference := worstEnd(p, zones[:], 1, enClause), worstEnd(p, solidZones[:], 1, enClause)
	l.Porosity = l.Net / reference.Net
	l.Net = reference.Net
	return l
}

// enCoefficients is c_p,net of the four zones at a length over height and a
// solidity of 0.8 to 1.
func enCoefficients(ratio, solidity float64) [4]float64 {
	lower, upper, share := bracket(enRatios[:], ratio)
	weight := (solidity - enLeastSolidity) / (1 - enLeastSolidity)
	var c [4]float64
	for i := range c {
		solid := lerp(enSolid[lower][i], enSolid[upper][i], share)
		c[i] = lerp(enPorous, solid, weight)
	}
	return c
}
