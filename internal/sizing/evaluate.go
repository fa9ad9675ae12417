package sizing

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/motion"
	"leafmoment.example/leafmoment/internal/partslist"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// choice is what a caller fixed of an option.
type choice struct {
	rearBracket string // SKU; empty: chosen here
	mountings   []linkage.Mounting
	curves      bool
}

// evaluation is an option being worked out.
type evaluation struct {
	power       power
	stop        units.Opt[rules.ChosenStop]
	openStop    [2]bool
	lock        *catalog.Item[catalog.Lock] // the strongest any leaf needs: a pair has one
	lockFinding finding.Code
	taken       units.Length // of the driveway's width, by open leaves and drives
	findings    []finding.Finding
}

func (e *evaluation) add(list ...finding.Finding) { e.findings = append(e.findings, list...) }

func (e *evaluation) blocked() bool {
	for _, f := range e.findings {
		if f.Severity() == finding.Blocker {
			return true
		}
	}
	return false
}

// evaluate takes a drive through the models and the rules. A drive that its
// ratings, the temperature or the duty rule out is not mounted.
func (s *study) evaluate(drive catalog.Item[catalog.LinearDrive], fixed choice) (Option, error) {
	d, sku := drive.Spec, drive.Part.SKU
	o := Option{Drive: drive.Part}
	var e evaluation
	for i := range s.leaves {
		l := &s.leaves[i]
		e.add(rules.Rating(i, d.MassRating, d.SolidityRating, l.width, l.body.Mass.High, l.solidity)...)
	}
	site := s.gate.Site
	e.add(rules.Temperature(site.LowestTemperature, site.HighestTemperature, d.LowestTemperature, d.HighestTemperature)...)
	e.add(rules.Duty(s.peakCycles, d.CyclesPerHour)...)
	if e.blocked() && fixed.mountings == nil {
		o.Findings = e.findings
		return o, nil
	}
	if kit, ok := s.catalog.KitFor(sku, len(s.leaves), s.source()); ok {
		o.Kit = kit
	}
	e.power = s.powerFor(d, sku, o.Kit)
	e.add(e.power.findings...)
	if e.power.controller == nil {
		o.Findings = e.findings
		return o, nil
	}
	o.Supply = e.power.figures
	for i := range s.leaves {
		figures, err := s.evaluateLeaf(&s.leaves[i], drive, &e, fixed)
		if err != nil {
			return o, err
		}
		if figures != nil {
			o.Leaves = append(o.Leaves, *figures)
		}
	}
	if len(o.Leaves) < len(s.leaves) {
		o.Findings = e.findings
		return o, nil
	}
	s.judgeWhole(&o, &e, d)
	var err error
	if o.Parts, err = partslist.Build(s.catalog, o.Kit, s.needs(&o, &e)); err != nil {
		return o, err
	}
	if budget, known := s.gate.Wishes.Budget.Get(); known {
		e.add(rules.Budget(o.Parts.Total, budget, s.catalog.Currency)...)
	}
	o.Findings = e.findings
	return o, nil
}

// evaluateLeaf mounts a drive on one leaf and judges it; nil where it finds no
// mounting.
func (s *study) evaluateLeaf(l *leafStudy, drive catalog.Item[catalog.LinearDrive], e *evaluation, fixed choice) (*LeafFigures, error) {
	d := drive.Spec
	b := s.bracketsFor(d.Family, l, fixed.rearBracket)
	if !b.found {
		e.add(rules.NoMounting(l.index, s.open, units.Opt[units.Angle]{}))
		return nil, nil
	}
	measured := units.Opt[linkage.Mounting]{}
	if l.index < len(fixed.mountings) {
		measured = units.Known(fixed.mountings[l.index])
	}
	p, err := s.place(l, d, b, e.power.factor, measured)
	if err != nil {
		return nil, err
	}
	e.add(p.rejection...)
	if !p.placed {
		return nil, nil
	}
	f := s.figuresOf(l, b, &p)
	if fixed.curves {
		f.Curve = s.curve(&p)
	}
	if f.Opening, f.Closing, err = s.run(l, d, f.Mounting, e.power.factor); err != nil {
		return nil, err
	}
	s.judgeLeaf(l, drive, b, &p, &f, e)
	return &f, nil
}

