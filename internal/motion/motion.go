// Package motion runs one leaf through its opening and its closing on a drive
// with a load-speed-current line and says how long it takes, how fast the free
// edge gets, and what thrust, current and energy it costs; and it sets the
// static forces and the kinetic energy beside the published force limits.
package motion

import (
	"errors"
	"fmt"
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// Linkage turns leaf angle into rod travel and lever. linkage.Mounting is one;
// anything with a travel and a virtual-work arm d(travel)/d(angle) can be
// driven, an arm drive too.
type Linkage interface {
	// Length is the position of the driven member, m: pin to pin for a ram.
	Length(theta units.Angle) units.Length
	// Arm is |d Length / d theta|, m: torque about the hinge = thrust x arm.
	Arm(theta units.Angle) units.Length
}

// Leaf is what the drive moves.
type Leaf struct {
	Width   units.Length  // hinge axis to free edge
	Inertia units.Inertia // about the hinge axis
}

// Way is one direction of travel.
type Way struct {
	Line Line
	// Resisting moment about the hinge at equally spaced angles from closed
	// (first) to open (last), straight in between; positive opposes this
	// direction of travel. At least two.
	Moment []units.Torque
	// Slow is the stretch before this direction's end that is run slower.
	Slow SlowZone
}

// SlowZone is the last stretch of rod travel, run at a share of the no-load
// speed. The zero value is none.
type SlowZone struct {
	Travel units.Length
	Share  float64 // of the line's first speed, 0..1
}

// Supply is what arrives at the motor.
type Supply struct {
	Voltage      units.Voltage
	SpeedFactor  float64 // on the line's speeds: 1 at the rated voltage
	ThrustFactor float64 // on the line's thrusts
}

// Setup is one leaf with its drive.
type Setup struct {
	Linkage Linkage
	Leaf    Leaf
	Open    units.Angle // closed is 0
	Opening Way
	Closing Way
	Ramp    units.Acceleration // of the rod, at both ends; +Inf for none
	Supply  Supply
}

// Outcome says how a run ended.
type Outcome int

// The outcomes of a run.
const (
	Completed Outcome = iota // the leaf arrived
	Stalled                  // more thrust was asked for than the line gives at rest
	NoArm                    // the drive's line passes through the hinge axis within the swing
)

// String is the outcome as a word.
func (o Outcome) String() string {
	switch o {
	case Completed:
		return "completed"
	case Stalled:
		return "stalled"
	case NoArm:
		return "no arm"
	}
	return fmt.Sprintf("Outcome(%d)", int(o))
}

// Result is one direction's run. Where the leaf stalled the figures cover the
// run up to there; where the drive has no arm they are zero but for Angle.
type Result struct {
	Outcome           Outcome
	Angle             units.Angle // leaf angle at which the run ended
	Time              units.Time
	PeakRodSpeed      units.Speed
	MeanRodSpeed      units.Speed
	PeakAngularSpeed  units.AngularSpeed
	PeakEdgeSpeed     units.Speed  // of the free edge
	PeakKineticEnergy units.Energy // of the leaf
	PeakThrust        units.Force
	PeakThrustAngle   units.Angle
	Work              units.Energy // net, done by the rod
	// MotorEnergy is the integral of supply voltage times current. A controller
	// that lowers the voltage in ramps and slow zones takes less.
	MotorEnergy units.Energy
	MeanCurrent units.Current
	PeakCurrent units.Current
}

// steps over the swing at the least; a run adds some where the thrust changes
// quickly and where the leaf leaves or meets the speed asked for.
const steps = 32

// Run opens the leaf from rest at closed to rest at open and closes it again.
// Errors name broken input; a stall or a dead point is an outcome.
//
// Rod speed is the least of what the controller asks for (ramp, no-load speed,
// slow zone, ramp) and what the load line allows at the thrust the motion needs:
//
//	omega = v/r,  alpha = (dv/dt)/r -+ v^2 r'/r^3,  thrust = (M + I alpha)/r
//
// With K = I v^2/(2 r^2) that is dK/dtheta = thrust r - M: the term with r' is
// the change of K at a steady rod speed, so the leaf's kinetic energy is carried
// over the angle and r' never has to be formed. Steps are implicit, so they are
// stable on any load line.
func Run(s Setup) (opening, closing Result, err error) {
	if err := s.check(); err != nil {
		return Result{}, Result{}, err
	}
	var nodes [steps + 1]node
	return s.run(nodes[:], usual)
}

func (s *Setup) run(nodes []node, fine fineness) (opening, closing Result, err error) {
	dead, err := s.sample(nodes)
	if err != nil {
		return Result{}, Result{}, err
	}
	if dead >= 0 {
		none := Result{Outcome: NoArm, Angle: units.Angle(nodes[dead].theta)}
		return none, none, nil
	}
	opening = s.way(&s.Opening, nodes, false, fine)
	closing = s.way(&s.Closing, nodes, true, fine)
	if !opening.finite() || !closing.finite() {
		return Result{}, Result{}, errors.New("the motion's figures are out of any range; check inertia, moments and load line")
	}
	return opening, closing, nil
}

func (s *Setup) way(w *Way, nodes []node, reverse bool, fine fineness) Result {
	p := pass{way: w, open: float64(s.Open), inertia: float64(s.Leaf.Inertia), line: newPull(w.Line, s.Supply), fine: fine}
	p.ask = newProfile(nodes[len(nodes)-1].travel, p.line.fast, float64(s.Ramp), float64(w.Slow.Travel), p.line.fast*w.Slow.Share)
	outcome := p.run(nodes, reverse)
	return p.result(s, outcome)
}

func (s *Setup) check() error {
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 1) }
	switch {
	case s.Linkage == nil:
		return errors.New("linkage: missing")
	case !positive(float64(s.Open)) || s.Open > math.Pi:
		return fmt.Errorf("open angle %g rad: must lie above 0 and not above 180 degrees", float64(s.Open))
	case !positive(float64(s.Leaf.Width)):
		return fmt.Errorf("leaf width %g m: must be finite and above 0", float64(s.Leaf.Width))
	case !positive(float64(s.Leaf.Inertia)):
		return fmt.Errorf("leaf inertia %g kg m2: must be finite and above 0", float64(s.Leaf.Inertia))
	case !(s.Ramp > 0):
		return fmt.Errorf("ramp %g m/s2: must be above 0, or +Inf for none", float64(s.Ramp))
	case !positive(float64(s.Supply.Voltage)) || !positive(s.Supply.SpeedFactor) || !positive(s.Supply.ThrustFactor):
		return errors.New("supply: voltage and both factors must be finite and above 0")
	}
	if err := s.Opening.check(); err != nil {
		return fmt.Errorf("opening: %w", err)
	}
	if err := s.Closing.check(); err != nil {
		return fmt.Errorf("closing: %w", err)
	}
	return nil
}

func (w *Way) check() error {
	if len(w.Line.points) == 0 {
		return errors.New("load line: missing")
	}
	if len(w.Moment) < 2 {
		return errors.New("resisting moment: at least two angles are needed")
	}
	for i, m := range w.Moment {
		if !units.Finite(float64(m)) {
			return fmt.Errorf("resisting moment %d: must be finite", i)
		}
	}
	z := w.Slow
	if !units.Finite(float64(z.Travel)) || z.Travel < 0 || z.Travel > 0 && !(z.Share > 0 && z.Share <= 1) {
		return errors.New("slow zone: travel must be finite and not negative, its share of the speed above 0 and not above 1")
	}
	return nil
}

func (r *Result) finite() bool {
	sum := float64(r.Time) + float64(r.MeanRodSpeed) + float64(r.PeakAngularSpeed) + float64(r.PeakEdgeSpeed) +
		float64(r.PeakKineticEnergy) + float64(r.PeakThrust) + math.Abs(float64(r.Work)) + float64(r.MotorEnergy) + float64(r.MeanCurrent)
	return units.Finite(sum)
}
