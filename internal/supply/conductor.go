package supply

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Class is a conductor's construction by IEC 60228.
type Class uint8

// The classes a low-voltage run is made of. Class 6 has the resistances of
// class 5.
const (
	Class1 Class = 1 // solid
	Class2 Class = 2 // stranded
	Class5 Class = 5 // flexible
)

// Finish is the surface of a conductor's wires.
type Finish uint8

// The finishes of IEC 60228.
const (
	Plain Finish = iota + 1
	MetalCoated
)

// Stranding is the construction of an AWG conductor.
type Stranding uint8

// The constructions of an AWG conductor.
const (
	Solid Stranding = iota + 1
	Stranded
)

// Conductor is one copper conductor of a standard size. It is made by IEC,
// AWG or Series; the zero value is no conductor.
type Conductor struct {
	designation string
	area        units.Area
	ohmPerKm20  float64 // d.c. resistance at 20 degrees Celsius, ohm/km
}

// sizes holds the largest d.c. resistance at 20 degrees Celsius of copper
// conductors, ohm/km, by nominal area in mm2: IEC 60228:2004 tables 1 to 3 as
// reproduced in public tables (four of them agree). Zero: not tabulated there
// for class 1; the class 2 value stands in coated2.
var sizes = []struct{ area, plain1and2, coated1, coated2, plain5, coated5 float64 }{
	{0.5, 36.0, 36.7, 36.7, 39.0, 40.1},
	{0.75, 24.5, 24.8, 24.8, 26.0, 26.7},
	{1, 18.1, 18.2, 18.2, 19.5, 20.0},
	{1.5, 12.1, 12.2, 12.2, 13.3, 13.7},
	{2.5, 7.41, 7.56, 7.56, 7.98, 8.21},
	{4, 4.61, 4.70, 4.70, 4.95, 5.09},
	{6, 3.08, 3.11, 3.11, 3.30, 3.39},
	{10, 1.83, 1.84, 1.84, 1.91, 1.95},
	{16, 1.15, 1.16, 1.16, 1.21, 1.24},
	{25, 0.727, 0, 0.734, 0.780, 0.795},
	{35, 0.524, 0, 0.529, 0.554, 0.565},
}

// IEC is the copper conductor of nominal area in a class of IEC 60228. An area
// that isn't a standard size from 0.5 to 35 mm2, or has no tabulated
// resistance in that class and finish, is an error.
func IEC(class Class, finish Finish, area units.Area) (Conductor, error) {
	mm2 := area.SquareMillimeters()
	for _, row := range sizes {
		if math.Abs(row.area-mm2) > 1e-6 {
			continue
		}
		var r float64
		name := fmt.Sprintf("%g mm2 class %d", row.area, class)
		switch {
		case finish == Plain && (class == Class1 || class == Class2):
			r = row.plain1and2
		case finish == Plain && class == Class5:
			r = row.plain5
		case finish == MetalCoated && class == Class1:
			r = row.coated1
		case finish == MetalCoated && class == Class2:
			r = row.coated2
		case finish == MetalCoated && class == Class5:
			r = row.coated5
		}
		if finish == MetalCoated {
			name += " metal-coated"
		}
		if r == 0 {
			return Conductor{}, fmt.Errorf("no resistance is tabulated for a %s conductor", name)
		}
		return Conductor{designation: name, area: units.SquareMillimeters(row.area), ohmPerKm20: r}, nil
	}
	return Conductor{}, fmt.Errorf("%g mm2 is not a standard conductor size from 0.5 to 35 mm2", mm2)
}

// Series is every tabulated conductor of a class and finish, smallest first.
func Series(class Class, finish Finish) []Conductor {
	var out []Conductor
	for _, row := range sizes {
		if c, err := IEC(class, finish, units.SquareMillimeters(row.area)); err == nil {
			out = append(out, c)
		}
	}
	return out
}

const (
	// annealedCopper is the resistivity of annealed copper at 20 degrees
	// Celsius, ohm mm2/m: 100 % IACS, the basis of ASTM B258's resistances.
	annealedCopper = 0.017241
	// strandedExcess is the resistance of a concentric-lay stranded conductor
	// over a solid one of the same area, the wires being longer than the lay:
	// ASTM B8, from memory. The NEC chapter 9 table 8 columns, as reproduced in
	// public tables, differ by 1.018 to 1.026.
	strandedExcess = 1.02
)

// AWG is the uncoated copper conductor of a gauge from 24 to 1.
//
//	d = 0.127 mm 92^((36-n)/39)   A = pi d2/4   R20 = 17.241/A ohm/km
//
// by ASTM B258 as reproduced in public tables; a stranded one has 2 % more.
func AWG(gauge int, stranding Stranding) (Conductor, error) {
	if gauge < 1 || gauge > 24 {
		return Conductor{}, fmt.Errorf("AWG %d is not a gauge from 24 to 1", gauge)
	}
	d := 0.127 * math.Pow(92, float64(36-gauge)/39)
	mm2 := math.Pi * d * d / 4
	c := Conductor{area: units.SquareMillimeters(mm2), ohmPerKm20: 1000 * annealedCopper / mm2}
	switch stranding {
	case Solid:
		c.designation = fmt.Sprintf("AWG %d solid", gauge)
	case Stranded:
		c.designation = fmt.Sprintf("AWG %d stranded", gauge)
		c.ohmPerKm20 *= strandedExcess
	default:
		return Conductor{}, fmt.Errorf("AWG %d: neither solid nor stranded", gauge)
	}
	return c, nil
}

// String is the conductor's standard designation.
func (c Conductor) String() string { return c.designation }

// Area is the conductor's nominal area, or by AWG its area by gauge.
func (c Conductor) Area() units.Area { return c.area }

// OhmPerMeter is the d.c. resistance of one meter of the conductor at
// temperature t.
//
//	R = R20 (234.5 + t)/254.5
//
// for copper, the inverse of the correction in IEC 60228 as reproduced in
// public tables; it is linear in t and within 2e-4 of 1 + 0.00393 (t - 20) up
// to 90 degrees Celsius.
func (c Conductor) OhmPerMeter(t units.Temperature) float64 {
	return c.ohmPerKm20 / 1000 * (234.5 + float64(t)) / 254.5
}
