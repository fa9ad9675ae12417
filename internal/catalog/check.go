package catalog

import (
	"slices"
	"strings"

	"leafmoment.example/leafmoment/internal/units"
)

// check returns every problem of parts, kits and policies with each other.
// What one number may be is the schema's to say.
func (c *Catalog) check() Problems {
	var problems Problems
	c.checkSKUs(&problems)
	c.checkPolicies(&problems)
	families := map[string]bool{}
	sold := false
	for _, p := range c.parts {
		if family, ok := driveFamily(p.Spec); ok {
			families[family] = true
			sold = sold || !p.Withdrawn
		}
	}
	if !sold {
		problems.add("", "the catalog sells no drive")
	}
	for _, p := range c.parts {
		s := specCheck{sku: p.SKU, families: families, problems: &problems}
		s.check(p.Spec)
		c.checkReplacement(p, &problems)
	}
	for _, k := range c.kits {
		c.checkKit(k, &problems)
	}
	problems.sort()
	return problems
}

// driveFamily is the family of a drive, false where the part is no drive.
func driveFamily(s Spec) (string, bool) {
	switch s := s.(type) {
	case LinearDrive:
		return s.Family, true
	case ArmDrive:
		return s.Family, true
	}
	return "", false
}

func (c *Catalog) checkSKUs(problems *Problems) {
	seen := map[string]string{}
	once := func(sku, what string) {
		if before, ok := seen[sku]; ok {
			problems.add(sku, "the SKU stands twice, as %s and as %s", before, what)
		}
		seen[sku] = what
	}
	for _, p := range c.parts {
		once(p.SKU, "a part")
	}
	for _, k := range c.kits {
		once(k.SKU, "a kit")
	}
}

func (c *Catalog) checkPolicies(problems *Problems) {
	p := c.Policies
	if p.OperatingWind > p.Gust {
		problems.add(PoliciesSubject, "operating_wind_m_s must not be over gust_m_s")
	}
	if p.CyclesPerPeakHour > p.CyclesPerDay {
		problems.add(PoliciesSubject, "cycles_per_peak_hour must not be over cycles_per_day")
	}
}

func (c *Catalog) checkReplacement(p Part, problems *Problems) {
	if p.ReplacedBy == "" {
		return
	}
	by, ok := c.Part(p.ReplacedBy)
	switch {
	case !p.Withdrawn:
		problems.add(p.SKU, "replaced_by is for withdrawn parts")
	case !ok:
		problems.add(p.SKU, "replaced_by names %s, which the catalog doesn't have", p.ReplacedBy)
	case by.Withdrawn:
		problems.add(p.SKU, "replaced_by names %s, which is withdrawn itself", p.ReplacedBy)
	case p.Spec != nil && by.Spec != nil && by.Spec.kind() != p.Spec.kind():
		problems.add(p.SKU, "replaced_by names %s, which is no %s", p.ReplacedBy, p.Spec.kind())
	}
}

// checkKit wants parts that exist, one kind of drive for one or two leaves, and
// parts that go with it.
func (c *Catalog) checkKit(k Kit, problems *Problems) {
	listed := map[string]bool{}
	var parts []*Part
	var drive *Part
	drives, kinds := 0, 0
	for _, l := range k.Lines {
		if listed[l.SKU] {
			problems.add(k.SKU, "%s stands on two lines of the kit", l.SKU)
			continue
		}
		listed[l.SKU] = true
		p, ok := c.Part(l.SKU)
		if !ok {
			problems.add(k.SKU, "the kit holds %s, which the catalog doesn't have", l.SKU)
			continue
		}
		if p.Withdrawn && !k.Withdrawn {
			problems.add(k.SKU, "the kit is sold but holds %s, which is withdrawn", l.SKU)
		}
		parts = append(parts, p)
		if _, ok := driveFamily(p.Spec); ok {
			drive = p
			drives += l.Quantity
			kinds++
		}
	}
	switch {
	case kinds == 0:
		problems.add(k.SKU, "the kit holds no drive")
	case kinds > 1:
		problems.add(k.SKU, "the kit mixes drives")
	case drives > 2:
		problems.add(k.SKU, "the kit holds %d drives; a gate has one or two leaves", drives)
	default:
		for _, p := range parts {
			if why := misfit(p.Spec, drive.Spec, drives); why != "" {
				problems.add(k.SKU, "%s doesn't go with the kit's %s: %s", p.SKU, drive.SKU, why)
			}
		}
	}
}

// misfit says why a part can't serve that many of a drive; empty where it can.
func misfit(part, drive Spec, drives int) string {
	family, _ := driveFamily(drive)
	var voltage units.Voltage
	switch d := drive.(type) {
	case LinearDrive:
		voltage = d.Voltage
	case ArmDrive:
		voltage = d.Voltage
	}
	var why []string
	require := func(ok bool, otherwise string) {
		if !ok {
			why = append(why, otherwise)
		}
	}
	const ofFamily, ofVoltage = "not for its family", "not of its voltage"
	switch s := part.(type) {
	case Controller:
		require(slices.Contains(s.Families, family), ofFamily)
		require(s.Voltage == voltage, ofVoltage)
		require(s.Drives >= drives, "not for so many drives")
	case PowerSupply:
		require(s.Output == voltage, ofVoltage)
	case ChargeController:
		require(s.Voltage == voltage, ofVoltage)
	case Lock:
		require(s.Voltage == voltage, ofVoltage)
	case RearBracket:
		require(slices.Contains(s.Families, family), ofFamily)
	case LeafBracket:
		require(slices.Contains(s.Families, family), ofFamily)
	}
	return strings.Join(why, ", ")
}
