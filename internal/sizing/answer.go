// Package sizing evaluates a gate: it takes every drive of a catalog through
// the models and the rules, ranks those that suit and says why the others
// don't.
package sizing

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/motion"
	"leafmoment.example/leafmoment/internal/partslist"
	"leafmoment.example/leafmoment/internal/supply"
	"leafmoment.example/leafmoment/internal/units"
	"leafmoment.example/leafmoment/internal/wind"
)

// EngineVersion changes whenever an answer to an unchanged request and catalog
// changes.
const EngineVersion = "1.0.0"

// Answer is what is known about a gate after every drive was tried on it.
type Answer struct {
	Verdict     finding.Verdict
	Findings    []finding.Finding // whichever drive is chosen
	Options     []Option          // best first
	Rejected    []Rejection
	Assumptions []Assumption
}

// Assumption is what was taken for something left out.
type Assumption struct{ Field, Value, Reason string }

// Option is one drive on this gate.
type Option struct {
	Drive    *catalog.Part
	Kit      *catalog.Kit // nil where no kit fits
	Verdict  finding.Verdict
	Findings []finding.Finding
	Leaves   []LeafFigures
	Supply   units.Opt[SupplyFigures]
	Parts    partslist.List
}

// Rejection is a drive that doesn't suit.
type Rejection struct {
	Drive    *catalog.Part
	Findings []finding.Finding
}

// LeafFigures is what the drive does to one leaf.
type LeafFigures struct {
	Leaf        int
	Mounting    linkage.Mounting
	Tolerances  []Tolerance
	Stroke      units.Length
	Reserve     [2]units.Length // closed, open
	RearBracket string          // SKUs
	LeafBracket string
	Height      units.Opt[units.Length] // of the drive over the leaf's bottom edge

	Margin        float64
	BoxMargin     float64 // with every dimension off at its worst
	WorstAngle    units.Angle
	WorstOpening  bool
	OperatingWind units.Speed
	MovesUpTo     units.Speed
	WindOnlyLimit units.Speed
	Hold          Holding
	WindMoment    units.Torque
	StillMoment   units.Torque
	LargestAngle  units.Angle

	Opening, Closing motion.Result
	EdgeForce        units.Force // static, highest over the swing
	ForceAtHalfMeter units.Force
	Taken            Taken
	Curve            []AnglePoint // where asked for
}

// Tolerance is how far one dimension may be off, in whole millimeters.
type Tolerance struct {
	Dimension   string
	Minus, Plus int
}

// Holding is the gust a leaf holds against.
type Holding struct {
	Closed, Open, Locked units.Opt[units.Speed]
}

// Taken is what a leaf was taken to be.
type Taken struct {
	Mass       leaf.Mass
	Solidity   float64
	Inertia    units.Inertia
	Wind       wind.Loading
	Friction   units.Torque
	HingeForce units.Force
}

// AnglePoint is the drive at one leaf angle, thrust required and available.
type AnglePoint struct {
	Angle                     units.Angle
	Length, Arm               units.Length
	Opening, OpeningAvailable units.Force // required, available
	Closing, ClosingAvailable units.Force
}

// SupplyFigures is the supply run of an option.
type SupplyFigures struct {
	Run            units.Length
	Conductor      string
	CableSKU       string
	Delivery       supply.Delivery
	CurrentBasis   string
	LongestRun     units.Length
	PowerSupplySKU string
	BatteryBacked  bool
	WithoutBattery string
}
