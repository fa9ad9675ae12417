package service_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"go.uber.org/zap"
	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/server"
	"leafmoment.example/leafmoment/internal/service"
	"leafmoment.example/leafmoment/internal/telemetry"
	"leafmoment.example/leafmoment/internal/wire"
)

// served is the service over a catalog on free ports of this machine.
type served struct {
	conn *grpc.ClientConn
	http *http.Client
	rest string // base address
}

func serveDemo(t testing.TB) *served {
	t.Helper()
	s, err := service.New(demo.Catalog(), telemetry.New())
	if err != nil {
		t.Fatal(err)
	}
	return serve(t, s.Register)
}

func serve(t testing.TB, register func(grpc.ServiceRegistrar)) *served {
	t.Helper()
	config := server.DefaultConfig()
	config.GRPCAddress, config.RESTAddress, config.OpsAddress = "127.0.0.1:0", "127.0.0.1:0", "127.0.0.1:0"
	s, err := server.New(config, server.Parts{Services: register, Metrics: telemetry.New(), Log: zap.NewNop()})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	s.SetReady(true)
	conn, err := grpc.NewClient(s.GRPCAddr(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{MaxIdleConnsPerHost: 64}
	t.Cleanup(func() {
		transport.CloseIdleConnections()
		if err := conn.Close(); err != nil {
			t.Error(err)
		}
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		if err := s.Stop(ctx); err != nil {
			t.Error(err)
		}
	})
	return &served{conn, &http.Client{Transport: transport, Timeout: 20 * time.Second}, "http://" + s.RESTAddr()}
}

// rpc is one method of the contract, with its route.
type rpc struct {
	name, route  string // such as SizeGate and /leafmoment.v1.SizingService/SizeGate
	method, path string // over HTTP
	in, out      protoreflect.FullName
}

// contract finds every method of the contract.
func contract(t testing.TB) map[string]rpc {
	t.Helper()
	all := map[string]rpc{}
	protoregistry.GlobalFiles.RangeFilesByPackage("leafmoment.v1", func(f protoreflect.FileDescriptor) bool {
		for i := range f.Services().Len() {
			s := f.Services().Get(i)
			for j := range s.Methods().Len() {
				m := s.Methods().Get(j)
				r := rpc{
					name: string(m.Name()), route: "/" + string(s.FullName()) + "/" + string(m.Name()),
					in: m.Input().FullName(), out: m.Output().FullName(),
				}
				rule, _ := proto.GetExtension(m.Options(), annotations.E_Http).(*annotations.HttpRule)
				if r.method, r.path = http.MethodPost, rule.GetPost(); r.path == "" {
					r.method, r.path = http.MethodGet, rule.GetGet()
				}
				if r.path == "" {
					t.Fatalf("%s has no route", m.FullName())
				}
				all[r.name] = r
			}
		}
		return true
	})
	if len(all) == 0 {
		t.Fatal("the contract has no methods")
	}
	return all
}

func newMessage(t testing.TB, name protoreflect.FullName) proto.Message {
	t.Helper()
	kind, err := protoregistry.GlobalTypes.FindMessageByName(name)
	if err != nil {
		t.Fatal(err)
	}
	return kind.New().Interface()
}

// outcome is an answer of either transport.
type outcome struct {
	code       string // gRPC's
	status     int    // HTTP's; 0 over gRPC
	reason     string
	violations []string // each as field and rule
	body       any      // the answer's JSON, parsed
}

func (s *served) callGRPC(t testing.TB, r rpc, request proto.Message) outcome {
	t.Helper()
	answer := newMessage(t, r.out)
	err := s.conn.Invoke(t.Context(), r.route, request, answer)
	out := outcome{code: status.Code(err).String()}
	for _, d := range status.Convert(err).Details() {
		switch d := d.(type) {
		case *errdetails.ErrorInfo:
			out.reason = d.GetReason()
		case *errdetails.BadRequest:
			for _, v := range d.GetFieldViolations() {
				out.violations = append(out.violations, v.GetField()+" "+v.GetReason())
			}
		}
	}
	if err != nil {
		return out
	}
	text, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(answer)
	if err != nil {
		t.Fatal(err)
	}
	out.body = parsed(t, text)
	return out
}

func (s *served) callREST(t testing.TB, method, path, media, body string) outcome {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), method, s.rest+path, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if media != "" {
		request.Header.Set("Content-Type", media)
	}
	response, err := s.http.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	out := outcome{code: "OK", status: response.StatusCode}
	if out.status == http.StatusOK {
		out.body = parsed(t, text)
		return out
	}
	var problem struct {
		Code, Reason string
		Violations   []struct{ Field, Rule string }
	}
	if err := json.Unmarshal(text, &problem); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	out.code, out.reason = problem.Code, problem.Reason
	for _, v := range problem.Violations {
		out.violations = append(out.violations, v.Field+" "+v.Rule)
	}
	return out
}

// parsed keeps numbers as they are written, so that equal means to the digit.
func parsed(t testing.TB, text []byte) any {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatal(err)
	}
	return v
}

