package catalog

import (
	"fmt"
	"slices"
	"strings"

	"leafmoment.example/leafmoment/internal/gate"
)

// Catalog is a supplier's checked catalog. It doesn't change once made, so any
// number of requests may read it at once.
type Catalog struct {
	SupplierCode string
	SupplierName string
	Currency     string
	TaxPercent   float64
	Revision     string // hash of the document it was made from
	Policies     Policies

	parts []Part // by SKU
	kits  []Kit  // by SKU
	index map[string]int
	kit   map[string]int

	linear []Item[LinearDrive]
}

// Item is a part of one kind that is still sold.
type Item[T Spec] struct {
	Part *Part
	Spec T
}

// New checks parts and kits against each other and makes the catalog of them.
// Every problem found is in the error, a line each, sorted.
func New(c Catalog, parts []Part, kits []Kit) (*Catalog, error) {
	c.parts = slices.SortedFunc(slices.Values(parts), func(a, b Part) int { return strings.Compare(a.SKU, b.SKU) })
	c.kits = slices.SortedFunc(slices.Values(kits), func(a, b Kit) int { return strings.Compare(a.SKU, b.SKU) })
	c.index = make(map[string]int, len(parts))
	c.kit = make(map[string]int, len(kits))
	for i, p := range c.parts {
		c.index[p.SKU] = i
	}
	for i, k := range c.kits {
		c.kit[k.SKU] = i
	}
	if problems := c.check(); len(problems) > 0 {
		return nil, &Problems{problems}
	}
	c.linear = Each[LinearDrive](&c)
	return &c, nil
}

// Problems is everything wrong with a catalog.
type Problems struct{ Lines []string }

func (p *Problems) Error() string {
	return fmt.Sprintf("%d problems in the catalog:\n%s", len(p.Lines), strings.Join(p.Lines, "\n"))
}

// Parts returns every part by SKU, withdrawn ones included.
func (c *Catalog) Parts() []Part { return c.parts }

// Kits returns every kit by SKU, withdrawn ones included.
func (c *Catalog) Kits() []Kit { return c.kits }

// Part returns the part of that SKU.
func (c *Catalog) Part(sku string) (*Part, bool) {
	i, ok := c.index[sku]
	if !ok {
		return nil, false
	}
	return &c.parts[i], true
}

// Kit returns the kit of that SKU.
func (c *Catalog) Kit(sku string) (*Kit, bool) {
	i, ok := c.kit[sku]
	if !ok {
		return nil, false
	}
	return &c.kits[i], true
}

// LinearDrives returns the linear drives still sold, by SKU.
func (c *Catalog) LinearDrives() []Item[LinearDrive] { return c.linear }

// Each returns the parts of kind T still sold, by SKU.
func Each[T Spec](c *Catalog) []Item[T] {
	var out []Item[T]
	for i := range c.parts {
		p := &c.parts[i]
		if spec, ok := p.Spec.(T); ok && !p.Withdrawn {
			out = append(out, Item[T]{p, spec})
		}
	}
	return out
}

// KitFor returns the cheapest kit still sold that brings exactly the given
// number of that drive for that power source.
func (c *Catalog) KitFor(drive string, count int, power gate.PowerSource) (*Kit, bool) {
	var best *Kit
	for i := range c.kits {
		k := &c.kits[i]
		if k.Withdrawn || k.Power != power || k.Quantity(drive) != count {
			continue
		}
		if best == nil || k.Price < best.Price {
			best = k
		}
	}
	return best, best != nil
}

// Quantity is how many of that part the kit holds.
func (k *Kit) Quantity(sku string) int {
	n := 0
	for _, l := range k.Lines {
		if l.SKU == sku {
			n += l.Quantity
		}
	}
	return n
}
