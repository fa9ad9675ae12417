package server

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"

	"go.uber.org/zap"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/protobuf/proto"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// fake answers in place of the engine: what it does hangs on option_count, and
// every other call echoes part of the request.
type fake struct {
	leafmomentv1.UnimplementedSizingServiceServer
	leafmomentv1.UnimplementedConfigurationServiceServer
	leafmomentv1.UnimplementedCatalogServiceServer
	leafmomentv1.UnimplementedPartsListServiceServer
	entered chan struct{} // a sleeper says that it has begun
}

const (
	wantPanic = 13
	wantSleep = 14
)

func (f *fake) SizeGate(ctx context.Context, r *leafmomentv1.SizeGateRequest) (*leafmomentv1.SizeGateResponse, error) {
	switch r.GetOptionCount() {
	case wantPanic:
		panic("the vault's code is 4711")
	case wantSleep:
		f.entered <- struct{}{}
		<-ctx.Done()
		return nil, ctx.Err()
	}
	return &leafmomentv1.SizeGateResponse{
		Verdict: leafmomentv1.Verdict_VERDICT_SUITABLE,
		Findings: []*leafmomentv1.Finding{{
			Code:     leafmomentv1.FindingCode_FINDING_CODE_WIND_LIMIT,
			Measured: &leafmomentv1.Quantity{Value: r.Gate.Leaves[0].GetWidthMm(), Unit: "mm"},
		}},
		CatalogRevision: "r1",
	}, nil
}

func (f *fake) GetCatalog(context.Context, *leafmomentv1.GetCatalogRequest) (*leafmomentv1.GetCatalogResponse, error) {
	return &leafmomentv1.GetCatalogResponse{CatalogRevision: "r1", SupplierCode: "demo"}, nil
}

func (f *fake) register(r grpc.ServiceRegistrar) {
	leafmomentv1.RegisterSizingServiceServer(r, f)
	leafmomentv1.RegisterConfigurationServiceServer(r, f)
	leafmomentv1.RegisterPartsListServiceServer(r, f)
	leafmomentv1.RegisterCatalogServiceServer(r, f)
}

type running struct {
	*Server
	fake *fake
	conn *grpc.ClientConn
	http *http.Client
}

// run starts a server on free ports, and stops it with the test: without an
// error, and without a goroutine left.
func run(t *testing.T, change func(*Config), log *zap.Logger) *running {
	t.Helper()
	goroutines := runtime.NumGoroutine()
	config := DefaultConfig()
	config.GRPCAddress, config.RESTAddress, config.OpsAddress = "127.0.0.1:0", "127.0.0.1:0", "127.0.0.1:0"
	if change != nil {
		change(&config)
	}
	f := &fake{entered: make(chan struct{}, 100)}
	s, err := New(config, Parts{
		Services: f.register, Metrics: telemetry.New(), Log: log,
		Version: Version{Build: "test", Engine: "1", CatalogRevision: "r1", Supplier: "demo"},
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	conn, err := grpc.NewClient(s.GRPCAddr(), grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithDefaultCallOptions(grpc.MaxCallSendMsgSize(32<<20)))
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{}
	t.Cleanup(func() {
		transport.CloseIdleConnections()
		if err := conn.Close(); err != nil {
			t.Error(err)
		}
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		if err := s.Stop(ctx); err != nil {
			t.Errorf("stop: %v", err)
		}
		select {
		case err := <-s.Failed():
			t.Errorf("a port failed: %v", err)
		default:
		}
		noneLeft(t, goroutines)
	})
	return &running{s, f, conn, &http.Client{Transport: transport, Timeout: 10 * time.Second}}
}

// noneLeft fails where more goroutines run than before, once they had time to end.
func noneLeft(t *testing.T, before int) {
	t.Helper()
	var now int
	for range 200 {
		if now = runtime.NumGoroutine(); now <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	stacks := make([]byte, 1<<20)
	t.Errorf("%d goroutines before, %d after:\n%s", before, now, stacks[:runtime.Stack(stacks, true)])
}

func sound() *leafmomentv1.SizeGateRequest {
	return &leafmomentv1.SizeGateRequest{Gate: &leafmomentv1.Gate{
		Leaves:  []*leafmomentv1.Leaf{{WidthMm: proto.Float64(3000), HeightMm: proto.Float64(1200), MassKg: proto.Float64(90)}},
		Opening: &leafmomentv1.Opening{Direction: leafmomentv1.OpeningDirection_OPENING_DIRECTION_INWARD},
	}}
}

const soundJSON = `{"gate": {"leaves": [{"width_mm": 3000, "height_mm": 1200, "mass_kg": 90}],
  "opening": {"direction": "OPENING_DIRECTION_INWARD"}}}`

type reply struct {
	status  int
	header  http.Header
	body    []byte
	problem problem
}

// send makes an HTTP request; an error answer is checked for what all have in
// common and decoded.
func (r *running) send(t *testing.T, method, path, body string, headers ...string) reply {
	t.Helper()
	request, err := http.NewRequest(method, "http://"+r.RESTAddr()+path, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if method == http.MethodPost {
		request.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	response, err := r.http.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	out := reply{status: response.StatusCode, header: response.Header, body: text}
	if out.status >= 400 {
		if got := response.Header.Get("Content-Type"); got != "application/problem+json" {
			t.Errorf("%s %s: error as %q: %s", method, path, got, text)
		}
		decoder := json.NewDecoder(bytes.NewReader(text))
		decoder.DisallowUnknownFields()
		if err := decoder.Decode(&out.problem); err != nil {
			t.Fatalf("%s %s: %v in %s", method, path, err, text)
		}
		if p := out.problem; p.Status != out.status || p.Title == "" || p.Detail == "" || p.Code == "" ||
			p.Instance == "" || p.Instance != response.Header.Get("X-Request-Id") || p.Type != "tag:leafmoment.example,2026:"+p.Reason || len(p.Details) == 0 {
			t.Errorf("%s %s: incomplete problem %s", method, path, text)
		}
	}
	return out
}
