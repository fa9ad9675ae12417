package server

import (
	"context"
	"errors"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"go.uber.org/zap"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	"leafmoment.example/leafmoment/internal/telemetry"
)

// Stop lets a call under way end, and cuts off one that doesn't.
func TestStopIsBounded(t *testing.T) {
	config := DefaultConfig()
	config.GRPCAddress, config.RESTAddress, config.OpsAddress = "127.0.0.1:0", "127.0.0.1:0", "127.0.0.1:0"
	config.Timeout = time.Hour
	s := run(t, func(c *Config) { *c = config }, zap.NewNop())
	done := make(chan struct{})
	go func() {
		defer close(done)
		request, _ := http.NewRequest(http.MethodPost, "http://"+s.RESTAddr()+"/v1/gates:size",
			strings.NewReader(strings.Replace(soundJSON, "{", `{"option_count": 14, `, 1)))
		request.Header.Set("Content-Type", "application/json")
		if response, err := s.http.Do(request); err == nil {
			response.Body.Close()
		}
	}()
	<-s.fake.entered
	ctx, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	start := time.Now()
	if err := s.Stop(ctx); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("stop answers %v", err)
	}
	if took := time.Since(start); took > 2*time.Second {
		t.Errorf("stop took %v", took)
	}
	<-done
}

// A balancer that watches is told, and doesn't hold up the stop.
func TestStopEndsWatches(t *testing.T) {
	s := run(t, nil, zap.NewNop())
	s.SetReady(true)
	watch, err := healthpb.NewHealthClient(s.conn).Watch(t.Context(), &healthpb.HealthCheckRequest{})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := watch.Recv(); err != nil || got.Status != healthpb.HealthCheckResponse_SERVING {
		t.Fatalf("watch begins with %v, %v", got, err)
	}
	s.SetReady(false)
	if got, err := watch.Recv(); err != nil || got.Status != healthpb.HealthCheckResponse_NOT_SERVING {
		t.Errorf("watch is told %v, %v", got, err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
	defer cancel()
	if err := s.Stop(ctx); err != nil {
		t.Errorf("stop answers %v", err)
	}
	if _, err := watch.Recv(); err == nil {
		t.Error("the watch goes on")
	}
}

func TestConfigIsRefusedWhole(t *testing.T) {
	config := Config{GRPCAddress: "0.0.0.0:9090", RESTAddress: "nonsense", OpsAddress: ":9091"}
	_, err := New(config, Parts{})
	if err == nil {
		t.Fatal("taken")
	}
	for _, want := range []string{"0.0.0.0:9090", "nonsense", ":9091", "in-flight", "timeout"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q isn't named in: %v", want, err)
		}
	}
	remote := DefaultConfig()
	remote.GRPCAddress, remote.AllowRemote = "0.0.0.0:9090", true
	if err := remote.check(); err != nil {
		t.Errorf("explicitly allowed: %v", err)
	}
	for host, want := range map[string]bool{"localhost": true, "127.9.9.9": true, "::1": true, "": false, "192.168.1.4": false, "gate.example": false} {
		if loopback(host) != want {
			t.Errorf("loopback(%q) is %v", host, !want)
		}
	}
}

func TestPortTaken(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	config := DefaultConfig()
	config.GRPCAddress, config.OpsAddress, config.RESTAddress = "127.0.0.1:0", "127.0.0.1:0", taken.Addr().String()
	s, err := New(config, Parts{Services: new(fake).register, Metrics: telemetry.New(), Log: zap.NewNop()})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Start(); err == nil || !strings.Contains(err.Error(), "REST port") {
		t.Errorf("start answers %v", err)
	}
	if conn, err := net.Dial("tcp", s.OpsAddr()); err == nil {
		conn.Close()
		t.Error("the ops port stays open")
	}
}
