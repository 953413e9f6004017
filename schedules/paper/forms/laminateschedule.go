package forms

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/schedules/paper"
)

// LaminateSchedule is the drawing table of each part: what is built, to scale
// and ply by ply.
func LaminateSchedule(of *Subject) paper.Sheet {
	u := of.Units
	sheet := append(drawn(of), of.each(func(p *Part) paper.Sheet {
		s, a := p.Report.Schedule, p.Report.Analysis
		part := warned(p)
		part = append(part, append(partFacts(s, u), paper.Fact{Name: "sequence", Value: sequence(p)}))
		if len(s.Plies) == 0 {
			return append(part, paper.Note{Text: "No plies."})
		}
		part = append(part,
			paper.Heading{Level: 2, Text: "Section"}, section(p, u),
			paper.Heading{Level: 2, Text: "Plies, from the process side outward"}, plies(p, u),
			paper.Heading{Level: 2, Text: "Thickness, mass and glass"}, zones(a, u))
		if t := governing(p, u); len(t.Rows) > 0 {
			part = append(part, paper.Heading{Level: 2, Text: "What the structure has to carry"}, t)
			part = append(part, serves(p, u)...)
		}
		return append(part, paper.Heading{Level: 2, Text: "To be stated by the fabricator"}, paper.Boxes{Titles: []string{
			"laps of one ply, at least", "stagger of laps, ply to ply", "taper at ends", "Barcol, at least",
			"thickness, least and most", "cure before handling", "post-cure", "laid to procedure",
		}})
	})...)
	sheet = append(sheet, laidOn(of, false)...)
	if whole := of.whole(); whole != nil {
		sheet = append(append(sheet, whole...), of.testFacts())
	}
	sheet = append(sheet, of.proofFacts()...)
	notes := ""
	if of.Job != nil {
		notes = equipment.Standing(of.Job, of.Head.Notes)
	} else {
		notes = advice.Standing(of.Parts[0].Report.Schedule, of.Head.Notes)
	}
	if notes != "" {
		sheet = append(sheet, paper.Heading{Level: 2, Text: "Notes"}, paper.Note{Text: notes})
	}
	revisions := paper.Table{Columns: append(columns("revision"), pens("what changed", "date", "by", "checked")...)}
	for range 3 {
		revisions.Rows = append(revisions.Rows, paper.Row{Cells: make([]string, len(revisions.Columns))})
	}
	revisions.Columns[0].Write = true
	sheet = append(sheet, paper.Heading{Level: 2, Text: "Revisions"}, revisions)
	prepared := "prepared"
	if of.Head.Author != "" {
		prepared += " (" + of.Head.Author + ")"
	}
	return append(sheet, paper.Heading{Level: 2, Text: "Signatures"}, paper.Signature{Role: prepared}, paper.Signature{Role: "checked"}, paper.Signature{Role: "released"})
}

// plies is the table of plies, what repeats once with how often.
func plies(p *Part, u quantity.System) paper.Table {
	s, a := p.Report.Schedule, p.Report.Analysis
	thick := u.Symbol(quantity.Thickness)
	t := paper.Table{Columns: []paper.Column{
		{Title: "ply"}, {Title: "zone"}, {Title: "material"}, {Title: "areal mass", Right: true}, {Title: "resin"}, {Title: "angle", Right: true}, {Title: "count", Right: true},
		{Title: "per ply, " + thick, Right: true}, {Title: "total, " + thick, Right: true}, {Title: "glass", Right: true},
	}}
	for _, run := range folded(s) {
		last := run.First + run.Period*run.Times - 1
		if run.Times > 1 {
			t.Rows = append(t.Rows, paper.Row{Band: "plies " + paper.Span(a.Rows[run.First].First, a.Rows[last].Last) + ": " + below(run.Period) + ", " +
				strconv.Itoa(run.Times) + " times over, up to a total of " + u.Thickness(a.Rows[last].ToHere)})
		}
		for i := run.First; i < run.First+run.Period; i++ {
			x, ply := paper.PlyOf(s, a, i, u), &s.Plies[i]
			mass := ""
			if m := a.Rows[i].Material; m != nil && m.ArealMass.Given() {
				mass = u.Figure(m.ArealMass.SI(), m.Form.MassKind())
			}
			t.Rows = append(t.Rows, paper.Row{Cells: []string{x.Numbers, words(x.Zone), x.Material, mass, x.Resin, angle(ply), strconv.Itoa(ply.Count), x.PerPly, x.Total, x.Glass}})
			if ply.GelAfter {
				t.Rows = append(t.Rows, paper.Row{Band: "GEL STOP after ply " + strconv.Itoa(a.Rows[i].Last) + ": let it gel and cool before going on"})
			}
		}
		if run.Times > 1 {
			t.Rows = append(t.Rows, paper.Row{Band: "end of what repeats"})
		}
	}
	return t
}

func below(n int) string {
	if n == 1 {
		return "the row below"
	}
	return "the " + strconv.Itoa(n) + " rows below"
}

// zones has a row for each zone that has plies, the barrier and the whole.
func zones(a *laminate.Analysis, u quantity.System) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "zone"}, {Title: "plies", Right: true}, {Title: "thickness", Right: true}, {Title: "mass", Right: true}, {Title: "glass", Right: true}}}
	row := func(name string, s laminate.Sum) {
		thickness, mass := "not known", "not known"
		if s.ThicknessKnown {
			thickness = u.Thickness(s.Thickness)
		}
		if s.MassKnown {
			mass = u.WallMass(s.Mass)
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []string{name, strconv.Itoa(s.Plies), thickness, mass, paper.Share(s.GlassMassFraction())}})
	}
	for _, z := range laminate.Zones.All() {
		if a.Zones[z].Plies > 0 {
			row(words(z.String()), a.Zones[z])
		}
	}
	if a.Barrier.Plies > 0 {
		row("barrier: inner surface and interior layer", a.Barrier)
	}
	row("whole laminate", a.Total)
	return t
}

// governing are the criteria that decide about the structure.
func governing(p *Part, u quantity.System) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "criterion"}, {Title: "case"}, {Title: "required", Right: true}, {Title: "allowable", Right: true}, {Title: "of limit", Right: true}, {Title: "answer"},
		{Title: "reason", Under: true, Plain: true}, {Title: "basis", Under: true}}}
	r := p.Report.Wall
	if r == nil {
		return t
	}
	for i := range r.Criteria {
		c := &r.Criteria[i]
		if !c.Governs || c.Answer == wall.NotApplicable {
			continue
		}
		x := paper.CriterionOf(c, u)
		t.Rows = append(t.Rows, paper.Row{Cells: []string{x.Name, x.Case, x.Required, x.Allowable, x.Utilization, x.Answer, c.Reason, c.Basis}})
	}
	return t
}
