package linkage

import "math"

// meeting is where, along one unknown, the tangent of the score meets what ends
// its rise: the peak, as far as tangents can tell.
type meeting struct {
	direction float64 // of the rising score, +1 or -1
	distance  float64 // to the meeting, m
	met       met
	other     line // what was met
}

// levelSlope is the slope below which a line counts as level: what follows another
// line exactly is left with the rounding of it.
const levelSlope = 1e-9

type met uint8

const (
	nothing  met = iota // the range ends first
	itsLimit            // a broken limit is mended: the peak lies beyond
	aRow                // another row's falling line
	aLimit              // a limit that would break
)

func (s *search) meet(level int, t *top) meeting {
	m := meeting{distance: math.Inf(1), direction: 1}
	rise := t.d[level]
	if rise < 0 {
		m.direction, rise = -1, -rise
	}
	if !t.holds && rise > 0 {
		m.distance, m.met = -t.v/rise, itsLimit
	}
	for i := range s.readings[:s.n] {
		slack, margin := &s.readings[i].slack, &s.readings[i].margin
		if fall := -slack.d[level] * m.direction; fall > levelSlope {
			if t.holds {
				m.nearer(max(0, slack.v)/fall, aLimit, slack)
			} else {
				m.nearer((slack.v-t.v)/(rise+fall), aRow, slack)
			}
		}
		if fall := -margin.d[level] * m.direction; t.holds && fall > levelSlope {
			m.nearer((margin.v-t.v)/(rise+fall), aRow, margin)
		}
	}
	for k := range level {
		s.meetEnd(level, k, &m)
	}
	return m
}

// meetEnd is where an unknown that follows runs into the end of its own range.
func (s *search) meetEnd(level, k int, m *meeting) {
	end, sign := s.high[k], -1.0
	if s.path[k][level]*m.direction < 0 {
		end, sign = s.low[k], 1
	}
	room := line{v: sign * (s.x[k] - end)}
	room.d[k] = sign
	for j := level; j < unknowns; j++ {
		room.d[j] = sign * s.path[k][j]
	}
	if fall := -room.d[level] * m.direction; fall > levelSlope {
		m.nearer(max(0, room.v)/fall, aLimit, &room)
	}
}

func (m *meeting) nearer(distance float64, met met, other *line) {
	if distance < m.distance {
		m.distance, m.met, m.other = distance, met, *other
	}
}

// risesOn says whether the score still rises beyond a meeting over a, because c
// can leave its peak to make up for what was met. Per step of a the score gains
// rise and what was met loses fall; c, turned the way that helps what was met,
// costs the score at the rate of the row that falls that way: the deciding row
// itself or what it met over c, a limit of which lets c go one way only.
func (s *search) risesOn(level int, t *top, m *meeting) bool {
	if level == overC || m.met != aRow && m.met != aLimit {
		return false
	}
	helps := m.other.d[overC]
	costs := -t.d[overC]
	if helps*t.d[overC] > 0 {
		if s.held.met != aRow {
			return false
		}
		costs = -s.held.other.d[overC]
	}
	rise, fall := t.d[level]*m.direction, -m.other.d[level]*m.direction
	return rise*math.Abs(helps) > fall*math.Abs(costs)
}

// settle moves to the meeting and lets the unknown at level follow the ones
// above it from there: along the line on which the two rows stay equal, along
// the limit, or not at all at the end of its range. Score and readings become
// functions of the unknowns above alone.
func (s *search) settle(level int, t *top, m *meeting) top {
	path := &s.path[level]
	*path = [unknowns]float64{}
	for k := level + 1; k < unknowns; k++ {
		switch m.met {
		case aLimit:
			path[k] = -m.other.d[k] / m.other.d[level]
		case aRow:
			path[k] = (m.other.d[k] - t.d[k]) / (t.d[level] - m.other.d[level])
		}
	}
	for k := range level {
		for j := level + 1; j < unknowns; j++ {
			s.path[k][j] += s.path[k][level] * path[j]
		}
	}
	if level == overC {
		s.held = *m
	}
	by := m.direction * m.distance
	s.move(level, s.x[level]+by)
	t.follow(level, by, path)
	for i := range s.readings[:s.n] {
		s.readings[i].slack.follow(level, by, path)
		s.readings[i].margin.follow(level, by, path)
	}
	return *t
}

func (l *line) follow(level int, by float64, path *[unknowns]float64) {
	l.v += l.d[level] * by
	for k := level + 1; k < unknowns; k++ {
		l.d[k] += l.d[level] * path[k]
	}
}
