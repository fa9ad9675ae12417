package wind

// bracket finds the neighbors of x among rising points and x's share of the way
// between them; outside, the nearest end holds.
func bracket(points []float64, x float64) (lower, upper int, share float64) {
	last := len(points) - 1
	if x <= points[0] {
		return 0, 0, 0
	}
	for i := 1; i <= last; i++ {
		if x <= points[i] {
			return i - 1, i, (x - points[i-1]) / (points[i] - points[i-1])
		}
	}
	return last, last, 0
}

func lerp(a, b, share float64) float64 { return a + (b-a)*share }
