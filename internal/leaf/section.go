// Package leaf is the moving panel as a body: what it weighs, where its mass
// sits, what its hinges, its lean and the wind ask of a drive at every angle,
// and what the post that carries it feels.
//
// Where a figure is known only between bounds, each result is taken at the
// bound that is unfavorable for it.
package leaf

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// SectionProperties are those of a bar's cross-section.
type SectionProperties struct {
	Area       units.Area
	AlongWidth Stiffness // for a load acting along the section's width
	AlongDepth Stiffness // for a load acting along its depth
}

// Stiffness is what a section sets against bending in one plane.
type Stiffness struct {
	SecondMoment float64 // m4, I
	Modulus      float64 // m3, W = 2 I / H
}

// largestSection bounds what is taken for a bar or a post, m.
const largestSection units.Length = 5

// Properties are those of a section in a material. Hollow steel sections have
// the rounded corners of cold forming; every other section, and a wall so thick
// that the rule's corners would not fit, is taken with sharp corners, which
// errs to the heavy side. It returns an error where the sizes make no section.
func Properties(material gate.Material, s gate.Section) (SectionProperties, error) {
	if err := checkSection(s); err != nil {
		return SectionProperties{}, err
	}
	b, h, t := float64(s.Width), float64(s.Depth), float64(s.Wall)
	if s.Round {
		return roundProperties(b, t), nil
	}
	if t == 0 {
		return SectionProperties{
			Area:       units.Area(b * h),
			AlongWidth: stiffness(h*b*b*b/12, b),
			AlongDepth: stiffness(b*h*h*h/12, h),
		}, nil
	}
	var outer, inner float64
	if material == gate.Steel {
		outer, inner = cornerRadii(t)
		if 2*outer > math.Min(b, h) {
			outer, inner = 0, 0
		}
	}
	return SectionProperties{
		Area:       units.Area(2*t*(b+h-2*t) - (4-math.Pi)*(outer*outer-inner*inner)),
		AlongWidth: stiffness(hollowSecondMoment(h, b, t, outer, inner), b),
		AlongDepth: stiffness(hollowSecondMoment(b, h, t, outer, inner), h),
	}, nil
}

func checkSection(s gate.Section) error {
	smaller := s.Width
	if !s.Round {
		smaller = min(s.Width, s.Depth)
		if !(s.Depth > 0 && s.Depth <= largestSection) {
			return fmt.Errorf("leaf: section depth of %v m is not above 0 and at most %v m", float64(s.Depth), float64(largestSection))
		}
	}
	if !(s.Width > 0 && s.Width <= largestSection) {
		return fmt.Errorf("leaf: section width of %v m is not above 0 and at most %v m", float64(s.Width), float64(largestSection))
	}
	if !(s.Wall >= 0) {
		return errors.New("leaf: a section's wall can't be negative")
	}
	if 2*s.Wall >= smaller {
		return fmt.Errorf("leaf: a wall of %v m fills a section %v m across", float64(s.Wall), float64(smaller))
	}
	return nil
}

// cornerRadii are the outer and inner corner radii of a cold-formed hollow
// section with wall t, m: 2 t and t up to 6 mm, 2.5 t and 1.5 t up to 10 mm, 3 t
// and 2 t above. Source: EN 10219-2, as reproduced in the xcfem/xc library,
// whose table of 514 sections the formulas below give back.
func cornerRadii(t float64) (outer, inner float64) {
	switch {
	case t <= 0.006:
		return 2 * t, t
	case t <= 0.010:
		return 2.5 * t, 1.5 * t
	default:
		return 3 * t, 2 * t
	}
}

// hollowSecondMoment is I of a rectangular hollow section of breadth b, depth h
// in the plane of bending and wall t, less its corners (m, m4), by EN 10219-2,
// as reproduced in the xcfem/xc library:
//
//	I = b h^3/12 - (b-2t)(h-2t)^3/12 - 4 (Ig + Ag hg^2) + 4 (Ix + Ax hx^2)
//
// with Ag, Ig, hg of the outer corners and Ax, Ix, hx of the inner ones.
func hollowSecondMoment(b, h, t, outer, inner float64) float64 {
	bi, hi := b-2*t, h-2*t
	return b*h*h*h/12 - bi*hi*hi*hi/12 - 4*cornerMoment(outer, h) + 4*cornerMoment(inner, hi)
}

// cornerMoment is the second moment, about the section's middle, of what a
// radius r takes away from one corner of a rectangle of depth h (m, m4): its own
// (1/3 - pi/16 - 1/(3(12-3pi))) r^4 and its area (1 - pi/4) r^2 times the square
// of its distance h/2 - (10-3pi)/(12-3pi) r.
func cornerMoment(r, h float64) float64 {
	own := (1.0/3 - math.Pi/16 - 1/(3*(12-3*math.Pi))) * r * r * r * r
	distance := h/2 - (10-3*math.Pi)/(12-3*math.Pi)*r
	return own + (1-math.Pi/4)*r*r*distance*distance
}

// roundProperties are those of a round tube of diameter d and wall t, or of a
// solid bar where t is 0 (m): A = pi (d^2 - di^2)/4, I = pi (d^4 - di^4)/64.
func roundProperties(d, t float64) SectionProperties {
	di := d - 2*t
	if t == 0 {
		di = 0
	}
	both := stiffness(math.Pi/64*(d*d*d*d-di*di*di*di), d)
	return SectionProperties{
		Area:       units.Area(math.Pi / 4 * (d*d - di*di)),
		AlongWidth: both,
		AlongDepth: both,
	}
}

func stiffness(secondMoment, depth float64) Stiffness {
	return Stiffness{SecondMoment: secondMoment, Modulus: 2 * secondMoment / depth}
}
