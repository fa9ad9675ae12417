// Package units holds the physical quantities of the project as types.
//
// Every quantity is an SI value inside; the constructors and the accessor
// methods are the only places where another unit appears. Arithmetic between
// two different quantities is written with explicit conversions, so a sum of a
// length and an angle does not compile.
package units

import "math"

// The quantities, in SI inside; the unit stands behind each.
//
//revive:disable:exported one comment serves the whole list
type (
	Length       float64 // m
	Area         float64 // m2
	Mass         float64 // kg
	Angle        float64 // rad
	Force        float64 // N
	Torque       float64 // N m
	Speed        float64 // m/s
	Acceleration float64 // m/s2
	AngularSpeed float64 // rad/s
	Inertia      float64 // kg m2
	Pressure     float64 // Pa
	Density      float64 // kg/m3
	ArealMass    float64 // kg/m2
	LinearMass   float64 // kg/m
	Energy       float64 // J
	Power        float64 // W
	Time         float64 // s
	Voltage      float64 // V
	Current      float64 // A
	Resistance   float64 // ohm
	Temperature  float64 // degree Celsius
)

//revive:enable:exported

// Gravity is the conventional acceleration used throughout, m/s2. The project's
// published check values are worked with 9.81 rather than 9.80665; the
// difference is 0.03 %.
const Gravity = 9.81

// Millimeters returns the length of v millimeters.
func Millimeters[T ~int32 | ~int | ~float64](v T) Length { return Length(float64(v) / 1000) }

// Millimeters is the length in mm.
func (l Length) Millimeters() float64 { return float64(l) * 1000 }

// RoundedMillimeters is the length to the nearest whole mm.
func (l Length) RoundedMillimeters() int { return int(math.Round(l.Millimeters())) }

// Past reports whether the length is over a limit worked out from lengths given
// in mm. A nanometer absorbs the rounding, so that what is given at its limit
// exactly isn't over it.
func (l Length) Past(limit Length) bool { return l > limit+1e-9 }

// Degrees returns the angle of v degrees.
func Degrees(v float64) Angle { return Angle(v * math.Pi / 180) }

// Degrees is the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// SquareMillimeters returns the area of v square millimeters.
func SquareMillimeters(v float64) Area { return Area(v / 1e6) }

// SquareMillimeters is the area in mm2.
func (a Area) SquareMillimeters() float64 { return float64(a) * 1e6 }

// Finite reports whether v is neither NaN nor infinite.
func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
