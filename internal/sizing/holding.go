package sizing

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// holdingOf works out the gusts a leaf holds against: closed, open, and locked
// with the cheapest lock that holds the gust, else the strongest.
//
// Closed, the stop takes the wind that would push the leaf past closed; the
// drive takes the wind that would open it, which is what shortens a pulling ram
// and lengthens a pushing one. Open, what set the open position takes the wind
// that would open the leaf further, where it is a stop or the ram's own end;
// the drive takes the rest. With limit switches the drive takes every direction
// that no stop does. Hinge friction, which would help, is left out.
func (s *study) holdingOf(l *leafStudy, d catalog.LinearDrive, m linkage.Mounting, openStop bool) (Holding, *catalog.Item[catalog.Lock]) {
	againstOpening, againstClosing := d.HoldingAgainstRetraction, d.HoldingAgainstExtension
	if s.side == linkage.Push {
		againstOpening, againstClosing = againstClosing, againstOpening
	}
	closed, open := againstOpening, againstClosing
	if d.End == catalog.EndByLimitSwitches {
		if s.gate.Closing.StopPresent != gate.Yes {
			closed = lesser(againstOpening, againstClosing)
		}
		if !openStop {
			open = lesser(againstOpening, againstClosing)
		}
	}
	h := Holding{Closed: l.gustAt(closed, m.Arm(0)), Open: l.gustAt(open, m.Arm(s.open))}
	if v, stated := h.Closed.Get(); stated && v >= l.gust {
		return h, nil
	}
	var lock *catalog.Item[catalog.Lock]
	list := s.catalog.Locks()
	holds := func(x *catalog.Item[catalog.Lock]) units.Speed {
		return l.gustAt(units.Known(x.Spec.Holding), l.width).Or(0)
	}
	for i := range list {
		k := &list[i]
		if k.Spec.Voltage != d.Voltage || holds(k) < l.gust {
			continue
		}
		if lock == nil || k.Part.Price < lock.Part.Price {
			lock = k
		}
	}
	if lock == nil {
		return h, nil
	}
	h.Locked = units.Known(holds(lock))
	return h, lock
}

// gustAt is the gust whose moment a force at a lever just holds.
func (l *leafStudy) gustAt(force units.Opt[units.Force], lever units.Length) units.Opt[units.Speed] {
	f, stated := force.Get()
	if !stated {
		return units.Opt[units.Speed]{}
	}
	v, limited := l.loading.SpeedLimit(units.Torque(float64(f)*float64(lever)), l.density)
	if !limited {
		return units.Opt[units.Speed]{}
	}
	return units.Known(v)
}

// lesser is the lesser of two ratings, not stated where either isn't.
func lesser(a, b units.Opt[units.Force]) units.Opt[units.Force] {
	x, okX := a.Get()
	y, okY := b.Get()
	if !okX || !okY {
		return units.Opt[units.Force]{}
	}
	return units.Known(min(x, y))
}

func (h Holding) asRule(gust units.Speed, lock *catalog.Item[catalog.Lock]) rules.Holding {
	out := rules.Holding{Gust: gust, Closed: h.Closed, Open: h.Open, Locked: h.Locked}
	if lock != nil {
		out.LockSKU = lock.Part.SKU
	}
	return out
}
