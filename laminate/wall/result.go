package wall

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/moduli"
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
	// Trial is where walls are tried out one after another, nil for any other wall:
	// what decides nothing is left out, most notes and which ply gives way first.
	Trial *moduli.Trial
	// Room is memory that criteria may take, nil for their own: of a trial, those of
	// the one before. Under conditions each result has its own.
	Room []Criterion
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
	Counted    int           // rows that count, as Plies lists them
	PlyCase    string        // the case under which Plies strain, empty when none
	Criteria   []Criterion   // governing first
	Stiffeners Stiffening
	Notes      []string // assumptions and what was left out
	NotChecked []string // wind, seismic, …
	// FormOpen says why a part of this form is outside of every formula here,
	// whatever else is stated, and that no proof of others reaches what it bears.
	FormOpen string
	// Rests says why it is outside of them where the answer rests on others, whether
	// what they proved reaches or not.
	Rests string
	// Loaded tells whether pressure, test pressure, vacuum or a liquid height
	// is given.
	Loaded bool

	stiffOf string // the condition that the stiffness is of
	of      inputs // what the stiffness is of, without conditions
}

// Governing is the governing criterion that is nearest to failing, or furthest
// beyond; ok is false when none governs.
func (r *Result) Governing() (c Criterion, ok bool) {
	if len(r.Criteria) == 0 || !r.Criteria[0].Governs || r.Criteria[0].Answer == NotApplicable {
		return Criterion{}, false
	}
	return r.Criteria[0], true
}

// Answer is the verdict over what governs: Fails if one fails, else Incomplete
// if one cannot be determined, else Holds; NotApplicable where none governs.
func (r *Result) Answer() Answer {
	c, ok := r.Governing()
	if !ok {
		return NotApplicable
	}
	return c.Answer
}

