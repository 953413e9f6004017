package paper

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/takeoff"
)

// Takeoff is what it takes to build a schedule, or the pieces of a job: tables
// of figures without units, which the titles name, so that a spreadsheet can go
// on with them.
func Takeoff(t *takeoff.Takeoff, u quantity.System) Sheet {
	var sheet Sheet
	w := func(title string, k quantity.Kind) Column {
		return Column{Title: title + ", " + u.Symbol(k), Right: true}
	}
	if len(t.Pieces) > 1 {
		pieces := Table{Columns: []Column{{Title: "piece"}, {Title: "number", Right: true}, w("inside", quantity.Surface), w("all plies", quantity.Surface),
			w("fiber", quantity.Weight), w("resin mix", quantity.Weight), w("weight", quantity.Weight), {Title: "missing", Under: true}}}
		for i := range t.Pieces {
			p := &t.Pieces[i]
			known := func(v float64, k quantity.Kind) string {
				if v == 0 && p.Why != "" {
					return None // not known is not nothing
				}
				return u.Bare(v, k)
			}
			pieces.Rows = append(pieces.Rows, Row{Cells: []string{p.Name, strconv.Itoa(max(p.Count, 1)), known(p.Inside, quantity.Surface), known(p.Area, quantity.Surface),
				known(p.Fiber, quantity.Weight), known(p.Mix, quantity.Weight), known(p.Mass(), quantity.Weight), p.Why}})
		}
		sheet = append(sheet, Heading{Level: 2, Text: "pieces"}, pieces)
	}
	for i := range t.Pieces {
		p := &t.Pieces[i]
		title := "plies, each at its own middle"
		if p.Name != "" {
			title = p.Name + ": " + title
		}
		sheet = append(sheet, Heading{Level: 2, Text: title})
		if p.Why != "" {
			sheet = append(sheet, Note{Indent: 2, Text: "cannot be determined: " + p.Why})
		}
		plies := Table{Columns: []Column{{Title: "ply"}, {Title: "material"}, {Title: "zone"}, w("area", quantity.Surface), w("fiber", quantity.Weight), w("resin mix", quantity.Weight), {Title: "pots", Right: true}}}
		for k := range p.Plies {
			x := &p.Plies[k]
			area, fiber, mix, pots := None, None, None, None
			if x.Area > 0 {
				area = u.Bare(x.Area, quantity.Surface)
				if x.Known {
					fiber, mix = u.Bare(x.Fiber, quantity.Weight), u.Bare(x.Mix, quantity.Weight)
				}
			}
			if x.Batches > 0 {
				pots = strconv.Itoa(x.Batches)
			}
			plies.Rows = append(plies.Rows, Row{Cells: []string{Span(x.First, x.Last), x.Material, x.Zone.String(), area, fiber, mix, pots}})
		}
		if len(plies.Rows) > 0 {
			sheet = append(sheet, plies)
		}
	}
	var totals Facts
	for _, x := range []struct {
		name string
		of   func(*takeoff.Figures) float64
	}{
		{"fiber", func(f *takeoff.Figures) float64 { return f.Fiber }},
		{"resin mix", func(f *takeoff.Figures) float64 { return f.Mix }},
		{"weight", (*takeoff.Figures).Mass},
	} {
		total := sum(t, x.of)
		text := u.Figure(total, quantity.Weight)
		switch {
		case t.Incomplete() && total == 0:
			text = "cannot be determined"
		case t.Incomplete():
			text += ", of what could be determined"
		}
		totals = append(totals, Fact{x.name, text})
	}
	sheet = append(sheet, totals)
	sheet = append(sheet, goodsOf(t, u, w)...)
	sheet = append(sheet, resinsOf(t, u, w)...)
	sheet = append(sheet, costOf(t, u)...)
	for _, r := range t.Remarks {
		text := r.Text
		if r.Source != "" {
			text += " (" + r.Source + ")"
		}
		sheet = append(sheet, Note{Indent: 2, Mark: r.ID + ": ", Text: text})
	}
	if len(t.Resins) > 0 {
		sheet = append(sheet, Note{Text: "Safety: " + safety.Text("peroxide-promoter", "styrene", "leftovers", "amounts")})
	}
	return sheet
}

