package room

import (
	"fmt"
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func BenchmarkSweep(b *testing.B) {
	for _, n := range []int{4, MostCorners} {
		corners := make([]Point, n)
		for i := range corners {
			p := vec{0.5, 0}.turned(2 * math.Pi * float64(i) / float64(n))
			corners[i] = Point{units.Length(p.x + 1.5), units.Length(p.y + 2)}
		}
		o, err := NewOutline(corners)
		if err != nil {
			b.Fatal(err)
		}
		leaf := Leaf{3, 0.05, 0.02}
		b.Run(fmt.Sprintf("%d corners", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := leaf.Sweep(1.7, o, 0.05); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
