package finding

// Code names a kind of finding. Its number is its number in the contract and
// never changes.
type Code uint16

// Leaf and hinges.
const (
	HingesRising       Code = 1
	HingesSpring       Code = 2
	LatchToRemove      Code = 3
	DropBoltToRemove   Code = 4
	LeafDrifts         Code = 5
	LeafDrags          Code = 6
	HingesBind         Code = 7
	HingesWorn         Code = 8
	OutOfPlumb         Code = 9
	OutOfLevel         Code = 10
	GroundRises        Code = 11
	MassEstimated      Code = 12
	RailMissing        Code = 13
	RailsNotGiven      Code = 14
	RoundTubeFrame     Code = 15
	BoltBracketThrough Code = 16
)

// Posts.
const (
	PierNeedsReview   Code = 30
	PierBlocksDrive   Code = 31
	PierSuitsArmDrive Code = 32
	RoundPost         Code = 33
	PostTooSlender    Code = 34
	FixThroughPost    Code = 35
	PostFootUncertain Code = 36
)

// Opening.
const (
	OutwardNeedsPush    Code = 50
	DriveInDriveway     Code = 51
	OverPublicWay       Code = 52
	AngleOutOfReach     Code = 53
	SweepObstructed     Code = 54
	LeafStrikesPier     Code = 55
	MountingOutOfReach  Code = 56
	OpeningTimeOverWish Code = 57
	ClearWidthTooSmall  Code = 58
	DriveSideNotFree    Code = 59
)

// Closing.
const (
	StopNeeded          Code = 70
	StopImpossible      Code = 71
	LowVehiclesOverStop Code = 72
	LeafOverlaps        Code = 73
	CloseOneLeafFirst   Code = 74
	StopNotConfirmed    Code = 75
	OpenStopNeeded      Code = 76
)

// Load.
const (
	LeafTooLong        Code = 90
	LeafTooHeavy       Code = 91
	LeafTooSolid       Code = 92
	MarginBelowOne     Code = 93
	MarginBelowPolicy  Code = 94
	WindLimit          Code = 95
	GustNeedsLock      Code = 96
	GustBeatsHolding   Code = 97
	HoldingNotStated   Code = 98
	GustWhenOpen       Code = 99
	DutyExceeded       Code = 100
	EdgeTooFast        Code = 101
	WindRuleUndefined  Code = 102
	Stalls             Code = 103
	OutsideTemperature Code = 104
	MountingLimit      Code = 105
)

// Mounting height.
const (
	MountAtMidHeight Code = 120
	MountLow         Code = 121
)

// Supply.
const (
	SupplyRunTooLong   Code = 130
	SupplyNeedsThicker Code = 131
	SupplyTooSmall     Code = 132
	SupplyRunNotGiven  Code = 133
	ProtectBuriedCable Code = 134
	MainsWorkLicensed  Code = 135
	NoPowerSupply      Code = 136
	NoController       Code = 137
)

// Pair.
const (
	CableMustCross     Code = 150
	SurfaceCrossing    Code = 151
	CrossingNotDecided Code = 152
)

// Access.
const (
	RemotesIncluded  Code = 160
	MoreRemotes      Code = 161
	EntryNeedsExit   Code = 162
	DeviceNotSold    Code = 163
	WiredDeviceCable Code = 164
	PeopleOnFoot     Code = 165
	ExistingDrive    Code = 166
)

// Safety.
const (
	CautionSigns         Code = 180
	ForceTest            Code = 181
	EntrapmentProtection Code = 182
	ManualRelease        Code = 183
	ChildrenAndPets      Code = 184
	KeepSwingClear       Code = 185
)

// The answer itself.
const (
	FieldNotEvaluated    Code = 200
	FieldWithoutEffect   Code = 201
	UnknownFieldsIgnored Code = 202
	OverBudget           Code = 203
	NoDriveSuits         Code = 205
)