func sum(t *takeoff.Takeoff, of func(*takeoff.Figures) float64) float64 {
	total := 0.0
	for i := range t.Pieces {
		total += of(&t.Pieces[i])
	}
	return total
}

func goodsOf(t *takeoff.Takeoff, u quantity.System, w func(string, quantity.Kind) Column) Sheet {
	if len(t.Goods) == 0 {
		return nil
	}
	table := Table{Columns: []Column{{Title: "material"}, w("area", quantity.Surface), w("net", quantity.Weight), w("to order", quantity.Weight), {Title: "more", Right: true}, {Title: "rolls", Right: true},
		{Title: "ordered", Under: true}, {Title: "strips", Under: true}, {Title: "tow", Under: true}}}
	for i := range t.Goods {
		g := &t.Goods[i]
		rolls, strips, tow := None, "", ""
		if g.Rolls > 0 {
			rolls = strconv.Itoa(g.Rolls)
		}
		var list []string
		for _, s := range g.Strips {
			list = append(list, strconv.Itoa(s.Number)+" "+s.Direction.String()+", "+u.Figure(s.Length, quantity.Distance)+" in all, the longest "+u.Figure(s.Longest, quantity.Distance))
		}
		strips = strings.Join(list, "; ")
		if g.Tow > 0 {
			tow = u.Figure(g.Tow, quantity.Distance) + ", " + u.Figure(g.TowMass, quantity.Weight)
		}
		table.Rows = append(table.Rows, Row{Cells: []string{g.Material.ID, u.Bare(g.Area, quantity.Surface), u.Bare(g.Net, quantity.Weight), u.Bare(g.Ordered, quantity.Weight),
			quantity.Percent(g.Waste()), rolls, strings.Join(g.How, "; "), strips, tow}})
	}
	return Sheet{Heading{Level: 2, Text: "reinforcement"}, table}
}

func resinsOf(t *takeoff.Takeoff, u quantity.System, w func(string, quantity.Kind) Column) Sheet {
	if len(t.Resins) == 0 {
		return nil
	}
	table := Table{Columns: []Column{{Title: "resin"}, w("laid", quantity.Weight), w("to order", quantity.Weight), w("filler in it", quantity.Weight), w("initiator", quantity.Weight), w("promoter", quantity.Weight), {Title: "pots", Right: true},
		{Title: "amounts by", Under: true}, {Title: "styrene given off, an estimate", Under: true}}}
	for i := range t.Resins {
		r := &t.Resins[i]
		initiator, promoter, by, pots := None, None, "", None
		if x := r.Initiation; x != nil {
			initiator = u.Bare(r.Initiator, quantity.Weight)
			if x.Promoter.Given {
				promoter = u.Bare(r.Promoter, quantity.Weight)
			}
			by = x.Source + ": " + x.Row()
			if x.GelMinutes.Given {
				by += ", to be tried on a cup"
			}
			if r.InitiatorLiter > 0 {
				by += "; " + quantity.Number(r.InitiatorLiter, 2) + " L of initiator"
			}
		}
		if r.Batches > 0 {
			pots = strconv.Itoa(r.Batches)
		}
		styrene := "cannot be estimated: " + r.StyreneWhy
		if r.StyreneWhy == "" {
			styrene = u.Figure(r.Styrene, quantity.Weight) + " (" + takeoff.StyreneSource + "; the shop's permit and the rule in force govern)"
		}
		table.Rows = append(table.Rows, Row{Cells: []string{r.Resin.ID, u.Bare(r.Laid(), quantity.Weight), u.Bare(r.Ordered, quantity.Weight), u.Bare(r.FillerOrdered(), quantity.Weight), initiator, promoter, pots, by, styrene}})
	}
	return Sheet{Heading{Level: 2, Text: "resin"}, table}
}

