package rules

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func closingCases() []ruleCase {
	ground := units.Known(ChosenStop{SKU: "ST-G", Stop: catalog.Stop{Form: catalog.GroundStop, Height: length(policy.LowVehicleClearance)}})
	high := units.Known(ChosenStop{SKU: "ST-H", Stop: catalog.Stop{Form: catalog.GroundStop, Height: length(policy.LowVehicleClearance * justOver)}})
	post := units.Known(ChosenStop{SKU: "ST-P", Stop: catalog.Stop{Form: catalog.PostStop}})
	var none units.Opt[ChosenStop]
	judge := func(c gate.Closing, end catalog.EndSensing, stop units.Opt[ChosenStop]) []finding.Finding {
		return Stop(gate.Gate{Leaves: make([]gate.Leaf, 1), Closing: c}, end, stop, policy)
	}
	byCurrent := func(c gate.Closing, stop units.Opt[ChosenStop]) []finding.Finding {
		return judge(c, catalog.EndByCurrent, stop)
	}
	pair := func(o gate.Overlap, delays bool) []finding.Finding {
		return PairOrder(gate.Gate{Leaves: make([]gate.Leaf, 2), Closing: gate.Closing{Overlapping: o}}, delays)
	}
	low := gate.Closing{GroundStop: gate.Yes, LowVehicles: gate.Yes}
	const closing, possible, overlapping = "gate.closing", "gate.closing.ground_stop_possible", "gate.closing.overlapping_leaf"
	return []ruleCase{
		{code: finding.StopNeeded, subject: closing, findings: byCurrent(gate.Closing{}, ground), nearMiss: byCurrent(gate.Closing{StopPresent: gate.Yes}, ground)},
		{code: finding.StopNeeded, subject: closing, findings: byCurrent(gate.Closing{StopPresent: gate.No}, post), nearMiss: judge(gate.Closing{StopPresent: gate.No}, catalog.EndByLimitSwitches, post)},
		{code: finding.StopNeeded, subject: closing, findings: byCurrent(gate.Closing{}, none), nearMiss: byCurrent(gate.Closing{GroundStop: gate.No}, none)},
		{code: finding.StopNeeded, subject: closing, findings: Stop(gate.Gate{Leaves: make([]gate.Leaf, 2)}, catalog.EndByCurrent, ground, policy), nearMiss: judge(gate.Closing{}, catalog.EndByLimitSwitches, none)},
		{code: finding.StopImpossible, subject: possible, findings: byCurrent(gate.Closing{GroundStop: gate.No}, none), nearMiss: byCurrent(gate.Closing{}, none)},
		{code: finding.StopImpossible, subject: possible, findings: byCurrent(gate.Closing{GroundStop: gate.No}, none), nearMiss: byCurrent(gate.Closing{GroundStop: gate.No}, post)},
		{code: finding.StopNotConfirmed, subject: possible, findings: byCurrent(gate.Closing{}, ground), nearMiss: byCurrent(gate.Closing{GroundStop: gate.Yes}, ground)},
		{code: finding.StopNotConfirmed, subject: possible, findings: byCurrent(gate.Closing{}, ground), nearMiss: byCurrent(gate.Closing{}, post)},
		{code: finding.LowVehiclesOverStop, subject: "gate.closing.low_vehicles", findings: byCurrent(low, high), nearMiss: byCurrent(low, ground)},
		{code: finding.LowVehiclesOverStop, subject: "gate.closing.low_vehicles", findings: byCurrent(low, high), nearMiss: byCurrent(gate.Closing{GroundStop: gate.Yes}, high)},
		{code: finding.OpenStopNeeded, subject: "gate.opening.angle_deg", findings: one(OpenStop(0, units.Known("ST-O"))), always: true},
		{code: finding.OpenStopNeeded, subject: "gate.opening.angle_deg", findings: one(OpenStop(1, noSKU)), always: true},
		{code: finding.LeafOverlaps, subject: overlapping, findings: pair(gate.OverlapFirst, true), nearMiss: pair(gate.OverlapNone, true)},
		{code: finding.LeafOverlaps, subject: overlapping, findings: pair(gate.OverlapSecond, false), nearMiss: pair(gate.OverlapUnknown, true)},
		{code: finding.CloseOneLeafFirst, subject: overlapping, findings: pair(gate.OverlapNone, false), nearMiss: PairOrder(gate.Gate{Leaves: make([]gate.Leaf, 1)}, false)},
	}
}

