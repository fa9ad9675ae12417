package linkage

import "testing"

func BenchmarkSearchOnly(b *testing.B) {
	cases := loadDev(b)
	var ps []*Problem
	for _, c := range cases {
		ps = append(ps, c.problem())
	}
	for i := 0; b.Loop(); i++ {
		p := ps[i%len(ps)]
		p.search()
	}
}
func BenchmarkCheck(b *testing.B) {
	cases := loadDev(b)
	var ps []*Problem
	for _, c := range cases {
		ps = append(ps, c.problem())
	}
	for i := 0; b.Loop(); i++ {
		p := ps[i%len(ps)]
		p.Check()
	}
}
func BenchmarkPrepare(b *testing.B) {
	cases := loadDev(b)
	var ps []*Problem
	for _, c := range cases {
		ps = append(ps, c.problem())
	}
	for i := 0; b.Loop(); i++ {
		p := ps[i%len(ps)]
		s := search{prepared: p.prepare(), positions: newPositions(p.B)}
		i := s.start()
		s.seed()
		_ = i
	}
}
