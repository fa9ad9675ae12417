package sizing

import (
	"fmt"
	"slices"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/supply"
	"leafmoment.example/leafmoment/internal/units"
)

// power is how an option gets its current.
type power struct {
	controller *catalog.Item[catalog.Controller]
	supply     *catalog.Item[catalog.PowerSupply]
	cable      *catalog.Item[catalog.Cable]
	figures    units.Opt[SupplyFigures]
	drives     units.Current // of all drives at their most thrust
	factor     float64       // voltage at the drives over the nominal one
	findings   []finding.Finding
}

// powerFor picks controller, power supply and cable for a drive. A kit's own
// controller and power supply are taken where they do.
//
// With a battery behind the controller the run carries charging and standby
// current and the drives see the battery's voltage. Without one it carries all
// drives at their most thrust at once, and what the drop leaves is taken off
// speed and thrust alike: true of both ends of a resistive motor's load line,
// cautious for one held by a current limit.
func (s *study) powerFor(d catalog.LinearDrive, sku string, kit *catalog.Kit) power {
	out := power{factor: 1}
	out.controller = pickController(s.catalog, d, len(s.gate.Leaves), kit)
	if out.controller == nil {
		out.findings = append(out.findings, rules.NoController(sku))
		return out
	}
	if s.gate.Power.Source == gate.SourceSolar {
		return out
	}
	out.drives = s.drivesCurrent(d)
	load, basis, peak := s.supplyLoad(d, out.controller.Spec)
	out.pickSupply(s, d, load, peak, kit)
	if out.supply == nil {
		return out
	}
	demand := supply.Demand{
		Voltage: out.supply.Spec.Output, Load: supply.Load{Current: load},
		DropLimit: min(s.catalog.Policies.MostSupplyDrop, 1-float64(out.controller.Spec.LeastVoltage/out.supply.Spec.Output)),
	}
	run := s.chooseCable(demand)
	out.cable = run.cable
	out.findings = append(out.findings, rules.Supply(run.facts)...)
	_, backed := out.controller.Spec.ChargeCurrent.Get()
	if !backed {
		// Where the run isn't known or nothing carries it, no better than the drop
		// the policy allows is counted on.
		out.factor = float64(demand.Voltage/d.Voltage) * (1 - demand.DropLimit)
	}
	if figures, ok := run.figures(s, demand, out, basis); ok {
		out.figures = units.Known(figures)
		if !backed {
			out.factor = float64(figures.Delivery.Voltage / d.Voltage)
		}
	}
	out.factor = min(out.factor, 1)
	return out
}

// supplyLoad is the current of the run, what it is, and the most the supply
// ever gives.
func (s *study) supplyLoad(d catalog.LinearDrive, c catalog.Controller) (current units.Current, basis string, peak units.Current) {
	if charge, backed := c.ChargeCurrent.Get(); backed {
		current = charge + c.Standby
		return current, "battery charging and standby", current
	}
	current = s.drivesCurrent(d) + c.Standby
	return current, "all drives at their most thrust, no battery", current
}

func (s *study) drivesCurrent(d catalog.LinearDrive) units.Current {
	return units.Current(len(s.gate.Leaves)) * d.Load[len(d.Load)-1].Current
}

func pickController(c *catalog.Catalog, d catalog.LinearDrive, leaves int, kit *catalog.Kit) *catalog.Item[catalog.Controller] {
	var best *catalog.Item[catalog.Controller]
	list := c.Controllers()
	for i := range list {
		k := &list[i]
		if !slices.Contains(k.Spec.Families, d.Family) || k.Spec.Drives < leaves || k.Spec.Voltage != d.Voltage {
			continue
		}
		if d.End == catalog.EndByLimitSwitches && !k.Spec.TakesLimitSwitches {
			continue
		}
		if kit != nil && kit.Quantity(k.Part.SKU) > 0 {
			return k
		}
		if best == nil || k.Part.Price < best.Part.Price {
			best = k
		}
	}
	return best
}

// pickSupply takes the kit's power supply where it gives enough, else the
// cheapest that does. A battery that is charged takes its current all day; bare
// drives take theirs only while the gate moves.
func (p *power) pickSupply(s *study, d catalog.LinearDrive, load, peak units.Current, kit *catalog.Kit) {
	_, backed := p.controller.Spec.ChargeCurrent.Get()
	headroom := units.Current(s.catalog.Policies.SupplyHeadroom)
	enough := func(x catalog.PowerSupply) bool {
		if backed {
			return x.Continuous >= load*headroom
		}
		return x.Peak >= peak*headroom
	}
	list := s.catalog.PowerSupplies()
	var largest units.Power
	ofVoltage := false
	for i := range list {
		k := &list[i]
		if k.Spec.Output != d.Voltage {
			continue
		}
		ofVoltage = true
		largest = max(largest, units.Power(float64(k.Spec.Peak)*float64(k.Spec.Output)))
		if !enough(k.Spec) {
			continue
		}
		if kit != nil && kit.Quantity(k.Part.SKU) > 0 {
			p.supply = k
			return
		}
		if p.supply == nil || k.Part.Price < p.supply.Part.Price {
			p.supply = k
		}
	}
	switch {
	case p.supply != nil:
	case !ofVoltage:
		p.findings = append(p.findings, rules.NoPowerSupply(d.Voltage))
	default:
		p.findings = append(p.findings, rules.SupplyTooSmall(units.Power(float64(peak*headroom)*float64(d.Voltage)), largest))
	}
}

