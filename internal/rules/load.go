package rules

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/units"
)

// Rating judges a leaf against a drive's rating tables, which are their maker's
// limit: outside them a drive is out, whatever the physics says. mass is the
// leaf's at its unfavorable end.
func Rating(i int, mass []catalog.MassPoint, solid []catalog.SolidityPoint, width units.Length, leafMass units.Mass, solidity float64) []finding.Finding {
	longest := catalog.LongestLeaf(mass, solid)
	if width > longest {
		f := measured(found(finding.LeafTooLong, LeafPath(i, "width_mm"), "The leaf is longer than the drive is rated for."),
			width.Millimeters(), longest.Millimeters(), "mm")
		return []finding.Finding{remedy(f, finding.ChangeWish, "Take a drive rated for longer leaves, or make the gate a pair.")}
	}
	var out []finding.Finding
	if most, ok := catalog.MostMass(mass, width); ok && leafMass > most {
		f := measured(found(finding.LeafTooHeavy, LeafPath(i, "mass_kg"), "At this width the drive is rated for less mass."),
			float64(leafMass), float64(most), "kg")
		out = append(out, remedy(f, finding.ChangeWish, "Take a heavier drive, or a leaf of %.0f kg at most.", float64(most)))
	}
	if most, ok := catalog.MostSolidity(solid, width); ok && solidity > most {
		f := measured(found(finding.LeafTooSolid, LeafPath(i, "solidity"), "At this width the drive is rated for a more open leaf, for the wind's sake."),
			solidity, most, "1")
		out = append(out, remedy(f, finding.ChangeWish, "Take a heavier drive, or an infill with a solidity of %.2f at most.", most))
	}
	return out
}

// Margin judges the least margin over the swing in the operating wind, the
// mounting off by its building tolerance at its worst, and tells the wind up to
// which the leaf still moves.
func Margin(i int, withTolerance, angle, least float64, wind, limit units.Speed) []finding.Finding {
	switch {
	case withTolerance < 1:
		f := measured(found(finding.MarginBelowOne, LeafPath(i, "width_mm"), "At %.0f degrees the drive can't be relied on to move the leaf in a wind of %.1f m/s.", angle, float64(wind)),
			withTolerance, 1, "1")
		f = remedy(f, finding.ChangeWish, "Take a drive with more thrust, or a more open infill.")
		return []finding.Finding{remedy(f, finding.ChangeWish, "Don't ask the gate to move in more than %.1f m/s (operating_wind_m_s).", float64(limit))}
	case withTolerance < least:
		f := measured(found(finding.MarginBelowPolicy, LeafPath(i, "width_mm"), "At %.0f degrees the drive has less thrust in hand than the supplier asks for.", angle),
			withTolerance, least, "1")
		return []finding.Finding{remedy(f, finding.ChangeWish, "Take a drive with more thrust, or a more open infill.")}
	}
	f := measured(found(finding.WindLimit, LeafPath(i, "width_mm"), "The leaf moves in gusts up to %.1f m/s; past that the drive may stop and must not be forced.", float64(limit)),
		float64(wind), float64(limit), "m/s")
	return []finding.Finding{remedy(f, finding.ChangeWish, "Leave the gate shut in stronger wind.")}
}

// Holding is what a gate holds against.
type Holding struct {
	Gust       units.Speed
	Closed     units.Opt[units.Speed] // unknown: the catalog doesn't state it
	Open       units.Opt[units.Speed]
	Locked     units.Opt[units.Speed] // with the lock below
	LockSKU    string                 // the lock that holds the gust; empty where none is sold that does
	LockNeeded bool
}

