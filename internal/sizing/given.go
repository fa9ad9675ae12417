package sizing

import (
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/rules"
)

// givenButUnused says of everything that was described and doesn't shape this
// answer either that it isn't evaluated yet or that it has no bearing, so that
// nothing given passes in silence.
func givenButUnused(g gate.Gate) []finding.Finding {
	var out []finding.Finding
	notYet := func(given bool, field, what string) {
		if given {
			out = append(out, rules.NotEvaluated(field, what))
		}
	}
	noBearing := func(given bool, field, why string) {
		if given {
			out = append(out, rules.WithoutEffect(field, why))
		}
	}
	solar := g.Power.Source == gate.SourceSolar
	notYet(solar, "gate.power.source", "A solar supply")
	notYet(g.Power.Outage.IsKnown(), "gate.power.outage_hours", "Bridging an outage")
	notYet(g.Wishes.Drive == gate.ArmDrive, "gate.wishes.drive_kind", "An arm drive")

	if !solar {
		noBearing(g.Power.Solar.IsKnown(), "gate.power.solar", "The gate runs on mains, so its sun doesn't matter here.")
		noBearing(g.Site.Latitude.IsKnown() || g.Site.Longitude.IsKnown(), "gate.site.latitude_deg", "Where the gate stands bears on a solar supply only.")
		noBearing(g.Use.CyclesPerDay.IsKnown(), "gate.use.cycles_per_day", "Cycles a day bear on a battery or a solar supply; on mains the busiest hour counts.")
	}
	noBearing(g.Site.Terrain != gate.TerrainUnknown && !g.Site.MeanWind10m.IsKnown(), "gate.site.terrain", "The terrain only converts a mean wind (mean_wind_10m_m_s); a gust at the gate has it in already.")
	for i, l := range g.Leaves {
		noBearing(l.Mass.IsKnown() && l.Construction.IsKnown(), rules.LeafPath(i, "construction"), "The mass was given, so the construction doesn't estimate it.")
		noBearing(l.Solidity.IsKnown() && l.Infill != gate.InfillUnknown, rules.LeafPath(i, "infill"), "The solidity was given, so the infill doesn't estimate it.")
		noBearing(l.LeanDirection.IsKnown() && l.OutOfPlumb.Or(0) == 0, rules.LeafPath(i, "lean_direction_deg"), "A direction of lean needs an angle of lean (out_of_plumb_deg).")
	}
	public := g.Opening.Direction == gate.Outward || g.Opening.DriveSide == gate.DriveOutside
	noBearing(g.Driveway.PublicWayOutside == gate.Yes && !public, "gate.driveway.public_way_outside", "The gate opens inward with its drive inside, away from the public way.")
	noBearing(!g.Pair() && g.Driveway.CableCanBeBuried != gate.AnswerUnknown, "gate.driveway.cable_can_be_buried", "A single leaf needs no cable across the driveway.")
	return out
}
