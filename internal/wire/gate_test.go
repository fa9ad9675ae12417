package wire

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// TestFullGateIsMapped fills every field the contract has and looks for domain
// fields that stayed empty, by reflection, so that a field nobody maps fails.
func TestFullGateIsMapped(t *testing.T) {
	m := &pb.Gate{}
	number := 1.0
	fill(m.ProtoReflect(), &number)
	g, _ := Gate(m)
	for _, field := range unset("", reflect.ValueOf(g)) {
		t.Errorf("gate%s isn't mapped", field)
	}
}

// TestEveryFieldHasAnEffect clears the contract's fields one by one: each must
// change the domain's gate.
func TestEveryFieldHasAnEffect(t *testing.T) {
	m := &pb.Gate{}
	number := 1.0
	fill(m.ProtoReflect(), &number)
	full, _ := Gate(m)
	checked := 0
	eachField("gate", m.ProtoReflect(), func(path string, in protoreflect.Message, field protoreflect.FieldDescriptor) {
		checked++
		whole := in.Interface()
		kept := proto.Clone(whole)
		in.Clear(field)
		g, _ := Gate(m)
		proto.Reset(whole)
		proto.Merge(whole, kept)
		if reflect.DeepEqual(g, full) {
			t.Errorf("%s has no effect", path)
		}
	})
	if checked < 100 {
		t.Errorf("only %d fields were looked at", checked)
	}
}

func TestEmptyGateIsUnknown(t *testing.T) {
	for name, m := range map[string]*pb.Gate{
		"nothing": {},
		"empty messages": {
			Opening: &pb.Opening{}, Ground: &pb.Ground{}, Closing: &pb.Closing{}, Driveway: &pb.Driveway{}, Site: &pb.Site{},
			Power: &pb.Power{}, Use: &pb.Use{}, Access: &pb.Access{}, Wishes: &pb.Wishes{},
		},
	} {
		if g, faults := Gate(m); !reflect.ValueOf(g).IsZero() || len(faults) != 0 {
			t.Errorf("%s: became %+v with faults %v", name, g, faults)
		}
	}
	g, _ := Gate(&pb.Gate{Leaves: []*pb.Leaf{{}, {HingePost: &pb.Post{}}}})
	for i, l := range g.Leaves {
		if !reflect.ValueOf(l).IsZero() {
			t.Errorf("leaf %d became %+v", i, l)
		}
	}
}

func TestKnownZeroStaysKnown(t *testing.T) {
	g, _ := Gate(&pb.Gate{
		Site:  &pb.Site{OperatingWindMS: proto.Float64(0), LowestTemperatureC: proto.Float64(0)},
		Power: &pb.Power{OutageCycles: proto.Int32(0)},
	})
	if !g.Site.OperatingWind.IsKnown() || !g.Site.LowestTemperature.IsKnown() || !g.Power.OutageCycles.IsKnown() {
		t.Errorf("a zero that was given became unknown: %+v", g)
	}
}

