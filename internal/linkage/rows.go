package linkage

import "math"

// lostArm is the arm, m, below which there is none.
const lostArm = 1e-9

// A row is one requirement at one leaf angle and one corner of the box: a margin
// to be as large as possible, or a limit to keep. The search works on the few
// rows that matter; every answer is then judged by all of them.
type row struct {
	kind             kind
	sample           int
	cos, sin         float64 // of the leaf angle
	da, db, dc, de   float64 // the corner's offsets from the mounting, m
	fx, fy           float64 // what dc and e + de add to the front pivot c (cos, sin), m
	closedX, closedY float64 // the same when closed, for the stroke
}

type kind uint8

const (
	closedArmRow  kind = iota // margin and least arm when closed
	openArmRow                // margin and least arm at the end of the swing
	marginRow                 // margin at any sample
	closedRow                 // length when closed
	openRow                   // length at the end of the swing
	ramEndRow                 // the ram's end doesn't come before the wanted angle
	ramEndSwing               // the ram's end comes within the swing
	strokeRow                 // stroke
	rearSweepRow              // turning of the rear pin
	frontSweepRow             // turning of the front pin
	kinds
)

// The unknowns in the order they are searched: c inmost, then a, then b.
const (
	overC = iota
	overA
	overB
	unknowns
)

// line is a value with its derivatives by the unknowns.
type line struct {
	v float64
	d [unknowns]float64
}

// reading is a row's value at one mounting: the margin (rows without one read
// +Inf) and the slack to the limit, m, negative where the limit breaks.
type reading struct{ margin, slack line }

func (q *prepared) read(w *row, a, b, c float64, out *reading) {
	switch w.kind {
	case closedArmRow, openArmRow, marginRow:
		q.readMargin(w, a+w.da, b+w.db, c, out)
		return
	case closedRow:
		out.slack = line{v: q.sigma * q.closedLimit}
		q.addLength(w, -q.sigma, a, b, c, &out.slack)
	case openRow, ramEndRow:
		out.slack = line{v: -q.sigma * q.openLimit}
		q.addLength(w, q.sigma, a, b, c, &out.slack)
	case ramEndSwing:
		out.slack = line{v: q.sigma * q.openLimit}
		q.addLength(w, -q.sigma, a, b, c, &out.slack)
	case strokeRow:
		out.slack = line{v: q.maxStroke}
		q.addLength(w, q.sigma, a, b, c, &out.slack)
		q.addLength(&row{cos: 1, fx: w.closedX, fy: w.closedY, da: w.da, db: w.db}, -q.sigma, a, b, c, &out.slack)
	case rearSweepRow, frontSweepRow:
		out.slack = q.readSweep(w, a, b, c)
	}
	out.margin = line{v: math.Inf(1)}
}

// addLength adds sign times the pin-to-pin length, m, from D = F - R with
// D = (Fx + sigma a, Fy - sigma b) and F = c (cos, sin) + (fx, fy).
func (q *prepared) addLength(w *row, sign, a, b, c float64, to *line) {
	dx := c*w.cos + w.fx + q.sigma*(a+w.da)
	dy := c*w.sin + w.fy - q.sigma*(b+w.db)
	s := math.Sqrt(dx*dx + dy*dy)
	if s == 0 {
		return
	}
	scale := sign / s
	to.v += sign * s
	to.d[overC] += scale * (dx*w.cos + dy*w.sin)
	to.d[overA] += scale * q.sigma * dx
	to.d[overB] -= scale * q.sigma * dy
}

// readMargin works from r = (Fx b + Fy a)/s, the form r = sigma F x R / s takes
// on both sides, and r' = sigma (r^2 - F.R)/s.
func (q *prepared) readMargin(w *row, a, b, c float64, out *reading) {
	cos, sin := w.cos, w.sin
	fx, fy := c*cos+w.fx, c*sin+w.fy
	dx, dy := fx+q.sigma*a, fy-q.sigma*b
	inverse := 1 / math.Sqrt(dx*dx+dy*dy)
	r := (fx*b + fy*a) * inverse
	if !(r > lostArm) || math.IsInf(inverse, 1) {
		// Nothing but the way to an arm is of use.
		out.slack = line{v: -q.minArm, d: [unknowns]float64{cos*b + sin*a, fy, fx}}
		if r < 0 {
			out.slack.v += r
		}
		out.margin = line{v: 0}
		return
	}
	sa, sb, sc := q.sigma*dx*inverse, -q.sigma*dy*inverse, (dx*cos+dy*sin)*inverse
	ra, rb, rc := (fy-r*sa)*inverse, (fx-r*sb)*inverse, (cos*b+sin*a-r*sc)*inverse
	out.slack = line{v: r - q.minArm, d: [unknowns]float64{rc, ra, rb}}
	slope := q.sigma * inverse * (r*r - q.sigma*(fy*b-fx*a))
	reciprocal := 1 / r
	harder, use := &q.opening, q.opening.use(w.sample, reciprocal, slope)
	if u := q.closing.use(w.sample, reciprocal, slope); u > use {
		harder, use = &q.closing, u
	}
	if use <= 0 {
		out.margin = line{v: math.Inf(1)}
		return
	}
	byArm, bySlope := harder.slopes(w.sample, reciprocal, slope)
	margin := 1 / use
	arm := -margin * margin * byArm
	out.margin = line{v: margin, d: [unknowns]float64{arm * rc, arm * ra, arm * rb}}
	if bySlope != 0 {
		turn, two := -margin*margin*bySlope*inverse, 2*q.sigma*r
		out.margin.d[overA] += turn * (two*ra + fx - slope*sa)
		out.margin.d[overB] += turn * (two*rb - fy - slope*sb)
		out.margin.d[overC] += turn * (two*rc + cos*a - sin*b - slope*sc)
	}
}

// readSweep has no short closed form for the derivatives; it is read only where
// a pin's turning is the limit, so it takes them by differences of 0.1 mm.
func (q *prepared) readSweep(w *row, a, b, c float64) line {
	const h = 1e-4
	slack := func(a, b, c float64) float64 {
		t := newTriangle(q.sigma, a+w.da, b+w.db, c+w.dc, q.e+w.de)
		return q.sweepSlack(w.kind, &t)
	}
	v := slack(a, b, c)
	return line{v: v, d: [unknowns]float64{
		overC: (slack(a, b, c+h) - v) / h,
		overA: (slack(a+h, b, c) - v) / h,
		overB: (slack(a, b+h, c) - v) / h,
	}}
}
