package server

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"net/http"
	"strings"
	"testing"
	"time"

	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
	"go.uber.org/zap/zaptest/observer"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
)

// detail picks the detail of type T out of a gRPC error.
func detail[T proto.Message](t *testing.T, err error) T {
	t.Helper()
	for _, d := range status.Convert(err).Details() {
		if found, ok := d.(T); ok {
			return found
		}
	}
	var none T
	t.Fatalf("no %T in %v", none, err)
	return none
}

func TestBothTransportsAnswerAlike(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	sizing := leafmomentv1.NewSizingServiceClient(s.conn)
	want, err := sizing.SizeGate(t.Context(), sound())
	if err != nil {
		t.Fatal(err)
	}
	for name, body := range map[string]string{
		"contract's names":  soundJSON,
		"lower camel names": strings.NewReplacer("width_mm", "widthMm", "height_mm", "heightMm", "mass_kg", "massKg").Replace(soundJSON),
	} {
		got := s.send(t, http.MethodPost, "/v1/gates:size", body)
		if got.status != http.StatusOK || got.header.Get("Content-Type") != "application/json" {
			t.Fatalf("%s: %d %s", name, got.status, got.body)
		}
		answer := new(leafmomentv1.SizeGateResponse)
		if err := protojson.Unmarshal(got.body, answer); err != nil || !proto.Equal(answer, want) {
			t.Errorf("%s: %s (%v), over gRPC %v", name, got.body, err, want)
		}
		if text := string(got.body); !strings.Contains(text, `"catalog_revision"`) || strings.Contains(text, "options") {
			t.Errorf("%s: names or empty fields are wrong in %s", name, text)
		}
	}
	catalog := s.send(t, http.MethodGet, "/v1/catalog", "")
	if catalog.status != http.StatusOK || !strings.Contains(string(catalog.body), "demo") {
		t.Errorf("catalog: %d %s", catalog.status, catalog.body)
	}
}

// An error is the same over both: code, reason, message and details.
func TestBothTransportsFailAlike(t *testing.T) {
	s := run(t, func(c *Config) { c.Timeout = 50 * time.Millisecond }, zap.NewNop())
	sizing := leafmomentv1.NewSizingServiceClient(s.conn)
	for name, c := range map[string]struct {
		change func(*leafmomentv1.SizeGateRequest)
		code   codes.Code
		status int
		reason string
	}{
		"a field's rule": {func(r *leafmomentv1.SizeGateRequest) { r.Gate.Leaves[0].WidthMm = proto.Float64(1) }, codes.InvalidArgument, 400, "INVALID_FIELDS"},
		"not a number":   {func(r *leafmomentv1.SizeGateRequest) { r.Gate.Leaves[0].MassKg = proto.Float64(math.NaN()) }, codes.InvalidArgument, 400, "INVALID_FIELDS"},
		"no gate":        {func(r *leafmomentv1.SizeGateRequest) { r.Gate = nil }, codes.InvalidArgument, 400, "INVALID_FIELDS"},
		"panic":          {func(r *leafmomentv1.SizeGateRequest) { r.OptionCount = proto.Int32(wantPanic) }, codes.Internal, 500, "INTERNAL"},
		"deadline":       {func(r *leafmomentv1.SizeGateRequest) { r.OptionCount = proto.Int32(wantSleep) }, codes.DeadlineExceeded, 504, "DEADLINE_EXCEEDED"},
	} {
		request := sound()
		c.change(request)
		_, err := sizing.SizeGate(t.Context(), request)
		st := status.Convert(err)
		info := detail[*errdetails.ErrorInfo](t, err)
		if st.Code() != c.code || info.Reason != c.reason || info.Domain != "leafmoment" {
			t.Errorf("%s over gRPC: %v", name, err)
		}
		body, err := protojson.Marshal(request)
		if err != nil {
			t.Fatal(err)
		}
		got := s.send(t, http.MethodPost, "/v1/gates:size", string(body))
		if got.status != c.status || got.problem.Reason != c.reason || got.problem.Detail != st.Message() {
			t.Errorf("%s over REST: %d %s, over gRPC %v", name, got.status, got.body, st)
		}
		if both := st.Proto().String() + string(got.body); strings.Contains(both, "4711") || strings.Contains(both, ".go:") {
			t.Errorf("%s: inner text leaks: %s", name, both)
		}
		if len(got.problem.Details) != len(st.Details()) {
			t.Errorf("%s: %d details over REST, %d over gRPC", name, len(got.problem.Details), len(st.Details()))
		}
	}
}

