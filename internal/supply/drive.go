package supply

import (
	"errors"
	"fmt"

	"leafmoment.example/leafmoment/internal/units"
)

// Drive is a permanent-magnet direct-current drive by the ends of its straight
// load-speed-current line at one terminal voltage.
//
//	v = v0 (1 - F/Fs)   I = I0 + (Is - I0) F/Fs   R = V/Is   E = V - I R
//
// F thrust, v rod speed, I current, R the winding's resistance (the current at
// stall is limited by it alone), E the voltage that speed induces. Textbook
// model of a permanent-magnet motor, w = (V - I R)/K, with friction that takes
// the constant current I0. It leaves out warming, the controller's own drop and
// any current limit: a controller that regulates its output is no such drive,
// and one with a current limit stalls no higher than that limit.
type Drive struct {
	Voltage       units.Voltage // at the terminals, for the figures below
	NoLoadSpeed   units.Speed
	StallThrust   units.Force
	NoLoadCurrent units.Current
	StallCurrent  units.Current
}

// Effect is what a source does to a drive, as factors on the figures at the
// drive's own voltage. Zero: it doesn't move.
type Effect struct {
	NoLoadSpeed float64
	StallThrust float64
}

// Point is a drive at work.
type Point struct {
	Stalled bool // the thrust asked is more than the drive has
	Speed   units.Speed
	Current units.Current
	Voltage units.Voltage // at the terminals
}

// Effect is what a source behind a loop resistance does to the ends of the
// drive's line. Without a loop both factors are (u Is - I0)/(Is - I0), u the
// source over the drive's own voltage: nearly u. A loop lowers the stall thrust
// by far more than the no-load speed, by its drop at the stall current.
func (d Drive) Effect(source units.Voltage, loop units.Resistance) (Effect, error) {
	if err := d.check(source, loop); err != nil {
		return Effect{}, err
	}
	return Effect{
		NoLoadSpeed: max(0, d.speedShare(source, loop, float64(d.NoLoadCurrent))),
		StallThrust: max(0, d.stallShare(source, loop)),
	}, nil
}

// Running is the drive at a thrust, fed by a source behind a loop resistance.
func (d Drive) Running(source units.Voltage, loop units.Resistance, thrust units.Force) (Point, error) {
	if err := d.check(source, loop); err != nil {
		return Point{}, err
	}
	if !(thrust >= 0 && units.Finite(float64(thrust))) {
		return Point{}, fmt.Errorf("thrust of %g N must be finite and not negative", float64(thrust))
	}
	share := float64(thrust) / float64(d.StallThrust)
	i := d.currentAtRest(source, loop)
	p := Point{Stalled: true}
	if share < d.stallShare(source, loop) {
		i = float64(d.NoLoadCurrent) + share*float64(d.StallCurrent-d.NoLoadCurrent)
		p = Point{Speed: units.Speed(d.speedShare(source, loop, i)) * d.NoLoadSpeed}
	}
	p.Current = units.Current(i)
	p.Voltage = source - units.Voltage(i*float64(loop))
	return p, nil
}

// speedShare is the speed over the no-load speed at current i:
// ((V0 - i Rloop)/V Is - i)/(Is - I0).
func (d Drive) speedShare(source units.Voltage, loop units.Resistance, i float64) float64 {
	terminals := (float64(source) - i*float64(loop)) / float64(d.Voltage)
	return (terminals*float64(d.StallCurrent) - i) / float64(d.StallCurrent-d.NoLoadCurrent)
}

// stallShare is the thrust at rest over the stall thrust.
func (d Drive) stallShare(source units.Voltage, loop units.Resistance) float64 {
	return (d.currentAtRest(source, loop) - float64(d.NoLoadCurrent)) / float64(d.StallCurrent-d.NoLoadCurrent)
}

// currentAtRest is V0/(R + Rloop).
func (d Drive) currentAtRest(source units.Voltage, loop units.Resistance) float64 {
	winding := float64(d.Voltage) / float64(d.StallCurrent)
	return float64(source) / (winding + float64(loop))
}

func (d Drive) check(source units.Voltage, loop units.Resistance) error {
	var problems []error
	require := func(ok bool, what string, v float64) {
		if !ok || !units.Finite(v) {
			problems = append(problems, fmt.Errorf("%s: %g", what, v))
		}
	}
	require(d.Voltage > 0 && d.Voltage <= highestVoltage, "a drive's voltage must be an extra-low voltage, V", float64(d.Voltage))
	require(source >= 0 && source <= highestVoltage, "a source must be an extra-low voltage, V", float64(source))
	require(d.NoLoadSpeed > 0, "a no-load speed must be positive, m/s", float64(d.NoLoadSpeed))
	require(d.StallThrust > 0, "a stall thrust must be positive, N", float64(d.StallThrust))
	require(d.NoLoadCurrent >= 0, "a no-load current can't be negative, A", float64(d.NoLoadCurrent))
	require(d.StallCurrent > d.NoLoadCurrent && d.StallCurrent >= leastCurrent && d.StallCurrent <= mostCurrent, "a stall current must be over the no-load current, A", float64(d.StallCurrent))
	require(loop >= 0, "a loop resistance can't be negative, ohm", float64(loop))
	return errors.Join(problems...)
}
