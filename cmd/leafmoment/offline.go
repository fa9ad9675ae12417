package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/console"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/service"
	"leafmoment.example/leafmoment/internal/telemetry"
	"leafmoment.example/leafmoment/internal/wire"
)

// usageError is a command called wrongly; it has been told already.
type usageError struct{ error }

func isUsage(err error) bool {
	var u usageError
	return errors.As(err, &u)
}

// offline is what the commands on files share.
type offline struct {
	catalogFile string
	json        bool
	full        bool
}

// parse reads a command's flags and returns its arguments, of which there must
// be from least to most.
func (o *offline) parse(name, arguments string, args []string, stderr io.Writer, least, most int) ([]string, error) {
	f := flag.NewFlagSet(name, flag.ContinueOnError)
	f.SetOutput(stderr)
	f.Usage = func() {
		fmt.Fprintf(stderr, "leafmoment %s [flags] %s\n", name, arguments)
		f.PrintDefaults()
	}
	if name != "catalog" {
		f.StringVar(&o.catalogFile, "catalog", "", "catalog to use instead of the demo supplier's")
	}
	f.BoolVar(&o.json, "json", false, "answer in JSON")
	if name == "size" {
		f.BoolVar(&o.full, "full", false, "every figure, and curves over the leaf angle")
	}
	if err := f.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return nil, usageError{err}
		}
		return nil, usageError{err}
	}
	if n := f.NArg(); n < least || n > most {
		f.Usage()
		return nil, usageError{fmt.Errorf("%d arguments", n)}
	}
	return f.Args(), nil
}

func size(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	var o offline
	args, err := o.parse("size", "FILE", args, stderr, 1, 1)
	if err != nil {
		return err
	}
	request := &pb.SizeGateRequest{}
	s, err := o.prepare(args[0], request)
	if err != nil {
		return err
	}
	if o.full {
		request.View = pb.View_VIEW_FULL
	}
	answer, err := s.SizeGate(ctx, request)
	if err != nil {
		return explain(err)
	}
	return o.write(stdout, answer, func() error { return console.Sizing(stdout, answer) })
}

func parts(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	var o offline
	args, err := o.parse("parts", "FILE", args, stderr, 1, 1)
	if err != nil {
		return err
	}
	request := &pb.BuildPartsListRequest{}
	s, err := o.prepare(args[0], request)
	if err != nil {
		return err
	}
	answer, err := s.BuildPartsList(ctx, request)
	if err != nil {
		return explain(err)
	}
	return o.write(stdout, answer, func() error { return console.PartsList(stdout, answer) })
}

func showCatalog(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	var o offline
	args, err := o.parse("catalog", "[FILE]", args, stderr, 0, 1)
	if err != nil {
		return err
	}
	if len(args) == 1 {
		o.catalogFile = args[0]
	}
	s, err := openService(o.catalogFile, telemetry.New())
	if err != nil {
		return err
	}
	answer, err := s.GetCatalog(ctx, &pb.GetCatalogRequest{})
	if err != nil {
		return explain(err)
	}
	return o.write(stdout, answer, func() error { return console.Catalog(stdout, answer) })
}

// prepare reads the request and makes the service that answers it.
func (o *offline) prepare(file string, request proto.Message) (*service.Service, error) {
	content, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	if err := wire.UnmarshalYAML(content, file, request); err != nil {
		return nil, err
	}
	return openService(o.catalogFile, telemetry.New())
}

// openService makes the service over a catalog file, or the demo supplier's
// where there is none.
func openService(file string, metrics *telemetry.Metrics) (*service.Service, error) {
	if file == "" {
		return service.New(demo.Catalog(), metrics)
	}
	content, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	s, err := service.New(content, metrics)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return s, nil
}

func (o *offline) write(w io.Writer, answer proto.Message, asText func() error) error {
	if !o.json {
		return asText()
	}
	content, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(answer)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "%s\n", content)
	return err
}

// explain names every field that keeps a request from being answered.
func explain(err error) error {
	e := rpcerr.From(err)
	if len(e.Violations) == 0 {
		return err
	}
	var lines []string
	for _, v := range e.Violations {
		lines = append(lines, fmt.Sprintf("%s: %s", v.Field, v.Description))
	}
	return errors.New(strings.Join(lines, "\n  "))
}
