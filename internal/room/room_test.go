package room

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func randomLeaf(rng *rand.Rand) Leaf {
	return Leaf{units.Length(0.5 + 4*rng.Float64()), units.Length(0.02 + 0.1*rng.Float64()), units.Length(0.2*rng.Float64() - 0.1)}
}

// randomPolygon is star-shaped about its center, so it is simple, and shrinking
// it towards that center keeps it within itself: no two corners in turn are half a turn apart.
func randomPolygon(rng *rand.Rand) (center vec, corners []vec) {
	center = vec{0.2 + 3*rng.Float64(), 0}.turned(-1 + 4*rng.Float64())
	corners = make([]vec, 4+rng.IntN(8))
	step := 2 * math.Pi / float64(len(corners))
	for i := range corners {
		radius := 0.05 + 0.5*rng.Float64()
		corners[i] = vec{radius, 0}.turned((float64(i) + 0.6*rng.Float64()) * step)
	}
	return center, corners
}

func outlineAt(center vec, corners []vec, scale float64) (Obstacle, error) {
	points := make([]Point, len(corners))
	for i, c := range corners {
		points[i] = Point{units.Length(center.x + scale*c.x), units.Length(center.y + scale*c.y)}
	}
	return NewOutline(points)
}

// A smaller obstacle never has less clearance, a wider swing never more, and
// neither direction nor first corner of an outline matters.
func TestSweepProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	tried := 0
	for tried < 1500 {
		leaf, open := randomLeaf(rng), units.Angle(0.2+2*rng.Float64())
		keep := units.Length(max(0, 0.2*rng.Float64()-0.05))
		center, corners := randomPolygon(rng)
		o, err := outlineAt(center, corners, 1)
		if err != nil {
			continue // holds the hinge axis
		}
		tried++
		s := sweep(t, leaf, open, o, keep)

		small, err := outlineAt(center, corners, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		if got := sweep(t, leaf, open, small, keep); got.Clearance < s.Clearance-touching || got.FreeTo < s.FreeTo-1e-9 {
			t.Fatalf("a smaller obstacle is nearer: %+v after %+v", got, s)
		}
		if got := sweep(t, leaf, open*1.2, o, keep); got.Clearance > s.Clearance+touching || s.Outcome != Free && math.Abs(float64(got.FreeTo-s.FreeTo)) > 1e-9 {
			t.Fatalf("a wider swing is freer: %+v after %+v", got, s)
		}
		if got := sweep(t, leaf, open, o, keep+0.01); got.FreeTo > s.FreeTo {
			t.Fatalf("a longer distance to keep is freer: %+v after %+v", got, s)
		}
		slices.Reverse(corners[1:])
		corners = append(corners[2:], corners[:2]...)
		again, err := outlineAt(center, corners, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := sweep(t, leaf, open, again, keep); got.Outcome != s.Outcome || math.Abs(float64(got.Clearance-s.Clearance)) > 2*touching {
			t.Fatalf("the order of corners matters: %+v after %+v", got, s)
		}

		// At any angle the leaf is no nearer than the smallest clearance, and no
		// nearer than the distance to keep up to the angle it is free to.
		for i := range 40 {
			theta := float64(open) * float64(i) / 39
			d := distanceAt(leaf, o, theta)
			if d < float64(s.Clearance)-touching {
				t.Fatalf("%g m at %g degrees, less than the smallest %+v", d, theta*180/math.Pi, s)
			}
			if s.Outcome != BlockedClosed && theta < float64(s.FreeTo)-1e-9 && (d < float64(keep)-touching || d == 0) {
				t.Fatalf("%g m at %g degrees within the free swing %+v", d, theta*180/math.Pi, s)
			}
		}
		if d := distanceAt(leaf, o, float64(s.At)); math.Abs(d-float64(s.Clearance)) > 2*touching {
			t.Fatalf("%g m at the nearest angle, not %+v", d, s)
		}
	}
}

func sweep(t *testing.T, l Leaf, open units.Angle, o Obstacle, keep units.Length) Swing {
	t.Helper()
	s, err := l.Sweep(min(open, math.Pi), o, keep)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// distanceAt measures the leaf at one angle, turned as a polygon.
func distanceAt(l Leaf, o Obstacle, theta float64) float64 {
	turned := l.corners()
	for i := range turned {
		turned[i] = turned[i].turned(theta)
	}
	least := math.Inf(1)
	for i, a := range turned {
		side := segment{a, turned[(i+1)%4]}
		if o.holds(a) || inside(turned[:], o.corners[0]) {
			return 0
		}
		for j := range o.corners {
			edge := o.edge(j)
			if cross(side, edge) {
				return 0
			}
			least = min(least, edge.distance(a), side.distance(edge.a))
		}
	}
	return contact(least)
}

// Sampling finds what OverPlane states, and steeper ground, less clearance and
// a wider swing never help.
func TestGroundProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 2))
	limited := 0
	for range 2000 {
		b := Bottom{
			Width:         units.Length(1 + 4*rng.Float64()),
			Clearance:     units.Length(0.25 * rng.Float64()),
			Slope:         0.06*rng.Float64() - 0.03,
			Lean:          units.Degrees(2 * rng.Float64()),
			LeanDirection: units.Degrees(720*rng.Float64() - 360),
		}
		ground := Plane{0.16*rng.Float64() - 0.08, 0.16*rng.Float64() - 0.08}
		open, keep := units.Degrees(30+130*rng.Float64()), units.Length(0.05*rng.Float64())
		s, err := b.OverPlane(open, ground, keep)
		if err != nil {
			t.Fatal(err)
		}
		least, free := float64(b.Clearance), open
		kept := b.Clearance >= keep
		for i := range 2001 {
			theta := float64(open) * float64(i) / 2000
			c := b.overPlane(ground, theta)
			if c < keep && kept && free == open {
				free = units.Angle(theta)
			}
			least = min(least, float64(c))
		}
		if s.Clearance > units.Length(least)+1e-12 || s.Clearance < units.Length(least)-1e-6 {
			t.Fatalf("smallest clearance %g m, sampled %g m: %+v on %+v", float64(s.Clearance), least, b, ground)
		}
		switch s.Outcome {
		case Free:
			if least < float64(keep)-1e-12 {
				t.Fatalf("free, but sampled %g m", least)
			}
		case Limited:
			limited++
			if free < open && math.Abs(float64(s.FreeTo-free)) > float64(open)/2000+1e-9 {
				t.Fatalf("free to %g degrees, sampled %g", s.FreeTo.Degrees(), free.Degrees())
			}
		case BlockedClosed:
			if b.Clearance >= keep && b.overPlane(ground, 0) >= keep {
				t.Fatalf("blocked when closed at %g m", float64(b.overPlane(ground, 0)))
			}
		}
		lower := b
		lower.Clearance *= 0.9
		if got, err := lower.OverPlane(open, ground, keep); err != nil || got.Clearance > s.Clearance || got.FreeTo > s.FreeTo {
			t.Fatalf("less clearance helps: %+v after %+v (%v)", got, s, err)
		}
		if got, err := b.OverPlane(open*1.1, ground, keep); err != nil || got.Clearance > s.Clearance {
			t.Fatalf("a wider swing helps: %+v after %+v (%v)", got, s, err)
		}
	}
	if limited < 100 {
		t.Errorf("only %d swings were limited", limited)
	}
}

