package wire

import (
	"testing"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/finding"
)

func TestContractMirrorsTheRegistryOfFindings(t *testing.T) {
	codes := finding.Codes()
	for _, c := range codes {
		if got, want := pb.FindingCode(c).String(), "FINDING_CODE_"+c.String(); got != want {
			t.Errorf("code %d is %s in the contract, %s in the registry", c, got, want)
		}
	}
	if got, want := len(pb.FindingCode_name), len(codes)+1; got != want {
		t.Errorf("the contract has %d codes, the registry and the unspecified one are %d", got, want)
	}
}