// Case is one load case: line loads in N/m and mid-plane strains.
type Case struct {
	Name                                 string // pressure, head, vacuum, …
	NAxial, NHoop                        float64
	StrainKnown                          bool // else the strains are zero for want of moduli
	StrainAxial, StrainHoop, StrainShear float64
	Judged                               bool   // criteria look at it; the test pressure is only shown
	FirstPly                             string // which ply fails first and at how many times this load, or why that cannot be determined
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

// Stiffening is how far apart rings may stand for the wall between them to hold
// the outside pressure, by the formulas that judge it, and the section that
// each needs; only where Known: the wall does not hold without.
type Stiffening struct {
	Known   bool
	Spacing float64 // m, center to center
	Inertia float64 // m⁴, of ring and wall together, about their own axis
	Width   float64 // m of wall that acts with a ring
	Modulus float64 // Pa, hoop, that the section is figured for: the wall's own
}

// Answer is whether a criterion holds.
type Answer uint8

// The answers.
const (
	NotApplicable Answer = iota // does not apply; Reason says why
	Incomplete                  // a fact is missing, so it cannot be determined; Reason says which
	Holds
	Fails
)

var answers = word.Of[Answer]("does not apply", "incomplete", "holds", "fails")

// String says the answer in words.
func (t Answer) String() string { return answers.Name(t) }

// The names of the criteria.
const (
	HoopStrain       = "hoop-strain"
	AxialStrain      = "axial-strain"
	ResinStrain      = "resin-strain"
	HoopStrength     = "hoop-strength"
	AxialStrength    = "axial-strength" // where it asks for more than hoop strength does
	UnitLoad         = "unit-load"
	ExternalPressure = "external-pressure"
	MinimumModulus   = "minimum-modulus"
	MinimumThickness = "minimum-thickness"
	PlateStress      = "plate-stress"
	PlateDeflection  = "plate-deflection"
	FlangeThickness  = "flange-thickness"
	FlangeClass      = "flange-class"
	BoltTorque       = "bolt-torque"
	BottomSupport    = "bottom-support"
	HoldDown         = "hold-down"
	StepLoad         = "step-load"
	// WhichBasis is always open: it stands where neither process nor design
	// basis says which of the others decide.
	WhichBasis = "design-basis"
)

// Criterion is one demand on the wall.
type Criterion struct {
	Name string // hoop-strain, axial-strain, resin-strain, …
	Case string
	// Condition is the one that the criterion stands worst under, "" where there
	// are none.
	Condition string
	Demand    float64 // SI, as Capacity; both 0 unless Judged
	Capacity  float64
	Kind      quantity.Kind // what Demand and Capacity measure
	Ratio     float64       // demand / capacity; 0 where there is none
	// RatioMinimum is the ratio on minimum moduli, where Demand or Capacity rest
	// on typical ones and minima are known; else 0.
	RatioMinimum float64
	Answer       Answer
	Governs      bool // by the part's design basis
	Reason       string
	Basis        string

	// ByGlass tells of a criterion that cannot be determined as the wall is, and
	// can be once it is thick enough.
	ByGlass bool
}

// Title is the criterion as sentences and pages name it: "minimum thickness".
func (c *Criterion) Title() string { return strings.ReplaceAll(c.Name, "-", " ") }

// Judged tells whether there are figures: it holds or fails.
func (c *Criterion) Judged() bool { return c.Answer == Holds || c.Answer == Fails }

// Measured tells whether its figures make a share of what the wall may bear: a
// temperature, and the structure that something was proved with, do not.
func (c *Criterion) Measured() bool { return c.Judged() && c.shared() }

func (c *Criterion) shared() bool { return c.Kind != quantity.Point && c.Name != others.Structure }

// Figures prints demand and capacity in the reader's units, told apart; both
// empty unless Judged.
func (c *Criterion) Figures(u quantity.System) (demand, capacity string) {
	if !c.Judged() {
		return "", ""
	}
	return u.Pair(c.Demand, c.Capacity, c.Kind)
}

// Compared says demand and capacity in a sentence: "required 3.00 kPa,
// allowable 0.200 kPa (15 times)"; empty unless Judged.
func (c *Criterion) Compared(u quantity.System) string {
	if !c.Judged() {
		return ""
	}
	required, allowable := "required", "allowable"
	switch {
	case c.Kind == quantity.Strain:
		required = "strain"
	case c.Name == MinimumModulus, c.Name == MinimumThickness, c.Name == HoopStrength, c.Name == FlangeThickness, c.Name == others.Structure:
		allowable = "actual"
	}
	demand, capacity := c.Figures(u)
	text := required + " " + demand + ", " + allowable + " " + capacity
	switch {
	case c.Ratio > mostTimes:
		text += " (more than " + u.Figure(mostTimes, quantity.Times) + " times)"
	case c.Answer == Fails && c.Measured():
		text += " (" + quantity.Exceeded(c.Ratio) + " times)"
	}
	return text
}

// mostTimes is how many times too much is told to the digit.
const mostTimes = 1000

// weigh compares demand with capacity and fills in the answer.
func (c *Criterion) weigh(demand, capacity float64) {
	ratio := demand / capacity
	if !sound(demand) || !sound(capacity) || !sound(ratio) || capacity <= 0 {
		c.open("figures are beyond what can be computed")
		return
	}
	c.Demand, c.Capacity = demand, capacity
	if c.shared() {
		c.Ratio = ratio
	}
	c.Answer = Holds
	if quantity.Above(demand, capacity) {
		c.Answer = Fails
	}
}

func (c *Criterion) open(reason string) { c.Answer, c.Reason = Incomplete, reason }

func (c *Criterion) skip(reason string) { c.Answer, c.Reason = NotApplicable, reason }

// governedBy tells whether a criterion of the given basis governs for the part.
func governedBy(p *laminate.Part, b laminate.DesignBasis) bool { return p.Basis() == b }

// PartsOfJobs are what no wall by itself is checked for, and a job's rules are.
const PartsOfJobs = "heads, flanges, nozzles and joints"

// BesideJoins is what no rule of jobs is about.
const BesideJoins = "peaks of shear at the ends of bonds and bending beside joints and openings"

// NotChecked lists what no figure here speaks about.
func NotChecked() []string {
	return []string{"wind", "seismic", "hold-down", "supports", "lifting", "burial", "thermal expansion", "fatigue",
		PartsOfJobs, "weight of the wall and of what hangs on it"}
}
