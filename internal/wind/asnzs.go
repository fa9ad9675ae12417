package wind

import "math"

// PorosityFactor is K_p = 1 - (1 - delta)^2 of AS/NZS 1170.2:2021 Appendix B,
// delta the solidity, 0 to 1; as reproduced in a public implementation. It is
// the only thing of that rule that depends on solidity. Richards and Robinson,
// J. Wind Eng. Ind. Aerodyn. 83 (1999) 455-465, give the same law.
func PorosityFactor(solidity float64) float64 {
	porosity := 1 - solidity
	return 1 - porosity*porosity
}

// Limits of AS/NZS 1170.2 Appendix B in b/c (length over height) and c/h (height
// over top).
const (
	asnzsShortest  = 0.5 // smallest b/c where c/h >= asnzsLifted
	asnzsLong      = 5.0 // above this b/c the oblique wind is given by zones
	asnzsLifted    = 0.2 // below this c/h the panel stands clear of the ground
	asnzsGrounded  = 0.7 // above this c/h the zones are counted in h
	asnzsOffCenter = 0.2 // e/b of the wind at 45 degrees
)

const (
	asnzsOblique = "AS/NZS 1170.2:2021 Appendix B, wind at 45 degrees, resultant 0.2 b off mid-length (as reproduced publicly)"
	asnzsNormal  = "AS/NZS 1170.2:2021 Appendix B, wind square on (as reproduced publicly)"
	asnzsZoned   = "AS/NZS 1170.2:2021 Appendix B, wind at 45 degrees, zones of a long panel (as reproduced publicly; middle zone from memory)"
)

// asnzsAppendixB is AS/NZS 1170.2:2021 Appendix B, hoardings and free-standing
// walls (2011: Appendix D), as reproduced publicly: C_shp = C_p,n K_p on the
// gross area b c. Wind at 45 degrees governs up to b/c = 5, since it has the
// coefficient of the wind square on and a larger arm; beyond, the worse of the
// two. Wind along the panel (at most 1.2, falling with distance) turns a panel
// of any b/c above 0.02 less than that and is left out. Defined for every
// solidity; not for b/c < 0.5 unless c/h < 0.2.
//
// The rule has a step up at b/c = 5 and one down at c/h = 0.7 beyond it.
func asnzsAppendixB(p Panel) Loading {
	b, c, h := float64(p.Length), float64(p.Height), float64(p.Top)
	kp := PorosityFactor(p.Solidity)
	if b/c < asnzsShortest && c/h >= asnzsLifted {
		return undefined(asnzsNormal, "the panel is narrower than half its height")
	}
	net := asnzsNet(b/c, c/h)
	if b/c <= asnzsLong {
		return loading(p, net, kp, asnzsOffCenter, asnzsOblique)
	}
	zones := [3]zone{{2 * c, 3.0}, {4 * c, 1.5}, {beyond, 0.75}}
	if c/h > asnzsGrounded {
		zones = [3]zone{{2 * h, 2.4}, {4 * h, 1.2}, {beyond, 0.6}}
	}
	return worse(loading(p, net, kp, 0, asnzsNormal), worstEnd(p, zones[:], kp, asnzsZoned))
}

// asnzsNet is C_p,n for wind square on, from b/c and c/h:
//
//	c/h < 0.2                  1.4 + 0.3 log10(b/c)
//	0.5 <= b/c <= 5            1.3 + 0.5 (0.3 + log10(b/c)) (0.8 - c/h)
//	b/c > 5                    1.7 - 0.5 c/h
func asnzsNet(ratio, share float64) float64 {
	switch {
	case share < asnzsLifted:
		return 1.4 + 0.3*math.Log10(ratio)
	case ratio <= asnzsLong:
		return 1.3 + 0.5*(0.3+math.Log10(ratio))*(0.8-share)
	default:
		return 1.7 - 0.5*share
	}
}
