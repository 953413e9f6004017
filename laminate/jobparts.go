package laminate

import (
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stand"
)

// Vessel is what is known of the equipment as a whole.
type Vessel struct {
	LiquidHeight quantity.Length // highest possible level, above the bottom of the lowest course
	Rim          string          // what stiffens the rim of an open top
}

// Test is the test that the finished equipment has to pass.
type Test struct {
	Medium       TestMedium
	LiquidHeight quantity.Length   // of the fill, above the bottom of the lowest course
	Pressure     quantity.Pressure // at the top of the fill, gauge
	Vacuum       quantity.Pressure // outside above inside
	Temperature  quantity.Temperature
	Held         quantity.Duration
}

// Bond is what one square of a bond onto a cured face carries: measured by the
// shop, else its rule.
type Bond struct {
	ShearStrength quantity.Pressure // at rupture
	Factor        Optional[float64] // by which it is divided
	Source        string
}

// Shape is what is known of a part of a job beside its diameter and length.
type Shape struct {
	// Head.
	Head          HeadShape
	CrownRadius   quantity.Length // torispherical head
	KnuckleRadius quantity.Length // torispherical head; flat bottom
	Depth         quantity.Length // ellipsoidal head

	// Cone; its inside diameter is that of the large end.
	HalfAngle     Optional[float64] // degrees at the apex
	SmallDiameter quantity.Length   // inside, of the small end; 0 for a point

	// Elbow.
	BendRadius quantity.Length   // of the center line
	Turn       Optional[float64] // degrees
	Miters     Optional[int]     // joints, 0 for a smooth one

	// Flat bottom, and the taper of any part.
	Supported     Optional[bool]    // whether the whole bottom stands on its foundation
	HoldDown      quantity.Pressure // vacuum, or lift of the shell over its circle, that what holds it down was figured for, by others
	KnuckleHeight quantity.Length   // how far its knuckle reinforcement runs up the wall
	Taper         quantity.Length   // over which a course runs out into a thinner one

	// Cover and panel.
	Width           quantity.Length // of a rectangle, beside its length
	Edge            EdgeSupport
	BoltCircle      quantity.Length   // diameter
	DeflectionLimit Optional[float64] // share of the diameter or the short side

	// Flange.
	Size          quantity.Length // nominal
	Drilling      Drilling
	Thickness     quantity.Length   // the shop's own figure, never computed
	PressureClass quantity.Pressure // for which the shop has proved that thickness
	Bolts         Optional[int]     // where no drilling says so, or it is another one
	BoltSize      quantity.Length   // nominal diameter
	Outside       quantity.Length   // diameter of the ring, where no drilling says so, or it is another one
	Torque        quantity.Moment   // of a bolt, the most that the shop allows
	MateFace      FlangeFace        // of what it is bolted to
	Washers       Optional[bool]    // under every head and nut

	Place Place // no key of a document

	Count Optional[int] // how many alike
	Laid  LaidOrder
	Proof others.Proof // of what no formula here figures
}

// Place is what the job makes of where a part stands, in the part of a wall
// alone: see [Job.Wall].
type Place struct {
	Free        stand.Run       // how its shell or its line is held round under outside pressure
	Top, Tested bool            // a head or cover over the shell; of a job that states its test, which its rules judge
	Line        bool            // of a line of pipes or ducts, a cone between them too
	Unplaced    bool            // how deep the liquid of the equipment stands over it is not known
	Hangs       bool            // held from above, as far as anybody says: what closes it pulls on it
	Pull        quantity.Length // of a course so, or that is lifted: the liquid that does, over its inside circle, see [stand.Vessel.Pull]
	Axial       float64         // N/m that a joint of it states to pull along it, the greatest
	Tip         bool            // of a cone: its small end is the lower one
	Lined       bool            // no part: laid from the process side onto cured faces, its veil last
}

// Joint is the overlay that joins two parts.
type Joint struct {
	Origin
	ID              string
	Between         [2]string       // ids of parts
	Outside, Inside string          // laminates
	Width           quantity.Length // of the widest ply that counts, whole; a coat goes over it
	FirstWidth      quantity.Length
	InsideWidth     quantity.Length
	Widths          WidthOrder
	Gap             quantity.Length    // between the parts
	AxialLoad       quantity.LineForce // beside that of the pressure, pulling
	Qualification   string             // of the bonding procedure and who bonds
	Proof           others.Proof
}

// Nozzle is an opening on a part and what is laid around it.
type Nozzle struct {
	Origin
	ID                                                 string
	On                                                 string            // id of a part
	Height                                             quantity.Length   // above the bottom of the part
	Offset                                             quantity.Length   // on a bottom, head, cone or cover: from its axis
	Bearing                                            Optional[float64] // degrees round the axis, from the first
	Size                                               quantity.Length   // nominal; of the opening where that is not stated
	Opening                                            quantity.Length   // diameter that is cut
	Kind                                               NozzleKind
	Flange, Cover                                      string          // ids of parts
	Projection                                         quantity.Length // from the part to the face of the flange
	PressureClass                                      quantity.Pressure
	Pad, InstallationOutside, InstallationInside, Neck string          // laminates
	PadDiameter                                        quantity.Length // of the first ply, as far as the whole pad counts; its taper runs out beyond
	NeckBond                                           quantity.Length // bonded along neck and part, each
	Gussets                                            Optional[int]
	SealedEdge                                         Optional[bool] // whether the cut edge is sealed
	PipingLoad                                         Optional[bool] // whether what is connected pulls or bends
	Proof                                              others.Proof
}
