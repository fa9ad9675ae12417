package linkage

import "strings"

// Limits is a set of limits of a mounting.
type Limits uint16

const (
	// LimitClosedTravel: the ram's end, less the reserve, when closed.
	LimitClosedTravel Limits = 1 << iota
	// LimitOpenTravel: the ram's end, less the reserve, when open.
	LimitOpenTravel
	// LimitRamEndEarly: the ram's end, which is to set the open position, comes
	// before the wanted angle.
	LimitRamEndEarly
	// LimitRamEndLate: it doesn't come within the swing.
	LimitRamEndLate
	// LimitArm: the least arm, the dead point included.
	LimitArm
	// LimitStroke: the stroke the wanted run time leaves.
	LimitStroke
	// LimitRearSweep and LimitFrontSweep: how far the pins may turn.
	LimitRearSweep
	LimitFrontSweep
	// LimitRangeA, LimitRangeB and LimitRangeC: an end of that dimension's range.
	// Nothing but Solution.AtRangeEnd holds them.
	LimitRangeA
	LimitRangeB
	LimitRangeC
)

var limitNames = [...]string{
	"closed travel", "open travel", "ram end early", "ram end late", "arm", "stroke",
	"rear sweep", "front sweep", "range of a", "range of b", "range of c",
}

// Has reports whether l holds any of the others.
func (l Limits) Has(others Limits) bool { return l&others != 0 }

// String names the limits, for tests and logs.
func (l Limits) String() string {
	var names []string
	for i, name := range limitNames {
		if l.Has(1 << i) {
			names = append(names, name)
		}
	}
	if names == nil {
		return "none"
	}
	return strings.Join(names, ", ")
}

// limitOf is the limit a kind of row stands for.
var limitOf = [kinds]Limits{
	closedArmRow: LimitArm, openArmRow: LimitArm, closedRow: LimitClosedTravel, openRow: LimitOpenTravel,
	ramEndRow: LimitRamEndEarly, ramEndSwing: LimitRamEndLate, strokeRow: LimitStroke,
	rearSweepRow: LimitRearSweep, frontSweepRow: LimitFrontSweep,
}

// within is the set of limits with less slack than that, m.
func (q *prepared) within(j *judgement, slack float64) (set Limits) {
	for k := range j.slack {
		if j.slack[k].value < slack {
			set |= limitOf[k]
		}
	}
	if q.closedByStroke && set.Has(LimitClosedTravel) {
		set = set&^LimitClosedTravel | LimitStroke
	}
	return set
}
