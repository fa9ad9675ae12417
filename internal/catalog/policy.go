package catalog

import "leafmoment.example/leafmoment/internal/units"

// WindRule is the rule for the wind's pressure on a leaf.
type WindRule uint8

// The wind rules.
const (
	WindASNZS1170 WindRule = iota + 1
	WindEN1991
	WindASCE7
)

// Policies are the supplier's judgement; every one is decided.
type Policies struct {
	LeastMargin          float64
	OperatingWind        units.Speed
	Gust                 units.Speed
	WindRule             WindRule
	MountingTolerance    int // mm on each dimension
	TravelReserve        units.Length
	LeastArm             units.Length
	MostOutOfPlumb       units.Angle
	MostOutOfLevel       float64 // height over leaf width
	LeastGroundClearance units.Length
	LeastSideClearance   units.Length
	FastestEdge          units.Speed
	MostSupplyDrop       float64 // share of the nominal voltage
	ConductorTemperature units.Temperature
	CableSlack           float64 // share of a run
	CableEnds            units.Length
	SupplyHeadroom       float64
	CyclesPerDay         float64
	CyclesPerPeakHour    float64
	LeafThickness        units.Length
	HingeSpacingShare    float64
	PostWidth            units.Length
	PierReviewSetback    units.Length
	MostPostDeflection   units.Length
	MostOverOpen         units.Angle
	LowVehicleClearance  units.Length
}
