package rules

import (
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Crossing judges how the second leaf's cable gets across the driveway. length
// is its way, cover the surface cover sold, if one is.
func Crossing(g gate.Gate, length units.Length, cover units.Opt[string]) []finding.Finding {
	if !g.Pair() {
		return nil
	}
	const subject = "gate.driveway.cable_can_be_buried"
	must := measuredOnly(found(finding.CableMustCross, subject, "The second leaf's cable crosses the driveway, %.1f m.", float64(length)), float64(length), "m")
	switch g.Driveway.CableCanBeBuried {
	case gate.Yes:
		return []finding.Finding{remedy(must, finding.DoWork, "Bury it in conduit, at the depth local rules ask for.")}
	case gate.No:
		f := measuredOnly(found(finding.SurfaceCrossing, subject, "The second leaf's cable can't be buried and crosses the driveway on the surface."), float64(length), "m")
		if sku, sold := cover.Get(); sold {
			f = remedyPart(f, sku, "Lay it under a crossing cover.")
		} else {
			f = remedy(f, finding.DoWork, "Protect it by a cover that wheels can cross; the catalog sells none.")
		}
		return []finding.Finding{f}
	}
	f := measuredOnly(found(finding.CrossingNotDecided, subject, "Whether a cable can be buried across the driveway wasn't said."), float64(length), "m")
	f = remedy(f, finding.DoWork, "Bury it in conduit, or lay it under a crossing cover.")
	return []finding.Finding{remedy(f, finding.Photograph, "Photograph the driveway's surface between the leaves.")}
}
