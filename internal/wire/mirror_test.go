package wire

import (
	"slices"
	"testing"

	"google.golang.org/protobuf/reflect/protoreflect"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
)

// mirror is an enum that is converted by its number: the names of the
// contract's values, without the unspecified one, and what each must become.
type mirror struct {
	enum  protoreflect.Enum
	zero  string
	pairs map[string]int
}

var mirrors = slices.Concat(answerMirrors, gateMirrors, catalogMirrors)

// TestEnumsConvertedByNumber pairs every value by name: an added, removed or
// moved value on either side fails.
func TestEnumsConvertedByNumber(t *testing.T) {
	for _, m := range mirrors {
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
		"FindingCode":  true, // finding_mirror_test.go
		"RankBy":       true, // case by case, TestRankBy
		"View":         true, // read by the service
		"Motion":       true, // answers only
		"MountingSide": true,
	}
	for _, m := range mirrors {
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
	{pb.EndSensing(0), "END_SENSING_UNSPECIFIED", map[string]int{
		"END_SENSING_CURRENT":        int(catalog.EndByCurrent),
		"END_SENSING_LIMIT_SWITCHES": int(catalog.EndByLimitSwitches),
	}},
	{pb.Chemistry(0), "CHEMISTRY_UNSPECIFIED", map[string]int{
		"CHEMISTRY_LEAD_ACID": int(catalog.LeadAcid),
		"CHEMISTRY_LIFEPO4":   int(catalog.LiFePO4),
	}},
	{pb.ChargeKind(0), "CHARGE_KIND_UNSPECIFIED", map[string]int{
		"CHARGE_KIND_PWM":  int(catalog.PWM),
		"CHARGE_KIND_MPPT": int(catalog.MPPT),
	}},
	{pb.CableUse(0), "CABLE_USE_UNSPECIFIED", map[string]int{
		"CABLE_USE_SUPPLY": int(catalog.CableForSupply),
		"CABLE_USE_DRIVE":  int(catalog.CableForDrive),
		"CABLE_USE_ACCESS": int(catalog.CableForAccess),
	}},
	{pb.RearBracketForm(0), "REAR_BRACKET_FORM_UNSPECIFIED", map[string]int{
		"REAR_BRACKET_FORM_FLAT":   int(catalog.FlatBracket),
		"REAR_BRACKET_FORM_CURVED": int(catalog.CurvedBracket),
		"REAR_BRACKET_FORM_PUSH":   int(catalog.PushBracket),
	}},
	{pb.LeafBracketForm(0), "LEAF_BRACKET_FORM_UNSPECIFIED", map[string]int{
		"LEAF_BRACKET_FORM_FLAT":  int(catalog.FlatLeafBracket),
		"LEAF_BRACKET_FORM_CLAMP": int(catalog.ClampLeafBracket),
	}},
	{pb.StopForm(0), "STOP_FORM_UNSPECIFIED", map[string]int{
		"STOP_FORM_GROUND": int(catalog.GroundStop),
		"STOP_FORM_POST":   int(catalog.PostStop),
	}},
}

var gateMirrors = []mirror{
	{pb.Answer(0), "ANSWER_UNSPECIFIED", map[string]int{
		"ANSWER_NO":  int(gate.No),
		"ANSWER_YES": int(gate.Yes),
	}},
	{pb.Infill(0), "INFILL_UNSPECIFIED", map[string]int{
		"INFILL_OPEN_BARS":    int(gate.InfillOpenBars),
		"INFILL_MESH":         int(gate.InfillMesh),
		"INFILL_GAPPED_SLATS": int(gate.InfillGappedSlats),
		"INFILL_LOUVERS":      int(gate.InfillLouvers),
		"INFILL_SOLID":        int(gate.InfillSolid),
	}},
	{pb.FrameType(0), "FRAME_TYPE_UNSPECIFIED", map[string]int{
		"FRAME_TYPE_SQUARE_TUBE": int(gate.FrameSquareTube),
		"FRAME_TYPE_ROUND_TUBE":  int(gate.FrameRoundTube),
		"FRAME_TYPE_TIMBER":      int(gate.FrameTimber),
		"FRAME_TYPE_SOLID_BAR":   int(gate.FrameSolidBar),
	}},
	{pb.HingeType(0), "HINGE_TYPE_UNSPECIFIED", map[string]int{
		"HINGE_TYPE_PLAIN":  int(gate.HingePlain),
		"HINGE_TYPE_RISING": int(gate.HingeRising),
		"HINGE_TYPE_SPRING": int(gate.HingeSpring),
	}},
	{pb.HingeCondition(0), "HINGE_CONDITION_UNSPECIFIED", map[string]int{
		"HINGE_CONDITION_GOOD":    int(gate.HingesGood),
		"HINGE_CONDITION_WORN":    int(gate.HingesWorn),
		"HINGE_CONDITION_BINDING": int(gate.HingesBinding),
	}},
	{pb.Rest(0), "REST_UNSPECIFIED", map[string]int{
		"REST_STAYS":         int(gate.RestStays),
		"REST_DRIFTS_OPEN":   int(gate.RestDriftsOpen),
		"REST_DRIFTS_CLOSED": int(gate.RestDriftsClosed),
	}},
	{pb.Material(0), "MATERIAL_UNSPECIFIED", map[string]int{
		"MATERIAL_STEEL":    int(gate.Steel),
		"MATERIAL_ALUMINUM": int(gate.Aluminum),
		"MATERIAL_SOFTWOOD": int(gate.Softwood),
		"MATERIAL_HARDWOOD": int(gate.Hardwood),
		"MATERIAL_CONCRETE": int(gate.Concrete),
		"MATERIAL_MASONRY":  int(gate.Masonry),
	}},
	{pb.PostShape(0), "POST_SHAPE_UNSPECIFIED", map[string]int{
		"POST_SHAPE_RECTANGULAR": int(gate.PostRectangular),
		"POST_SHAPE_ROUND":       int(gate.PostRound),
		"POST_SHAPE_PIER":        int(gate.PostPier),
		"POST_SHAPE_WALL":        int(gate.PostWall),
	}},
	{pb.Fixity(0), "FIXITY_UNSPECIFIED", map[string]int{
		"FIXITY_CONCRETED":  int(gate.FixityConcreted),
		"FIXITY_BASE_PLATE": int(gate.FixityBasePlate),
		"FIXITY_EARTH":      int(gate.FixityEarth),
		"FIXITY_BUILT_IN":   int(gate.FixityBuiltIn),
	}},
	{pb.OpeningDirection(0), "OPENING_DIRECTION_UNSPECIFIED", map[string]int{
		"OPENING_DIRECTION_INWARD":  int(gate.Inward),
		"OPENING_DIRECTION_OUTWARD": int(gate.Outward),
	}},
	{pb.DriveSide(0), "DRIVE_SIDE_UNSPECIFIED", map[string]int{
		"DRIVE_SIDE_INSIDE":  int(gate.DriveInside),
		"DRIVE_SIDE_OUTSIDE": int(gate.DriveOutside),
	}},
	{pb.ObstacleKind(0), "OBSTACLE_KIND_UNSPECIFIED", map[string]int{
		"OBSTACLE_KIND_WALL":       int(gate.ObstacleWall),
		"OBSTACLE_KIND_FENCE":      int(gate.ObstacleFence),
		"OBSTACLE_KIND_BED":        int(gate.ObstacleBed),
		"OBSTACLE_KIND_KERB":       int(gate.ObstacleKerb),
		"OBSTACLE_KIND_PARKED_CAR": int(gate.ObstacleParkedCar),
		"OBSTACLE_KIND_TREE":       int(gate.ObstacleTree),
		"OBSTACLE_KIND_KEEP_CLEAR": int(gate.ObstacleKeepClear),
		"OBSTACLE_KIND_OTHER":      int(gate.ObstacleOther),
	}},
	{pb.ClosesOnto(0), "CLOSES_ONTO_UNSPECIFIED", map[string]int{
		"CLOSES_ONTO_POST":        int(gate.OntoPost),
		"CLOSES_ONTO_SECOND_LEAF": int(gate.OntoSecondLeaf),
		"CLOSES_ONTO_NOTHING":     int(gate.OntoNothing),
	}},
	{pb.OverlappingLeaf(0), "OVERLAPPING_LEAF_UNSPECIFIED", map[string]int{
		"OVERLAPPING_LEAF_NONE":   int(gate.OverlapNone),
		"OVERLAPPING_LEAF_FIRST":  int(gate.OverlapFirst),
		"OVERLAPPING_LEAF_SECOND": int(gate.OverlapSecond),
	}},
	{pb.Terrain(0), "TERRAIN_UNSPECIFIED", map[string]int{
		"TERRAIN_SEA":    int(gate.TerrainSea),
		"TERRAIN_FLAT":   int(gate.TerrainFlat),
		"TERRAIN_OPEN":   int(gate.TerrainOpen),
		"TERRAIN_SUBURB": int(gate.TerrainSuburb),
		"TERRAIN_TOWN":   int(gate.TerrainTown),
	}},
	{pb.PowerSource(0), "POWER_SOURCE_UNSPECIFIED", map[string]int{
		"POWER_SOURCE_MAINS": int(gate.SourceMains),
		"POWER_SOURCE_SOLAR": int(gate.SourceSolar),
	}},
	{pb.ConductorStandard(0), "CONDUCTOR_STANDARD_UNSPECIFIED", map[string]int{
		"CONDUCTOR_STANDARD_IEC_60228_CLASS_2": int(gate.IEC60228Class2),
		"CONDUCTOR_STANDARD_IEC_60228_CLASS_5": int(gate.IEC60228Class5),
		"CONDUCTOR_STANDARD_AWG":               int(gate.AWG),
	}},
	{pb.AccessKind(0), "ACCESS_KIND_UNSPECIFIED", map[string]int{
		"ACCESS_KIND_KEYPAD":           int(gate.Keypad),
		"ACCESS_KIND_PUSH_BUTTON":      int(gate.PushButton),
		"ACCESS_KIND_CARD_READER":      int(gate.CardReader),
		"ACCESS_KIND_INTERCOM":         int(gate.Intercom),
		"ACCESS_KIND_VEHICLE_DETECTOR": int(gate.VehicleDetector),
	}},
	{pb.AccessPlace(0), "ACCESS_PLACE_UNSPECIFIED", map[string]int{
		"ACCESS_PLACE_ENTRY": int(gate.Entry),
		"ACCESS_PLACE_EXIT":  int(gate.Exit),
	}},
	{pb.AccessLink(0), "ACCESS_LINK_UNSPECIFIED", map[string]int{
		"ACCESS_LINK_WIRED":    int(gate.Wired),
		"ACCESS_LINK_WIRELESS": int(gate.Wireless),
	}},
	{pb.DriveKind(0), "DRIVE_KIND_UNSPECIFIED", map[string]int{
		"DRIVE_KIND_LINEAR": int(gate.LinearDrive),
		"DRIVE_KIND_ARM":    int(gate.ArmDrive),
	}},
}
