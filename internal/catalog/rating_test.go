package catalog

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

var (
	massTable     = []MassPoint{{2, 150}, {3, 100}, {4, 80}}
	solidityTable = []SolidityPoint{{2, 1}, {3.5, 0.4}}
)

// The wanted values are worked by hand from the tables: straight lines between
// points.
func TestRatingsAreInterpolatedAndNeverExtrapolated(t *testing.T) {
	for _, test := range []struct {
		width    units.Length
		mass     float64
		massOK   bool
		solidity float64
		solidOK  bool
	}{
		{0.5, 150, true, 1, true}, // below the shortest leaf its point holds
		{2, 150, true, 1, true},
		{2.5, 125, true, 0.8, true},
		{3, 100, true, 0.6, true},
		{3.5, 90, true, 0.4, true},
		{3.5001, 89.998, true, 0, false},
		{4, 80, true, 0, false},
		{4.0001, 0, false, 0, false},
		{units.Length(math.Inf(1)), 0, false, 0, false},
		{units.Length(math.NaN()), 0, false, 0, false},
	} {
		if m, ok := MostMass(massTable, test.width); ok != test.massOK || math.Abs(float64(m)-test.mass) > 1e-9 {
			t.Errorf("at %v m most mass %v, %v; want %v, %v", test.width, m, ok, test.mass, test.massOK)
		}
		if s, ok := MostSolidity(solidityTable, test.width); ok != test.solidOK || math.Abs(s-test.solidity) > 1e-9 {
			t.Errorf("at %v m most solidity %v, %v; want %v, %v", test.width, s, ok, test.solidity, test.solidOK)
		}
	}
	if got := LongestLeaf(massTable, solidityTable); got != 3.5 {
		t.Errorf("longest leaf %v m, want the shorter table's end, 3.5 m", got)
	}
	if _, ok := MostMass(nil, 2); ok {
		t.Error("an empty table rates nothing")
	}
}

func TestALongerLeafIsNeverRatedForMore(t *testing.T) {
	mass, solidity := units.Mass(math.Inf(1)), math.Inf(1)
	for mm := 1; mm <= 4000; mm++ {
		width := units.Millimeters(mm)
		m, ok := MostMass(massTable, width)
		if !ok || m > mass || m < 80 || m > 150 {
			t.Fatalf("at %d mm %v kg, %v after %v kg", mm, m, ok, mass)
		}
		mass = m
		if s, ok := MostSolidity(solidityTable, width); ok {
			if s > solidity || s < 0.4 || s > 1 {
				t.Fatalf("at %d mm solidity %v after %v", mm, s, solidity)
			}
			solidity = s
		}
	}
}
