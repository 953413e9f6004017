package paper

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules/acceptance"
)

// None stands where there is nothing, or nothing that is known.
const None = "—"

// Ply is a row of plies as every table of them shows it: figures without
// units, PerPly of one ply, Total from the process side up to and with the row.
type Ply struct {
	Numbers, Material, Zone, Resin string
	PerPly, Total                  string // thickness
	Glass, Fiber                   string
	Mass                           string // of all plies of the row
	Booked                         string // the shop's own thickness, empty where none is stated
}

// PlyOf is a row of a schedule and of what was figured for it.
func PlyOf(s *laminate.Schedule, a *laminate.Analysis, row int, u quantity.System) Ply {
	p, f := &s.Plies[row], &a.Rows[row]
	c := Ply{
		Numbers: Span(f.First, f.Last), Material: p.Material, Zone: f.Zone.String(), Resin: orNone(p.Resin),
		PerPly: u.Bare(f.Thickness, quantity.Thickness), Total: u.Bare(f.ToHere, quantity.Thickness),
		Glass: Share(f.GlassMassFraction()), Fiber: Share(f.FiberMassFraction()), Mass: None,
	}
	if f.MassKnown {
		c.Mass = u.Bare(f.Mass*float64(p.Count), quantity.WallMass)
	}
	if f.Booked > 0 {
		c.Booked = u.Bare(f.Booked, quantity.Thickness)
	}
	return c
}

// Span numbers neighboring plies: "4", "2-3".
func Span(first, last int) string {
	if last <= first {
		return strconv.Itoa(first)
	}
	return strconv.Itoa(first) + "-" + strconv.Itoa(last)
}

// Numbers lists plies, neighbors as a span: "1, 4-6".
func Numbers(plies []int) string {
	var parts []string
	for i := 0; i < len(plies); {
		k := i
		for k+1 < len(plies) && plies[k+1] == plies[k]+1 {
			k++
		}
		parts = append(parts, Span(plies[i], plies[k]))
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// Share is a content, if it is known.
func Share(v float64, known bool) string {
	if !known {
		return None
	}
	return quantity.Share(v)
}

func orNone(s string) string {
	if s == "" {
		return None
	}
	return s
}

// Criterion is a criterion of the structure as every table shows it.
type Criterion struct {
	Name, Case, Answer  string
	Required, Allowable string // with their unit, told apart
	Utilization         string
	Role                string // governs or shown, of what applies
}

// CriterionOf is a criterion in the reader's units.
func CriterionOf(c *wall.Criterion, u quantity.System) Criterion {
	x := Criterion{Name: c.Title(), Case: c.Case, Answer: c.Answer.String(), Required: None, Allowable: None, Utilization: None, Role: "shown"}
	if c.Judged() {
		x.Required, x.Allowable = c.Figures(u)
		if c.Measured() {
			x.Utilization = quantity.Utilization(c.Ratio)
		}
	}
	switch {
	case c.Answer == wall.NotApplicable:
		x.Role = None
	case c.Governs:
		x.Role = "governs"
	}
	return x
}

// Line is a line of a comparison as every table shows it.
type Line struct{ Verdict, Key, Requirement, Found, Plies, Basis string }

// LineOf is a line of a comparison.
func LineOf(l *acceptance.Line) Line {
	return Line{Verdict: l.Verdict.String(), Key: l.Key, Requirement: l.Demand, Found: l.Found, Plies: Numbers(l.Plies), Basis: l.Basis}
}

// numbered says which plies in a sentence: " (ply 1)", "" where none is named.
func numbered(plies []int) string {
	if len(plies) == 0 {
		return ""
	}
	return " (" + quantity.Plural(len(plies), "ply ", "plies ") + Numbers(plies) + ")"
}

// titled is a schedule's title with its job and revision.
func titled(s *laminate.Schedule) string {
	title := s.Title
	if title == "" {
		title = "no title"
	}
	var more []string
	if s.Job != "" {
		more = append(more, "job "+s.Job)
	}
	if s.Revision.Given {
		more = append(more, "revision "+strconv.Itoa(s.Revision.Value))
	}
	if len(more) > 0 {
		title += " (" + strings.Join(more, ", ") + ")"
	}
	return title
}

// Headed is a sheet about a document under its name, with the shop books used.
func Headed(file string, h laminate.Head, books []string, sheet Sheet) Sheet {
	return append(head(file, &laminate.Schedule{Head: h}, books), sheet...)
}

// head is the name of a sheet about a schedule, with the shop books used.
func head(file string, s *laminate.Schedule, books []string) Sheet {
	sheet := Sheet{Heading{Level: 1, Text: file + ": " + titled(s)}}
	var facts Facts
	for _, b := range books {
		facts = append(facts, Fact{"shop book", b})
	}
	if facts != nil {
		sheet = append(sheet, facts)
	}
	return sheet
}

// Aid is what has to stand wherever a figure could be built from.
func Aid(notChecked []string) Note {
	text := wall.DesignAid
	if len(notChecked) > 0 {
		text += " Not checked: " + strings.Join(notChecked, ", ") + "."
	}
	return Note{Text: text}
}
