package sizing

import (
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/motion"
	"leafmoment.example/leafmoment/internal/units"
)

// overSwing fills in what the drive's thrust comes to over the swing.
//
// The winds in which it is just used up, with everything else that resists and
// if wind were all, smallest over angles and both motions:
//
//	V^2 = 2 (T r - M)/(rho k)
//
// T the thrust (N), r the arm (m), M the moment without wind (N m), rho the
// air's density, k the leaf's moment per pascal (m3). And the static forces of
// all the thrust against a still leaf, T r over the distance from the hinge
// axis, largest over the angles.
func (s *study) overSwing(l *leafStudy, p *placement, f *LeafFigures) {
	opens, closes := s.thrusts(p.problem.Ram)
	left, all, most := math.Inf(1), math.Inf(1), 0.0
	for at := range p.problem.Curve(p.result.Mounting) {
		openTorque, closeTorque := float64(opens)*float64(at.Arm), float64(closes)*float64(at.Arm)
		left = min(left, openTorque-float64(at.Opening-l.windMoment), closeTorque-float64(at.Closing-l.windMoment))
		all = min(all, openTorque, closeTorque)
		most = max(most, openTorque, closeTorque)
	}
	f.MovesUpTo, _ = l.loading.SpeedLimit(units.Torque(left), l.density)
	f.WindOnlyLimit, _ = l.loading.SpeedLimit(units.Torque(all), l.density)
	f.EdgeForce = units.Force(most / float64(l.width))
	f.ForceAtHalfMeter = units.Force(most / 0.5)
}

// thrusts are a ram's opening and its closing thrust.
func (s *study) thrusts(r linkage.Ram) (opens, closes units.Force) {
	if s.side == linkage.Push {
		return r.ThrustExtending, r.ThrustRetracting
	}
	return r.ThrustRetracting, r.ThrustExtending
}

// run moves the leaf both ways in still air.
func (s *study) run(l *leafStudy, d catalog.LinearDrive, m linkage.Mounting, factor float64) (opening, closing motion.Result, err error) {
	opens, closes := s.thrusts(linkage.Ram{ThrustExtending: d.ThrustExtending, ThrustRetracting: d.ThrustRetracting})
	openLine, err := motion.NewLine(lineUpTo(d.Load, opens))
	if err != nil {
		return opening, closing, err
	}
	closeLine := openLine
	if closes != opens {
		if closeLine, err = motion.NewLine(lineUpTo(d.Load, closes)); err != nil {
			return opening, closing, err
		}
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

// curve is the drive over the leaf angle, for the full view.
func (s *study) curve(p *placement) []AnglePoint {
	opens, closes := s.thrusts(p.problem.Ram)
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
