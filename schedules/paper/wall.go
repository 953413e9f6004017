package paper

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
)

// Wall is the evaluation of a structure, with what it needs where that was
// asked.
func Wall(file string, books []string, s *laminate.Schedule, r *wall.Result, needed []repeat.Course, u quantity.System) Sheet {
	sheet := head(file, s, books)
	if r.Problem != "" {
		sheet = append(sheet, Note{Indent: 2, Text: r.Problem})
	} else {
		m := r.Membrane
		sheet = append(sheet, Facts{
			{"counted", u.Thickness(r.Thickness)},
			{"moduli", "axial " + u.Figure(m.Ex, quantity.Stress) + ", hoop " + u.Figure(m.Ey, quantity.Stress) + ", shear " + u.Figure(m.Gxy, quantity.Stress) +
				"; Poisson's ratio " + quantity.Number(m.Nuxy, 2)},
		})
	}
	if f := Loads(r, u); f != nil {
		sheet = append(sheet, f)
	}
	if r.Counted > 0 {
		sheet = append(sheet, Moduli(s, r, u))
	}
	sheet = append(sheet, Criteria(r, u))
	if s := r.Stiffeners; s.Known {
		sheet = append(sheet, Rings(s, u))
	}
	if needed != nil {
		sheet = append(sheet, need(needed, u))
	}
	for _, n := range r.Notes {
		sheet = append(sheet, Note{Indent: 2, Mark: "note: ", Text: n})
	}
	return append(sheet, Note{Text: file + ": " + stands(r)})
}

// Loads are the cases with what they do to the wall: line loads, strains, which
// ply goes first.
func Loads(r *wall.Result, u quantity.System) (list Facts) {
	for _, c := range r.Cases {
		name, text := c.Name, "axial "+u.Figure(c.NAxial, quantity.LineLoad)+", hoop "+u.Figure(c.NHoop, quantity.LineLoad)
		if !c.Judged {
			name += " (shown only)"
		}
		if c.StrainKnown {
			text += "; strain axial " + u.Figure(c.StrainAxial, quantity.Strain) + ", hoop " + u.Figure(c.StrainHoop, quantity.Strain)
		} else {
			text += "; strain not known"
		}
		if c.FirstPly != "" {
			text += "; first ply: " + c.FirstPly
		}
		list = append(list, Fact{name, text})
	}
	for _, o := range r.Unknown {
		list = append(list, Fact{o.Name, "cannot be determined: " + o.Reason})
	}
	return list
}

// Moduli are those of the plies that count, along and across the fiber, with
// where they come from.
func Moduli(s *laminate.Schedule, r *wall.Result, u quantity.System) Table {
	t := Table{Columns: []Column{{Title: "ply"}, {Title: "material"}, {Title: "angle", Right: true}, {Title: "E1", Right: true}, {Title: "E2", Right: true},
		{Title: "G12", Right: true}, {Title: "ν12", Right: true}, {Title: "moduli by"}}}
	for _, p := range r.Plies() {
		t.Rows = append(t.Rows, Row{Cells: []string{
			Span(p.First, p.Last), s.Plies[p.Row].Material, u.Figure(p.Angle, quantity.Angle), u.Figure(p.E1, quantity.Stress), u.Figure(p.E2, quantity.Stress),
			u.Figure(p.G12, quantity.Stress), quantity.Number(p.Nu12, 2), p.Basis,
		}})
	}
	return t
}

// Rings are the stiffeners that a wall under outside pressure wants.
func Rings(s wall.Stiffening, u quantity.System) Facts {
	return Facts{
		{"rings", "at most " + u.AtMost(s.Spacing, quantity.Distance) + " apart for the wall between them to hold, by the formula that judges it"},
		{"ring section", "second moment of area at least " + u.AtLeast(s.Inertia, quantity.SecondMoment) + " at that spacing, with " +
			u.AtMost(s.Width, quantity.Size) + " of the wall, for a hoop modulus of " + u.Figure(s.Modulus, quantity.Stress) + "; I = p L D³ · 5/(24 E) (ASME Section X, from memory)"},
	}
}

// Criteria is the table of all criteria, governing first.
func Criteria(r *wall.Result, u quantity.System) Table {
	t := Table{Columns: []Column{
		{Title: "criterion"}, {Title: "case"}, {Title: "answer"}, {Title: "required", Right: true}, {Title: "allowable", Right: true},
		{Title: "of limit", Right: true}, {Title: "role"}, {Title: "reason", Under: true, Plain: true}, {Title: "basis", Under: true},
	}}
	for i := range r.Criteria {
		c := &r.Criteria[i]
		x := CriterionOf(c, u)
		t.Rows = append(t.Rows, Row{Cells: []string{x.Name, x.Case, x.Answer, x.Required, x.Allowable, x.Utilization, x.Role, c.Reason, c.Basis}})
	}
	return t
}

// need is what the wall, or each course of a tank, needs of a repeat unit.
func need(list []repeat.Course, u quantity.System) Table {
	t := Table{Columns: []Column{{Title: "needed"}, {Title: "repeats"}, {Title: "governs"}, {Title: "note", Under: true, Plain: true, List: true}}}
	for _, n := range list {
		where, what := "needed", "enough as it is"
		if n.Top > n.Bottom {
			all := u.Apart(quantity.Distance, n.Bottom, n.Top)
			where = "course " + all[0] + " to " + all[1]
		}
		if n.Repeats > 0 {
			what = strconv.Itoa(n.Repeats) + " more of " + n.Unit.String() + ", for " + n.Governing.Title()
			if n.Top > n.Bottom {
				what = strconv.Itoa(n.Repeats) + " of " + n.Unit.String() + " is the whole structure, for " + n.Governing.Title()
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []string{where, what, n.Governing.Title(), Lines(n.Notes)}, Line: what})
	}
	return t
}

// stands says how a wall stands, and whether that is what others proved.
func stands(r *wall.Result) string {
	if r.Rests != "" && r.Answer() == wall.Holds {
		return Stands(wall.Holds) + ", as others proved"
	}
	return Stands(r.Answer())
}

// Stands says in a few words how a structure stands.
func Stands(a wall.Answer) string {
	switch a {
	case wall.Holds:
		return "holds: every governing criterion"
	case wall.Fails:
		return "fails: a governing criterion"
	case wall.Incomplete:
		return "incomplete: a fact that a governing criterion needs is missing"
	case wall.NotApplicable:
	}
	return "nothing governs: no load is stated"
}
