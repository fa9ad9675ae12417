// Package service answers the calls of the contract: each handler decodes the
// request, calls the domain, and encodes the answer.
package service

import (
	"context"
	"errors"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/rpcerr"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/sizing"
	"leafmoment.example/leafmoment/internal/telemetry"
	"leafmoment.example/leafmoment/internal/wire"
)

// Service answers every service of the contract from one catalog.
type Service struct {
	pb.UnimplementedSizingServiceServer
	pb.UnimplementedConfigurationServiceServer
	pb.UnimplementedPartsListServiceServer
	pb.UnimplementedCatalogServiceServer

	catalog *catalog.Catalog
	metrics *telemetry.Metrics
}

// New returns the service over a catalog document. metrics counts what it
// answers and says which catalog it answers from. The error says everything that
// is wrong with the document.
func New(document []byte, metrics *telemetry.Metrics) (*Service, error) {
	c, err := wire.DecodeCatalog(document)
	if err != nil {
		return nil, err
	}
	metrics.Catalog(c.Revision, c.SupplierCode, sizing.EngineVersion, len(c.Parts()), len(c.Kits()))
	return &Service{catalog: c, metrics: metrics}, nil
}

// Register registers every service of the contract.
func (s *Service) Register(r grpc.ServiceRegistrar) {
	pb.RegisterSizingServiceServer(r, s)
	pb.RegisterConfigurationServiceServer(r, s)
	pb.RegisterPartsListServiceServer(r, s)
	pb.RegisterCatalogServiceServer(r, s)
}

// optionsInBasicView is how many options the basic view details where the
// caller doesn't say: what an adviser compares on the phone.
const optionsInBasicView = 3

// SizeGate ranks the drives that suit a gate.
func (s *Service) SizeGate(_ context.Context, r *pb.SizeGateRequest) (*pb.SizeGateResponse, error) {
	full := r.GetView() == pb.View_VIEW_FULL
	a, err := s.size(r, r.GetGate(), full)
	if err != nil {
		return nil, err
	}
	most := optionsInBasicView
	if full {
		most = len(a.Options)
	}
	if r.OptionCount != nil {
		most = int(r.GetOptionCount())
	}
	s.count(telemetry.SizeGate, a)
	return wire.Answer(s.catalog, a, most, full), nil
}

// BuildPartsList lists the parts of the best option, or of the one asked for.
func (s *Service) BuildPartsList(_ context.Context, r *pb.BuildPartsListRequest) (*pb.BuildPartsListResponse, error) {
	if sku := r.GetDriveSku(); sku != "" {
		g, err := decode(r.GetGate())
		if err != nil {
			return nil, err
		}
		a, err := sizing.Check(s.catalog, g, sizing.Configuration{Drive: sku}, false)
		if err != nil {
			return nil, s.refuse(err, "drive_sku")
		}
		addUnknownFields(&a, r)
		s.count(telemetry.BuildPartsList, a)
		return wire.PartsList(s.catalog, a, &a.Options[0]), nil
	}
	a, err := s.size(r, r.GetGate(), false)
	if err != nil {
		return nil, err
	}
	s.count(telemetry.BuildPartsList, a)
	if len(a.Options) == 0 {
		return wire.PartsList(s.catalog, a, nil), nil
	}
	return wire.PartsList(s.catalog, a, &a.Options[0]), nil
}

// CheckConfiguration judges one drive on a gate.
func (s *Service) CheckConfiguration(_ context.Context, r *pb.CheckConfigurationRequest) (*pb.CheckConfigurationResponse, error) {
	g, err := decode(r.GetGate())
	if err != nil {
		return nil, err
	}
	full := r.GetView() == pb.View_VIEW_FULL
	a, err := sizing.Check(s.catalog, g, wire.ConfigurationOf(r.GetConfiguration()), full)
	if err != nil {
		return nil, s.refuse(err, "configuration.drive_sku")
	}
	addUnknownFields(&a, r)
	s.count(telemetry.CheckConfiguration, a)
	return wire.Configuration(s.catalog, a, full), nil
}

// GetCatalog says what is served.
func (s *Service) GetCatalog(context.Context, *pb.GetCatalogRequest) (*pb.GetCatalogResponse, error) {
	return wire.CatalogSummary(s.catalog), nil
}

func (s *Service) size(request proto.Message, m *pb.Gate, curves bool) (sizing.Answer, error) {
	g, err := decode(m)
	if err != nil {
		return sizing.Answer{}, err
	}
	a, err := sizing.Size(s.catalog, g, curves)
	if err != nil {
		return sizing.Answer{}, s.refuse(err, "")
	}
	addUnknownFields(&a, request)
	return a, nil
}

// addUnknownFields adds a finding where a newer client sent fields that this
// version doesn't know: they were not considered.
func addUnknownFields(a *sizing.Answer, request proto.Message) {
	if !wire.HasUnknownFields(request) {
		return
	}
	a.Findings = append(a.Findings, rules.UnknownFields())
	finding.Sort(a.Findings)
	a.Verdict = max(a.Verdict, finding.AdviserReview)
	for i := range a.Options {
		a.Options[i].Verdict = max(a.Options[i].Verdict, finding.AdviserReview)
	}
}

func decode(m *pb.Gate) (gate.Gate, error) {
	g, faults := wire.Gate(m)
	if len(faults) > 0 {
		return gate.Gate{}, badGate(append(faults, g.Check()...))
	}
	return g, nil
}

// refuse turns what the domain can't answer into the call's error. driveField is
// the field of this request that names the drive.
func (s *Service) refuse(err error, driveField string) error {
	var bad *sizing.BadGateError
	if errors.As(err, &bad) {
		return badGate(bad.Faults)
	}
	var part *sizing.UnknownPartError
	if errors.As(err, &part) {
		field := part.Field
		if field == "configuration.drive_sku" {
			field = driveField
		}
		return rpcerr.UnknownSKUs(s.catalog.Revision, rpcerr.UnknownSKU{Field: field, SKU: part.SKU, Why: part.Why})
	}
	return rpcerr.Internal(err)
}

func badGate(faults []gate.Fault) error {
	violations := make([]rpcerr.Violation, len(faults))
	for i, f := range faults {
		violations[i] = rpcerr.Violation{Field: wire.RequestField(f.Field), Description: f.Text, Rule: f.Reason.String()}
	}
	return rpcerr.InvalidFields(violations)
}

func (s *Service) count(rpc telemetry.RPC, a sizing.Answer) {
	s.metrics.Verdict(rpc, a.Verdict)
	s.metrics.Findings(a.Findings)
	for i := range a.Options {
		s.metrics.Findings(a.Options[i].Findings)
	}
	for i := range a.Rejected {
		s.metrics.Findings(a.Rejected[i].Findings)
	}
	if len(a.Options) > 0 && len(a.Options[0].Leaves) > 0 {
		s.metrics.Margin(a.Options[0].Margin())
	}
}