func loadCases() []ruleCase {
	mass := []catalog.MassPoint{{Width: 2, Mass: 200}, {Width: 4, Mass: 100}}
	solid := []catalog.SolidityPoint{{Width: 2, Solidity: 1}, {Width: 4, Solidity: 0.5}}
	rated := func(width units.Length, leafMass units.Mass, solidity float64) []finding.Finding {
		return Rating(0, mass, solid, width, leafMass, solidity)
	}
	atLimit := rated(4, 100, 0.5)
	margin := func(v float64) []finding.Finding { return Margin(0, v, 45, policy.LeastMargin, 12, 15) }
	speed := units.Known[units.Speed]
	var unstated units.Opt[units.Speed]
	hold := func(closed, open units.Opt[units.Speed], lock string) []finding.Finding {
		return Hold(0, Holding{Gust: 36, Closed: closed, Open: open, Locked: speed(50), LockSKU: lock})
	}
	held := hold(speed(36), speed(36), "")
	temperature := func(low, high units.Temperature) []finding.Finding {
		return Temperature(units.Known(low), units.Known(high), units.Known(units.Temperature(-20)), units.Known(units.Temperature(50)))
	}
	unrated := Temperature(units.Known(units.Temperature(-60)), units.Known(units.Temperature(60)), noTemp, noTemp)
	const width, gust = "gate.leaves[0].width_mm", "gate.site.gust_m_s"
	return []ruleCase{
		{code: finding.LeafTooLong, subject: width, findings: rated(4*justOver, 10, 0.1), nearMiss: atLimit},
		{code: finding.LeafTooHeavy, subject: "gate.leaves[0].mass_kg", findings: rated(4, 100*justOver, 0.5), nearMiss: atLimit},
		{code: finding.LeafTooHeavy, subject: "gate.leaves[0].mass_kg", findings: rated(3, 151, 0.5), nearMiss: rated(3, 149, 0.5)}, // 150 kg halfway between the points
		{code: finding.LeafTooSolid, subject: "gate.leaves[0].solidity", findings: rated(4, 100, 0.5*justOver), nearMiss: atLimit},
		{code: finding.MarginBelowOne, subject: width, findings: margin(0.9999), nearMiss: margin(1)},
		{code: finding.MarginBelowPolicy, subject: width, findings: margin(1), nearMiss: margin(policy.LeastMargin)},
		{code: finding.MarginBelowPolicy, subject: width, findings: margin(1.4999), nearMiss: margin(0.9999)},
		{code: finding.WindLimit, subject: width, findings: margin(policy.LeastMargin), nearMiss: margin(1.4999)},
		{code: finding.GustNeedsLock, subject: gust, findings: hold(speed(35.999), speed(36), "LK-1"), nearMiss: held},
		{code: finding.GustNeedsLock, subject: gust, findings: hold(speed(20), speed(36), "LK-1"), nearMiss: hold(speed(20), speed(36), "")},
		{code: finding.GustBeatsHolding, subject: gust, findings: hold(speed(35.999), speed(36), ""), nearMiss: held},
		{code: finding.GustBeatsHolding, subject: gust, findings: hold(unstated, speed(36), ""), nearMiss: hold(unstated, speed(36), "LK-1")},
		{code: finding.HoldingNotStated, subject: gust, findings: hold(unstated, speed(36), "LK-1"), nearMiss: hold(speed(0), speed(36), "LK-1")},
		{code: finding.GustWhenOpen, subject: gust, findings: hold(speed(36), speed(35.999), ""), nearMiss: held},
		{code: finding.GustWhenOpen, subject: gust, findings: hold(speed(36), unstated, ""), nearMiss: held},
		{code: finding.DutyExceeded, subject: "gate.use.cycles_per_peak_hour", findings: Duty(20*justOver, 20), nearMiss: Duty(20, 20)},
		{code: finding.EdgeTooFast, subject: width, findings: EdgeSpeed(0, policy.FastestEdge*justOver, policy), nearMiss: EdgeSpeed(0, policy.FastestEdge, policy)},
		{code: finding.EdgeTooFast, subject: "gate.leaves[1].width_mm", findings: EdgeSpeed(1, 1, policy), nearMiss: EdgeSpeed(1, 0, policy)},
		{code: finding.WindRuleUndefined, subject: "gate.leaves[0].solidity", findings: one(WindRule(0, "it isn't defined under a solidity of 0.2")), always: true},
		{code: finding.Stalls, subject: width, findings: one(Stall(0, units.Degrees(70), true)), always: true},
		{code: finding.Stalls, subject: width, findings: one(Stall(0, 0, false)), always: true},
		{code: finding.OutsideTemperature, subject: "gate.site.lowest_temperature_c", findings: temperature(-20.1, 50), nearMiss: temperature(-20, 50)},
		{code: finding.OutsideTemperature, subject: "gate.site.highest_temperature_c", findings: temperature(-20, 50.1), nearMiss: unrated},
		{code: finding.MountingLimit, subject: "configuration.mountings[0]", findings: one(BrokenLimit(0, "The moment arm gets too short, 40 mm.", 40, 60, "mm", "Set B 20 mm larger.")), always: true},
		{code: finding.MountingLimit, subject: "configuration.mountings[1]", findings: one(BrokenLimit(1, "100% of the stroke is used.", 100, 95, "%", "Leave 5% of it.")), always: true},
	}
}
