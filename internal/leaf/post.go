package leaf

import (
	"errors"
	"math"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// PostBar is a post reckoned as an upright elastic bar held fast at the ground.
type PostBar struct {
	Section SectionProperties
	Modulus units.Pressure // Young's modulus
	Height  units.Length   // ground to top
	round   bool
}

// NewPostBar is the bar of a post. The reason tells why a post can't be reckoned
// as one, and is empty where it can: a pier or a wall, a material that is no
// elastic bar, or a size nobody told. It returns an error where the sizes that
// were told make no section.
func NewPostBar(p gate.Post) (bar PostBar, reason string, err error) {
	if p.Shape != gate.PostRectangular && p.Shape != gate.PostRound {
		return PostBar{}, "only a rectangular or a round post bends as a bar", nil
	}
	modulus, elastic := elasticModulus(p.Material)
	if !elastic {
		return PostBar{}, "only steel, aluminum and timber posts are reckoned", nil
	}
	width, widthKnown := p.Width.Get()
	height, heightKnown := p.Height.Get()
	wall, wallKnown := p.Wall.Get()
	timber := p.Material == gate.Softwood || p.Material == gate.Hardwood
	if !widthKnown || !heightKnown || !wallKnown && !timber {
		return PostBar{}, "the post's width, height and wall are needed", nil
	}
	if !(height > 0 && height <= widest) {
		return PostBar{}, "", errors.New("leaf: a post's height is above 0 and at most 20 m")
	}
	section := gate.Section{Round: p.Shape == gate.PostRound, Width: width, Depth: p.Depth.Or(width), Wall: wall}
	properties, err := Properties(p.Material, section)
	if err != nil {
		return PostBar{}, "", err
	}
	return PostBar{Section: properties, Modulus: modulus, Height: height, round: section.Round}, "", nil
}

// PostLoad is a horizontal force on a post: X along the closed leaf, Y towards
// the side the gate opens to.
type PostLoad struct {
	Height units.Length // over the ground
	X, Y   units.Force
}

// OnPost is a leaf's couple as loads on its post at leaf angle theta: towards the
// free edge at the upper hinge, away from it at the lower one.
func (r HingeReactions) OnPost(lower, upper units.Length, theta units.Angle) [2]PostLoad {
	sin, cos := math.Sincos(float64(theta))
	x, y := units.Force(float64(r.Horizontal)*cos), units.Force(float64(r.Horizontal)*sin)
	return [2]PostLoad{{Height: upper, X: x, Y: y}, {Height: lower, X: -x, Y: -y}}
}

// PostBending is a post under its loads.
type PostBending struct {
	Foot       units.Torque   // bending moment at the ground, both planes together
	Stress     units.Pressure // largest bending stress at the ground
	Deflection units.Length   // sideways, at the height asked for
}

// Bend is the post under horizontal loads, its sideways movement taken at a
// height. For a load P at height a of a bar held at its foot, with E I its
// stiffness:
//
//	M = P a    sigma = M/W    delta(z) = P a^2 (3z - a)/(6 E I) for z >= a
//	                                     P z^2 (3a - z)/(6 E I) for z <= a
//
// summed over the loads in each plane. The stresses of a rectangular post's two
// planes add up at a corner; a round post bends about the resultant. Source: beam
// tables of any strength-of-materials text. Shear, twist, the leaf's weight and a
// foot that gives way are not in it, so the real post moves more. A load or a
// height asked for above the top, under the ground or no number is an error.
func (p PostBar) Bend(loads []PostLoad, at units.Length) (PostBending, error) {
	if !(at >= 0 && at <= p.Height) {
		return PostBending{}, errors.New("leaf: the height asked for is not on the post")
	}
	var mx, my, dx, dy float64
	for _, l := range loads {
		if !(l.Height >= 0 && l.Height <= p.Height) || !units.Finite(float64(l.X)) || !units.Finite(float64(l.Y)) {
			return PostBending{}, errors.New("leaf: a load is not on the post or no number")
		}
		shape := unitDeflection(float64(l.Height), float64(at))
		mx += float64(l.X) * float64(l.Height)
		my += float64(l.Y) * float64(l.Height)
		dx += float64(l.X) * shape
		dy += float64(l.Y) * shape
	}
	along, across := p.Section.AlongWidth, p.Section.AlongDepth
	stress := math.Abs(mx)/along.Modulus + math.Abs(my)/across.Modulus
	if p.round {
		stress = math.Hypot(mx, my) / along.Modulus
	}
	e := float64(p.Modulus)
	return PostBending{
		Foot:       units.Torque(math.Hypot(mx, my)),
		Stress:     units.Pressure(stress),
		Deflection: units.Length(math.Hypot(dx/(e*along.SecondMoment), dy/(e*across.SecondMoment))),
	}, nil
}

// unitDeflection is delta E I / P, m3, at height z for a load at height a (m).
func unitDeflection(a, z float64) float64 {
	if z >= a {
		return a * a * (3*z - a) / 6
	}
	return z * z * (3*a - z) / 6
}
