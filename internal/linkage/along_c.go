package linkage

import "math"

// closeEnough in c, m: from there the tangents say what is left (an error of
// 1e-5 of the arm over 3 mm), and whole millimeters are tried afterwards.
const closeEnough = 0.003

// tangentSteps is how often a search follows tangents before it halves.
const tangentSteps = 8

// alongC finds the best c for a and b, starting at c.
func (s *search) alongC(a, b, c float64) peak {
	low, high := float64(s.p.C.Low)/1000, float64(s.p.C.High)/1000
	lowSeen, highSeen := false, false
	c = math.Min(math.Max(c, low), high)
	for step := 0; ; step++ {
		m := s.meet(s.readAll(a, b, c, slackTolerance))
		room := high - c
		if m.direction > 0 {
			low, lowSeen = c, true
		} else {
			room = c - low
			high, highSeen = c, true
		}
		if m.distance >= room {
			m.distance, m.met = room, nothing
		}
		if m.met != itsLimit && m.distance <= closeEnough || high-low < closeEnough/4 {
			return m.peak(a, c)
		}
		next := c + m.direction*m.distance
		if next <= low && lowSeen || next >= high && highSeen || step > tangentSteps {
			next = (low + high) / 2
		}
		c = next
	}
}

// meeting is where, along c, the tangent of the row that decides meets what ends
// its rise: the peak, as far as tangents can tell.
type meeting struct {
	deciding  line
	direction float64 // of the rising score along c, +1 or -1
	distance  float64 // to the meeting, m
	met       met
	other     line // what was met
}

type met uint8

const (
	nothing  met = iota // the range ends first
	itsLimit            // a broken limit is mended: the peak lies beyond
	aRow                // another row's falling line
	aLimit              // a limit that would break
)

func (s *search) meet(deciding *line, holds bool) meeting {
	m := meeting{deciding: *deciding, distance: math.Inf(1), direction: 1}
	if m.deciding.c < 0 {
		m.direction = -1
	}
	rise := math.Abs(m.deciding.c)
	if !holds && rise > 0 {
		m.distance, m.met = -m.deciding.v/rise, itsLimit
	}
	for i := range s.readings {
		slack, margin := &s.readings[i].slack, &s.readings[i].margin
		if fall := -slack.c * m.direction; fall > 0 {
			if holds {
				m.nearer(math.Max(0, slack.v)/fall, aLimit, slack)
			} else {
				m.nearer((slack.v-m.deciding.v)/(rise+fall), aRow, slack)
			}
		}
		if fall := -margin.c * m.direction; holds && fall > 0 {
			m.nearer((margin.v-m.deciding.v)/(rise+fall), aRow, margin)
		}
	}
	return m
}

func (m *meeting) nearer(distance float64, met met, other *line) {
	if distance < m.distance {
		m.distance, m.met, m.other = distance, met, *other
	}
}

// peak is what the tangents at (a, c) meet in. Its slopes by a and b are those
// with c following: two rows are weighed so that c drops out, a limit takes c
// along, the end of the range holds it.
func (m *meeting) peak(a, c float64) peak {
	d := &m.deciding
	p := peak{a: a, c: c + m.direction*m.distance, score: d.v + d.c*m.direction*m.distance, slopeA: d.a, slopeB: d.b}
	switch m.met {
	case aLimit:
		p.slopeA -= d.c * m.other.a / m.other.c
		p.slopeB -= d.c * m.other.b / m.other.c
	case aRow:
		share := d.c / (d.c - m.other.c)
		p.slopeA += share * (m.other.a - d.a)
		p.slopeB += share * (m.other.b - d.b)
	}
	return p
}
