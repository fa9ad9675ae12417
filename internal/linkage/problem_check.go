package linkage

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Bounds on what a mounting can be at all; they only keep absurd input out.
const (
	longestDimension = 20000                            // mm
	largestBox       = 50                               // mm
	largestAngle     = units.Angle(175 * math.Pi / 180) // the triangle needs a leaf that turns less than half a circle
	leastArm         = units.Length(0.001)              // m
	maxBracketRanges = 32
	widestRange      = 2000 // mm, of a and of each range of b
	maxSamples       = 4096
	leastMoment      = 1e-6 // N m
	largestMoment    = 1e9  // N m and kg m2: far above any leaf, far below overflow
	leastForce       = 1e-3 // N
	largestForce     = 1e9  // N
	leastSpeed       = 1e-6 // m/s and m/s2
	largestSpeed     = 10   // m/s
	largestRamp      = 1000 // m/s2
)

// faults collects what is wrong with a problem.
type faults struct{ list []error }

func (f *faults) add(format string, args ...any) {
	f.list = append(f.list, fmt.Errorf("linkage: "+format, args...))
}

// within wants low <= v <= high; NaN is never within.
func (f *faults) within(name string, v, low, high float64) {
	if !(v >= low && v <= high) {
		f.add("%s is %v, not within %v to %v", name, v, low, high)
	}
}

func (f *faults) rangeWithin(name string, r Interval, lowest int) {
	if r.Low > r.High || r.Low < lowest || r.High > longestDimension {
		f.add("%s from %d to %d mm is no range within %d to %d mm", name, r.Low, r.High, lowest, longestDimension)
	}
}

func (f *faults) notWide(name string, r Interval) {
	if r.High-r.Low > widestRange {
		f.add("%s from %d to %d mm is more than %d mm wide", name, r.Low, r.High, widestRange)
	}
}

// Check reports everything that keeps the problem from being worked on. That
// nothing solves it is not an error.
func (p *Problem) Check() error {
	var f faults
	p.checkDimensions(&f)
	p.checkSwing(&f)
	p.checkRam(&f)
	p.checkDemand(&f)
	return errors.Join(f.list...)
}

func (p *Problem) checkDimensions(f *faults) {
	if p.Side > Push {
		f.add("side %d is neither pull nor push", p.Side)
	}
	f.rangeWithin("a", p.A, 0)
	f.rangeWithin("c", p.C, 1)
	f.notWide("a", p.A)
	if len(p.B) == 0 || len(p.B) > maxBracketRanges {
		f.add("%d ranges of b; 1 to %d can be searched", len(p.B), maxBracketRanges)
	}
	for _, r := range p.B {
		f.rangeWithin("b", r, 0)
		f.notWide("b", r)
	}
	f.rangeWithin("e", Interval{p.E, p.E}, -longestDimension)
	f.rangeWithin("box", Interval{p.Box, p.Box}, 0)
	if p.Box > largestBox {
		f.add("box of %d mm is more than %d mm", p.Box, largestBox)
	}
}

func (p *Problem) checkSwing(f *faults) {
	end := p.Swing.End()
	if !(p.Open > 0 && end >= p.Open && end <= largestAngle) {
		f.add("opening %.4g and swing to %.4g degrees; wanted 0 < opening <= swing <= %.4g", p.Open.Degrees(), end.Degrees(), largestAngle.Degrees())
	}
	if !p.OpenByRamEnd && end > p.Open {
		f.add("a stop or switch ends the opening at %.4g degrees, but the swing goes to %.4g", p.Open.Degrees(), end.Degrees())
	}
	if n := p.Swing.Samples(); n < 2 || n > maxSamples {
		f.add("swing of %d angles; 2 to %d can be judged", n, maxSamples)
	}
}

func (p *Problem) checkRam(f *faults) {
	const longest = longestDimension / 1000.0
	f.within("shortest length (m)", float64(p.Ram.Shortest), float64(leastArm), longest)
	f.within("longest length (m)", float64(p.Ram.Longest), float64(p.Ram.Shortest), longest)
	f.within("thrust extending (N)", float64(p.Ram.ThrustExtending), leastForce, largestForce)
	f.within("thrust retracting (N)", float64(p.Ram.ThrustRetracting), leastForce, largestForce)
	f.within("least arm (m)", float64(p.MinArm), float64(leastArm), longest)
	f.within("reserve at closed (m)", float64(p.ReserveClosed), 0, longest)
	f.within("reserve at open (m)", float64(p.ReserveOpen), 0, longest)
	f.within("rear sweep limit (rad)", float64(p.Ram.RearSweepMax.Or(0)), 0, 2*math.Pi)
	f.within("front sweep limit (rad)", float64(p.Ram.FrontSweepMax.Or(0)), 0, 2*math.Pi)
	f.within("stroke limit (m)", float64(p.MaxStroke.Or(0)), 0, longest)
}

func (p *Problem) checkDemand(f *faults) {
	d := &p.Demand
	if n := p.Swing.Samples(); len(d.Opening) != n || len(d.Closing) != n {
		f.add("%d opening and %d closing moments for %d angles", len(d.Opening), len(d.Closing), n)
	}
	largest := 0.0
	for _, moments := range [2][]float64{d.Opening, d.Closing} {
		for i, m := range moments {
			if !(m >= -largestMoment && m <= largestMoment) {
				f.add("resisting moment at angle %d is %v N m", i, m)
			}
			largest = max(largest, m)
		}
	}
	if !(largest >= leastMoment) {
		f.add("nothing resists the leaf at any angle, so there is no margin to state")
	}
	f.within("inertia (kg m2)", float64(d.Inertia), 0, largestMoment)
	if d.Inertia > 0 {
		f.within("rod speed (m/s)", float64(d.RodSpeed), leastSpeed, largestSpeed)
		f.within("rod acceleration (m/s2)", float64(d.RodAcceleration), leastSpeed, largestRamp)
	}
}
