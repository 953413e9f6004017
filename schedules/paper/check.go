package paper

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// Detail says how much of a report to print beside the findings.
type Detail struct {
	Plies   bool // the table of plies
	Explain bool // basis and fix under each finding
}

// Check is the report of a schedule. line tells where in its document a place
// stands, counting from 1, 0 when it has no such place.
func Check(file string, books []string, r *rules.Report, line func(laminate.Ref) int, u quantity.System, d Detail) Sheet {
	sheet := head(file, r.Schedule, books)
	if d.Plies {
		sheet = append(sheet, plies(r, u))
	}
	sheet = append(sheet, zones(r.Analysis, u), Findings(file, r, line, d.Explain))
	if passed := passedOver(r); passed != nil {
		sheet = append(sheet, passed)
	}
	return append(sheet, Note{Text: file + ": " + Verdict(r)})
}

// passedOver lists what the document states and nothing weighs, what has one
// reason on one line.
func passedOver(r *rules.Report) Facts {
	var list Facts
	for _, x := range r.PassedOver {
		i := slices.IndexFunc(list, func(f Fact) bool { return f.Value == x.Reason })
		if i < 0 {
			list = append(list, Fact{"not weighed: " + x.At.Key, x.Reason})
			continue
		}
		list[i].Name += ", " + x.At.Key
	}
	return list
}

func plies(r *rules.Report, u quantity.System) Table {
	thick := u.Symbol(quantity.Thickness)
	t := Table{Columns: []Column{
		{Title: "ply"}, {Title: "material"}, {Title: "zone"}, {Title: "resin"},
		{Title: "per ply, " + thick, Right: true}, {Title: "total, " + thick, Right: true}, {Title: "glass", Right: true},
	}}
	for i := range r.Schedule.Plies {
		p := PlyOf(r.Schedule, r.Analysis, i, u)
		t.Rows = append(t.Rows, Row{Cells: []string{p.Numbers, p.Material, p.Zone, p.Resin, p.PerPly, p.Total, p.Glass}})
	}
	return t
}

// zones has a row for each zone that has plies, the barrier and the whole.
func zones(a *laminate.Analysis, u quantity.System) Table {
	t := Table{Columns: []Column{{Title: "zone"}, {Title: "plies", Right: true}, {Title: "thickness", Right: true}, {Title: "mass", Right: true}, {Title: "glass", Right: true}}}
	row := func(name string, s laminate.Sum) {
		mass := "not known"
		if s.MassKnown {
			mass = u.WallMass(s.Mass)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{name, quantity.Counted(s.Plies, "ply", "plies"), u.Thickness(s.Thickness), mass, Share(s.GlassMassFraction())}})
	}
	for _, z := range laminate.Zones.All() {
		if a.Zones[z].Plies > 0 {
			row(z.String(), a.Zones[z])
		}
	}
	if a.Barrier.Plies > 0 {
		row("barrier", a.Barrier)
	}
	row("total", a.Total)
	return t
}

// Findings is a row for each finding of a report.
func Findings(file string, r *rules.Report, line func(laminate.Ref) int, explain bool) Table {
	t := Table{Columns: []Column{
		{Title: "place"}, {Title: "severity"}, {Title: "rule"}, {Title: "finding"}, {Title: "basis", Under: true}, {Title: "fix", Under: true},
	}}
	t.Rows = make([]Row, 0, len(r.Findings))
	for i := range r.Findings {
		f := &r.Findings[i]
		place, fix := file, ""
		if n := line(f.At); n > 0 {
			place += ":" + strconv.Itoa(n)
		}
		if f.Fix != nil {
			fix = f.Fix.Text
		}
		t.Rows = append(t.Rows, Row{
			Cells: []string{place, f.Severity.String(), f.Rule.ID, f.Message, f.Basis, fix},
			Line:  place + ": " + f.Severity.String() + " " + f.Rule.ID + ": " + f.Message, Place: true, Brief: !explain,
		})
	}
	return t
}

// Verdict is the verdict and how it comes about: "break (1 break, 2 notes)".
func Verdict(r *rules.Report) string {
	breaks, incomplete, warnings, notes := r.Counts()
	var parts []string
	for _, c := range []struct {
		n         int
		one, many string
	}{{breaks, "break", "breaks"}, {incomplete, "incomplete", "incomplete"}, {warnings, "warning", "warnings"}, {notes, "note", "notes"}} {
		if c.n > 0 {
			parts = append(parts, quantity.Counted(c.n, c.one, c.many))
		}
	}
	if parts == nil {
		return r.Verdict.String()
	}
	return r.Verdict.String() + " (" + strings.Join(parts, ", ") + ")"
}
