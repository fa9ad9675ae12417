package linkage

import (
	"os"
	"strconv"
	"testing"
)

func TestDevOne(t *testing.T) {
	id, _ := strconv.Atoi(os.Getenv("ID"))
	c := loadDev(t)[id]
	d := c
	d.Opening, d.Closing = d.Opening[:2], d.Closing[:2]
	t.Logf("%+v", d)

	p := c.problem()
	s, _ := p.Solve()
	t.Logf("%+v %v %v", s, c.Best, c.Margin)
}
