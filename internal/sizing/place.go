package sizing

import (
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// placement is a drive mounted on one leaf.
type placement struct {
	problem   linkage.Problem
	demand    *demand
	result    linkage.Assessment
	openStop  bool // a stop must set the open position
	placed    bool
	rejection []finding.Finding
}

// place finds the mounting of a drive on a leaf, or judges the one measured.
// Where the drive senses its ends by current, its own end sets the open
// position if any mounting lets it with the margin the supplier asks for; else a
// stop has to, where that leaves more.
func (s *study) place(l *leafStudy, d catalog.LinearDrive, b brackets, factor float64, measured units.Opt[linkage.Mounting]) (placement, error) {
	if m, known := measured.Get(); known {
		return s.judgeMeasured(l, d, b, factor, m)
	}
	var p placement
	// A wanted time that no mounting keeps is a finding, not a reason to find none.
	for _, inTime := range []bool{true, false} {
		if !inTime && !s.gate.Opening.WantedTime.IsKnown() {
			break
		}
		for _, byRamEnd := range []bool{true, false} {
			if byRamEnd && d.End != catalog.EndByCurrent {
				continue
			}
			next, err := s.solve(l, d, b, factor, byRamEnd, inTime)
			if err != nil {
				return next, err
			}
			next.openStop = next.placed && !byRamEnd && d.End == catalog.EndByCurrent
			if !p.placed || next.placed && next.result.BoxMargin > p.result.BoxMargin {
				p = next
			}
			if p.placed && p.result.BoxMargin >= s.catalog.Policies.LeastMargin {
				return p, nil
			}
		}
		if p.placed {
			return p, nil
		}
	}
	var err error
	p.rejection, err = s.whyNot(l, &p.problem, b)
	return p, err
}

func (s *study) solve(l *leafStudy, d catalog.LinearDrive, b brackets, factor float64, byRamEnd, inTime bool) (placement, error) {
	p := s.problem(l, d, b, factor, byRamEnd)
	if !inTime {
		p.problem.MaxStroke = units.Opt[units.Length]{}
	}
	solution, err := p.problem.Solve()
	if err != nil {
		return p, err
	}
	p.placed = solution.Feasible
	p.result = solution.Assessment
	return p, nil
}

// problem sets up the search for a drive on a leaf.
func (s *study) problem(l *leafStudy, d catalog.LinearDrive, b brackets, factor float64, byRamEnd bool) placement {
	policy := s.catalog.Policies
	out := placement{demand: &l.byStop}
	if byRamEnd {
		out.demand = &l.byRam
	}
	farthest := min(l.width-bracketEdge, d.Longest)
	out.problem = linkage.Problem{
		Side: s.side,
		A:    b.a, B: b.b, E: b.standoff,
		C:            linkage.Interval{Low: leastFront, High: max(leastFront, farthest.RoundedMillimeters())},
		Open:         s.open,
		Swing:        out.demand.swing,
		OpenByRamEnd: byRamEnd,
		Ram: linkage.Ram{
			Shortest: d.Shortest, Longest: d.Longest,
			ThrustExtending:  d.ThrustExtending * units.Force(factor),
			ThrustRetracting: d.ThrustRetracting * units.Force(factor),
			RearSweepMax:     d.RearSweep, FrontSweepMax: d.FrontSweep,
		},
		Demand: linkage.Demand{
			Opening: out.demand.opening, Closing: out.demand.closing, Inertia: l.inertia,
			RodSpeed: d.Load[0].Speed * units.Speed(factor), RodAcceleration: d.RodAcceleration,
		},
		ReserveClosed: policy.TravelReserve, ReserveOpen: policy.TravelReserve,
		MinArm: policy.LeastArm, Box: policy.MountingTolerance,
	}
	if wish, known := s.gate.Opening.WantedTime.Get(); known {
		out.problem.MaxStroke = strokeWithin(wish, d, factor)
	}
	return out
}

// Where the leaf bracket may sit along the leaf. Common practice, no source.
const (
	leastFront               = 150  // mm from the hinge axis
	bracketEdge units.Length = 0.05 // from the free edge
)

// strokeWithin is the rod travel a drive makes in a time: at its no-load speed,
// less what its ramps and its slow zone cost. It is unknown, no limit, where the
// time is over before the drive is up to speed; the finding then says so.
func strokeWithin(t units.Time, d catalog.LinearDrive, factor float64) units.Opt[units.Length] {
	v := float64(d.Load[0].Speed) * factor
	ramps := v / float64(d.RodAcceleration)
	slow := float64(d.SlowDown) / v * (1/d.SlowDownShare - 1)
	left := float64(t) - ramps - slow
	if left <= 0 {
		return units.Opt[units.Length]{}
	}
	return units.Known(units.Length(left * v))
}

// whyNot explains that no mounting holds every limit.
func (s *study) whyNot(l *leafStudy, p *linkage.Problem, b brackets) ([]finding.Finding, error) {
	p.MaxStroke = units.Opt[units.Length]{}
	largest, err := p.LargestAngle()
	if err != nil {
		return nil, err
	}
	reached := units.Opt[units.Angle]{}
	if largest > 0 {
		reached = units.Known(largest)
	}
	out := []finding.Finding{rules.NoMounting(l.index, s.open, reached)}
	shape := l.described.Post.Shape
	if shape == gate.PostPier || shape == gate.PostWall {
		out = append(out, rules.PierBlocks(l.index, l.seat.plane, s.planeThatFits(p, b, l)))
	}
	return out, nil
}

// planeThatFits is the largest distance of the bracket's plane from the hinge
// axis at which the drive would have a mounting, to 10 mm; unknown where none
// does.
func (s *study) planeThatFits(p *linkage.Problem, b brackets, l *leafStudy) units.Opt[units.Length] {
	trial := *p
	trial.B = make([]linkage.Interval, len(b.b))
	for shift := 10; shift <= 600; shift += 10 {
		fits := true
		for i, r := range b.b {
			trial.B[i] = linkage.Interval{Low: max(r.Low-shift, leastOffset), High: r.High - shift}
			fits = fits && trial.B[i].Low <= trial.B[i].High
		}
		if !fits {
			break
		}
		if opens, err := trial.Opens(); err == nil && opens {
			return units.Known(l.seat.plane - units.Millimeters(shift))
		}
	}
	return units.Opt[units.Length]{}
}

// judgeMeasured judges the mounting somebody measured; every limit it breaks is
// a finding.
func (s *study) judgeMeasured(l *leafStudy, d catalog.LinearDrive, b brackets, factor float64, m linkage.Mounting) (placement, error) {
	byRamEnd := d.End == catalog.EndByCurrent
	p := s.problem(l, d, b, factor, byRamEnd)
	p.problem.MaxStroke = units.Opt[units.Length]{}
	p.problem.E = m.E.RoundedMillimeters()
	var err error
	if p.result, err = p.problem.At(m); err != nil {
		return p, err
	}
	if byRamEnd && p.result.Broken.Has(linkage.LimitRamEndEarly|linkage.LimitRamEndLate|linkage.LimitOpenTravel) {
		q := s.problem(l, d, b, factor, false)
		q.problem.MaxStroke, q.problem.E = units.Opt[units.Length]{}, p.problem.E
		if q.result, err = q.problem.At(m); err != nil {
			return p, err
		}
		if q.result.Broken == 0 {
			q.openStop = true
			p = q
		}
	}
	p.placed = true
	p.rejection = s.brokenLimits(l, d, &p.result)
	if p.result.Margin <= 0 {
		p.placed = false
	}
	return p, nil
}

func (s *study) brokenLimits(l *leafStudy, d catalog.LinearDrive, a *linkage.Assessment) []finding.Finding {
	var out []finding.Finding
	add := func(message string, value, limit float64, unit, advice string) {
		out = append(out, rules.BrokenLimit(l.index, message, value, limit, unit, advice))
	}
	policy := s.catalog.Policies
	broken := a.Broken
	if broken.Has(linkage.LimitClosedTravel) {
		add("The drive doesn't reach the closed leaf with the travel it should keep in hand.",
			a.ReserveClosed.Millimeters(), policy.TravelReserve.Millimeters(), "mm", "Move the leaf bracket along the leaf, or the rear bracket along the post.")
	}
	if broken.Has(linkage.LimitOpenTravel | linkage.LimitRamEndEarly) {
		add("The drive's travel ends before the leaf is open.",
			math.Floor(a.Reach.Degrees()), s.open.Degrees(), "deg", "Bring the rear pin nearer to the hinge axis, or open less far.")
	}
	if broken.Has(linkage.LimitRamEndLate) {
		add("The drive's own end comes later than the supplier allows past the wanted angle.",
			a.Reach.Degrees(), (s.open + policy.MostOverOpen).Degrees(), "deg", "Fit a stop where the leaf is to rest open, or move the rear pin away from the hinge axis.")
	}
	if broken.Has(linkage.LimitArm) {
		add("The drive's moment arm gets too small on the way.",
			a.LeastArm.Millimeters(), policy.LeastArm.Millimeters(), "mm", "Move the rear pin away from the hinge axis.")
	}
	if limit, known := d.RearSweep.Get(); known && broken.Has(linkage.LimitRearSweep) {
		add("The rear pin turns further than the drive allows.", a.RearSweep.Degrees(), limit.Degrees(), "deg", "Move the leaf bracket away from the hinge axis.")
	}
	if limit, known := d.FrontSweep.Get(); known && broken.Has(linkage.LimitFrontSweep) {
		add("The front pin turns further than the drive allows.", a.FrontSweep.Degrees(), limit.Degrees(), "deg", "Move the rear pin nearer to the hinge axis.")
	}
	return out
}
