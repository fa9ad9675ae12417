package supply

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func TestSeriesIsComplete(t *testing.T) {
	for _, s := range []struct {
		class  Class
		finish Finish
		want   int
	}{
		{Class1, Plain, 11}, {Class2, Plain, 11}, {Class5, Plain, 11},
		{Class1, MetalCoated, 9}, {Class2, MetalCoated, 11}, {Class5, MetalCoated, 11},
		{3, Plain, 0}, {Class2, 0, 0},
	} {
		got := Series(s.class, s.finish)
		if len(got) != s.want {
			t.Errorf("class %d finish %d: %d conductors, want %d", s.class, s.finish, len(got), s.want)
		}
		for i := 1; i < len(got); i++ {
			if got[i].Area() <= got[i-1].Area() || got[i].OhmPerMeter(20) >= got[i-1].OhmPerMeter(20) {
				t.Errorf("%v does not follow %v", got[i], got[i-1])
			}
		}
	}
}

// A larger conductor, a shorter run, less load and a colder wire never raise
// the drop, and what LongestRun and SmallestConductor return holds.
func TestProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	list := append(Series(Class5, Plain), Series(Class2, MetalCoated)...)
	for range 2000 {
		d := Demand{
			Voltage:   units.Voltage(5 + 50*rng.Float64()),
			Load:      Load{Current: units.Current(0.01 + 10*rng.Float64()), Power: units.Power(100 * rng.Float64())},
			DropLimit: 0.01 + 0.49*rng.Float64(),
		}
		run := Run{units.Length(100 * rng.Float64()), list[rng.IntN(len(list))], units.Temperature(-20 + 90*rng.Float64())}
		base := share(t, d, run)
		worse := d
		worse.Load.Current *= 1.1
		worse.Load.Power *= 1.1
		longer, hotter := run, run
		longer.Length += 0.5
		hotter.Temperature += 5
		if share(t, worse, run) < base || share(t, d, longer) < base || share(t, d, hotter) < base {
			t.Fatalf("a worse run drops less: %+v %+v", d, run)
		}

		longest, err := d.LongestRun(run.Conductor, run.Temperature)
		if err != nil {
			t.Fatal(err)
		}
		if longest > longestBelieved/2 {
			continue
		}
		for factor, holds := range map[float64]bool{1: true, 0.5: true, 1 + 1e-9: false, 2: false} {
			a, err := d.Assess(Run{longest * units.Length(factor), run.Conductor, run.Temperature})
			if err != nil || (a.Outcome == Holds) != holds {
				t.Fatalf("%g times the longest run: %v, %v (%+v)", factor, a.Outcome, err, d)
			}
		}

		got, ok, err := d.SmallestConductor(run.Length, run.Temperature, list)
		if err != nil {
			t.Fatal(err)
		}
		shuffled := slices.Clone(list)
		rng.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		if again, okAgain, _ := d.SmallestConductor(run.Length, run.Temperature, shuffled); again != got || okAgain != ok {
			t.Fatalf("order of the list matters: %v, %v", got, again)
		}
		for _, c := range list {
			a, err := d.Assess(Run{run.Length, c, run.Temperature})
			if err != nil {
				t.Fatal(err)
			}
			if a.Outcome == Holds && (!ok || c.Area() < got.Area()) {
				t.Fatalf("%v holds and is smaller than %v", c, got)
			}
		}
	}
}

