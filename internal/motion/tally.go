package motion

import (
	"math"

	"leafmoment.example/leafmoment/internal/units"
)

// tally gathers a run's figures.
type tally struct {
	time, travel, work, charge float64
	speed, kinetic             float64 // m/s of the rod, J: peaks
	thrust, angle, current     float64 // peaks, and where the thrust's was
}

// push notes a thrust at a leaf angle.
func (t *tally) push(line *pull, thrust, theta float64) {
	if thrust > t.thrust {
		t.thrust, t.angle = thrust, theta
	}
	t.current = max(t.current, line.line.current(thrust))
}

// add adds a step at a mean thrust over a travel in a time.
func (t *tally) add(line *pull, thrust, ds, dt float64) {
	t.time += dt
	t.travel += ds
	t.work += thrust * ds
	t.charge += line.line.current(thrust) * dt
}

func (p *pass) result(s *Setup, outcome Outcome) Result {
	t := &p.tally
	angular := math.Sqrt(2 * t.kinetic / p.inertia)
	r := Result{
		Outcome: outcome, Angle: units.Angle(p.at.theta), Time: units.Time(t.time),
		PeakRodSpeed: units.Speed(t.speed), PeakAngularSpeed: units.AngularSpeed(angular),
		PeakEdgeSpeed:     units.Speed(angular * float64(s.Leaf.Width)),
		PeakKineticEnergy: units.Energy(t.kinetic),
		PeakThrust:        units.Force(t.thrust), PeakThrustAngle: units.Angle(t.angle),
		Work: units.Energy(t.work), MotorEnergy: units.Energy(float64(s.Supply.Voltage) * t.charge),
		PeakCurrent: units.Current(t.current),
	}
	if t.time > 0 {
		r.MeanRodSpeed = units.Speed(t.travel / t.time)
		r.MeanCurrent = units.Current(t.charge / t.time)
	}
	return r
}
