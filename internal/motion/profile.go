package motion

import "math"

// A profile is the rod speed the controller asks for over the rod's travel: a
// trapezoid with a slower stretch before the end. At a constant acceleration a
// the speed squared is straight over travel, v2^2 = v1^2 + 2 a (s2 - s1), so the
// profile is a line through a few corners.
type profile struct {
	corners [maxCorners]corner
	n       int
}

// Two ends, the start of the slow zone, and where two limits meet: seven pairs.
const maxCorners = 10

// corner is a point of a profile: travel s (m), speed squared w (m2/s2), and the
// acceleration a (m/s2) from here to the next corner.
type corner struct{ s, w, a float64 }

// newProfile makes the profile over a travel (m) for a top speed (m/s), a ramp
// (m/s2, +Inf for none) at both ends, and a zone (m) before the end in which the
// speed is at most slow (m/s). A zone of zero is none.
func newProfile(travel, top, ramp, zone, slow float64) profile {
	var p profile
	zone = min(zone, travel)
	if zone <= 0 {
		zone, slow = 0, top
	}
	if math.IsInf(ramp, 1) {
		p.add(0, top*top)
		p.add(travel-zone, top*top)
		p.add(travel-zone, slow*slow)
		p.add(travel, slow*slow)
		return p
	}
	atTop, atSlow := top*top/(2*ramp), slow*slow/(2*ramp) // m, ramp lengths from rest
	at := [maxCorners]float64{
		0, travel, travel - zone,
		atTop, atSlow, travel / 2, travel - atTop, travel - atSlow,
		(atSlow + travel - zone) / 2, travel - zone - (atTop - atSlow),
	}
	for i := 1; i < len(at); i++ {
		for j := i; j > 0 && at[j] < at[j-1]; j-- {
			at[j], at[j-1] = at[j-1], at[j]
		}
	}
	for _, s := range at {
		if s < 0 || s > travel {
			continue
		}
		fromRest := min(s, travel-s)
		beforeZone := atSlow + max(0, travel-zone-s)
		p.add(s, 2*ramp*min(fromRest, beforeZone, atTop))
	}
	return p
}

// add appends a corner, drops one that stands in the same place twice, and one
// that lies on the straight line through its neighbors.
func (p *profile) add(s, w float64) {
	if p.n > 0 {
		before := &p.corners[p.n-1]
		if s == before.s && w == before.w {
			return
		}
		if s > before.s {
			before.a = (w - before.w) / (2 * (s - before.s))
		}
	}
	if p.n > 1 {
		a, b := p.corners[p.n-2], p.corners[p.n-1]
		if a.s < b.s && b.s < s && math.Abs(a.a-b.a) <= 1e-9*(math.Abs(a.a)+math.Abs(b.a)) {
			p.corners[p.n-2].a = (w - a.w) / (2 * (s - a.s))
			p.n--
		}
	}
	p.corners[p.n] = corner{s: s, w: w}
	p.n++
}
