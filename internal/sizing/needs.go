package sizing

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/partslist"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// basket gathers what an option needs, in the order of work.
type basket []partslist.Need

func (b *basket) pieces(sku string, n int, why finding.Code, reason string) {
	if sku != "" && n > 0 {
		*b = append(*b, partslist.Need{SKU: sku, Quantity: n, Reason: reason, Finding: why})
	}
}

func (b *basket) length(sku string, l units.Length, runs int, why finding.Code, reason string) {
	if sku != "" && l > 0 {
		*b = append(*b, partslist.Need{SKU: sku, Length: units.Known(l), Runs: runs, Reason: reason, Finding: why})
	}
}

// usualRemotes is how many remotes a set put together from loose parts gets
// where none were asked for: as many as a kit brings. Common practice, no
// source.
const usualRemotes = 2

// signsPerGate is one on each face.
const signsPerGate = 2

// closedStop is the stop for the closed position: the kit's where it does, else
// the cheapest that does. A single leaf that meets a post takes a post stop over
// its gap or a ground stop; a pair, and a leaf that meets nothing, a ground stop.
func (s *study) closedStop(kit *catalog.Kit) units.Opt[rules.ChosenStop] {
	var best *catalog.Item[catalog.Stop]
	list := s.catalog.Stops()
	for i := range list {
		k := &list[i]
		if !s.stopServes(k.Spec) {
			continue
		}
		if kit != nil && kit.Quantity(k.Part.SKU) > 0 {
			best = k
			break
		}
		if best == nil || k.Part.Price < best.Part.Price {
			best = k
		}
	}
	if best == nil {
		return units.Opt[rules.ChosenStop]{}
	}
	return units.Known(rules.ChosenStop{SKU: best.Part.SKU, Stop: best.Spec})
}

func (s *study) stopServes(stop catalog.Stop) bool {
	c := s.gate.Closing
	if stop.Form == catalog.GroundStop {
		return c.GroundStop != gate.No
	}
	gap, known := c.Gap.Get()
	return !s.gate.Pair() && c.Onto == gate.OntoPost && (!known || gap <= stop.Reach.Or(0))
}

// groundStop is the cheapest ground stop sold.
func (s *study) groundStop() units.Opt[string] {
	return cheapest(s.catalog.Stops(), func(k catalog.Stop) bool { return k.Form == catalog.GroundStop })
}

// deviceFor is the cheapest access device of a kind and link.
func (s *study) deviceFor(w gate.AccessWish) units.Opt[string] {
	return cheapest(s.catalog.AccessDevices(), func(k catalog.AccessDevice) bool {
		return k.Kind == w.Kind && (w.Link == gate.LinkUnknown || k.Link == w.Link)
	})
}

func cheapest[T catalog.Spec](list []catalog.Item[T], serves func(T) bool) units.Opt[string] {
	var best *catalog.Item[T]
	for i := range list {
		k := &list[i]
		if serves(k.Spec) && (best == nil || k.Part.Price < best.Part.Price) {
			best = k
		}
	}
	if best == nil {
		return units.Opt[string]{}
	}
	return units.Known(best.Part.SKU)
}

// remoteSKU is the kit's remote, else the cheapest sold.
func (s *study) remoteSKU(kit *catalog.Kit) units.Opt[string] {
	if kit != nil {
		for _, k := range s.catalog.Remotes() {
			if kit.Quantity(k.Part.SKU) > 0 {
				return units.Known(k.Part.SKU)
			}
		}
	}
	return cheapest(s.catalog.Remotes(), func(catalog.Remote) bool { return true })
}

// crossing is the way of the second leaf's cable: between the hinge axes, and
// down and up again at either side.
func (s *study) crossing() units.Length { return s.span() + 2*crossingDepth }

// crossingDepth is how far a cable goes down at each side before it crosses.
// Common practice for an extra-low-voltage cable under a driveway, no source;
// local rules set the depth.
const crossingDepth units.Length = 0.5

