package server

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/fullstorydev/grpchan"
	"github.com/fullstorydev/grpchan/inprocgrpc"
	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"go.uber.org/zap"
	"google.golang.org/grpc"

	leafmomentv1 "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/middleware"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// bulky answers with some 8 KB of JSON, as a full view does.
type bulky struct{ fake }

func (*bulky) SizeGate(context.Context, *leafmomentv1.SizeGateRequest) (*leafmomentv1.SizeGateResponse, error) {
	answer := &leafmomentv1.SizeGateResponse{Verdict: leafmomentv1.Verdict_VERDICT_SUITABLE}
	for i := range 30 {
		answer.Findings = append(answer.Findings, &leafmomentv1.Finding{
			Code:     leafmomentv1.FindingCode_FINDING_CODE_WIND_LIMIT,
			Severity: leafmomentv1.Severity_SEVERITY_CAUTION,
			Message:  "The gate still moves in a wind of up to 8.4 m/s.",
			Measured: &leafmomentv1.Quantity{Value: float64(i) / 7, Unit: "m/s"},
			Remedies: []*leafmomentv1.Remedy{{Kind: leafmomentv1.RemedyKind_REMEDY_KIND_FIT_PART, Text: "Fit a lock.", Sku: "LK-1"}},
		})
	}
	return answer, nil
}

// BenchmarkREST is one call through the whole of the HTTP side, without a socket,
// against the stock gateway that calls the same handler directly: no chain, no
// limits, the library's own marshaler with this service's options.
func BenchmarkREST(b *testing.B) {
	bare := runtime.NewServeMux(runtime.WithMarshalerOption(runtime.MIMEWildcard, &newJSONMarshaler().JSONPb))
	if err := leafmomentv1.RegisterSizingServiceHandlerServer(b.Context(), bare, new(bulky)); err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		handler http.Handler
	}{
		{"bare", bare},
		{"chain", chained(b, handover{})},
		{"chain, copying", chained(b, inprocgrpc.ProtoCloner{})},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				request := httptest.NewRequest(http.MethodPost, "/v1/gates:size", strings.NewReader(soundJSON))
				request.Header.Set("Content-Type", "application/json")
				answer := httptest.NewRecorder()
				c.handler.ServeHTTP(answer, request)
				if answer.Code != http.StatusOK {
					text, _ := io.ReadAll(answer.Body)
					b.Fatalf("answers %d %s", answer.Code, text)
				}
			}
		})
	}
}

func chained(b *testing.B, cloner inprocgrpc.Cloner) http.Handler {
	offered := new(inprocgrpc.Channel)
	register := func(r grpc.ServiceRegistrar) { leafmomentv1.RegisterSizingServiceServer(r, new(bulky)) }
	register(offered)
	methods, err := methodsOf(offered.GetServiceInfo())
	if err != nil {
		b.Fatal(err)
	}
	config, metrics := DefaultConfig(), telemetry.New()
	chain, err := middleware.Chain(middleware.Settings{
		Log: zap.NewNop(), Metrics: metrics, Requests: requestsOf(methods),
		InFlight: config.InFlight, Wait: turnWait, Timeout: config.Timeout,
	})
	if err != nil {
		b.Fatal(err)
	}
	channel := new(inprocgrpc.Channel).WithCloner(cloner)
	register(grpchan.WithUnaryInterceptors(channel, chain...))
	gateway, err := newGateway(channel, nil, &problems{zap.NewNop(), metrics})
	if err != nil {
		b.Fatal(err)
	}
	return gateway
}
