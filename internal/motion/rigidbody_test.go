package motion

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"leafmoment.example/leafmoment/internal/casefile"
	"leafmoment.example/leafmoment/internal/linkage"
	"leafmoment.example/leafmoment/internal/units"
)

// rigidBodySetUp is a leaf driven in a rigid-body physics engine beside this
// package: see testdata/reference/rigidbody/run.mjs.
type rigidBodySetUp struct {
	ID           string  `json:"id"`
	Side         string  `json:"side"`
	OpenDeg      float64 `json:"open_deg"`
	MassKg       float64 `json:"mass_kg"`
	WidthM       float64 `json:"width_m"`
	A            float64 `json:"a_m"`
	B            float64 `json:"b_m"`
	C            float64 `json:"c_m"`
	E            float64 `json:"e_m"`
	MomentClosed float64 `json:"moment_closed_n_m"`
	MomentOpen   float64 `json:"moment_open_n_m"`
	NoLoad       float64 `json:"no_load_m_s"`
	Thrust       float64 `json:"thrust_n"`

	OpenTime     float64 `json:"open_time_s"`
	OpenTimeHalf float64 `json:"open_time_half_step_s"`
	LeastThrust  float64 `json:"least_thrust_n"`
}

type rigidBodyFile struct {
	Engine string           `json:"engine"`
	Step   float64          `json:"step_s"`
	Limit  float64          `json:"limit_s"`
	SetUps []rigidBodySetUp `json:"set_ups"`
}

func readRigidBody(t *testing.T) rigidBodyFile {
	t.Helper()
	f, err := os.Open(casefile.Path("rigidbody/rigidbody.json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d := json.NewDecoder(f)
	d.DisallowUnknownFields()
	var out rigidBodyFile
	if err := d.Decode(&out); err != nil {
		t.Fatal(err)
	}
	if len(out.SetUps) < 24 {
		t.Fatalf("%d set-ups, want 24 at least", len(out.SetUps))
	}
	return out
}

// open is the set-up's opening with the given most thrust: the straight load
// line of the engine's run, no ramp and no slow zone.
func (s rigidBodySetUp) open(t *testing.T, thrust float64) Result {
	t.Helper()
	line, err := NewLine([]Point{
		{Thrust: 0, Speed: units.Speed(s.NoLoad), Current: 1},
		{Thrust: units.Force(thrust), Speed: 0, Current: 1},
	})
	if err != nil {
		t.Fatal(err)
	}
	m := linkage.Mounting{A: units.Length(s.A), B: units.Length(s.B), C: units.Length(s.C), E: units.Length(s.E)}
	if s.Side == "push" {
		m.Side = linkage.Push
	}
	way := Way{Line: line, Moment: []units.Torque{units.Torque(s.MomentClosed), units.Torque(s.MomentOpen)}}
	opening, _, err := Run(Setup{
		Linkage: m,
		Leaf:    Leaf{Width: units.Length(s.WidthM), Inertia: units.Inertia(s.MassKg * s.WidthM * s.WidthM / 3)},
		Open:    units.Degrees(s.OpenDeg),
		Opening: way, Closing: way,
		Ramp:   units.Acceleration(math.Inf(1)),
		Supply: Supply{Voltage: 12, SpeedFactor: 1, ThrustFactor: 1},
	})
	if err != nil {
		t.Fatal(err)
	}
	return opening
}

// within is the agreement asked for, and settled how little the engine's own
// step may matter.
const (
	rigidBodyWithin  = 0.02
	rigidBodySettled = 0.005
)

func TestRigidBodyOpeningTime(t *testing.T) {
	for _, s := range readRigidBody(t).SetUps {
		if off := math.Abs(s.OpenTimeHalf/s.OpenTime - 1); off > rigidBodySettled {
			t.Errorf("%s: halving the engine's step moves its time by %.2g", s.ID, off)
		}
		got := s.open(t, s.Thrust)
		if got.Outcome != Completed {
			t.Errorf("%s: %v at %.1f degrees", s.ID, got.Outcome, got.Angle.Degrees())
			continue
		}
		if off := float64(got.Time)/s.OpenTimeHalf - 1; math.Abs(off) > rigidBodyWithin {
			t.Errorf("%s: opens in %.3f s, the engine in %.3f s (%+.2f %%)", s.ID, float64(got.Time), s.OpenTimeHalf, 100*off)
		}
	}
}

func TestRigidBodyLeastThrust(t *testing.T) {
	file := readRigidBody(t)
	for _, s := range file.SetUps {
		low, high := 0.0, s.Thrust
		for (high-low)/high > 5e-4 {
			middle := (low + high) / 2
			got := s.open(t, middle)
			if got.Outcome == Completed && float64(got.Time) <= file.Limit {
				high = middle
			} else {
				low = middle
			}
		}
		if off := high/s.LeastThrust - 1; math.Abs(off) > rigidBodyWithin {
			t.Errorf("%s: least thrust %.1f N, the engine's %.1f N (%+.2f %%)", s.ID, high, s.LeastThrust, 100*off)
		}
	}
}
