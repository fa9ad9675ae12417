package linkage

import (
	"os"
	"testing"
)

func TestDevAll(t *testing.T) {
	for _, f := range []string{"/work/main/testdata/reference/mounting/exhaustive.json", "/tmp/lm/ex1000.json", "/tmp/lm/ex6000.json", "/tmp/lm/ex8000.json"} {
		d, err := os.ReadFile(f)
		if err != nil || len(d) == 0 {
			continue
		}
		ev, bad := 0, 0
		for _, c := range decodeExhaustive(t, d) {
			p := c.problem()
			s, err := p.Solve()
			if err != nil {
				t.Fatal(err)
			}
			ev += s.Evaluations
			if s.Feasible != (len(c.Best) > 0) || s.Feasible && (s.BoxMargin < c.Margin*0.999 || s.BoxMargin > c.Margin*1.000001) {
				bad++
				t.Errorf("%s %d %s ramend %v: %.6g, exhaustive %v %.6g (%.3f%%); got %v", f[8:], c.ID, c.Side, c.OpenByRamEnd, s.BoxMargin, c.Best, c.Margin, 100*(s.BoxMargin/c.Margin-1), s.Mounting)
			}
		}
		t.Log(f, "bad", bad, "evals", ev)
	}
}
