package middleware

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
	"go.uber.org/zap/zaptest/observer"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/telemetry"
)

const method = "/leafmoment.v1.SizingService/SizeGate"

func settings() Settings {
	return Settings{
		Log:      zap.NewNop(),
		Metrics:  telemetry.New(),
		Requests: []protoreflect.MessageDescriptor{(*leafmomentv1.SizeGateRequest)(nil).ProtoReflect().Descriptor()},
		InFlight: 1,
		Wait:     5 * time.Millisecond,
		Timeout:  time.Second,
	}
}

func sound() *leafmomentv1.SizeGateRequest {
	return &leafmomentv1.SizeGateRequest{Gate: &leafmomentv1.Gate{
		Leaves:  []*leafmomentv1.Leaf{{WidthMm: proto.Float64(3000), HeightMm: proto.Float64(1200), MassKg: proto.Float64(90)}},
		Opening: &leafmomentv1.Opening{Direction: leafmomentv1.OpeningDirection_OPENING_DIRECTION_INWARD},
	}}
}

// through calls handler through the whole chain.
func through(t *testing.T, s Settings, handler grpc.UnaryHandler) func(context.Context, proto.Message) (any, error) {
	t.Helper()
	chain, err := Chain(s)
	if err != nil {
		t.Fatal(err)
	}
	info := &grpc.UnaryServerInfo{FullMethod: method}
	call := handler
	for _, interceptor := range slices.Backward(chain) {
		next := call
		call = func(ctx context.Context, req any) (any, error) { return interceptor(ctx, req, info, next) }
	}
	return func(ctx context.Context, req proto.Message) (any, error) { return call(ctx, req) }
}

func answer(context.Context, any) (any, error) { return &leafmomentv1.SizeGateResponse{}, nil }

func reasonOf(err error) rpcerr.Reason {
	if err == nil {
		return ""
	}
	return rpcerr.From(err).Reason
}

func TestOrder(t *testing.T) {
	list, err := links(settings())
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, l := range list {
		names = append(names, l.name)
	}
	want := "request id, log, metrics, recovery, in-flight limit, deadline, validation"
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("order is %s\nwant     %s", got, want)
	}
	chain, err := Chain(settings())
	if err != nil || len(chain) != len(list) {
		t.Errorf("chain has %d of %d links: %v", len(chain), len(list), err)
	}
}

// What the order is for, seen from outside.
func TestOrderMatters(t *testing.T) {
	core, logs := observer.New(zapcore.InfoLevel)
	s := settings()
	s.Log = zap.New(core)
	started, release := make(chan struct{}), make(chan struct{})
	call := through(t, s, func(ctx context.Context, req any) (any, error) {
		close(started)
		<-release
		return answer(ctx, req)
	})
	done := make(chan error)
	go func() {
		_, err := call(context.Background(), sound())
		done <- err
	}()
	<-started
	// The limit turns the call away before its fields are looked at, and the log
	// sees it.
	if _, err := call(context.Background(), &leafmomentv1.SizeGateRequest{}); reasonOf(err) != rpcerr.ReasonOverloaded {
		t.Errorf("a call over the limit answers %v", err)
	}
	close(release)
	if err := <-done; err != nil {
		t.Error(err)
	}
	if got := logs.FilterField(zap.String("reason", "OVERLOADED")).Len(); got != 1 {
		t.Errorf("%d lines for the refused call", got)
	}
	if _, err := call(context.Background(), &leafmomentv1.SizeGateRequest{}); reasonOf(err) != rpcerr.ReasonInvalidFields {
		t.Errorf("with a free slot: %v", err)
	}
}

func TestPanic(t *testing.T) {
	core, logs := observer.New(zapcore.InfoLevel)
	s := settings()
	s.Log = zap.New(core)
	call := through(t, s, func(context.Context, any) (any, error) { panic("secret of the house") })
	for range 3 { // more often than there are slots: each must be given back
		resp, err := call(context.Background(), sound())
		if resp != nil || reasonOf(err) != rpcerr.ReasonInternal {
			t.Fatalf("answers %v, %v", resp, err)
		}
		if text := rpcerr.From(err).GRPCStatus().Proto().String(); strings.Contains(text, "secret") {
			t.Errorf("the panic leaks: %s", text)
		}
	}
	lines := logs.FilterLevelExact(zapcore.ErrorLevel).All()
	if len(lines) != 3 {
		t.Fatalf("%d lines of error", len(lines))
	}
	cause, _ := lines[0].ContextMap()["cause"].(string)
	if !strings.Contains(cause, "secret of the house") || !strings.Contains(cause, "chain_test.go") {
		t.Errorf("the log lacks text or stack: %q", cause)
	}
}

