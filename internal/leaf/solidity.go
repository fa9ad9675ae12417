package leaf

import "leafmoment.example/leafmoment/internal/gate"

// Solidities assumed for an infill where none is given: the closed end of what
// is sold under the name, frame included. Common practice, no source.
const (
	SolidityOpenBars    = 0.40 // bars with wide gaps; 25 mm bars 115 mm apart in a 50 mm frame come to 0.29
	SolidityMesh        = 0.40 // mesh by itself seldom passes 0.25; frame, a plant or a little ice take the rest
	SolidityGappedSlats = 0.90 // gaps of a tenth
	SolidityClosed      = 1.00 // sheet, boards, and louvers: they can't be seen through
)

// AssumedSolidity is a cautious solidity of a leaf with the infill, an upper
// value: wind never asks less of a more open leaf. An unknown infill is taken as
// closed.
func AssumedSolidity(i gate.Infill) float64 {
	switch i {
	case gate.InfillOpenBars:
		return SolidityOpenBars
	case gate.InfillMesh:
		return SolidityMesh
	case gate.InfillGappedSlats:
		return SolidityGappedSlats
	}
	return SolidityClosed
}
