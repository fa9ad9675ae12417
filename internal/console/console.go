// Package console writes answers as text for people at a terminal.
package console

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"golang.org/x/text/currency"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
)

// page collects text and remembers the first error in writing it.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// table writes rows of columns that line up, indented by two.
func (p *page) table(rows [][]string) {
	if p.err != nil {
		return
	}
	t := tabwriter.NewWriter(p.w, 0, 0, 2, ' ', 0)
	for _, r := range rows {
		fmt.Fprintln(t, "  "+strings.Join(r, "\t"))
	}
	p.err = t.Flush()
}

// word makes an enum value readable: VERDICT_UNSUITABLE is "unsuitable".
func word(name, prefix string) string {
	return strings.ToLower(strings.ReplaceAll(strings.TrimPrefix(name, prefix), "_", " "))
}

func verdict(v pb.Verdict) string { return word(v.String(), "VERDICT_") }

// findings writes each finding with what was measured and what would settle it,
// heaviest first as they come.
func (p *page) findings(title string, list []*pb.Finding) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("%s", title)
	for _, f := range list {
		p.line("  %-9s %s%s", word(f.GetSeverity().String(), "SEVERITY_"), f.GetMessage(), measure(f))
		for _, r := range f.GetRemedies() {
			sku := ""
			if r.GetSku() != "" {
				sku = " [" + r.GetSku() + "]"
			}
			p.line("            - %s%s", r.GetText(), sku)
		}
	}
}

func measure(f *pb.Finding) string {
	m, l := f.GetMeasured(), f.GetLimit()
	unit := m.GetUnit()
	if unit == "1" {
		unit = ""
	} else {
		unit = " " + unit
	}
	switch {
	case m != nil && l != nil:
		return fmt.Sprintf(" (%.4g%s against %.4g%s)", m.GetValue(), unit, l.GetValue(), unit)
	case m != nil:
		return fmt.Sprintf(" (%.4g%s)", m.GetValue(), unit)
	}
	return ""
}

func (p *page) assumptions(list []*pb.Assumption) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("Assumed, since it wasn't said")
	var rows [][]string
	for _, a := range list {
		rows = append(rows, []string{a.GetField(), a.GetValue(), a.GetReason()})
	}
	p.table(rows)
}

func (p *page) footer(revision, engine string) {
	p.line("")
	p.line("Catalog %s, engine %s. Fit as described; no certificate of safety.", revision, engine)
}

// money writes minor units of a currency with the decimals ISO 4217 gives it, or
// as they are where the code isn't one of its own.
func money(minor int64, code string) string {
	unit, err := currency.ParseISO(code)
	if err != nil {
		return fmt.Sprintf("%d minor units of %s", minor, code)
	}
	decimals, _ := currency.Standard.Rounding(unit)
	return fmt.Sprintf("%.*f %s", decimals, float64(minor)/math.Pow10(decimals), code)
}
