package linkage

import (
	"sort"
	"testing"
	"time"
)

func TestDevTimes(t *testing.T) {
	type r struct {
		d          time.Duration
		ev, rounds int
		id         int
		f          bool
		n          int
	}
	var all []r
	for _, c := range loadDev(t) {
		p := c.problem()
		best := time.Hour
		var s Solution
		for range 20 {
			t0 := time.Now()
			s, _ = p.Solve()
			best = min(best, time.Since(t0))
		}
		all = append(all, r{best, s.Evaluations, 0, c.ID, s.Feasible, len(c.Opening)})
	}
	sort.Slice(all, func(i, j int) bool { return all[i].d < all[j].d })
	for i := 0; i < len(all); i += len(all) / 20 {
		t.Log(all[i])
	}
	for _, a := range all[len(all)-12:] {
		t.Log(a)
	}
}
