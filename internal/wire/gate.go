package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// Gate turns a described gate into the domain's. The message has passed the
// contract's field rules; what can only be told from two fields together is
// returned as faults, besides those of gate.Gate.Check.
func Gate(m *pb.Gate) (gate.Gate, []gate.Fault) {
	var faults []gate.Fault
	g := gate.Gate{
		Opening:  opening(m.GetOpening()),
		Ground:   ground(m.GetGround()),
		Closing:  closing(m.GetClosing()),
		Driveway: driveway(m.GetDriveway()),
		Site:     site(m.GetSite()),
		Access:   access(m.GetAccess()),
		Wishes:   wishes(m.GetWishes()),
		Use:      use(m.GetUse()),
	}
	for _, l := range m.GetLeaves() {
		g.Leaves = append(g.Leaves, leaf(l))
	}
	for _, o := range m.GetObstacles() {
		g.Obstacles = append(g.Obstacles, obstacle(o))
	}
	g.Power, faults = power(m.GetPower())
	return g, faults
}

func opening(m *pb.Opening) gate.Opening {
	if m == nil {
		return gate.Opening{}
	}
	return gate.Opening{
		Direction:  gate.Direction(m.GetDirection()),
		Angle:      optional(m.AngleDeg, units.Degrees),
		WantedTime: optional(m.WantedTimeS, as[units.Time]),
		DriveSide:  gate.DriveSide(m.GetDriveSide()),
	}
}

func ground(m *pb.Ground) gate.Ground {
	if m == nil {
		return gate.Ground{}
	}
	g := gate.Ground{
		SlopeAlong:  optional(m.SlopeAlongPercent, percent),
		SlopeAcross: optional(m.SlopeAcrossPercent, percent),
	}
	for _, s := range m.GetSpots() {
		g.Spots = append(g.Spots, gate.SpotHeight{X: mm(s.GetXMm()), Y: mm(s.GetYMm()), Height: mm(s.GetHeightMm())})
	}
	return g
}

func obstacle(m *pb.Obstacle) gate.Obstacle {
	o := gate.Obstacle{
		Kind:   gate.ObstacleKind(m.GetKind()),
		Center: point(m.GetCenter()),
		Radius: optional(m.RadiusMm, mm),
		Height: optional(m.HeightMm, mm),
	}
	for _, p := range m.GetOutline() {
		o.Outline = append(o.Outline, point(p))
	}
	return o
}

func point(m *pb.PlanPoint) gate.Point { return gate.Point{X: mm(m.GetXMm()), Y: mm(m.GetYMm())} }

func closing(m *pb.Closing) gate.Closing {
	if m == nil {
		return gate.Closing{}
	}
	return gate.Closing{
		Onto:        gate.ClosesOnto(m.GetClosesOnto()),
		Gap:         optional(m.GapMm, mm),
		StopPresent: gate.Answer(m.GetStopPresent()),
		GroundStop:  gate.Answer(m.GetGroundStopPossible()),
		Overlapping: gate.Overlap(m.GetOverlappingLeaf()),
		LowVehicles: gate.Answer(m.GetLowVehicles()),
	}
}

func use(m *pb.Use) gate.Use {
	if m == nil {
		return gate.Use{}
	}
	return gate.Use{
		CyclesPerDay:      optional(m.CyclesPerDay, same),
		CyclesPerPeakHour: optional(m.CyclesPerPeakHour, same),
		PeopleOnFoot:      gate.Answer(m.GetPeopleOnFoot()),
		ChildrenOrPets:    gate.Answer(m.GetChildrenOrPets()),
		ReplacesDrive:     gate.Answer(m.GetReplacesDrive()),
	}
}

func driveway(m *pb.Driveway) gate.Driveway {
	if m == nil {
		return gate.Driveway{}
	}
	return gate.Driveway{
		Width:             optional(m.WidthMm, mm),
		ClearWidthWanted:  optional(m.ClearWidthWantedMm, mm),
		JambOffset:        optional(m.JambOffsetMm, mm),
		CableCanBeBuried:  gate.Answer(m.GetCableCanBeBuried()),
		PublicWayOutside:  gate.Answer(m.GetPublicWayOutside()),
		PublicWayDistance: optional(m.PublicWayDistanceMm, mm),
	}
}

