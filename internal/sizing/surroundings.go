package sizing

import (
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/room"
	"leafmoment.example/leafmoment/internal/rules"
	"leafmoment.example/leafmoment/internal/units"
)

// checkRoom judges each leaf's swing over the ground, past obstacles, at its own
// pier and towards a public way. It returns the obstacles that have no shape.
func (s *study) checkRoom() []gate.Fault {
	var faults []gate.Fault
	for i := range s.leaves {
		l := &s.leaves[i]
		slab := l.slab()
		s.checkGround(l)
		for j, o := range s.gate.Obstacles {
			if height, known := o.Height.Get(); known && height < l.described.BottomClearance.Or(0) {
				continue // the leaf passes over it
			}
			shape, err := s.shapeFor(l, o)
			if err != nil {
				if i == 0 {
					faults = append(faults, gate.Fault{Field: fmt.Sprintf("obstacles[%d].outline", j), Reason: gate.Impossible, Text: err.Error()})
				}
				continue
			}
			if swing, err := slab.Sweep(s.open, shape, s.catalog.Policies.LeastSideClearance); err == nil {
				s.findings = append(s.findings, rules.Sweep(i, j, swing, s.open, s.catalog.Policies)...)
			}
		}
		s.checkOwnPier(l, slab)
	}
	s.findings = append(s.findings, rules.PublicWay(s.gate, s.leftToPublicWay())...)
	return faults
}

func (l *leafStudy) slab() room.Leaf {
	return room.Leaf{Width: l.width, Thickness: l.thickness, Offset: l.offset}
}

// span is the distance of the hinge axes of a pair.
func (s *study) span() units.Length {
	if w, known := s.gate.Driveway.Width.Get(); known {
		return w
	}
	var sum units.Length
	for i := range s.leaves {
		sum += s.leaves[i].width
	}
	return sum
}

// toLeaf turns a point of the gate's plan frame into the leaf's own: the second
// leaf of a pair hangs at the far end and is its mirror image.
func (s *study) toLeaf(l *leafStudy, p gate.Point) room.Point {
	if l.index == 0 {
		return room.Point{X: p.X, Y: p.Y}
	}
	return room.Point{X: s.span() - p.X, Y: p.Y}
}

func (s *study) shapeFor(l *leafStudy, o gate.Obstacle) (room.Obstacle, error) {
	if r, disc := o.Radius.Get(); disc {
		return room.NewDisc(s.toLeaf(l, o.Center), r)
	}
	corners := make([]room.Point, len(o.Outline))
	for i, p := range o.Outline {
		corners[i] = s.toLeaf(l, p)
	}
	return room.NewOutline(corners)
}

// checkGround judges the ground under a leaf. The clearance given is the lowest
// under the closed leaf; the model wants that at the hinge axis. A lean whose
// direction isn't known may lower the free edge by 2 L sin(lean) sin(theta/2) at
// most, which is taken off.
func (s *study) checkGround(l *leafStudy) {
	ground := s.gate.Ground
	along, alongKnown := ground.SlopeAlong.Get()
	across, acrossKnown := ground.SlopeAcross.Get()
	if !alongKnown && !acrossKnown && len(ground.Spots) == 0 {
		return
	}
	if l.index == 0 && alongKnown != acrossKnown {
		field := "gate.ground.slope_across_percent"
		if acrossKnown {
			field = "gate.ground.slope_along_percent"
		}
		s.assumeText(field, "0 %", "the other slope was given")
	}
	if l.index == 1 {
		along = -along
	}
	slope := -float64(l.described.OutOfLevel.Or(0) / l.width)
	lowest := l.described.BottomClearance.Or(0)
	bottom := room.Bottom{
		Width: l.width, Slope: slope,
		Clearance: lowest - units.Length(math.Min(0, float64(l.width)*(slope-along))),
	}
	lean := l.described.OutOfPlumb.Or(0)
	if direction, known := l.described.LeanDirection.Get(); known {
		bottom.Lean, bottom.LeanDirection = lean, direction
	} else {
		bottom.Clearance -= units.Length(2 * float64(l.width) * math.Sin(float64(lean)) * math.Sin(float64(s.open)/2))
	}
	keep := s.catalog.Policies.LeastGroundClearance
	if alongKnown || acrossKnown {
		if g, err := bottom.OverPlane(s.open, room.Plane{Along: along, Across: across}, keep); err == nil {
			s.findings = append(s.findings, rules.Ground(l.index, g, s.open, s.catalog.Policies)...)
		}
	}
	if len(ground.Spots) > 0 {
		spots := make([]room.Spot, len(ground.Spots))
		for i, spot := range ground.Spots {
			spots[i] = room.Spot{At: s.toLeaf(l, gate.Point{X: spot.X, Y: spot.Y}), Height: spot.Height}
		}
		if g, err := bottom.OverSpots(s.open, spots, keep); err == nil {
			s.findings = append(s.findings, rules.Ground(l.index, g, s.open, s.catalog.Policies)...)
		}
	}
}

// checkOwnPier judges the leaf at its own pier, where that is known well enough.
func (s *study) checkOwnPier(l *leafStudy, slab room.Leaf) {
	post := l.described.Post
	width, widthKnown := post.Width.Get()
	inset, insetKnown := post.HingeInset.Get()
	setback, setbackKnown := post.HingeSetback.Get()
	if !widthKnown || !insetKnown || !setbackKnown {
		return
	}
	swing, err := slab.LargestOpening(room.Pier{
		Round: post.Shape == gate.PostRound, Width: width, Depth: post.Depth.Or(width), Jamb: inset, Face: setback,
	}, 0)
	if err == nil {
		s.findings = append(s.findings, rules.OwnPier(l.index, swing, s.open)...)
	}
}

// leftToPublicWay is the least any leaf leaves to the public way, where its
// distance is known; negative by how much a leaf swings over it.
func (s *study) leftToPublicWay() units.Opt[units.Length] {
	distance, known := s.gate.Driveway.PublicWayDistance.Get()
	if !known {
		return units.Opt[units.Length]{}
	}
	left := distance
	for i := range s.leaves {
		if swing, err := s.leaves[i].slab().PastLine(s.open, distance, 0); err == nil {
			left = min(left, swing.Clearance)
		}
	}
	return units.Known(left)
}
