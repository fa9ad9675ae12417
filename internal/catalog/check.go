package catalog

import (
	"fmt"
	"slices"
)

// check returns every cross-reference and order problem, sorted.
func (c *Catalog) check() []string {
	var problems []string
	add := func(format string, args ...any) { problems = append(problems, fmt.Sprintf(format, args...)) }

	seen := map[string]string{}
	once := func(sku, what string) {
		if before, ok := seen[sku]; ok {
			add("%s: the SKU stands twice, as %s and as %s", sku, before, what)
		}
		seen[sku] = what
	}
	families := map[string]bool{}
	for _, p := range c.parts {
		once(p.SKU, "a part")
		switch s := p.Spec.(type) {
		case LinearDrive:
			families[s.Family] = true
		case ArmDrive:
			families[s.Family] = true
		}
	}
	for _, k := range c.kits {
		once(k.SKU, "a kit")
	}
	for _, p := range c.parts {
		if p.ReplacedBy != "" {
			switch r, ok := c.Part(p.ReplacedBy); {
			case !p.Withdrawn:
				add("%s: replaced_by is for withdrawn parts", p.SKU)
			case !ok:
				add("%s: replaced_by names %s, which the catalog doesn't have", p.SKU, p.ReplacedBy)
			case r.Withdrawn:
				add("%s: replaced_by names %s, which is withdrawn itself", p.SKU, p.ReplacedBy)
			}
		}
		checkSpec(p, families, add)
	}
	drives := 0
	for _, p := range c.parts {
		switch p.Spec.(type) {
		case LinearDrive, ArmDrive:
			if !p.Withdrawn {
				drives++
			}
		}
	}
	if drives == 0 {
		add("the catalog sells no drive")
	}
	for _, k := range c.kits {
		c.checkKit(k, add)
	}
	slices.Sort(problems)
	return problems
}

func (c *Catalog) checkKit(k Kit, add func(string, ...any)) {
	listed := map[string]bool{}
	kinds := map[string]bool{}
	drives := 0
	for _, l := range k.Lines {
		if listed[l.SKU] {
			add("%s: %s stands on two lines of the kit", k.SKU, l.SKU)
		}
		listed[l.SKU] = true
		p, ok := c.Part(l.SKU)
		switch {
		case !ok:
			add("%s: the kit holds %s, which the catalog doesn't have", k.SKU, l.SKU)
			continue
		case p.Withdrawn && !k.Withdrawn:
			add("%s: the kit is sold but holds %s, which is withdrawn", k.SKU, l.SKU)
		}
		switch p.Spec.(type) {
		case LinearDrive, ArmDrive:
			kinds[l.SKU] = true
			drives += l.Quantity
		}
	}
	switch {
	case len(kinds) == 0:
		add("%s: the kit holds no drive", k.SKU)
	case len(kinds) > 1:
		add("%s: the kit mixes drives", k.SKU)
	case drives > 2:
		add("%s: the kit holds %d drives; a gate has one or two leaves", k.SKU, drives)
	}
}

func checkSpec(p Part, families map[string]bool, add func(string, ...any)) {
	known := func(list []string) {
		for _, f := range list {
			if !families[f] {
				add("%s: no drive of the catalog is of family %q", p.SKU, f)
			}
		}
	}
	switch s := p.Spec.(type) {
	case LinearDrive:
		if s.Longest <= s.Shortest {
			add("%s: longest_mm must be over shortest_mm", p.SKU)
		}
		for i := 1; i < len(s.Load); i++ {
			a, b := s.Load[i-1], s.Load[i]
			if b.Thrust <= a.Thrust || b.Speed > a.Speed || b.Current < a.Current {
				add("%s: load_points[%d]: thrust must rise, speed not rise, current not fall", p.SKU, i)
			}
		}
		if n := len(s.Load); n > 0 && s.Load[n-1].Thrust < max(s.ThrustExtending, s.ThrustRetracting) {
			add("%s: load_points end at less than the most thrust", p.SKU)
		}
		checkRatings(p.SKU, s.MassRating, s.SolidityRating, add)
		if lo, ok := s.LowestTemperature.Get(); ok {
			if hi, ok := s.HighestTemperature.Get(); ok && hi <= lo {
				add("%s: highest_temperature_c must be over lowest_temperature_c", p.SKU)
			}
		}
	case ArmDrive:
		checkRatings(p.SKU, s.MassRating, s.SolidityRating, add)
	case Controller:
		known(s.Families)
		if s.LeastVoltage > s.Voltage {
			add("%s: least_voltage_v must not be over voltage_v", p.SKU)
		}
	case PowerSupply:
		if s.Peak < s.Continuous {
			add("%s: peak_a must not be under continuous_a", p.SKU)
		}
	case RearBracket:
		known(s.Families)
		for i, r := range s.Standoffs {
			if r.High < r.Low {
				add("%s: standoffs[%d]: high_mm is under low_mm", p.SKU, i)
			}
		}
		if s.Reach.High < s.Reach.Low {
			add("%s: reach: high_mm is under low_mm", p.SKU)
		}
		if r, ok := s.PostDiameter.Get(); ok && r.High < r.Low {
			add("%s: post_diameter: high_mm is under low_mm", p.SKU)
		}
		if s.Form == CurvedBracket && !s.PostDiameter.IsKnown() {
			add("%s: a curved bracket states the post diameters it fits", p.SKU)
		}
	case LeafBracket:
		known(s.Families)
	case Stop:
		if s.Form == GroundStop && !s.Height.IsKnown() {
			add("%s: a ground stop states its height", p.SKU)
		}
		if s.Form == PostStop && !s.Reach.IsKnown() {
			add("%s: a post stop states the gap it bridges", p.SKU)
		}
	}
}

func checkRatings(sku string, mass []MassPoint, solidity []SolidityPoint, add func(string, ...any)) {
	for i := 1; i < len(mass); i++ {
		if mass[i].Width <= mass[i-1].Width {
			add("%s: mass_rating[%d]: width must rise", sku, i)
		}
		if mass[i].Mass > mass[i-1].Mass {
			add("%s: mass_rating[%d]: a longer leaf can't be rated for more mass", sku, i)
		}
	}
	for i := 1; i < len(solidity); i++ {
		if solidity[i].Width <= solidity[i-1].Width {
			add("%s: solidity_rating[%d]: width must rise", sku, i)
		}
		if solidity[i].Solidity > solidity[i-1].Solidity {
			add("%s: solidity_rating[%d]: a longer leaf can't be rated for more solidity", sku, i)
		}
	}
}
