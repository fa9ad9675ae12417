package units

import (
	"math"
	"testing"
)

func TestConversionsRoundTrip(t *testing.T) {
	if got := Millimeters(1234).Millimeters(); math.Abs(got-1234) > 1e-9 {
		t.Errorf("1234 mm came back as %v", got)
	}
	if got := Degrees(180); math.Abs(float64(got)-math.Pi) > 1e-15 {
		t.Errorf("180 degrees is %v rad", got)
	}
	if got := Degrees(37.5).Degrees(); math.Abs(got-37.5) > 1e-12 {
		t.Errorf("37.5 degrees came back as %v", got)
	}
	if got := SquareMillimeters(2.5).SquareMillimeters(); math.Abs(got-2.5) > 1e-12 {
		t.Errorf("2.5 mm2 came back as %v", got)
	}
	if got := Length(0.1496).RoundedMillimeters(); got != 150 {
		t.Errorf("149.6 mm rounds to %d", got)
	}
}

func TestUnknownIsNeverZero(t *testing.T) {
	var unknown Opt[Length]
	if _, known := unknown.Get(); known || unknown.IsKnown() {
		t.Error("the zero Opt must be unknown")
	}
	if got := unknown.Or(2); got != 2 {
		t.Errorf("fallback of an unknown is %v, want 2", got)
	}
	zero := Known(Length(0))
	if v, known := zero.Get(); !known || v != 0 {
		t.Error("a known zero must stay known")
	}
	if got := zero.Or(2); got != 0 {
		t.Errorf("a known zero must not fall back, got %v", got)
	}
}

func TestFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if Finite(v) {
			t.Errorf("%v is not finite", v)
		}
	}
	if !Finite(0) || !Finite(math.MaxFloat64) {
		t.Error("ordinary numbers are finite")
	}
}