// figuresOf fills in what follows from the mounting alone.
func (s *study) figuresOf(l *leafStudy, b brackets, p *placement) LeafFigures {
	a := &p.result
	f := LeafFigures{
		Leaf: l.index, Mounting: a.Mounting, Stroke: a.Stroke,
		Reserve:     [2]units.Length{a.ReserveClosed, a.ReserveOpen},
		RearBracket: b.rear.Part.SKU, LeafBracket: b.leaf.Part.SKU,
		Tolerances: []Tolerance{
			{"a", a.ToleranceA.Less, a.ToleranceA.More},
			{"b", a.ToleranceB.Less, a.ToleranceB.More},
			{"c", a.ToleranceC.Less, a.ToleranceC.More},
			{"e", a.ToleranceE.Less, a.ToleranceE.More},
		},
		Margin: a.Margin, BoxMargin: a.BoxMargin,
		WorstAngle: a.MarginAngle, WorstOpening: a.MarginMotion == linkage.Opening,
		OperatingWind: l.wind, WindMoment: l.windMoment, LargestAngle: a.Reach,
	}
	for i := range l.stillOpening {
		f.StillMoment = max(f.StillMoment, l.stillOpening[i], l.stillClosing[i])
	}
	s.overSwing(l, p, &f)
	reactions := leaf.Reactions(l.body.Mass.High, l.body.Center, l.hinge.Spacing)
	f.Taken = Taken{
		Mass: l.body.Mass, Solidity: l.solidity, Inertia: l.inertia, Wind: l.loading,
		Friction: l.resistance.Friction(leaf.Opening).Turning, HingeForce: reactions.Horizontal,
	}
	return f
}

// judgeLeaf adds the findings that a mounted drive gives rise to on one leaf.
func (s *study) judgeLeaf(l *leafStudy, drive catalog.Item[catalog.LinearDrive], b brackets, p *placement, f *LeafFigures, e *evaluation) {
	policy := s.catalog.Policies
	d, post := drive.Spec, l.described.Post
	if l.loading.Defined {
		e.add(rules.Margin(l.index, f.BoxMargin, f.WorstAngle.Degrees(), policy.LeastMargin, l.wind, f.MovesUpTo)...)
		var lock *catalog.Item[catalog.Lock]
		f.Hold, lock = s.holdingOf(l, d, f.Mounting, p.openStop)
		held := rules.Hold(l.index, f.Hold.asRule(l.gust, lock))
		e.add(held...)
		if lock != nil && (e.lock == nil || lock.Spec.Holding > e.lock.Spec.Holding) {
			e.lock, e.lockFinding = lock, held[0].Code
		}
	} else if f.BoxMargin < policy.LeastMargin {
		e.add(rules.Margin(l.index, f.BoxMargin, f.WorstAngle.Degrees(), policy.LeastMargin, 0, 0)...)
	}
	if p.openStop {
		e.openStop[l.index] = true
		e.add(rules.OpenStop(l.index, s.groundStop()))
	}
	for _, r := range []struct {
		result  motion.Result
		opening bool
	}{{f.Opening, true}, {f.Closing, false}} {
		if r.result.Outcome != motion.Completed {
			e.add(rules.Stall(l.index, r.result.Angle, r.opening))
		}
	}
	e.add(rules.EdgeSpeed(l.index, max(f.Opening.PeakEdgeSpeed, f.Closing.PeakEdgeSpeed), policy)...)
	e.add(rules.OpeningTime(l.index, f.Opening.Time, s.gate.Opening.WantedTime)...)
	e.add(rules.RearBracket(l.index, post, s.side == linkage.Pull, b.rear.Spec, b.rear.Part.SKU)...)
	height := s.driveHeight(l)
	bracket, rail := rules.Bracket(l.index, l.described, s.gate.Pair(), height, b.leaf.Spec, b.leaf.Part.SKU)
	e.add(bracket...)
	f.Height = rail
	s.judgePost(l, p, rail.Or(height), e)
	s.judgeIntrusion(l, d, f, e)
}

