package linkage

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// prepared is a problem in SI units with everything worked out that doesn't
// depend on the mounting.
type prepared struct {
	p     *Problem
	sigma float64 // +1 pull, -1 push
	box   float64 // m
	e     float64 // m

	minArm      float64 // m
	closedLimit float64 // m: longest length when closed for pull, shortest for push
	// closedByStroke: it is MaxStroke that sets closedLimit.
	closedByStroke bool
	openLimit      float64 // m: shortest length at the end of the swing for pull, longest for push; or the ram's end
	maxStroke      float64 // m
	rearMax        float64 // rad
	frontMax       float64 // rad
	openCos        float64
	openSin        float64

	opening, closing motionNeed
	// the largest need of either motion at any sample: M/T, I a/T, I v^2/T
	mostLoad, mostRamp, mostKinetic float64
}

// motionNeed holds what one motion asks of the thrust, each divided by the
// thrust available in that motion.
type motionNeed struct {
	moments   []float64 // resisting moments, N m
	perThrust float64   // 1/N
	ramp      float64   // I a / T, m2
	kinetic   float64   // I v^2 / T, m3
	slopeSign float64   // which sign of r' makes the motion harder
	rampFirst int       // samples of the start-up ramp
	rampLast  int
}

func (p *Problem) prepare() prepared {
	q := prepared{
		p:         p,
		sigma:     p.Side.sigma(),
		box:       float64(p.Box) / 1000,
		e:         float64(p.E) / 1000,
		minArm:    float64(p.MinArm),
		maxStroke: math.Inf(1),
		rearMax:   orInf(p.Ram.RearSweepMax),
		frontMax:  orInf(p.Ram.FrontSweepMax),
	}
	q.openSin, q.openCos = math.Sincos(float64(p.Open))
	q.setLengthLimits()
	q.setNeeds()
	return q
}

// orInf is a limit, or infinity where there is none.
func orInf(limit units.Opt[units.Angle]) float64 {
	return float64(limit.Or(units.Angle(math.Inf(1))))
}

// setLengthLimits turns ram, reserves and the stroke limit into limits of the
// pin-to-pin length. Where the ram's end sets the open position the stroke limit
// is one on the closed length.
func (q *prepared) setLengthLimits() {
	shortest, longest := float64(q.p.Ram.Shortest), float64(q.p.Ram.Longest)
	closed, open := longest, shortest
	if q.sigma < 0 {
		closed, open = shortest, longest
	}
	q.closedLimit = closed - q.sigma*float64(q.p.ReserveClosed)
	q.openLimit = open
	stroke, limited := q.p.MaxStroke.Get()
	switch {
	case !q.p.OpenByRamEnd:
		q.openLimit = open + q.sigma*float64(q.p.ReserveOpen)
		if limited {
			q.maxStroke = float64(stroke)
		}
	case limited:
		fromEnd := open + q.sigma*float64(stroke)
		if q.sigma*fromEnd < q.sigma*q.closedLimit {
			q.closedLimit, q.closedByStroke = fromEnd, true
		}
	}
}

// setNeeds works out the load terms. The start-up ramp covers v^2/(2 a) of rod
// travel; since every arm is at least MinArm, no more leaf angle than that over
// MinArm, and that angle is taken for every mounting: cautious, and the same
// question for all of them. Closing may start anywhere from Open to the end of
// the swing.
func (q *prepared) setNeeds() {
	d := &q.p.Demand
	last := q.p.Swing.Samples() - 1
	inertia, speed, acceleration := float64(d.Inertia), float64(d.RodSpeed), float64(d.RodAcceleration)
	opening, closing := -1, -1 // samples of each ramp beyond its first
	if inertia > 0 {
		step := float64(q.p.Swing.End()) / float64(last)
		ramp := speed * speed / (2 * acceleration * q.minArm)
		opening = int(min(ramp/step, float64(last)))
		closing = int(min((ramp+float64(q.p.Swing.End()-q.p.Open))/step, float64(last)))
	}
	opens, closes := float64(q.p.Ram.ThrustRetracting), float64(q.p.Ram.ThrustExtending)
	if q.sigma < 0 {
		opens, closes = closes, opens
	}
	q.opening = motionNeed{moments: d.Opening, perThrust: 1 / opens, slopeSign: -1, rampFirst: 0, rampLast: opening}
	q.closing = motionNeed{moments: d.Closing, perThrust: 1 / closes, slopeSign: 1, rampFirst: last - closing, rampLast: last}
	for _, need := range [2]*motionNeed{&q.opening, &q.closing} {
		if inertia > 0 {
			need.ramp = inertia * acceleration * need.perThrust
			need.kinetic = inertia * speed * speed * need.perThrust
		}
		for _, m := range need.moments {
			q.mostLoad = max(q.mostLoad, m*need.perThrust)
		}
		q.mostRamp, q.mostKinetic = max(q.mostRamp, need.ramp), max(q.mostKinetic, need.kinetic)
	}
}

// use is the share of the available thrust that a motion needs at sample i,
// 1/margin. With r the arm (m), r' its slope (m/rad), q = 1/r, T the thrust:
//
//	use = q (M/T + (I a/T) q [in the ramp] + (I v^2/T) max(0, -+r') q^3)
//
// from T r = M + I alpha with the leaf's acceleration in the direction of its
// motion alpha = (dv/dt)/r - v^2 r'/r^3 opening and (dv/dt)/r + v^2 r'/r^3
// closing (omega = v/r). Each part of alpha counts only where it resists, at the
// full rod speed throughout, so that a start or a stop never looks easier than
// it is. Holds for r > 0.
func (n *motionNeed) use(i int, q, slope float64) float64 {
	need := n.moments[i] * n.perThrust
	if i >= n.rampFirst && i <= n.rampLast {
		need += n.ramp * q
	}
	if hard := slope * n.slopeSign; hard > 0 {
		need += n.kinetic * hard * q * q * q
	}
	return q * need
}

// slopes are d(use)/dr and d(use)/dr'.
func (n *motionNeed) slopes(i int, q, slope float64) (byArm, bySlope float64) {
	need := n.moments[i] * n.perThrust
	if i >= n.rampFirst && i <= n.rampLast {
		need += 2 * n.ramp * q
	}
	if hard := slope * n.slopeSign; hard > 0 {
		q3 := n.kinetic * q * q * q
		need += 4 * q3 * hard
		bySlope = q3 * q * n.slopeSign
	}
	return -q * q * need, bySlope
}
