package rules

import (
	"leafmoment.example/leafmoment/internal/finding"
)

// NotEvaluated says that something was described which isn't evaluated yet, so
// a person must look at it.
func NotEvaluated(field, what string) finding.Finding {
	f := found(finding.FieldNotEvaluated, field, "%s isn't evaluated by this version of the service.", what)
	return remedy(f, finding.Photograph, "Show it to an adviser, with pictures.")
}

// WithoutEffect says that something described has no bearing on this answer.
func WithoutEffect(field, why string) finding.Finding {
	return found(finding.FieldWithoutEffect, field, why)
}

// UnknownFields says that the request held fields that were not read.
func UnknownFields() finding.Finding {
	f := found(finding.UnknownFieldsIgnored, "gate", "The request held fields this version of the service doesn't know; what they describe was not considered.")
	return remedy(f, finding.ChangeWish, "Ask a newer service, or leave those fields out.")
}

// Budget compares a parts list's total with what the customer would spend.
func Budget(total, budget int64, currency string) []finding.Finding {
	if total <= budget {
		return nil
	}
	f := measured(found(finding.OverBudget, "gate.wishes.budget_minor", "The parts come to more than the customer wants to spend."), float64(total), float64(budget), "minor "+currency)
	return []finding.Finding{f}
}

// NoDriveSuits says that no drive in the catalog suits.
func NoDriveSuits() finding.Finding {
	f := found(finding.NoDriveSuits, "gate", "No drive in the catalog suits this gate as described; each rejected drive says why.")
	return remedy(f, finding.ChangeWish, "See what each rejected drive would need, and change the gate or the wishes.")
}
