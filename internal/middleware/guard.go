package middleware

import (
	"context"
	"time"

	"github.com/grpc-ecosystem/go-grpc-middleware/v2/interceptors/recovery"
	"google.golang.org/grpc"

	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// recovered turns a panic, and any error that isn't fit to be shown, into one
// that tells the caller nothing; the log has its cause and the stack.
func recovered() grpc.UnaryServerInterceptor {
	catch := recovery.UnaryServerInterceptor()
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		resp, err := catch(ctx, req, info, next)
		if err != nil {
			return nil, rpcerr.From(err)
		}
		return resp, nil
	}
}

// inFlight lets limit calls run at once. One more waits its turn for so long and
// is then turned away: beyond the limit a queue only makes every answer late.
func inFlight(limit int, wait time.Duration, metrics *telemetry.Metrics) grpc.UnaryServerInterceptor {
	slots := make(chan struct{}, limit)
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		select {
		case slots <- struct{}{}:
		default:
			timer := time.NewTimer(wait)
			defer timer.Stop()
			select {
			case slots <- struct{}{}:
			case <-timer.C:
				return nil, rpcerr.Overloaded()
			case <-ctx.Done():
				return nil, ctx.Err()
			}
		}
		leave := metrics.Enter()
		defer func() {
			leave()
			<-slots
		}()
		return next(ctx, req)
	}
}

// deadline ends a call's context after limit, or earlier where the caller says.
func deadline(limit time.Duration) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		ctx, cancel := context.WithTimeout(ctx, limit)
		defer cancel()
		return next(ctx, req)
	}
}
