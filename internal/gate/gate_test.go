package gate

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func TestPair(t *testing.T) {
	for count, want := range []bool{false, false, true} {
		if got := (Gate{Leaves: make([]Leaf, count)}).Pair(); got != want {
			t.Errorf("%d leaves: pair is %v", count, got)
		}
	}
}

func TestPullMounting(t *testing.T) {
	for _, c := range []struct {
		direction Direction
		side      DriveSide
		pull      bool
	}{
		{Inward, DriveInside, true},
		{Inward, DriveSideUnknown, true}, // unknown is inside
		{Inward, DriveOutside, false},
		{Outward, DriveInside, false},
		{Outward, DriveSideUnknown, false},
		{Outward, DriveOutside, true},
	} {
		if got := (Opening{Direction: c.direction, DriveSide: c.side}).PullMounting(); got != c.pull {
			t.Errorf("direction %d, drive side %d: pull is %v", c.direction, c.side, got)
		}
	}
}

// TestCheckStandsAnything checks gates whose every field is unknown, ordinary or
// absurd at random: no panic, and every fault is whole.
func TestCheckStandsAnything(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	faulty := map[string]bool{}
	for range 2000 {
		g := randomGate(random)
		before := g.Check()
		for _, f := range before {
			if f.Field == "" || f.Text == "" || strings.Contains(f.Text, "%!") || f.Reason.String() == "UNREGISTERED" {
				t.Fatalf("fault %+v of %+v", f, g)
			}
			faulty[f.Field] = true
		}
		if !reflect.DeepEqual(before, g.Check()) {
			t.Fatalf("checking twice gives two answers for %+v", g)
		}
	}
	if len(faulty) < 20 {
		t.Errorf("only %d fields were ever at fault; the gates are too alike", len(faulty))
	}
}

func randomGate(r *rand.Rand) Gate {
	length := func() units.Opt[units.Length] { return maybe(r, units.Length(number(r))) }
	section := func() Section { return Section{Width: units.Length(number(r)), Wall: units.Length(number(r))} }
	g := Gate{
		Closing:  Closing{Onto: ClosesOnto(r.IntN(5)), Gap: length(), Overlapping: Overlap(r.IntN(5))},
		Driveway: Driveway{Width: length(), ClearWidthWanted: length()},
		Site: Site{
			Gust: maybe(r, units.Speed(number(r))), OperatingWind: maybe(r, units.Speed(number(r))), MeanWind10m: maybe(r, units.Speed(number(r))),
			LowestTemperature: maybe(r, units.Temperature(number(r))), HighestTemperature: maybe(r, units.Temperature(number(r))),
		},
		Power: Power{
			Conductor: maybe(r, Conductor{Standard: ConductorStandard(r.IntN(5)), Area: units.Area(number(r)), Gauge: r.IntN(30)}),
			Outage:    maybe(r, units.Time(number(r))), OutageCycles: maybe(r, r.IntN(5)-1),
			Solar: maybe(r, SolarSite{Monthly: make([]units.Energy, r.IntN(14))}),
		},
	}
	for range r.IntN(4) {
		l := Leaf{
			Width: length(), Height: length(), Mass: maybe(r, units.Mass(number(r))), Solidity: maybe(r, number(r)), Infill: Infill(r.IntN(7)),
			Construction: maybe(r, Construction{Stile: section(), Bar: maybe(r, section()), BarCount: r.IntN(4) - 1}),
			CenterOfMass: length(), HingeSpacing: length(), Hinge: HingeType(r.IntN(5)), Rest: Rest(r.IntN(5)), Latch: Answer(r.IntN(4)),
			Post: Post{Width: length(), Wall: length(), HingeInset: length()},
		}
		for range r.IntN(3) {
			l.Rails = append(l.Rails, units.Length(number(r)))
		}
		g.Leaves = append(g.Leaves, l)
	}
	for range r.IntN(3) {
		g.Obstacles = append(g.Obstacles, Obstacle{Outline: make([]Point, r.IntN(5)), Radius: length()})
	}
	return g
}

func maybe[T any](r *rand.Rand, v T) units.Opt[T] {
	if r.IntN(2) == 0 {
		return units.Opt[T]{}
	}
	return units.Known(v)
}

// number is mostly ordinary, now and then absurd.
func number(r *rand.Rand) float64 {
	if r.IntN(10) == 0 {
		absurd := []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64}
		return absurd[r.IntN(len(absurd))]
	}
	return 4 * r.Float64()
}
