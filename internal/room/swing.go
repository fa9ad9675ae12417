package room

import "leafmoment.example/leafmoment/internal/units"

// Outcome says how far a leaf may swing.
type Outcome uint8

// The outcomes.
const (
	Free          Outcome = iota + 1 // the whole swing keeps its distance
	Limited                          // up to Swing.FreeTo it does
	BlockedClosed                    // not even the closed leaf does
	NotSurveyed                      // nothing is known under the swing but the clearance at the hinge axis
)

// Swing is what a leaf meets on its way from closed to open.
type Swing struct {
	Outcome   Outcome
	Clearance units.Length // smallest over the swing; 0 in contact, over ground negative below it
	At        units.Angle  // leaf angle at which Clearance is first reached
	FreeTo    units.Angle  // largest angle up to which the distance is kept; 0 where BlockedClosed or NotSurveyed
}
