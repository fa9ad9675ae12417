package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/units"
)

func linearDrive(m *pb.LinearDriveSpec) catalog.LinearDrive {
	d := catalog.LinearDrive{
		Family:                   m.GetFamily(),
		Voltage:                  units.Voltage(m.GetVoltageV()),
		Shortest:                 mm(m.GetShortestMm()),
		Longest:                  mm(m.GetLongestMm()),
		ThrustExtending:          units.Force(m.GetThrustExtendingN()),
		ThrustRetracting:         units.Force(m.GetThrustRetractingN()),
		HoldingAgainstExtension:  optional(m.HoldingAgainstExtensionN, as[units.Force]),
		HoldingAgainstRetraction: optional(m.HoldingAgainstRetractionN, as[units.Force]),
		RodAcceleration:          units.Acceleration(m.GetRodAccelerationMmS2() / 1000),
		SlowDown:                 mm(m.GetSlowDownMm()),
		SlowDownShare:            m.GetSlowDownShare(),
		End:                      catalog.EndSensing(m.GetEndSensing()),
		MassRating:               massRating(m.GetMassRating()),
		SolidityRating:           solidityRating(m.GetSolidityRating()),
		HousingRadius:            mm(m.GetHousingRadiusMm()),
		HousingLength:            mm(m.GetHousingLengthMm()),
		RodRadius:                mm(m.GetRodRadiusMm()),
		Overhang:                 mm(m.GetOverhangMm()),
		RearSweep:                optional(m.RearSweepDeg, units.Degrees),
		FrontSweep:               optional(m.FrontSweepDeg, units.Degrees),
		ManualRelease:            m.GetManualRelease(),
		LowestTemperature:        optional(m.LowestTemperatureC, as[units.Temperature]),
		HighestTemperature:       optional(m.HighestTemperatureC, as[units.Temperature]),
		IngressProtection:        m.GetIngressProtection(),
		CyclesPerHour:            m.GetCyclesPerHour(),
	}
	for _, p := range m.GetLoadPoints() {
		d.Load = append(d.Load, catalog.LoadPoint{
			Thrust: units.Force(p.GetThrustN()), Speed: units.Speed(p.GetRodSpeedMmS() / 1000), Current: units.Current(p.GetCurrentA()),
		})
	}
	return d
}

func armDrive(m *pb.ArmDriveSpec) catalog.ArmDrive {
	return catalog.ArmDrive{
		Family:         m.GetFamily(),
		Voltage:        units.Voltage(m.GetVoltageV()),
		Crank:          mm(m.GetCrankMm()),
		Link:           mm(m.GetLinkMm()),
		Torque:         units.Torque(m.GetTorqueNM()),
		Holding:        optional(m.HoldingNM, as[units.Torque]),
		Speed:          units.AngularSpeed(units.Degrees(m.GetSpeedDegS())),
		Current:        units.Current(m.GetCurrentA()),
		CrankSweep:     units.Degrees(m.GetCrankSweepDeg()),
		End:            catalog.EndSensing(m.GetEndSensing()),
		MassRating:     massRating(m.GetMassRating()),
		SolidityRating: solidityRating(m.GetSolidityRating()),
		ManualRelease:  m.GetManualRelease(),
		CyclesPerHour:  m.GetCyclesPerHour(),
	}
}

func controller(m *pb.ControllerSpec) catalog.Controller {
	return catalog.Controller{
		Families:           m.GetFamilies(),
		Voltage:            units.Voltage(m.GetVoltageV()),
		LeastVoltage:       units.Voltage(m.GetLeastVoltageV()),
		Drives:             int(m.GetDrives()),
		Standby:            milliamperes(m.GetStandbyMa()),
		ChargeCurrent:      optional(m.ChargeCurrentA, as[units.Current]),
		DelaysSecondLeaf:   m.GetDelaysSecondLeaf(),
		TakesLimitSwitches: m.GetTakesLimitSwitches(),
	}
}

func rearBracket(m *pb.RearBracketSpec) catalog.RearBracket {
	b := catalog.RearBracket{
		Families:    m.GetFamilies(),
		Form:        catalog.RearBracketForm(m.GetForm()),
		PlateWidth:  mm(m.GetPlateWidthMm()),
		PlateHeight: mm(m.GetPlateHeightMm()),
		Reach:       wholeRange(m.GetReach()),
	}
	for _, r := range m.GetStandoffs() {
		b.Standoffs = append(b.Standoffs, wholeRange(r))
	}
	if d := m.GetPostDiameter(); d != nil {
		b.PostDiameter = units.Known(wholeRange(d))
	}
	return b
}

func wholeRange(m *pb.MillimeterRange) catalog.Range {
	return catalog.Range{Low: int(m.GetLowMm()), High: int(m.GetHighMm())}
}

func massRating(list []*pb.MassRatingPoint) []catalog.MassPoint {
	out := make([]catalog.MassPoint, len(list))
	for i, p := range list {
		out[i] = catalog.MassPoint{Width: mm(p.GetWidthMm()), Mass: units.Mass(p.GetMassKg())}
	}
	return out
}

func solidityRating(list []*pb.SolidityRatingPoint) []catalog.SolidityPoint {
	out := make([]catalog.SolidityPoint, len(list))
	for i, p := range list {
		out[i] = catalog.SolidityPoint{Width: mm(p.GetWidthMm()), Solidity: p.GetSolidity()}
	}
	return out
}

func milliamperes(v float64) units.Current { return units.Current(v / 1000) }
