package motion

import "math"

// creep is the share of the no-load speed below which a drive on its load line
// counts as stalled: the swing would take ten thousand times as long.

const creep = 1e-4

// state is the leaf at a leaf angle.
type state struct {
	node
	moment  float64 // N m, resisting
	speed   float64 // m/s, of the rod
	kinetic float64 // J
	thrust  float64 // N
	asked   bool    // at the speed the controller asks for
}

// fineness is how finely a run is cut.
type fineness struct {
	thrust float64 // share of the stall thrust by which it may change over a step on the load line
	splits int     // how often a step may be halved
}

// usual is the fineness of Run; TestSteps holds it against ten times finer.
var usual = fineness{thrust: 0.05, splits: 6}

// pass runs one direction. SI throughout.
type pass struct {
	way     *Way
	open    float64
	inertia float64
	line    pull
	ask     profile
	stretch int // of the profile: the one that begins at this corner
	at      state
	tally   tally
	fine    fineness
}

// run takes the leaf over the nodes, the first to the last, or the last to the
// first in reverse.
func (p *pass) run(nodes []node, reverse bool) Outcome {
	last := len(nodes) - 1
	if !reverse {
		outcome := p.start(nodes[0])
		for i := 1; i <= last && outcome == Completed; i++ {
			outcome = p.advance(nodes[i])
		}
		return outcome
	}
	outcome := p.start(node{theta: nodes[last].theta, arm: nodes[last].arm})
	for i := last - 1; i >= 0 && outcome == Completed; i-- {
		n := nodes[i]
		n.travel = nodes[last].travel - n.travel
		outcome = p.advance(n)
	}
	return outcome
}

// start stands the leaf at its first node, at rest.
func (p *pass) start(n node) Outcome {
	p.at = state{node: n, moment: p.way.moment(n.theta / p.open)}
	if p.at.moment > p.line.stall*n.arm {
		return p.stall(n.theta)
	}
	p.at.asked = p.ask.corners[0].w == 0
	p.at.thrust = p.line.stall // where no ramp is asked for, the line alone limits the start
	return Completed
}

// advance takes the leaf to node n and stops at each corner of the profile on
// the way, so that a step lies in one stretch of it.
func (p *pass) advance(n node) Outcome {
	near := 1e-9 * p.ask.corners[p.ask.n-1].s
	for p.stretch+1 < p.ask.n {
		edge := p.ask.corners[p.stretch+1].s
		if edge > n.travel {
			break
		}
		if edge > p.at.travel+near {
			if outcome := p.step(between(p.at.node, n, edge), p.fine.splits); outcome != Completed {
				return outcome
			}
		}
		p.enter(p.stretch + 1)
	}
	if n.travel > p.at.travel+near {
		return p.step(n, p.fine.splits)
	}
	return Completed
}

// enter begins the stretch at a corner. Where the profile jumps down there the
// drive takes the difference out of the leaf at once.
func (p *pass) enter(corner int) {
	p.stretch = corner
	w := p.ask.corners[corner].w
	if p.at.speed*p.at.speed <= w {
		return
	}
	p.at.speed, p.at.asked = math.Sqrt(w), true
	kinetic := 0.5 * p.inertia * w / (p.at.arm * p.at.arm)
	p.tally.work -= p.at.kinetic - kinetic
	p.at.kinetic = kinetic
}

// step takes the leaf to node n within one stretch. A step in which the leaf
// meets the profile or falls behind it is split there, and one over which the
// thrust on the load line changes much is halved; splits is how often.
func (p *pass) step(n node, splits int) Outcome {
	from, to := &p.at, state{node: n, moment: p.way.moment(n.theta / p.open)}
	angle, ds := math.Abs(n.theta-from.theta), n.travel-from.travel
	speed, thrust, ok := p.solve(from, &to, angle)
	if !ok || speed < creep*p.line.fast {
		return p.stall(p.stallAngle(from, &to))
	}
	c := &p.ask.corners[p.stretch]
	asked := max(0, c.w+2*c.a*(n.travel-c.s)) // speed squared
	first, second := 6*ds-angle*(4*from.arm+2*n.arm), angle*(2*from.arm+4*n.arm)-6*ds
	before := from.thrust
	if from.asked {
		before = min(p.needed(from, c.a, first, angle), p.line.at(from.speed))
	}
	met := false      // the leaf comes up to the profile at the end of this step
	var spare float64 // thrust at the asked speed less what it takes there
	to.speed = math.Sqrt(asked)
	if speed >= to.speed {
		thrust = p.needed(&to, c.a, second, angle)
		spare = p.line.at(to.speed) - thrust
		to.asked = spare >= 0
		if !to.asked {
			speed, thrust, _ = p.line.balance(p.inertia/(n.arm*n.arm), from.kinetic-to.moment*angle, angle*n.arm)
			if speed > to.speed {
				speed, thrust = to.speed, p.line.at(to.speed)
			}
		}
	}
	if splits > 0 {
		var x float64
		if to.asked && !from.asked {
			behind := max(0, c.w+2*c.a*(from.travel-c.s)) - from.speed*from.speed
			x = behind / (behind + speed*speed - asked)
			met = x > 0.5
		} else if !to.asked && from.asked {
			had := p.line.at(from.speed) - p.needed(from, c.a, first, angle)
			if spare >= 0 {
				spare = p.line.at(to.speed) - p.needed(&to, c.a, second, angle)
			}
			x = had / (had - spare)
		}
		if !(x > 0.02 && x < 0.98) && !to.asked && math.Abs(thrust-before) > p.fine.thrust*p.line.stall {
			x = 0.5
		}
		if x > 0.02 && x < 0.98 {
			if outcome := p.step(between(from.node, n, from.travel+x*ds), splits-1); outcome != Completed {
				return outcome
			}
			return p.step(n, splits-1)
		}
	}
	if met {
		p.tally.push(&p.line, p.line.at(to.speed), n.theta)
	}
	p.tally.push(&p.line, before, from.theta)
	if to.asked {
		speed = to.speed
	}
	to.speed, to.thrust, to.kinetic = speed, thrust, 0.5*p.inertia*speed*speed/(n.arm*n.arm)
	p.tally.push(&p.line, thrust, n.theta)
	p.tally.speed = max(p.tally.speed, speed)
	p.tally.kinetic = max(p.tally.kinetic, to.kinetic, p.crest(from, &to, angle))
	mean := ((from.moment+to.moment)/2*angle + to.kinetic - from.kinetic) / ds
	p.tally.add(&p.line, mean, ds, 2*ds/(from.speed+speed))
	p.at = to
	return Completed
}

