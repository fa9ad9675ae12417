package leaf

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// density is what a material may weigh.
type density struct{ low, nominal, high units.Density }

// densities of what leaves are framed from, kg/m3.
//
//   - Steel 7850: EN 1993-1-1 3.2.6, from memory; it is the 0.785 of the section
//     tables of EN 10219-2.
//   - Aluminum 2700: alloy 6060, as reproduced on makeitfrom.com.
//   - Softwood 350, 420, 550: mean of classes C14 and C24 of EN 338 (2003), as
//     reproduced in the xcfem/xc library; radiata pine, from memory.
//   - Hardwood 640, 700, 1100: mean of classes D30 and D40 of EN 338 (2003), as
//     reproduced there; ironbark, from memory.
//
// Wood is reckoned at the moisture of those figures; soaked wood may pass them.
func densityOf(m gate.Material) (density, error) {
	switch m {
	case gate.Steel:
		return density{7850, 7850, 7850}, nil
	case gate.Aluminum:
		return density{2700, 2700, 2700}, nil
	case gate.Softwood:
		return density{350, 420, 550}, nil
	case gate.Hardwood:
		return density{640, 700, 1100}, nil
	}
	return density{}, fmt.Errorf("leaf: no leaf is framed from material %d", uint8(m))
}

// elasticModulus is Young's modulus of a post's material, Pa, and whether the
// material is one whose posts are reckoned as elastic bars.
//
//   - Steel 210 GPa and aluminum 70 GPa: EN 1993-1-1 and EN 1999-1-1, from memory.
//   - Softwood 11 GPa and hardwood 11 GPa: mean of classes C24 and D40 of EN 338
//     (2003), from memory.
func elasticModulus(m gate.Material) (units.Pressure, bool) {
	switch m {
	case gate.Steel:
		return 210e9, true
	case gate.Aluminum:
		return 70e9, true
	case gate.Softwood, gate.Hardwood:
		return 11e9, true
	}
	return 0, false
}