// gateFiles names the gates of testdata/gates.
func gateFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/gates/*.yaml")
	if err != nil || len(files) != 10 {
		t.Fatalf("%d gates, want ten: %v", len(files), err)
	}
	slices.Sort(files)
	return files
}

func readGate(t testing.TB, file string) *pb.Gate {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	request := &pb.SizeGateRequest{}
	if err := wire.UnmarshalYAML(text, file, request); err != nil {
		t.Fatal(err)
	}
	return request.GetGate()
}

// TestGatesOverBothTransports holds that each gate gets the same answer over
// gRPC and REST, from every call that takes a gate.
func TestGatesOverBothTransports(t *testing.T) {
	s, all := serveDemo(t), contract(t)
	for _, file := range gateFiles(t) {
		g := readGate(t, file)
		requests := map[string][]proto.Message{
			"SizeGate": {
				&pb.SizeGateRequest{Gate: g},
				&pb.SizeGateRequest{Gate: g, View: pb.View_VIEW_FULL},
			},
			"BuildPartsList": {
				&pb.BuildPartsListRequest{Gate: g},
				&pb.BuildPartsListRequest{Gate: g, DriveSku: "RH-500"},
			},
		}
		for _, drive := range []string{"RL-300", "RL-400", "RH-400", "RH-500", "RH-400Q"} {
			requests["CheckConfiguration"] = append(requests["CheckConfiguration"], &pb.CheckConfigurationRequest{
				Gate: g, Configuration: &pb.Configuration{DriveSku: drive}, View: pb.View_VIEW_FULL,
			})
		}
		for name, list := range requests {
			for _, request := range list {
				t.Run(filepath.Base(file)+" "+name, func(t *testing.T) { s.same(t, all[name], request) })
			}
		}
	}
	s.same(t, all["GetCatalog"], &pb.GetCatalogRequest{})
}

func (s *served) same(t *testing.T, r rpc, request proto.Message) {
	t.Helper()
	var body string
	if r.method == http.MethodPost {
		text, err := protojson.Marshal(request)
		if err != nil {
			t.Fatal(err)
		}
		body = string(text)
	}
	overGRPC, overREST := s.callGRPC(t, r, request), s.callREST(t, r.method, r.path, "application/json", body)
	if overGRPC.code != "OK" || overREST.status != http.StatusOK {
		t.Fatalf("%s: gRPC %s %s %q, REST %d %s", r.name, overGRPC.code, overGRPC.reason, overGRPC.violations, overREST.status, overREST.reason)
	}
	if !reflect.DeepEqual(overGRPC.body, overREST.body) {
		t.Errorf("%s: gRPC answers %v\nREST answers %v", r.name, overGRPC.body, overREST.body)
	}
}
