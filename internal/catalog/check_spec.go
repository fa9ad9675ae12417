package catalog

// specCheck checks one part's specification.
type specCheck struct {
	sku      string
	families map[string]bool // of the catalog's drives
	problems *Problems
}

func (c specCheck) add(format string, args ...any) { c.problems.add(c.sku, format, args...) }

func (c specCheck) check(spec Spec) {
	switch s := spec.(type) {
	case nil:
		c.add("the part has no specification")
	case LinearDrive:
		c.linearDrive(s)
	case ArmDrive:
		c.ratings(s.MassRating, s.SolidityRating)
	case Controller:
		c.known(s.Families)
		if s.LeastVoltage > s.Voltage {
			c.add("least_voltage_v must not be over voltage_v")
		}
	case PowerSupply:
		if s.Peak < s.Continuous {
			c.add("peak_a must not be under continuous_a")
		}
	case RearBracket:
		c.rearBracket(s)
	case LeafBracket:
		c.known(s.Families)
	case Stop:
		if s.Form == GroundStop && !s.Height.IsKnown() {
			c.add("a ground stop states its height")
		}
		if s.Form == PostStop && !s.Reach.IsKnown() {
			c.add("a post stop states the gap it bridges")
		}
	}
}

// known wants families that some drive is of.
func (c specCheck) known(families []string) {
	for _, f := range families {
		if !c.families[f] {
			c.add("no drive of the catalog is of family %q", f)
		}
	}
}

func (c specCheck) linearDrive(d LinearDrive) {
	if d.Longest <= d.Shortest {
		c.add("longest_mm must be over shortest_mm")
	}
	if d.HousingLength > d.Shortest {
		c.add("housing_length_mm must not be over shortest_mm")
	}
	if d.RodRadius > d.HousingRadius {
		c.add("rod_radius_mm must not be over housing_radius_mm")
	}
	if low, ok := d.LowestTemperature.Get(); ok {
		if high, ok := d.HighestTemperature.Get(); ok && high <= low {
			c.add("highest_temperature_c must be over lowest_temperature_c")
		}
	}
	c.loadLine(d)
	c.ratings(d.MassRating, d.SolidityRating)
}

// loadLine wants a line that falls as a motor's does and ends where the drive's
// thrust does: the engine reads the most current from its end.
func (c specCheck) loadLine(d LinearDrive) {
	for i := 1; i < len(d.Load); i++ {
		a, b := d.Load[i-1], d.Load[i]
		if b.Thrust <= a.Thrust || b.Speed > a.Speed || b.Current < a.Current {
			c.add("load_points[%d]: thrust must rise, speed not rise, current not fall", i)
		}
	}
	if len(d.Load) == 0 || d.Load[0].Speed <= 0 {
		c.add("load_points must start with a speed over zero")
		return
	}
	if d.Load[len(d.Load)-1].Thrust < max(d.ThrustExtending, d.ThrustRetracting) {
		c.add("load_points end at less than the most thrust")
	}
}

func (c specCheck) rearBracket(b RearBracket) {
	c.known(b.Families)
	for i, r := range b.Standoffs {
		if r.High < r.Low {
			c.add("standoffs[%d]: high_mm is under low_mm", i)
		}
	}
	if b.Reach.High < b.Reach.Low {
		c.add("reach: high_mm is under low_mm")
	}
	diameter, stated := b.PostDiameter.Get()
	if stated && diameter.High < diameter.Low {
		c.add("post_diameter: high_mm is under low_mm")
	}
	if !stated && b.Form == CurvedBracket {
		c.add("a curved bracket states the post diameters it fits")
	}
}

// ratings wants tables that never allow a longer leaf more than a shorter one.
func (c specCheck) ratings(mass []MassPoint, solidity []SolidityPoint) {
	if len(mass) == 0 || len(solidity) == 0 {
		c.add("mass_rating and solidity_rating need a point each")
	}
	for i := 1; i < len(mass); i++ {
		if mass[i].Width <= mass[i-1].Width {
			c.add("mass_rating[%d]: width must rise", i)
		}
		if mass[i].Mass > mass[i-1].Mass {
			c.add("mass_rating[%d]: a longer leaf can't be rated for more mass", i)
		}
	}
	for i := 1; i < len(solidity); i++ {
		if solidity[i].Width <= solidity[i-1].Width {
			c.add("solidity_rating[%d]: width must rise", i)
		}
		if solidity[i].Solidity > solidity[i-1].Solidity {
			c.add("solidity_rating[%d]: a longer leaf can't be rated for more solidity", i)
		}
	}
}
