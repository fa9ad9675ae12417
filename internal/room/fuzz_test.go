package room

import (
	"encoding/binary"
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// Any bytes read as numbers give an error or a finite, consistent answer.
func FuzzOutlineAndSweep(f *testing.F) {
	f.Add(3.0, 0.05, 0.0, 1.6, 0.05, corners(1, 1, 2, 1, 2, 2))
	f.Add(3.0, 0.05, 0.0, 1.6, 0.0, corners(2, -0.5, 2.1, -0.5, 2.1, 0.5, 2, 0.5))
	f.Add(3.0, 0.05, 0.025, 3.1, 0.0, corners(-0.5, -0.5, -0.05, -0.5, -0.05, 0, -0.5, 0))
	f.Add(1.0, 0.1, -0.1, 0.1, 10.0, corners(1e-9, 1, 1, 1e3, math.Inf(1), math.NaN(), 5e-324, -1))
	f.Fuzz(func(t *testing.T, width, thickness, offset, open, keep float64, raw []byte) {
		points := make([]Point, 0, len(raw)/16)
		for len(raw) >= 16 && len(points) <= MostCorners {
			points = append(points, Point{number(raw), number(raw[8:])})
			raw = raw[16:]
		}
		leaf := Leaf{units.Length(width), units.Length(thickness), units.Length(offset)}
		obstacles := make([]Obstacle, 0, 2)
		if o, err := NewOutline(points); err == nil {
			obstacles = append(obstacles, o)
		}
		if len(points) > 0 {
			if o, err := NewDisc(points[0], units.Length(keep)); err == nil {
				obstacles = append(obstacles, o)
			}
		}
		for _, o := range obstacles {
			s, err := leaf.Sweep(units.Angle(open), o, units.Length(keep))
			if err != nil {
				continue
			}
			if !(s.Clearance >= 0 && s.At >= 0 && float64(s.At) <= open && s.FreeTo >= 0 && float64(s.FreeTo) <= open) || !units.Finite(float64(s.Clearance)) {
				t.Fatalf("%+v", s)
			}
			if (s.Outcome == Free) != (float64(s.Clearance) >= keep && s.Clearance > 0) {
				t.Fatalf("outcome and clearance disagree: %+v", s)
			}
		}
	})
}

func corners(coordinates ...float64) []byte {
	var raw []byte
	for _, v := range coordinates {
		raw = binary.LittleEndian.AppendUint64(raw, math.Float64bits(v))
	}
	return raw
}

func number(raw []byte) units.Length {
	return units.Length(math.Float64frombits(binary.LittleEndian.Uint64(raw)))
}
