// Package report is what commands print as JSON. It is made from the same
// reports as the sheets of package paper, so that they cannot disagree. The
// names of the fields are a promise to scripts.
package report

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// Unusable is the verdict on a document that could not be read.
const Unusable = "unusable"

// Schedule is one element of what check prints as JSON. Thickness in mm, mass
// in kg/m², fractions from 0 to 1, each at full precision; what is not known
// is null.
type Schedule struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Books    []string  `json:"books"`
	Error    *string   `json:"error"`
	Problems []Problem `json:"problems"`
	Plies    []Ply     `json:"plies"`
	Zones    Zones     `json:"zones"`
	Findings []Finding `json:"findings"`
	// NotWeighed is what part and service state and nothing weighs.
	NotWeighed []NotWeighed `json:"not_weighed"`
	Verdict    string       `json:"verdict"`
}

// NotWeighed is a stated fact that nothing weighs: "service", "contact".
type NotWeighed struct {
	Table  string `json:"table"`
	Key    string `json:"key"`
	Line   int    `json:"line"`
	Reason string `json:"reason"`
}

// Problem is one thing that makes a document unreadable. Line and Column count
// from 1; 0 is the document as a whole.
type Problem struct {
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Key     string `json:"key"`
	Message string `json:"message"`
}

// Ply is one single ply: a row with a count of three is three of them.
type Ply struct {
	Number              int      `json:"number"`
	Line                int      `json:"line"`
	Material            string   `json:"material"`
	Zone                string   `json:"zone"`
	Resin               *string  `json:"resin"`
	ThicknessMM         float64  `json:"thickness_mm"`
	BookedThicknessMM   *float64 `json:"booked_thickness_mm"`
	ToHereMM            float64  `json:"to_here_mm"`
	FiberMassFraction   *float64 `json:"fiber_mass_fraction"`
	GlassMassFraction   *float64 `json:"glass_mass_fraction"`
	FiberVolumeFraction *float64 `json:"fiber_volume_fraction"`
	MassKgM2            *float64 `json:"mass_kg_m2"`
}

// Zones are the sums of the four zones, of the barrier and of the whole wall.
type Zones struct {
	InnerSurface    Zone `json:"inner-surface"`
	InteriorLayer   Zone `json:"interior-layer"`
	Barrier         Zone `json:"barrier"`
	StructuralLayer Zone `json:"structural-layer"`
	OuterSurface    Zone `json:"outer-surface"`
	Total           Zone `json:"total"`
}

// Zone is the sum of some plies. An empty one is zeros, its fractions null.
type Zone struct {
	ThicknessMM       float64  `json:"thickness_mm"`
	MassKgM2          *float64 `json:"mass_kg_m2"`
	FiberMassFraction *float64 `json:"fiber_mass_fraction"`
	GlassMassFraction *float64 `json:"glass_mass_fraction"`
}

// Finding is one thing that a rule has to say. Plies are numbers of single
// plies.
type Finding struct {
	Rule     string  `json:"rule"`
	Severity string  `json:"severity"`
	Plies    []int   `json:"plies"`
	Message  string  `json:"message"`
	Basis    string  `json:"basis"`
	Fix      *string `json:"fix"`
}

const mmPerM = 1000

// Lines tells where in its document a place of a schedule stands, counting
// from 1; 0 when the document has no such place.
type Lines func(laminate.Ref) int

// Judged is the report of a schedule that could be read. Without plies their
// list is left empty, for text that does not show them.
func Judged(file string, books []string, r *rules.Report, lines Lines) Schedule {
	return Schedule{
		File: file, Title: r.Schedule.Title, Books: list(books), Problems: []Problem{},
		Plies: plies(r, lines), Zones: zones(r.Analysis), Findings: findings(r, lines),
		NotWeighed: notWeighed(r, lines), Verdict: r.Verdict.String(),
	}
}

func notWeighed(r *rules.Report, lines Lines) []NotWeighed {
	list := make([]NotWeighed, 0, len(r.PassedOver))
	for _, x := range r.PassedOver {
		table := "part"
		if x.At.Kind == laminate.RefService {
			table = "service"
		}
		list = append(list, NotWeighed{table, x.At.Key, lines(x.At), x.Reason})
	}
	return list
}

