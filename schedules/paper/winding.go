package paper

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/winding"
)

// Winding is how the band of each wound row closes its cover, and the same at
// other angles.
func Winding(file string, books []string, s *laminate.Schedule, a *laminate.Analysis, list []winding.Ply, angles []float64, u quantity.System) Sheet {
	sheet := head(file, s, books)
	if len(list) == 0 {
		return append(sheet, Note{Indent: 2, Text: "no ply is wound"})
	}
	for i := range list {
		p := &list[i]
		r := &a.Rows[p.Row]
		sheet = append(sheet, Heading{Level: 2, Text: "ply " + Span(r.First, r.Last) + ": " + p.Material.ID})
		if p.Err != nil {
			sheet = append(sheet, Note{Indent: 2, Text: "cannot be determined: " + p.Err.Error()})
			continue
		}
		w := &p.Pattern
		facts := Facts{
			{"wound on", u.Figure(p.Diameter, quantity.Size)},
			{"band", quantity.Counted(p.Band.Tows, "tow", "tows") + " of " + u.Figure(p.Band.TowMass, quantity.Tow) + " on " + u.Figure(p.Band.Width, quantity.Size)},
			{"angle", u.Figure(w.Angle, quantity.Angle) + " from the axis" + stepped(w.Stepped)},
			{"lead", lead(w, u)},
			{"circuits", strconv.Itoa(w.Circuits) + " for a cover of " + quantity.Counted(w.Layers, "layer", "layers") + " (" + quantity.Number(w.CircuitsExact, 2) + " exactly)"},
			{"overlap", u.Figure(w.Overlap, quantity.Size) + ", " + quantity.Percent(w.OverlapShare) + " of the band; none at a band of " + u.Figure(w.ClosingWidth, quantity.Size)},
			{"fiber of a cover", u.Figure(w.CoverMass, quantity.ClothMass) + ", with the overlap " + u.Figure(w.LaidCover, quantity.ClothMass)},
		}
		thick := "not known: "
		if p.LaidErr != nil {
			thick += p.LaidErr.Error()
		} else {
			thick = u.Thickness(p.Laid.Thickness) + ", " + u.WallMass(p.Laid.PlyMass)
		}
		sheet = append(sheet, append(facts, Fact{"cover", thick}))
		if len(angles) > 0 {
			sheet = append(sheet, whatIf(p, angles, u))
		}
	}
	return sheet
}

func stepped(yes bool) string {
	if yes {
		return ": hoop winding steps a band width a turn"
	}
	return ""
}

func lead(w *winding.Pattern, u quantity.System) string {
	if w.Endless {
		return "none: the band runs along the axis"
	}
	return u.Figure(w.Lead, quantity.Size) + " a turn"
}

func whatIf(p *winding.Ply, angles []float64, u quantity.System) Block {
	choices, err := winding.WhatIf(p.Band, p.Diameter, angles, nil)
	if err != nil {
		return Note{Indent: 2, Text: "other angles cannot be determined: " + err.Error()}
	}
	t := Table{Columns: []Column{{Title: "angle", Right: true}, {Title: "lead", Right: true}, {Title: "circuits", Right: true}, {Title: "overlap", Right: true},
		{Title: "fiber of a cover", Right: true}, {Title: "hoop to axial load by netting", Right: true}}}
	for i := range choices {
		c := &choices[i]
		ratio := "hoop only"
		if !c.HoopOnly {
			ratio = u.Figure(c.Ratio, quantity.Times)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{u.Figure(c.Asked, quantity.Angle), lead(&c.Pattern, u), strconv.Itoa(c.Circuits), u.Figure(c.Overlap, quantity.Size),
			u.Figure(c.LaidCover, quantity.ClothMass), ratio}})
	}
	return t
}
