package telemetry

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
	dto "github.com/prometheus/client_model/go"
	"google.golang.org/grpc"

	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/rpcerr"
)

type services map[string]grpc.ServiceInfo

func (s services) GetServiceInfo() map[string]grpc.ServiceInfo { return s }

const service, method = "leafmoment.v1.SizingService", "/leafmoment.v1.SizingService/SizeGate"

func initialized() *Metrics {
	m := New()
	m.Init(services{service: {Methods: []grpc.MethodInfo{{Name: "SizeGate"}}}})
	m.Catalog("r1", "demo", "1", 60, 8)
	return m
}

func gather(t *testing.T, m *Metrics) map[string]*dto.MetricFamily {
	t.Helper()
	list, err := m.registry.Gather()
	if err != nil {
		t.Fatal(err)
	}
	families := map[string]*dto.MetricFamily{}
	for _, f := range list {
		families[f.GetName()] = f
	}
	return families
}

// value is the counter or gauge of the family whose labels hold all of want.
func value(t *testing.T, m *Metrics, name string, want ...string) float64 {
	t.Helper()
	for _, metric := range gather(t, m)[name].GetMetric() {
		var labels []string
		for _, l := range metric.GetLabel() {
			labels = append(labels, l.GetName()+"="+l.GetValue())
		}
		joined := strings.Join(labels, ",")
		found := true
		for _, w := range want {
			found = found && strings.Contains(joined, w)
		}
		if found {
			return metric.GetCounter().GetValue() + metric.GetGauge().GetValue()
		}
	}
	t.Fatalf("no series of %s with %v", name, want)
	return 0
}

func TestNames(t *testing.T) {
	m := initialized()
	var ours []*dto.MetricFamily
	for name, family := range gather(t, m) {
		if strings.HasPrefix(name, "leafmoment_") || strings.HasPrefix(name, "grpc_") {
			ours = append(ours, family)
		}
	}
	if len(ours) < 10 {
		t.Fatalf("only %d families", len(ours))
	}
	problems, err := promlint.NewWithMetricFamilies(ours).Lint()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		t.Errorf("%s: %s", p.Metric, p.Text)
	}
}

// Every series is there before anything is counted, and their number is bounded
// whatever is counted afterwards.
func TestSeriesAreClosed(t *testing.T) {
	m := initialized()
	before := gather(t, m)
	for name, want := range map[string]int{
		"leafmoment_errors_total":      len(rpcerr.Reasons()),
		"leafmoment_findings_total":    len(finding.Codes()),
		"leafmoment_verdicts_total":    3 * 4,
		"grpc_server_handled_total":    17,
		"grpc_server_handling_seconds": 1,
		"leafmoment_margin_ratio":      1,
		"leafmoment_catalog_info":      1,
	} {
		if got := len(before[name].GetMetric()); got != want {
			t.Errorf("%s starts with %d series, want %d", name, got, want)
		}
	}
	for i := range 300 {
		m.Findings([]finding.Finding{{Code: finding.Code(i), Subject: strings.Repeat("x", i)}})
		m.Verdict(rpcs[i%len(rpcs)], finding.Verdict(i%8))
		m.Error(rpcerr.Reasons()[i%len(rpcerr.Reasons())])
		m.Catalog(strings.Repeat("r", i), "demo", "1", i, i)
	}
	for name, family := range gather(t, m) {
		if got, want := len(family.GetMetric()), len(before[name].GetMetric()); got != want {
			t.Errorf("%s grew from %d to %d series", name, want, got)
		}
	}
}

func TestCounts(t *testing.T) {
	m := initialized()
	m.Verdict(SizeGate, finding.AdviserReview)
	m.Findings([]finding.Finding{{Code: finding.WindLimit}, {Code: finding.WindLimit}, {Code: finding.ForceTest}})
	m.Margin(1.4)
	m.Margin(math.NaN())
	m.Margin(math.Inf(1))
	leave := m.Enter()
	if got := value(t, m, "leafmoment_in_flight_calls"); got != 1 {
		t.Errorf("%g calls in flight", got)
	}
	leave()

	call := m.Interceptor()
	info := &grpc.UnaryServerInfo{FullMethod: method}
	for _, err := range []error{nil, rpcerr.Overloaded(), rpcerr.Internal(errors.New("x"))} {
		if _, got := call(context.Background(), nil, info, func(context.Context, any) (any, error) { return nil, err }); !errors.Is(got, err) {
			t.Errorf("%v became %v", err, got)
		}
	}

	for _, c := range []struct {
		name   string
		labels []string
		want   float64
	}{
		{"leafmoment_in_flight_calls", nil, 0},
		{"leafmoment_verdicts_total", []string{"rpc=SizeGate", "verdict=ADVISER_REVIEW"}, 1},
		{"leafmoment_verdicts_total", []string{"rpc=SizeGate", "verdict=UNSUITABLE"}, 0},
		{"leafmoment_findings_total", []string{"code=WIND_LIMIT"}, 2},
		{"leafmoment_findings_total", []string{"code=FORCE_TEST"}, 1},
		{"leafmoment_errors_total", []string{"reason=OVERLOADED"}, 1},
		{"leafmoment_errors_total", []string{"reason=INTERNAL"}, 1},
		{"grpc_server_handled_total", []string{"grpc_method=SizeGate", "grpc_code=OK"}, 1},
		{"grpc_server_handled_total", []string{"grpc_method=SizeGate", "grpc_code=Unavailable"}, 1},
		{"grpc_server_handled_total", []string{"grpc_method=SizeGate", "grpc_code=Internal"}, 1},
		{"leafmoment_catalog_info", []string{"revision=r1"}, 1},
		{"leafmoment_catalog_parts", nil, 60},
	} {
		if got := value(t, m, c.name, c.labels...); got != c.want {
			t.Errorf("%s%v is %g, want %g", c.name, c.labels, got, c.want)
		}
	}
	margin := gather(t, m)["leafmoment_margin_ratio"].GetMetric()[0].GetHistogram()
	if margin.GetSampleCount() != 1 || margin.GetSampleSum() != 1.4 {
		t.Errorf("margin has %d samples, sum %g", margin.GetSampleCount(), margin.GetSampleSum())
	}
}
