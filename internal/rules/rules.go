// Package rules turns what was described and what was worked out into
// findings. Each function covers one row of questions an adviser asks; none
// decides a verdict, which follows from the findings' severities alone.
package rules

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/units"
)

// found starts a finding.
func found(code finding.Code, subject, message string, args ...any) finding.Finding {
	if len(args) > 0 {
		message = fmt.Sprintf(message, args...)
	}
	return finding.Finding{Code: code, Subject: subject, Message: message}
}

func measured(f finding.Finding, value, limit float64, unit string) finding.Finding {
	f.Measured = units.Known(finding.Quantity{Value: value, Unit: unit})
	f.Limit = units.Known(finding.Quantity{Value: limit, Unit: unit})
	return f
}

func measuredOnly(f finding.Finding, value float64, unit string) finding.Finding {
	f.Measured = units.Known(finding.Quantity{Value: value, Unit: unit})
	return f
}

func remedy(f finding.Finding, kind finding.RemedyKind, text string, args ...any) finding.Finding {
	if len(args) > 0 {
		text = fmt.Sprintf(text, args...)
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Kind: kind, Text: text})
	return f
}

func remedyPart(f finding.Finding, sku, text string, args ...any) finding.Finding {
	if len(args) > 0 {
		text = fmt.Sprintf(text, args...)
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Kind: finding.FitPart, Text: text, SKU: sku})
	return f
}

// LeafPath is the path of a leaf's field in the request.
func LeafPath(leaf int, field string) string {
	if leaf == 0 {
		return "gate.leaves[0]." + field
	}
	return "gate.leaves[1]." + field
}
