package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// assessReach finds where the leaf comes to and from, and, where the ram's end
// sets the open position, over the box too.
func (q *prepared) assessReach(out *Assessment, m Mounting) {
	out.ClosesTo = q.closesTo(m)
	out.Reach, out.ReachLimit = q.reach(m)
	out.ReachLow, out.ReachHigh = out.Reach, out.Reach
	if !q.p.OpenByRamEnd {
		return
	}
	for i := range boxPoints {
		corner := m.corner(&boxPoints[i], q.box)
		angle := q.travelReach(corner)
		out.ReachLow, out.ReachHigh = min(out.ReachLow, angle), max(out.ReachHigh, angle)
	}
}

// corner is the mounting built off by the box.
func (m Mounting) corner(p *corner, box float64) Mounting {
	m.A += units.Length(p[0] * box)
	m.B += units.Length(p[1] * box)
	m.C += units.Length(p[2] * box)
	m.E += units.Length(p[3] * box)
	return m
}

// reach is the largest leaf angle before the ram's travel ends, the arm falls to
// its least or a pin turns too far; 0 where closed is out of reach already.
func (q *prepared) reach(m Mounting) (units.Angle, Limits) {
	reach, limit := largestAngle, Limits(0)
	lower := func(to units.Angle, by Limits) {
		if to < reach {
			reach, limit = max(to, 0), by
		}
	}
	lower(q.armReach(m), LimitArm)
	lower(q.travelReach(m), LimitOpenTravel)
	lower(q.sweepReach(q.rearMax, reach, m.RearSweep), LimitRearSweep)
	lower(q.sweepReach(q.frontMax, reach, m.FrontSweep), LimitFrontSweep)
	return reach, limit
}

// travelReach is the leaf angle at which the ram's travel ends, the dead point
// where it doesn't before.
func (q *prepared) travelReach(m Mounting) units.Angle {
	if angle, ok := m.AngleAt(units.Length(q.openLimit)); ok {
		return max(angle, 0)
	}
	if q.sigma*(float64(m.Length(0))-q.openLimit) < 0 {
		return 0
	}
	return max(m.DeadPoint(), 0)
}

// armReach is the last leaf angle with the least arm. With f, g the distances of
// the pins from the hinge axis, phi the angle between them and m the least arm,
// arm = f g sin(phi)/s equals m at
//
//	cos(phi) = (m^2 +- sqrt((f^2 - m^2)(g^2 - m^2)))/(f g)
//
// of which pull meets the larger last, push the smaller. Where a pin is nearer to
// the axis than m the arm never gets there.
func (q *prepared) armReach(m Mounting) units.Angle {
	t := m.triangle()
	least2 := q.minArm * q.minArm
	if t.front2 < least2 || t.rear2 < least2 {
		return 0
	}
	cos := (least2 + q.sigma*math.Sqrt((t.front2-least2)*(t.rear2-least2))) / math.Sqrt(t.front2*t.rear2)
	return m.angleOfIncluded(math.Acos(min(max(cos, -1), 1)))
}

// sweepReach is the largest leaf angle up to reach at which a pin has turned no
// more than the limit, to 1e-6 rad. The turning grows with the angle.
func (q *prepared) sweepReach(limit float64, reach units.Angle, turned func(units.Angle) units.Angle) units.Angle {
	if math.IsInf(limit, 1) {
		return largestAngle
	}
	low, high := units.Angle(0), reach
	below, above := limit, float64(turned(reach))-limit
	if above <= 0 {
		return largestAngle
	}
	for step := 0; high-low > 1e-6 && step < 60; step++ {
		next := low + (high-low)*units.Angle(below/(below+above))
		if step%3 == 2 {
			next = (low + high) / 2
		}
		if left := limit - float64(turned(next)); left >= 0 {
			low, below = next, left
		} else {
			high, above = next, -left
		}
	}
	return low
}

// closesTo is the least leaf angle the ram's travel allows. Where it allows
// none, that is the dead point.
func (q *prepared) closesTo(m Mounting) units.Angle {
	end := q.p.Ram.Longest
	if q.sigma < 0 {
		end = q.p.Ram.Shortest
	}
	if units.Length(q.sigma)*(m.Length(0)-end) <= 0 {
		return 0
	}
	if angle, ok := m.AngleAt(end); ok {
		return max(angle, 0)
	}
	return max(m.DeadPoint(), 0)
}

// LargestAngle is the largest opening angle, in whole degrees and no more than
// Open, for which some mounting in the problem's ranges keeps every limit; 0
// where none does. It is for saying what would be possible, so it costs a few
// solves. Where the ram's end sets the open position, that may lie as far beyond
// the angle as it may beyond Open.
func (p *Problem) LargestAngle() (units.Angle, error) {
	if err := p.Check(); err != nil {
		return 0, err
	}
	low, high := 0, int(math.Ceil(p.Open.Degrees()))
	if p.possible(p.Open) {
		return p.Open, nil
	}
	for high-low > 1 {
		if middle := (low + high) / 2; p.possible(units.Degrees(float64(middle))) {
			low = middle
		} else {
			high = middle
		}
	}
	return units.Degrees(float64(low)), nil
}

// Opens reports whether some mounting in the problem's ranges keeps every limit
// up to Open, whatever its margin.
func (p *Problem) Opens() (bool, error) {
	if err := p.Check(); err != nil {
		return false, err
	}
	return p.possible(p.Open), nil
}

// possible reports whether some mounting keeps every limit up to an angle. The
// moments don't bear on limits, so two samples of the swing do.
func (p *Problem) possible(open units.Angle) bool {
	moments := [2]float64{1, 1}
	end := open + p.Swing.End() - p.Open
	sin, cos := math.Sincos(float64(end))
	less := *p
	less.Open = open
	less.Demand = Demand{Opening: moments[:], Closing: moments[:]}
	less.Swing = Swing{end: end, cos: []float64{1, cos}, sin: []float64{0, sin}}
	return less.search().found
}
