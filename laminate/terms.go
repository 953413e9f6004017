package laminate

// The closed sets of words a document may use. Every set is a small integer
// with its words in one table; the zero value is "not stated".

// word tables: index = value; "" at 0.
type words []string

func (w words) name(i uint8) string {
	if int(i) < len(w) {
		return w[i]
	}
	return ""
}

func parseWord[T ~uint8](w words, s string) (T, bool) {
	for i := 1; i < len(w); i++ {
		if w[i] == s {
			return T(i), true
		}
	}
	return 0, false
}

func listWords[T ~uint8](w words) []T {
	all := make([]T, 0, len(w)-1)
	for i := 1; i < len(w); i++ {
		all = append(all, T(i))
	}
	return all
}

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

var zoneWords = words{"", "inner-surface", "interior-layer", "structural-layer", "outer-surface"}

func (z Zone) String() string { return zoneWords.name(uint8(z)) }

// InBarrier tells whether the zone belongs to the corrosion barrier.
func (z Zone) InBarrier() bool { return z == InnerSurface || z == InteriorLayer }

// ParseZone reads a zone's word.
func ParseZone(s string) (Zone, bool) { return parseWord[Zone](zoneWords, s) }

// Zones lists them from the process side outward.
func Zones() []Zone { return listWords[Zone](zoneWords) }

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

var formWords = words{"", "veil", "chopped-mat", "sprayed-chop", "woven-roving", "unidirectional", "roving-band", "resin-coat", "lamina"}

func (f Form) String() string { return formWords.name(uint8(f)) }

// Chopped tells whether the form is randomly laid chopped fiber.
func (f Form) Chopped() bool { return f == ChoppedMat || f == SprayedChop }

// Continuous tells whether fibers run through: woven, unidirectional, wound.
func (f Form) Continuous() bool { return f == WovenRoving || f == Unidirectional || f == RovingBand }

// Directed tells whether a ply of the form has an angle.
func (f Form) Directed() bool { return f.Continuous() || f == Lamina }

// ParseForm reads a form's word.
func ParseForm(s string) (Form, bool) { return parseWord[Form](formWords, s) }

// Forms lists them.
func Forms() []Form { return listWords[Form](formWords) }

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

var fiberWords = words{"", "e-glass", "ecr-glass", "c-glass", "polyester", "carbon"}

func (f Fiber) String() string { return fiberWords.name(uint8(f)) }

// Glass tells whether an ignition test leaves the fiber.
func (f Fiber) Glass() bool { return f == EGlass || f == ECRGlass || f == CGlass }

// ParseFiber reads a fiber's word.
func ParseFiber(s string) (Fiber, bool) { return parseWord[Fiber](fiberWords, s) }

// Fibers lists them.
func Fibers() []Fiber { return listWords[Fiber](fiberWords) }

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

var familyWords = words{"", "isophthalic-polyester", "terephthalic-polyester", "bisphenol-fumarate-polyester", "chlorendic-polyester",
	"vinyl-ester", "brominated-vinyl-ester", "novolac-vinyl-ester", "brominated-novolac-vinyl-ester"}

func (f Family) String() string { return familyWords.name(uint8(f)) }

// PlainEster tells whether the family is iso- or terephthalic polyester.
func (f Family) PlainEster() bool { return f == Isophthalic || f == Terephthalic }

// Brominated tells whether the family carries bromine.
func (f Family) Brominated() bool {
	return f == BrominatedVinylEster || f == BrominatedNovolacVinylEster
}

// ParseFamily reads a resin family's word.
func ParseFamily(s string) (Family, bool) { return parseWord[Family](familyWords, s) }

// Families lists them.
func Families() []Family { return listWords[Family](familyWords) }

// Filler is a powder in a resin mix.
type Filler uint8

// The fillers.
const (
	NoFiller Filler = iota
	SiliconCarbide
	AluminumOxide
	CarbonPowder
)

var fillerWords = words{"", "silicon-carbide", "aluminum-oxide", "carbon-powder"}

func (f Filler) String() string { return fillerWords.name(uint8(f)) }

