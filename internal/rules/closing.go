package rules

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// ChosenStop is the stop picked for a gate's closed position.
type ChosenStop struct {
	SKU  string
	Stop catalog.Stop
}

// Stop judges what the closed leaf, or the leaves of a pair, rest against. A
// drive that senses its end by current finds it only at a stop; one with limit
// switches needs none. stop is what the catalog sells for the place, if it
// does.
func Stop(g gate.Gate, end catalog.EndSensing, stop units.Opt[ChosenStop], p catalog.Policies) []finding.Finding {
	if g.Closing.StopPresent == gate.Yes || end == catalog.EndByLimitSwitches {
		return nil
	}
	chosen, sold := stop.Get()
	if !sold {
		if g.Closing.GroundStop == gate.No {
			f := found(finding.StopImpossible, "gate.closing.ground_stop_possible", "The drive senses its end by the motor current at a stop, and no stop can be fitted.")
			f = remedy(f, finding.ChangeWish, "Take a drive with limit switches.")
			return []finding.Finding{remedy(f, finding.DoWork, "Have a closing post set that a stop can be fixed to.")}
		}
		f := found(finding.StopNeeded, "gate.closing", "The drive senses its end by the motor current at a stop.")
		return []finding.Finding{remedy(f, finding.DoWork, "Have a stop made that holds the closed leaf; the catalog sells none for this place.")}
	}
	where := "on the closing post, across the gap"
	switch {
	case g.Pair():
		where = "on the ground in the middle, under both free edges"
	case chosen.Stop.Form == catalog.GroundStop:
		where = "on the ground under the free edge"
	}
	f := found(finding.StopNeeded, "gate.closing", "The drive senses its end by the motor current at a stop; one is needed "+where+".")
	out := []finding.Finding{remedyPart(f, chosen.SKU, "Fit the stop "+where+".")}
	if chosen.Stop.Form != catalog.GroundStop {
		return out
	}
	if g.Closing.GroundStop == gate.AnswerUnknown {
		f := found(finding.StopNotConfirmed, "gate.closing.ground_stop_possible", "Whether a stop can be fixed to the ground wasn't said.")
		out = append(out, remedy(f, finding.Photograph, "Photograph the ground under the closed free edge."))
	}
	if height, known := chosen.Stop.Height.Get(); known && g.Closing.LowVehicles == gate.Yes && height > p.LowVehicleClearance {
		f := measured(found(finding.LowVehiclesOverStop, "gate.closing.low_vehicles", "Low cars cross a ground stop %.0f mm high.", height.Millimeters()),
			height.Millimeters(), p.LowVehicleClearance.Millimeters(), "mm")
		out = append(out, remedy(f, finding.DoWork, "Set the stop into the ground, to %.0f mm at most.", p.LowVehicleClearance.Millimeters()))
	}
	return out
}

// OpenStop says that a drive's own end can't set the open position with the
// building tolerance there is, so a stop must.
func OpenStop(i int, sku units.Opt[string]) finding.Finding {
	f := found(finding.OpenStopNeeded, "gate.opening.angle_deg", "No mounting lets the drive's own end set the open position of leaf %d closely enough; a stop must.", i+1)
	if s, sold := sku.Get(); sold {
		return remedyPart(f, s, "Fit a stop where the open leaf comes to rest.")
	}
	return remedy(f, finding.DoWork, "Have a stop made where the open leaf comes to rest.")
}

// PairOrder says which leaf of a pair laps over the other, and that they close
// one after the other.
func PairOrder(g gate.Gate, delays bool) []finding.Finding {
	if !g.Pair() {
		return nil
	}
	first, last := "either leaf", "the other"
	switch g.Closing.Overlapping {
	case gate.OverlapFirst:
		first, last = "the second leaf", "the first, which laps over it"
	case gate.OverlapSecond:
		first, last = "the first leaf", "the second, which laps over it"
	}
	out := []finding.Finding{}
	switch g.Closing.Overlapping {
	case gate.OverlapFirst, gate.OverlapSecond:
		out = append(out, found(finding.LeafOverlaps, "gate.closing.overlapping_leaf", "One leaf laps over the other: it must open first and close last."))
	}
	text := "Close " + first + " before " + last + "."
	f := found(finding.CloseOneLeafFirst, "gate.closing.overlapping_leaf", "The leaves of a pair close one after the other, so that they can't jam and nothing is caught between both.")
	if !delays {
		text += " The controller doesn't do this by itself; see its maker's instructions."
	}
	return append(out, remedy(f, finding.DoWork, text))
}
