package supply

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/units"
)

const metersPerFoot = 0.3048

func conductor(t *testing.T, c casefile.Case) Conductor {
	t.Helper()
	var (
		got Conductor
		err error
	)
	area := units.SquareMillimeters(c.In["area_mm2"])
	switch c.Option {
	case "", "class 5":
		got, err = IEC(Class5, Plain, area)
	case "class 2":
		got, err = IEC(Class2, Plain, area)
	case "class 5 metal-coated":
		got, err = IEC(Class5, MetalCoated, area)
	case "solid":
		got, err = AWG(int(c.Value(t, "gauge")), Solid)
	case "stranded":
		got, err = AWG(int(c.Value(t, "gauge")), Stranded)
	default:
		t.Fatalf("%s: unknown option %q", c.ID, c.Option)
	}
	if err != nil {
		t.Fatalf("%s: %v", c.ID, err)
	}
	return got
}

func celsius(t *testing.T, c casefile.Case) units.Temperature {
	return units.Temperature(c.Value(t, "temperature_c"))
}

func TestPrintedConductorFigures(t *testing.T) {
	cases := casefile.Load(t, "supply.json")
	for _, c := range casefile.ByModel(t, cases, "millivolt") {
		c.Check(t, "mv_per_a_m", 2000*conductor(t, c).OhmPerMeter(celsius(t, c)))
	}
	for _, c := range casefile.ByModel(t, cases, "awg") {
		got := conductor(t, c)
		c.Check(t, "ohm_per_kft", 1000*metersPerFoot*got.OhmPerMeter(celsius(t, c)))
		if _, ok := c.Want["area_mm2"]; ok {
			c.Check(t, "area_mm2", got.Area().SquareMillimeters())
		}
	}
	wire, err := IEC(Class2, Plain, units.SquareMillimeters(2.5))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range casefile.ByModel(t, cases, "temperature") {
		c.Check(t, "kt", wire.OhmPerMeter(20)/wire.OhmPerMeter(celsius(t, c)))
	}
}

func TestDrops(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply.json"), "awgdrop") {
		run := Run{units.Length(c.Value(t, "length_ft") * metersPerFoot), conductor(t, c), celsius(t, c)}
		d := Demand{Voltage: 24, Load: Load{Current: units.Current(c.Value(t, "current_a"))}, DropLimit: 0.5}
		c.Check(t, "drop_v", float64(delivered(t, d, run).Drop))
	}
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply_derived.json"), "drop") {
		run := Run{units.Length(c.Value(t, "length_m")), conductor(t, c), celsius(t, c)}
		d := Demand{
			Voltage:   units.Voltage(c.Value(t, "voltage_v")),
			Load:      Load{Current: units.Current(c.Value(t, "current_a"))},
			DropLimit: 0.5,
		}
		got := delivered(t, d, run)
		c.Check(t, "drop_v", float64(got.Drop))
		c.Check(t, "share", got.DropShare)
		c.Check(t, "loss_w", float64(got.SupplyPower)-float64(got.Voltage)*float64(got.Current))
	}
}

func delivered(t *testing.T, d Demand, run Run) Delivery {
	t.Helper()
	a, err := d.Assess(run)
	if err != nil {
		t.Fatal(err)
	}
	got, ok := a.Delivery.Get()
	if !ok {
		t.Fatalf("nothing delivered over %v", run)
	}
	return got
}

func TestSourceBehindResistance(t *testing.T) {
	cases := append(casefile.Load(t, "supply.json"), casefile.Load(t, "supply_derived.json")...)
	for _, model := range []string{"source", "power"} {
		for _, c := range casefile.ByModel(t, cases, model) {
			load := Load{Current: units.Current(c.In["current_a"]), Power: units.Power(c.In["power_w"])}
			got, ok := deliver(units.Voltage(c.Value(t, "voltage_v")), units.Resistance(c.Value(t, "loop_ohm")), load)
			if want, stated := c.Want["deliverable"]; stated && ok != (want == 1) {
				t.Errorf("%s: deliverable is %v", c.ID, ok)
			}
			if _, stated := c.Want["load_v"]; stated {
				c.Check(t, "load_v", float64(got.Voltage))
			}
			if _, stated := c.Want["current_a"]; stated {
				c.Check(t, "current_a", float64(got.Current))
			}
			if _, stated := c.Want["most_w"]; stated {
				// The same loop as a run: one meter of it each way.
				wire := Conductor{designation: "test", ohmPerKm20: 1000 * c.In["loop_ohm"] / 2}
				most, limited, err := Run{1, wire, 20}.MaxPower(units.Voltage(c.In["voltage_v"]), 0.5)
				if err != nil || !limited {
					t.Fatalf("%s: limited %v, %v", c.ID, limited, err)
				}
				c.Check(t, "most_w", float64(most))
			}
		}
	}
}

func TestSmallestConductorRows(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply_derived.json"), "smallest") {
		d := Demand{
			Voltage:   units.Voltage(c.Value(t, "voltage_v")),
			Load:      Load{Current: units.Current(c.Value(t, "current_a"))},
			DropLimit: c.Value(t, "drop_limit"),
		}
		length := units.Length(c.Value(t, "length_m"))
		got, ok, err := d.SmallestConductor(length, 20, Series(Class5, Plain))
		if err != nil || !ok {
			t.Fatalf("%s: found %v, %v", c.ID, ok, err)
		}
		c.Check(t, "area_mm2", got.Area().SquareMillimeters())
		// The resistance at which the wanted length is just the longest run.
		probe := Conductor{designation: "test", ohmPerKm20: 1}
		longest, err := d.LongestRun(probe, 20)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "most_ohm_per_km", float64(longest/length))
	}
}

