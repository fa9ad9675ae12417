package linkage

import "testing"

func BenchmarkAssess(b *testing.B) {
	type it struct {
		q prepared
		m Mounting
		j judgement
	}
	var its []it
	for _, c := range loadDev(b) {
		p := c.problem()
		s, _ := p.Solve()
		if s.Feasible {
			q := p.prepare()
			m := s.Mounting
			its = append(its, it{q, m, q.judge(float64(m.A), float64(m.B), float64(m.C), float64(m.E), boxPoints[:])})
		}
	}
	for i := 0; b.Loop(); i++ {
		t := &its[i%len(its)]
		t.q.assess(t.m, &t.j)
	}
}
