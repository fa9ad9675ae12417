package linkage

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Motion is the way the leaf turns.
type Motion uint8

// The two motions.
const (
	Opening Motion = iota
	Closing
)

// Assessment says what a mounting does, over the swing of the problem, with the
// dimensions as drawn unless it says over the box.
type Assessment struct {
	Mounting Mounting

	// Margin is the smallest of thrust x arm / resisting moment over the swing
	// and both motions; 0 where the arm is lost within the swing, at the dead point.
	Margin       float64
	MarginAngle  units.Angle
	MarginMotion Motion
	// BoxMargin is the smallest such margin over the mounting and the 16 corners
	// of its box.
	BoxMargin float64

	Broken    Limits // as drawn
	BoxBroken Limits // somewhere in the box
	Binding   Limits // with less than 1 mm to spare somewhere in the box

	LeastArm units.Length
	Stroke   units.Length // between closed and open
	// ReserveClosed and ReserveOpen are the ram travel left at each end; negative
	// is what it falls short by. The ram's own end as open position leaves none.
	ReserveClosed, ReserveOpen units.Length

	// ClosesTo is the least leaf angle the ram's travel allows: 0 where the leaf
	// closes.
	ClosesTo units.Angle
	// Reach is the largest leaf angle before a limit of ram or arm is met, and
	// ReachLimit that limit. Where a stop or switch ends the opening the reserve is
	// kept; where the ram's end does, this is where the leaf comes to rest.
	Reach      units.Angle
	ReachLimit Limits
	// ReachLow and ReachHigh are where the ram's travel ends over the box; Reach
	// itself unless the ram's end sets the open position.
	ReachLow, ReachHigh   units.Angle
	DeadPoint             units.Angle
	RearSweep, FrontSweep units.Angle

	// ToleranceA and so on are how far that dimension alone may be off.
	ToleranceA, ToleranceB, ToleranceC, ToleranceE Tolerance
}

// binding is the slack below which a limit binds, m: one step of the lattice
// could break it.
const binding = 0.001

// At assesses a mounting somebody drew up or measured. The ranges of the problem
// don't bear on it.
func (p *Problem) At(m Mounting) (Assessment, error) {
	if err := p.Check(); err != nil {
		return Assessment{}, err
	}
	if err := p.checkMounting(m); err != nil {
		return Assessment{}, err
	}
	q := p.prepare()
	j := q.judge(float64(m.A), float64(m.B), float64(m.C), float64(m.E), boxPoints[:])
	return q.assess(m, &j), nil
}

func (p *Problem) checkMounting(m Mounting) error {
	var f faults
	if m.Side != p.Side {
		f.add("mounting of side %d for a problem of side %d", m.Side, p.Side)
	}
	const longest = longestDimension / 1000.0
	f.within("a (m)", float64(m.A), -longest, longest)
	f.within("b (m)", float64(m.B), -longest, longest)
	f.within("c (m)", float64(m.C), -longest, longest)
	f.within("e (m)", float64(m.E), -longest, longest)
	if err := errors.Join(f.list...); err != nil {
		return err
	}
	if t := m.triangle(); t.rear2 == 0 || t.front2 == 0 {
		return fmt.Errorf("linkage: a pivot on the hinge axis")
	}
	return nil
}

func (q *prepared) assess(m Mounting, box *judgement) Assessment {
	drawn := q.judge(float64(m.A), float64(m.B), float64(m.C), float64(m.E), boxPoints[:1])
	t := m.triangle()
	open := q.p.Open
	out := Assessment{
		Mounting:    m,
		Margin:      drawn.margin.value,
		MarginAngle: q.p.Swing.Angle(drawn.margin.sample),
		BoxMargin:   box.margin.value,
		Broken:      q.within(&drawn, exactFit),
		BoxBroken:   q.within(box, exactFit),
		Binding:     q.within(box, binding),
		DeadPoint:   m.DeadPoint(),
		RearSweep:   m.RearSweep(open),
		FrontSweep:  m.FrontSweep(open),
	}
	out.MarginMotion = q.harderMotion(&t, drawn.margin.sample)
	if out.Margin == 0 {
		out.MarginAngle = min(max(out.DeadPoint, 0), q.p.Swing.End())
	}
	q.assessTravel(&out, &t)
	q.assessReach(&out, m)
	q.assessTolerance(&out, m)
	return out
}

// harderMotion is the motion with the smaller margin at a sample.
func (q *prepared) harderMotion(t *triangle, sample int) Motion {
	_, r, slope := t.at(q.p.Swing.cos[sample], q.p.Swing.sin[sample])
	if r > 0 && q.closing.use(sample, 1/r, slope) > q.opening.use(sample, 1/r, slope) {
		return Closing
	}
	return Opening
}

func (q *prepared) assessTravel(out *Assessment, t *triangle) {
	closed, first := t.lengthAndArm(1, 0)
	open, last := t.lengthAndArm(q.openCos, q.openSin)
	out.LeastArm = units.Length(min(first, last))
	shortest, longest := float64(q.p.Ram.Shortest), float64(q.p.Ram.Longest)
	if q.sigma < 0 {
		out.ReserveClosed, out.ReserveOpen = units.Length(closed-shortest), units.Length(longest-open)
	} else {
		out.ReserveClosed, out.ReserveOpen = units.Length(longest-closed), units.Length(open-shortest)
	}
	if q.p.OpenByRamEnd {
		open, out.ReserveOpen = q.openLimit, min(out.ReserveOpen, 0)
	}
	out.Stroke = units.Length(math.Abs(closed - open))
}
