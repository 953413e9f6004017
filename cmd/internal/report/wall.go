package report

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
)

// Wall is what the wall command prints as JSON. Figures in SI at full
// precision: A in N/m, B in N, D in N·m about the middle of the plies that
// count, line loads in N/m, strains as such. What is not known is null.
type Wall struct {
	File        string         `json:"file"`
	Title       string         `json:"title"`
	Books       []string       `json:"books"`
	Error       *string        `json:"error"`
	Problems    []Problem      `json:"problems"`
	ThicknessMM *float64       `json:"thickness_mm"`
	A           *[3][3]float64 `json:"A"`
	B           *[3][3]float64 `json:"B"`
	D           *[3][3]float64 `json:"D"`
	Membrane    *Membrane      `json:"membrane"`
	Cases       []Case         `json:"cases"`
	Unknown     []UnknownLoad  `json:"unknown_loads"`
	PlyCase     string         `json:"ply_case"`
	Plies       []PlyStrain    `json:"plies"`
	Criteria    []Criterion    `json:"criteria"`
	Rings       *Rings         `json:"rings"`
	Holds       *bool          `json:"holds"`
	Needed      []Needed       `json:"needed"`
	Notes       []string       `json:"notes"`
	NotChecked  []string       `json:"not_checked"`
}

// Membrane are the moduli of one uniform sheet that gives way as the laminate
// does in its plane.
type Membrane struct {
	ExGPa  float64 `json:"ex_gpa"`
	EyGPa  float64 `json:"ey_gpa"`
	GxyGPa float64 `json:"gxy_gpa"`
	Nuxy   float64 `json:"nuxy"`
}

// Case is one load case.
type Case struct {
	Name     string  `json:"name"`
	NAxial   float64 `json:"n_axial"`
	NHoop    float64 `json:"n_hoop"`
	Strain   *Strain `json:"strain"`
	Judged   bool    `json:"judged"`
	FirstPly string  `json:"first_ply"`
}

// Strain is that of the middle of the plies that count.
type Strain struct {
	Axial float64 `json:"axial"`
	Hoop  float64 `json:"hoop"`
	Shear float64 `json:"shear"`
}

// UnknownLoad is a load that is there but cannot be figured.
type UnknownLoad struct {
	Name   string `json:"name"`
	Reason string `json:"reason"`
}

// PlyStrain is a counted ply row: moduli in Pa, strains and stresses in its
// own axes.
type PlyStrain struct {
	First  int        `json:"first"`
	Last   int        `json:"last"`
	Basis  string     `json:"basis"`
	Angle  float64    `json:"angle"`
	E1     float64    `json:"e1_pa"`
	E2     float64    `json:"e2_pa"`
	G12    float64    `json:"g12_pa"`
	Nu12   float64    `json:"nu12"`
	Strain [3]float64 `json:"strain"`
	Stress [3]float64 `json:"stress_pa"`
}

// Criterion is one demand on the wall. Holds is null where it does not apply
// or cannot be told; the reason says which.
type Criterion struct {
	Name string `json:"name"`
	Case string `json:"case"`
	// Condition is the one the criterion stands worst under, null without any.
	Condition *string  `json:"condition"`
	Demand    *float64 `json:"demand"`
	Capacity  *float64 `json:"capacity"`
	Unit      string   `json:"unit"`
	Ratio     *float64 `json:"ratio"`
	// Minimum is the ratio on minimum moduli, null where none is known.
	Minimum *float64 `json:"ratio_minimum_moduli"`
	Holds   *bool    `json:"holds"`
	Governs bool     `json:"governs"`
	Reason  string   `json:"reason"`
	Basis   string   `json:"basis"`
}

// Rings are the stiffeners that a wall under outside pressure wants, null where
// it holds without or no spacing would do.
type Rings struct {
	SpacingM  float64 `json:"spacing_m"`
	InertiaM4 float64 `json:"inertia_m4"`
	WidthM    float64 `json:"wall_width_m"`
	ModulusPa float64 `json:"modulus_pa"`
}

// Needed is what a wall, or one course of a tank, wants of a repeat unit.
type Needed struct {
	Unit      string   `json:"unit"`
	Repeats   int      `json:"repeats"`
	BottomM   *float64 `json:"bottom_m"`
	TopM      *float64 `json:"top_m"`
	Governing string   `json:"governing"`
	Notes     []string `json:"notes"`
}

const paPerGPa = 1e9