func TestGateUnits(t *testing.T) {
	g, faults := Gate(&pb.Gate{
		Leaves: []*pb.Leaf{{
			WidthMm: proto.Float64(3250), MassKg: proto.Float64(90), OutOfPlumbDeg: proto.Float64(2), RailHeightsMm: []float64{100, 1150},
			HandForceOpeningN: proto.Float64(35), OutOfLevelMm: proto.Float64(-12),
			Construction: &pb.Construction{
				Stile: &pb.Section{WidthMm: proto.Float64(50), WallMm: proto.Float64(3)},
				Rail:  &pb.Section{WidthMm: proto.Float64(40), DepthMm: proto.Float64(20)}, RailCount: proto.Int32(3), InfillKgM2: proto.Float64(4.5),
			},
		}},
		Opening: &pb.Opening{AngleDeg: proto.Float64(90), WantedTimeS: proto.Float64(25)},
		Ground:  &pb.Ground{SlopeAlongPercent: proto.Float64(-5)},
		Power: &pb.Power{
			SupplyRunM: proto.Float64(42), OutageHours: proto.Float64(1.5),
			Conductor: &pb.Conductor{Standard: pb.ConductorStandard_CONDUCTOR_STANDARD_IEC_60228_CLASS_5, AreaMm2: proto.Float64(2.5)},
			Solar:     &pb.SolarSite{MonthlyKwhM2Day: []float64{2}, ShadeShare: proto.Float64(0.25), CableM: proto.Float64(6)},
		},
		Site:   &pb.Site{LatitudeDeg: proto.Float64(-45), GustMS: proto.Float64(36), HighestTemperatureC: proto.Float64(38)},
		Wishes: &pb.Wishes{BudgetMinor: proto.Int64(123456)},
	})
	if len(faults) != 0 {
		t.Errorf("faults %v", faults)
	}
	built := g.Leaves[0].Construction.Or(gate.Construction{})
	l, solar := g.Leaves[0], g.Power.Solar.Or(gate.SolarSite{})
	for _, c := range []struct {
		name      string
		got, want float64 // SI
	}{
		{"width", float64(l.Width.Or(0)), 3.25},
		{"mass", float64(l.Mass.Or(0)), 90},
		{"out of plumb", float64(l.OutOfPlumb.Or(0)), math.Pi / 90},
		{"rail", float64(l.Rails[1]), 1.15},
		{"hand force", float64(l.HandOpening.Or(0)), 35},
		{"out of level", float64(l.OutOfLevel.Or(0)), -0.012},
		{"stile width", float64(built.Stile.Width), 0.05},
		{"stile depth, as its width where not given", float64(built.Stile.Depth), 0.05},
		{"stile wall", float64(built.Stile.Wall), 0.003},
		{"rail depth", float64(built.Rail.Depth), 0.02},
		{"infill", float64(built.Infill.Or(0)), 4.5},
		{"opening angle", float64(g.Opening.Angle.Or(0)), math.Pi / 2},
		{"opening time", float64(g.Opening.WantedTime.Or(0)), 25},
		{"slope", g.Ground.SlopeAlong.Or(0), -0.05},
		{"supply run", float64(g.Power.SupplyRun.Or(0)), 42},
		{"outage", float64(g.Power.Outage.Or(0)), 5400},
		{"conductor", float64(g.Power.Conductor.Or(gate.Conductor{}).Area), 2.5e-6},
		{"irradiation", float64(solar.Monthly[0]), 7.2e6},
		{"shade", solar.Shade.Or(0), 0.25},
		{"panel cable", float64(solar.CableRun.Or(0)), 6},
		{"latitude", float64(g.Site.Latitude.Or(0)), -math.Pi / 4},
		{"gust", float64(g.Site.Gust.Or(0)), 36},
		{"highest temperature", float64(g.Site.HighestTemperature.Or(0)), 38},
		{"budget", float64(g.Wishes.Budget.Or(0)), 123456},
	} {
		if tolerance := 1e-12 * math.Abs(c.want); math.Abs(c.got-c.want) > tolerance {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestConductorFaults(t *testing.T) {
	const awg, class5 = pb.ConductorStandard_CONDUCTOR_STANDARD_AWG, pb.ConductorStandard_CONDUCTOR_STANDARD_IEC_60228_CLASS_5
	for name, c := range map[string]struct {
		conductor *pb.Conductor
		want      []gate.FaultReason
	}{
		"AWG with its gauge":           {&pb.Conductor{Standard: awg, Awg: proto.Int32(12)}, nil},
		"AWG 0 is a gauge":             {&pb.Conductor{Standard: awg, Awg: proto.Int32(0)}, nil},
		"AWG without":                  {&pb.Conductor{Standard: awg}, []gate.FaultReason{gate.Missing}},
		"IEC with its area":            {&pb.Conductor{Standard: class5, AreaMm2: proto.Float64(4)}, nil},
		"IEC with an area and a gauge": {&pb.Conductor{Standard: class5, AreaMm2: proto.Float64(4), Awg: proto.Int32(0)}, []gate.FaultReason{gate.Contradiction}},
	} {
		_, faults := Gate(&pb.Gate{Power: &pb.Power{Conductor: c.conductor}})
		var got []gate.FaultReason
		for _, f := range faults {
			got = append(got, f.Reason)
			if f.Field != "power.conductor.awg" || f.Text == "" {
				t.Errorf("%s: fault at %q saying %q", name, f.Field, f.Text)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: faults %v, want %v", name, got, c.want)
		}
	}
}

// fill gives every field of m, and of the messages within it, a value that is
// no default and, for numbers, that no other field has. Lists get two items.
func fill(m protoreflect.Message, number *float64) {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		if !field.IsList() {
			m.Set(field, filled(field, m.NewField(field), number))
			continue
		}
		list := m.Mutable(field).List()
		for range 2 {
			list.Append(filled(field, list.NewElement(), number))
		}
	}
}

func filled(field protoreflect.FieldDescriptor, empty protoreflect.Value, number *float64) protoreflect.Value {
	*number++
	switch field.Kind() {
	case protoreflect.MessageKind:
		fill(empty.Message(), number)
		return empty
	case protoreflect.EnumKind: // the last value: of RankBy, the first is the domain's default
		values := field.Enum().Values()
		return protoreflect.ValueOfEnum(values.Get(values.Len() - 1).Number())
	case protoreflect.BoolKind:
		return protoreflect.ValueOfBool(true)
	case protoreflect.DoubleKind:
		return protoreflect.ValueOfFloat64(*number)
	case protoreflect.Int32Kind:
		return protoreflect.ValueOfInt32(int32(*number))
	case protoreflect.Int64Kind:
		return protoreflect.ValueOfInt64(int64(*number))
	}
	panic(fmt.Sprintf("the contract's gate has a field of a new kind: %s", field.FullName()))
}

// eachField calls visit for every field of m, and of the messages within it, that
// holds a value or a list.
func eachField(at string, m protoreflect.Message, visit func(string, protoreflect.Message, protoreflect.FieldDescriptor)) {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		path := at + "." + string(field.Name())
		if field.Message() == nil || field.IsList() {
			visit(path, m, field)
		}
		switch {
		case field.Message() == nil:
		case field.IsList():
			eachField(path+"[0]", m.Get(field).List().Get(0).Message(), visit)
		default:
			eachField(path, m.Get(field).Message(), visit)
		}
	}
}

// unset lists what in v is zero, unknown or an empty list.
func unset(at string, v reflect.Value) []string {
	if known := v.MethodByName("IsKnown"); known.IsValid() {
		if !known.Call(nil)[0].Bool() {
			return []string{at}
		}
		return unset(at, v.MethodByName("Get").Call(nil)[0])
	}
	var out []string
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			out = append(out, unset(at+"."+v.Type().Field(i).Name, v.Field(i))...)
		}
		return out
	case reflect.Slice:
		if v.Len() == 0 {
			return []string{at}
		}
		for i := range v.Len() {
			out = append(out, unset(fmt.Sprintf("%s[%d]", at, i), v.Index(i))...)
		}
		return out
	}
	if v.IsZero() {
		return []string{at}
	}
	return nil
}

// TestUnsetFindsWhatIsMissing keeps the walk above honest.
func TestUnsetFindsWhatIsMissing(t *testing.T) {
	type inner struct{ A, B int }
	v := struct {
		Known, Unknown units.Opt[inner]
		Full, Empty    []inner
	}{Known: units.Known(inner{A: 1}), Full: []inner{{A: 1, B: 2}, {B: 2}}}
	if got, want := strings.Join(unset("", reflect.ValueOf(v)), " "), ".Known.B .Unknown .Full[1].A .Empty"; got != want {
		t.Errorf("found %q, want %q", got, want)
	}
}