func costOf(t *takeoff.Takeoff, u quantity.System) Sheet {
	if len(t.Cost.Lines) == 0 {
		return nil
	}
	table := Table{Columns: []Column{{Title: "cost of"}, {Title: "quantity", Right: true}, {Title: "unit"}, {Title: "price"}, {Title: "amount", Right: true}, {Title: "currency"}}}
	for i := range t.Cost.Lines {
		l := &t.Cost.Lines[i]
		number, unit, price, amount := quantity.Number(l.Quantity, 1), l.Unit, "not stated", None
		if l.Unit == "kg" {
			number, unit = u.Bare(l.Quantity, quantity.Weight), u.Symbol(quantity.Weight)
		}
		if l.Priced {
			price, amount = l.Stated, quantity.Number(l.Amount(), 2)
		}
		table.Rows = append(table.Rows, Row{Cells: []string{l.What, number, unit, price, amount, l.Currency}})
	}
	var facts Facts
	for _, x := range t.Cost.Totals {
		facts = append(facts, Fact{"total", strings.TrimSpace(quantity.Number(x.Amount, 2) + " " + x.Currency)})
	}
	if len(t.Cost.Without) > 0 {
		facts = append(facts, Fact{"without", strings.Join(t.Cost.Without, ", ")})
	}
	return Sheet{Heading{Level: 2, Text: "cost, by the shop book's prices"}, table, facts}
}

// DiffTakeoff is what it takes more or less to build a newer document than an
// older one. incomplete tells that one of the two could not be determined whole.
func DiffTakeoff(old, new string, list []takeoff.Change, incomplete bool, u quantity.System) Sheet {
	sheet := Sheet{Heading{Level: 1, Text: "takeoff of " + old + " → " + new}}
	if incomplete {
		sheet = append(sheet, Note{Indent: 2, Mark: "INCOMPLETE: ", Text: "what is to order, hours and cost are of what could be determined; takeoff says of each what is missing"})
	}
	if len(list) == 0 {
		return append(sheet, Note{Indent: 2, Text: "the two take the same"})
	}
	table := Table{Columns: []Column{{Title: "of"}, {Title: "what"}, {Title: "older", Right: true}, {Title: "newer", Right: true}, {Title: "difference", Right: true}, {Title: "unit"}}}
	for i := range list {
		c := &list[i]
		what, unit, figure := "", "", func(v float64) string { return quantity.Number(v, 1) }
		switch c.Measure {
		case takeoff.Laid, takeoff.Ordered:
			what, unit, figure = "to order", u.Symbol(quantity.Weight), func(v float64) string { return u.Bare(v, quantity.Weight) }
			if c.Measure == takeoff.Laid {
				what = "in the laminate"
			}
		case takeoff.Volume:
			what, unit = "to order, by its cured density", "L"
			per := 0.001
			if u == quantity.US {
				unit, per = "gal", gallon
			}
			figure = func(v float64) string { return quantity.Number(v/per, 1) }
		case takeoff.Hours:
			what, unit = "labor", "h"
		case takeoff.Amount:
			what, unit, figure = "cost", c.Currency, func(v float64) string { return quantity.Number(v, 2) }
		}
		side := func(given bool, v float64) string {
			if !given {
				return None
			}
			return figure(v)
		}
		more := figure(c.More())
		switch {
		case c.Unknown:
			more = "not known"
		case c.More() > 0:
			more = "+" + more
		}
		table.Rows = append(table.Rows, Row{Cells: []string{c.Of, what, side(c.Old.Given, c.Old.Value), side(c.New.Given, c.New.Value), more, unit}})
	}
	return append(sheet, table)
}

// gallon is that of the United States in m³.
const gallon = 231 * 0.0254 * 0.0254 * 0.0254
