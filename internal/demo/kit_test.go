package demo_test

import (
	"testing"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/demo"
	"leafmoment.example/leafmoment/internal/gate"
)

func TestEachKitIsComplete(t *testing.T) {
	c := decode(t, demo.Catalog())
	for _, d := range c.LinearDrives() {
		for leaves := 1; leaves <= 2; leaves++ {
			for _, power := range []gate.PowerSource{gate.SourceMains, gate.SourceSolar} {
				k, ok := c.KitFor(d.Part.SKU, leaves, power)
				if !ok {
					t.Errorf("%s: no kit for %d leaves by power %d", d.Part.SKU, leaves, power)
					continue
				}
				checkKit(t, c, k, d.Spec, leaves, power)
			}
		}
	}
}

func checkKit(t *testing.T, c *catalog.Catalog, k *catalog.Kit, d catalog.LinearDrive, leaves int, power gate.PowerSource) {
	t.Helper()
	n := map[string]int{}
	var loose int64
	for _, l := range k.Lines {
		p, _ := c.Part(l.SKU)
		loose += p.Price * int64(l.Quantity)
		switch s := p.Spec.(type) {
		case catalog.RearBracket:
			if s.Form == catalog.FlatBracket {
				n["rear bracket"] += l.Quantity
			}
		case catalog.LeafBracket:
			if s.Form == catalog.FlatLeafBracket {
				n["leaf bracket"] += l.Quantity
			}
		case catalog.Remote:
			n["remote"] += l.Quantity
		case catalog.Controller:
			n["controller"] += l.Quantity
			if s.ChargeCurrent.IsKnown() {
				n["charging"]++
			}
			if d.End == catalog.EndByLimitSwitches && !s.TakesLimitSwitches {
				t.Errorf("%s: the controller doesn't take the drive's limit switches", k.SKU)
			}
			if leaves == 2 && !s.DelaysSecondLeaf {
				t.Errorf("%s: the controller doesn't start one leaf after the other", k.SKU)
			}
		case catalog.Stop:
			n["stop"] += l.Quantity
		case catalog.PowerSupply:
			n["power supply"] += l.Quantity
		case catalog.Battery:
			n["battery"]++
		case catalog.Panel:
			n["panel"]++
		case catalog.ChargeController:
			n["charge controller"]++
		case catalog.Cable:
			if s.Use == catalog.CableForSupply {
				t.Errorf("%s holds a supply cable, whose length is the site's", k.SKU)
			}
		}
	}
	want := map[string]int{"rear bracket": leaves, "leaf bracket": leaves, "remote": 2, "controller": 1}
	if d.End == catalog.EndByCurrent {
		want["stop"] = 1
	}
	if power == gate.SourceMains {
		want["power supply"] = 1
	} else {
		want["panel"], want["charge controller"], want["battery"], want["charging"] = 1, 1, 1, 1
	}
	for what, count := range want {
		if n[what] != count {
			t.Errorf("%s: %d of %s, want %d", k.SKU, n[what], what, count)
		}
	}
	if power == gate.SourceMains && n["charging"] != n["battery"] {
		t.Errorf("%s: a controller that charges and a battery come together", k.SKU)
	}
	if k.Price >= loose {
		t.Errorf("%s costs %d, its parts %d", k.SKU, k.Price, loose)
	}
}
