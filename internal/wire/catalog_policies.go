package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/units"
)

func policies(m *pb.Policies) catalog.Policies {
	return catalog.Policies{
		LeastMargin:          m.GetLeastMargin(),
		OperatingWind:        units.Speed(m.GetOperatingWindMS()),
		Gust:                 units.Speed(m.GetGustMS()),
		WindRule:             catalog.WindRule(m.GetWindRule()),
		MountingTolerance:    int(m.GetMountingToleranceMm()),
		TravelReserve:        mm(m.GetTravelReserveMm()),
		LeastArm:             mm(m.GetLeastArmMm()),
		MostOutOfPlumb:       units.Degrees(m.GetMostOutOfPlumbDeg()),
		MostOutOfLevel:       m.GetMostOutOfLevelMmPerM() / 1000,
		LeastGroundClearance: mm(m.GetLeastGroundClearanceMm()),
		LeastSideClearance:   mm(m.GetLeastSideClearanceMm()),
		FastestEdge:          units.Speed(m.GetFastestEdgeMS()),
		MostSupplyDrop:       m.GetMostSupplyDropPercent() / 100,
		ConductorTemperature: units.Temperature(m.GetConductorTemperatureC()),
		CableSlack:           m.GetCableSlackPercent() / 100,
		CableEnds:            units.Length(m.GetCableEndsM()),
		SupplyHeadroom:       m.GetSupplyHeadroom(),
		CyclesPerDay:         m.GetCyclesPerDay(),
		CyclesPerPeakHour:    m.GetCyclesPerPeakHour(),
		LeafThickness:        mm(m.GetLeafThicknessMm()),
		HingeSpacingShare:    m.GetHingeSpacingShare(),
		PostWidth:            mm(m.GetPostWidthMm()),
		PierReviewSetback:    mm(m.GetPierReviewSetbackMm()),
		MostPostDeflection:   mm(m.GetMostPostDeflectionMm()),
		MostOverOpen:         units.Degrees(m.GetMostOverOpenDeg()),
		LowVehicleClearance:  mm(m.GetLowVehicleClearanceMm()),
	}
}

// PoliciesProto turns policies into the contract's.
func PoliciesProto(p catalog.Policies) *pb.Policies {
	exact := func(v float64) *float64 { return pointer(rounded(v, 1e-6)) }
	return &pb.Policies{
		LeastMargin:            exact(p.LeastMargin),
		OperatingWindMS:        exact(float64(p.OperatingWind)),
		GustMS:                 exact(float64(p.Gust)),
		WindRule:               pb.WindRule(p.WindRule),
		MountingToleranceMm:    pointer(int32(p.MountingTolerance)),
		TravelReserveMm:        exact(p.TravelReserve.Millimeters()),
		LeastArmMm:             exact(p.LeastArm.Millimeters()),
		MostOutOfPlumbDeg:      exact(p.MostOutOfPlumb.Degrees()),
		MostOutOfLevelMmPerM:   exact(p.MostOutOfLevel * 1000),
		LeastGroundClearanceMm: exact(p.LeastGroundClearance.Millimeters()),
		LeastSideClearanceMm:   exact(p.LeastSideClearance.Millimeters()),
		FastestEdgeMS:          exact(float64(p.FastestEdge)),
		MostSupplyDropPercent:  exact(p.MostSupplyDrop * 100),
		ConductorTemperatureC:  exact(float64(p.ConductorTemperature)),
		CableSlackPercent:      exact(p.CableSlack * 100),
		CableEndsM:             exact(float64(p.CableEnds)),
		SupplyHeadroom:         exact(p.SupplyHeadroom),
		CyclesPerDay:           exact(p.CyclesPerDay),
		CyclesPerPeakHour:      exact(p.CyclesPerPeakHour),
		LeafThicknessMm:        exact(p.LeafThickness.Millimeters()),
		HingeSpacingShare:      exact(p.HingeSpacingShare),
		PostWidthMm:            exact(p.PostWidth.Millimeters()),
		PierReviewSetbackMm:    exact(p.PierReviewSetback.Millimeters()),
		MostPostDeflectionMm:   exact(p.MostPostDeflection.Millimeters()),
		MostOverOpenDeg:        exact(p.MostOverOpen.Degrees()),
		LowVehicleClearanceMm:  exact(p.LowVehicleClearance.Millimeters()),
	}
}