// Hold judges a leaf against the gust, closed and open.
func Hold(i int, h Holding) []finding.Finding {
	var out []finding.Finding
	closed, stated := h.Closed.Get()
	gust := float64(h.Gust)
	switch {
	case stated && closed >= h.Gust:
	case h.LockSKU == "":
		f := found(finding.GustBeatsHolding, "gate.site.gust_m_s", "A gust of %.0f m/s beats the drive's holding on leaf %d, and no lock sold holds it.", gust, i+1)
		if stated {
			f = measured(f, float64(closed), gust, "m/s")
		}
		f = remedy(f, finding.ChangeWish, "Take a more open infill or a smaller leaf.")
		out = append(out, remedy(f, finding.ChangeWish, "Accept a smaller gust if the site is sheltered (gust_m_s)."))
	case !stated:
		f := found(finding.HoldingNotStated, "gate.site.gust_m_s", "The drive's holding force isn't stated, so nothing says it holds leaf %d shut in a gust of %.0f m/s.", i+1, gust)
		out = append(out, remedyPart(f, h.LockSKU, "Fit a lock, which holds to %.0f m/s.", float64(h.Locked.Or(0))))
	default:
		f := measured(found(finding.GustNeedsLock, "gate.site.gust_m_s", "A gust of %.0f m/s beats the drive's holding on leaf %d, %.0f m/s.", gust, i+1, float64(closed)),
			float64(closed), gust, "m/s")
		out = append(out, remedyPart(f, h.LockSKU, "Fit a lock, which holds to %.0f m/s.", float64(h.Locked.Or(0))))
	}
	open, stated := h.Open.Get()
	if stated && open >= h.Gust {
		return out
	}
	f := found(finding.GustWhenOpen, "gate.site.gust_m_s", "Open, leaf %d isn't sure to stay in a gust of %.0f m/s.", i+1, gust)
	if stated {
		f = measured(f, float64(open), gust, "m/s")
	}
	f = remedy(f, finding.ChangeWish, "Keep the gate shut in a storm.")
	return append(out, remedy(f, finding.DoWork, "Have a hold-open catch fitted that the drive releases."))
}

// Duty judges how often the gate moves in its busiest hour.
func Duty(asked, rated float64) []finding.Finding {
	if asked <= rated {
		return nil
	}
	f := measured(found(finding.DutyExceeded, "gate.use.cycles_per_peak_hour", "The gate moves more often in its busiest hour than the drive is rated for."),
		asked, rated, "1/h")
	return []finding.Finding{remedy(f, finding.ChangeWish, "Take a drive rated for more cycles an hour.")}
}

// EdgeSpeed judges how fast the free edge moves.
func EdgeSpeed(i int, fastest units.Speed, p catalog.Policies) []finding.Finding {
	if fastest <= p.FastestEdge {
		return nil
	}
	f := measured(found(finding.EdgeTooFast, LeafPath(i, "width_mm"), "The free edge of leaf %d moves faster than the supplier allows.", i+1),
		float64(fastest), float64(p.FastestEdge), "m/s")
	return []finding.Finding{remedy(f, finding.ChangeWish, "Take a slower drive.")}
}

// Stall says that a drive stalls on its way.
func Stall(i int, angle units.Angle, opening bool) finding.Finding {
	way := "closing"
	if opening {
		way = "opening"
	}
	f := measuredOnly(found(finding.Stalls, LeafPath(i, "width_mm"), "The drive stalls at %.0f degrees while %s.", angle.Degrees(), way), angle.Degrees(), "deg")
	return remedy(f, finding.ChangeWish, "Take a drive with more thrust.")
}

// Temperature judges the site's air against what the drive is rated for.
func Temperature(lowest, highest, ratedLow, ratedHigh units.Opt[units.Temperature]) []finding.Finding {
	var out []finding.Finding
	if low, known := lowest.Get(); known {
		if rated, known := ratedLow.Get(); known && low < rated {
			f := measured(found(finding.OutsideTemperature, "gate.site.lowest_temperature_c", "The site gets colder than the drive is rated for."), float64(low), float64(rated), "degC")
			out = append(out, remedy(f, finding.ChangeWish, "Take a drive rated for colder air."))
		}
	}
	if high, known := highest.Get(); known {
		if rated, known := ratedHigh.Get(); known && high > rated {
			f := measured(found(finding.OutsideTemperature, "gate.site.highest_temperature_c", "The site gets hotter than the drive is rated for."), float64(high), float64(rated), "degC")
			out = append(out, remedy(f, finding.ChangeWish, "Take a drive rated for hotter air, or shade it."))
		}
	}
	return out
}

// WindRule says that the supplier's wind rule doesn't cover a leaf.
func WindRule(i int, why string) finding.Finding {
	f := found(finding.WindRuleUndefined, LeafPath(i, "solidity"), "The supplier's wind rule doesn't cover this leaf: %s.", why)
	return remedy(f, finding.ChangeWish, "Have the supplier choose a rule that is defined at every solidity.")
}

// BrokenLimit says that a mounting somebody measured breaks a limit.
func BrokenLimit(i int, message string, value, limit float64, unit, advice string) finding.Finding {
	f := measured(found(finding.MountingLimit, mountingPath(i), message), value, limit, unit)
	return remedy(f, finding.DoWork, advice)
}

func mountingPath(i int) string {
	if i == 0 {
		return "configuration.mountings[0]"
	}
	return "configuration.mountings[1]"
}
