package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/motion"
	"leafmoment.example/leafmoment/internal/partslist"
	"leafmoment.example/leafmoment/internal/sizing"
	"leafmoment.example/leafmoment/internal/units"
)

// Answer turns a sizing answer into the contract's. Up to most options are
// given in detail, the others in a line each; in the basic view a rejected drive
// keeps its first finding alone.
func Answer(c *catalog.Catalog, a sizing.Answer, most int, full bool) *pb.SizeGateResponse {
	out := &pb.SizeGateResponse{
		Verdict:         pb.Verdict(a.Verdict),
		Findings:        Findings(a.Findings),
		Assumptions:     assumptions(a.Assumptions),
		CatalogRevision: c.Revision,
		EngineVersion:   sizing.EngineVersion,
	}
	for i := range a.Options {
		o := &a.Options[i]
		if i < most {
			out.Options = append(out.Options, option(c, o, i+1, full))
			continue
		}
		out.OtherOptions = append(out.OtherOptions, &pb.OptionSummary{
			Rank: int32(i + 1), DriveSku: o.Drive.SKU, Verdict: pb.Verdict(o.Verdict),
			Margin: rounded(o.Margin(), hundredth), PriceWithTaxMinor: o.Parts.Total,
		})
	}
	for _, r := range a.Rejected {
		list := r.Findings
		if !full {
			list = list[:min(1, len(list))]
		}
		out.RejectedDrives = append(out.RejectedDrives, &pb.RejectedDrive{DriveSku: r.Drive.SKU, DriveName: r.Drive.Name, Findings: Findings(list)})
	}
	return out
}

// Configuration turns the judgement on one configuration into the contract's.
func Configuration(c *catalog.Catalog, a sizing.Answer, full bool) *pb.CheckConfigurationResponse {
	return &pb.CheckConfigurationResponse{
		Verdict:         pb.Verdict(a.Verdict),
		Findings:        Findings(a.Findings),
		Option:          option(c, &a.Options[0], 1, full),
		Assumptions:     assumptions(a.Assumptions),
		CatalogRevision: c.Revision,
		EngineVersion:   sizing.EngineVersion,
	}
}

// PartsList turns the parts list of an option into the contract's; o is nil
// where no drive suits.
func PartsList(c *catalog.Catalog, a sizing.Answer, o *sizing.Option) *pb.BuildPartsListResponse {
	out := &pb.BuildPartsListResponse{
		Verdict:         pb.Verdict(a.Verdict),
		CurrencyCode:    c.Currency,
		Assumptions:     assumptions(a.Assumptions),
		CatalogRevision: c.Revision,
		EngineVersion:   sizing.EngineVersion,
	}
	list := append([]finding.Finding(nil), a.Findings...)
	if o != nil {
		list = append(list, o.Findings...)
		out.Verdict = pb.Verdict(o.Verdict)
		out.DriveSku = o.Drive.SKU
		out.KitSku = o.Parts.Kit
		out.NetMinor, out.TaxMinor, out.TotalMinor = o.Parts.Net, o.Parts.Tax, o.Parts.Total
		for _, l := range o.Parts.Lines {
			out.Lines = append(out.Lines, line(l))
		}
	}
	finding.Sort(list)
	out.Findings = Findings(list)
	return out
}

func line(l partslist.Line) *pb.PartLine {
	out := &pb.PartLine{
		Sku: l.SKU, Name: l.Name, Quantity: int32(l.Quantity), Unit: l.Unit, Reason: l.Reason,
		Finding: pb.FindingCode(l.Finding), InKit: l.InKit, UnitPriceMinor: l.UnitPrice, LinePriceMinor: l.Price,
	}
	if length, known := l.Length.Get(); known {
		out.LengthM = pointer(rounded(float64(length), hundredth))
	}
	return out
}

// Findings turns findings into the contract's.
func Findings(list []finding.Finding) []*pb.Finding {
	out := make([]*pb.Finding, len(list))
	for i, f := range list {
		m := &pb.Finding{
			Code: pb.FindingCode(f.Code), Severity: pb.Severity(f.Severity()), Subject: f.Subject, Message: f.Message,
			Measured: quantity(f.Measured), Limit: quantity(f.Limit),
		}
		for _, r := range f.Remedies {
			m.Remedies = append(m.Remedies, &pb.Remedy{Kind: pb.RemedyKind(r.Kind), Text: r.Text, Sku: r.SKU})
		}
		out[i] = m
	}
	return out
}

