package rules

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Remotes compares the remotes wanted with those an option brings.
func Remotes(wanted units.Opt[int], brought int, sku units.Opt[string]) []finding.Finding {
	n, known := wanted.Get()
	if !known || n <= brought {
		if brought == 0 {
			return nil
		}
		return []finding.Finding{measuredOnly(found(finding.RemotesIncluded, "gate.access.remote_count", "The kit brings %d remotes.", brought), float64(brought), "1")}
	}
	f := measured(found(finding.MoreRemotes, "gate.access.remote_count", "%d remotes are wanted, %d come with the kit.", n, brought), float64(n), float64(brought), "1")
	if s, sold := sku.Get(); sold {
		f = remedyPart(f, s, "Add %d remotes.", n-brought)
	}
	return []finding.Finding{f}
}

// Devices judges the fixed access devices wanted. sold says, device by device,
// which part serves it.
func Devices(g gate.Gate, sold []units.Opt[string]) []finding.Finding {
	var out []finding.Finding
	entry, exit := false, false
	for i, d := range g.Access.Devices {
		at := fmt.Sprintf("gate.access.devices[%d]", i)
		entry = entry || d.Place == gate.Entry
		exit = exit || d.Place == gate.Exit
		if _, ok := sold[i].Get(); !ok {
			f := found(finding.DeviceNotSold, at, "The catalog sells no such access device.")
			out = append(out, remedy(f, finding.ChangeWish, "Take another kind or another link."))
			continue
		}
		if d.Link != gate.Wired {
			continue
		}
		f := found(finding.WiredDeviceCable, at, "A wired device needs a cable to the controller.")
		if length, known := d.Cable.Get(); known {
			f = measuredOnly(f, float64(length), "m")
		} else {
			f = remedy(f, finding.Measure, "Measure the cable's way from the device to the controller (cable_m).")
		}
		out = append(out, f)
	}
	if entry && !exit {
		f := found(finding.EntryNeedsExit, "gate.access.devices", "Whoever comes in by a device outside, on foot or without a remote, must be able to leave.")
		out = append(out, remedy(f, finding.ChangeWish, "Add a push button or a vehicle detector inside."))
	}
	return out
}

// Use cautions about how the opening is used.
func Use(u gate.Use) []finding.Finding {
	var out []finding.Finding
	if u.PeopleOnFoot == gate.Yes {
		f := found(finding.PeopleOnFoot, "gate.use.people_on_foot", "People on foot and a powered leaf don't belong in the same opening.")
		out = append(out, remedy(f, finding.DoWork, "Give people on foot a door of their own beside the gate."))
	}
	if u.ReplacesDrive == gate.Yes {
		f := found(finding.ExistingDrive, "gate.use.replaces_drive", "The drive that is there now must come off, and the leaf be tried by hand, before anything is measured.")
		out = append(out, remedy(f, finding.Photograph, "Photograph the old drive, its brackets and its wiring before it comes off."))
	}
	if u.ChildrenOrPets == gate.Yes {
		f := found(finding.ChildrenAndPets, "gate.use.children_or_pets", "Children and animals don't keep clear of a moving leaf.")
		out = append(out, remedy(f, finding.DoWork, "Protect both faces and the hinge side of the leaf, and keep remotes and buttons out of children's reach."))
	}
	return out
}
