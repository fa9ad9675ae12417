package rules

import (
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/units"
)

// ruleCase has what must produce a finding and what, at its limit exactly or for
// the want of one thing, must not. A finding that is said whenever its rule is
// asked has no near miss.
type ruleCase struct {
	code     finding.Code
	subject  string
	findings []finding.Finding
	nearMiss []finding.Finding
	always   bool
}

var ruleCases = concat(leafCases, bracketCases, postCases, openingCases, closingCases, loadCases, supplyCases, accessCases, answerCases)

func concat(groups ...func() []ruleCase) []ruleCase {
	var out []ruleCase
	for _, group := range groups {
		out = append(out, group()...)
	}
	return out
}

func TestEveryCodeHasACase(t *testing.T) {
	covered := map[finding.Code]bool{}
	for _, c := range ruleCases {
		covered[c.code] = true
	}
	for _, code := range finding.Codes() {
		if !covered[code] {
			t.Errorf("no case produces %s", code)
		}
	}
}

func TestFindings(t *testing.T) {
	for _, c := range ruleCases {
		t.Run(c.code.String(), func(t *testing.T) {
			hits := withCode(c.findings, c.code)
			if len(hits) != 1 {
				t.Fatalf("%d findings of this code, want one, among %v", len(hits), c.findings)
			}
			if hits[0].Subject != c.subject {
				t.Errorf("it concerns %q, want %q", hits[0].Subject, c.subject)
			}
			for _, f := range c.findings {
				checkWhole(t, f)
			}
			if c.always {
				if c.nearMiss != nil {
					t.Error("a finding that is always said has a near miss")
				}
				return
			}
			if got := withCode(c.nearMiss, c.code); len(got) != 0 {
				t.Errorf("the near miss produces it: %+v", got)
			}
			for _, f := range c.nearMiss {
				checkWhole(t, f)
			}
		})
	}
}

// checkWhole holds what every finding must have.
func checkWhole(t *testing.T, f finding.Finding) {
	t.Helper()
	if f.Severity() == 0 {
		t.Errorf("%+v is of no registered code", f)
	}
	if f.Subject == "" {
		t.Errorf("%s concerns nothing", f.Code)
	}
	checkText(t, f.Code, f.Message)
	if f.Severity() != finding.Advice && len(f.Remedies) == 0 {
		t.Errorf("%s weighs more than advice and has no remedy", f.Code)
	}
	for _, r := range f.Remedies {
		checkText(t, f.Code, r.Text)
		if r.Kind < finding.FitPart || r.Kind > finding.Photograph {
			t.Errorf("%s has a remedy of kind %d", f.Code, r.Kind)
		}
		if (r.Kind == finding.FitPart) != (r.SKU != "") {
			t.Errorf("%s has a remedy of kind %d with the part %q", f.Code, r.Kind, r.SKU)
		}
	}
	for _, q := range []units.Opt[finding.Quantity]{f.Measured, f.Limit} {
		if v, known := q.Get(); known && (v.Unit == "" || !units.Finite(v.Value)) {
			t.Errorf("%s gives the quantity %+v", f.Code, v)
		}
	}
}

func checkText(t *testing.T, code finding.Code, text string) {
	t.Helper()
	if len(text) < 10 || strings.Contains(text, "%!") || !strings.ContainsAny(text[len(text)-1:], ".)") {
		t.Errorf("%s says %q", code, text)
	}
}

func withCode(list []finding.Finding, code finding.Code) []finding.Finding {
	var out []finding.Finding
	for _, f := range list {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

func one(f finding.Finding) []finding.Finding { return []finding.Finding{f} }

func length(meters units.Length) units.Opt[units.Length] { return units.Known(meters) }

// Unknown values by short names.
var (
	noLength units.Opt[units.Length]
	noSKU    units.Opt[string]
	noTemp   units.Opt[units.Temperature]
)

// policy has limits that binary fractions hit exactly.
var policy = catalog.Policies{
	LeastMargin: 1.5, MostOutOfPlumb: 0.0625, MostOutOfLevel: 0.0078125,
	LeastGroundClearance: 0.0625, LeastSideClearance: 0.0625, FastestEdge: 0.5,
	PierReviewSetback: 0.25, MostPostDeflection: 0.0078125, LowVehicleClearance: 0.0625,
}

// justOver is past a limit by less than any tolerance would forgive.
const justOver = 1.0000001