func quantity(q units.Opt[finding.Quantity]) *pb.Quantity {
	v, known := q.Get()
	if !known {
		return nil
	}
	return &pb.Quantity{Value: rounded(v.Value, thousandth), Unit: v.Unit}
}

func assumptions(list []sizing.Assumption) []*pb.Assumption {
	var out []*pb.Assumption
	for _, a := range list {
		out = append(out, &pb.Assumption{Field: a.Field, Value: a.Value, Reason: a.Reason})
	}
	return out
}

func option(c *catalog.Catalog, o *sizing.Option, place int, full bool) *pb.Option {
	out := &pb.Option{
		Rank: int32(place), DriveSku: o.Drive.SKU, DriveName: o.Drive.Name,
		Verdict: pb.Verdict(o.Verdict), Findings: Findings(o.Findings),
		PriceWithTaxMinor: o.Parts.Total, CurrencyCode: c.Currency,
	}
	if o.Kit != nil {
		out.KitSku = o.Kit.SKU
	}
	for i := range o.Leaves {
		out.Leaves = append(out.Leaves, leafFigures(&o.Leaves[i], full))
	}
	if s, known := o.Supply.Get(); known {
		out.Supply = supplyFigures(s)
	}
	return out
}

func leafFigures(f *sizing.LeafFigures, full bool) *pb.LeafFigures {
	out := &pb.LeafFigures{
		Leaf:                int32(f.Leaf),
		Mounting:            mounting(f),
		Margin:              rounded(f.Margin, thousandth),
		MarginWithTolerance: rounded(f.BoxMargin, thousandth),
		WorstAngleDeg:       rounded(f.WorstAngle.Degrees(), tenth),
		WorstMotion:         pb.Motion_MOTION_CLOSING,
		OperatingWindMS:     rounded(float64(f.OperatingWind), hundredth),
		MovesUpToMS:         rounded(float64(f.MovesUpTo), hundredth),
		WindOnlyLimitMS:     rounded(float64(f.WindOnlyLimit), thousandth),
		HoldsClosedToMS:     optionalSpeed(f.Hold.Closed),
		HoldsOpenToMS:       optionalSpeed(f.Hold.Open),
		HoldsLockedToMS:     optionalSpeed(f.Hold.Locked),
		WindMomentNM:        rounded(float64(f.WindMoment), thousandth),
		StillAirMomentNM:    rounded(float64(f.StillMoment), tenth),
		LargestAngleDeg:     rounded(f.LargestAngle.Degrees(), tenth),
		Opening:             motionFigures(f.Opening),
		Closing:             motionFigures(f.Closing),
		Safety:              safety(f, full),
	}
	if f.WorstOpening {
		out.WorstMotion = pb.Motion_MOTION_OPENING
	}
	if !full {
		return out
	}
	out.Taken = &pb.LeafTaken{
		MassKg:          rounded(float64(f.Taken.Mass.High), hundredth),
		MassLowKg:       rounded(float64(f.Taken.Mass.Low), hundredth),
		Solidity:        rounded(f.Taken.Solidity, thousandth),
		InertiaKgM2:     rounded(float64(f.Taken.Inertia), hundredth),
		WindCoefficient: rounded(f.Taken.Wind.Net*f.Taken.Wind.Porosity, tenThousandth),
		PorosityFactor:  rounded(f.Taken.Wind.Porosity, tenThousandth),
		WindClause:      f.Taken.Wind.Clause,
		FrictionNM:      rounded(float64(f.Taken.Friction), hundredth),
		HingeForceN:     rounded(float64(f.Taken.HingeForce), 1),
	}
	for _, p := range f.Curve {
		out.Curve = append(out.Curve, &pb.AnglePoint{
			AngleDeg: rounded(p.Angle.Degrees(), hundredth), LengthMm: rounded(p.Length.Millimeters(), tenth), ArmMm: rounded(p.Arm.Millimeters(), tenth),
			OpeningThrustN: rounded(float64(p.Opening), 1), OpeningAvailableN: rounded(float64(p.OpeningAvailable), 1),
			ClosingThrustN: rounded(float64(p.Closing), 1), ClosingAvailableN: rounded(float64(p.ClosingAvailable), 1),
		})
	}
	return out
}