func TestNotANumberIsNamed(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	request := sound()
	request.Gate.Leaves[0].WidthMm = proto.Float64(math.NaN())
	_, err := leafmomentv1.NewSizingServiceClient(s.conn).SizeGate(t.Context(), request)
	violations := detail[*errdetails.BadRequest](t, err).FieldViolations
	if len(violations) == 0 || violations[0].Field != "gate.leaves[0].width_mm" || violations[0].Reason != "DOUBLE_FINITE" {
		t.Errorf("gRPC names %v", violations)
	}
	got := s.send(t, http.MethodPost, "/v1/gates:size", strings.Replace(soundJSON, "3000", `"NaN"`, 1))
	if got.status != 400 || len(got.problem.Violations) == 0 || got.problem.Violations[0].Pointer != "#/gate/leaves/0/width_mm" {
		t.Errorf("REST answers %d %s", got.status, got.body)
	}
}

func TestOverload(t *testing.T) {
	s := run(t, func(c *Config) { c.InFlight, c.Timeout = 1, 10*time.Second }, zap.NewNop())
	sizing := leafmomentv1.NewSizingServiceClient(s.conn)
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	done := make(chan error)
	go func() {
		sleeper := sound()
		sleeper.OptionCount = proto.Int32(wantSleep)
		_, err := sizing.SizeGate(ctx, sleeper)
		done <- err
	}()
	<-s.fake.entered
	_, err := sizing.SizeGate(t.Context(), sound())
	if status.Code(err) != codes.Unavailable || detail[*errdetails.RetryInfo](t, err).RetryDelay.AsDuration() != time.Second {
		t.Errorf("gRPC answers %v", err)
	}
	got := s.send(t, http.MethodPost, "/v1/gates:size", soundJSON)
	if got.status != http.StatusServiceUnavailable || got.problem.Reason != "OVERLOADED" || got.header.Get("Retry-After") != "1" {
		t.Errorf("REST answers %d %v %s", got.status, got.header, got.body)
	}
	if _, err := healthpb.NewHealthClient(s.conn).Check(t.Context(), &healthpb.HealthCheckRequest{}); err != nil {
		t.Errorf("health under load: %v", err)
	}
	cancel()
	if err := <-done; status.Code(err) != codes.Canceled {
		t.Errorf("the sleeper ends with %v", err)
	}
}

// REST passes every link of the chain: the log, the metrics and the id show it.
func TestRESTPassesTheChain(t *testing.T) {
	core, logs := observer.New(zapcore.InfoLevel)
	s := run(t, nil, zap.New(core))
	got := s.send(t, http.MethodPost, "/v1/gates:size", soundJSON, "X-Request-Id", "order-7")
	if got.header.Get("X-Request-Id") != "order-7" || len(got.header.Values("X-Request-Id")) != 1 {
		t.Errorf("id comes back as %v", got.header.Values("X-Request-Id"))
	}
	var header metadata.MD
	_, err := leafmomentv1.NewSizingServiceClient(s.conn).SizeGate(
		metadata.AppendToOutgoingContext(t.Context(), "x-request-id", "order-8"), sound(), grpc.Header(&header))
	if err != nil || header.Get("x-request-id")[0] != "order-8" {
		t.Errorf("over gRPC: %v, %v", header, err)
	}
	for id, transport := range map[string]string{"order-7": "rest", "order-8": "grpc"} {
		lines := logs.FilterField(zap.String("request_id", id)).All()
		if len(lines) != 1 {
			t.Fatalf("%s: %d lines", id, len(lines))
		}
		fields := lines[0].ContextMap()
		if fields["transport"] != transport || fields["rpc"] != "/leafmoment.v1.SizingService/SizeGate" || fields["code"] != "OK" {
			t.Errorf("%s: line is %v", id, fields)
		}
	}
	metrics := s.get(t, "/metrics")
	if want := `grpc_server_handled_total{grpc_code="OK",grpc_method="SizeGate",grpc_service="leafmoment.v1.SizingService",grpc_type="unary"} 2`; !strings.Contains(metrics, want) {
		t.Errorf("both calls aren't counted in\n%s", metrics)
	}
}

