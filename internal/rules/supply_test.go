package rules

import (
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func supplyCases() []ruleCase {
	run := SupplyRun{
		Length: length(40), LaidName: "1.5 mm2", CableSKU: "CB-4", CableName: "4 mm2 cable",
		Longest: 90, LongestFor: "6 mm2", Drop: 0.12, MostDrop: 0.1,
	}
	with := func(change func(*SupplyRun)) []finding.Finding {
		s := run
		change(&s)
		return Supply(s)
	}
	carried := Supply(run)
	notGiven := with(func(s *SupplyRun) { s.Length = noLength })
	tooLong := with(func(s *SupplyRun) { s.CableSKU = "" })
	thicker := with(func(s *SupplyRun) { s.Laid = true })
	holds := with(func(s *SupplyRun) { s.Laid, s.LaidHolds, s.CableSKU = true, true, "" })
	crossing := func(a gate.Answer, cover units.Opt[string]) []finding.Finding {
		return Crossing(gate.Gate{Leaves: make([]gate.Leaf, 2), Driveway: gate.Driveway{CableCanBeBuried: a}}, 4, cover)
	}
	single := Crossing(gate.Gate{Leaves: make([]gate.Leaf, 1), Driveway: gate.Driveway{CableCanBeBuried: gate.Yes}}, 4, noSKU)
	const supplyRun, buried, source = "gate.power.supply_run_m", "gate.driveway.cable_can_be_buried", "gate.power.source"
	return []ruleCase{
		{code: finding.SupplyRunNotGiven, subject: supplyRun, findings: notGiven, nearMiss: carried},
		{code: finding.SupplyRunTooLong, subject: supplyRun, findings: tooLong, nearMiss: carried},
		{code: finding.SupplyRunTooLong, subject: supplyRun, findings: tooLong, nearMiss: holds},
		{code: finding.SupplyRunTooLong, subject: supplyRun, findings: with(func(s *SupplyRun) { s.Laid, s.CableSKU = true, "" }), nearMiss: thicker},
		{code: finding.SupplyNeedsThicker, subject: "gate.power.conductor", findings: thicker, nearMiss: with(func(s *SupplyRun) { s.Laid, s.LaidHolds = true, true })},
		{code: finding.SupplyNeedsThicker, subject: "gate.power.conductor", findings: thicker, nearMiss: carried},
		{code: finding.SupplyTooSmall, subject: source, findings: one(SupplyTooSmall(300, 240)), always: true},
		{code: finding.ProtectBuriedCable, subject: supplyRun, findings: SupplyWork(gate.SourceSolar), always: true},
		{code: finding.MainsWorkLicensed, subject: source, findings: SupplyWork(gate.SourceMains), nearMiss: SupplyWork(gate.SourceSolar)},
		{code: finding.MainsWorkLicensed, subject: source, findings: SupplyWork(gate.SourceUnknown), nearMiss: SupplyWork(gate.SourceSolar)},
		{code: finding.NoPowerSupply, subject: source, findings: one(NoPowerSupply(24)), always: true},
		{code: finding.NoController, subject: "DR-1", findings: one(NoController("DR-1")), always: true},

		{code: finding.CableMustCross, subject: buried, findings: crossing(gate.Yes, noSKU), nearMiss: single},
		{code: finding.SurfaceCrossing, subject: buried, findings: crossing(gate.No, units.Known("CC-1")), nearMiss: crossing(gate.Yes, units.Known("CC-1"))},
		{code: finding.SurfaceCrossing, subject: buried, findings: crossing(gate.No, noSKU), nearMiss: crossing(gate.AnswerUnknown, noSKU)},
		{code: finding.CrossingNotDecided, subject: buried, findings: crossing(gate.AnswerUnknown, noSKU), nearMiss: crossing(gate.No, noSKU)},
	}
}

func accessCases() []ruleCase {
	remotes := func(wanted, brought int, sku units.Opt[string]) []finding.Finding {
		return Remotes(units.Known(wanted), brought, sku)
	}
	const devices = "gate.access.devices"
	keypad := gate.AccessWish{Kind: gate.Keypad, Place: gate.Entry, Link: gate.Wired}
	button := gate.AccessWish{Kind: gate.PushButton, Place: gate.Exit, Link: gate.Wireless}
	measuredKeypad, radioKeypad := keypad, keypad
	measuredKeypad.Cable = length(6)
	radioKeypad.Link = gate.Wireless
	judge := func(sold units.Opt[string], wishes ...gate.AccessWish) []finding.Finding {
		skus := make([]units.Opt[string], len(wishes))
		for i := range skus {
			skus[i] = sold
		}
		return Devices(gate.Gate{Access: gate.Access{Devices: wishes}}, skus)
	}
	sold := units.Known("AD-1")
	bothWays := judge(sold, button, radioKeypad)
	quiet := Use(gate.Use{PeopleOnFoot: gate.No, ChildrenOrPets: gate.No, ReplacesDrive: gate.No})
	return []ruleCase{
		{code: finding.RemotesIncluded, subject: "gate.access.remote_count", findings: remotes(2, 2, noSKU), nearMiss: remotes(3, 2, noSKU)},
		{code: finding.RemotesIncluded, subject: "gate.access.remote_count", findings: Remotes(units.Opt[int]{}, 2, noSKU), nearMiss: Remotes(units.Opt[int]{}, 0, noSKU)},
		{code: finding.MoreRemotes, subject: "gate.access.remote_count", findings: remotes(3, 2, units.Known("RM-1")), nearMiss: remotes(2, 2, units.Known("RM-1"))},
		{code: finding.MoreRemotes, subject: "gate.access.remote_count", findings: remotes(1, 0, noSKU), nearMiss: remotes(0, 0, noSKU)},
		{code: finding.EntryNeedsExit, subject: devices, findings: judge(sold, keypad), nearMiss: bothWays},
		{code: finding.EntryNeedsExit, subject: devices, findings: judge(sold, keypad, radioKeypad), nearMiss: judge(sold, button)},
		{code: finding.DeviceNotSold, subject: devices + "[0]", findings: judge(noSKU, keypad), nearMiss: bothWays},
		{code: finding.WiredDeviceCable, subject: devices + "[1]", findings: judge(sold, button, keypad), nearMiss: bothWays},
		{code: finding.WiredDeviceCable, subject: devices + "[0]", findings: judge(sold, measuredKeypad), nearMiss: judge(noSKU, keypad)},
		{code: finding.PeopleOnFoot, subject: "gate.use.people_on_foot", findings: Use(gate.Use{PeopleOnFoot: gate.Yes}), nearMiss: Use(gate.Use{})},
		{code: finding.ExistingDrive, subject: "gate.use.replaces_drive", findings: Use(gate.Use{ReplacesDrive: gate.Yes}), nearMiss: Use(gate.Use{})},
		{code: finding.ChildrenAndPets, subject: "gate.use.children_or_pets", findings: Use(gate.Use{ChildrenOrPets: gate.Yes}), nearMiss: Use(gate.Use{})},
		{code: finding.ChildrenAndPets, subject: "gate.use.children_or_pets", findings: Use(gate.Use{ChildrenOrPets: gate.Yes}), nearMiss: quiet},
		{code: finding.PeopleOnFoot, subject: "gate.use.people_on_foot", findings: Use(gate.Use{PeopleOnFoot: gate.Yes}), nearMiss: quiet},
		{code: finding.ExistingDrive, subject: "gate.use.replaces_drive", findings: Use(gate.Use{ReplacesDrive: gate.Yes}), nearMiss: quiet},
	}
}

func answerCases() []ruleCase {
	safety := Safety(units.Known("SG-1"))
	return []ruleCase{
		{code: finding.CautionSigns, subject: "gate", findings: safety, always: true},
		{code: finding.CautionSigns, subject: "gate", findings: Safety(noSKU), always: true},
		{code: finding.ForceTest, subject: "gate", findings: safety, always: true},
		{code: finding.EntrapmentProtection, subject: "gate", findings: safety, always: true},
		{code: finding.KeepSwingClear, subject: "gate", findings: safety, always: true},
		{code: finding.ManualRelease, subject: "DR-1", findings: Release("DR-1", true), always: true},
		{code: finding.ManualRelease, subject: "DR-1", findings: Release("DR-1", false), always: true},
		{code: finding.FieldNotEvaluated, subject: "gate.power.solar", findings: one(NotEvaluated("gate.power.solar", "Solar power")), always: true},
		{code: finding.FieldWithoutEffect, subject: "gate.site.latitude_deg", findings: one(WithoutEffect("gate.site.latitude_deg", "100% of it is ignored.")), always: true},
		{code: finding.UnknownFieldsIgnored, subject: "gate", findings: one(UnknownFields()), always: true},
		{code: finding.OverBudget, subject: "gate.wishes.budget_minor", findings: Budget(100001, 100000, "EUR"), nearMiss: Budget(100000, 100000, "EUR")},
		{code: finding.NoDriveSuits, subject: "gate", findings: one(NoDriveSuits()), always: true},
	}
}
