package service_test

import (
	"errors"
	"math"
	"testing"

	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protopath"
	"google.golang.org/protobuf/reflect/protorange"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/service"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// FuzzSizeGate takes any bytes for a request, as JSON or in the wire format. What
// passes the contract's field rules gets an answer in which every number is
// finite, or an error that names fields.
func FuzzSizeGate(f *testing.F) {
	s, err := service.New(demo.Catalog(), telemetry.New())
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range gateFiles(f) {
		request := &pb.SizeGateRequest{Gate: readGate(f, file), View: pb.View_VIEW_FULL}
		text, err := protojson.Marshal(request)
		if err != nil {
			f.Fatal(err)
		}
		wire, err := proto.Marshal(request)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
		f.Add(wire)
	}
	for _, c := range loadCases(f) {
		if c.RPC == "SizeGate" && c.Padding == 0 {
			f.Add([]byte(c.body(f)))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		request := &pb.SizeGateRequest{}
		if protojson.Unmarshal(data, request) != nil && proto.Unmarshal(data, request) != nil {
			return
		}
		if protovalidate.Validate(request) != nil {
			return
		}
		answer, err := s.SizeGate(t.Context(), request)
		if err != nil {
			namesFields(t, err)
			return
		}
		if answer.GetVerdict() == pb.Verdict_VERDICT_UNSPECIFIED || answer.GetCatalogRevision() == "" {
			t.Errorf("no verdict in %v", answer)
		}
		allFinite(t, answer)
		parts, err := s.BuildPartsList(t.Context(), &pb.BuildPartsListRequest{Gate: request.GetGate()})
		if err != nil {
			t.Fatalf("sized, but without parts: %v", err)
		}
		allFinite(t, parts)
	})
}

func namesFields(t *testing.T, err error) {
	t.Helper()
	var refusal *rpcerr.Error
	if !errors.As(err, &refusal) || refusal.Reason != rpcerr.ReasonInvalidFields || len(refusal.Violations) == 0 {
		t.Fatalf("neither an answer nor fields at fault: %v", err)
	}
	for _, v := range refusal.Violations {
		if v.Field == "" || v.Description == "" || v.Rule == "" {
			t.Errorf("violation is %+v", v)
		}
	}
}

func allFinite(t *testing.T, m proto.Message) {
	t.Helper()
	err := protorange.Range(m.ProtoReflect(), func(p protopath.Values) error {
		last := p.Index(-1)
		if v, ok := last.Value.Interface().(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%v is %v", p.Path, v)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
