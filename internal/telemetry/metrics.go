// Package telemetry holds what the service measures of itself: one registry of
// Prometheus metrics in base units, with label values from closed sets alone and
// every series there from the start, so that a rate over it is never missing.
package telemetry

import (
	"context"
	"math"
	"net/http"
	"time"

	grpcprom "github.com/grpc-ecosystem/go-grpc-middleware/providers/prometheus"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
	"google.golang.org/grpc"
	"google.golang.org/grpc/reflection"

	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/rpcerr"
)

// RPC names a call that ends in a verdict.
type RPC string

// The calls that end in a verdict.
const (
	SizeGate           RPC = "SizeGate"
	CheckConfiguration RPC = "CheckConfiguration"
	BuildPartsList     RPC = "BuildPartsList"
)

var rpcs = []RPC{SizeGate, CheckConfiguration, BuildPartsList}

var verdicts = map[finding.Verdict]string{
	finding.Suitable:               "SUITABLE",
	finding.SuitableWithConditions: "SUITABLE_WITH_CONDITIONS",
	finding.AdviserReview:          "ADVISER_REVIEW",
	finding.Unsuitable:             "UNSUITABLE",
}

// latencyBuckets, in seconds, run from a call that is refused to the longest
// that is let run, close together about the 1 ms that sizing may take.
var latencyBuckets = []float64{
	0.00025, 0.0005, 0.001, 0.002, 0.004, 0.008, 0.016, 0.032, 0.064, 0.128, 0.256, 0.512, 1, 2,
}

// marginBuckets are close together about 1, where a gate stops moving, and about
// the margins that suppliers ask for.
var marginBuckets = []float64{0.25, 0.5, 0.75, 0.9, 1, 1.1, 1.2, 1.3, 1.5, 1.75, 2, 3, 5}

// Metrics is the registry and all that is counted in it. It is safe for
// concurrent use.
type Metrics struct {
	registry     *prometheus.Registry
	rpc          *grpcprom.ServerMetrics
	inFlight     prometheus.Gauge
	errors       *prometheus.CounterVec
	verdicts     *prometheus.CounterVec
	findings     map[finding.Code]prometheus.Counter
	margin       prometheus.Histogram
	catalog      *prometheus.GaugeVec
	catalogParts prometheus.Gauge
	catalogKits  prometheus.Gauge
}

// New makes the metrics in a registry of their own.
func New() *Metrics {
	findings := prometheus.NewCounterVec(prometheus.CounterOpts{
		Name: "leafmoment_findings_total", Help: "Findings given in answers, by code.",
	}, []string{"code"})
	m := &Metrics{
		registry: prometheus.NewRegistry(),
		rpc: grpcprom.NewServerMetrics(grpcprom.WithServerHandlingTimeHistogram(
			grpcprom.WithHistogramOpts(&prometheus.HistogramOpts{
				Buckets:                         latencyBuckets,
				NativeHistogramBucketFactor:     1.1,
				NativeHistogramMaxBucketNumber:  100,
				NativeHistogramMinResetDuration: time.Hour,
			}))),
		inFlight: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "leafmoment_in_flight_calls", Help: "Calls being answered now.",
		}),
		errors: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "leafmoment_errors_total", Help: "Requests answered by an error, by its reason; those turned away before a call was made included.",
		}, []string{"reason"}),
		verdicts: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "leafmoment_verdicts_total", Help: "Answers given, by call and verdict.",
		}, []string{"rpc", "verdict"}),
		findings: make(map[finding.Code]prometheus.Counter),
		margin: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name: "leafmoment_margin_ratio", Help: "Thrust available over thrust required, at the worst angle of the best option.",
			Buckets: marginBuckets,
		}),
		catalog: prometheus.NewGaugeVec(prometheus.GaugeOpts{
			Name: "leafmoment_catalog_info", Help: "Always 1: the catalog that is served and the engine that reads it.",
		}, []string{"revision", "supplier", "engine"}),
		catalogParts: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "leafmoment_catalog_parts", Help: "Parts in the catalog that is served.",
		}),
		catalogKits: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "leafmoment_catalog_kits", Help: "Kits in the catalog that is served.",
		}),
	}
	m.registry.MustRegister(m.rpc, m.inFlight, m.errors, m.verdicts, findings, m.margin,
		m.catalog, m.catalogParts, m.catalogKits,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	for _, reason := range rpcerr.Reasons() {
		m.errors.WithLabelValues(string(reason))
	}
	for _, rpc := range rpcs {
		for _, verdict := range verdicts {
			m.verdicts.WithLabelValues(string(rpc), verdict)
		}
	}
	for _, code := range finding.Codes() {
		m.findings[code] = findings.WithLabelValues(code.String())
	}
	return m
}

// Handler serves the metrics in the format that the scraper asks for.
func (m *Metrics) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{EnableOpenMetrics: true})
}

// Init makes the series of every method that services offers.
func (m *Metrics) Init(services reflection.ServiceInfoProvider) {
	m.rpc.InitializeMetrics(services)
}

// Interceptor counts and times calls by method and code, and counts errors by
// reason.
func (m *Metrics) Interceptor() grpc.UnaryServerInterceptor {
	count := m.rpc.UnaryServerInterceptor()
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		resp, err := count(ctx, req, info, next)
		if err != nil {
			m.Error(rpcerr.From(err).Reason)
		}
		return resp, err
	}
}

// Enter counts a call in; the returned function counts it out.
func (m *Metrics) Enter() (leave func()) {
	m.inFlight.Inc()
	return m.inFlight.Dec
}

// Error counts a request that was answered by an error.
func (m *Metrics) Error(reason rpcerr.Reason) {
	m.errors.WithLabelValues(string(reason)).Inc()
}

// Verdict counts an answer.
func (m *Metrics) Verdict(rpc RPC, verdict finding.Verdict) {
	if name, ok := verdicts[verdict]; ok {
		m.verdicts.WithLabelValues(string(rpc), name).Inc()
	}
}

// Findings counts the findings of an answer.
func (m *Metrics) Findings(list []finding.Finding) {
	for _, f := range list {
		if counter, ok := m.findings[f.Code]; ok {
			counter.Inc()
		}
	}
}

// Margin records the margin of an answer's best option. One that isn't finite is
// left out, because it would spoil the sum for good.
func (m *Metrics) Margin(ratio float64) {
	if math.IsNaN(ratio) || math.IsInf(ratio, 0) {
		return
	}
	m.margin.Observe(ratio)
}

// Catalog says which catalog is served from now on.
func (m *Metrics) Catalog(revision, supplier, engine string, parts, kits int) {
	m.catalog.Reset()
	m.catalog.WithLabelValues(revision, supplier, engine).Set(1)
	m.catalogParts.Set(float64(parts))
	m.catalogKits.Set(float64(kits))
}
