package room

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// PastLine is how the leaf stands to a line parallel to the closed leaf, such as
// the edge of a public way, at distance y on the opening side: Clearance is what
// is left to the line, negative by how much the leaf crosses it.
func (l Leaf) PastLine(open units.Angle, y, keep units.Length) (Swing, error) {
	err := errors.Join(l.check(), checkSwing(open), checkKeep(keep))
	if !(math.Abs(float64(y)) <= believedReach) {
		err = errors.Join(err, fmt.Errorf("a line at %g m is not within %g m", float64(y), believedReach))
	}
	if err != nil {
		return Swing{}, err
	}
	limit := float64(y - keep)
	s := Swing{Outcome: Free, Clearance: units.Length(math.Inf(1)), FreeTo: open}
	closed, first := math.Inf(-1), math.Inf(1)
	for _, corner := range l.corners() {
		closed = max(closed, corner.y)
		t := trackOf(corner, float64(open), 1)
		var heights, crossings moments
		heights.add(0)
		heights.add(t.turn)
		heights.towards(t, math.Pi/2)
		for _, theta := range heights.all() {
			if left := y - units.Length(t.at(theta).y); left < s.Clearance || left == s.Clearance && units.Angle(theta) < s.At {
				s.Clearance, s.At = left, units.Angle(theta)
			}
		}
		crossings.crossings(t, vec{0, 1}, limit)
		for _, theta := range crossings.all() {
			first = min(first, theta)
		}
	}
	switch {
	case closed > limit:
		s.Outcome, s.FreeTo = BlockedClosed, 0
	case s.Clearance < keep:
		s.Outcome, s.FreeTo = Limited, min(s.At, units.Angle(first))
	}
	return s, nil
}
