package wire

import (
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
)

func TestFindingCodesMirrorTheRegistry(t *testing.T) {
	values := pb.FindingCode(0).Descriptor().Values()
	codes := finding.Codes()
	if values.Len() != len(codes)+1 {
		t.Errorf("the contract has %d codes besides the unspecified one, the registry %d", values.Len()-1, len(codes))
	}
	for _, c := range codes {
		value := values.ByNumber(protoreflect.EnumNumber(c))
		if value == nil {
			t.Errorf("the contract lacks %s, %d", c, c)
			continue
		}
		if got, want := string(value.Name()), "FINDING_CODE_"+c.String(); got != want {
			t.Errorf("code %d is %s in the contract, want %s", c, got, want)
		}
	}
}

// mirror is an enum that is converted by its number: the names of the
// contract's values, without the unspecified one, and what each must become.
type mirror struct {
	enum  protoreflect.Enum
	zero  string
	pairs map[string]int
}

// TestEnumsConvertedByNumber pairs every value by name: an added, removed or
// moved value on either side fails.
func TestEnumsConvertedByNumber(t *testing.T) {
	for _, m := range append(append(answerMirrors, gateMirrors...), catalogMirrors...) {
		d := m.enum.Descriptor()
		t.Run(string(d.Name()), func(t *testing.T) {
			values := d.Values()
			if zero := values.ByNumber(0); zero == nil || string(zero.Name()) != m.zero {
				t.Errorf("the contract's zero value is %v, want %s", zero, m.zero)
			}
			if values.Len() != len(m.pairs)+1 {
				t.Errorf("the contract has %d values besides the unspecified one, %d are paired", values.Len()-1, len(m.pairs))
			}
			taken := map[int]bool{0: true}
			for name, number := range m.pairs {
				if taken[number] {
					t.Errorf("%s is a domain value that stands twice, or the unknown one: %d", name, number)
				}
				taken[number] = true
				value := values.ByName(protoreflect.Name(name))
				switch {
				case value == nil:
					t.Errorf("the contract lacks %s", name)
				case int(value.Number()) != number:
					t.Errorf("%s is %d in the contract, %d in the domain", name, value.Number(), number)
				}
			}
		})
	}
}

// TestMirrorsReachEveryEnum makes sure that no enum of the contract is left
// unpaired, besides those that are converted case by case or set by the answer.
func TestMirrorsReachEveryEnum(t *testing.T) {
	seen := map[protoreflect.Name]bool{
		"FindingCode": true, // above
		"RankBy":      true, // case by case, TestRankBy
		"View":        true, // read by the service
		"Motion":      true, // answers only
		"MountingSide": true,
	}
	for _, m := range append(append(answerMirrors, gateMirrors...), catalogMirrors...) {
		seen[m.enum.Descriptor().Name()] = true
	}
	for _, file := range []protoreflect.FileDescriptor{
		pb.File_leafmoment_v1_gate_proto, pb.File_leafmoment_v1_finding_proto, pb.File_leafmoment_v1_option_proto,
		pb.File_leafmoment_v1_catalog_proto, pb.File_leafmoment_v1_catalog_document_proto,
	} {
		for i := range file.Enums().Len() {
			if name := file.Enums().Get(i).Name(); !seen[name] {
				t.Errorf("the enum %s is paired with nothing", name)
			}
		}
	}
}

func TestRankBy(t *testing.T) {
	for from, want := range map[pb.RankBy]gate.RankBy{
		pb.RankBy_RANK_BY_UNSPECIFIED: gate.RankByPrice,
		pb.RankBy_RANK_BY_PRICE:       gate.RankByPrice,
		pb.RankBy_RANK_BY_MARGIN:      gate.RankByMargin,
		pb.RankBy_RANK_BY_TIME:        gate.RankByTime,
	} {
		if got := wishes(&pb.Wishes{RankBy: from}).RankBy; got != want {
			t.Errorf("%s becomes %d, want %d", from, got, want)
		}
	}
}

var answerMirrors = []mirror{
	{pb.Severity(0), "SEVERITY_UNSPECIFIED", map[string]int{
		"SEVERITY_ADVICE":    int(finding.Advice),
		"SEVERITY_CAUTION":   int(finding.Caution),
		"SEVERITY_CONDITION": int(finding.Condition),
		"SEVERITY_REVIEW":    int(finding.Review),
		"SEVERITY_BLOCKER":   int(finding.Blocker),
	}},
	{pb.Verdict(0), "VERDICT_UNSPECIFIED", map[string]int{
		"VERDICT_SUITABLE":                 int(finding.Suitable),
		"VERDICT_SUITABLE_WITH_CONDITIONS": int(finding.SuitableWithConditions),
		"VERDICT_ADVISER_REVIEW":           int(finding.AdviserReview),
		"VERDICT_UNSUITABLE":               int(finding.Unsuitable),
	}},
	{pb.RemedyKind(0), "REMEDY_KIND_UNSPECIFIED", map[string]int{
		"REMEDY_KIND_FIT_PART":    int(finding.FitPart),
		"REMEDY_KIND_DO_WORK":     int(finding.DoWork),
		"REMEDY_KIND_CHANGE_WISH": int(finding.ChangeWish),
		"REMEDY_KIND_MEASURE":     int(finding.Measure),
		"REMEDY_KIND_PHOTOGRAPH":  int(finding.Photograph),
	}},
}

var catalogMirrors = []mirror{
	{pb.WindRule(0), "WIND_RULE_UNSPECIFIED", map[string]int{
		"WIND_RULE_AS_NZS_1170_2": int(catalog.WindASNZS1170),
		"WIND_RULE_EN_1991_1_4":   int(catalog.WindEN1991),
		"WIND_RULE_ASCE_7":        int(catalog.WindASCE7),
	}},
}
