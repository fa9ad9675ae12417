package linkage
import ("testing";"sort")
func TestDevStats(t *testing.T) {
	var dev, ratio []float64
	for _, c := range loadDev(t) { p := c.problem(); s,_ := p.Solve(); ratio=append(ratio, float64(s.Evaluations)/float64(c.Lattice)*1000); if s.Feasible { dev=append(dev, 1-s.BoxMargin/c.Margin) } }
	sort.Float64s(dev); sort.Float64s(ratio)
	n:=len(dev); t.Log("dev", dev[0], dev[n/2], dev[n*9/10], dev[n*99/100], dev[n-5:])
	n=len(ratio); t.Log("evals per 1000 lattice", ratio[n/2], ratio[n*9/10], ratio[n*99/100], ratio[n-5:])
}
