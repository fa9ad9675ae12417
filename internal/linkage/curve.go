package linkage

import (
	"iter"

	"leafmoment.example/leafmoment/internal/units"
)

// Point is a mounting at one leaf angle of the swing.
type Point struct {
	Angle       units.Angle
	Length, Arm units.Length
	// Opening and Closing are the moments each motion needs: what resists it and
	// the leaf's own acceleration, as the margin counts them.
	Opening, Closing units.Torque
}

// Curve is the mounting at every leaf angle of the swing, closed first. Where it
// has no arm the moments are those that resist, inertia left out.
func (p *Problem) Curve(m Mounting) iter.Seq[Point] {
	return func(yield func(Point) bool) {
		q := p.prepare()
		t := m.triangle()
		for i, cos := range p.Swing.cos {
			s, r, slope := t.at(cos, p.Swing.sin[i])
			point := Point{
				Angle: p.Swing.Angle(i), Length: units.Length(s), Arm: units.Length(r),
				Opening: units.Torque(p.Demand.Opening[i]), Closing: units.Torque(p.Demand.Closing[i]),
			}
			if r > 0 {
				point.Opening = q.opening.moment(i, r, slope)
				point.Closing = q.closing.moment(i, r, slope)
			}
			if !yield(point) {
				return
			}
		}
	}
}

// moment is what a motion needs at sample i, N m: use x T x r.
func (n *motionNeed) moment(i int, r, slope float64) units.Torque {
	return units.Torque(n.use(i, 1/r, slope) * r / n.perThrust)
}
