package supply

import (
	"fmt"

	"leafmoment.example/leafmoment/internal/units"
)

// Draw is what one load takes from a power supply, the loss in its run
// included (Delivery.SupplyPower).
type Draw struct {
	Continuous units.Power
	Peak       units.Power // for seconds at a time; at least Continuous
}

// Rating is the output a power supply needs.
type Rating struct {
	Continuous units.Power
	Peak       units.Power
}

const (
	// mostHeadroom is the largest headroom that reads as a share and not as a
	// percentage.
	mostHeadroom = 5
	// mostPower is the most an extra-low voltage load is believed to take.
	mostPower = units.Power(float64(highestVoltage) * float64(mostCurrent))
)

// RatingFor is the output needed for draws that may all stand at their peak at
// once, enlarged by headroom, a share of the sum.
func RatingFor(draws []Draw, headroom float64) (Rating, error) {
	if !(headroom >= 0 && headroom <= mostHeadroom) {
		return Rating{}, fmt.Errorf("headroom of %g is not a share from 0 to %d", headroom, mostHeadroom)
	}
	var r Rating
	for i, d := range draws {
		if !(d.Continuous >= 0 && d.Peak >= d.Continuous && d.Peak <= mostPower) {
			return Rating{}, fmt.Errorf("draw %d: the peak of %g W and the continuous %g W must be from 0 to %g W, the peak no less than the continuous", i, float64(d.Peak), float64(d.Continuous), float64(mostPower))
		}
		r.Continuous += d.Continuous
		r.Peak += d.Peak
	}
	r.Continuous *= units.Power(1 + headroom)
	r.Peak *= units.Power(1 + headroom)
	return r, nil
}
