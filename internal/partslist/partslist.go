// Package partslist turns what an option needs into lines to order: the kit
// first, then what the kit doesn't bring, each with its reason and price.
package partslist

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/units"
)

// Need is one thing an option can't do without. Needs are listed in the order
// of work; two needs for the same part add up.
type Need struct {
	SKU      string
	Quantity int                     // pieces; unused where Length is known
	Length   units.Opt[units.Length] // of cable or conduit, before slack
	Runs     int                     // how many separate runs that length is, for the slack at their ends
	Reason   string
	Finding  finding.Code // the finding it meets; 0 for none
}

// Line is one line to order.
type Line struct {
	SKU       string
	Name      string
	Quantity  int
	Unit      string
	Reason    string
	Finding   finding.Code
	InKit     bool
	UnitPrice int64 // before tax, minor units; 0 in the kit
	Price     int64
	Length    units.Opt[units.Length]
}

// List is what to order, and what it comes to.
type List struct {
	Kit             string // SKU; empty where all parts are loose
	Lines           []Line
	Net, Tax, Total int64 // minor units
}

// Build makes the list of a kit, which may be none, and needs. Everything in
// the kit is listed, needed or not; what is needed beyond it is bought loose.
// It returns an error where a need names no part of the catalog.
func Build(c *catalog.Catalog, kit *catalog.Kit, needs []Need) (List, error) {
	var list List
	left := map[string]int{} // of the kit, not yet accounted for
	if kit != nil {
		list.Kit = kit.SKU
		list.Lines = append(list.Lines, Line{
			SKU: kit.SKU, Name: kit.Name, Quantity: 1, Unit: piece,
			Reason:    fmt.Sprintf("set of %d lines that starts this option", len(kit.Lines)),
			UnitPrice: kit.Price, Price: kit.Price,
		})
		for _, l := range kit.Lines {
			left[l.SKU] += l.Quantity
		}
	}
	for _, n := range merge(needs) {
		part, ok := c.Part(n.SKU)
		if !ok {
			return List{}, fmt.Errorf("parts list: the catalog has no part %s", n.SKU)
		}
		quantity, unit := n.quantity(part, c.Policies)
		if inKit := min(quantity, left[n.SKU]); inKit > 0 {
			left[n.SKU] -= inKit
			quantity -= inKit
			list.Lines = append(list.Lines, Line{
				SKU: n.SKU, Name: part.Name, Quantity: inKit, Unit: unit,
				Reason: n.Reason, Finding: n.Finding, InKit: true, Length: n.Length,
			})
		}
		if quantity > 0 {
			list.Lines = append(list.Lines, Line{
				SKU: n.SKU, Name: part.Name, Quantity: quantity, Unit: unit,
				Reason: n.Reason, Finding: n.Finding,
				UnitPrice: part.Price, Price: int64(quantity) * part.Price, Length: n.Length,
			})
		}
	}
	if kit != nil {
		for _, l := range kit.Lines {
			if spare := left[l.SKU]; spare > 0 {
				left[l.SKU] = 0
				part, _ := c.Part(l.SKU)
				list.Lines = append(list.Lines, Line{
					SKU: l.SKU, Name: part.Name, Quantity: spare, Unit: piece,
					Reason: "comes with the kit", InKit: true,
				})
			}
		}
	}
	for _, l := range list.Lines {
		list.Net += l.Price
	}
	list.Tax = Tax(list.Net, c.TaxPercent)
	list.Total = list.Net + list.Tax
	return list, nil
}

// Tax is the tax on a net sum in minor units, rounded half up once, on the sum.
func Tax(net int64, percent float64) int64 {
	return int64(math.Floor(float64(net)*percent/100 + 0.5))
}

const piece = "piece"

// merge adds up needs for the same part, at the place and with the reason of
// the first, so that a kit's quantity is set off against the sum.
func merge(needs []Need) []Need {
	var out []Need
	place := make(map[string]int, len(needs))
	for _, n := range needs {
		i, ok := place[n.SKU]
		if !ok {
			place[n.SKU] = len(out)
			out = append(out, n)
			continue
		}
		m := &out[i]
		m.Quantity += n.Quantity
		m.Runs += n.Runs
		if more, known := n.Length.Get(); known {
			m.Length = units.Known(m.Length.Or(0) + more)
		}
		if n.Reason != m.Reason {
			m.Reason += "; " + n.Reason
		}
		if m.Finding == 0 {
			m.Finding = n.Finding
		}
	}
	return out
}

// quantity is how many of the part's units the need takes: pieces, or steps of
// length with the policy's slack on the run and at its ends, rounded up.
func (n Need) quantity(part *catalog.Part, p catalog.Policies) (int, string) {
	length, known := n.Length.Get()
	if !known {
		return n.Quantity, piece
	}
	var step units.Length
	switch s := part.Spec.(type) {
	case catalog.Cable:
		step = s.Step
	case catalog.Conduit:
		step = s.Step
	case catalog.CrossingCover:
		return steps(length, s.Length), piece
	default:
		return n.Quantity, piece
	}
	withSlack := length*units.Length(1+p.CableSlack) + units.Length(n.Runs)*p.CableEnds
	return steps(withSlack, step), fmt.Sprintf("%g m", float64(step))
}

// steps is how many steps cover a length; a length within a tenth of a
// millimeter of a whole number of steps takes that number.
func steps(length, step units.Length) int {
	return max(1, int(math.Ceil(float64((length-1e-4)/step))))
}
