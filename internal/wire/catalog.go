package wire

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"

	"google.golang.org/protobuf/proto"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// largestCatalog bounds a catalog document, bytes: some 2,000 parts of 1 KB each
// and as much again.
const largestCatalog = 4 << 20

// revisionDigits of the hash name a catalog: 64 bits, short enough to read out,
// and no two of a supplier's catalogs ever share them by chance.
const revisionDigits = 16

// DecodeCatalog reads a catalog document: strict YAML in the shape of
// CatalogDocument. The error says everything that is wrong, with lines where
// the YAML itself is at fault.
func DecodeCatalog(document []byte) (*catalog.Catalog, error) {
	if len(document) > largestCatalog {
		return nil, fmt.Errorf("catalog: %d bytes are more than the %d a catalog may have", len(document), largestCatalog)
	}
	m := &pb.CatalogDocument{}
	if err := UnmarshalYAML(document, "catalog", m); err != nil {
		return nil, err
	}
	return Catalog(m)
}

// Catalog makes the domain's catalog of a validated document. Its revision is a
// hash of the content, so comments and layout don't change it.
func Catalog(m *pb.CatalogDocument) (*catalog.Catalog, error) {
	content, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
	if err != nil {
		return nil, err
	}
	hash := sha256.Sum256(content)
	head := catalog.Catalog{
		SupplierCode: m.GetSupplierCode(),
		SupplierName: m.GetSupplierName(),
		Currency:     m.GetCurrencyCode(),
		TaxPercent:   m.GetTaxPercent(),
		Revision:     hex.EncodeToString(hash[:])[:revisionDigits],
		Policies:     policies(m.GetPolicies()),
	}
	var problems []error
	parts := make([]catalog.Part, 0, len(m.GetParts()))
	for _, p := range m.GetParts() {
		part, err := part(p)
		if err != nil {
			problems = append(problems, fmt.Errorf("%s: %w", p.GetSku(), err))
		}
		parts = append(parts, part)
	}
	if err := errors.Join(problems...); err != nil {
		return nil, fmt.Errorf("catalog: %w", err)
	}
	kits := make([]catalog.Kit, 0, len(m.GetKits()))
	for _, k := range m.GetKits() {
		kits = append(kits, kit(k))
	}
	return catalog.New(head, parts, kits)
}

func kit(m *pb.Kit) catalog.Kit {
	k := catalog.Kit{
		SKU: m.GetSku(), Name: m.GetName(), Price: m.GetPriceMinor(),
		Power: gate.PowerSource(m.GetPower()), Withdrawn: m.GetWithdrawn(),
	}
	for _, l := range m.GetLines() {
		k.Lines = append(k.Lines, catalog.KitLine{SKU: l.GetSku(), Quantity: int(l.GetQuantity())})
	}
	return k
}

func part(m *pb.Part) (catalog.Part, error) {
	p := catalog.Part{
		SKU: m.GetSku(), Name: m.GetName(), Price: m.GetPriceMinor(),
		Withdrawn: m.GetWithdrawn(), ReplacedBy: m.GetReplacedBy(),
	}
	var err error
	switch s := m.GetSpec().(type) {
	case *pb.Part_LinearDrive:
		p.Spec = linearDrive(s.LinearDrive)
	case *pb.Part_ArmDrive:
		p.Spec = armDrive(s.ArmDrive)
	case *pb.Part_Controller:
		p.Spec = controller(s.Controller)
	case *pb.Part_PowerSupply:
		p.Spec = catalog.PowerSupply{
			Output:     units.Voltage(s.PowerSupply.GetOutputV()),
			Continuous: units.Current(s.PowerSupply.GetContinuousA()),
			Peak:       units.Current(s.PowerSupply.GetPeakA()),
		}
	case *pb.Part_Battery:
		p.Spec = catalog.Battery{
			Chemistry: catalog.Chemistry(s.Battery.GetChemistry()), Voltage: units.Voltage(s.Battery.GetVoltageV()),
			AmpereHours: s.Battery.GetCapacityAh(), RatedHours: s.Battery.GetRatedHours(),
		}
	case *pb.Part_Panel:
		p.Spec = catalog.Panel{
			Power: units.Power(s.Panel.GetPowerW()), VoltageAtPower: units.Voltage(s.Panel.GetVoltageAtPowerV()),
			Cable: units.Length(s.Panel.GetCableM()),
		}
	case *pb.Part_ChargeController:
		p.Spec = catalog.ChargeController{
			Kind: catalog.ChargeKind(s.ChargeController.GetKind()), Voltage: units.Voltage(s.ChargeController.GetVoltageV()),
			Current: units.Current(s.ChargeController.GetCurrentA()),
		}
	case *pb.Part_Cable:
		p.Spec, err = cable(s.Cable)
	case *pb.Part_RearBracket:
		p.Spec = rearBracket(s.RearBracket)
	case *pb.Part_LeafBracket:
		p.Spec = catalog.LeafBracket{
			Families: s.LeafBracket.GetFamilies(), Form: catalog.LeafBracketForm(s.LeafBracket.GetForm()),
			Standoff: mm(s.LeafBracket.GetStandoffMm()), Height: mm(s.LeafBracket.GetHeightMm()),
		}
	case *pb.Part_Stop:
		p.Spec = catalog.Stop{
			Form:   catalog.StopForm(s.Stop.GetForm()),
			Height: optional(s.Stop.HeightMm, mm), Reach: optional(s.Stop.ReachMm, mm),
		}
	case *pb.Part_Lock:
		p.Spec = catalog.Lock{
			Voltage: units.Voltage(s.Lock.GetVoltageV()), Holding: units.Force(s.Lock.GetHoldingN()),
			Current: units.Current(s.Lock.GetCurrentA()),
		}
	case *pb.Part_Remote:
		p.Spec = catalog.Remote{Channels: int(s.Remote.GetChannels())}
	case *pb.Part_AccessDevice:
		p.Spec = catalog.AccessDevice{
			Kind: gate.AccessKind(s.AccessDevice.GetKind()), Link: gate.AccessLink(s.AccessDevice.GetLink()),
			Standby: milliamperes(s.AccessDevice.GetStandbyMa()),
		}
	case *pb.Part_CrossingCover:
		p.Spec = catalog.CrossingCover{Length: units.Length(s.CrossingCover.GetLengthM())}
	case *pb.Part_Sign:
		p.Spec = catalog.Sign{Pieces: int(s.Sign.GetPieces())}
	case *pb.Part_Conduit:
		p.Spec = catalog.Conduit{Diameter: mm(s.Conduit.GetDiameterMm()), Step: units.Length(s.Conduit.GetStepM())}
	default:
		err = errors.New("the part has no specification")
	}
	return p, err
}

func cable(m *pb.CableSpec) (catalog.Spec, error) {
	c := m.GetConductor()
	awg := c.GetStandard() == pb.ConductorStandard_CONDUCTOR_STANDARD_AWG
	if awg != (c.Awg != nil) || awg == (c.AreaMm2 != nil) {
		return nil, errors.New("an AWG conductor states its awg, an IEC 60228 one its area_mm2, and not the other")
	}
	return catalog.Cable{
		Use: catalog.CableUse(m.GetUse()), Conductor: conductor(c), Cores: int(m.GetCores()), Step: units.Length(m.GetStepM()),
	}, nil
}
