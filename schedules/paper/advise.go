package paper

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/source"
	"frp/veilwright/rules/advice"
)

// Advise is what suits a service and part; brief leaves out the reasons.
func Advise(file string, s *laminate.Schedule, a *advice.Advice, brief bool) Sheet {
	sheet := head(file, s, a.Books)
	for _, axis := range []struct {
		name    string
		options []advice.Option
	}{{"veils", a.Veils}, {"resins", a.Resins}, {"builds", a.Builds}} {
		t := Table{Columns: []Column{{Title: axis.name}, {Title: "option"}, {Title: "reasons", Under: true, Plain: true, List: true}}}
		for _, o := range axis.options {
			t.Rows = append(t.Rows, Row{Cells: []string{o.Suits.String(), o.ID, Lines(reasons(o.Reasons))}, Brief: brief})
		}
		sheet = append(sheet, t)
	}
	for _, part := range []struct {
		name    string
		reasons []advice.Reason
	}{{"conflicts", a.Conflicts}, {"for every choice", a.Notes}} {
		if len(part.reasons) == 0 {
			continue
		}
		sheet = append(sheet, Heading{Level: 2, Text: part.name})
		for _, text := range reasons(part.reasons) {
			sheet = append(sheet, Note{Indent: 2, Mark: "- ", Text: text})
		}
	}
	return sheet
}

// reasons are reasons with their basis.
func reasons(list []advice.Reason) []string {
	texts := make([]string, len(list))
	for i, r := range list {
		texts[i] = r.Text + " [" + r.Basis + "]"
	}
	return texts
}

// Candidates sets proposed schedules side by side, the best first; files are
// where they were written.
func Candidates(list []advice.Candidate, files []string, u quantity.System) Sheet {
	var sheet Sheet
	for i := range list {
		c, f := &list[i], &list[i].Figures
		mass, cost := "mass not known", "cost not known"
		if f.MassKnown {
			mass = u.WallMass(f.Mass)
		}
		if f.CostKnown {
			cost = strings.TrimSpace(quantity.Number(f.Cost, 2) + " " + f.Currency + "/m²")
		}
		sheet = append(sheet, Heading{Level: 2, Text: files[i] + ": " + strings.Join(c.Titles, ", ")}, Note{Indent: 2, Text: strings.Join([]string{
			quantity.Counted(f.Plies, "ply", "plies"), quantity.Counted(f.GelStops, "gel stop", "gel stops"),
			u.Thickness(f.Thickness), mass, cost, c.Report.Verdict.String(),
		}, ", ")})
		for _, texts := range [][]string{c.GivesUp, c.Notes} {
			for _, text := range texts {
				sheet = append(sheet, Note{Indent: 2, Mark: "- ", Text: text})
			}
		}
	}
	return sheet
}

// Catalog is what a library knows of the ids that are wanted; full adds where
// each figure comes from.
func Catalog(lib *laminate.Library, want func(id string) bool, u quantity.System, full bool) Sheet {
	var sheet Sheet
	for _, b := range lib.Books {
		sheet = append(sheet, Note{Text: "shop book " + b})
	}
	from := Column{Title: "source", Under: true, Plain: true}
	add := func(t Table) {
		if t.Rows != nil {
			sheet = append(sheet, t)
		}
	}
	right := func(title string) Column { return Column{Title: title, Right: true} }
	materials := Table{Columns: []Column{{Title: "material"}, {Title: "form"}, {Title: "fiber"}, right("areal mass"), right("glass"), right("in a barrier"), {Title: "name"}, from}}
	for i := range lib.Materials {
		m := &lib.Materials[i]
		if !want(m.ID) {
			continue
		}
		mass := None
		if m.ArealMass.Given() {
			mass = u.Figure(m.ArealMass.SI(), m.Form.MassKind())
		} else if m.Thickness.Given() {
			mass = u.Thickness(m.Thickness.SI())
		}
		content := stated(m.GlassContent)
		if m.Fiber != laminate.NoFiber && !m.Fiber.Glass() && m.GlassContent.Given {
			content = "fiber " + content // the key says glass, the veil has none
		}
		materials.Rows = append(materials.Rows, Row{Brief: !full, Cells: []string{m.ID, m.Form.String(), orNone(m.Fiber.String()), mass, content, stated(m.BarrierGlassContent), m.Name, m.Source}})
	}
	add(materials)
	resins := Table{Columns: []Column{{Title: "shop resin"}, {Title: "family"}, from}}
	for i := range lib.Resins {
		if r := &lib.Resins[i]; want(r.ID) {
			resins.Rows = append(resins.Rows, Row{Brief: !full, Cells: []string{r.ID, r.Family.String(), r.Source}})
		}
	}
	add(resins)
	families := Table{Columns: []Column{{Title: "resin family"}, right("density"), right("modulus"), right("Poisson"), right("failure strain"), right("heat deflection"), from}}
	for _, f := range laminate.Families.All() {
		if d := lib.Families[f]; want(f.String()) {
			families.Rows = append(families.Rows, Row{Brief: !full, Cells: []string{f.String(), figure(d.Density, quantity.Bulk, u), figure(d.Modulus, quantity.Stress, u),
				quantity.Number(d.Poisson, 2), quantity.Percent(d.FailureStrain), u.Temperature(d.HeatDeflection.SI()), d.Source}})
		}
	}
	add(families)
	fibers := Table{Columns: []Column{{Title: "fiber"}, right("density"), right("modulus"), right("Poisson"), from}}
	for _, f := range laminate.Fibers.All() {
		if d := lib.Fibers[f]; want(f.String()) {
			fibers.Rows = append(fibers.Rows, Row{Brief: !full, Cells: []string{f.String(), figure(d.Density, quantity.Bulk, u), figure(d.Modulus, quantity.Stress, u), quantity.Number(d.Poisson, 2), d.Source}})
		}
	}
	add(fibers)
	fillers := Table{Columns: []Column{{Title: "filler"}, right("density"), from}}
	for _, f := range laminate.Fillers.All() {
		if d := lib.Fillers[f]; want(f.String()) {
			fillers.Rows = append(fillers.Rows, Row{Brief: !full, Cells: []string{f.String(), figure(d.Density, quantity.Bulk, u), d.Source}})
		}
	}
	add(fillers)
	if named := registered(sheet); full && len(named) > 0 {
		sheet = append(sheet, Sources(named)...)
	}
	return sheet
}

// registered are the publications that the last cells of a sheet's tables name.
func registered(sheet Sheet) []source.Entry {
	text := ""
	for _, b := range sheet {
		if t, ok := b.(Table); ok {
			for _, r := range t.Rows {
				text += r.Cells[len(r.Cells)-1] + "\n"
			}
		}
	}
	return source.Of(text)
}

func stated(share laminate.Optional[float64]) string {
	if !share.Given {
		return None
	}
	return quantity.Percent(share.Value)
}

func figure[D quantity.Dimension](q quantity.Quantity[D], k quantity.Kind, u quantity.System) string {
	if !q.Given() {
		return None
	}
	return u.Figure(q.SI(), k)
}
