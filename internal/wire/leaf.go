package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func leaf(m *pb.Leaf) gate.Leaf {
	l := gate.Leaf{
		Width:           optional(m.WidthMm, mm),
		Height:          optional(m.HeightMm, mm),
		Mass:            optional(m.MassKg, as[units.Mass]),
		Solidity:        optional(m.Solidity, same),
		Infill:          gate.Infill(m.GetInfill()),
		Frame:           gate.FrameType(m.GetFrameType()),
		BottomClearance: optional(m.BottomClearanceMm, mm),
		OutOfPlumb:      optional(m.OutOfPlumbDeg, units.Degrees),
		LeanDirection:   optional(m.LeanDirectionDeg, units.Degrees),
		OutOfLevel:      optional(m.OutOfLevelMm, mm),
		Drags:           gate.Answer(m.GetDrags()),
		Hinge:           gate.HingeType(m.GetHingeType()),
		HingeCondition:  gate.HingeCondition(m.GetHingeCondition()),
		HingeSpacing:    optional(m.HingeSpacingMm, mm),
		Thickness:       optional(m.ThicknessMm, mm),
		AxisOffset:      optional(m.AxisOffsetMm, mm),
		HandOpening:     optional(m.HandForceOpeningN, as[units.Force]),
		HandClosing:     optional(m.HandForceClosingN, as[units.Force]),
		Rest:            gate.Rest(m.GetRest()),
		Latch:           gate.Answer(m.GetLatch()),
		DropBolt:        gate.Answer(m.GetDropBolt()),
		Post:            post(m.GetHingePost()),
		CenterOfMass:    optional(m.CenterOfMassMm, mm),
	}
	for _, r := range m.GetRailHeightsMm() {
		l.Rails = append(l.Rails, mm(r))
	}
	if c := m.GetConstruction(); c != nil {
		l.Construction = units.Known(construction(c))
	}
	return l
}

func construction(m *pb.Construction) gate.Construction {
	c := gate.Construction{
		Material:  gate.Material(m.GetMaterial()),
		Stile:     section(m.GetStile()),
		Rail:      section(m.GetRail()),
		RailCount: int(m.GetRailCount()),
		BarCount:  int(m.GetBarCount()),
		Infill:    optional(m.InfillKgM2, as[units.ArealMass]),
		Hardware:  optional(m.HardwareKg, as[units.Mass]),
	}
	if b := m.GetBar(); b != nil {
		c.Bar = units.Known(section(b))
	}
	return c
}

func section(m *pb.Section) gate.Section {
	s := gate.Section{Round: m.GetRound(), Width: mm(m.GetWidthMm()), Depth: mm(m.GetDepthMm()), Wall: mm(m.GetWallMm())}
	if m.DepthMm == nil {
		s.Depth = s.Width
	}
	return s
}

func post(m *pb.Post) gate.Post {
	if m == nil {
		return gate.Post{}
	}
	return gate.Post{
		Shape:         gate.PostShape(m.GetShape()),
		Width:         optional(m.WidthMm, mm),
		Depth:         optional(m.DepthMm, mm),
		Material:      gate.Material(m.GetMaterial()),
		Wall:          optional(m.WallMm, mm),
		Fixity:        gate.Fixity(m.GetFixity()),
		Height:        optional(m.HeightMm, mm),
		HingeSetback:  optional(m.HingeSetbackMm, mm),
		HingeInset:    optional(m.HingeInsetMm, mm),
		MountingPlane: optional(m.MountingPlaneMm, mm),
	}
}
