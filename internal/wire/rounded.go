package wire

import "math"

// Steps that figures are rounded to in an answer: finer would be noise, and
// rounding keeps the bytes of an answer short and the same on every machine.
const (
	tenth         = 0.1
	hundredth     = 0.01
	thousandth    = 0.001
	tenThousandth = 0.0001
)

// rounded is v to the nearest step. Dividing by the steps in one unit, a whole
// number, gives the decimal that is nearest and so prints short.
func rounded(v, step float64) float64 {
	perUnit := math.Round(1 / step)
	return math.Round(v*perUnit) / perUnit
}

func pointer[T any](v T) *T { return &v }
