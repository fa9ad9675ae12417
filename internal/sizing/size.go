package sizing

import (
	"cmp"
	"math"
	"slices"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// Size tries every linear drive of the catalog on the gate. With curves, each
// option carries its figures over the leaf angle. It returns a *BadGateError
// where the gate can't be sized as described.
func Size(c *catalog.Catalog, g gate.Gate, curves bool) (Answer, error) {
	s, err := newStudy(c, g)
	if err != nil {
		return Answer{}, err
	}
	s.judgeGate()
	a := Answer{}
	for _, drive := range c.LinearDrives() {
		o, err := s.evaluate(drive, choice{curves: curves})
		if err != nil {
			return Answer{}, err
		}
		if finding.Judge(o.Findings) == finding.Unsuitable {
			finding.Sort(o.Findings)
			a.Rejected = append(a.Rejected, Rejection{o.Drive, o.Findings})
			continue
		}
		s.conclude(&o)
		a.Options = append(a.Options, o)
	}
	switch {
	case len(a.Options) == 0 && s.measuringMayHelp(a.Rejected):
		a.Verdict = finding.Judge(s.findings)
	case len(a.Options) == 0:
		s.findings = append(s.findings, rules.NoDriveSuits())
		a.Verdict = finding.Unsuitable
	default:
		rank(a.Options, g.Wishes.RankBy)
		a.Verdict = a.Options[0].Verdict
	}
	slices.SortStableFunc(a.Rejected, func(x, y Rejection) int { return cmp.Compare(x.Drive.SKU, y.Drive.SKU) })
	finding.Sort(s.findings)
	a.Findings, a.Assumptions = s.findings, s.assumed
	return a, nil
}

// measuringMayHelp reports whether a pier goes to review and some drive is out
// for want of a mounting on it alone: then nobody can say yet that none suits.
func (s *study) measuringMayHelp(rejected []Rejection) bool {
	review := false
	for _, f := range s.findings {
		review = review || f.Code == finding.PierNeedsReview
	}
	return review && slices.ContainsFunc(rejected, func(r Rejection) bool {
		return !slices.ContainsFunc(r.Findings, func(f finding.Finding) bool {
			switch f.Code {
			case finding.AngleOutOfReach, finding.MountingOutOfReach, finding.PierBlocksDrive:
				return false
			}
			return f.Severity() == finding.Blocker
		})
	})
}

// UnknownPartError is a SKU that can't be what the request names it as.
type UnknownPartError struct{ Field, SKU, Why string }

func (e *UnknownPartError) Error() string { return e.Field + ": " + e.SKU + " " + e.Why }

// Configuration is one drive, and what was chosen or measured with it.
type Configuration struct {
	Drive       string
	RearBracket string             // empty: chosen
	Mountings   []linkage.Mounting // one per leaf, or none; their side is set from the gate
}

// Check judges one configuration. Its answer has one option, blockers and all.
// It returns a *BadGateError, or an *UnknownPartError for a SKU the catalog
// doesn't have or that isn't what it is named as.
func Check(c *catalog.Catalog, g gate.Gate, k Configuration, curves bool) (Answer, error) {
	drive, err := linearDrive(c, "configuration.drive_sku", k.Drive)
	if err != nil {
		return Answer{}, err
	}
	if k.RearBracket != "" {
		part, ok := c.Part(k.RearBracket)
		if !ok {
			return Answer{}, &UnknownPartError{"configuration.rear_bracket_sku", k.RearBracket, "is not in the catalog"}
		}
		bracket, ok := part.Spec.(catalog.RearBracket)
		switch {
		case !ok:
			return Answer{}, &UnknownPartError{"configuration.rear_bracket_sku", k.RearBracket, "is not a rear bracket"}
		case !contains(bracket.Families, drive.Spec.Family):
			return Answer{}, &UnknownPartError{"configuration.rear_bracket_sku", k.RearBracket, "doesn't take this drive"}
		}
	}
	s, err := newStudy(c, g)
	if err != nil {
		return Answer{}, err
	}
	if n := len(k.Mountings); n > 0 && n != len(s.leaves) {
		return Answer{}, &BadGateError{[]gate.Fault{{Field: "configuration.mountings", Reason: gate.Contradiction, Text: "as many mountings as leaves are needed, or none"}}}
	}
	k.Mountings = slices.Clone(k.Mountings)
	for i := range k.Mountings {
		k.Mountings[i].Side = s.side
	}
	s.judgeGate()
	o, err := s.evaluate(drive, choice{rearBracket: k.RearBracket, mountings: k.Mountings, curves: curves})
	if err != nil {
		return Answer{}, err
	}
	s.conclude(&o)
	finding.Sort(s.findings)
	return Answer{Verdict: o.Verdict, Findings: s.findings, Options: []Option{o}, Assumptions: s.assumed}, nil
}

func linearDrive(c *catalog.Catalog, field, sku string) (catalog.Item[catalog.LinearDrive], error) {
	part, ok := c.Part(sku)
	if !ok {
		return catalog.Item[catalog.LinearDrive]{}, &UnknownPartError{field, sku, "is not in the catalog"}
	}
	spec, ok := part.Spec.(catalog.LinearDrive)
	switch {
	case !ok:
		return catalog.Item[catalog.LinearDrive]{}, &UnknownPartError{field, sku, "is not a linear drive"}
	case part.Withdrawn && part.ReplacedBy != "":
		return catalog.Item[catalog.LinearDrive]{}, &UnknownPartError{field, sku, "is withdrawn; take " + part.ReplacedBy}
	case part.Withdrawn:
		return catalog.Item[catalog.LinearDrive]{}, &UnknownPartError{field, sku, "is withdrawn"}
	}
	return catalog.Item[catalog.LinearDrive]{Part: part, Spec: spec}, nil
}

// judgeGate adds the findings that hold whichever drive is chosen.
func (s *study) judgeGate() {
	p := s.catalog.Policies
	for i := range s.leaves {
		l := &s.leaves[i]
		s.findings = append(s.findings, rules.Leaf(i, l.described, l.body, p)...)
		s.findings = append(s.findings, rules.Post(i, l.described.Post, s.side == linkage.Pull, p)...)
		if !l.loading.Defined {
			s.findings = append(s.findings, rules.WindRule(i, l.loading.WhyNot))
		}
	}
	s.findings = append(s.findings, rules.DriveOutside(s.gate)...)
	s.findings = append(s.findings, rules.Crossing(s.gate, s.crossing(), s.cover())...)
	sold := make([]units.Opt[string], len(s.gate.Access.Devices))
	for i, w := range s.gate.Access.Devices {
		sold[i] = s.deviceFor(w)
	}
	s.findings = append(s.findings, rules.Devices(s.gate, sold)...)
	s.findings = append(s.findings, rules.Use(s.gate.Use)...)
	s.findings = append(s.findings, rules.SupplyWork(s.source())...)
	s.findings = append(s.findings, rules.Safety(s.sign())...)
	s.findings = append(s.findings, givenButUnused(s.gate)...)
}

func (s *study) source() gate.PowerSource {
	if s.gate.Power.Source == gate.SourceSolar {
		return gate.SourceSolar
	}
	return gate.SourceMains
}

func (s *study) conclude(o *Option) {
	finding.Sort(o.Findings)
	o.Verdict = finding.Judge(s.findings, o.Findings)
}

// Margin is the least over the option's leaves, with building tolerance.
func (o *Option) Margin() float64 {
	least := math.Inf(1)
	for i := range o.Leaves {
		least = min(least, o.Leaves[i].BoxMargin)
	}
	return least
}

// Time is the longest opening over the option's leaves.
func (o *Option) Time() units.Time {
	var longest units.Time
	for i := range o.Leaves {
		longest = max(longest, o.Leaves[i].Opening.Time)
	}
	return longest
}

// rank orders options by verdict, then by the wish, then by price and SKU, so
// that equal requests give equal orders.
func rank(options []Option, by gate.RankBy) {
	slices.SortStableFunc(options, func(a, b Option) int {
		wish := 0
		switch by {
		case gate.RankByMargin:
			wish = cmp.Compare(b.Margin(), a.Margin())
		case gate.RankByTime:
			wish = cmp.Compare(a.Time(), b.Time())
		}
		return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), wish, cmp.Compare(a.Parts.Total, b.Parts.Total), cmp.Compare(a.Drive.SKU, b.Drive.SKU))
	})
}

// extent is how far a point of a leaf, along and across it, stands from the
// hinge axis towards the free edge of the closed leaf.
func extent(along, across units.Length, theta units.Angle) units.Length {
	sin, cos := math.Sincos(float64(theta))
	return along*units.Length(cos) - across*units.Length(sin)
}
