// Package finding holds what an answer says about a gate besides its numbers:
// one finding is one reason, with a stable code, how much it weighs, what it
// concerns, what was measured against which limit, and what would change it.
package finding

import (
	"cmp"
	"slices"

	"leafmoment.example/leafmoment/internal/units"
)

// Severity is how much a finding weighs. A higher value weighs more.
type Severity uint8

// The severities, from light to heavy.
const (
	Advice    Severity = iota + 1 // worth knowing
	Caution                       // about safety or care on site; changes no verdict
	Condition                     // suitable once the named part or work is there
	Review                        // can't be decided from here; a person must look
	Blocker                       // won't work as described
)

// Finding is one reason.
type Finding struct {
	Code     Code
	Subject  string // the field or part it concerns, as a path in the request or an SKU
	Message  string
	Measured units.Opt[Quantity]
	Limit    units.Opt[Quantity]
	Remedies []Remedy
}

// Severity is the severity registered for the finding's code.
func (f Finding) Severity() Severity { return f.Code.Severity() }

// Quantity is a number for people, in the unit beside it.
type Quantity struct {
	Value float64
	Unit  string
}

// Remedy is one thing that would settle or change a finding.
type Remedy struct {
	Kind RemedyKind
	Text string
	SKU  string // the part that does it, where the catalog sells one
}

// RemedyKind says what a remedy asks for.
type RemedyKind uint8

// The kinds of remedy.
const (
	FitPart    RemedyKind = iota + 1 // add the part
	DoWork                           // have the work done
	ChangeWish                       // describe or want something else
	Measure                          // measure and say
	Photograph                       // send a picture
)

// Verdict is what all findings together come to.
type Verdict uint8

// The verdicts, from good to bad.
const (
	Suitable Verdict = iota + 1
	SuitableWithConditions
	AdviserReview
	Unsuitable
)

// Judge returns the verdict that follows from the severities alone: any
// blocker, unsuitable; else any review, adviser review; else any condition,
// suitable with conditions; else suitable.
func Judge(lists ...[]Finding) Verdict {
	verdict := Suitable
	for _, list := range lists {
		for _, f := range list {
			switch f.Severity() {
			case Blocker:
				return Unsuitable
			case Review:
				verdict = AdviserReview
			case Condition:
				verdict = max(verdict, SuitableWithConditions)
			}
		}
	}
	return verdict
}

// Sort puts findings in the order of an answer: heaviest first, then by code,
// subject and message. Findings alike in all four keep the order they were found
// in, which follows from the request alone.
func Sort(list []Finding) {
	slices.SortStableFunc(list, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(b.Severity(), a.Severity()),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Subject, b.Subject),
			cmp.Compare(a.Message, b.Message),
		)
	})
}
