package sizing

import (
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/motion"
	"leafmoment.example/leafmoment/internal/units"
)

// windLimits are the winds in which a drive's thrust is just used up over the
// swing: with everything else that resists, and if wind were all.
//
//	V^2 = 2 (T r - M)/(rho k)   smallest over angles and both motions
//
// T the thrust (N), r the arm (m), M the moment without wind (N m), rho the
// air's density, k the leaf's moment per pascal (m3).
func (s *study) windLimits(l *leafStudy, p *placement) (moves, windOnly units.Speed) {
	opens, closes := p.problem.Ram.ThrustRetracting, p.problem.Ram.ThrustExtending
	if s.side == linkage.Push {
		opens, closes = closes, opens
	}
	left, all := math.Inf(1), math.Inf(1)
	for at := range p.problem.Curve(p.result.Mounting) {
		openTorque, closeTorque := float64(opens)*float64(at.Arm), float64(closes)*float64(at.Arm)
		left = min(left, openTorque-float64(at.Opening-l.windMoment), closeTorque-float64(at.Closing-l.windMoment))
		all = min(all, openTorque, closeTorque)
	}
	moves, _ = l.loading.SpeedLimit(units.Torque(left), l.density)
	windOnly, _ = l.loading.SpeedLimit(units.Torque(all), l.density)
	return moves, windOnly
}

// run moves the leaf both ways in still air.
func (s *study) run(l *leafStudy, d catalog.LinearDrive, m linkage.Mounting, factor float64) (opening, closing motion.Result, err error) {
	opens, closes := d.ThrustRetracting, d.ThrustExtending
	if s.side == linkage.Push {
		opens, closes = closes, opens
	}
	var points [2][]motion.Point
	for i, most := range []units.Force{opens, closes} {
		points[i] = lineUpTo(d.Load, most)
	}
	openLine, err := motion.NewLine(points[0])
	if err != nil {
		return opening, closing, err
	}
	closeLine, err := motion.NewLine(points[1])
	if err != nil {
		return opening, closing, err
	}
	slow := motion.SlowZone{Travel: d.SlowDown, Share: d.SlowDownShare}
	return motion.Run(motion.Setup{
		Linkage: m,
		Leaf:    motion.Leaf{Width: l.width, Inertia: l.inertia},
		Open:    s.open,
		Opening: motion.Way{Line: openLine, Moment: l.stillOpening, Slow: slow},
		Closing: motion.Way{Line: closeLine, Moment: l.stillClosing, Slow: slow},
		Ramp:    d.RodAcceleration,
		Supply:  motion.Supply{Voltage: d.Voltage * units.Voltage(factor), SpeedFactor: factor, ThrustFactor: factor},
	})
}

// lineUpTo is a load line that ends at the most thrust of one direction.
func lineUpTo(load []catalog.LoadPoint, most units.Force) []motion.Point {
	out := make([]motion.Point, 0, len(load))
	for i, p := range load {
		if p.Thrust >= most && i > 0 {
			before := load[i-1]
			share := float64((most - before.Thrust) / (p.Thrust - before.Thrust))
			return append(out, motion.Point{
				Thrust:  most,
				Speed:   before.Speed + (p.Speed-before.Speed)*units.Speed(share),
				Current: before.Current + (p.Current-before.Current)*units.Current(share),
			})
		}
		out = append(out, motion.Point{Thrust: p.Thrust, Speed: p.Speed, Current: p.Current})
	}
	return out
}

// stillMoments are the leaf's moments in calm air as the motion model takes
// them.
func (l *leafStudy) stillMoments(m leaf.Motion, open units.Angle) []units.Torque {
	var buffer [samples]float64
	l.resistance.Fill(buffer[:], m, open, 0)
	out := make([]units.Torque, samples)
	for i, v := range buffer {
		out[i] = units.Torque(v)
	}
	return out
}

// staticForces are those with all the drive's thrust against a still leaf: at
// the free edge and half a meter from the hinge axis, highest over the swing.
func (s *study) staticForces(l *leafStudy, p *placement) (edge, half units.Force) {
	most := max(p.problem.Ram.ThrustRetracting, p.problem.Ram.ThrustExtending)
	for at := range p.problem.Curve(p.result.Mounting) {
		torque := float64(most) * float64(at.Arm)
		edge = max(edge, units.Force(torque/float64(l.width)))
		half = max(half, units.Force(torque/0.5))
	}
	return edge, half
}

// curve is the drive over the leaf angle, for the full view.
func (s *study) curve(p *placement) []AnglePoint {
	opens, closes := p.problem.Ram.ThrustRetracting, p.problem.Ram.ThrustExtending
	if s.side == linkage.Push {
		opens, closes = closes, opens
	}
	out := make([]AnglePoint, 0, samples)
	for at := range p.problem.Curve(p.result.Mounting) {
		if at.Arm <= 0 {
			continue
		}
		out = append(out, AnglePoint{
			Angle: at.Angle, Length: at.Length, Arm: at.Arm,
			Opening: units.Force(float64(at.Opening) / float64(at.Arm)), OpeningAvailable: opens,
			Closing: units.Force(float64(at.Closing) / float64(at.Arm)), ClosingAvailable: closes,
		})
	}
	return out
}