func site(m *pb.Site) gate.Site {
	if m == nil {
		return gate.Site{}
	}
	return gate.Site{
		Latitude:           optional(m.LatitudeDeg, units.Degrees),
		Longitude:          optional(m.LongitudeDeg, units.Degrees),
		Gust:               optional(m.GustMS, as[units.Speed]),
		OperatingWind:      optional(m.OperatingWindMS, as[units.Speed]),
		MeanWind10m:        optional(m.MeanWind_10MMS, as[units.Speed]),
		Terrain:            gate.Terrain(m.GetTerrain()),
		LowestTemperature:  optional(m.LowestTemperatureC, as[units.Temperature]),
		HighestTemperature: optional(m.HighestTemperatureC, as[units.Temperature]),
	}
}

func power(m *pb.Power) (gate.Power, []gate.Fault) {
	if m == nil {
		return gate.Power{}, nil
	}
	p := gate.Power{
		Source:       gate.PowerSource(m.GetSource()),
		SupplyRun:    optional(m.SupplyRunM, as[units.Length]),
		Outage:       optional(m.OutageHours, hours),
		OutageCycles: optional(m.OutageCycles, whole),
	}
	var faults []gate.Fault
	if c := m.GetConductor(); c != nil {
		p.Conductor = units.Known(conductor(c))
		switch {
		case c.GetStandard() == pb.ConductorStandard_CONDUCTOR_STANDARD_AWG && c.Awg == nil:
			faults = append(faults, gate.Fault{Field: "power.conductor.awg", Reason: gate.Missing, Text: "an AWG conductor is given by its gauge"})
		case c.GetStandard() != pb.ConductorStandard_CONDUCTOR_STANDARD_AWG && c.Awg != nil:
			faults = append(faults, gate.Fault{Field: "power.conductor.awg", Reason: gate.Contradiction, Text: "a gauge belongs to an AWG conductor"})
		}
	}
	if s := m.GetSolar(); s != nil {
		p.Solar = units.Known(solar(s))
	}
	return p, faults
}

func solar(m *pb.SolarSite) gate.SolarSite {
	s := gate.SolarSite{
		SunHours: optional(m.FullSunHours, same),
		Shade:    optional(m.ShadeShare, same),
		Bearing:  optional(m.BearingDeg, units.Degrees),
		Tilt:     optional(m.TiltDeg, units.Degrees),
		CableRun: optional(m.CableM, as[units.Length]),
	}
	for _, month := range m.GetMonthlyKwhM2Day() {
		s.Monthly = append(s.Monthly, units.Energy(month*joulesPerKilowattHour))
	}
	return s
}

// joulesPerKilowattHour converts kWh to J, by definition of both.
const joulesPerKilowattHour = 3.6e6

func access(m *pb.Access) gate.Access {
	if m == nil {
		return gate.Access{}
	}
	a := gate.Access{Remotes: optional(m.RemoteCount, whole)}
	for _, d := range m.GetDevices() {
		a.Devices = append(a.Devices, gate.AccessWish{
			Kind:  gate.AccessKind(d.GetKind()),
			Place: gate.AccessPlace(d.GetPlace()),
			Link:  gate.AccessLink(d.GetLink()),
			Cable: optional(d.CableM, as[units.Length]),
		})
	}
	return a
}

func wishes(m *pb.Wishes) gate.Wishes {
	if m == nil {
		return gate.Wishes{}
	}
	w := gate.Wishes{Drive: gate.DriveKind(m.GetDriveKind()), Budget: optional(m.BudgetMinor, func(v int64) int64 { return v })}
	switch m.GetRankBy() {
	case pb.RankBy_RANK_BY_MARGIN:
		w.RankBy = gate.RankByMargin
	case pb.RankBy_RANK_BY_TIME:
		w.RankBy = gate.RankByTime
	}
	return w
}

func conductor(m *pb.Conductor) gate.Conductor {
	return gate.Conductor{
		Standard: gate.ConductorStandard(m.GetStandard()),
		Area:     units.SquareMillimeters(m.GetAreaMm2()),
		Gauge:    int(m.GetAwg()),
	}
}