func TestErrorsFromHandler(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		want rpcerr.Reason
	}{
		"a bug":        {errors.New("secret"), rpcerr.ReasonInternal},
		"a public one": {rpcerr.UnknownSKUs("r1", rpcerr.UnknownSKU{Field: "drive_sku", SKU: "X"}), rpcerr.ReasonUnknownSKU},
		"out of time":  {context.DeadlineExceeded, rpcerr.ReasonDeadlineExceeded},
	} {
		call := through(t, settings(), func(context.Context, any) (any, error) { return nil, c.err })
		if _, err := call(context.Background(), sound()); reasonOf(err) != c.want {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestDeadline(t *testing.T) {
	s := settings()
	s.Timeout = 10 * time.Millisecond
	call := through(t, s, func(ctx context.Context, _ any) (any, error) {
		<-ctx.Done()
		return nil, ctx.Err()
	})
	ctx, cancel := context.WithTimeout(context.Background(), time.Hour)
	defer cancel()
	if _, err := call(ctx, sound()); reasonOf(err) != rpcerr.ReasonDeadlineExceeded {
		t.Errorf("answers %v", err)
	}
	ctx, cancel = context.WithCancel(context.Background())
	cancel()
	if _, err := call(ctx, sound()); reasonOf(err) != rpcerr.ReasonCanceled {
		t.Errorf("a caller gone answers %v", err)
	}
}

func TestViolationsComeAtOnce(t *testing.T) {
	called := false
	call := through(t, settings(), func(ctx context.Context, req any) (any, error) {
		called = true
		return answer(ctx, req)
	})
	bad := sound()
	bad.Gate.Leaves[0].WidthMm = proto.Float64(math.NaN())
	bad.Gate.Leaves[0].MassKg = proto.Float64(math.Inf(1))
	bad.Gate.Leaves[0].HeightMm = proto.Float64(-1)
	bad.View = 99
	_, err := call(context.Background(), bad)
	failure := rpcerr.From(err)
	if called || failure == nil || failure.Reason != rpcerr.ReasonInvalidFields {
		t.Fatalf("answers %v", err)
	}
	got := map[string]string{}
	for _, v := range failure.Violations {
		if v.Description == "" {
			t.Errorf("%s isn't described", v.Field)
		}
		got[v.Field] += v.Rule + " "
	}
	for field, rule := range map[string]string{
		"gate.leaves[0].width_mm":  "DOUBLE_FINITE",
		"gate.leaves[0].mass_kg":   "DOUBLE_FINITE",
		"gate.leaves[0].height_mm": "DOUBLE_GTE_LTE",
		"view":                     "ENUM_DEFINED_ONLY",
	} {
		if !strings.Contains(got[field], rule) {
			t.Errorf("%s: rules %q, want %s", field, got[field], rule)
		}
	}
}

// A message whose rules weren't compiled at the start is a bug, not a free pass.
func TestUnforeseenRequest(t *testing.T) {
	call := through(t, settings(), answer)
	if _, err := call(context.Background(), &leafmomentv1.GetCatalogRequest{}); reasonOf(err) != rpcerr.ReasonInternal {
		t.Errorf("answers %v", err)
	}
}

func TestRequestID(t *testing.T) {
	core, logs := observer.New(zapcore.InfoLevel)
	s := settings()
	s.Log = zap.New(core)
	var seen string
	call := through(t, s, func(ctx context.Context, req any) (any, error) {
		seen = RequestID(ctx)
		return answer(ctx, req)
	})
	for sent, keeps := range map[string]bool{
		"order-7.a":                true,
		"":                         false,
		"a b":                      false,
		"line\nbreak":              false,
		strings.Repeat("x", 65):    false,
		"customer@mail.example":    false,
		strings.Repeat("x", 64):    true,
		"0b2f7c3e-1111-4222-8333a": true,
	} {
		ctx := metadata.NewIncomingContext(context.Background(), metadata.Pairs(RequestIDHeader, sent))
		if _, err := call(ctx, sound()); err != nil {
			t.Fatal(err)
		}
		if (seen == sent) != keeps || len(seen) < 9 {
			t.Errorf("sent %q, took %q", sent, seen)
		}
		lines := logs.TakeAll()
		if len(lines) != 1 || lines[0].ContextMap()["request_id"] != seen || lines[0].ContextMap()["code"] != "OK" {
			t.Errorf("lines are %v", lines)
		}
	}
}

func BenchmarkChain(b *testing.B) {
	s := settings()
	s.InFlight = 64
	chain, err := Chain(s)
	if err != nil {
		b.Fatal(err)
	}
	info := &grpc.UnaryServerInfo{FullMethod: method}
	call := grpc.UnaryHandler(answer)
	for _, interceptor := range slices.Backward(chain) {
		next := call
		call = func(ctx context.Context, req any) (any, error) { return interceptor(ctx, req, info, next) }
	}
	request := sound()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := call(context.Background(), request); err != nil {
			b.Fatal(err)
		}
	}
}