func mounting(f *sizing.LeafFigures) *pb.Mounting {
	m := f.Mounting
	out := &pb.Mounting{
		Side: pb.MountingSide_MOUNTING_SIDE_PULL,
		AMm:  int32(m.A.RoundedMillimeters()), BMm: int32(m.B.RoundedMillimeters()),
		CMm: int32(m.C.RoundedMillimeters()), EMm: int32(m.E.RoundedMillimeters()),
		StrokeUsedMm:    rounded(f.Stroke.Millimeters(), tenth),
		ReserveClosedMm: rounded(f.Reserve[0].Millimeters(), tenth),
		ReserveOpenMm:   rounded(f.Reserve[1].Millimeters(), tenth),
		RearBracketSku:  f.RearBracket,
		LeafBracketSku:  f.LeafBracket,
		DeadPointDeg:    rounded(m.DeadPoint().Degrees(), tenth),
	}
	if m.Side == linkage.Push {
		out.Side = pb.MountingSide_MOUNTING_SIDE_PUSH
	}
	for _, t := range f.Tolerances {
		out.Tolerances = append(out.Tolerances, &pb.DimensionTolerance{Dimension: t.Dimension, MinusMm: int32(t.Minus), PlusMm: int32(t.Plus)})
	}
	if h, known := f.Height.Get(); known {
		out.HeightMm = pointer(rounded(h.Millimeters(), 1))
	}
	return out
}

func motionFigures(r motion.Result) *pb.MotionFigures {
	return &pb.MotionFigures{
		TimeS:          rounded(float64(r.Time), tenth),
		EdgeSpeedMS:    rounded(float64(r.PeakEdgeSpeed), thousandth),
		KineticEnergyJ: rounded(float64(r.PeakKineticEnergy), hundredth),
		ThrustN:        rounded(float64(r.PeakThrust), 1),
		PeakCurrentA:   rounded(float64(r.PeakCurrent), hundredth),
		MeanCurrentA:   rounded(float64(r.MeanCurrent), hundredth),
		EnergyJ:        rounded(float64(r.MotorEnergy), 1),
	}
}

func supplyFigures(s sizing.SupplyFigures) *pb.SupplyFigures {
	return &pb.SupplyFigures{
		RunM:           rounded(float64(s.Run), hundredth),
		Conductor:      s.Conductor,
		CableSku:       s.CableSKU,
		CurrentA:       rounded(float64(s.Delivery.Current), thousandth),
		CurrentBasis:   s.CurrentBasis,
		DropV:          rounded(float64(s.Delivery.Drop), thousandth),
		VoltageLeftV:   rounded(float64(s.Delivery.Voltage), thousandth),
		LongestRunM:    rounded(float64(s.LongestRun), tenth),
		PowerSupplySku: s.PowerSupplySKU,
		BatteryBacked:  s.BatteryBacked,
		WithoutBattery: s.WithoutBattery,
	}
}

func optionalSpeed(v units.Opt[units.Speed]) *float64 {
	s, known := v.Get()
	if !known {
		return nil
	}
	return pointer(rounded(float64(s), hundredth))
}

func safety(f *sizing.LeafFigures, full bool) *pb.SafetyFigures {
	out := &pb.SafetyFigures{
		EdgeForceN:        rounded(float64(f.EdgeForce), 1),
		ForceAtHalfMeterN: rounded(float64(f.ForceAtHalfMeter), 1),
		KineticEnergyJ:    rounded(float64(max(f.Opening.PeakKineticEnergy, f.Closing.PeakKineticEnergy)), hundredth),
	}
	if full {
		for _, p := range motion.PublishedForces {
			out.Published = append(out.Published, &pb.PublishedLimit{What: p.What, Value: &pb.Quantity{Value: float64(p.Force), Unit: "N"}, Source: p.Source})
		}
	}
	return out
}
