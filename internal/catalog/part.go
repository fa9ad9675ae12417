// Package catalog is a supplier's catalog as the engine reads it: parts with
// typed specifications, kits, and the policies that are the supplier's
// judgement. A Catalog is checked once and never changes afterwards.
package catalog

import (
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Part is something sold under one SKU. Spec holds one of the *...Spec types
// of this package.
type Part struct {
	SKU        string
	Name       string
	Price      int64 // before tax, minor units, per piece or per length step
	Withdrawn  bool
	ReplacedBy string
	Spec       Spec
}

// Spec is what a part is.
type Spec interface{ kind() string }

// EndSensing is how a drive knows that it has arrived.
type EndSensing uint8

// The ways of sensing an end.
const (
	EndByCurrent EndSensing = iota + 1
	EndByLimitSwitches
)

// LoadPoint is a point of a drive's load-speed-current line.
type LoadPoint struct {
	Thrust  units.Force
	Speed   units.Speed
	Current units.Current
}

// MassPoint is a point of a maker's rating.
type MassPoint struct {
	Width units.Length
	Mass  units.Mass
}

// SolidityPoint is a point of a maker's rating.
type SolidityPoint struct {
	Width    units.Length
	Solidity float64
}

// LinearDrive is a ram between post and leaf.
type LinearDrive struct {
	Family                   string
	Voltage                  units.Voltage
	Shortest, Longest        units.Length // pin to pin
	ThrustExtending          units.Force
	ThrustRetracting         units.Force
	HoldingAgainstExtension  units.Opt[units.Force] // unknown: not stated
	HoldingAgainstRetraction units.Opt[units.Force]
	Load                     []LoadPoint // thrust rising
	RodAcceleration          units.Acceleration
	SlowDown                 units.Length // rod travel before each end
	SlowDownShare            float64
	End                      EndSensing
	MassRating               []MassPoint     // width rising
	SolidityRating           []SolidityPoint // width rising
	HousingRadius            units.Length
	HousingLength            units.Length
	RodRadius                units.Length
	Overhang                 units.Length // behind the rear pin
	RearSweep, FrontSweep    units.Opt[units.Angle]
	ManualRelease            bool
	LowestTemperature        units.Opt[units.Temperature]
	HighestTemperature       units.Opt[units.Temperature]
	IngressProtection        string
	CyclesPerHour            float64
}

// ArmDrive is a geared motor on the post with a folding arm.
type ArmDrive struct {
	Family         string
	Voltage        units.Voltage
	Crank, Link    units.Length
	Torque         units.Torque
	Holding        units.Opt[units.Torque]
	Speed          units.AngularSpeed
	Current        units.Current
	CrankSweep     units.Angle
	End            EndSensing
	MassRating     []MassPoint
	SolidityRating []SolidityPoint
	ManualRelease  bool
	CyclesPerHour  float64
}

// Controller drives the drives.
type Controller struct {
	Families           []string
	Voltage            units.Voltage
	LeastVoltage       units.Voltage
	Drives             int
	Standby            units.Current
	ChargeCurrent      units.Opt[units.Current] // unknown: no battery
	DelaysSecondLeaf   bool
	TakesLimitSwitches bool
}

// PowerSupply turns mains into extra-low voltage.
type PowerSupply struct {
	Output           units.Voltage
	Continuous, Peak units.Current
}

// Chemistry of a battery.
type Chemistry uint8

// The chemistries.
const (
	LeadAcid Chemistry = iota + 1
	LiFePO4
)

// Battery stores energy; Capacity is in ampere hours over RatedHours.
type Battery struct {
	Chemistry   Chemistry
	Voltage     units.Voltage
	AmpereHours float64
	RatedHours  float64
}

// Panel is a solar panel under standard test conditions.
type Panel struct {
	Power          units.Power
	VoltageAtPower units.Voltage
	Cable          units.Length
}

// ChargeKind is a kind of charge controller.
type ChargeKind uint8

// The kinds of charge controller.
const (
	PWM ChargeKind = iota + 1
	MPPT
)

// ChargeController stands between panel and battery.
type ChargeController struct {
	Kind    ChargeKind
	Voltage units.Voltage
	Current units.Current
}

// CableUse is what a cable is for.
type CableUse uint8

// The uses.
const (
	CableForSupply CableUse = iota + 1
	CableForDrive
	CableForAccess
)

// Cable is sold in steps of a length.
type Cable struct {
	Use       CableUse
	Conductor gate.Conductor
	Cores     int
	Step      units.Length
}

// RearBracketForm is the form of a rear bracket.
type RearBracketForm uint8

// The forms of rear bracket.
const (
	FlatBracket RearBracketForm = iota + 1
	CurvedBracket
	PushBracket
)

// Range is a range of whole millimeters, both ends included.
type Range struct{ Low, High int }

// RearBracket carries the rear pin.
type RearBracket struct {
	Families     []string
	Form         RearBracketForm
	PlateWidth   units.Length
	PlateHeight  units.Length
	Standoffs    []Range // mounting plane to pin
	Reach        Range   // plate's center to pin, away from the leaf; for a push bracket towards it
	PostDiameter units.Opt[Range]
}

// LeafBracketForm is the form of a leaf bracket.
type LeafBracketForm uint8

// The forms of leaf bracket.
const (
	FlatLeafBracket LeafBracketForm = iota + 1
	ClampLeafBracket
)

// LeafBracket carries the front pin.
type LeafBracket struct {
	Families []string
	Form     LeafBracketForm
	Standoff units.Length // leaf's face to pin
	Height   units.Length
}

// StopForm is the form of a stop.
type StopForm uint8

// The forms of stop.
const (
	GroundStop StopForm = iota + 1
	PostStop
)

// Stop holds the closed leaf.
type Stop struct {
	Form   StopForm
	Height units.Opt[units.Length]
	Reach  units.Opt[units.Length] // widest gap bridged
}

// Lock holds the closed leaf at its free edge.
type Lock struct {
	Voltage units.Voltage
	Holding units.Force
	Current units.Current
}

// Remote is a hand-held transmitter.
type Remote struct{ Channels int }

// AccessDevice is a fixed device that opens the gate.
type AccessDevice struct {
	Kind    gate.AccessKind
	Link    gate.AccessLink
	Standby units.Current
}

// CrossingCover protects a cable on the surface.
type CrossingCover struct{ Length units.Length }

// Sign is a caution sign, or several in a pack.
type Sign struct{ Pieces int }

// Conduit is sold in steps of a length.
type Conduit struct{ Diameter, Step units.Length }

func (LinearDrive) kind() string      { return "linear drive" }
func (ArmDrive) kind() string         { return "arm drive" }
func (Controller) kind() string       { return "controller" }
func (PowerSupply) kind() string      { return "power supply" }
func (Battery) kind() string          { return "battery" }
func (Panel) kind() string            { return "panel" }
func (ChargeController) kind() string { return "charge controller" }
func (Cable) kind() string            { return "cable" }
func (RearBracket) kind() string      { return "rear bracket" }
func (LeafBracket) kind() string      { return "leaf bracket" }
func (Stop) kind() string             { return "stop" }
func (Lock) kind() string             { return "lock" }
func (Remote) kind() string           { return "remote" }
func (AccessDevice) kind() string     { return "access device" }
func (CrossingCover) kind() string    { return "crossing cover" }
func (Sign) kind() string             { return "sign" }
func (Conduit) kind() string          { return "conduit" }

// Kit is a set of parts sold under one SKU.
type Kit struct {
	SKU       string
	Name      string
	Price     int64
	Power     gate.PowerSource
	Lines     []KitLine
	Withdrawn bool
}

// KitLine is a part in a kit.
type KitLine struct {
	SKU      string
	Quantity int
}
