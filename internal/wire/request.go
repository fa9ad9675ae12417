package wire

import (
	"strings"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/sizing"
)

// ConfigurationOf turns a configuration to judge into the domain's.
func ConfigurationOf(m *pb.Configuration) sizing.Configuration {
	k := sizing.Configuration{Drive: m.GetDriveSku(), RearBracket: m.GetRearBracketSku()}
	for _, d := range m.GetMountings() {
		k.Mountings = append(k.Mountings, linkage.Mounting{A: mm(d.GetAMm()), B: mm(d.GetBMm()), C: mm(d.GetCMm()), E: mm(d.GetEMm())})
	}
	return k
}

// RequestField is the path in the request of a field that a fault names by its
// path from the gate.
func RequestField(field string) string {
	if strings.HasPrefix(field, "configuration.") {
		return field
	}
	return "gate." + field
}
