package service_test

import (
	"bytes"
	"path/filepath"
	"sync"
	"testing"

	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/service"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// TestSameRequestSameBytes asks each call 50 times at once, of two services made
// from the same document.
func TestSameRequestSameBytes(t *testing.T) {
	var made [2]*service.Service
	for i := range made {
		var err error
		if made[i], err = service.New(demo.Catalog(), telemetry.New()); err != nil {
			t.Fatal(err)
		}
	}
	for _, file := range gateFiles(t) {
		g := readGate(t, file)
		for name, call := range map[string]func(s *service.Service) (proto.Message, error){
			"size": func(s *service.Service) (proto.Message, error) {
				return s.SizeGate(t.Context(), &pb.SizeGateRequest{Gate: g, View: pb.View_VIEW_FULL})
			},
			"check": func(s *service.Service) (proto.Message, error) {
				return s.CheckConfiguration(t.Context(), &pb.CheckConfigurationRequest{
					Gate: g, Configuration: &pb.Configuration{DriveSku: "RH-400"}, View: pb.View_VIEW_FULL,
				})
			},
			"parts": func(s *service.Service) (proto.Message, error) {
				return s.BuildPartsList(t.Context(), &pb.BuildPartsListRequest{Gate: g})
			},
		} {
			t.Run(filepath.Base(file)+" "+name, func(t *testing.T) {
				var answers [50][]byte
				var wait sync.WaitGroup
				for i := range answers {
					wait.Go(func() {
						answer, err := call(made[i%len(made)])
						if err != nil {
							t.Error(err)
							return
						}
						if answers[i], err = (proto.MarshalOptions{Deterministic: true}).Marshal(answer); err != nil {
							t.Error(err)
						}
					})
				}
				wait.Wait()
				for i, a := range answers {
					if len(a) == 0 || !bytes.Equal(a, answers[0]) {
						t.Fatalf("answer %d differs from the first", i)
					}
				}
			})
		}
	}
}
