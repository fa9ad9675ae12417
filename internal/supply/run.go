// Package supply works out an extra-low-voltage run from a power supply to
// what it feeds: the drop there and back, the conductor that holds, the
// longest run, the rating the power supply needs, and what the voltage that is
// left does to a drive.
//
// A run feeds what the caller says it feeds. With a battery behind the
// controller that is the charging and standby current; without one it is the
// drives at their worst.
package supply

import (
	"errors"
	"fmt"

	"leafmoment.example/leafmoment/internal/units"
)

// Run is a two-conductor cable, both conductors alike.
type Run struct {
	Length      units.Length // one way
	Conductor   Conductor
	Temperature units.Temperature // of the conductor
}

// The bounds of what is believed about a run.
const (
	longestBelieved units.Length      = 10e3 // beyond it a length is mistyped
	coldest         units.Temperature = -60
	hottest         units.Temperature = 150
)

// LoopResistance is the resistance there and back.
//
//	R = 2 L r(t)
func (r Run) LoopResistance() units.Resistance {
	return units.Resistance(2 * float64(r.Length) * r.Conductor.OhmPerMeter(r.Temperature))
}

func (r Run) check() error {
	var problems []error
	if !(r.Length >= 0 && r.Length <= longestBelieved) {
		problems = append(problems, fmt.Errorf("run length of %g m is outside 0 to %g m", float64(r.Length), float64(longestBelieved)))
	}
	return errors.Join(append(problems, checkConductor(r.Conductor, r.Temperature))...)
}

func checkConductor(c Conductor, t units.Temperature) error {
	var problems []error
	if c == (Conductor{}) {
		problems = append(problems, errors.New("the run has no conductor"))
	}
	if !(t >= coldest && t <= hottest) {
		problems = append(problems, fmt.Errorf("conductor temperature of %g degrees Celsius is outside %g to %g", float64(t), float64(coldest), float64(hottest)))
	}
	return errors.Join(problems...)
}

// Load is what the end of a run takes: a part whose current doesn't depend on
// the voltage (a motor at a given thrust) and a part whose power doesn't (a
// charger or a regulated controller). Either may be zero, not both.
type Load struct {
	Current units.Current
	Power   units.Power
}

// Demand is a load behind a power supply of steady voltage, and the drop its
// policy allows.
type Demand struct {
	Voltage   units.Voltage // d.c., at the power supply
	Load      Load
	DropLimit float64 // share of Voltage, over 0 up to largestDropLimit
}

const (
	// highestVoltage is the upper end of extra-low voltage, ripple-free d.c.:
	// band I of IEC 60449, as reproduced in public summaries of BS 7671.
	highestVoltage units.Voltage = 120
	// largestDropLimit is the share at which a run delivers the most power it
	// can. Up to it the drop only grows with the run's resistance.
	largestDropLimit = 0.5

	leastCurrent units.Current = 1e-6 // below it a load is none
	mostCurrent  units.Current = 1e4  // beyond it a load is mistyped
)

func (d Demand) check() error {
	var problems []error
	if !(d.Voltage > 0 && d.Voltage <= highestVoltage) {
		problems = append(problems, fmt.Errorf("supply voltage of %g V is not an extra-low d.c. voltage, over 0 up to %g V", float64(d.Voltage), float64(highestVoltage)))
	}
	if !(d.DropLimit > 0 && d.DropLimit <= largestDropLimit) {
		problems = append(problems, fmt.Errorf("drop limit of %g is not a share over 0 up to %g", d.DropLimit, largestDropLimit))
	}
	if !(d.Load.Current >= 0 && d.Load.Power >= 0) {
		problems = append(problems, errors.New("a load's current and power can't be negative"))
	}
	if err := errors.Join(problems...); err != nil {
		return err
	}
	atSupply := d.Load.Current + units.Current(float64(d.Load.Power)/float64(d.Voltage))
	if !(atSupply >= leastCurrent && atSupply <= mostCurrent) {
		return fmt.Errorf("a load that takes %g A at the supply voltage is outside %g to %g A", float64(atSupply), float64(leastCurrent), float64(mostCurrent))
	}
	return nil
}
