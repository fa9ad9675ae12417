package motion

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// node is the linkage at one leaf angle: angle (rad), rod travel from closed
// (m), arm (m).
type node struct{ theta, travel, arm float64 }

// sample fills nodes over 0..open, closer together towards both ends where the
// leaf starts and stops (equal steps of a half turn's cosine). It returns the
// first node at which the travel no longer grows as the arm says it must, or -1:
// a dead point lies before it.
func (s *Setup) sample(nodes []node) (dead int, err error) {
	last := len(nodes) - 1
	start := float64(s.Linkage.Length(0))
	dead = -1
	for i := range nodes {
		theta := float64(s.Open) * spacing(i, last)
		length := float64(s.Linkage.Length(units.Angle(theta)))
		n := node{theta: theta, travel: math.Abs(length - start), arm: float64(s.Linkage.Arm(units.Angle(theta)))}
		if !units.Finite(n.travel) || !units.Finite(n.arm) {
			return -1, fmt.Errorf("linkage: no finite length and arm at %.2f degrees", units.Angle(theta).Degrees())
		}
		nodes[i] = n
		if dead >= 0 {
			continue
		}
		if n.arm <= 0 {
			dead = i
		} else if i > 0 {
			before := nodes[i-1]
			if n.travel-before.travel < 0.5*(n.theta-before.theta)*0.5*(n.arm+before.arm) {
				dead = i
			}
		}
	}
	return dead, nil
}

// spacing is the share of the swing at node i of 0..last.
func spacing(i, last int) float64 {
	if last == steps {
		return shares[i]
	}
	return 0.5 * (1 - math.Cos(math.Pi*float64(i)/float64(last)))
}

var shares = func() (t [steps + 1]float64) {
	for i := range t {
		t[i] = 0.5 * (1 - math.Cos(math.Pi*float64(i)/steps))
	}
	return t
}()

// between is the node at a travel between two nodes, on the cubic that has their
// travels and their arms.
func between(a, b node, travel float64) node {
	angle, d := b.theta-a.theta, b.travel-a.travel
	m0, m1 := a.arm*math.Abs(angle), b.arm*math.Abs(angle)
	c2, c3 := 3*d-2*m0-m1, m0+m1-2*d
	x := (travel - a.travel) / d
	want := travel - a.travel
	for range 2 { // Newton; the step is short and nearly straight
		x = min(max(x-(x*(m0+x*(c2+x*c3))-want)/(m0+x*(2*c2+3*x*c3)), 0), 1)
	}
	return node{theta: a.theta + x*angle, travel: travel, arm: (m0 + x*(2*c2+3*x*c3)) / math.Abs(angle)}
}

// moment is the resisting moment (N m) at a share of the swing, straight
// between the samples.
func (w *Way) moment(share float64) float64 {
	x := share * float64(len(w.Moment)-1)
	i := min(max(int(x), 0), len(w.Moment)-2)
	a, b := float64(w.Moment[i]), float64(w.Moment[i+1])
	return a + (b-a)*(x-float64(i))
}
