package linkage

import (
	"math"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/units"
)

// ramTriangle is the ram of a textbook triangle: hinge axis, a rear pivot at
// distance a, a front pivot at distance c, and the leaf angle the angle between.
func ramTriangle(t *testing.T, c casefile.Case) Mounting {
	return Mounting{Side: Push, A: units.Length(c.Value(t, "a_m")), C: units.Length(c.Value(t, "c_m"))}
}

func TestReferenceTriangles(t *testing.T) {
	cases := casefile.Load(t, "linkage.json")
	for _, c := range casefile.ByModel(t, cases, "triangle") {
		m, phi := ramTriangle(t, c), units.Degrees(c.Value(t, "included_deg"))
		c.Check(t, "length_m", float64(m.Length(phi)))
		c.Check(t, "arm_m", float64(m.Arm(phi)))
	}
	for _, c := range casefile.ByModel(t, cases, "triangle_force") {
		m, phi := ramTriangle(t, c), units.Degrees(c.Value(t, "included_deg"))
		c.Check(t, "length_m", float64(m.Length(phi)))
		c.Check(t, "arm_m", float64(m.Arm(phi)))
		c.Check(t, "force_n", c.Value(t, "moment_n_m")/float64(m.Arm(phi)))
	}
	for _, c := range casefile.ByModel(t, cases, "triangle_motion") {
		m, phi := ramTriangle(t, c), units.Degrees(c.Value(t, "included_deg"))
		v, r := c.Value(t, "rod_speed_m_s"), float64(m.Arm(phi))
		c.Check(t, "length_m", float64(m.Length(phi)))
		c.Check(t, "omega_rad_s", v/r)
		c.Check(t, "alpha_rad_s2", -v*v*m.ArmSlope(phi)/(r*r*r))
	}
	for _, c := range casefile.ByModel(t, cases, "triangle_angle") {
		phi, ok := ramTriangle(t, c).AngleAt(units.Length(c.Value(t, "length_m")))
		if !ok {
			t.Errorf("%s: no angle", c.ID)
		}
		c.Check(t, "included_deg", phi.Degrees())
	}
}

func TestReferenceLinesOfAction(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "linkage.json"), "line_of_action") {
		m := Mounting{
			Side: Side(c.Value(t, "side")),
			A:    units.Length(c.Value(t, "a")), B: units.Length(c.Value(t, "b")),
			C: units.Length(c.Value(t, "c")), E: units.Length(c.Value(t, "e")),
		}
		c.Check(t, "moment", c.Value(t, "force")*float64(m.Arm(0)))
	}
}

func TestReferenceFrame(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "linkage.json"), "mounting") {
		m := Mounting{
			Side: Side(c.Value(t, "side")),
			A:    units.Millimeters(c.Value(t, "a_mm")), B: units.Millimeters(c.Value(t, "b_mm")),
			C: units.Millimeters(c.Value(t, "c_mm")), E: units.Millimeters(c.Value(t, "e_mm")),
		}
		c.Check(t, "closed_mm", m.Length(0).Millimeters())
		c.Check(t, "open_mm", m.Length(units.Degrees(90)).Millimeters())
		c.Check(t, "dead_deg", m.DeadPoint().Degrees())
		rx, ry := m.RearPivot()
		fx, fy := m.FrontPivot(units.Degrees(90))
		apart := math.Hypot(float64(fx-rx), float64(fy-ry))
		c.Check(t, "open_mm", apart*1000)
	}
}

// TestVirtualWork: the work of a constant force is force times travel, however
// the arm runs.
func TestVirtualWork(t *testing.T) {
	for _, c := range casefile.ByModel(t, casefile.Load(t, "linkage.json"), "triangle_work") {
		m := ramTriangle(t, c)
		from, to := units.Degrees(c.Value(t, "from_deg")), units.Degrees(c.Value(t, "to_deg"))
		const steps = 1000 // Simpson's rule
		h := (to - from) / steps
		sum := m.Arm(from) + m.Arm(to)
		for i := 1; i < steps; i++ {
			sum += units.Length(2+2*(i%2)) * m.Arm(from+h*units.Angle(i))
		}
		c.Check(t, "work_j", c.Value(t, "force_n")*float64(sum)*float64(h)/3)
	}
}
