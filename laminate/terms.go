package laminate

import (
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// The closed sets of words a document may use. Every set is a small integer
// with its words in one table; the zero value is "not stated".

// Zone is the place of a ply in the wall, in the standards' terms.
type Zone uint8

// The zones, from the process side outward.
const (
	NoZone Zone = iota
	InnerSurface
	InteriorLayer
	StructuralLayer
	OuterSurface
)

// Zones are the words of zones, from the process side outward.
var Zones = word.Of[Zone]("", "inner-surface", "interior-layer", "structural-layer", "outer-surface")

func (z Zone) String() string { return Zones.Name(z) }

// InBarrier tells whether the zone belongs to the corrosion barrier.
func (z Zone) InBarrier() bool { return z == InnerSurface || z == InteriorLayer }

// Form is how a material comes.
type Form uint8

// The material forms.
const (
	NoForm Form = iota
	Veil
	ChoppedMat
	SprayedChop
	WovenRoving
	Unidirectional
	RovingBand
	ResinCoat
	Lamina
)

// Forms are the words of material forms.
var Forms = word.Of[Form]("", "veil", "chopped-mat", "sprayed-chop", "woven-roving", "unidirectional", "roving-band", "resin-coat", "lamina")

func (f Form) String() string { return Forms.Name(f) }

// Chopped tells whether the form is randomly laid chopped fiber.
func (f Form) Chopped() bool { return f == ChoppedMat || f == SprayedChop }

// MassKind is how the areal mass of a reinforcement of the form is printed.
func (f Form) MassKind() quantity.Kind {
	if f == WovenRoving || f == Unidirectional {
		return quantity.ClothMass
	}
	return quantity.FabricMass
}

// Continuous tells whether fibers run through: woven, unidirectional, wound.
func (f Form) Continuous() bool { return f == WovenRoving || f == Unidirectional || f == RovingBand }

// Directed tells whether a ply of the form has an angle.
func (f Form) Directed() bool { return f.Continuous() || f == Lamina }

// Fiber is what the reinforcement is made of.
type Fiber uint8

// The fibers.
const (
	NoFiber Fiber = iota
	EGlass
	ECRGlass
	CGlass
	Polyester
	Carbon
)

// Fibers are the words of fibers.
var Fibers = word.Of[Fiber]("", "e-glass", "ecr-glass", "c-glass", "polyester", "carbon")

func (f Fiber) String() string { return Fibers.Name(f) }

// Glass tells whether an ignition test leaves the fiber.
func (f Fiber) Glass() bool { return f == EGlass || f == ECRGlass || f == CGlass }

// Family is a generic resin family.
type Family uint8

// The resin families.
const (
	NoFamily Family = iota
	Isophthalic
	Terephthalic
	BisphenolFumarate
	Chlorendic
	VinylEster
	BrominatedVinylEster
	NovolacVinylEster
	BrominatedNovolacVinylEster
)

// Families are the words of resin families.
var Families = word.Of[Family]("", "isophthalic-polyester", "terephthalic-polyester", "bisphenol-fumarate-polyester", "chlorendic-polyester",
	"vinyl-ester", "brominated-vinyl-ester", "novolac-vinyl-ester", "brominated-novolac-vinyl-ester")

func (f Family) String() string { return Families.Name(f) }

// PlainEster tells whether the family is iso- or terephthalic polyester.
func (f Family) PlainEster() bool { return f == Isophthalic || f == Terephthalic }

// Brominated tells whether the family carries bromine.
func (f Family) Brominated() bool {
	return f == BrominatedVinylEster || f == BrominatedNovolacVinylEster
}

// Filler is a powder in a resin mix.
type Filler uint8

// The fillers.
const (
	NoFiller Filler = iota
	SiliconCarbide
	AluminumOxide
	CarbonPowder
)

// Fillers are the words of fillers.
var Fillers = word.Of[Filler]("", "silicon-carbide", "aluminum-oxide", "carbon-powder")

func (f Filler) String() string { return Fillers.Name(f) }

// Hard tells whether the filler resists abrasion.
func (f Filler) Hard() bool { return f == SiliconCarbide || f == AluminumOxide }

// Cure is how a resin is cured.
type Cure uint8

// The cures.
const (
	NoCure Cure = iota
	PeroxideCobalt
	PeroxideAmine
)

// Cures are the words of cures.
var Cures = word.Of[Cure]("", "peroxide-cobalt", "peroxide-amine")

func (c Cure) String() string { return Cures.Name(c) }

// PartForm is what kind of thing is built.
type PartForm uint8

// OfShell tells whether a part of the form stands in the shell of a vessel, where a
// liquid presses.
func (f PartForm) OfShell() bool {
	return f == ShellCourse || f == FlatBottom || f == HeadPart || f == Cone
}

// HeldRound tells whether rings can hold a part of the form round under outside
// pressure: flat ones and heads have none.
func (f PartForm) HeldRound() bool {
	return f != Panel && f != Cover && f != FlatBottom && f != Flange && f != HeadPart
}

// The part forms: of schedules, then those that only parts of a job have.
const (
	NoPartForm PartForm = iota
	Pipe
	Duct
	Tank
	Panel
	Elbow
	ShellCourse
	FlatBottom
	HeadPart
	Cone
	Flange
	Cover
)

// PartForms are the words of a schedule's part forms, JobForms those of the
// parts of a job: what a schedule calls a tank is several parts there.
var (
	PartForms = word.Of[PartForm]("", "pipe", "duct", "tank", "panel")
	JobForms  = word.Of[PartForm]("", "pipe", "duct", "", "panel", "elbow", "shell-course", "flat-bottom", "head", "cone", "flange", "cover")
)

func (f PartForm) String() string {
	if f == Tank {
		return PartForms.Name(f)
	}
	return JobForms.Name(f)
}

// Process is how the structure is made.
type Process uint8

// The processes.
const (
	NoProcess Process = iota
	ContactMolded
	Wound
)

// Processes are the words of processes. What shops write for them is read too.
var Processes = word.Of[Process]("", "contact", "wound").
	Reading(ContactMolded, "contact-molded", "hand-lay-up").Reading(Wound, "filament-wound")

func (p Process) String() string { return Processes.Name(p) }

// Ends tells whether the wall carries the end thrust.
type Ends uint8

// The ends.
const (
	NoEnds Ends = iota
	ClosedEnds
	OpenEnds
)

// EndsWords are the words of ends.
var EndsWords = word.Of[Ends]("", "closed", "open")

func (e Ends) String() string { return EndsWords.Name(e) }

// DesignBasis is the family of criteria that decides whether the wall is enough.
type DesignBasis uint8

// The design bases.
const (
	NoBasis DesignBasis = iota
	StrainLimit
	StrengthTable
	UnitLoad
)

// DesignBases are the words of design bases.
var DesignBases = word.Of[DesignBasis]("", "strain-limit", "strength-table", "unit-load")

func (b DesignBasis) String() string { return DesignBases.Name(b) }

// Basis is the design basis that holds: the one stated, else the usual one of
// the process (contact: strength table; wound: strain limit), else NoBasis.
func (p Part) Basis() DesignBasis {
	switch {
	case p.DesignBasis != NoBasis:
		return p.DesignBasis
	case p.Process == ContactMolded:
		return StrengthTable
	case p.Process == Wound:
		return StrainLimit
	}
	return NoBasis
}

// Contact is how the wall meets the fluid.
type Contact uint8

// The contacts.
const (
	NoContact Contact = iota
	Immersed
	Vapor
	Splash
)

// Contacts are the words of contacts.
var Contacts = word.Of[Contact]("", "immersed", "vapor", "splash")

func (c Contact) String() string { return Contacts.Name(c) }

// Trait is something a service contains that decides about veils and resins.
type Trait uint8

// The service traits.
const (
	NoTrait Trait = iota
	Fluorides
	Hypochlorite
	ChlorineDioxide
	StrongBase
	StrongAcid
	PulpingLiquor
	PlatingSolution
	Lithium
	Solvent
	Oxidizer
	Brine
	Solids
)

// TraitWords are the words of traits.
var TraitWords = word.Of[Trait]("", "fluorides", "hypochlorite", "chlorine-dioxide", "strong-base", "strong-acid", "pulping-liquor",
	"plating-solution", "lithium", "solvent", "oxidizer", "brine", "solids")

func (t Trait) String() string { return TraitWords.Name(t) }

// Traits is a set of traits, and whether the document gave the list at all
// (an empty list says "none", which is a fact).
type Traits struct {
	bits  uint32
	Given bool
}

// TraitSet makes a stated set.
func TraitSet(list ...Trait) Traits {
	t := Traits{Given: true}
	for _, x := range list {
		t.bits |= 1 << x
	}
	return t
}

// Has tells whether any of the traits is in the set.
func (t Traits) Has(any ...Trait) bool {
	for _, x := range any {
		if t.bits&(1<<x) != 0 {
			return true
		}
	}
	return false
}

// List gives the traits in their fixed order.
func (t Traits) List() []Trait {
	var list []Trait
	for _, x := range TraitWords.All() {
		if t.Has(x) {
			list = append(list, x)
		}
	}
	return list
}

// HeadShape is the shape of a head.
type HeadShape uint8

// The head shapes.
const (
	NoHeadShape HeadShape = iota
	Torispherical
	Ellipsoidal
	Hemispherical
)

// HeadShapes are the words of head shapes.
var HeadShapes = word.Of[HeadShape]("", "torispherical", "ellipsoidal", "hemispherical")

func (h HeadShape) String() string { return HeadShapes.Name(h) }

// EdgeSupport is how a flat plate is held round its edge.
type EdgeSupport uint8

// The supports.
const (
	NoEdgeSupport EdgeSupport = iota
	SimplySupported
	Clamped
)

// EdgeSupports are the words of edge supports.
var EdgeSupports = word.Of[EdgeSupport]("", "simply-supported", "clamped")

func (e EdgeSupport) String() string { return EdgeSupports.Name(e) }

// Drilling is the table of bolt holes that a flange or cover follows.
type Drilling uint8

// The drillings.
const (
	NoDrilling Drilling = iota
	Class150
	Class125
)

// Drillings are the words of drillings.
var Drillings = word.Of[Drilling]("", "class-150", "class-125")

func (d Drilling) String() string { return Drillings.Name(d) }

// FlangeFace is the face of what a flange is bolted to.
type FlangeFace uint8

// The faces.
const (
	NoFlangeFace FlangeFace = iota
	FlatFace
	RaisedFace
)

// FlangeFaces are the words of flange faces.
var FlangeFaces = word.Of[FlangeFace]("", "flat", "raised")

func (f FlangeFace) String() string { return FlangeFaces.Name(f) }

// TestMedium is what a part is filled with under test.
type TestMedium uint8

// The media.
const (
	NoTestMedium TestMedium = iota
	TestWater
	TestFluid
	TestGas
)

// TestMedia are the words of test media.
var TestMedia = word.Of[TestMedium]("", "water", "fluid", "gas").Reading(TestGas, "air", "nitrogen")

func (m TestMedium) String() string { return TestMedia.Name(m) }

// LaidOrder is from which side a part is laid up.
type LaidOrder uint8

// The orders.
const (
	NoLaidOrder LaidOrder = iota
	InsideOut
	OutsideIn
)

// LaidOrders are the words of the orders.
var LaidOrders = word.Of[LaidOrder]("", "inside-out", "outside-in")

func (o LaidOrder) String() string { return LaidOrders.Name(o) }

// WidthOrder is in which order the plies of an overlay grow.
type WidthOrder uint8

// The orders of widths.
const (
	NoWidthOrder WidthOrder = iota
	NarrowFirst
	WideFirst
)

// WidthOrders are the words of the orders of widths.
var WidthOrders = word.Of[WidthOrder]("", "narrow-first", "wide-first")

func (o WidthOrder) String() string { return WidthOrders.Name(o) }

// NozzleKind is how the neck of a nozzle meets its part.
type NozzleKind uint8

// The kinds of nozzles.
const (
	NoNozzleKind NozzleKind = iota
	Penetrating
	SetOn
	Conical
)

// NozzleKinds are the words of the kinds of nozzles.
var NozzleKinds = word.Of[NozzleKind]("", "penetrating", "set-on", "conical")

func (k NozzleKind) String() string { return NozzleKinds.Name(k) }
