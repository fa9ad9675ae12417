// Package gate is the description of a gate as its owner would give it: what
// is known, in typed quantities, and what isn't.
//
// Plan frame: origin on the hinge axis of the first leaf, x along the closed
// leaf towards its free edge, y towards the side the gate opens towards.
package gate

import "leafmoment.example/leafmoment/internal/units"

// Answer is yes, no, or not known.
type Answer uint8

// The three answers; the zero value is unknown.
const (
	AnswerUnknown Answer = iota
	No
	Yes
)

// Gate is one leaf or a pair, and everything around it.
type Gate struct {
	Leaves    []Leaf // one, or two that close on each other
	Opening   Opening
	Ground    Ground
	Obstacles []Obstacle
	Closing   Closing
	Driveway  Driveway
	Site      Site
	Power     Power
	Use       Use
	Access    Access
	Wishes    Wishes
}

// Pair reports whether two leaves close on each other.
func (g Gate) Pair() bool { return len(g.Leaves) == 2 }

// Opening is how a gate opens.
type Opening struct {
	Direction  Direction
	Angle      units.Opt[units.Angle] // leaf angle when open
	WantedTime units.Opt[units.Time]  // longest opening time accepted
	DriveSide  DriveSide
}

// Direction is into the property or out of it.
type Direction uint8

// The two directions.
const (
	DirectionUnknown Direction = iota
	Inward
	Outward
)

// DriveSide is the side of the gate the drive may stand on.
type DriveSide uint8

// The sides; unknown means inside, as an assumption.
const (
	DriveSideUnknown DriveSide = iota
	DriveInside
	DriveOutside
)

// PullMounting reports whether the drive stands on the side the leaf opens
// towards. It is the one place where inside and outside become pull and push.
func (o Opening) PullMounting() bool {
	inside := o.DriveSide != DriveOutside
	return inside == (o.Direction == Inward)
}

// Ground lies under the swing; heights are over the ground at the first
// leaf's hinge axis.
type Ground struct {
	SlopeAlong  units.Opt[float64] // rise over run along the closed leaf
	SlopeAcross units.Opt[float64] // rise over run towards the opening side
	Spots       []SpotHeight
}

// SpotHeight is a surveyed height.
type SpotHeight struct{ X, Y, Height units.Length }

// Obstacle stands near the swing: an outline, or a disc where Radius is known.
type Obstacle struct {
	Kind    ObstacleKind
	Outline []Point
	Center  Point
	Radius  units.Opt[units.Length]
	Height  units.Opt[units.Length]
}

// Point is a point in plan.
type Point struct{ X, Y units.Length }

// ObstacleKind says what an obstacle is.
type ObstacleKind uint8

// The kinds of obstacle.
const (
	ObstacleUnknown ObstacleKind = iota
	ObstacleWall
	ObstacleFence
	ObstacleBed
	ObstacleKerb
	ObstacleParkedCar
	ObstacleTree
	ObstacleKeepClear
	ObstacleOther
)

// Closing is what a gate closes onto.
type Closing struct {
	Onto        ClosesOnto
	Gap         units.Opt[units.Length]
	StopPresent Answer
	GroundStop  Answer // a stop can be fixed to the ground
	Overlapping Overlap
	LowVehicles Answer
}

// ClosesOnto is what the leaf meets.
type ClosesOnto uint8

// What a leaf may meet.
const (
	OntoUnknown ClosesOnto = iota
	OntoPost
	OntoSecondLeaf
	OntoNothing
)

// Overlap says which leaf of a pair laps over the other.
type Overlap uint8

// The overlaps.
const (
	OverlapUnknown Overlap = iota
	OverlapNone
	OverlapFirst
	OverlapSecond
)

// Driveway is the way through the gate.
type Driveway struct {
	Width             units.Opt[units.Length]
	ClearWidthWanted  units.Opt[units.Length]
	JambOffset        units.Opt[units.Length]
	CableCanBeBuried  Answer
	PublicWayOutside  Answer
	PublicWayDistance units.Opt[units.Length]
}