// share is the share dropped, infinite where nothing is delivered.
func share(t *testing.T, d Demand, run Run) float64 {
	t.Helper()
	a, err := d.Assess(run)
	if err != nil {
		t.Fatal(err)
	}
	got, ok := a.Delivery.Get()
	if !ok {
		if a.Outcome != Undeliverable {
			t.Fatalf("no delivery, but outcome %v", a.Outcome)
		}
		return math.Inf(1)
	}
	// Kirchhoff: the supply is the drop and what is left, and the load gets what it wants.
	if math.Abs(float64(got.Drop+got.Voltage-d.Voltage)) > 1e-9 {
		t.Fatalf("%v V dropped and %v V left of %v V", got.Drop, got.Voltage, d.Voltage)
	}
	wanted := float64(d.Load.Current)*float64(got.Voltage) + float64(d.Load.Power)
	if math.Abs(float64(got.Voltage)*float64(got.Current)-wanted) > 1e-9*(1+wanted) {
		t.Fatalf("the load gets %v W of %v W", float64(got.Voltage)*float64(got.Current), wanted)
	}
	return got.DropShare
}

func TestMaxPowerIsWhatADemandTakesAtTheLimit(t *testing.T) {
	wire := Series(Class5, Plain)[4]
	run := Run{40, wire, 30}
	for _, limit := range []float64{0.03, 0.1, 0.3, 0.5} {
		most, limited, err := run.MaxPower(24, limit)
		if err != nil || !limited {
			t.Fatal(limited, err)
		}
		for factor, want := range map[float64]bool{1 - 1e-9: true, 1 + 1e-9: false} {
			a, err := Demand{24, Load{Power: most * units.Power(factor)}, limit}.Assess(run)
			if err != nil || (a.Outcome == Holds) != want {
				t.Errorf("limit %g, %g of the most power: outcome %v, %v", limit, factor, a.Outcome, err)
			}
		}
	}
	if _, limited, err := (Run{0, wire, 30}).MaxPower(24, 0.1); limited || err != nil {
		t.Errorf("a run of no length limits the power (%v)", err)
	}
}

