// Package server puts the service on the network: gRPC, the same calls as JSON
// over HTTP, and a port of its own for operations.
package server

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/fullstorydev/grpchan"
	"github.com/fullstorydev/grpchan/inprocgrpc"
	"go.uber.org/zap"
	"google.golang.org/grpc"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/keepalive"
	"google.golang.org/grpc/reflection"

	"leafmoment.example/leafmoment/internal/middleware"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// Parts is what a server is made from.
type Parts struct {
	Services func(grpc.ServiceRegistrar) // registers every service; called once for each transport
	Version  Version
	Metrics  *telemetry.Metrics
	Log      *zap.Logger
}

// Server is one instance of the service. Use New, Start, SetReady, Stop, in that
// order, each once.
type Server struct {
	config  Config
	log     *zap.Logger
	metrics *telemetry.Metrics
	names   []string // services, for health
	health  *healthServer
	ready   atomic.Bool

	grpc *grpc.Server
	rest *http.Server
	ops  *http.Server

	grpcListener, restListener, opsListener net.Listener

	serving sync.WaitGroup
	failed  chan error
}

// New makes a server that isn't listening yet. The error names everything that is
// wrong with the configuration.
func New(config Config, parts Parts) (*Server, error) {
	if err := config.check(); err != nil {
		return nil, err
	}
	channel := new(inprocgrpc.Channel)
	channel.WithCloner(handover{})
	s := &Server{
		config:  config,
		log:     parts.Log,
		metrics: parts.Metrics,
		health:  newHealthServer(),
		grpc:    grpc.NewServer(grpcOptions()...),
		failed:  make(chan error, 3),
	}
	// What is offered has to be known before the chain can be made.
	offered := new(inprocgrpc.Channel)
	parts.Services(offered)
	methods, err := methodsOf(offered.GetServiceInfo())
	if err != nil {
		return nil, err
	}
	routes, err := routesOf(methods)
	if err != nil {
		return nil, err
	}
	chain, err := middleware.Chain(middleware.Settings{
		Log: s.log, Metrics: s.metrics, Requests: requestsOf(methods),
		InFlight: config.InFlight, Wait: turnWait, Timeout: config.Timeout,
	})
	if err != nil {
		return nil, err
	}
	parts.Services(grpchan.WithUnaryInterceptors(s.grpc, chain...))
	parts.Services(grpchan.WithUnaryInterceptors(channel, chain...))
	s.metrics.Init(offered)
	for name := range offered.GetServiceInfo() {
		s.names = append(s.names, name)
	}
	// These two answer outside of the chain: a probe must get through under load,
	// and fills no log.
	healthpb.RegisterHealthServer(s.grpc, s.health)
	if config.Reflection {
		reflection.Register(s.grpc)
	}
	s.SetReady(false)

	gateway, err := newGateway(channel, routes, &problems{s.log, s.metrics})
	if err != nil {
		return nil, err
	}
	s.rest = s.httpServer(gateway)
	s.ops = s.httpServer(s.operations(parts.Version))
	return s, nil
}

// grpcOptions replaces defaults of the library that let one caller take the
// server's memory, or that keep a caller on one instance for ever.
func grpcOptions() []grpc.ServerOption {
	return []grpc.ServerOption{
		grpc.MaxRecvMsgSize(maxRequestBytes),
		grpc.MaxHeaderListSize(maxHeaderBytes),
		grpc.MaxConcurrentStreams(256), // a connection; without it there is no bound
		grpc.ConnectionTimeout(10 * time.Second),
		grpc.KeepaliveEnforcementPolicy(keepalive.EnforcementPolicy{
			MinTime: 30 * time.Second, PermitWithoutStream: true,
		}),
		grpc.KeepaliveParams(keepalive.ServerParameters{
			Time: 2 * time.Minute, Timeout: 20 * time.Second,
			MaxConnectionIdle: 15 * time.Minute,
			// So that callers that balance by name find instances that are new.
			MaxConnectionAge: 10 * time.Minute, MaxConnectionAgeGrace: 30 * time.Second,
		}),
	}
}

func (s *Server) httpServer(handler http.Handler) *http.Server {
	return &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      30 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          zap.NewStdLog(s.log.Named("http")),
	}
}

