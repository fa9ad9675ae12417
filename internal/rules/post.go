package rules

import (
	"leafmoment.example/leafmoment/internal/catalog"
	"leafmoment.example/leafmoment/internal/finding"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/leaf"
	"leafmoment.example/leafmoment/internal/units"
)

// Post judges one hinge post as it is, whichever drive is chosen.
func Post(i int, post gate.Post, pull bool, p catalog.Policies) []finding.Finding {
	var out []finding.Finding
	setback, setbackKnown := post.HingeSetback.Get()
	thick := post.Shape == gate.PostPier || post.Shape == gate.PostWall
	if thick && !post.MountingPlane.IsKnown() && (!setbackKnown || setback > p.PierReviewSetback || !pull && !post.Depth.IsKnown()) {
		f := found(finding.PierNeedsReview, LeafPath(i, "hinge_post"), "Where the rear bracket can sit on this pier isn't known well enough.")
		if setbackKnown {
			f = measured(f, setback.Millimeters(), p.PierReviewSetback.Millimeters(), "mm")
		} else {
			f = remedy(f, finding.Measure, "Measure from the hinge axis to the pier's face on the side the gate opens to (hinge_setback_mm).")
		}
		f = remedy(f, finding.Measure, "Measure from the hinge axis to the face the rear bracket would be fixed to (mounting_plane_mm).")
		f = remedy(f, finding.Photograph, "Photograph the hinges and the pier from above and along the closed leaf, with a tape in the picture.")
		out = append(out, f)
	}
	if thick && setbackKnown && setback > p.PierReviewSetback {
		f := found(finding.PierSuitsArmDrive, LeafPath(i, "hinge_post"), "An arm drive reaches around a pier this thick more easily than a ram.")
		out = append(out, f)
	}
	f := found(finding.FixThroughPost, LeafPath(i, "hinge_post"), "The rear bracket carries the whole thrust of the drive.")
	switch post.Material {
	case gate.Masonry, gate.Concrete:
		f = remedy(f, finding.DoWork, "Fix with anchors rated for this masonry by their maker, or bolt through; never plugs and screws.")
	default:
		f = remedy(f, finding.DoWork, "Bolt through the post with a plate behind, or weld; never self-drilling screws.")
	}
	out = append(out, f)
	if post.Fixity == gate.FixityEarth || post.Fixity == gate.FixityBasePlate && !thick {
		f := found(finding.PostFootUncertain, LeafPath(i, "hinge_post.fixity"), "The post's foot takes the drive's reaction at every start and stop.")
		out = append(out, remedy(f, finding.DoWork, "Have the footing looked at by whoever set the post; concrete it where it moves by hand."))
	}
	return out
}

// RearBracket judges the rear bracket chosen for a post.
func RearBracket(i int, post gate.Post, pull bool, bracket catalog.RearBracket, sku string) []finding.Finding {
	var out []finding.Finding
	if post.Shape == gate.PostRound {
		f := found(finding.RoundPost, LeafPath(i, "hinge_post.shape"), "A flat bracket finds no seat on a round post.")
		if bracket.Form == catalog.CurvedBracket {
			f = remedyPart(f, sku, "Fit the curved bracket.")
		} else {
			f = remedy(f, finding.DoWork, "Have a flat at least as large as the bracket's plate welded to the post.")
		}
		out = append(out, f)
	}
	if !pull {
		f := found(finding.OutwardNeedsPush, "gate.opening.direction", "The gate opens away from the drive, so the drive pushes it open from a bracket that stands in front of the post.")
		out = append(out, remedyPart(f, sku, "Fit the push bracket; or have the drive outside, where it pulls."))
	}
	return out
}

// PostUnderThrust judges a post's give at the drive's height under the drive's
// thrust and the leaf's weight together.
func PostUnderThrust(i int, bending leaf.PostBending, p catalog.Policies) []finding.Finding {
	if bending.Deflection <= p.MostPostDeflection {
		return nil
	}
	f := measured(found(finding.PostTooSlender, LeafPath(i, "hinge_post"), "The post gives by %.0f mm at the rear bracket under the drive's thrust.", bending.Deflection.Millimeters()),
		bending.Deflection.Millimeters(), p.MostPostDeflection.Millimeters(), "mm")
	return []finding.Finding{remedy(f, finding.DoWork, "Have the post stiffened or braced, or replaced by a larger section.")}
}

// PierBlocks says that a drive finds no mounting at a post this deep.
func PierBlocks(i int, plane units.Length, needed units.Opt[units.Length]) finding.Finding {
	f := measuredOnly(found(finding.PierBlocksDrive, LeafPath(i, "hinge_post"), "The bracket's plane lies %.0f mm from the hinge axis, which leaves this drive no mounting that opens the leaf.", plane.Millimeters()),
		plane.Millimeters(), "mm")
	if most, known := needed.Get(); known {
		f.Limit = units.Known(finding.Quantity{Value: most.Millimeters(), Unit: "mm"})
		f = remedy(f, finding.DoWork, "Have the hinges moved towards the pier's face, to within %.0f mm of the bracket's plane.", most.Millimeters())
	}
	return remedy(f, finding.ChangeWish, "Take an arm drive, or a ram on the other side of the gate.")
}
