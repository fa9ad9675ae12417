package leaf

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/gate"
	"leafmoment.example/leafmoment/internal/units"
)

func TestPosts(t *testing.T) {
	bar := func(c casefile.Case, height float64, round bool) PostBar {
		shape := gate.PostRectangular
		if round {
			shape = gate.PostRound
		}
		s := sectionOf(t, c)
		p, reason, err := NewPostBar(gate.Post{
			Shape: shape, Material: gate.Steel,
			Width: units.Known(s.Width), Depth: units.Known(s.Depth), Wall: units.Known(s.Wall),
			Height: units.Known(units.Length(height)),
		})
		if err != nil || reason != "" {
			t.Fatalf("%s: %v %s", c.ID, err, reason)
		}
		return p
	}
	bend := func(p PostBar, loads []PostLoad, at float64) PostBending {
		b, err := p.Bend(loads, units.Length(at))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	for _, c := range computed(t, "post") {
		p := bar(c, c.Value(t, "post_m"), c.Option == "round")
		b := bend(p, []PostLoad{
			{Height: units.Length(c.Value(t, "height1_m")), X: units.Force(c.Value(t, "load1_n"))},
			{Height: units.Length(c.Value(t, "height2_m")), X: units.Force(c.Value(t, "load2_n"))},
		}, c.Value(t, "at_m"))
		c.Check(t, "deflection_mm", b.Deflection.Millimeters())
		c.Check(t, "stress_mpa", float64(b.Stress)/1e6)
	}
	for _, c := range computed(t, "post-oblique") {
		height := c.Value(t, "post_m")
		b := bend(bar(c, height, c.Option == "round"), []PostLoad{{
			Height: units.Length(c.Value(t, "height_m")),
			X:      units.Force(c.Value(t, "along_n")),
			Y:      units.Force(c.Value(t, "across_n")),
		}}, height)
		c.Check(t, "stress_mpa", float64(b.Stress)/1e6)
		c.Check(t, "deflection_mm", b.Deflection.Millimeters())
		c.Check(t, "foot_n_m", float64(b.Foot))
	}
	for _, c := range computed(t, "post-uniform") {
		height := c.Value(t, "post_m")
		const pieces = 2000
		loads := make([]PostLoad, pieces)
		for i := range loads {
			loads[i] = PostLoad{
				Height: units.Length(height * (float64(i) + 0.5) / pieces),
				Y:      units.Force(c.Value(t, "load_n_m") * height / pieces),
			}
		}
		c.Check(t, "deflection_mm", bend(bar(c, height, false), loads, height).Deflection.Millimeters())
	}
	for _, c := range published(t, "round-post") {
		p, err := Properties(gate.Steel, gate.Section{
			Round: true, Width: units.Millimeters(c.Value(t, "diameter_mm")), Wall: units.Millimeters(c.Value(t, "wall_mm")),
		})
		if err != nil {
			t.Fatal(err)
		}
		c.Check(t, "second_moment_m4", p.AlongWidth.SecondMoment)
		post := PostBar{Section: p, Modulus: 210e9, Height: 7, round: true}
		load := []PostLoad{{Height: units.Length(c.Value(t, "height_m")), Y: units.Force(c.Value(t, "load_n"))}}
		c.Check(t, "stress_mpa", float64(bend(post, load, 7).Stress)/1e6)
	}
}

func TestPostsThatAreNoBars(t *testing.T) {
	known := gate.Post{
		Shape: gate.PostRectangular, Material: gate.Softwood,
		Width: units.Known(units.Length(0.1)), Height: units.Known(units.Length(1.5)),
	}
	if _, reason, err := NewPostBar(known); reason != "" || err != nil {
		t.Errorf("a solid timber post bends: %s %v", reason, err)
	}
	for name, change := range map[string]func(*gate.Post){
		"pier":     func(p *gate.Post) { p.Shape = gate.PostPier },
		"concrete": func(p *gate.Post) { p.Material = gate.Concrete },
		"wall":     func(p *gate.Post) { p.Material = gate.Steel },
		"height":   func(p *gate.Post) { p.Height = units.Opt[units.Length]{} },
	} {
		p := known
		change(&p)
		if _, reason, err := NewPostBar(p); reason == "" || err != nil {
			t.Errorf("%s: reason %q, error %v", name, reason, err)
		}
	}
	bad := known
	bad.Wall = units.Known(units.Length(0.05))
	if _, _, err := NewPostBar(bad); err == nil {
		t.Error("a wall that fills the post is accepted")
	}
}

// A leaf's couple bends its post by m g x whichever way the leaf stands, and by
// nothing else.
func TestCoupleOnPost(t *testing.T) {
	post, _, err := NewPostBar(gate.Post{
		Shape: gate.PostRound, Material: gate.Steel, Width: units.Known(units.Length(0.1143)),
		Wall: units.Known(units.Length(0.004)), Height: units.Known(units.Length(2)),
	})
	if err != nil {
		t.Fatal(err)
	}
	r := Reactions(100, 1.5, 1.1)
	for theta := units.Angle(0); theta < 2; theta += 0.25 {
		loads := r.OnPost(0.3, 1.4, theta)
		b, err := post.Bend(loads[:], 2)
		if err != nil {
			t.Fatal(err)
		}
		if want := 100 * units.Gravity * 1.5; math.Abs(float64(b.Foot)-want) > 1e-9*want {
			t.Errorf("at %v: %v N m, want %v", theta, b.Foot, want)
		}
	}
	if _, err := post.Bend([]PostLoad{{Height: 3, X: 1}}, 2); err == nil {
		t.Error("a load above the top is accepted")
	}
	if _, err := post.Bend(nil, 3); err == nil {
		t.Error("a height above the top is accepted")
	}
}