// Unread is the report of a document that could not be read: one sentence and
// all its problems.
func Unread(file, sentence string, books []string, problems []Problem) Schedule {
	return Schedule{
		File: file, Books: list(books), Error: &sentence, Problems: list(problems),
		Plies: []Ply{}, Zones: zones(&laminate.Analysis{}), Findings: []Finding{},
		NotWeighed: []NotWeighed{}, Verdict: Unusable,
	}
}

// list is never null in JSON.
func list[T any](of []T) []T {
	if of == nil {
		return []T{}
	}
	return of
}

// plies lists single plies; those of one row have its figures in common.
func plies(r *rules.Report, lines Lines) []Ply {
	all := make([]Ply, 0, r.Schedule.NumberOfPlies())
	figures := make([]rowFigures, len(r.Analysis.Rows))
	here := 0.0
	for i := range r.Analysis.Rows {
		row, laid, own := &r.Analysis.Rows[i], &r.Schedule.Plies[i], &figures[i]
		p := Ply{
			Line: lines(laminate.PlyRef(i, "")), Material: laid.Material, Zone: row.Zone.String(),
			ThicknessMM:         row.Thickness * mmPerM,
			FiberMassFraction:   own.fiber.set(row.FiberMassFraction()),
			GlassMassFraction:   own.glass.set(row.GlassMassFraction()),
			FiberVolumeFraction: own.volume.set(row.FiberVolumeFraction()),
			MassKgM2:            own.mass.set(row.Mass, row.MassKnown),
			BookedThicknessMM:   own.booked.set(row.Booked*mmPerM, row.Booked > 0),
		}
		if laid.Resin != "" {
			p.Resin = &laid.Resin
		}
		for n := row.First; n <= row.Last; n++ {
			here += row.Thickness
			p.Number, p.ToHereMM = n, here*mmPerM
			all = append(all, p)
		}
	}
	return all
}

// rowFigures are what may not be known of a row, in one place for all rows.
type rowFigures struct{ fiber, glass, volume, mass, booked figure }

type figure float64

// set gives the figure to be pointed to, nil where it is not known.
func (f *figure) set(v float64, ok bool) *float64 {
	if !ok {
		return nil
	}
	*f = figure(v)
	return (*float64)(f)
}

func zones(a *laminate.Analysis) Zones {
	return Zones{
		InnerSurface:    zone(a.Zones[laminate.InnerSurface]),
		InteriorLayer:   zone(a.Zones[laminate.InteriorLayer]),
		Barrier:         zone(a.Barrier),
		StructuralLayer: zone(a.Zones[laminate.StructuralLayer]),
		OuterSurface:    zone(a.Zones[laminate.OuterSurface]),
		Total:           zone(a.Total),
	}
}

func zone(s laminate.Sum) Zone {
	return Zone{
		ThicknessMM:       s.Thickness * mmPerM,
		MassKgM2:          known(s.Mass, s.MassKnown || s.Plies == 0),
		FiberMassFraction: known(s.FiberMassFraction()),
		GlassMassFraction: known(s.GlassMassFraction()),
	}
}

func findings(r *rules.Report, lines Lines) []Finding {
	all := make([]Finding, 0, len(r.Findings))
	for i := range r.Findings {
		f := &r.Findings[i]
		one := Finding{
			Rule: f.Rule.ID, Severity: f.Severity.String(), Plies: []int{},
			Message: f.Message, Basis: f.Basis,
		}
		n := 0
		for _, row := range f.Rows {
			n += r.Analysis.Rows[row].Last - r.Analysis.Rows[row].First + 1
		}
		one.Plies = slices.Grow(one.Plies, n)
		for _, row := range f.Rows {
			for n := r.Analysis.Rows[row].First; n <= r.Analysis.Rows[row].Last; n++ {
				one.Plies = append(one.Plies, n)
			}
		}
		if f.Fix != nil {
			one.Fix = stated(f.Fix.Text)
		}
		all = append(all, one)
	}
	return all
}

func stated(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func known(v float64, ok bool) *float64 {
	if !ok {
		return nil
	}
	return &v
}