// supplyRun is the cable chosen for a run, or the conductor that lies there.
type supplyRun struct {
	cable     *catalog.Item[catalog.Cable]
	conductor supply.Conductor
	facts     rules.SupplyRun
}

// chooseCable takes the conductor that lies there where it holds, else the
// thinnest sold that does.
func (s *study) chooseCable(demand supply.Demand) supplyRun {
	p := s.catalog.Policies
	run := supplyRun{facts: rules.SupplyRun{Length: s.gate.Power.SupplyRun, MostDrop: demand.DropLimit}}
	length, known := s.gate.Power.SupplyRun.Get()
	if laid, ok := s.gate.Power.Conductor.Get(); ok {
		if c, err := conductorOf(laid); err == nil {
			run.facts.Laid, run.facts.LaidName = true, c.String()
			if known {
				a, err := demand.Assess(supply.Run{Length: length, Conductor: c, Temperature: p.ConductorTemperature})
				run.facts.LaidHolds = err == nil && a.Outcome == supply.Holds
				if d, ok := a.Delivery.Get(); ok {
					run.facts.Drop = d.DropShare
				}
			}
			if !known || run.facts.LaidHolds {
				run.conductor = c
			}
		}
	}
	var thickest units.Length
	list := s.catalog.SupplyCables()
	for i := range list {
		k := &list[i]
		c, err := conductorOf(k.Spec.Conductor)
		if err != nil {
			continue
		}
		longest, err := demand.LongestRun(c, p.ConductorTemperature)
		if err != nil {
			continue
		}
		if longest > thickest {
			thickest, run.facts.Longest, run.facts.LongestFor = longest, longest, c.String()
		}
		if known && longest >= length && (run.cable == nil || thinner(k, run.cable)) {
			run.cable = k
			if !run.facts.LaidHolds {
				run.conductor = c
			}
			run.facts.CableSKU, run.facts.CableName = k.Part.SKU, c.String()
		}
	}
	if run.facts.LaidHolds {
		run.cable = nil
	}
	return run
}

// thinner orders cables by price, then by SKU.
func thinner(a, b *catalog.Item[catalog.Cable]) bool {
	if a.Part.Price*int64(b.Spec.Step*1000) != b.Part.Price*int64(a.Spec.Step*1000) {
		return a.Part.Price*int64(b.Spec.Step*1000) < b.Part.Price*int64(a.Spec.Step*1000)
	}
	return a.Part.SKU < b.Part.SKU
}

func (r supplyRun) figures(s *study, demand supply.Demand, p power, basis string) (SupplyFigures, bool) {
	length, known := s.gate.Power.SupplyRun.Get()
	if !known || r.conductor == (supply.Conductor{}) {
		return SupplyFigures{}, false
	}
	temperature := s.catalog.Policies.ConductorTemperature
	a, err := demand.Assess(supply.Run{Length: length, Conductor: r.conductor, Temperature: temperature})
	if err != nil {
		return SupplyFigures{}, false
	}
	delivery, ok := a.Delivery.Get()
	if !ok {
		return SupplyFigures{}, false
	}
	longest, err := demand.LongestRun(r.conductor, temperature)
	if err != nil {
		return SupplyFigures{}, false
	}
	f := SupplyFigures{
		Run: length, Conductor: r.conductor.String(), Delivery: delivery, CurrentBasis: basis,
		LongestRun: longest, PowerSupplySKU: p.supply.Part.SKU,
	}
	if r.cable != nil {
		f.CableSKU = r.cable.Part.SKU
	}
	if _, f.BatteryBacked = p.controller.Spec.ChargeCurrent.Get(); f.BatteryBacked {
		f.WithoutBattery = s.withoutBattery(demand, p.drives, length)
	}
	return f, true
}

// withoutBattery is the conductor the same run would take if it fed the drives
// themselves.
func (s *study) withoutBattery(demand supply.Demand, drives units.Current, length units.Length) string {
	demand.Load.Current = drives
	var sold []supply.Conductor
	for _, k := range s.catalog.SupplyCables() {
		if c, err := conductorOf(k.Spec.Conductor); err == nil {
			sold = append(sold, c)
		}
	}
	c, ok, err := demand.SmallestConductor(length, s.catalog.Policies.ConductorTemperature, sold)
	if err != nil || !ok {
		return fmt.Sprintf("none sold carries %.1f A over this run", float64(drives))
	}
	return fmt.Sprintf("%s, at %.1f A", c, float64(drives))
}

// conductorOf is the standard conductor that was described.
func conductorOf(c gate.Conductor) (supply.Conductor, error) {
	switch c.Standard {
	case gate.IEC60228Class2:
		return supply.IEC(supply.Class2, supply.Plain, c.Area)
	case gate.IEC60228Class5:
		return supply.IEC(supply.Class5, supply.Plain, c.Area)
	case gate.AWG:
		return supply.AWG(c.Gauge, supply.Stranded)
	}
	return supply.Conductor{}, fmt.Errorf("unknown conductor standard %d", c.Standard)
}
