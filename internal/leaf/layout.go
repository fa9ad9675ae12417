package leaf

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

// layout is a construction's parts set out over the leaf: SI, m and m3.
type layout struct {
	width, height float64
	stileFace     float64 // width of a stile in the leaf's plane
	railFace      float64
	barFace       float64
	railLength    float64 // clear width between the stiles
	barLength     float64 // clear height between the outer rails, less the rails crossed
	clearHeight   float64 // inside the outer rails
	railCount     int
	barCount      int

	stiles, rails, bars float64 // volume of material, m3
	infill              float64 // mass, kg
}

const (
	mostRails  = 100
	mostBars   = 2000
	mostInfill = units.ArealMass(1000) // kg/m2
)

func layOut(c gate.Construction, width, height units.Length) (layout, error) {
	f := layout{
		width: float64(width), height: float64(height),
		stileFace: float64(c.Stile.Width), railFace: float64(c.Rail.Width),
		railCount: c.RailCount, barCount: c.BarCount,
	}
	stile, err := Properties(c.Material, c.Stile)
	if err != nil {
		return layout{}, fmt.Errorf("stile: %w", err)
	}
	rail, err := Properties(c.Material, c.Rail)
	if err != nil {
		return layout{}, fmt.Errorf("rail: %w", err)
	}
	if f.railCount < 2 || f.railCount > mostRails {
		return layout{}, fmt.Errorf("leaf: a frame has 2 to %d rails, not %d", mostRails, f.railCount)
	}
	f.railLength = f.width - 2*f.stileFace
	f.clearHeight = f.height - 2*f.railFace
	f.barLength = f.height - float64(f.railCount)*f.railFace
	if f.railLength <= 0 || f.barLength <= 0 {
		return layout{}, errors.New("leaf: the frame's sections fill the leaf")
	}
	f.stiles = 2 * float64(stile.Area) * f.height
	f.rails = float64(f.railCount) * float64(rail.Area) * f.railLength
	if err := f.addBars(c); err != nil {
		return layout{}, err
	}
	if infill, known := c.Infill.Get(); known {
		if !(infill >= 0 && infill <= mostInfill) {
			return layout{}, fmt.Errorf("leaf: infill of %v kg/m2 is not between 0 and %v kg/m2", float64(infill), float64(mostInfill))
		}
		f.infill = float64(infill) * f.railLength * f.clearHeight
	}
	return f, nil
}

func (f *layout) addBars(c gate.Construction) error {
	section, known := c.Bar.Get()
	switch {
	case !known && f.barCount == 0:
		return nil
	case !known:
		return errors.New("leaf: bars are counted but have no section")
	case f.barCount < 1 || f.barCount > mostBars:
		return fmt.Errorf("leaf: a count of %d bars is not between 1 and %d", f.barCount, mostBars)
	}
	bar, err := Properties(c.Material, section)
	if err != nil {
		return fmt.Errorf("bar: %w", err)
	}
	f.barFace = float64(section.Width)
	if float64(f.barCount)*f.barFace > f.railLength {
		return errors.New("leaf: the bars don't fit between the stiles")
	}
	f.bars = float64(f.barCount) * float64(bar.Area) * f.barLength
	return nil
}

// gyration is the radius of gyration about the hinge axis (the outer edge of the
// first stile) of the parts as lines in the leaf's plane, from k^2 = sum(m x^2)/m:
// stiles at their centers, rails and infill evenly between the stiles, bars at
// equal distances, hardware evenly over the width.
func (f *layout) gyration(p Parts) units.Length {
	far := f.width - f.stileFace/2
	near := f.stileFace / 2
	between := f.width*f.width/4 + f.railLength*f.railLength/12
	moment := float64(p.Stiles)/2*(near*near+far*far) +
		float64(p.Rails+p.Infill)*between +
		float64(p.Bars)*f.meanBarSquare() +
		float64(p.Hardware)*f.width*f.width/3
	total := float64(p.Stiles + p.Rails + p.Bars + p.Infill + p.Hardware)
	return units.Length(math.Sqrt(moment / total))
}

// meanBarSquare is the mean of x_i^2 for n bars at x_i = s + l i/(n+1), i = 1..n,
// s the stile's face and l the clear width: their mean is the leaf's middle, and
// i has the variance (n^2 - 1)/12.
func (f *layout) meanBarSquare() float64 {
	n := float64(f.barCount)
	pitch := f.railLength / (n + 1)
	return f.width*f.width/4 + pitch*pitch*(n*n-1)/12
}

// ProjectedSolidity is the solidity of a frame with bars, from the faces of its
// members over width times height. It returns false where it can't be told: the
// construction has a sheet or mesh of unknown openness, or doesn't fit together.
func ProjectedSolidity(c gate.Construction, width, height units.Length) (float64, bool) {
	if c.Infill.IsKnown() || checkSize("width", width) != nil || checkSize("height", height) != nil {
		return 0, false
	}
	f, err := layOut(c, width, height)
	if err != nil {
		return 0, false
	}
	blocked := 2*f.stileFace*f.height +
		float64(f.railCount)*f.railFace*f.railLength +
		float64(f.barCount)*f.barFace*f.barLength
	return math.Min(1, blocked/(f.width*f.height)), true
}
