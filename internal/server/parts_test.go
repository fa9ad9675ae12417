package server

import (
	"encoding/json"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/rpcerr"
)

func serviceNames(names []string) map[string]grpc.ServiceInfo {
	services := map[string]grpc.ServiceInfo{}
	for _, name := range names {
		services[name] = grpc.ServiceInfo{}
	}
	return services
}

// The published schema of an error answer is the one that is sent.
func TestProblemMatchesOpenAPI(t *testing.T) {
	text, err := os.ReadFile("../../proto/openapi.json")
	if err != nil {
		t.Fatal(err)
	}
	type schema struct {
		Required   []string
		Properties map[string]json.RawMessage
		Items      *schema
	}
	var document struct {
		Components struct{ Schemas map[string]schema }
	}
	if err := json.Unmarshal(text, &document); err != nil {
		t.Fatal(err)
	}
	published := document.Components.Schemas["Problem"]
	var violations schema
	if err := json.Unmarshal(published.Properties["violations"], &violations); err != nil || violations.Items == nil {
		t.Fatalf("violations: %v", err)
	}
	for name, c := range map[string]struct {
		sent   reflect.Type
		schema schema
	}{
		"problem":   {reflect.TypeFor[problem](), published},
		"violation": {reflect.TypeFor[problemViolation](), *violations.Items},
	} {
		var members, required []string
		for i := range c.sent.NumField() {
			member, options, _ := strings.Cut(c.sent.Field(i).Tag.Get("json"), ",")
			members = append(members, member)
			if options != "omitempty" {
				required = append(required, member)
			}
		}
		slices.Sort(members)
		if want := slices.Sorted(maps.Keys(c.schema.Properties)); !slices.Equal(members, want) {
			t.Errorf("%s has members %v, published are %v", name, members, want)
		}
		slices.Sort(required)
		slices.Sort(c.schema.Required)
		if !slices.Equal(required, c.schema.Required) {
			t.Errorf("%s always has %v, published are %v", name, required, c.schema.Required)
		}
	}
}

func TestProblemOfEveryReason(t *testing.T) {
	for _, reason := range rpcerr.Reasons() {
		p := problemOf(&rpcerr.Error{Reason: reason, Message: "x"}, "id")
		if p.Code == "" || p.Code != strings.ToUpper(p.Code) || p.Status < 400 || len(p.Details) == 0 {
			t.Errorf("%s: %+v", reason, p)
		}
	}
	for field, want := range map[string]string{
		"":                               "#",
		"view":                           "#/view",
		"gate.leaves[0].width_mm":        "#/gate/leaves/0/width_mm",
		"gate.obstacles[12].points[3]":   "#/gate/obstacles/12/points/3",
		"gate.leaves[1].rail_heights_mm": "#/gate/leaves/1/rail_heights_mm",
	} {
		if got := pointer(field); got != want {
			t.Errorf("pointer of %q is %q", field, got)
		}
	}
}

func TestHandover(t *testing.T) {
	from, to := sound(), new(leafmomentv1.SizeGateRequest)
	from.OptionCount = proto.Int32(0) // given, and zero
	from.ProtoReflect().SetUnknown([]byte{0xa0, 0x3f, 0x01})
	if err := (handover{}).Copy(to, from); err != nil || !proto.Equal(from, to) || to.OptionCount == nil {
		t.Errorf("copied %v as %v: %v", from, to, err)
	}
	for name, in := range map[string]any{"another message": new(leafmomentv1.Gate), "no message": 7} {
		if err := (handover{}).Copy(to, in); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

func TestContainerMemory(t *testing.T) {
	for name, c := range map[string]struct {
		text  string
		limit int64
		ok    bool
	}{
		"limited":   {"268435456\n", 268435456, true},
		"unlimited": {"max\n", 0, false},
		"nonsense":  {"x", 0, false},
		"zero":      {"0\n", 0, false},
	} {
		root := fstest.MapFS{"sys/fs/cgroup/memory.max": {Data: []byte(c.text)}}
		if limit, ok := containerMemory(root); limit != c.limit || ok != c.ok {
			t.Errorf("%s: %d, %v", name, limit, ok)
		}
	}
	if _, ok := containerMemory(fstest.MapFS{}); ok {
		t.Error("a limit without a container")
	}
}

func TestServicesThatDoNotFit(t *testing.T) {
	for name, want := range map[string]string{
		"grpc.health.v1.Health": "streams", // it watches
		"leafmoment.v1.Nothing": "not found",
		"leafmoment.v1.Gate":    "isn't a service",
	} {
		if _, err := methodsOf(serviceNames([]string{name})); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
