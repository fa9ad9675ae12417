package gate

import "leafmoment.example/leafmoment/internal/units"

// Leaf is one moving panel and the post that carries it.
type Leaf struct {
	Width           units.Opt[units.Length] // hinge axis to free edge
	Height          units.Opt[units.Length]
	Mass            units.Opt[units.Mass]
	Construction    units.Opt[Construction]
	Solidity        units.Opt[float64]
	Infill          Infill
	Frame           FrameType
	Rails           []units.Length // center heights over the bottom edge
	BottomClearance units.Opt[units.Length]
	OutOfPlumb      units.Opt[units.Angle]
	LeanDirection   units.Opt[units.Angle]  // leaf angle at which the leaf hangs lowest
	OutOfLevel      units.Opt[units.Length] // free edge below the hinge end
	Drags           Answer
	Hinge           HingeType
	HingeCondition  HingeCondition
	HingeSpacing    units.Opt[units.Length]
	Thickness       units.Opt[units.Length]
	AxisOffset      units.Opt[units.Length] // center plane from the hinge axis, positive to the opening side
	HandOpening     units.Opt[units.Force]  // at the free edge, calm air
	HandClosing     units.Opt[units.Force]
	Rest            Rest
	Latch           Answer
	DropBolt        Answer
	Post            Post
	CenterOfMass    units.Opt[units.Length]
}

// Infill is what fills the frame.
type Infill uint8

// The infills.
const (
	InfillUnknown Infill = iota
	InfillOpenBars
	InfillMesh
	InfillGappedSlats
	InfillLouvers
	InfillSolid
)

// FrameType is what the frame is made from.
type FrameType uint8

// The frame types.
const (
	FrameUnknown FrameType = iota
	FrameSquareTube
	FrameRoundTube
	FrameTimber
	FrameSolidBar
)

// HingeType is a kind of hinge.
type HingeType uint8

// The hinge types.
const (
	HingeUnknown HingeType = iota
	HingePlain
	HingeRising
	HingeSpring
)

// HingeCondition is the state of the hinges.
type HingeCondition uint8

// The conditions.
const (
	HingeConditionUnknown HingeCondition = iota
	HingesGood
	HingesWorn
	HingesBinding
)

// Rest is what a leaf does when let go halfway.
type Rest uint8

// What a leaf may do.
const (
	RestUnknown Rest = iota
	RestStays
	RestDriftsOpen
	RestDriftsClosed
)

// Construction is what a leaf is made of.
type Construction struct {
	Material  Material
	Stile     Section // two, over the height
	Rail      Section // between the stiles
	RailCount int
	Bar       units.Opt[Section] // upright, between the outer rails
	BarCount  int
	Infill    units.Opt[units.ArealMass] // over the area inside the frame
	Hardware  units.Opt[units.Mass]
}

// Section is a bar's cross-section. Wall 0 is solid; a round section uses
// Width as its diameter.
type Section struct {
	Round              bool
	Width, Depth, Wall units.Length
}

// Material of a frame or post.
type Material uint8

// The materials.
const (
	MaterialUnknown Material = iota
	Steel
	Aluminum
	Softwood
	Hardwood
	Concrete
	Masonry
)

// Post carries a leaf.
type Post struct {
	Shape         PostShape
	Width         units.Opt[units.Length] // along the closed leaf, or diameter
	Depth         units.Opt[units.Length]
	Material      Material
	Wall          units.Opt[units.Length]
	Fixity        Fixity
	Height        units.Opt[units.Length]
	HingeSetback  units.Opt[units.Length] // axis behind the face on the opening side
	HingeInset    units.Opt[units.Length] // axis to the post's edge next to the opening
	MountingPlane units.Opt[units.Length] // axis to the rear bracket's plane, towards the drive
}

// PostShape is the shape of a post.
type PostShape uint8

// The shapes.
const (
	PostUnknown PostShape = iota
	PostRectangular
	PostRound
	PostPier
	PostWall
)

// Fixity is how a post's foot is held.
type Fixity uint8

// The fixities.
const (
	FixityUnknown Fixity = iota
	FixityConcreted
	FixityBasePlate
	FixityEarth
	FixityBuiltIn
)
