package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one thing that is wrong with a catalog.
type Problem struct {
	Subject string // SKU of the part or kit, PoliciesSubject for a policy, empty for the catalog as a whole
	Text    string
}

// PoliciesSubject is the subject of problems with the policies.
const PoliciesSubject = "policies"

func (p Problem) String() string {
	if p.Subject == "" {
		return p.Text
	}
	return p.Subject + ": " + p.Text
}

// Problems is everything that is wrong with a catalog, by subject.
type Problems []Problem

func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, problem := range p {
		lines[i] = problem.String()
	}
	return strings.Join(lines, "\n")
}

func (p *Problems) add(subject, format string, args ...any) {
	*p = append(*p, Problem{subject, fmt.Sprintf(format, args...)})
}

// sort puts problems in an order that doesn't hang on the document's.
func (p Problems) sort() {
	slices.SortFunc(p, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Subject, b.Subject), cmp.Compare(a.Text, b.Text))
	})
}
