package supply

import (
	"errors"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Outcome says how a run carries its load.
type Outcome uint8

// The outcomes.
const (
	Holds         Outcome = iota + 1 // the drop is within its limit
	DropOverLimit                    // the load runs, on less voltage than the policy wants
	Undeliverable                    // the run can't carry the load at any voltage
)

// Delivery is a loaded run in its steady state.
type Delivery struct {
	Current     units.Current // in the run
	Drop        units.Voltage // there and back
	DropShare   float64       // of the supply voltage
	Voltage     units.Voltage // at the load
	SupplyPower units.Power   // at the power supply, the loss in the run included
}

// Assessment is the judgement on one run.
type Assessment struct {
	Outcome  Outcome
	Delivery units.Opt[Delivery] // unknown where the outcome is Undeliverable
}

// Assess works out the demand over a run.
func (d Demand) Assess(run Run) (Assessment, error) {
	if err := errors.Join(d.check(), run.check()); err != nil {
		return Assessment{}, err
	}
	return d.assess(run.LoopResistance()), nil
}

func (d Demand) assess(loop units.Resistance) Assessment {
	delivery, ok := deliver(d.Voltage, loop, d.Load)
	switch {
	case !ok:
		return Assessment{Outcome: Undeliverable}
	case delivery.DropShare > d.DropLimit:
		return Assessment{Outcome: DropOverLimit, Delivery: units.Known(delivery)}
	}
	return Assessment{Outcome: Holds, Delivery: units.Known(delivery)}
}

// deliver solves a loop of resistance R behind a source of voltage V0 for the
// voltage V at a load of constant current I and constant power P.
//
//	V = V0 - R (I + P/V)   so   V = (E + sqrt(E2 - 4 R P))/2,   E = V0 - R I
//
// The larger root is the stable one. There is none where E <= 0 (the current
// alone takes all the voltage) or E2 < 4 R P (more than the greatest power a
// source behind a resistance can give).
func deliver(source units.Voltage, loop units.Resistance, load Load) (Delivery, bool) {
	v0, r := float64(source), float64(loop)
	e := v0 - r*float64(load.Current)
	discriminant := e*e - 4*r*float64(load.Power)
	if e <= 0 || discriminant < 0 {
		return Delivery{}, false
	}
	v := (e + math.Sqrt(discriminant)) / 2
	i := float64(load.Current) + float64(load.Power)/v
	drop := r * i
	return Delivery{
		Current:     units.Current(i),
		Drop:        units.Voltage(drop),
		DropShare:   drop / v0,
		Voltage:     units.Voltage(v),
		SupplyPower: units.Power(v0 * i),
	}, true
}

// SmallestConductor is the conductor of least area in list that holds over a
// run of the given length; of equal areas the one of least resistance. The
// order of list doesn't matter. It reports false where none holds.
func (d Demand) SmallestConductor(length units.Length, t units.Temperature, list []Conductor) (Conductor, bool, error) {
	if err := d.check(); err != nil {
		return Conductor{}, false, err
	}
	var best Conductor
	found := false
	for _, c := range list {
		run := Run{Length: length, Conductor: c, Temperature: t}
		if err := run.check(); err != nil {
			return Conductor{}, false, err
		}
		if d.assess(run.LoopResistance()).Outcome != Holds {
			continue
		}
		if !found || c.area < best.area || c.area == best.area && c.ohmPerKm20 < best.ohmPerKm20 {
			best, found = c, true
		}
	}
	return best, found, nil
}

// LongestRun is the greatest one-way length over which the demand holds.
//
//	L = s V0 / (I + P/((1-s) V0)) / (2 r(t)),   s the drop limit
func (d Demand) LongestRun(c Conductor, t units.Temperature) (units.Length, error) {
	if err := errors.Join(d.check(), checkConductor(c, t)); err != nil {
		return 0, err
	}
	v0 := float64(d.Voltage)
	current := float64(d.Load.Current) + float64(d.Load.Power)/((1-d.DropLimit)*v0)
	length := d.DropLimit * v0 / current / (2 * c.OhmPerMeter(t))
	// A hair less, so that rounding can't turn the longest run into one that
	// doesn't hold.
	return units.Length(length * (1 - 1e-12)), nil
}

// MaxPower is the most power a run delivers within a drop limit, a share over
// 0 up to a half; at a half it is V0^2/(4R), the most it delivers at all. It
// reports false where the run has no resistance and so sets no limit.
//
//	P = s (1-s) V0^2 / R
func (r Run) MaxPower(source units.Voltage, dropLimit float64) (units.Power, bool, error) {
	d := Demand{Voltage: source, DropLimit: dropLimit, Load: Load{Current: 1}}
	if err := errors.Join(d.check(), r.check()); err != nil {
		return 0, false, err
	}
	loop := float64(r.LoopResistance())
	if loop == 0 {
		return 0, false, nil
	}
	v0 := float64(source)
	return units.Power(dropLimit * (1 - dropLimit) * v0 * v0 / loop), true, nil
}