type entry struct {
	code     Code
	name     string
	severity Severity
	meaning  string
}

// registry is the one list of findings; the contract's enum mirrors it.
var registry = []entry{
	{HingesRising, "HINGES_RISING", Condition, "Rising hinges lift the leaf out of the drive's plane."},
	{HingesSpring, "HINGES_SPRING", Condition, "Spring hinges work against the drive."},
	{LatchToRemove, "LATCH_TO_REMOVE", Condition, "A latch would hold the leaf against the drive."},
	{DropBoltToRemove, "DROP_BOLT_TO_REMOVE", Condition, "A drop bolt would hold the leaf against the drive."},
	{LeafDrifts, "LEAF_DRIFTS", Condition, "The leaf doesn't stay where it is left."},
	{LeafDrags, "LEAF_DRAGS", Condition, "The leaf touches the ground on its way."},
	{HingesBind, "HINGES_BIND", Condition, "The hinges bind."},
	{HingesWorn, "HINGES_WORN", Caution, "The hinges have play."},
	{OutOfPlumb, "OUT_OF_PLUMB", Condition, "The hinge axis leans more than the policy allows."},
	{OutOfLevel, "OUT_OF_LEVEL", Condition, "The free edge hangs low or high by more than the policy allows."},
	{GroundRises, "GROUND_RISES", Blocker, "The ground rises into the swing."},
	{MassEstimated, "MASS_ESTIMATED", Caution, "The mass is estimated from the construction."},
	{RailMissing, "RAIL_MISSING", Condition, "No rail stands where the leaf bracket must go."},
	{RailsNotGiven, "RAILS_NOT_GIVEN", Advice, "Where the rails are wasn't said."},
	{RoundTubeFrame, "ROUND_TUBE_FRAME", Condition, "A round-tube frame needs a clamp bracket."},
	{BoltBracketThrough, "BOLT_BRACKET_THROUGH", Caution, "The leaf bracket is to be bolted through."},

	{PierNeedsReview, "PIER_NEEDS_REVIEW", Review, "Where the rear bracket can sit on the pier isn't known well enough."},
	{PierBlocksDrive, "PIER_BLOCKS_DRIVE", Blocker, "The pier leaves this drive no mounting."},
	{PierSuitsArmDrive, "PIER_SUITS_ARM_DRIVE", Advice, "An arm drive would suit a pier this thick."},
	{RoundPost, "ROUND_POST", Condition, "A round post needs a curved bracket or a flat."},
	{PostTooSlender, "POST_TOO_SLENDER", Condition, "The post gives too much under the drive's reaction."},
	{FixThroughPost, "FIX_THROUGH_POST", Caution, "Fixings go through the post or are welded."},
	{PostFootUncertain, "POST_FOOT_UNCERTAIN", Caution, "The post's foot may not stand the drive's reaction."},

	{OutwardNeedsPush, "OUTWARD_NEEDS_PUSH", Condition, "A gate that opens away from the drive needs the push bracket."},
	{DriveInDriveway, "DRIVE_IN_DRIVEWAY", Caution, "The drive stands in the driveway when the gate is open."},
	{OverPublicWay, "OVER_PUBLIC_WAY", Review, "The leaf or drive swings over or near a public way."},
	{AngleOutOfReach, "ANGLE_OUT_OF_REACH", Blocker, "The wanted angle is beyond the drive's reach."},
	{SweepObstructed, "SWEEP_OBSTRUCTED", Blocker, "Something stands in the leaf's swing."},
	{LeafStrikesPier, "LEAF_STRIKES_PIER", Blocker, "The leaf meets its own pier before it is open."},
	{MountingOutOfReach, "MOUNTING_OUT_OF_REACH", Blocker, "No position of the brackets satisfies the limits."},
	{OpeningTimeOverWish, "OPENING_TIME_OVER_WISH", Condition, "The gate opens more slowly than wished."},
	{ClearWidthTooSmall, "CLEAR_WIDTH_TOO_SMALL", Blocker, "The opening left clear is narrower than wanted."},
	{DriveSideNotFree, "DRIVE_SIDE_NOT_FREE", Caution, "The drive stands outside, within reach of passers-by."},

	{StopNeeded, "STOP_NEEDED", Condition, "A stop is needed where the leaf closes."},
	{StopImpossible, "STOP_IMPOSSIBLE", Blocker, "The drive needs a stop and none can be fitted."},
	{LowVehiclesOverStop, "LOW_VEHICLES_OVER_STOP", Condition, "Low cars cross a ground stop that is too high for them."},
	{LeafOverlaps, "LEAF_OVERLAPS", Advice, "Which leaf of the pair laps over the other."},
	{CloseOneLeafFirst, "CLOSE_ONE_LEAF_FIRST", Advice, "The leaves of the pair close one after the other."},
	{OpenStopNeeded, "OPEN_STOP_NEEDED", Condition, "A stop is needed where the leaf opens."},
	{StopNotConfirmed, "STOP_NOT_CONFIRMED", Caution, "Whether a stop can be fixed wasn't said."},

	{LeafTooLong, "LEAF_TOO_LONG", Blocker, "The leaf is longer than the drive's rating."},
	{LeafTooHeavy, "LEAF_TOO_HEAVY", Blocker, "The leaf is heavier than the drive's rating at this width."},
	{LeafTooSolid, "LEAF_TOO_SOLID", Blocker, "The leaf is more solid than the drive's rating at this width."},
	{MarginBelowOne, "MARGIN_BELOW_ONE", Blocker, "The drive can't move the leaf in the operating wind."},
	{MarginBelowPolicy, "MARGIN_BELOW_POLICY", Blocker, "The margin is under what the supplier asks for."},
	{WindLimit, "WIND_LIMIT", Caution, "The wind up to which the gate still moves."},
	{GustNeedsLock, "GUST_NEEDS_LOCK", Condition, "The gust beats the drive's holding; a lock holds."},
	{GustBeatsHolding, "GUST_BEATS_HOLDING", Blocker, "The gust beats the drive's holding and every lock sold."},
	{HoldingNotStated, "HOLDING_NOT_STATED", Condition, "The drive's holding force isn't stated; a lock is needed."},
	{GustWhenOpen, "GUST_WHEN_OPEN", Caution, "The gust beats the drive's holding while the gate stands open."},
	{DutyExceeded, "DUTY_EXCEEDED", Blocker, "The gate moves more often than the drive is rated for."},
	{EdgeTooFast, "EDGE_TOO_FAST", Blocker, "The free edge moves faster than the policy allows."},
	{WindRuleUndefined, "WIND_RULE_UNDEFINED", Review, "The wind rule isn't defined for this leaf."},
	{Stalls, "STALLS", Blocker, "The drive stalls on its way."},
	{OutsideTemperature, "OUTSIDE_TEMPERATURE", Blocker, "The site is colder or hotter than the drive is rated for."},
	{MountingLimit, "MOUNTING_LIMIT", Blocker, "The mounting breaks a limit."},

	{MountAtMidHeight, "MOUNT_AT_MID_HEIGHT", Advice, "A single leaf takes its drive at mid height."},
	{MountLow, "MOUNT_LOW", Advice, "A pair takes its drives low."},

	{SupplyRunTooLong, "SUPPLY_RUN_TOO_LONG", Blocker, "The supply run is too long for every conductor sold."},
	{SupplyNeedsThicker, "SUPPLY_NEEDS_THICKER", Condition, "The conductor that lies there is too thin for the run."},
	{SupplyTooSmall, "SUPPLY_TOO_SMALL", Blocker, "No power supply sold is large enough."},
	{SupplyRunNotGiven, "SUPPLY_RUN_NOT_GIVEN", Caution, "The length of the supply run wasn't given."},
	{ProtectBuriedCable, "PROTECT_BURIED_CABLE", Caution, "Buried cable is to be protected."},
	{MainsWorkLicensed, "MAINS_WORK_LICENSED", Caution, "Mains work is for licensed people."},
	{NoPowerSupply, "NO_POWER_SUPPLY", Blocker, "The catalog has no power supply of the drive's voltage."},
	{NoController, "NO_CONTROLLER", Blocker, "The catalog has no controller for this drive."},

	{CableMustCross, "CABLE_MUST_CROSS", Condition, "The second leaf's cable must cross the driveway."},
	{SurfaceCrossing, "SURFACE_CROSSING", Condition, "The cable crosses on the surface, under a cover."},
	{CrossingNotDecided, "CROSSING_NOT_DECIDED", Condition, "Whether a cable can be buried across the driveway wasn't said."},

	{RemotesIncluded, "REMOTES_INCLUDED", Advice, "How many remotes the set brings."},
	{MoreRemotes, "MORE_REMOTES", Advice, "More remotes are wanted than the set brings."},
	{EntryNeedsExit, "ENTRY_NEEDS_EXIT", Condition, "Whoever enters by a device outside needs something to leave by."},
	{DeviceNotSold, "DEVICE_NOT_SOLD", Condition, "The catalog has no such access device."},
	{WiredDeviceCable, "WIRED_DEVICE_CABLE", Advice, "A wired device needs a cable to the controller."},
	{PeopleOnFoot, "PEOPLE_ON_FOOT", Caution, "People walk through the opening that the gate closes."},
	{ExistingDrive, "EXISTING_DRIVE", Caution, "A drive that is there now must come off first."},

	{CautionSigns, "CAUTION_SIGNS", Caution, "Caution signs go on both sides."},
	{ForceTest, "FORCE_TEST", Caution, "The finished gate is to be force-tested."},
	{EntrapmentProtection, "ENTRAPMENT_PROTECTION", Caution, "Protect against entrapment as local rules ask."},
	{ManualRelease, "MANUAL_RELEASE", Caution, "Everybody must know the manual release."},
	{ChildrenAndPets, "CHILDREN_AND_PETS", Caution, "Children and animals are about."},
	{KeepSwingClear, "KEEP_SWING_CLEAR", Caution, "Keep people and things out of the swing."},

	{FieldNotEvaluated, "FIELD_NOT_EVALUATED", Review, "Something was described that this version doesn't evaluate."},
	{FieldWithoutEffect, "FIELD_WITHOUT_EFFECT", Advice, "Something was described that has no bearing on this answer."},
	{UnknownFieldsIgnored, "UNKNOWN_FIELDS_IGNORED", Review, "The request held fields this version doesn't know."},
	{OverBudget, "OVER_BUDGET", Advice, "The parts cost more than the customer wants to spend."},
	{NoDriveSuits, "NO_DRIVE_SUITS", Blocker, "No drive in the catalog suits."},
}

// byCode is an array because sorting and judging look severities up often.
var byCode = func() (table [256]entry) {
	for _, e := range registry {
		table[e.code] = e
	}
	return table
}()

func (c Code) entry() entry {
	if int(c) >= len(byCode) {
		return entry{}
	}
	return byCode[c]
}

// Codes lists every registered code in the registry's order.
func Codes() []Code {
	out := make([]Code, len(registry))
	for i, e := range registry {
		out[i] = e.code
	}
	return out
}

// Severity is the code's severity; 0 for a code that isn't registered.
func (c Code) Severity() Severity { return c.entry().severity }

// String is the code's name in the contract, without its enum prefix.
func (c Code) String() string {
	if e := c.entry(); e.name != "" {
		return e.name
	}
	return "UNREGISTERED"
}

// Meaning says in a sentence what the code stands for.
func (c Code) Meaning() string { return c.entry().meaning }
