package wire

import (
	"errors"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/supply"
	"leafmoment.example/leafmoment/internal/units"
)

// conductorProblems finds cables whose conductor is described by the wrong
// number, or is of no size that a resistance is tabulated for.
func conductorProblems(m *pb.CatalogDocument) catalog.Problems {
	var out catalog.Problems
	for _, p := range m.GetParts() {
		if cable := p.GetCable(); cable != nil {
			if err := checkConductor(cable.GetConductor()); err != nil {
				out = append(out, catalog.Problem{Subject: p.GetSku(), Text: "conductor: " + err.Error()})
			}
		}
	}
	return out
}

func checkConductor(m *pb.Conductor) error {
	byGauge := m.GetStandard() == pb.ConductorStandard_CONDUCTOR_STANDARD_AWG
	switch {
	case byGauge && (m.Awg == nil || m.AreaMm2 != nil):
		return errors.New("an AWG conductor states its awg and no area_mm2")
	case !byGauge && (m.AreaMm2 == nil || m.Awg != nil):
		return errors.New("an IEC 60228 conductor states its area_mm2 and no awg")
	}
	var err error
	switch m.GetStandard() {
	case pb.ConductorStandard_CONDUCTOR_STANDARD_AWG:
		_, err = supply.AWG(int(m.GetAwg()), supply.Stranded)
	case pb.ConductorStandard_CONDUCTOR_STANDARD_IEC_60228_CLASS_2:
		_, err = supply.IEC(supply.Class2, supply.Plain, units.SquareMillimeters(m.GetAreaMm2()))
	case pb.ConductorStandard_CONDUCTOR_STANDARD_IEC_60228_CLASS_5:
		_, err = supply.IEC(supply.Class5, supply.Plain, units.SquareMillimeters(m.GetAreaMm2()))
	}
	return err
}
