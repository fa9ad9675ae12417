package leaf

import (
	"errors"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Facts are what is known of a leaf in calm air.
type Facts struct {
	Body  Body
	Hinge Hinge
	Lean  Lean

	// HandOpening and HandClosing are the forces at the free edge that keep the
	// leaf moving. A measured one replaces the friction that is modeled.
	HandOpening, HandClosing units.Opt[units.Force]
}

// Resistance is what a leaf sets against being turned, apart from its inertia.
// It is ready to be asked at many angles.
type Resistance struct {
	opening, closing Friction
	lean             leaning
}

// Friction is what the hinges set against one motion.
type Friction struct {
	Turning  units.Torque // while it turns
	Start    units.Torque // on top of it where the motion starts
	Measured bool         // from a hand force, not from the hinges' model
}

// NewResistance is the resistance of a leaf. It returns an error that joins
// every fact that can't be: a body no constructor of this package made, hinge
// figures, a lean past 45 degrees, a lean direction past a full turn, hand
// forces that are negative or past 5 kN.
//
// A heavier leaf, a wider one, or hinges closer together never turn easier,
// unless a lean in a known direction helps the motion.
func NewResistance(f Facts) (Resistance, error) {
	errs := []error{
		f.Body.check(),
		f.Hinge.check(),
		checkAngle("lean", f.Lean.Angle, math.Pi/4),
		checkAngle("lean direction", f.Lean.Direction.Or(0), 2*math.Pi),
		checkHandForce("opening", f.HandOpening),
		checkHandForce("closing", f.HandClosing),
	}
	if err := errors.Join(errs...); err != nil {
		return Resistance{}, err
	}
	return Resistance{
		opening: f.friction(f.HandOpening),
		closing: f.friction(f.HandClosing),
		lean:    f.Body.leaning(f.Lean),
	}, nil
}

func (b Body) check() error {
	inOrder := b.Mass.Low > 0 && b.Mass.Low <= b.Mass.Nominal && b.Mass.Nominal <= b.Mass.High
	if !inOrder || !(b.Mass.High <= heaviest) || !(b.Center > 0 && b.Center <= b.Width) || !(b.Width <= widest) {
		return errors.New("leaf: the body's mass or center of mass is not one of a leaf")
	}
	return nil
}

// friction is that of one motion: the hinges' model at the mass's upper bound, or
// the hand force times the width it was measured at.
func (f Facts) friction(hand units.Opt[units.Force]) Friction {
	turning := f.Hinge.FrictionMoment(f.Body.Mass.High, f.Body.Center)
	force, measured := hand.Get()
	if measured {
		turning = units.Torque(float64(force) * float64(f.Body.Width))
	}
	return Friction{
		Turning:  turning,
		Start:    units.Torque((f.Hinge.Breakaway - 1) * float64(turning)),
		Measured: measured,
	}
}

// Friction is the hinges' part of the resistance.
func (r Resistance) Friction(m Motion) Friction {
	if m == Closing {
		return r.closing
	}
	return r.opening
}

// Lean is the lean's part of the resistance at a leaf angle; negative where it
// helps the motion. A measured hand force holds the lean already: what helps is
// then not counted a second time, what resists is, since nobody knows at which
// angle the force was measured.
func (r Resistance) Lean(m Motion, theta units.Angle) units.Torque {
	lean := r.lean.moment(m, float64(theta))
	if lean < 0 && r.Friction(m).Measured {
		lean = 0
	}
	return units.Torque(lean)
}

// Moment is the resistance at a leaf angle in calm air, once the leaf turns;
// negative where its lean carries it along.
func (r Resistance) Moment(m Motion, theta units.Angle) units.Torque {
	return r.Friction(m).Turning + r.Lean(m, theta)
}

// Fill writes the resistance, N m, at len(dst) leaf angles spread evenly from 0
// to open, in that order for both motions: friction, lean, a constant wind
// moment against the motion, and where the motion starts (the first angle
// opening, the last one closing) the break-away part. A single place is the
// start. It does not allocate.
func (r Resistance) Fill(dst []float64, m Motion, open units.Angle, wind units.Torque) {
	if len(dst) == 0 {
		return
	}
	start := 0
	if m == Closing {
		start = len(dst) - 1
	}
	for i := range dst {
		dst[i] = float64(r.Moment(m, angleAt(i, len(dst), m, open)) + wind)
	}
	dst[start] += float64(r.Friction(m).Start)
}

// angleAt is leaf angle i of n between 0 and open.
func angleAt(i, n int, m Motion, open units.Angle) units.Angle {
	if n > 1 {
		return open * units.Angle(float64(i)/float64(n-1))
	}
	if m == Closing {
		return open
	}
	return 0
}
