package linkage

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmoment.example/leafmoment/internal/units"
)

// someMountings calls f with mountings over the ranges gates have.
func someMountings(n int, f func(m Mounting)) {
	random := rand.New(rand.NewPCG(3, 5))
	between := func(low, high int) units.Length { return units.Millimeters(low + random.IntN(high-low+1)) }
	for i := range n {
		f(Mounting{Side: Side(i % 2), A: between(50, 350), B: between(60, 350), C: between(250, 1400), E: between(0, 120)})
	}
}

func TestArmIsTheSlopeOfTheLength(t *testing.T) {
	const h = 1e-5
	someMountings(500, func(m Mounting) {
		sigma := units.Length(m.Side.sigma())
		for theta := units.Angle(0.05); theta < 2.5; theta += 0.3 {
			arm := -sigma * (m.Length(theta+h) - m.Length(theta-h)) / (2 * h)
			if math.Abs(float64(arm-m.Arm(theta))) > 1e-8 {
				t.Fatalf("%+v at %v: arm %v, length falls by %v", m, theta, m.Arm(theta), arm)
			}
			slope := float64(m.Arm(theta+h)-m.Arm(theta-h)) / (2 * h)
			if math.Abs(slope-m.ArmSlope(theta)) > 1e-6*(1+math.Abs(slope)) {
				t.Fatalf("%+v at %v: slope %v, arm rises by %v", m, theta, m.ArmSlope(theta), slope)
			}
		}
	})
}

func TestDeadPoint(t *testing.T) {
	someMountings(500, func(m Mounting) {
		rear, front := math.Atan(float64(m.B/m.A)), math.Atan(float64(m.E/m.C))
		want := math.Pi - rear - front
		if m.Side == Push {
			if m.B/m.A <= m.E/m.C {
				return
			}
			want = math.Pi - rear + front
		}
		dead := m.DeadPoint()
		if math.Abs(float64(dead)-want) > 1e-12 {
			t.Fatalf("%+v: dead point %v, want %v", m, dead, want)
		}
		if before, past := m.Arm(dead-0.01), m.Arm(dead+0.01); before <= 0 || past >= 0 {
			t.Fatalf("%+v: arm %v before the dead point, %v past it", m, before, past)
		}
	})
}

// TestMirroredMountings: seen in a mirror along the closed leaf, a push mounting
// is a pull one whose rear pivot lies on the other side of the hinge axis and
// whose leaf closes where the other opens.
func TestMirroredMountings(t *testing.T) {
	someMountings(200, func(m Mounting) {
		mirrored := Mounting{Side: Pull, A: -m.A, B: m.B, C: m.C, E: m.E}
		if m.Side == Pull {
			mirrored.Side = Push
		}
		for theta := units.Angle(-1); theta < 2; theta += 0.2 {
			if math.Abs(float64(m.Length(theta)-mirrored.Length(-theta))) > 1e-12 {
				t.Fatalf("%+v at %v: length %v, mirrored %v", m, theta, m.Length(theta), mirrored.Length(-theta))
			}
			if math.Abs(float64(m.Arm(theta)-mirrored.Arm(-theta))) > 1e-12 {
				t.Fatalf("%+v at %v: arm %v, mirrored %v", m, theta, m.Arm(theta), mirrored.Arm(-theta))
			}
		}
	})
}

func TestAngleAtUndoesLength(t *testing.T) {
	someMountings(300, func(m Mounting) {
		dead := m.DeadPoint()
		for theta := units.Angle(0.02); theta < dead; theta += 0.2 {
			if got, ok := m.AngleAt(m.Length(theta)); !ok || math.Abs(float64(got-theta)) > 1e-7 {
				t.Fatalf("%+v: length at %v comes at %v, %v", m, theta, got, ok)
			}
		}
		for _, s := range []units.Length{-1, 0, 5, units.Length(math.NaN())} {
			if angle, ok := m.AngleAt(s); ok {
				t.Fatalf("%+v: length %v at %v", m, s, angle)
			}
		}
	})
}

// TestSweeps measures the turning of each pin by the bearing of the ram at many
// angles.
func TestSweeps(t *testing.T) {
	someMountings(300, func(m Mounting) {
		open := min(m.DeadPoint()*0.95, units.Degrees(115))
		if open <= 0 {
			return
		}
		rx, ry := m.RearPivot()
		bearing := func(theta units.Angle) float64 {
			fx, fy := m.FrontPivot(theta)
			return math.Atan2(float64(fy-ry), float64(fx-rx))
		}
		last := bearing(0)
		turned := 0.0
		var rearLow, rearHigh, frontLow, frontHigh float64
		const steps = 2000
		for i := 1; i <= steps; i++ {
			now := bearing(open * units.Angle(i) / steps)
			turned += math.Remainder(now-last, 2*math.Pi)
			last = now
			front := turned - float64(open)*float64(i)/steps
			rearLow, rearHigh = min(rearLow, turned), max(rearHigh, turned)
			frontLow, frontHigh = min(frontLow, front), max(frontHigh, front)
		}
		if got := float64(m.RearSweep(open)); math.Abs(got-(rearHigh-rearLow)) > 1e-4 {
			t.Fatalf("%+v: rear pin turns %v, measured %v", m, got, rearHigh-rearLow)
		}
		if got := float64(m.FrontSweep(open)); math.Abs(got-(frontHigh-frontLow)) > 1e-4 {
			t.Fatalf("%+v: front pin turns %v, measured %v", m, got, frontHigh-frontLow)
		}
	})
}
