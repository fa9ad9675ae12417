package leaf

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Hinge is a pair of hinges on one upright axis: pins that take the leaf's
// overturning couple, and on one of them a ring that takes its weight.
type Hinge struct {
	Spacing     units.Length // upper to lower hinge
	PinRadius   units.Length
	ThrustInner units.Length // radii of the ring the leaf rests on; inner 0 is a full disc
	ThrustOuter units.Length
	Friction    float64 // coefficient while turning
	Breakaway   float64 // friction at the start over friction while turning, at least 1
}

// Hinge figures reckoned where they aren't given.
//
// The coefficients lie in the range of greased steel on steel, 0.04 to 0.25
// sliding, 0.12 to 0.35 at rest, and of dry steel, up to 0.50 sliding: a
// drive-engineering formula appendix, table 7.21, as reproduced publicly. Where
// in the range is common practice, no source.
const (
	DefaultPinRadius   units.Length = 0.010 // m: a 20 mm gudgeon. Common practice, no source
	DefaultThrustOuter units.Length = 0.015 // m: the shoulder under its strap. Common practice, no source

	FrictionGreased   = 0.15        // hinges known to be greased and free
	FrictionUncertain = 0.25        // worn or unknown: upper end of greased
	FrictionDry       = 0.50        // binding: upper end of dry
	BreakawayFactor   = 0.35 / 0.25 // upper end at rest over upper end sliding
)

// SpacingShare is the hinge spacing over the leaf's height that is reckoned
// where the spacing isn't known. Hinges usually sit further apart, which would
// lower every hinge load. Common practice, no source.
const SpacingShare = 0.6

// DefaultHinge is a gudgeon and strap pair in a condition.
func DefaultHinge(spacing units.Length, condition gate.HingeCondition) Hinge {
	h := Hinge{
		Spacing:     spacing,
		PinRadius:   DefaultPinRadius,
		ThrustInner: DefaultPinRadius,
		ThrustOuter: DefaultThrustOuter,
		Friction:    FrictionUncertain,
		Breakaway:   BreakawayFactor,
	}
	switch condition {
	case gate.HingesGood:
		h.Friction = FrictionGreased
	case gate.HingesBinding:
		h.Friction = FrictionDry
	}
	return h
}

// HingeReactions are what a hanging leaf does to its hinges.
type HingeReactions struct {
	Horizontal units.Force // at each hinge: the leaf pulls the upper one towards its free edge and pushes the lower one away
	Vertical   units.Force // together; which hinge carries how much depends on the fit
}

// Reactions are those of a leaf of mass m with its center at x from the axis:
// N = m g x / h horizontally at each hinge, h the spacing, and m g in all.
// Source: moments about one hinge; exact for a rigid leaf.
func Reactions(m units.Mass, x, spacing units.Length) HingeReactions {
	weight := float64(m) * units.Gravity
	return HingeReactions{
		Horizontal: units.Force(weight * float64(x) / float64(spacing)),
		Vertical:   units.Force(weight),
	}
}

// FrictionMoment is the friction of turning hinges about their axis:
//
//	tau = mu r 2N + mu r_e m g
//
// mu the coefficient, r the pin's radius, N the horizontal reaction at each
// hinge, r_e the effective radius of the ring. Source: journal and thrust
// friction of any machine-design text. Seals, rust and a bent axis are not in
// it; a measured hand force is.
func (h Hinge) FrictionMoment(m units.Mass, x units.Length) units.Torque {
	r := Reactions(m, x, h.Spacing)
	ring := thrustRadius(float64(h.ThrustInner), float64(h.ThrustOuter))
	return units.Torque(h.Friction * (2*float64(r.Horizontal)*float64(h.PinRadius) + float64(r.Vertical)*ring))
}

// thrustRadius is the radius at which the friction of a ring under uniform
// pressure acts, (2/3)(r2^3 - r1^3)/(r2^2 - r1^2), r1 the inner and r2 the outer
// radius (m); 2/3 r2 for a full disc. Uniform wear would give a smaller one.
// Written without the difference, it also holds for a ring of no width.
func thrustRadius(inner, outer float64) float64 {
	if inner+outer == 0 {
		return 0
	}
	return 2.0 / 3 * (inner*inner + inner*outer + outer*outer) / (inner + outer)
}

const (
	closestHinges units.Length = 0.02 // m
	largestPin    units.Length = 0.5  // m
)

func (h Hinge) check() error {
	if !(h.Spacing >= closestHinges && h.Spacing <= widest) {
		return fmt.Errorf("leaf: hinge spacing of %v m is outside %v to %v m", float64(h.Spacing), float64(closestHinges), float64(widest))
	}
	if !(h.PinRadius >= 0 && h.PinRadius <= largestPin) {
		return fmt.Errorf("leaf: hinge pin radius of %v m is outside 0 to %v m", float64(h.PinRadius), float64(largestPin))
	}
	if !(h.ThrustInner >= 0 && h.ThrustOuter >= h.ThrustInner && h.ThrustOuter <= largestPin) {
		return fmt.Errorf("leaf: hinge ring radii of %v and %v m are not in order within 0 to %v m",
			float64(h.ThrustInner), float64(h.ThrustOuter), float64(largestPin))
	}
	if !(h.Friction >= 0 && h.Friction <= 2) {
		return fmt.Errorf("leaf: hinge friction coefficient %v is outside 0 to 2", h.Friction)
	}
	if !(h.Breakaway >= 1 && h.Breakaway <= 10) {
		return fmt.Errorf("leaf: break-away factor %v is outside 1 to 10", h.Breakaway)
	}
	return nil
}

// mostHandForce bounds a force somebody could have measured by hand, N.
const mostHandForce units.Force = 5000

func checkHandForce(name string, f units.Opt[units.Force]) error {
	v, known := f.Get()
	if known && !(v >= 0 && v <= mostHandForce) {
		return fmt.Errorf("leaf: %s hand force of %v N is outside 0 to %v N", name, float64(v), float64(mostHandForce))
	}
	return nil
}

func checkAngle(name string, a units.Angle, most float64) error {
	if !(math.Abs(float64(a)) <= most) {
		return fmt.Errorf("leaf: %s of %v rad is more than %v rad", name, float64(a), most)
	}
	return nil
}
