package motion

import "leafmoment.example/leafmoment/internal/units"

// PublishedForce is a force that a standard names for powered gates, to set a
// figure beside. It is no limit everywhere: local rules decide, and only a
// measurement on the finished gate by a competent person tells whether it keeps
// them.
type PublishedForce struct {
	What   string
	Force  units.Force
	Source string
}

// PublishedForces are those of EN 12453. The standard itself was not read: they
// are as a trade federation reproduces them publicly.
var PublishedForces = []PublishedForce{
	{"most impact force where a gap closes to under 500 mm", 400, sourceEN12453},
	{"most impact force elsewhere", 1400, sourceEN12453},
	{"most force 0.75 s after the impact", 150, sourceEN12453},
	{"most force 5 s after the impact", 25, sourceEN12453},
}

const sourceEN12453 = "EN 12453, as reproduced publicly by a gate trade federation"
