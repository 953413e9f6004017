package forms

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/picture"
)

// mostLabels is how many labels find room beside a section.
const mostLabels = 24

// section is the wall of a part cut through.
func section(p *Part, u quantity.System) paper.Section {
	s, a := p.Report.Schedule, p.Report.Analysis
	w := picture.Wall{Total: u.Thickness(a.Total.Thickness)}
	if !a.Total.ThicknessKnown {
		w.Total = "not known"
	}
	for i := range s.Plies {
		r, ply := &a.Rows[i], &s.Plies[i]
		w.Layers = append(w.Layers, picture.Layer{Plies: paper.Span(r.First, r.Last), Material: ply.Material, Zone: words(r.Zone.String()), Thickness: r.Thickness * float64(ply.Count),
			Count: ply.Count, Hatch: hatch(r.Material, ply), Gel: ply.GelAfter})
	}
	for _, run := range folded(s) {
		first, last := run.First, run.First+run.Period*run.Times-1
		text := paper.Span(a.Rows[first].First, a.Rows[last].Last) + "  "
		if run.Times > 1 {
			text += "(" + strings.Join(rows(s, first, run.Period), " + ") + ") ×" + strconv.Itoa(run.Times)
		} else {
			text += rowText(&s.Plies[first])
			if r := &a.Rows[first]; r.ThicknessKnown && s.Plies[first].Count > 1 {
				text += ", " + u.Thickness(r.Thickness) + " each"
			} else if r.ThicknessKnown {
				text += ", " + u.Thickness(r.Thickness)
			} else {
				text += ", thickness not known"
			}
		}
		w.Labels = append(w.Labels, picture.Label{First: first, Last: last, Text: text})
	}
	if len(w.Labels) > mostLabels {
		w.Labels = nil
	}
	for i := 0; i < len(s.Plies); {
		k := i
		for k+1 < len(s.Plies) && a.Rows[k+1].Zone == a.Rows[i].Zone {
			k++
		}
		z := a.Rows[i].Zone
		w.Zones = append(w.Zones, picture.Label{First: i, Last: k, Text: words(z.String()) + " " + u.Thickness(a.Rows[k].ToHere-before(a, i))})
		i = k + 1
	}
	if w.Labels == nil {
		for _, z := range w.Zones {
			w.Labels = append(w.Labels, picture.Label{First: z.First, Last: z.Last, Text: paper.Span(a.Rows[z.First].First, a.Rows[z.Last].Last) + "  see the table"})
		}
	}
	return paper.Section{Wall: w}
}

func before(a *laminate.Analysis, row int) float64 {
	if row == 0 {
		return 0
	}
	return a.Rows[row-1].ToHere
}

// folded are the rows of a schedule with repeats folded.
func folded(s *laminate.Schedule) []paper.Run {
	return paper.Fold(len(s.Plies), func(i, k int) bool {
		a, b := s.Plies[i], s.Plies[k]
		a.Origin, b.Origin, a.Rest, b.Rest = 0, 0, false, false
		return a == b
	})
}

// rows names some rows.
func rows(s *laminate.Schedule, first, n int) []string {
	list := make([]string, n)
	for i := range n {
		list[i] = rowText(&s.Plies[first+i])
	}
	return list
}

func rowText(p *laminate.Ply) string {
	text := p.Material
	if p.Angle.Given {
		text += " " + angle(p)
	}
	if p.Count > 1 {
		text += " ×" + strconv.Itoa(p.Count)
	}
	return text
}

func angle(p *laminate.Ply) string {
	if !p.Angle.Given {
		return ""
	}
	return strconv.FormatFloat(p.Angle.Value, 'g', 4, 64) + "°"
}

const hoop = 80.0 // degrees from the axis, from which on a band runs round

func hatch(m *laminate.Material, p *laminate.Ply) drawing.Hatch {
	if m == nil {
		return drawing.Plain
	}
	switch m.Form {
	case laminate.Veil:
		if m.Fiber == laminate.Carbon {
			return drawing.Blackened
		}
		return drawing.Stippled
	case laminate.ChoppedMat:
		return drawing.Strands
	case laminate.SprayedChop:
		return drawing.Chopped
	case laminate.WovenRoving:
		return drawing.Woven
	case laminate.Unidirectional, laminate.Lamina:
		return drawing.Along
	case laminate.RovingBand:
		if p.Angle.Given && p.Angle.Value >= hoop {
			return drawing.Slanted
		}
		return drawing.Crossing
	case laminate.ResinCoat, laminate.NoForm:
	}
	return drawing.Plain
}

// letter is the usual one for a row in a sequence written in a line.
func letter(m *laminate.Material, p *laminate.Ply) string {
	if m == nil {
		return "?"
	}
	switch m.Form {
	case laminate.Veil:
		return "V"
	case laminate.ChoppedMat:
		return "M"
	case laminate.SprayedChop:
		return "C"
	case laminate.WovenRoving:
		return "W"
	case laminate.Unidirectional:
		return "U"
	case laminate.RovingBand:
		return "B" + angle(p)
	case laminate.ResinCoat:
		return "T"
	case laminate.Lamina:
		return "L"
	case laminate.NoForm:
	}
	return "?"
}

// sequence is the wall in a line, from the process side outward.
func sequence(p *Part) string {
	s, a := p.Report.Schedule, p.Report.Analysis
	text := func(i int) string {
		n := ""
		if c := s.Plies[i].Count; c > 1 {
			n = strconv.Itoa(c)
		}
		t := n + letter(a.Rows[i].Material, &s.Plies[i])
		if s.Plies[i].GelAfter {
			t += " | gel stop |"
		}
		return t
	}
	var parts []string
	for _, run := range folded(s) {
		var unit []string
		for i := range run.Period {
			unit = append(unit, text(run.First+i))
		}
		if run.Times > 1 {
			parts = append(parts, "("+strings.Join(unit, " ")+") ×"+strconv.Itoa(run.Times))
		} else {
			parts = append(parts, unit...)
		}
	}
	return strings.Join(parts, " ") + "   (V veil, M mat, C sprayed chop, W woven roving, U unidirectional, B roving band, T topcoat, L tested lamina)"
}