// solve carries the kinetic energy K over one step under the load line,
//
//	dK/dtheta = r F(v) - M,  K = I v^2 / (2 r^2),
//
// with the two-stage, second-order, L-stable singly diagonally implicit
// Runge-Kutta rule (gamma = 1 - 1/sqrt 2; R. Alexander, SIAM J. Numer. Anal. 14,
// 1977, from memory). Arm and moment are straight within the step. Where the
// second stage asks for a negative energy, the rest of the step is an implicit
// Euler step.
func (p *pass) solve(from, to *state, angle float64) (speed, thrust float64, ok bool) {
	const gamma = 1 - math.Sqrt2/2
	h := gamma * angle
	arm := from.arm + gamma*(to.arm-from.arm)
	moment := from.moment + gamma*(to.moment-from.moment)
	mass := p.inertia / (arm * arm)
	speed, thrust, ok = p.line.balance(mass, from.kinetic-moment*h, h*arm)
	if !ok {
		return speed, thrust, false
	}
	stage := 0.5 * mass * speed * speed
	mass = p.inertia / (to.arm * to.arm)
	speed, thrust, ok = p.line.balance(mass, from.kinetic+(1-gamma)/gamma*(stage-from.kinetic)-to.moment*h, h*to.arm)
	if ok && (thrust*to.arm-to.moment)*(stage-from.kinetic) >= 0 {
		return speed, thrust, true
	}
	h = (1 - gamma) * angle
	speed, thrust, ok = p.line.balance(mass, stage-to.moment*h, h*to.arm)
	return speed, thrust, ok
}

// crest is the leaf's kinetic energy where it peaks within a step on the load
// line: its slope over the angle, thrust x arm - moment, is known at both ends
// and taken as straight in between, from the end that gives the lower peak.
func (p *pass) crest(from, to *state, angle float64) float64 {
	rise, fall := from.thrust*from.arm-from.moment, to.moment-to.thrust*to.arm
	if from.asked || to.asked || rise <= 0 || fall <= 0 {
		return 0
	}
	half := angle / (2 * (rise + fall))
	return min(from.kinetic+half*rise*rise, to.kinetic+half*fall*fall)
}

// needed is the thrust that gives the rod an acceleration a (m/s2):
//
//	F = (M + I alpha) / r,  alpha = a/r - v^2 (dr/ds)/r^2,  dr/ds = bend/(angle^2 r)
//
// bend is the second difference of travel over the step of that angle.
func (p *pass) needed(s *state, a, bend, angle float64) float64 {
	alpha := (a - s.speed*s.speed*bend/(angle*angle*s.arm*s.arm)) / s.arm
	return min((s.moment+p.inertia*alpha)/s.arm, p.line.stall)
}

// stall notes the stall thrust at a leaf angle.
func (p *pass) stall(theta float64) Outcome {
	p.tally.push(&p.line, p.line.stall, theta)
	p.at.theta = theta
	return Stalled
}

// stallAngle is where in a step the kinetic energy runs out under the stall
// thrust.
func (p *pass) stallAngle(from, to *state) float64 {
	gain := (p.line.stall*to.arm - to.moment) * math.Abs(to.theta-from.theta)
	if !(from.kinetic+gain < 0) {
		return to.theta // it creeps
	}
	return from.theta + (to.theta-from.theta)*from.kinetic/-gain
}
