// Package middleware holds what every call passes on its way to a handler, over
// gRPC and REST alike.
package middleware

import (
	"time"

	"go.uber.org/zap"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/reflect/protoreflect"

	"leafmoment.example/leafmoment/internal/telemetry"
)

// Settings is what the chain needs to know.
type Settings struct {
	Log      *zap.Logger
	Metrics  *telemetry.Metrics
	Requests []protoreflect.MessageDescriptor // every request message that may come
	InFlight int                              // most calls answered at once
	Wait     time.Duration                    // longest that a call waits for its turn
	Timeout  time.Duration                    // longest that a call may take
}

type link struct {
	name        string
	interceptor grpc.UnaryServerInterceptor
}

// Chain returns the interceptors, outermost first. It fails where a field rule
// of a request can't be compiled.
func Chain(s Settings) ([]grpc.UnaryServerInterceptor, error) {
	list, err := links(s)
	if err != nil {
		return nil, err
	}
	chain := make([]grpc.UnaryServerInterceptor, len(list))
	for i, l := range list {
		chain[i] = l.interceptor
	}
	return chain, nil
}

// links is the one place that orders the chain. Log and metrics stand outside of
// all that may turn a call away, so that no refusal goes unseen; recovery stands
// inside them, so that a panic is logged and counted like any failure, and
// outside of all that does work; the in-flight limit comes before the deadline,
// so that waiting for a turn doesn't eat into the time to answer; validation
// comes last, because it costs the most.
func links(s Settings) ([]link, error) {
	validate, err := validation(s.Requests)
	if err != nil {
		return nil, err
	}
	return []link{
		{"request id", requestID},
		{"log", accessLog(s.Log)},
		{"metrics", s.Metrics.Interceptor()},
		{"recovery", recovered()},
		{"in-flight limit", inFlight(s.InFlight, s.Wait, s.Metrics)},
		{"deadline", deadline(s.Timeout)},
		{"validation", validate},
	}, nil
}
