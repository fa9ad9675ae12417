package catalog

import (
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

	// By kind and still sold, worked out once: every request asks for them.
	linear      []Item[LinearDrive]
	controllers []Item[Controller]
	supplies    []Item[PowerSupply]
	cables      []Item[Cable]
	locks       []Item[Lock]
	rear        []Item[RearBracket]
	onLeaf      []Item[LeafBracket]
	other       []Item[Cable]
	stops       []Item[Stop]
	remotes     []Item[Remote]
	devices     []Item[AccessDevice]
	covers      []Item[CrossingCover]
	signs       []Item[Sign]
	conduits    []Item[Conduit]
}

// Item is a part of one kind that is still sold.
type Item[T Spec] struct {
	Part *Part
	Spec T
}

// New checks parts and kits against each other and makes the catalog of them.
// Where they don't fit together, the error is a Problems that holds every one.
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
		return nil, problems
	}
	c.linear = Each[LinearDrive](&c)
	c.controllers = Each[Controller](&c)
	c.supplies = Each[PowerSupply](&c)
	c.locks = Each[Lock](&c)
	c.rear = Each[RearBracket](&c)
	c.onLeaf = Each[LeafBracket](&c)
	for _, cable := range Each[Cable](&c) {
		if cable.Spec.Use == CableForSupply {
			c.cables = append(c.cables, cable)
		} else {
			c.other = append(c.other, cable)
		}
	}
	c.stops = Each[Stop](&c)
	c.remotes = Each[Remote](&c)
	c.devices = Each[AccessDevice](&c)
	c.covers = Each[CrossingCover](&c)
	c.signs = Each[Sign](&c)
	c.conduits = Each[Conduit](&c)
	return &c, nil
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

// Controllers returns the controllers still sold, by SKU.
func (c *Catalog) Controllers() []Item[Controller] { return c.controllers }

// PowerSupplies returns the power supplies still sold, by SKU.
func (c *Catalog) PowerSupplies() []Item[PowerSupply] { return c.supplies }

// SupplyCables returns the cables for supply runs still sold, by SKU.
func (c *Catalog) SupplyCables() []Item[Cable] { return c.cables }

// Locks returns the locks still sold, by SKU.
func (c *Catalog) Locks() []Item[Lock] { return c.locks }

// RearBrackets returns the rear brackets still sold, by SKU.
func (c *Catalog) RearBrackets() []Item[RearBracket] { return c.rear }

// LeafBrackets returns the leaf brackets still sold, by SKU.
func (c *Catalog) LeafBrackets() []Item[LeafBracket] { return c.onLeaf }

// OtherCables returns the cables for drives and access still sold, by SKU.
func (c *Catalog) OtherCables() []Item[Cable] { return c.other }

// Stops returns the stops still sold, by SKU.
func (c *Catalog) Stops() []Item[Stop] { return c.stops }

// Remotes returns the remotes still sold, by SKU.
func (c *Catalog) Remotes() []Item[Remote] { return c.remotes }

// AccessDevices returns the access devices still sold, by SKU.
func (c *Catalog) AccessDevices() []Item[AccessDevice] { return c.devices }

// CrossingCovers returns the crossing covers still sold, by SKU.
func (c *Catalog) CrossingCovers() []Item[CrossingCover] { return c.covers }

// Signs returns the signs still sold, by SKU.
func (c *Catalog) Signs() []Item[Sign] { return c.signs }

// Conduits returns the conduits still sold, by SKU.
func (c *Catalog) Conduits() []Item[Conduit] { return c.conduits }

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