func TestSpots(t *testing.T) {
	b := Bottom{Width: 3, Clearance: 0.1}
	at := func(radius, deg, height float64) Spot {
		p := vec{radius, 0}.turned(deg * math.Pi / 180)
		return Spot{Point{units.Length(p.x), units.Length(p.y)}, units.Length(height)}
	}
	for name, c := range map[string]struct {
		spots   []Spot
		outcome Outcome
		least   units.Length
		freeTo  float64
	}{
		"nothing surveyed":        {nil, NotSurveyed, 0.1, 0},
		"beyond the leaf":         {[]Spot{at(3.1, 45, 1)}, NotSurveyed, 0.1, 0},
		"outside the swing":       {[]Spot{at(2, 95, 1), at(2, -20, 1)}, NotSurveyed, 0.1, 0},
		"low":                     {[]Spot{at(2, 45, 0.03)}, Free, 0.07, 90},
		"falling":                 {[]Spot{at(2, 45, -0.3)}, Free, 0.1, 90},
		"too high":                {[]Spot{at(2, 60, 0.08), at(1, 30, 0.06), at(2.5, 75, 0.2)}, Limited, -0.1, 60},
		"too high under the leaf": {[]Spot{at(2, 0, 0.2)}, BlockedClosed, -0.1, 0},
	} {
		s, err := b.OverSpots(units.Degrees(90), c.spots, 0.03)
		if err != nil {
			t.Fatal(err)
		}
		if s.Outcome != c.outcome || math.Abs(float64(s.Clearance-c.least)) > 1e-12 || math.Abs(s.FreeTo.Degrees()-c.freeTo) > 1e-9 {
			t.Errorf("%s: %+v", name, s)
		}
		slices.Reverse(c.spots)
		if again, _ := b.OverSpots(units.Degrees(90), c.spots, 0.03); again != s {
			t.Errorf("%s: the order of spots matters: %+v after %+v", name, again, s)
		}
	}
}