// Site is where a gate stands, and its winds.
type Site struct {
	Latitude, Longitude units.Opt[units.Angle]
	Gust                units.Opt[units.Speed] // 3 s at the leaf's mid height
	OperatingWind       units.Opt[units.Speed] // likewise
	MeanWind10m         units.Opt[units.Speed] // 10 min at 10 m, open country
	Terrain             Terrain
	LowestTemperature   units.Opt[units.Temperature]
	HighestTemperature  units.Opt[units.Temperature]
}

// Terrain is a category of EN 1991-1-4 table 4.1.
type Terrain uint8

// The terrain categories.
const (
	TerrainUnknown Terrain = iota
	TerrainSea             // category 0
	TerrainFlat            // I
	TerrainOpen            // II
	TerrainSuburb          // III
	TerrainTown            // IV
)

// Power is how a gate is powered.
type Power struct {
	Source       PowerSource
	SupplyRun    units.Opt[units.Length]
	Conductor    units.Opt[Conductor]
	Outage       units.Opt[units.Time]
	OutageCycles units.Opt[int]
	Solar        units.Opt[SolarSite]
}

// PowerSource is mains or sun.
type PowerSource uint8

// The sources; unknown means mains, as an assumption.
const (
	SourceUnknown PowerSource = iota
	SourceMains
	SourceSolar
)

// Conductor is a copper conductor by its standard size: a cross-section for
// IEC 60228, a gauge number for AWG.
type Conductor struct {
	Standard ConductorStandard
	Area     units.Area
	Gauge    int
}

// ConductorStandard is the standard a conductor is sold by.
type ConductorStandard uint8

// The conductor standards.
const (
	ConductorUnknown ConductorStandard = iota
	IEC60228Class2
	IEC60228Class5
	AWG
)

// SolarSite is a place for a panel.
type SolarSite struct {
	Monthly  []units.Energy // mean daily irradiation on the level, J/m2, January first; twelve or none
	SunHours units.Opt[float64]
	Shade    units.Opt[float64]
	Bearing  units.Opt[units.Angle]
	Tilt     units.Opt[units.Angle]
	CableRun units.Opt[units.Length]
}

// Use is how a gate is used.
type Use struct {
	CyclesPerDay      units.Opt[float64]
	CyclesPerPeakHour units.Opt[float64]
	PeopleOnFoot      Answer
	ChildrenOrPets    Answer
	ReplacesDrive     Answer
}

// Access is who must get in and out.
type Access struct {
	Remotes units.Opt[int]
	Devices []AccessWish
}

// AccessWish is a fixed device wanted.
type AccessWish struct {
	Kind  AccessKind
	Place AccessPlace
	Link  AccessLink
	Cable units.Opt[units.Length]
}

// AccessKind is a kind of access device.
type AccessKind uint8

// The kinds of access device.
const (
	AccessUnknown AccessKind = iota
	Keypad
	PushButton
	CardReader
	Intercom
	VehicleDetector
)

// AccessPlace is outside, to come in, or inside, to leave.
type AccessPlace uint8

// The places.
const (
	PlaceUnknown AccessPlace = iota
	Entry
	Exit
)

// AccessLink is by cable or by radio.
type AccessLink uint8

// The links; unknown means either will do.
const (
	LinkUnknown AccessLink = iota
	Wired
	Wireless
)

// Wishes are what the customer would like.
type Wishes struct {
	RankBy RankBy
	Drive  DriveKind
	Budget units.Opt[int64] // minor units of the catalog's currency
}

// RankBy is what options of the same verdict are ranked by.
type RankBy uint8

// The orders; the zero value ranks by price.
const (
	RankByPrice RankBy = iota
	RankByMargin
	RankByTime
)

// DriveKind is a kind of drive; the zero value is any.
type DriveKind uint8

// The kinds of drive.
const (
	AnyDrive DriveKind = iota
	LinearDrive
	ArmDrive
)
