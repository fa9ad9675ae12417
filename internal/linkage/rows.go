package linkage

import "math"

// A row is one requirement at one leaf angle and one corner of the box: a margin
// to be as large as possible, or a limit to keep. The search works on the few
// rows that matter; every answer is then judged by all of them.
type row struct {
	kind           kind
	sample         int
	cos, sin       float64
	da, db, dc, de float64 // the corner's offsets from the mounting, m
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

// line is a value with its derivatives by a, b and c.
type line struct{ v, a, b, c float64 }

// reading is a row's value at one mounting: the margin (rows without one read
// +Inf) and the slack to the limit, m, negative where the limit breaks.
type reading struct{ margin, slack line }

func (q *prepared) read(w *row, a, b, c float64) reading {
	switch w.kind {
	case closedArmRow, openArmRow, marginRow:
		return q.readMargin(w, a, b, c)
	case strokeRow:
		closed := q.length(w, 1, 0, a, b, c)
		end := q.length(w, w.cos, w.sin, a, b, c)
		return limitReading(line{
			v: q.maxStroke - q.sigma*(closed.v-end.v),
			a: -q.sigma * (closed.a - end.a),
			b: -q.sigma * (closed.b - end.b),
			c: -q.sigma * (closed.c - end.c),
		})
	case rearSweepRow, frontSweepRow:
		return q.readSweep(w, a, b, c)
	}
	sign, limit := q.sigma, q.openLimit
	switch w.kind {
	case closedRow:
		sign, limit = -q.sigma, q.closedLimit
	case ramEndSwing:
		sign = -q.sigma
	}
	s := q.length(w, w.cos, w.sin, a, b, c)
	return limitReading(line{v: sign * (s.v - limit), a: sign * s.a, b: sign * s.b, c: sign * s.c})
}

func limitReading(slack line) reading {
	return reading{margin: line{v: math.Inf(1)}, slack: slack}
}

// length is the pin-to-pin length at a corner, from D = F - R with
// D = (Fx + sigma a, Fy - sigma b) and F = (c cos - sigma e sin, c sin + sigma e cos).
func (q *prepared) length(w *row, cos, sin, a, b, c float64) line {
	y := q.sigma * (q.e + w.de)
	dx := (c+w.dc)*cos - y*sin + q.sigma*(a+w.da)
	dy := (c+w.dc)*sin + y*cos - q.sigma*(b+w.db)
	s := math.Sqrt(dx*dx + dy*dy)
	if s == 0 {
		return line{}
	}
	inverse := 1 / s
	return line{v: s, a: q.sigma * dx * inverse, b: -q.sigma * dy * inverse, c: (dx*cos + dy*sin) * inverse}
}

// readMargin works from r = (Fx b + Fy a)/s, the form r = sigma F x R / s takes
// on both sides, and r' = sigma (r^2 - F.R)/s.
func (q *prepared) readMargin(w *row, a, b, c float64) reading {
	cos, sin := w.cos, w.sin
	a, b, c = a+w.da, b+w.db, c+w.dc
	y := q.sigma * (q.e + w.de)
	fx, fy := c*cos-y*sin, c*sin+y*cos
	dx, dy := fx+q.sigma*a, fy-q.sigma*b
	s := math.Sqrt(dx*dx + dy*dy)
	if s == 0 {
		return limitReading(line{v: -q.minArm})
	}
	inverse := 1 / s
	r := (fx*b + fy*a) * inverse
	sa, sb, sc := q.sigma*dx*inverse, -q.sigma*dy*inverse, (dx*cos+dy*sin)*inverse
	arm := line{v: r, a: (fy - r*sa) * inverse, b: (fx - r*sb) * inverse, c: (cos*b + sin*a - r*sc) * inverse}
	out := reading{slack: arm}
	out.slack.v -= q.minArm
	if r <= 0 {
		out.margin = line{v: 0, a: arm.a, b: arm.b, c: arm.c}
		return out
	}
	slope := q.sigma * inverse * (r*r - q.sigma*(fy*b-fx*a))
	harder, use := &q.opening, q.opening.use(w.sample, 1/r, slope)
	if u := q.closing.use(w.sample, 1/r, slope); u > use {
		harder, use = &q.closing, u
	}
	if use <= 0 {
		out.margin = line{v: math.Inf(1)}
		return out
	}
	byArm, bySlope := harder.slopes(w.sample, 1/r, slope)
	scale := -1 / (use * use)
	out.margin = line{v: 1 / use, a: scale * byArm * arm.a, b: scale * byArm * arm.b, c: scale * byArm * arm.c}
	if bySlope != 0 {
		scale *= bySlope * inverse
		two := 2 * q.sigma * r
		out.margin.a += scale * (two*arm.a + fx - slope*sa)
		out.margin.b += scale * (two*arm.b - fy - slope*sb)
		out.margin.c += scale * (two*arm.c + cos*a - sin*b - slope*sc)
	}
	return out
}

// readSweep has no short closed form for the derivatives; it is read only where
// a pin's turning is the limit, so it takes them by differences of 0.1 mm.
func (q *prepared) readSweep(w *row, a, b, c float64) reading {
	const h = 1e-4
	slack := func(a, b, c float64) float64 {
		return q.sweepSlack(w.kind, a+w.da, b+w.db, c+w.dc, q.e+w.de)
	}
	v := slack(a, b, c)
	return limitReading(line{
		v: v,
		a: (slack(a+h, b, c) - v) / h,
		b: (slack(a, b+h, c) - v) / h,
		c: (slack(a, b, c+h) - v) / h,
	})
}