// Fitters of the trade say that two-core 2.5 mm2 reaches about 50 m at 12 V and
// 30 m at a heavier 24 V drive where it only feeds a controller with a battery
// behind it (common practice, no source). With flexible wire at 20 degrees
// Celsius and a drop of 10 % the model says those lengths hold at 1.50 A and at
// 5.01 A: what charging a battery of 7 to 25 Ah at a fifth of its capacity and
// a controller on standby take, and far from what a drive takes at its start.
func TestReachOfTheTradesCable(t *testing.T) {
	want := map[string]float64{"G-50m-12V": 1.504, "G-30m-24V": 5.013}
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply.json"), "reach") {
		wire := conductor(t, c)
		length := units.Length(c.Want["length_m"])
		source := units.Voltage(c.Value(t, "voltage_v"))
		limit := c.Value(t, "drop_limit")
		loop := float64(Run{length, wire, celsius(t, c)}.LoopResistance())
		amps := limit * float64(source) / loop
		if math.Abs(amps-want[c.ID]) > 1e-3 {
			t.Errorf("%s: holds at %.3f A, the comment says %.3f", c.ID, amps, want[c.ID])
		}
		d := Demand{Voltage: source, Load: Load{Current: units.Current(amps)}, DropLimit: limit}
		longest, err := d.LongestRun(wire, celsius(t, c))
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "length_m", float64(longest))

		// Without the battery the run feeds the drive at its start: 10 A here.
		d.Load.Current = 10
		if a, err := d.Assess(Run{length, wire, 20}); err != nil || a.Outcome == Holds {
			t.Errorf("%s: the same run holds without a battery (%v)", c.ID, err)
		}
		bigger, ok, err := d.SmallestConductor(length, 20, Series(Class5, Plain))
		if err != nil || !ok || bigger.Area() <= wire.Area() {
			t.Errorf("%s: without a battery %v would do (%v)", c.ID, bigger, err)
		}
	}
}

// A rotary motor is a drive here whose rod moves one meter per radian, so that
// newton reads newton meter and meter per second reads radian per second.
func rotary(volts, winding, constant, noLoad float64) Drive {
	stall := volts / winding
	return Drive{
		Voltage:       units.Voltage(volts),
		NoLoadSpeed:   units.Speed((volts - noLoad*winding) / constant),
		StallThrust:   units.Force(constant * (stall - noLoad)),
		NoLoadCurrent: units.Current(noLoad),
		StallCurrent:  units.Current(stall),
	}
}

func TestMotorRows(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply_derived.json"), "motor") {
		m := rotary(c.Value(t, "voltage_v"), c.Value(t, "winding_ohm"), c.Value(t, "constant_v_s"), c.Value(t, "no_load_a"))
		line := units.Resistance(c.Value(t, "line_ohm"))
		effect, err := m.Effect(m.Voltage, line)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "stall_nm", effect.StallThrust*float64(m.StallThrust))
		c.Check(t, "no_load_rad_s", effect.NoLoadSpeed*float64(m.NoLoadSpeed))
		at, err := m.Running(m.Voltage, line, units.Force(c.Value(t, "torque_nm")))
		if err != nil || at.Stalled {
			t.Fatalf("%s: stalled %v, %v", c.ID, at.Stalled, err)
		}
		c.Check(t, "rad_s", float64(at.Speed))
		c.Check(t, "current_a", float64(at.Current))
	}
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply.json"), "peak") {
		m := Drive{
			Voltage:      24,
			NoLoadSpeed:  units.Speed(c.Value(t, "no_load_rpm") * 2 * math.Pi / 60),
			StallThrust:  units.Force(c.Value(t, "stall_nm")),
			StallCurrent: 10,
		}
		best, at, rpm := 0.0, 0.0, 0.0
		for i := range 1001 {
			thrust := m.StallThrust * units.Force(i) / 1000
			p, err := m.Running(24, 0, thrust)
			if err != nil {
				t.Fatal(err)
			}
			if w := float64(p.Speed) * float64(thrust); w > best {
				best, at, rpm = w, float64(thrust), float64(p.Speed)*60/(2*math.Pi)
			}
		}
		c.Check(t, "peak_w", best)
		c.Check(t, "torque_nm", at)
		c.Check(t, "rpm", rpm)
	}
	for _, c := range casefile.ByModel(t, casefile.Load(t, "supply.json"), "shaft") {
		m := rotary(c.Value(t, "no_load_v"), c.Value(t, "winding_ohm"), c.Value(t, "constant_v_s"), c.Value(t, "no_load_a"))
		// The thrust at which the motor turns at the stated speed, by bisection.
		low, high := units.Force(0), m.StallThrust
		var p Point
		for range 100 {
			var err error
			middle := (low + high) / 2
			if p, err = m.Running(units.Voltage(c.Value(t, "voltage_v")), 0, middle); err != nil {
				t.Fatal(err)
			}
			if float64(p.Speed) > c.Value(t, "rad_s") {
				low = middle
			} else {
				high = middle
			}
		}
		converted := c.In["constant_v_s"] * float64(p.Current) * float64(p.Speed)
		c.Check(t, "shaft_w", converted-c.Value(t, "rotational_loss_w"))
	}
}