// Start listens and serves, and returns once all three ports are open. The server
// says it isn't ready until SetReady.
func (s *Server) Start() error {
	for _, port := range []struct {
		name     string
		address  string
		listener *net.Listener
	}{
		{"ops", s.config.OpsAddress, &s.opsListener},
		{"gRPC", s.config.GRPCAddress, &s.grpcListener},
		{"REST", s.config.RESTAddress, &s.restListener},
	} {
		listener, err := new(net.ListenConfig).Listen(context.Background(), "tcp", port.address)
		if err != nil {
			return errors.Join(fmt.Errorf("%s port: %w", port.name, err), s.closeListeners())
		}
		*port.listener = listener
	}
	s.serve("ops", func() error { return s.ops.Serve(s.opsListener) })
	s.serve("gRPC", func() error { return s.grpc.Serve(s.grpcListener) })
	s.serve("REST", func() error { return s.rest.Serve(s.restListener) })
	s.log.Info("listening",
		zap.String("grpc", s.GRPCAddr()), zap.String("rest", s.RESTAddr()), zap.String("ops", s.OpsAddr()))
	if s.config.AllowRemote {
		s.log.Warn("other machines may call: calls are neither authenticated nor encrypted here, so something before the service must do both")
	} else {
		s.log.Info("only this machine may call: calls are neither authenticated nor encrypted")
	}
	return nil
}

func (s *Server) closeListeners() error {
	var errs []error
	for _, l := range []net.Listener{s.opsListener, s.grpcListener, s.restListener} {
		if l != nil {
			errs = append(errs, l.Close())
		}
	}
	return errors.Join(errs...)
}

func (s *Server) serve(name string, serve func() error) {
	s.serving.Go(func() {
		if err := serve(); err != nil && !errors.Is(err, http.ErrServerClosed) && !errors.Is(err, grpc.ErrServerStopped) {
			s.failed <- fmt.Errorf("%s port: %w", name, err)
		}
	})
}

// Failed delivers the error of a port that stops serving unasked.
func (s *Server) Failed() <-chan error { return s.failed }

// SetReady says to health checks, over gRPC and at /readyz, whether calls may be
// sent here.
func (s *Server) SetReady(ready bool) {
	s.ready.Store(ready)
	status := healthpb.HealthCheckResponse_NOT_SERVING
	if ready {
		status = healthpb.HealthCheckResponse_SERVING
	}
	for _, name := range append([]string{""}, s.names...) {
		s.health.SetServingStatus(name, status)
	}
}

// GRPCAddr is the address that gRPC is served at, once started.
func (s *Server) GRPCAddr() string { return s.grpcListener.Addr().String() }

// RESTAddr is the address that REST is served at, once started.
func (s *Server) RESTAddr() string { return s.restListener.Addr().String() }

// OpsAddr is the address of metrics and probes, once started.
func (s *Server) OpsAddr() string { return s.opsListener.Addr().String() }

// Stop undoes Start in reverse: it says that the server isn't ready, gives
// balancers the drain delay to notice, lets calls under way end, and closes the
// ops port last. When ctx ends it cuts off whatever still runs, and says so.
func (s *Server) Stop(ctx context.Context) error {
	s.SetReady(false)
	select {
	case <-time.After(s.config.DrainDelay):
	case <-ctx.Done():
	}
	s.health.stop()
	var errs [2]error
	var closing sync.WaitGroup
	closing.Go(func() { errs[0] = stopHTTP(ctx, s.rest) })
	closing.Go(func() { errs[1] = stopGRPC(ctx, s.grpc) })
	closing.Wait()
	err := errors.Join(errs[0], errs[1], stopHTTP(ctx, s.ops))
	s.serving.Wait()
	return err
}

func stopHTTP(ctx context.Context, server *http.Server) error {
	if err := server.Shutdown(ctx); err != nil {
		return errors.Join(err, server.Close())
	}
	return nil
}

func stopGRPC(ctx context.Context, server *grpc.Server) error {
	done := make(chan struct{})
	go func() {
		server.GracefulStop()
		close(done)
	}()
	select {
	case <-done:
		return nil
	case <-ctx.Done():
		// It doesn't wait for a handler that ignores its context.
		server.Stop()
		return ctx.Err()
	}
}
