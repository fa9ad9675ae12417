package middleware

import (
	"context"
	"time"

	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/peer"

	"leafmoment.example/leafmoment/internal/rpcerr"
)

// accessLog writes one line for each call: who asked for what, what came of it
// and how long it took; never what was in it.
func accessLog(log *zap.Logger) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		start := time.Now()
		resp, err := next(ctx, req)
		failure := rpcerr.From(err)
		if entry := log.Check(levelOf(failure), "call"); entry != nil {
			fields := []zap.Field{
				zap.String("request_id", RequestID(ctx)),
				zap.String("rpc", info.FullMethod),
				zap.String("transport", transport(ctx)),
				zap.Float64("duration_ms", float64(time.Since(start))/float64(time.Millisecond)),
			}
			entry.Write(append(fields, outcome(failure)...)...)
		}
		return resp, err
	}
}

// levelOf is info for answers and for callers' own mistakes, warn where the
// service is short of something, error where it failed.
func levelOf(failure *rpcerr.Error) zapcore.Level {
	if failure == nil {
		return zapcore.InfoLevel
	}
	switch failure.Reason {
	case rpcerr.ReasonInternal:
		return zapcore.ErrorLevel
	case rpcerr.ReasonOverloaded, rpcerr.ReasonDeadlineExceeded:
		return zapcore.WarnLevel
	}
	return zapcore.InfoLevel
}

// outcome leaves out the message of a caller's mistake, which repeats words of
// the request; a failure's cause is the service's own.
func outcome(failure *rpcerr.Error) []zap.Field {
	if failure == nil {
		return []zap.Field{zap.Stringer("code", codes.OK)}
	}
	fields := []zap.Field{
		zap.Stringer("code", failure.Reason.Code()),
		zap.String("reason", string(failure.Reason)),
	}
	if failure.Reason == rpcerr.ReasonInternal && failure.Cause != nil {
		fields = append(fields, zap.NamedError("cause", failure.Cause))
	}
	return fields
}

// transport tells a call through the REST gateway, which is made in process,
// from one over the wire.
func transport(ctx context.Context) string {
	if p, ok := peer.FromContext(ctx); ok && p.Addr.Network() == "inproc" {
		return "rest"
	}
	return "grpc"
}
