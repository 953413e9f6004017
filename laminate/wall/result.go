package wall

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/word"
)

// DesignAid is what stands wherever a figure of this package could be built
// from.
const DesignAid = "Design aid: the governing code, test data of the shop's own laminates and a licensed engineer decide."

// Options say how to evaluate.
type Options struct {
	CountBarrier bool
	Depth        float64 // m below the liquid surface of a tank; 0 = at the bottom
	// Units are the reader's, for the figures in reasons and notes; not given,
	// the schedule's.
	Units laminate.Optional[quantity.System]
}

// Result is the evaluation of one schedule. Figures in SI, all of them finite.
type Result struct {
	// Problem says in one sentence why there is no laminate to evaluate
	// ("no structural ply"); what rests on moduli is then open.
	Problem    string
	Thickness  float64 // m of the plies that count
	Whole      float64 // m of the whole wall, 0 when not known
	A, B, D    [3][3]float64
	Membrane   stiffness.Moduli
	Cases      []Case
	Unknown    []UnknownLoad // loads that are there but cannot be figured
	Plies      []PlyStrain   // rows that count, from the process side outward
	PlyCase    string        // the case under which Plies strain, empty when none
	Criteria   []Criterion   // governing first
	Stiffeners Stiffening
	Notes      []string // assumptions and what was left out
	NotChecked []string // wind, seismic, …
	// Loaded tells whether pressure, test pressure, vacuum or a liquid height
	// is given.
	Loaded bool
}

// Governing is the deciding criterion that is nearest to failing, or furthest
// beyond; ok is false when none decides.
func (r *Result) Governing() (c Criterion, ok bool) {
	if len(r.Criteria) == 0 || !r.Criteria[0].Decides || r.Criteria[0].Tell == NotApplicable {
		return Criterion{}, false
	}
	return r.Criteria[0], true
}

// Tell is the verdict over what decides: Fails if one fails, else CannotTell
// if one cannot be told, else Holds; NotApplicable where nothing decides.
func (r *Result) Tell() Tell {
	c, ok := r.Governing()
	if !ok {
		return NotApplicable
	}
	return c.Tell
}

// Case is one load case: line loads in N/m and mid-plane strains.
type Case struct {
	Name                                 string // pressure, head, vacuum, …
	NAxial, NHoop                        float64
	StrainKnown                          bool // else the strains are zero for want of moduli
	StrainAxial, StrainHoop, StrainShear float64
	Judged                               bool   // criteria look at it; the test pressure is only shown
	FirstPly                             string // which ply fails first and at how many times this load, or why not told
}

// UnknownLoad is a load that is there but cannot be figured.
type UnknownLoad struct{ Name, Reason string }

// PlyStrain is one counted ply row under the case that strains the wall most.
type PlyStrain struct {
	Row, First, Last           int
	Bottom, Top                float64 // m, from the process-side face of the whole wall
	Basis                      string  // how its moduli were had, one of those of package moduli
	Angle                      float64 // degrees; of a helical cover the first of its two layers
	E1, E2, G12, Nu12          float64
	Strain1, Strain2, Strain12 float64 // ply axes, mid of the row
	Stress1, Stress2, Stress12 float64
}

// Stiffening is how far apart stiffeners may stand by the isotropic formula,
// and how stiff each has to be; only where Known.
type Stiffening struct {
	Known   bool
	Spacing float64 // m
	Inertia float64 // m⁴, of a ring of the wall's own hoop modulus at that spacing
}

// Tell is whether a criterion holds.
type Tell uint8

// The answers.
const (
	NotApplicable Tell = iota // does not apply; Reason says why
	CannotTell                // a fact is missing; Reason says which
	Holds
	Fails
)

var answers = word.Of[Tell]("does not apply", "cannot tell", "holds", "fails")

// String says the answer in words.
func (t Tell) String() string { return answers.Name(t) }

// The names of the criteria.
const (
	HoopStrain          = "hoop-strain"
	AxialStrain         = "axial-strain"
	ResinStrain         = "resin-strain"
	HoopStrengthMinimum = "hoop-strength-minimum"
	UnitLoad            = "unit-load"
	ExternalPressure    = "external-pressure"
	MinimumModulus      = "minimum-modulus"
	MinimumWall         = "minimum-wall"
	// WhichBasis is always open: it stands where neither process nor design
	// basis says which of the others decide.
	WhichBasis = "design-basis"
)

// Criterion is one demand on the wall.
type Criterion struct {
	Name     string // hoop-strain, axial-strain, resin-strain, …
	Case     string
	Demand   float64
	Capacity float64
	Unit     string  // "strain", "m", "Pa", "N/m"
	Ratio    float64 // demand / capacity; 0 where there is none
	Tell     Tell
	Decides  bool
	Reason   string
	Basis    string
}

// weigh compares demand with capacity and fills in the answer.
func (c *Criterion) weigh(demand, capacity float64) {
	ratio := demand / capacity
	if !sound(demand) || !sound(capacity) || !sound(ratio) || capacity <= 0 {
		c.open("figures are beyond what can be computed")
		return
	}
	c.Demand, c.Capacity, c.Ratio = demand, capacity, ratio
	c.Tell = Holds
	if exceeds(demand, capacity) {
		c.Tell = Fails
	}
}

func (c *Criterion) open(reason string) { c.Tell, c.Reason = CannotTell, reason }

func (c *Criterion) skip(reason string) { c.Tell, c.Reason = NotApplicable, reason }

// decidedBy tells whether a criterion of the given basis decides on the part.
func decidedBy(p *laminate.Part, b laminate.DesignBasis) bool { return p.Basis() == b }

func notChecked() []string {
	return []string{"wind", "seismic", "hold-down", "supports", "lifting", "burial", "thermal expansion", "fatigue",
		"heads, flanges, nozzles and joints", "weight of the wall and of what hangs on it"}
}
