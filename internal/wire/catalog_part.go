package wire

import (
	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// part turns a part into the domain's; its specification is nil where the
// document has none, which the catalog refuses.
func part(m *pb.Part) catalog.Part {
	p := catalog.Part{
		SKU: m.GetSku(), Name: m.GetName(), Price: m.GetPriceMinor(),
		Withdrawn: m.GetWithdrawn(), ReplacedBy: m.GetReplacedBy(),
	}
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
		p.Spec = catalog.Cable{
			Use: catalog.CableUse(s.Cable.GetUse()), Conductor: conductor(s.Cable.GetConductor()),
			Cores: int(s.Cable.GetCores()), Step: units.Length(s.Cable.GetStepM()),
		}
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
	}
	return p
}
