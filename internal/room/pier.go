package room

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Pier is the post or pier that carries the leaf, by its two faces near the
// hinge axis. A round post lies within the square of the same faces.
type Pier struct {
	Round bool
	Width units.Length // along the closed leaf; the diameter of a round post
	Depth units.Length // across; not read for a round post
	Jamb  units.Length // x of the face next to the opening; negative where the axis stands off it
	Face  units.Length // y of the face on the opening side; positive where the axis is set back
}

// LargestOpening is how far the leaf may swing, up to 180 degrees, before its
// hinge-side corners or its face come nearer than keep to its own pier.
func (l Leaf) LargestOpening(p Pier, keep units.Length) (Swing, error) {
	o, err := p.obstacle()
	if err = errors.Join(err, l.check(), checkKeep(keep)); err != nil {
		return Swing{}, err
	}
	return l.sweep(math.Pi, o, keep), nil
}

func (p Pier) obstacle() (Obstacle, error) {
	var (
		o   Obstacle
		err error
	)
	switch {
	case p.Round:
		radius := p.Width / 2
		o, err = NewDisc(Point{p.Jamb - radius, p.Face - radius}, radius)
	case !(p.Width > 0 && p.Depth > 0):
		err = fmt.Errorf("its size of %g by %g m must be positive", float64(p.Width), float64(p.Depth))
	default:
		o, err = NewOutline([]Point{
			{p.Jamb - p.Width, p.Face - p.Depth}, {p.Jamb, p.Face - p.Depth},
			{p.Jamb, p.Face}, {p.Jamb - p.Width, p.Face},
		})
	}
	if err != nil {
		return Obstacle{}, fmt.Errorf("pier: %w", err)
	}
	return o, nil
}
