package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"runtime/debug"
	"time"

	"go.uber.org/zap"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/server"
	"leafmoment.example/leafmoment/internal/telemetry"
)

// stopWithin bounds a stop: what is still running then is cut off.
const stopWithin = 20 * time.Second

// serve answers over gRPC and REST until the context ends.
func serve(ctx context.Context, args []string, _, stderr io.Writer) (err error) {
	config := server.DefaultConfig()
	f := flag.NewFlagSet("serve", flag.ContinueOnError)
	f.SetOutput(stderr)
	catalogFile := f.String("catalog", "", "catalog to serve instead of the demo supplier's")
	f.StringVar(&config.GRPCAddress, "grpc", config.GRPCAddress, "address for gRPC")
	f.StringVar(&config.RESTAddress, "rest", config.RESTAddress, "address for REST")
	f.StringVar(&config.OpsAddress, "ops", config.OpsAddress, "address for metrics and probes")
	f.BoolVar(&config.AllowRemote, "allow-remote", false, "listen where other machines can reach, though no caller is asked who it is")
	f.DurationVar(&config.DrainDelay, "drain", 0, "time between saying not ready and closing, for balancers to notice")
	if err := f.Parse(args); err != nil {
		return usageError{err}
	}
	if f.NArg() > 0 {
		f.Usage()
		return usageError{fmt.Errorf("%d arguments", f.NArg())}
	}
	log, err := zap.NewProduction()
	if err != nil {
		return err
	}
	defer func() { _ = log.Sync() }() // fails on a terminal, and nothing could be done about it
	server.TuneMemory(log)
	metrics := telemetry.New()
	answers, err := openService(*catalogFile, metrics)
	if err != nil {
		return err
	}
	served, err := answers.GetCatalog(ctx, &pb.GetCatalogRequest{})
	if err != nil {
		return err
	}
	s, err := server.New(config, server.Parts{
		Services: answers.Register,
		Version:  server.Version{Build: build(), Engine: served.GetEngineVersion(), CatalogRevision: served.GetCatalogRevision(), Supplier: served.GetSupplierCode()},
		Metrics:  metrics,
		Log:      log,
	})
	if err != nil {
		return err
	}
	if err := s.Start(); err != nil {
		return err
	}
	s.SetReady(true)
	select {
	case err = <-s.Failed():
	case <-ctx.Done():
	}
	within, cancel := context.WithTimeout(context.Background(), stopWithin+config.DrainDelay)
	defer cancel()
	return errors.Join(err, s.Stop(within))
}

// build is the version of the binary as the Go toolchain recorded it.
func build() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	return info.Main.Version
}
