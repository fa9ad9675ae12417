package room

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// A single track and segment, either way round, by close sampling.
func TestTrackAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 8))
	place := func() vec { return vec{0.2 + 2*rng.Float64(), 0}.turned(2 * math.Pi * rng.Float64()) }
	const samples = 4000
	reached := 0
	for i := range 1000 {
		s := segment{place(), place()}
		if i%10 == 0 {
			s.b = s.a
		}
		tr := trackOf(place(), 0.2+2.9*rng.Float64(), 1)
		if i%2 == 1 {
			tr.sign = -1
		}
		gap := 0.3 * rng.Float64()
		least, under := math.Inf(1), math.Inf(1)
		for j := range samples + 1 {
			theta := tr.turn * float64(j) / samples
			d := s.distance(tr.at(theta))
			least = min(least, d)
			if d < gap {
				under = min(under, theta)
			}
		}
		d, at := nearest(tr, s)
		if d > least+1e-12 || d < least-tr.turn/samples*tr.radius || math.Abs(s.distance(tr.at(at))-d) > 2*touching {
			t.Fatalf("nearest %g at %g, sampled %g: %+v %+v", d, at, least, tr, s)
		}
		if apart(tr, s) > d+1e-12 {
			t.Fatalf("apart %g, but comes to %g: %+v %+v", apart(tr, s), d, tr, s)
		}
		if s.distance(tr.at(0)) < gap {
			continue
		}
		theta, ok := reach(tr, s, gap)
		switch {
		case d < gap-1e-6 && !ok, d > gap+1e-6 && ok, ok && theta > under+1e-9:
			t.Fatalf("reach %g %v, nearest %g, gap %g, sampled under it at %g: %+v %+v", theta, ok, d, gap, under, tr, s)
		case ok && under < math.Inf(1):
			reached++
		}
		if ok && math.Abs(s.distance(tr.at(theta))-gap) > 2*touching {
			t.Fatalf("reach at %g m, not %g: %+v %+v", s.distance(tr.at(theta)), gap, tr, s)
		}
	}
	if reached < 100 {
		t.Errorf("only %d tracks reached the gap", reached)
	}
}

// Drive bodies of any proportion, front pivots nearer to the hinge axis than
// the rear one among them, by close sampling.
func TestDriveBodyAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	const samples = 4000
	for range 400 {
		at := func(least, most float64) Point {
			p := vec{least + (most-least)*rng.Float64(), 0}.turned(2 * math.Pi * rng.Float64())
			return Point{units.Length(p.x), units.Length(p.y)}
		}
		d := DriveBody{
			Rear: at(0.05, 0.5), Front: at(0.05, 1),
			Overhang:      units.Length(0.5 * rng.Float64()),
			HousingLength: units.Length(0.2 + 0.8*rng.Float64()),
			HousingRadius: units.Length(0.1 * rng.Float64()),
			FrontBracket:  []Point{at(0.05, 1)},
		}
		open := units.Angle(0.5 + 2.6*rng.Float64())
		got, err := d.PastLine(open, 0)
		if err != nil {
			t.Fatal(err)
		}
		most := math.Inf(-1)
		for j := range samples + 1 {
			most = max(most, d.extent(vec{0, 1}, float64(open)*float64(j)/samples))
		}
		// Furthest is an extent at some angle, so too little is the only way to err.
		if float64(got.Furthest) < most-1e-12 {
			t.Fatalf("furthest %g m, sampled %g m: %+v", float64(got.Furthest), most, d)
		}
		if reach := d.extent(vec{0, 1}, float64(got.FurthestAt)); math.Abs(reach-float64(got.Furthest)) > 1e-12 {
			t.Fatalf("furthest %g m, but %g m at its angle: %+v", float64(got.Furthest), reach, d)
		}
	}
}
