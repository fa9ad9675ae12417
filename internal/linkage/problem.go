package linkage

import "leafmoment.example/leafmoment/internal/units"

// Interval is a range of whole millimeters, both ends included.
type Interval struct{ Low, High int }

// Ram is what the solver needs of a linear drive.
type Ram struct {
	Shortest, Longest                 units.Length // pin to pin
	ThrustExtending, ThrustRetracting units.Force
	RearSweepMax, FrontSweepMax       units.Opt[units.Angle] // how far each pin may turn
}

// Demand is what the leaf asks of the ram.
type Demand struct {
	// Opening and Closing are the moments about the hinge axis that resist each
	// motion at the angles of the swing, N m: friction, lean and wind. A negative
	// one helps the motion.
	Opening, Closing []float64
	Inertia          units.Inertia // about the hinge axis; 0 leaves inertia out
	RodSpeed         units.Speed
	RodAcceleration  units.Acceleration // of the start-up ramp
}

// Problem asks for the best mounting of one ram on one leaf. Everything not in
// it (brackets, posts, policies) has been turned into these ranges before.
type Problem struct {
	Side Side
	A, C Interval
	B    []Interval // mounting-plane distance plus bracket positions: discrete or slotted
	E    int        // mm, fixed by the leaf bracket

	Open units.Angle // wanted
	// Swing holds the angles the mounting is judged at. It ends at Open, or,
	// where OpenByRamEnd, at the largest angle the leaf may come to rest at.
	Swing Swing
	// OpenByRamEnd: no stop or switch ends the opening, the ram's own end does.
	// It must then come between Open and the end of the swing.
	OpenByRamEnd bool

	Ram                        Ram
	Demand                     Demand
	ReserveClosed, ReserveOpen units.Length // of ram travel, where a stop or switch sets that end
	MinArm                     units.Length
	MaxStroke                  units.Opt[units.Length] // what the wanted run time leaves
	Box                        int                     // mm: every dimension may be built this far off
}
