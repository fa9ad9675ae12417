package service_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/demo/demotest"
	"leafmoment.example/leafmoment/internal/service"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// enlarged is the service over a catalog of 40 linear drives.
func enlarged(b *testing.B) *service.Service {
	b.Helper()
	s, err := service.New(demotest.Enlarged(b, 40), telemetry.New())
	if err != nil {
		b.Fatal(err)
	}
	return s
}

// BenchmarkSizeGate40 is one gate against 40 drives, the search for each mounting
// included, from the request's message to the answer's. The budget is 1 ms of
// one core, median.
func BenchmarkSizeGate40(b *testing.B) {
	s := enlarged(b)
	for _, file := range gateFiles(b) {
		request := &pb.SizeGateRequest{Gate: readGate(b, file)}
		b.Run(filepath.Base(file), func(b *testing.B) {
			b.ReportAllocs()
			var took []time.Duration
			for b.Loop() {
				start := time.Now()
				if _, err := s.SizeGate(b.Context(), request); err != nil {
					b.Fatal(err)
				}
				took = append(took, time.Since(start))
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Microseconds()), "us-median")
		})
	}
}

// bare answers SizeGate with the same message whatever is asked.
type bare struct {
	pb.UnimplementedSizingServiceServer
	answer *pb.SizeGateResponse
}

func (s *bare) SizeGate(context.Context, *pb.SizeGateRequest) (*pb.SizeGateResponse, error) {
	return s.answer, nil
}

// BenchmarkTransports calls SizeGate of the demo's catalog over gRPC and REST,
// and beside it a handler that does nothing but return the same answer on the
// same server.
func BenchmarkTransports(b *testing.B) {
	request := &pb.SizeGateRequest{Gate: readGate(b, gateFiles(b)[0])}
	engine, err := service.New(demotest.Enlarged(b, 0), telemetry.New())
	if err != nil {
		b.Fatal(err)
	}
	answer, err := engine.SizeGate(b.Context(), request)
	if err != nil {
		b.Fatal(err)
	}
	body, err := protojson.Marshal(request)
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("request %d bytes, answer %d bytes", proto.Size(request), proto.Size(answer))
	for _, c := range []struct {
		name     string
		register func(grpc.ServiceRegistrar)
	}{
		{"engine", engine.Register},
		{"bare", func(r grpc.ServiceRegistrar) { pb.RegisterSizingServiceServer(r, &bare{answer: answer}) }},
	} {
		s := serve(b, c.register)
		b.Run("gRPC/"+c.name, func(b *testing.B) {
			client := pb.NewSizingServiceClient(s.conn)
			inParallel(b, func() error {
				_, err := client.SizeGate(b.Context(), request)
				return err
			})
		})
		b.Run("REST/"+c.name, func(b *testing.B) {
			inParallel(b, func() error { return s.post("/v1/gates:size", body) })
		})
	}
}

func inParallel(b *testing.B, call func() error) {
	b.Helper()
	b.ReportAllocs()
	b.SetParallelism(4)
	b.RunParallel(func(each *testing.PB) {
		for each.Next() {
			if err := call(); err != nil {
				b.Error(err)
				return
			}
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "calls/s")
}

func (s *served) post(path string, body []byte) error {
	response, err := s.http.Post(s.rest+path, "application/json", bytes.NewReader(body))
	if err != nil {
		return err
	}
	defer response.Body.Close()
	if _, err := io.Copy(io.Discard, response.Body); err != nil {
		return err
	}
	if response.StatusCode != http.StatusOK {
		return fmt.Errorf("status %d", response.StatusCode)
	}
	return nil
}