// Hard tells whether the filler resists abrasion.
func (f Filler) Hard() bool { return f == SiliconCarbide || f == AluminumOxide }

// ParseFiller reads a filler's word.
func ParseFiller(s string) (Filler, bool) { return parseWord[Filler](fillerWords, s) }

// Fillers lists them.
func Fillers() []Filler { return listWords[Filler](fillerWords) }

// Cure is how a resin is cured.
type Cure uint8

// The cures.
const (
	NoCure Cure = iota
	PeroxideCobalt
	PeroxideAmine
)

var cureWords = words{"", "peroxide-cobalt", "peroxide-amine"}

func (c Cure) String() string { return cureWords.name(uint8(c)) }

// ParseCure reads a cure's word.
func ParseCure(s string) (Cure, bool) { return parseWord[Cure](cureWords, s) }

// Cures lists them.
func Cures() []Cure { return listWords[Cure](cureWords) }

// PartForm is what kind of thing is built.
type PartForm uint8

// The part forms.
const (
	NoPartForm PartForm = iota
	Pipe
	Duct
	Tank
	Panel
)

var partFormWords = words{"", "pipe", "duct", "tank", "panel"}

func (f PartForm) String() string { return partFormWords.name(uint8(f)) }

// ParsePartForm reads a part form's word.
func ParsePartForm(s string) (PartForm, bool) { return parseWord[PartForm](partFormWords, s) }

// PartForms lists them.
func PartForms() []PartForm { return listWords[PartForm](partFormWords) }

// Process is how the structure is made.
type Process uint8

// The processes.
const (
	NoProcess Process = iota
	ContactMolded
	Wound
)

var processWords = words{"", "contact", "wound"}

func (p Process) String() string { return processWords.name(uint8(p)) }

// ParseProcess reads a process's word.
func ParseProcess(s string) (Process, bool) { return parseWord[Process](processWords, s) }

// Processes lists them.
func Processes() []Process { return listWords[Process](processWords) }

// Ends tells whether the wall carries the end thrust.
type Ends uint8

// The ends.
const (
	NoEnds Ends = iota
	ClosedEnds
	OpenEnds
)

var endsWords = words{"", "closed", "open"}

func (e Ends) String() string { return endsWords.name(uint8(e)) }

// ParseEnds reads the word.
func ParseEnds(s string) (Ends, bool) { return parseWord[Ends](endsWords, s) }

// EndsList lists them.
func EndsList() []Ends { return listWords[Ends](endsWords) }

// DesignBasis is the family of criteria that decides whether the wall is enough.
type DesignBasis uint8

// The design bases.
const (
	NoBasis DesignBasis = iota
	StrainLimit
	StrengthTable
	UnitLoad
)

var basisWords = words{"", "strain-limit", "strength-table", "unit-load"}

func (b DesignBasis) String() string { return basisWords.name(uint8(b)) }

// ParseDesignBasis reads the word.
func ParseDesignBasis(s string) (DesignBasis, bool) { return parseWord[DesignBasis](basisWords, s) }

// DesignBases lists them.
func DesignBases() []DesignBasis { return listWords[DesignBasis](basisWords) }

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

var contactWords = words{"", "immersed", "vapor", "splash"}

func (c Contact) String() string { return contactWords.name(uint8(c)) }

// ParseContact reads the word.
func ParseContact(s string) (Contact, bool) { return parseWord[Contact](contactWords, s) }

// Contacts lists them.
func Contacts() []Contact { return listWords[Contact](contactWords) }

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

var traitWords = words{"", "fluorides", "hypochlorite", "chlorine-dioxide", "strong-base", "strong-acid", "pulping-liquor",
	"plating-solution", "lithium", "solvent", "oxidizer", "brine", "solids"}

func (t Trait) String() string { return traitWords.name(uint8(t)) }

// ParseTrait reads a trait's word.
func ParseTrait(s string) (Trait, bool) { return parseWord[Trait](traitWords, s) }

// AllTraits lists them.
func AllTraits() []Trait { return listWords[Trait](traitWords) }

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
	for _, x := range AllTraits() {
		if t.Has(x) {
			list = append(list, x)
		}
	}
	return list
}
