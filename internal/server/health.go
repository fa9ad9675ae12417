package server

import (
	"context"

	"google.golang.org/grpc"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
)

// healthServer is the library's, but for watches that end when the server stops:
// the library's last as long as their callers like, and a balancer that
// watches would hold up every graceful stop to its very limit.
type healthServer struct {
	*health.Server
	stopping context.Context
	stop     context.CancelFunc
}

func newHealthServer() *healthServer {
	ctx, cancel := context.WithCancel(context.Background())
	return &healthServer{health.NewServer(), ctx, cancel}
}

// Watch sends the state of a service at once and whenever it changes.
func (h *healthServer) Watch(in *healthpb.HealthCheckRequest, stream healthpb.Health_WatchServer) error {
	ctx, cancel := context.WithCancel(stream.Context())
	defer cancel()
	defer context.AfterFunc(h.stopping, cancel)()
	return h.Server.Watch(in, watch{stream, ctx})
}

// watch is a stream with a context that ends earlier than its own.
type watch struct {
	grpc.ServerStreamingServer[healthpb.HealthCheckResponse]
	ctx context.Context
}

func (w watch) Context() context.Context { return w.ctx }
