package rules

import (
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// SupplyRun is what is known about an option's supply run.
type SupplyRun struct {
	Length     units.Opt[units.Length]
	Laid       bool // a conductor lies there already
	LaidHolds  bool // and it holds
	LaidName   string
	CableSKU   string // the cable that does it; empty where none sold does
	CableName  string
	Longest    units.Length // of the thickest conductor sold
	LongestFor string       // that conductor
	Drop       float64      // share, of the laid or chosen conductor
	MostDrop   float64
}

// Supply judges a supply run.
func Supply(s SupplyRun) []finding.Finding {
	length, known := s.Length.Get()
	if !known {
		f := measuredOnly(found(finding.SupplyRunNotGiven, "gate.power.supply_run_m", "The length of the supply run wasn't given; %s carries it up to %.0f m.", s.LongestFor, float64(s.Longest)), float64(s.Longest), "m")
		return []finding.Finding{remedy(f, finding.Measure, "Measure the cable's way from the power supply to the controller (supply_run_m).")}
	}
	if s.Laid && s.LaidHolds {
		return nil
	}
	if s.CableSKU == "" {
		f := measured(found(finding.SupplyRunTooLong, "gate.power.supply_run_m", "No conductor sold carries this run; %s reaches furthest.", s.LongestFor),
			float64(length), float64(s.Longest), "m")
		f = remedy(f, finding.DoWork, "Have the power supply placed within %.0f m of the controller, and mains brought to it by a licensed electrician.", float64(s.Longest))
		return []finding.Finding{remedy(f, finding.ChangeWish, "Take a controller with a battery behind it, which asks less of the run.")}
	}
	if s.Laid {
		f := measured(found(finding.SupplyNeedsThicker, "gate.power.conductor", "The %s that lies there drops too much of the voltage over %.0f m.", s.LaidName, float64(length)),
			100*s.Drop, 100*s.MostDrop, "%")
		return []finding.Finding{remedyPart(f, s.CableSKU, "Lay %s instead.", s.CableName)}
	}
	return nil
}

// SupplyWork cautions about the work a supply run takes.
func SupplyWork(source gate.PowerSource) []finding.Finding {
	out := []finding.Finding{}
	if source != gate.SourceSolar {
		f := found(finding.MainsWorkLicensed, "gate.power.source", "Everything on the mains side of the power supply is work for a licensed electrician under local rules.")
		out = append(out, remedy(f, finding.DoWork, "Have the mains side done, protected and certified by a licensed electrician."))
	}
	f := found(finding.ProtectBuriedCable, "gate.power.supply_run_m", "Buried cable is to be protected against spades and wheels, and kept apart from mains cable.")
	return append(out, remedy(f, finding.DoWork, "Lay it in conduit, at the depth local rules ask for."))
}

// NoController says that the catalog has no controller for a drive.
func NoController(drive string) finding.Finding {
	f := found(finding.NoController, drive, "The catalog sells no controller that runs these drives on this gate.")
	return remedy(f, finding.ChangeWish, "Take another drive.")
}

// NoPowerSupply says that the catalog has no power supply of a voltage.
func NoPowerSupply(voltage units.Voltage) finding.Finding {
	f := measuredOnly(found(finding.NoPowerSupply, "gate.power.source", "The catalog sells no power supply of the drive's voltage."), float64(voltage), "V")
	return remedy(f, finding.ChangeWish, "Take a drive of another voltage.")
}

// SupplyTooSmall says that no power supply sold gives what is asked.
func SupplyTooSmall(asked, largest units.Power) finding.Finding {
	f := measured(found(finding.SupplyTooSmall, "gate.power.source", "No power supply sold gives what this option asks for."), float64(largest), float64(asked), "W")
	return remedy(f, finding.ChangeWish, "Take a controller with a battery behind it.")
}