func TestRatingFor(t *testing.T) {
	got, err := RatingFor([]Draw{{Continuous: 20, Peak: 120}, {Continuous: 5, Peak: 5}}, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	if got != (Rating{Continuous: 31.25, Peak: 156.25}) {
		t.Errorf("rating %+v", got)
	}
	for _, bad := range [][]Draw{{{Continuous: 10, Peak: 5}}, {{Continuous: -1, Peak: 5}}, {{Peak: units.Power(math.NaN())}}, {{Peak: units.Power(math.Inf(1))}}} {
		if _, err := RatingFor(bad, 0); err == nil {
			t.Errorf("%v accepted", bad)
		}
	}
	for _, headroom := range []float64{-0.1, 25, math.NaN()} {
		if _, err := RatingFor(nil, headroom); err == nil {
			t.Errorf("headroom of %g accepted", headroom)
		}
	}
}

// Less voltage or more resistance never helps a drive, and at a thrust it can't
// give it stands still.
func TestDriveOnASaggingSupply(t *testing.T) {
	d := Drive{Voltage: 24, NoLoadSpeed: 0.02, StallThrust: 3000, NoLoadCurrent: 1, StallCurrent: 16}
	full, err := d.Effect(24, 0)
	if err != nil || math.Abs(full.NoLoadSpeed-1) > 1e-12 || math.Abs(full.StallThrust-1) > 1e-12 {
		t.Fatalf("at its own voltage %+v, %v", full, err)
	}
	before := full
	for _, volts := range []units.Voltage{22, 18, 12, 6, 1, 0} {
		for _, loop := range []units.Resistance{0, 0.2, 1, 10} {
			got, err := d.Effect(volts, loop)
			if err != nil {
				t.Fatal(err)
			}
			if loop == 0 {
				if got.NoLoadSpeed > before.NoLoadSpeed || got.StallThrust > before.StallThrust {
					t.Errorf("less voltage helps: %+v after %+v", got, before)
				}
				before = got
			} else if got.NoLoadSpeed > before.NoLoadSpeed || got.StallThrust > before.StallThrust {
				t.Errorf("a loop of %v ohm helps: %+v", loop, got)
			}
			stall := units.Force(got.StallThrust) * d.StallThrust
			over, err := d.Running(volts, loop, stall+1)
			if err != nil || !over.Stalled || over.Speed != 0 {
				t.Errorf("past its stall thrust: %+v, %v", over, err)
			}
			if stall > 1 {
				under, err := d.Running(volts, loop, stall-1)
				if err != nil || under.Stalled || !(under.Speed > 0) || under.Current > over.Current {
					t.Errorf("under its stall thrust: %+v, %v", under, err)
				}
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	wire := Series(Class5, Plain)[4]
	good := Demand{24, Load{Current: 5}, 0.1}
	for name, c := range map[string]struct {
		demand Demand
		run    Run
		want   string
	}{
		"no voltage":     {Demand{0, good.Load, 0.1}, Run{10, wire, 20}, "supply voltage"},
		"mains voltage":  {Demand{230, good.Load, 0.1}, Run{10, wire, 20}, "extra-low"},
		"NaN voltage":    {Demand{units.Voltage(nan), good.Load, 0.1}, Run{10, wire, 20}, "supply voltage"},
		"percent limit":  {Demand{24, good.Load, 10}, Run{10, wire, 20}, "drop limit"},
		"no limit":       {Demand{24, good.Load, 0}, Run{10, wire, 20}, "drop limit"},
		"no load":        {Demand{24, Load{}, 0.1}, Run{10, wire, 20}, "takes 0 A"},
		"negative load":  {Demand{24, Load{Current: -1, Power: 100}, 0.1}, Run{10, wire, 20}, "negative"},
		"infinite load":  {Demand{24, Load{Power: units.Power(inf)}, 0.1}, Run{10, wire, 20}, "takes +Inf A"},
		"negative run":   {good, Run{-1, wire, 20}, "run length"},
		"infinite run":   {good, Run{units.Length(inf), wire, 20}, "run length"},
		"absurd run":     {good, Run{1e6, wire, 20}, "run length"},
		"no conductor":   {good, Run{10, Conductor{}, 20}, "no conductor"},
		"absolute zero":  {good, Run{10, wire, -273}, "temperature"},
		"NaN conductors": {good, Run{10, wire, units.Temperature(nan)}, "temperature"},
	} {
		_, err := c.demand.Assess(c.run)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := IEC(Class5, Plain, units.SquareMillimeters(3)); err == nil {
		t.Error("3 mm2 accepted")
	}
	if _, err := IEC(Class1, MetalCoated, units.SquareMillimeters(25)); err == nil {
		t.Error("an untabulated conductor accepted")
	}
	for _, gauge := range []int{0, -3, 25} {
		if _, err := AWG(gauge, Solid); err == nil {
			t.Errorf("AWG %d accepted", gauge)
		}
	}
	if _, err := AWG(12, 0); err == nil {
		t.Error("an AWG conductor of no construction accepted")
	}
	sound := Drive{Voltage: 24, NoLoadSpeed: 0.02, StallThrust: 3000, NoLoadCurrent: 1, StallCurrent: 16}
	for _, spoil := range []func(*Drive){
		func(d *Drive) { d.Voltage = 0 }, func(d *Drive) { d.NoLoadSpeed = units.Speed(nan) },
		func(d *Drive) { d.StallThrust = 0 }, func(d *Drive) { d.StallCurrent = 1 },
		func(d *Drive) { d.NoLoadCurrent = -1 }, func(d *Drive) { d.StallThrust = units.Force(inf) },
	} {
		d := sound
		spoil(&d)
		if _, err := d.Effect(24, 0.1); err == nil {
			t.Errorf("%+v accepted", d)
		}
	}
	if _, err := sound.Running(24, 0, units.Force(nan)); err == nil {
		t.Error("a thrust of NaN accepted")
	}
	if p, err := sound.Running(24, 0, math.MaxFloat64); err != nil || !p.Stalled || !units.Finite(float64(p.Voltage)) {
		t.Errorf("an absurd thrust: %+v, %v", p, err)
	}
}
