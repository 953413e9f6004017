package paper

import (
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper/excerpt"
)

// Diff is two judged revisions of a schedule: what changed, never what did not.
func Diff(older, newer string, facts []schedules.FactChange, d *revision.Difference, a, b *rules.Report, u quantity.System) Sheet {
	t := Table{Columns: []Column{{Title: "change"}, {Title: "plies"}, {Title: "what"}}}
	row := func(cells ...string) { t.Rows = append(t.Rows, Row{Cells: cells}) }
	for _, f := range facts {
		pieces := excerpt.Of(f.Old, f.New)
		for _, p := range pieces {
			row("stated", "", f.Key+": "+orNotStated(p.Old)+" → "+orNotStated(p.New))
		}
		if pieces == nil {
			row("stated", "", f.Key+": other blanks or line breaks alone")
		}
	}
	for i := range d.Rows {
		c := &d.Rows[i]
		if c.Change == revision.Same {
			continue
		}
		was, is, what := None, None, ""
		if c.Old >= 0 {
			f := &a.Analysis.Rows[c.Old]
			was, what = Span(f.First, f.Last), a.Schedule.Plies[c.Old].Material
		}
		if c.New >= 0 {
			f := &b.Analysis.Rows[c.New]
			is, what = Span(f.First, f.Last), b.Schedule.Plies[c.New].Material
		}
		for k, w := range c.What {
			sep := ", "
			if k == 0 {
				sep = ": "
			}
			what += sep + w
		}
		row(c.Change.String(), was+" → "+is, what)
	}
	for i := range d.Gone {
		row("gone", "", said(&d.Gone[i]))
	}
	for i := range d.New {
		row("new", "", said(&d.New[i]))
	}
	figures := Table{Columns: []Column{{Title: "figure"}, {Title: "change"}}}
	for _, f := range d.Figures {
		if was, is := moved(f, u); was != is {
			figures.Rows = append(figures.Rows, Row{Cells: []string{f.Name, was + " → " + is}})
		}
	}
	sheet := Sheet{Heading{Level: 1, Text: older + " → " + newer}}
	for _, table := range []Table{t, figures} {
		if table.Rows != nil {
			sheet = append(sheet, table)
		}
	}
	if len(sheet) == 1 {
		sheet = append(sheet, Note{Indent: 2, Text: "no stated fact, ply, figure or finding differs"})
	}
	return sheet
}

func said(f *rules.Finding) string {
	return f.Severity.String() + " " + f.Rule.ID + ": " + f.Message
}

func orNotStated(s string) string {
	if s == "" {
		return "not stated"
	}
	return s
}

// moved prints a figure of both revisions.
func moved(f revision.FigureChange, u quantity.System) (was, is string) {
	if f.OldKnown && f.NewKnown {
		return u.Pair(f.Old, f.New, f.Kind)
	}
	text := func(v float64, known bool) string {
		if !known {
			return "not known"
		}
		return u.Figure(v, f.Kind)
	}
	return text(f.Old, f.OldKnown), text(f.New, f.NewKnown)
}

// DiffJobs is two judged revisions of a job: what is stated otherwise, and each
// part and overlay that differs.
func DiffJobs(older, newer string, facts []schedules.FactChange, d []revision.PartDifference, u quantity.System) Sheet {
	sheet := Diff(older, newer, facts, &revision.Difference{}, nil, nil, u)
	if facts == nil && d != nil {
		sheet = sheet[:1]
	}
	for _, p := range d {
		of := p.ID
		if of == "" {
			of = "the job as a whole"
		}
		sheet = append(sheet, Diff(of+" in "+older, of+" in "+newer, nil, p.Difference, p.Old, p.New, u)...)
	}
	return sheet
}