// Heights of the drive over the leaf's bottom edge as a share of the leaf's
// height. Common practice, no source.
const (
	midHeight = 0.5
	lowHeight = 0.25
)

func (s *study) driveHeight(l *leafStudy) units.Length {
	if s.gate.Pair() {
		return l.height * lowHeight
	}
	return l.height * midHeight
}

// judgePost bends the post under the drive's thrust along the closed leaf and
// the leaf's couple at its hinges.
func (s *study) judgePost(l *leafStudy, p *placement, height units.Length, e *evaluation) {
	bar, reason, err := leaf.NewPostBar(l.described.Post)
	if err != nil || reason != "" {
		return
	}
	clearance := l.described.BottomClearance.Or(usualClearance)
	lower := clearance + (l.height-l.hinge.Spacing)/2
	loads := leaf.Reactions(l.body.Mass.High, l.body.Center, l.hinge.Spacing).OnPost(lower, lower+l.hinge.Spacing, 0)
	thrust := max(p.problem.Ram.ThrustExtending, p.problem.Ram.ThrustRetracting)
	at := clearance + height
	bending, err := bar.Bend(append(loads[:], leaf.PostLoad{Height: at, X: thrust}), at)
	if err != nil {
		return // hinges or drive above the post's top: its height says little
	}
	e.add(rules.PostUnderThrust(l.index, bending, s.catalog.Policies)...)
}

// judgeIntrusion works out what the open leaf and its drive take of the
// driveway's width.
func (s *study) judgeIntrusion(l *leafStudy, d catalog.LinearDrive, f *LeafFigures, e *evaluation) {
	m := f.Mounting
	rx, ry := m.RearPivot()
	fx, fy := m.FrontPivot(0)
	body := room.DriveBody{
		Rear: room.Point{X: rx, Y: ry}, Front: room.Point{X: fx, Y: fy},
		Overhang: d.Overhang, HousingLength: d.HousingLength, HousingRadius: d.HousingRadius, RodRadius: d.RodRadius,
	}
	over, err := body.IntoDriveway(s.open, s.open, s.jamb)
	if err != nil {
		return
	}
	if s.side == linkage.Push {
		e.add(rules.InDriveway(l.index, over, over.Open+s.jamb)...)
	}
	e.taken += max(l.openExtent(s.open), over.Open+s.jamb, 0)
}

// openExtent is how far the open leaf itself reaches into the opening from its
// hinge axis.
func (l *leafStudy) openExtent(open units.Angle) units.Length {
	near, far := l.offset-l.thickness/2, l.offset+l.thickness/2
	return max(0, extent(l.width, near, open), extent(l.width, far, open), extent(0, near, open), extent(0, far, open))
}

// judgeWhole adds the findings that concern the option as a whole.
func (s *study) judgeWhole(o *Option, e *evaluation, d catalog.LinearDrive) {
	e.add(rules.ClearWidth(s.gate, e.taken)...)
	if d.End == catalog.EndByCurrent && s.gate.Closing.StopPresent != gate.Yes {
		e.stop = s.closedStop(o.Kit)
	}
	e.add(rules.Stop(s.gate, d.End, e.stop, s.catalog.Policies)...)
	e.add(rules.PairOrder(s.gate, e.power.controller.Spec.DelaysSecondLeaf)...)
	if o.Kit != nil {
		brought := 0
		for _, r := range s.catalog.Remotes() {
			brought += o.Kit.Quantity(r.Part.SKU)
		}
		e.add(rules.Remotes(s.gate.Access.Remotes, brought, s.remoteSKU(o.Kit))...)
	}
	e.add(rules.Release(o.Drive.SKU, d.ManualRelease)...)
}