// WallOf is the report of an evaluated wall, with what it wants where that was
// asked.
func WallOf(file string, books []string, s *laminate.Schedule, r *wall.Result, needed []repeat.Course) Wall {
	w := Wall{
		File: file, Title: s.Title, Books: list(books), Problems: []Problem{},
		Cases: []Case{}, Unknown: []UnknownLoad{}, PlyCase: r.PlyCase, Plies: []PlyStrain{}, Criteria: []Criterion{},
		Needed: []Needed{}, Notes: list(r.Notes), NotChecked: list(r.NotChecked), Holds: holds(r.Answer()),
	}
	if r.Problem != "" {
		w.Error = &r.Problem
	} else {
		w.ThicknessMM = known(r.Thickness*mmPerM, true)
		w.A, w.B, w.D = &r.A, &r.B, &r.D
		w.Membrane = &Membrane{r.Membrane.Ex / paPerGPa, r.Membrane.Ey / paPerGPa, r.Membrane.Gxy / paPerGPa, r.Membrane.Nuxy}
	}
	if s := r.Stiffeners; s.Known {
		w.Rings = &Rings{s.Spacing, s.Inertia, s.Width, s.Modulus}
	}
	for _, c := range r.Cases {
		one := Case{Name: c.Name, NAxial: c.NAxial, NHoop: c.NHoop, Judged: c.Judged, FirstPly: c.FirstPly}
		if c.StrainKnown {
			one.Strain = &Strain{c.StrainAxial, c.StrainHoop, c.StrainShear}
		}
		w.Cases = append(w.Cases, one)
	}
	for _, o := range r.Unknown {
		w.Unknown = append(w.Unknown, UnknownLoad(o))
	}
	for _, p := range r.Plies() {
		w.Plies = append(w.Plies, PlyStrain{
			First: p.First, Last: p.Last, Basis: p.Basis, Angle: p.Angle, E1: p.E1, E2: p.E2, G12: p.G12, Nu12: p.Nu12,
			Strain: [3]float64{p.Strain1, p.Strain2, p.Strain12}, Stress: [3]float64{p.Stress1, p.Stress2, p.Stress12},
		})
	}
	w.Criteria = criteria(r)
	for _, n := range needed {
		one := Needed{Unit: n.Unit.String(), Repeats: n.Repeats, Governing: n.Governing.Name, Notes: list(n.Notes)}
		if n.Top > n.Bottom {
			one.BottomM, one.TopM = known(n.Bottom, true), known(n.Top, true)
		}
		w.Needed = append(w.Needed, one)
	}
	return w
}

// criteria are all demands on a wall, governing first.
func criteria(r *wall.Result) []Criterion {
	all := []Criterion{}
	for i := range r.Criteria {
		all = append(all, criterion(&r.Criteria[i]))
	}
	return all
}

// criterion is one demand, with figures where they were weighed.
func criterion(c *wall.Criterion) Criterion {
	var condition *string
	if c.Condition != "" {
		condition = &c.Condition
	}
	weighed := c.Judged()
	return Criterion{
		Name: c.Name, Case: c.Case, Condition: condition, Unit: unitOf(c.Kind), Holds: holds(c.Answer), Governs: c.Governs, Reason: c.Reason, Basis: c.Basis,
		Demand: known(c.Demand, weighed), Capacity: known(c.Capacity, weighed), Ratio: known(c.Ratio, c.Measured() && !math.IsInf(c.Ratio, 0)), Minimum: known(c.RatioMinimum, c.RatioMinimum > 0),
	}
}

// UnreadWall is the report on the wall of a document that could not be read.
func UnreadWall(s Schedule) Wall {
	return Wall{
		File: s.File, Title: s.Title, Books: s.Books, Error: s.Error, Problems: s.Problems, Cases: []Case{}, Unknown: []UnknownLoad{},
		Plies: []PlyStrain{}, Criteria: []Criterion{}, Needed: []Needed{}, Notes: []string{}, NotChecked: []string{},
	}
}

func holds(t wall.Answer) *bool {
	switch t {
	case wall.Holds, wall.Fails:
		yes := t == wall.Holds
		return &yes
	case wall.NotApplicable, wall.Incomplete:
	}
	return nil
}

// unitOf is the SI unit in which JSON gives a figure.
func unitOf(k quantity.Kind) string {
	switch k {
	case quantity.Thickness, quantity.Size:
		return "m"
	case quantity.Torque:
		return "N·m"
	case quantity.Stress:
		return "Pa"
	case quantity.LineLoad:
		return "N/m"
	case quantity.WallMass:
		return "kg/m²"
	case quantity.Strain:
		return "strain"
	case quantity.Point:
		return "K"
	default: // contents
	}
	return "share"
}
