package linkage

// search looks for the mounting with the largest smallest margin. The arm at a
// given angle is the ratio of N = Fx b + Fy a to s = |F - R|; N is affine and s
// convex in (a, b) for a fixed front pivot and in c for a fixed rear pivot, so
// the arm, and with it the smallest of any number of margins, is quasi-concave
// in each: no false peak on the way. The search therefore nests three searches
// of one peak, over c in a over b, each led by the slopes of the rows.
type search struct {
	prepared
	positions   positions // of b
	rows        []row
	readings    []reading
	evaluations int
}

// slackTolerance is how far the search in real numbers may lie beyond a limit,
// m; whole millimeters are judged without it.
const slackTolerance = 2e-5

// readAll reads every row and returns the one that decides: the limit broken
// most, or the smallest margin where every slack is at least -tolerance.
func (s *search) readAll(a, b, c, tolerance float64) (deciding *line, holds bool) {
	s.evaluations++
	slack, margin := 0, 0
	for i := range s.rows {
		s.readings[i] = s.read(&s.rows[i], a, b, c)
		if s.readings[i].slack.v < s.readings[slack].slack.v {
			slack = i
		}
		if s.readings[i].margin.v < s.readings[margin].margin.v {
			margin = i
		}
	}
	if s.readings[slack].slack.v < -tolerance {
		return &s.readings[slack].slack, false
	}
	return &s.readings[margin].margin, true
}

// peak is the best of a search: its score is the smallest margin, or, where no
// limit can be kept, the most broken slack (negative, m). The slopes are those
// of the score by a and b when c follows.
type peak struct {
	a, c           float64
	score          float64
	slopeA, slopeB float64
}
