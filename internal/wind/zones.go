package wind

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// zone is a strip of the panel with one coefficient, from the end of the strip
// before it to the distance end, m, measured from the windward end.
type zone struct{ end, coefficient float64 }

// beyond ends the last zone of a rule, wherever the panel ends.
var beyond = math.Inf(1)

// integrate returns the integrals of c dA (m2) and c r dA (m3) over a panel of
// the given length and height (m), r the distance from the hinge. The zones
// begin at the free edge, or at the hinge where windwardHinge is set.
func integrate(zones []zone, length, height float64, windwardHinge bool) (force, moment float64) {
	begin := 0.0
	for _, z := range zones {
		end := math.Min(z.end, length)
		if end <= begin {
			continue
		}
		arm := (begin + end) / 2
		if !windwardHinge {
			arm = length - arm
		}
		f := z.coefficient * height * (end - begin)
		force += f
		moment += f * arm
		begin = end
	}
	return force, moment
}

// worstEnd is the loading with the windward end where it turns the leaf harder.
func worstEnd(p Panel, zones []zone, porosity float64, clause string) Loading {
	length, height := float64(p.Length), float64(p.Height)
	force, moment := integrate(zones, length, height, false)
	if f, m := integrate(zones, length, height, true); m > moment {
		force, moment = f, m
	}
	area := length * height
	return loading(p, force/area, porosity, moment/(force*length)-0.5, clause)
}

// loading is what a mean coefficient and the place of its resultant come to.
func loading(p Panel, net, porosity, eccentricity float64, clause string) Loading {
	length := float64(p.Length)
	force := net * porosity * length * float64(p.Height)
	return Loading{
		MomentPerPascal: force * length * (0.5 + eccentricity),
		ForcePerPascal:  units.Area(force),
		Net:             net,
		Porosity:        porosity,
		Eccentricity:    eccentricity,
		Clause:          clause,
		Defined:         true,
	}
}

func undefined(clause, why string) Loading { return Loading{Clause: clause, WhyNot: why} }

// worse is the loading with the larger hinge moment.
func worse(a, b Loading) Loading {
	if b.MomentPerPascal > a.MomentPerPascal {
		return b
	}
	return a
}