func (r *running) get(t *testing.T, path string) string {
	t.Helper()
	response, err := r.http.Get("http://" + r.OpsAddr() + path)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%d %s", response.StatusCode, text)
}

func TestOps(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	probe := healthpb.NewHealthClient(s.conn)
	states := func() string {
		out := strings.Fields(s.get(t, "/readyz"))[0]
		for _, name := range []string{"", "leafmoment.v1.SizingService", "leafmoment.v1.CatalogService"} {
			got, err := probe.Check(t.Context(), &healthpb.HealthCheckRequest{Service: name})
			if err != nil {
				t.Fatal(err)
			}
			out += " " + got.Status.String()
		}
		return out
	}
	if got := states(); got != "503 NOT_SERVING NOT_SERVING NOT_SERVING" {
		t.Errorf("before ready: %s", got)
	}
	s.SetReady(true)
	if got := states(); got != "200 SERVING SERVING SERVING" {
		t.Errorf("when ready: %s", got)
	}
	if got := s.get(t, "/livez"); got != "200 alive\n" {
		t.Errorf("livez: %s", got)
	}
	var version Version
	if err := json.Unmarshal([]byte(strings.TrimPrefix(s.get(t, "/version"), "200 ")), &version); err != nil || version.CatalogRevision != "r1" {
		t.Errorf("version: %+v, %v", version, err)
	}
	if got := s.get(t, "/debug/pprof/"); !strings.HasPrefix(got, "404") {
		t.Errorf("pprof: %s", got)
	}
}

func TestReflection(t *testing.T) {
	for _, on := range []bool{true, false} {
		s := run(t, func(c *Config) { c.Reflection = on }, zap.NewNop())
		stream, err := grpc_reflection_v1.NewServerReflectionClient(s.conn).ServerReflectionInfo(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		err = stream.Send(&grpc_reflection_v1.ServerReflectionRequest{
			MessageRequest: &grpc_reflection_v1.ServerReflectionRequest_ListServices{ListServices: "*"},
		})
		if err != nil && !errors.Is(err, io.EOF) { // EOF: refused already, and Recv tells why
			t.Fatal(err)
		}
		got, err := stream.Recv()
		if described := err == nil && strings.Contains(got.String(), "leafmoment.v1.SizingService"); described != on {
			t.Errorf("reflection %v: %v, %v", on, got, err)
		}
		if err := stream.CloseSend(); err != nil {
			t.Error(err)
		}
	}
}

func TestTooLargeOverGRPC(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	request := &leafmomentv1.CheckConfigurationRequest{Configuration: &leafmomentv1.Configuration{DriveSku: strings.Repeat("x", 10<<20)}}
	_, err := leafmomentv1.NewConfigurationServiceClient(s.conn).CheckConfiguration(t.Context(), request)
	if status.Code(err) != codes.ResourceExhausted {
		t.Errorf("10 MB answers %v", err)
	}
}

func TestNotImplemented(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	_, err := leafmomentv1.NewPartsListServiceClient(s.conn).BuildPartsList(t.Context(), &leafmomentv1.BuildPartsListRequest{Gate: sound().Gate})
	if status.Code(err) != codes.Unimplemented || detail[*errdetails.ErrorInfo](t, err).Reason != "NOT_IMPLEMENTED" {
		t.Errorf("gRPC answers %v", err)
	}
	if got := s.send(t, http.MethodPost, "/v1/partsLists:build", soundJSON); got.status != http.StatusNotImplemented {
		t.Errorf("REST answers %d %s", got.status, got.body)
	}
}
