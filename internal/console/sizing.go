package console

import (
	"fmt"
	"io"

	pb "leafmoment.example/leafmoment/api/leafmoment/v1"
)

// Sizing writes the options for a gate.
func Sizing(w io.Writer, r *pb.SizeGateResponse) error {
	p := &page{w: w}
	p.line("Verdict: %s", verdict(r.GetVerdict()))
	for _, o := range r.GetOptions() {
		p.option(o)
	}
	if len(r.GetOtherOptions()) > 0 {
		p.line("")
		p.line("Further options")
		var rows [][]string
		for _, o := range r.GetOtherOptions() {
			rows = append(rows, []string{fmt.Sprintf("%d.", o.GetRank()), o.GetDriveSku(), verdict(o.GetVerdict()), fmt.Sprintf("margin %.2f", o.GetMargin())})
		}
		p.table(rows)
	}
	p.findings("About the gate, whichever drive is chosen", r.GetFindings())
	for _, d := range r.GetRejectedDrives() {
		p.findings(fmt.Sprintf("Doesn't suit: %s (%s)", d.GetDriveName(), d.GetDriveSku()), d.GetFindings())
	}
	p.assumptions(r.GetAssumptions())
	p.footer(r.GetCatalogRevision(), r.GetEngineVersion())
	return p.err
}

func (p *page) option(o *pb.Option) {
	p.line("")
	p.line("%d. %s (%s): %s", o.GetRank(), o.GetDriveName(), o.GetDriveSku(), verdict(o.GetVerdict()))
	if o.GetKitSku() != "" {
		p.line("  kit %s, all parts with tax %s", o.GetKitSku(), money(o.GetPriceWithTaxMinor(), o.GetCurrencyCode()))
	} else {
		p.line("  loose parts, with tax %s", money(o.GetPriceWithTaxMinor(), o.GetCurrencyCode()))
	}
	for _, l := range o.GetLeaves() {
		p.leaf(l)
	}
	if s := o.GetSupply(); s != nil {
		p.line("  supply run %.0f m of %s: %.2f V dropped at %.2f A (%s), up to %.0f m", s.GetRunM(), s.GetConductor(), s.GetDropV(), s.GetCurrentA(), s.GetCurrentBasis(), s.GetLongestRunM())
	}
	p.findings("  Findings", o.GetFindings())
}

func (p *page) leaf(l *pb.LeafFigures) {
	m := l.GetMounting()
	p.line("  leaf %d", l.GetLeaf()+1)
	tolerances := ""
	for _, t := range m.GetTolerances() {
		tolerances += fmt.Sprintf(" %s -%d/+%d", t.GetDimension(), t.GetMinusMm(), t.GetPlusMm())
	}
	rows := [][]string{
		{"mounting", fmt.Sprintf("%s, a %d  b %d  c %d  e %d mm", word(m.GetSide().String(), "MOUNTING_SIDE_"), m.GetAMm(), m.GetBMm(), m.GetCMm(), m.GetEMm())},
		{"may be off by", "mm:" + tolerances},
		{"stroke", fmt.Sprintf("%.0f mm used; in hand %.0f mm closed, %.0f mm open; reaches %.0f deg", m.GetStrokeUsedMm(), m.GetReserveClosedMm(), m.GetReserveOpenMm(), l.GetLargestAngleDeg())},
		{"margin", fmt.Sprintf("%.2f in %.1f m/s of wind, %.2f with building tolerance; least at %.0f deg %s", l.GetMargin(), l.GetOperatingWindMS(), l.GetMarginWithTolerance(), l.GetWorstAngleDeg(), word(l.GetWorstMotion().String(), "MOTION_"))},
		{"wind", holds(l)},
		{"opens in", fmt.Sprintf("%.1f s at up to %.2f m/s at the free edge, %.2f A (most %.2f A)", l.GetOpening().GetTimeS(), l.GetOpening().GetEdgeSpeedMS(), l.GetOpening().GetMeanCurrentA(), l.GetOpening().GetPeakCurrentA())},
		{"closes in", fmt.Sprintf("%.1f s", l.GetClosing().GetTimeS())},
	}
	for i := range rows {
		rows[i][0] = "  " + rows[i][0]
	}
	p.table(rows)
}

func holds(l *pb.LeafFigures) string {
	if l.GetWindOnlyLimitMS() == 0 {
		return "not worked out: the supplier's wind rule doesn't cover this leaf"
	}
	text := fmt.Sprintf("moves up to %.1f m/s", l.GetMovesUpToMS())
	if l.HoldsClosedToMS != nil {
		text += fmt.Sprintf(", holds shut to %.1f m/s", l.GetHoldsClosedToMS())
	} else {
		text += ", holding not stated"
	}
	if l.HoldsLockedToMS != nil {
		text += fmt.Sprintf(", with a lock to %.1f m/s", l.GetHoldsLockedToMS())
	}
	if l.HoldsOpenToMS != nil {
		text += fmt.Sprintf(", stays open to %.1f m/s", l.GetHoldsOpenToMS())
	}
	return text
}

// PartsList writes what to order.
func PartsList(w io.Writer, r *pb.BuildPartsListResponse) error {
	p := &page{w: w}
	p.line("Verdict: %s", verdict(r.GetVerdict()))
	if r.GetDriveSku() == "" {
		p.line("No drive suits, so there is nothing to order.")
	}
	var rows [][]string
	for _, l := range r.GetLines() {
		price := "in kit"
		if !l.GetInKit() {
			price = money(l.GetLinePriceMinor(), r.GetCurrencyCode())
		}
		rows = append(rows, []string{fmt.Sprintf("%d x %s", l.GetQuantity(), l.GetUnit()), l.GetSku(), l.GetName(), price, l.GetReason()})
	}
	p.line("")
	p.table(rows)
	p.line("")
	p.table([][]string{
		{"before tax", money(r.GetNetMinor(), r.GetCurrencyCode())},
		{"tax", money(r.GetTaxMinor(), r.GetCurrencyCode())},
		{"total", money(r.GetTotalMinor(), r.GetCurrencyCode())},
	})
	p.findings("Findings", r.GetFindings())
	p.assumptions(r.GetAssumptions())
	p.footer(r.GetCatalogRevision(), r.GetEngineVersion())
	return p.err
}

// Catalog writes what a catalog holds.
func Catalog(w io.Writer, r *pb.GetCatalogResponse) error {
	p := &page{w: w}
	p.line("%s (%s): %d parts, %d kits, prices in %s", r.GetSupplierName(), r.GetSupplierCode(), r.GetPartCount(), r.GetKitCount(), r.GetCurrencyCode())
	p.line("")
	rows := [][]string{{"drive", "name", "family", "longest leaf", "voltage"}}
	for _, d := range r.GetDrives() {
		rows = append(rows, []string{d.GetSku(), d.GetName(), d.GetFamily(), fmt.Sprintf("%.0f mm", d.GetLongestLeafMm()), fmt.Sprintf("%g V", d.GetVoltageV())})
	}
	p.table(rows)
	p.line("")
	p.line("Revision %s, engine %s", r.GetCatalogRevision(), r.GetEngineVersion())
	return p.err
}
