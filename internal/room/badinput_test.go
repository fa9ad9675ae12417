package room

import (
	"math"
	"strings"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

func TestBadOutlines(t *testing.T) {
	nan, inf := units.Length(math.NaN()), units.Length(math.Inf(1))
	many := make([]Point, MostCorners+1)
	for i := range many {
		p := vec{1, 0}.turned(2 * math.Pi * float64(i) / float64(len(many)))
		many[i] = Point{units.Length(p.x + 3), units.Length(p.y)}
	}
	if _, err := NewOutline(many[:MostCorners]); err != nil {
		t.Errorf("the most corners are refused: %v", err)
	}
	for name, c := range map[string]struct {
		corners []Point
		want    string
	}{
		"nothing":            {nil, "3 to 100"},
		"a line":             {[]Point{{1, 1}, {2, 2}}, "3 to 100"},
		"too many":           {many, "3 to 100"},
		"NaN":                {[]Point{{1, 1}, {nan, 1}, {2, 2}}, "corner 1"},
		"infinite":           {[]Point{{1, 1}, {2, 1}, {2, inf}}, "corner 2"},
		"in millimeters":     {[]Point{{1000, 1000}, {2000, 1000}, {2000, 2000}}, "within 1000 m"},
		"bow tie":            {[]Point{{1, 1}, {2, 2}, {2, 1}, {1, 2}}, "crosses or touches itself"},
		"closed twice":       {[]Point{{1, 1}, {2, 1}, {2, 2}, {1, 1}}, "repeats"},
		"no inside":          {[]Point{{1, 1}, {2, 2}, {3, 3}}, "crosses or touches itself"},
		"folded":             {[]Point{{1, 1}, {3, 1}, {2, 1}, {2, 2}}, "crosses or touches itself"},
		"touches itself":     {[]Point{{1, 1}, {3, 1}, {3, 3}, {2, 1}, {1, 3}}, "crosses or touches itself"},
		"about the axis":     {[]Point{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}, "hinge axis"},
		"a side on the axis": {[]Point{{-1, 0}, {1, 0}, {1, 1}, {-1, 1}}, "hinge axis"},
	} {
		if _, err := NewOutline(c.corners); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, c := range map[string]struct {
		center Point
		radius units.Length
	}{
		"no radius": {Point{1, 1}, 0}, "NaN": {Point{1, nan}, 0.1}, "NaN radius": {Point{1, 1}, nan},
		"about the axis": {Point{1, 0}, 1.5}, "huge": {Point{1, 1}, inf},
	} {
		if _, err := NewDisc(c.center, c.radius); err == nil {
			t.Errorf("disc, %s: accepted", name)
		}
	}
}

func TestBadInput(t *testing.T) {
	nan := math.NaN()
	disc, err := NewDisc(Point{2, 1}, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	good := Leaf{3, 0.05, 0}
	bottom := Bottom{Width: 3, Clearance: 0.1}
	drive := DriveBody{Rear: Point{0.15, -0.15}, Front: Point{0.9, -0.05}}
	for name, call := range map[string]func() error{
		"no shape":       func() error { _, err := good.Sweep(1, Obstacle{}, 0); return err },
		"no width":       func() error { _, err := Leaf{0, 0.05, 0}.Sweep(1, disc, 0); return err },
		"no thickness":   func() error { _, err := Leaf{3, 0, 0}.Sweep(1, disc, 0); return err },
		"NaN offset":     func() error { _, err := Leaf{3, 0.05, units.Length(nan)}.Sweep(1, disc, 0); return err },
		"no swing":       func() error { _, err := good.Sweep(0, disc, 0); return err },
		"over half turn": func() error { _, err := good.Sweep(4, disc, 0); return err },
		"NaN keep":       func() error { _, err := good.Sweep(1, disc, units.Length(nan)); return err },
		"no pier":        func() error { _, err := good.LargestOpening(Pier{}, 0); return err },
		"axis in pier":   func() error { _, err := good.LargestOpening(Pier{false, 0.4, 0.4, 0.1, 0.2}, 0); return err },
		"NaN pier":       func() error { _, err := good.LargestOpening(Pier{true, units.Length(nan), 0, -0.1, 0}, 0); return err },
		"NaN line":       func() error { _, err := good.PastLine(1, units.Length(nan), 0); return err },
		"steep":          func() error { _, err := bottom.OverPlane(1, Plane{5, 0}, 0); return err },
		"NaN slope":      func() error { _, err := bottom.OverPlane(1, Plane{0, nan}, 0); return err },
		"NaN clearance": func() error {
			_, err := Bottom{Width: 3, Clearance: units.Length(nan)}.OverPlane(1, Plane{}, 0)
			return err
		},
		"lying": func() error { _, err := Bottom{Width: 3, Lean: 1}.OverPlane(1, Plane{}, 0); return err },
		"NaN direction": func() error {
			_, err := Bottom{Width: 3, LeanDirection: units.Angle(nan)}.OverPlane(1, Plane{}, 0)
			return err
		},
		"NaN spot": func() error { _, err := bottom.OverSpots(1, []Spot{{Point{1, 1}, units.Length(nan)}}, 0); return err },
		"spot off": func() error { _, err := bottom.OverSpots(1, []Spot{{Point{1, 1e9}, 0}}, 0); return err },
		"no front": func() error { _, err := DriveBody{Rear: Point{1, 1}}.PastLine(1, 0); return err },
		"NaN pivot": func() error {
			_, err := DriveBody{Rear: Point{1, units.Length(nan)}, Front: Point{1, 1}}.PastLine(1, 0)
			return err
		},
		"from after open": func() error { _, err := drive.IntoDriveway(2, 1, 0); return err },
		"NaN from":        func() error { _, err := drive.IntoDriveway(units.Angle(nan), 1, 0); return err },
		"NaN jamb":        func() error { _, err := drive.IntoDriveway(0, 1, units.Length(nan)); return err },
	} {
		if call() == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
