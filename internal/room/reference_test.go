package room

import (
	"fmt"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/units"
)

func leafOf(t *testing.T, c casefile.Case) Leaf {
	return Leaf{length(t, c, "width_m"), length(t, c, "thickness_m"), length(t, c, "offset_m")}
}

func length(t *testing.T, c casefile.Case, name string) units.Length {
	t.Helper()
	return units.Length(c.Value(t, name))
}

func degrees(t *testing.T, c casefile.Case, name string) units.Angle {
	t.Helper()
	return units.Degrees(c.Value(t, name))
}

func point(t *testing.T, c casefile.Case, name string) Point {
	return Point{length(t, c, name+"_x"), length(t, c, name+"_y")}
}

func obstacleOf(t *testing.T, c casefile.Case) Obstacle {
	t.Helper()
	var corners []Point
	for i := 0; ; i++ {
		x, ok := c.In[fmt.Sprintf("x%d", i)]
		if !ok {
			break
		}
		corners = append(corners, Point{units.Length(x), length(t, c, fmt.Sprintf("y%d", i))})
	}
	var (
		o   Obstacle
		err error
	)
	switch c.Option {
	case "disc":
		o, err = NewDisc(corners[0], length(t, c, "radius_m"))
	case "outline":
		o, err = NewOutline(corners)
	default:
		t.Fatalf("%s: unknown shape %q", c.ID, c.Option)
	}
	if err != nil {
		t.Fatalf("%s: %v", c.ID, err)
	}
	return o
}

func checkSwingCase(t *testing.T, c casefile.Case, s Swing, open units.Angle) {
	t.Helper()
	c.Check(t, "clearance_m", float64(s.Clearance))
	c.Check(t, "at_deg", s.At.Degrees())
	c.Check(t, "free_to_deg", s.FreeTo.Degrees())
	if (s.Outcome == Free) != (s.FreeTo == open) || (s.Outcome == BlockedClosed) != (s.FreeTo == 0) {
		t.Errorf("%s: outcome %d with a swing of %g degrees", c.ID, s.Outcome, s.FreeTo.Degrees())
	}
}

func TestSweepAgainstGeometryLibrary(t *testing.T) {
	seen := map[Outcome]int{}
	touched := 0
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room_shapely.json"), "sweep") {
		open := degrees(t, c, "open_deg")
		s, err := leafOf(t, c).Sweep(open, obstacleOf(t, c), length(t, c, "keep_m"))
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		checkSwingCase(t, c, s, open)
		seen[s.Outcome]++
		if s.Clearance == 0 {
			touched++
		}
	}
	if seen[Free] < 50 || seen[Limited] < 50 || seen[BlockedClosed] < 5 || touched < 50 {
		t.Errorf("the layouts are one-sided: %v, %d in contact", seen, touched)
	}
}

func TestPierAgainstGeometryLibrary(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room_shapely.json"), "pier") {
		p := Pier{
			Round: c.Option == "round",
			Width: length(t, c, "pier_width_m"), Depth: length(t, c, "pier_depth_m"),
			Jamb: length(t, c, "jamb_m"), Face: length(t, c, "face_m"),
		}
		s, err := leafOf(t, c).LargestOpening(p, length(t, c, "keep_m"))
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		checkSwingCase(t, c, s, units.Degrees(180))
	}
}

func TestLineAgainstGeometryLibrary(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room_shapely.json"), "line") {
		open := degrees(t, c, "open_deg")
		s, err := leafOf(t, c).PastLine(open, length(t, c, "line_m"), length(t, c, "keep_m"))
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		checkSwingCase(t, c, s, open)
	}
}

func TestDriveBodyAgainstGeometryLibrary(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room_shapely.json"), "drive") {
		d := DriveBody{
			Rear: point(t, c, "rear"), Front: point(t, c, "front"),
			Overhang: length(t, c, "overhang_m"), HousingLength: length(t, c, "housing_m"),
			HousingRadius: length(t, c, "radius_m"), RodRadius: length(t, c, "rod_m"),
			RearBracket: []Point{point(t, c, "rear_bracket")}, FrontBracket: []Point{point(t, c, "front_bracket")},
		}
		open, line := degrees(t, c, "open_deg"), length(t, c, "line_m")
		var (
			got Overrun
			err error
		)
		if c.Option == "x" {
			got, err = d.IntoDriveway(degrees(t, c, "from_deg"), open, line)
		} else {
			got, err = d.PastLine(open, line)
		}
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		c.Check(t, "open_m", float64(got.Open))
		c.Check(t, "furthest_m", float64(got.Furthest))
		c.Check(t, "at_deg", got.FurthestAt.Degrees())
	}
}

func TestGroundRows(t *testing.T) {
	cases := casefile.Load(t, "room.json")
	for _, c := range casefile.ByModel(t, cases, "rise") {
		b := Bottom{Width: length(t, c, "width_m"), Clearance: 0.5, Lean: degrees(t, c, "lean_deg")}
		ground := Plane{c.Value(t, "along"), c.Value(t, "across")}
		clearance := b.overPlane(ground, float64(degrees(t, c, "leaf_deg")))
		c.Check(t, "rise_m", float64(b.Clearance-clearance))

		// The same place as a surveyed spot, where the swing takes it in.
		theta := degrees(t, c, "leaf_deg")
		at := vec{float64(b.Width) * (1 - 1e-12), 0}.turned(float64(theta))
		spot := Spot{Point{units.Length(at.x), units.Length(at.y)}, units.Length(ground.Along*at.x + ground.Across*at.y)}
		s, err := b.OverSpots(units.Degrees(100), []Spot{spot}, 0)
		if err != nil {
			t.Fatal(err)
		}
		if want := min(clearance, b.Clearance); s.Clearance-want > 1e-9 || want-s.Clearance > 1e-9 {
			t.Errorf("%s: as a spot %g m, as a plane %g m", c.ID, float64(s.Clearance), float64(want))
		}
	}
	for _, c := range casefile.ByModel(t, cases, "worst") {
		b := Bottom{Width: length(t, c, "width_m"), Clearance: 0.5}
		s, err := b.OverPlane(degrees(t, c, "open_deg"), Plane{c.Value(t, "along"), c.Value(t, "across")}, 0)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "rise_m", float64(b.Clearance-s.Clearance))
		c.Check(t, "at_deg", s.At.Degrees())
		c.Check(t, "radius_m", float64(s.Radius))
	}
}

func TestPierFaceRows(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room.json"), "face") {
		p := Pier{Width: 0.4, Depth: 0.5, Jamb: length(t, c, "jamb_m"), Face: length(t, c, "face_m")}
		s, err := leafOf(t, c).LargestOpening(p, 0)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "free_to_deg", s.FreeTo.Degrees())
	}
}

// A push mounting on the inside stands about 200 mm into the driveway, measured
// from the hinge axis, with the gate open (common practice, no source).
func TestPushMountingInTheDriveway(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "room.json"), "driveway") {
		d := DriveBody{
			Rear:          Point{length(t, c, "a_m"), -length(t, c, "b_m")},
			Front:         Point{length(t, c, "c_m"), -length(t, c, "e_m")},
			HousingLength: 0.4, HousingRadius: length(t, c, "housing_radius_m"), RodRadius: 0.01,
		}
		got, err := d.IntoDriveway(units.Degrees(90), units.Degrees(90), 0)
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "open_m", float64(got.Open))
	}
}
