package sizing

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/units"
)

// seat is where a rear bracket can be fixed: a plane at a distance from the
// hinge axis, and on it a surface along the closed leaf.
type seat struct {
	plane     units.Length // hinge axis to the plane, positive towards the drive's side
	low, high units.Length // x of the surface's ends; high is next to the opening
}

// seatOf works out a leaf's seat from its post. What isn't known is taken so
// that a square post carries its leaf in its middle; a pier of which too little
// is known is a finding of package rules.
func (s *study) seatOf(i int, post gate.Post) seat {
	at := fmt.Sprintf("gate.leaves[%d].hinge_post.", i)
	width := assume(s, at+"width_mm", post.Width, s.catalog.Policies.PostWidth, millimeters, "the supplier's usual post")
	inset := assume(s, at+"hinge_inset_mm", post.HingeInset, 0, millimeters, "hinge axis flush with the post's edge")
	out := seat{low: inset - width, high: inset}
	if plane, known := post.MountingPlane.Get(); known {
		out.plane = plane
		return out
	}
	depth := post.Depth.Or(width)
	middle, why := depth/2, "leaf in the middle of its post"
	if post.Shape == gate.PostPier || post.Shape == gate.PostWall {
		middle, why = 0, "hinge axis flush with the pier's face"
	}
	setback := assume(s, at+"hinge_setback_mm", post.HingeSetback, middle, millimeters, why)
	out.plane = setback
	if s.side == linkage.Push {
		out.plane = depth - setback
	}
	return out
}

// rearPositions are the ranges of a and b that a rear bracket allows on a seat;
// false where its pin can't stand on the drive's side at all.
//
// The plate stays within the surface, or at its middle where it is wider. From
// its center the pin stands off by the bracket's reach: away from the leaf for
// a pull mounting, towards it for a push mounting.
func rearPositions(side linkage.Side, at seat, bracket catalog.RearBracket) (a linkage.Interval, b []linkage.Interval, ok bool) {
	low, high := at.low+bracket.PlateWidth/2, at.high-bracket.PlateWidth/2
	if low > high {
		low = (at.low + at.high) / 2
		high = low
	}
	if side == linkage.Pull {
		a = linkage.Interval{Low: (-high).RoundedMillimeters() + bracket.Reach.Low, High: (-low).RoundedMillimeters() + bracket.Reach.High}
	} else {
		a = linkage.Interval{Low: low.RoundedMillimeters() + bracket.Reach.Low, High: high.RoundedMillimeters() + bracket.Reach.High}
	}
	a.Low = max(a.Low, leastOffset)
	plane := at.plane.RoundedMillimeters()
	for _, r := range bracket.Standoffs {
		if r.High+plane >= leastOffset {
			b = append(b, linkage.Interval{Low: max(r.Low+plane, leastOffset), High: r.High + plane})
		}
	}
	return a, b, a.Low <= a.High && len(b) > 0
}

// leastOffset keeps a pin off the hinge axis, mm: pin and hinge need room for
// their own bodies. Common practice, no source.
const leastOffset = 20

// brackets are those that carry a drive of a family on one leaf.
type brackets struct {
	rear     *catalog.Item[catalog.RearBracket]
	leaf     *catalog.Item[catalog.LeafBracket]
	found    bool
	a        linkage.Interval
	b        []linkage.Interval
	standoff int // e, mm
}

type bracketKey struct {
	family string
	leaf   int
}

// bracketsFor picks the brackets for a family on a leaf: the form the post and
// the frame call for, else the flat one; the first by SKU. A wanted rear
// bracket overrides the choice.
func (s *study) bracketsFor(family string, l *leafStudy, wanted string) brackets {
	key := bracketKey{family, l.index}
	if b, ok := s.brackets[key]; ok {
		return b
	}
	b := brackets{}
	rear := s.catalog.RearBrackets()
	pick := func(form catalog.RearBracketForm) {
		for i := range rear {
			r := &rear[i]
			if b.rear == nil && r.Spec.Form == form && contains(r.Spec.Families, family) && (wanted == "" || r.Part.SKU == wanted) && fitsRound(r.Spec, l.described.Post) {
				b.rear = r
			}
		}
	}
	switch {
	case s.side == linkage.Push:
		pick(catalog.PushBracket)
	case l.described.Post.Shape == gate.PostRound:
		pick(catalog.CurvedBracket)
		pick(catalog.FlatBracket)
	default:
		pick(catalog.FlatBracket)
	}
	onLeaf := s.catalog.LeafBrackets()
	pickLeaf := func(form catalog.LeafBracketForm) {
		for i := range onLeaf {
			r := &onLeaf[i]
			if b.leaf == nil && r.Spec.Form == form && contains(r.Spec.Families, family) {
				b.leaf = r
			}
		}
	}
	if l.described.Frame == gate.FrameRoundTube {
		pickLeaf(catalog.ClampLeafBracket)
	}
	pickLeaf(catalog.FlatLeafBracket)
	if b.rear != nil && b.leaf != nil {
		b.a, b.b, b.found = rearPositions(s.side, l.seat, b.rear.Spec)
		face := l.offset + l.thickness/2
		if s.side == linkage.Push {
			face = l.thickness/2 - l.offset
		}
		b.standoff = (face + b.leaf.Spec.Standoff).RoundedMillimeters()
	}
	s.brackets[key] = b
	return b
}

// fitsRound reports whether a curved bracket fits the post's diameter; other
// brackets, and posts of unknown diameter, are not refused here.
func fitsRound(b catalog.RearBracket, post gate.Post) bool {
	diameters, stated := b.PostDiameter.Get()
	width, known := post.Width.Get()
	if b.Form != catalog.CurvedBracket || !stated || !known {
		return true
	}
	mm := width.RoundedMillimeters()
	return mm >= diameters.Low && mm <= diameters.High
}

func contains(list []string, v string) bool {
	for _, s := range list {
		if s == v {
			return true
		}
	}
	return false
}