// needs lists what an option takes.
func (s *study) needs(o *Option, e *evaluation) basket {
	var b basket
	leaves := len(s.leaves)
	b.pieces(o.Drive.SKU, leaves, 0, "one drive to a leaf")
	for i := range o.Leaves {
		f := &o.Leaves[i]
		var why finding.Code
		switch {
		case s.side != 0:
			why = finding.OutwardNeedsPush
		case s.leaves[i].described.Post.Shape == gate.PostRound:
			why = finding.RoundPost
		}
		b.pieces(f.RearBracket, 1, why, fmt.Sprintf("carries the drive on the post of leaf %d", i+1))
		why = 0
		if s.leaves[i].described.Frame == gate.FrameRoundTube {
			why = finding.RoundTubeFrame
		}
		b.pieces(f.LeafBracket, 1, why, fmt.Sprintf("joins the drive to leaf %d", i+1))
	}
	if c := e.power.controller; c != nil {
		b.pieces(c.Part.SKU, 1, 0, "drives the drives")
	}
	if p := e.power.supply; p != nil {
		b.pieces(p.Part.SKU, 1, 0, "turns mains into the controller's voltage")
	}
	run := s.gate.Power.SupplyRun.Or(0)
	if c := e.power.cable; c != nil {
		b.length(c.Part.SKU, run, 1, 0, "supply run from the power supply to the controller")
	}
	b.cables(s, run, e)
	if stop, sold := e.stop.Get(); sold {
		b.pieces(stop.SKU, 1, finding.StopNeeded, "the closed leaf comes to rest against it")
	}
	for i := range o.Leaves {
		if e.openStop[i] {
			b.pieces(s.groundStop().Or(""), 1, finding.OpenStopNeeded, fmt.Sprintf("leaf %d comes to rest against it open", i+1))
		}
	}
	if e.lock != nil {
		b.pieces(e.lock.Part.SKU, 1, e.lockFinding, "holds the closed gate in the gust")
	}
	b.access(s, o.Kit)
	if sign, sold := s.sign().Get(); sold {
		part, _ := s.catalog.Part(sign)
		pieces := part.Spec.(catalog.Sign).Pieces
		b.pieces(sign, (signsPerGate+pieces-1)/pieces, finding.CautionSigns, "a caution sign on each face")
	}
	return b
}

// cables adds conduit for what is buried and the second leaf's cable.
func (b *basket) cables(s *study, run units.Length, e *evaluation) {
	conduit := cheapest(s.catalog.Conduits(), func(catalog.Conduit) bool { return true }).Or("")
	if e.power.cable != nil {
		b.length(conduit, run, 0, finding.ProtectBuriedCable, "protects the supply run where it is buried")
	}
	if !s.gate.Pair() {
		return
	}
	const reason = "from the controller to the second leaf's drive"
	why := finding.CableMustCross
	switch s.gate.Driveway.CableCanBeBuried {
	case gate.No:
		why = finding.SurfaceCrossing
	case gate.AnswerUnknown:
		why = finding.CrossingNotDecided
	}
	drive := cheapest(s.catalog.OtherCables(), func(c catalog.Cable) bool { return c.Use == catalog.CableForDrive }).Or("")
	b.length(drive, s.crossing(), 1, why, reason)
	if why == finding.SurfaceCrossing {
		b.length(s.cover().Or(""), s.span(), 0, why, "protects the cable across the driveway")
		return
	}
	b.length(conduit, s.crossing(), 0, why, "protects the cable under the driveway")
}

func (s *study) cover() units.Opt[string] {
	return cheapest(s.catalog.CrossingCovers(), func(catalog.CrossingCover) bool { return true })
}

func (s *study) sign() units.Opt[string] {
	return cheapest(s.catalog.Signs(), func(catalog.Sign) bool { return true })
}

// access adds remotes, fixed devices and their cables.
func (b *basket) access(s *study, kit *catalog.Kit) {
	remotes, wanted := s.gate.Access.Remotes.Get()
	if !wanted && kit == nil {
		remotes = usualRemotes
	}
	b.pieces(s.remoteSKU(kit).Or(""), remotes, 0, "hand-held remotes")
	cable := cheapest(s.catalog.OtherCables(), func(c catalog.Cable) bool { return c.Use == catalog.CableForAccess }).Or("")
	for _, w := range s.gate.Access.Devices {
		sku, sold := s.deviceFor(w).Get()
		if !sold {
			continue
		}
		where := "to leave by"
		if w.Place == gate.Entry {
			where = "to come in by"
		}
		b.pieces(sku, 1, 0, where)
		part, _ := s.catalog.Part(sku)
		if part.Spec.(catalog.AccessDevice).Link == gate.Wired {
			b.length(cable, w.Cable.Or(0), 1, finding.WiredDeviceCable, "from a wired access device to the controller")
		}
	}
}
