package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// plyLines are the rows of a schedule to be read, one a line, a gel stop at the
// end of the row it follows. Row is pointed at, -1 for none; with figures the
// thickness, the thickness to there and the glass content stand beside a row,
// else what its material is stated to be; mark gives one cell before the glyph.
func plyLines(p *Practice, s *laminate.Schedule, a *laminate.Analysis, w, row int, figures bool, mark func(row int) string) []string {
	t, u := p.Desk.Theme, p.Desk.Units()
	var out []string
	for i := range s.Plies {
		q, f := &s.Plies[i], &a.Rows[i]
		cells := paper.PlyOf(s, a, i, u)
		head := draw.Left(cells.Numbers, 6) + mark(i) + plyName(q, f)
		var l draw.Line
		cell := func(text string, n int) {
			if l.Width()+n <= w-1 {
				l.Add(draw.Right(text, n))
			}
		}
		l.Add(draw.Left(head, min(w-1, 28)))
		if figures {
			cell(cells.PerPly, 6)
			cell(cells.Total, 7)
			cell(cells.Glass, 6)
		} else if f.Material != nil {
			cell(stated(f.Material, f.Zone, u), 22)
		}
		cell(resinName(q, f), 20)
		cell(page.ZoneWord(f.Zone), 11)
		if q.GelAfter {
			cell("gel stop", 10)
		}
		if i == row {
			out = append(out, t.Selected.Render(draw.Left(draw.Pointer+l.String(), w)))
		} else {
			out = append(out, draw.Left(" "+l.String(), w))
		}
	}
	if len(s.Plies) == 0 {
		return []string{" nothing is laid"}
	}
	return out
}

// window is h lines of a list with line at in sight.
func window(list []string, at, h int) []string {
	h = max(1, h)
	top := max(0, min(at-h/2, len(list)-h))
	return list[top:min(len(list), top+h)]
}

// plyName is a row's glyph, material, angle and count.
func plyName(q *laminate.Ply, f *laminate.RowFigures) string {
	form := laminate.NoForm
	if f.Material != nil {
		form = f.Material.Form
	}
	name := page.Glyph(form) + " " + draw.Clean(q.Material)
	if q.Angle.Given {
		name += " " + page.Degrees(q.Angle.Value)
	}
	if q.Count > 1 {
		name += " ×" + strconv.Itoa(q.Count)
	}
	return name
}

// resinName is what a row is laid in: the family, marked where it is filled.
func resinName(q *laminate.Ply, f *laminate.RowFigures) string {
	switch {
	case f.Resin == nil || f.Resin.Family == laminate.NoFamily:
		return draw.Cut(draw.Clean(q.Resin), 19)
	case f.Resin.Filler != laminate.NoFiller:
		return draw.Cut(f.Resin.Family.String(), 12) + " filled"
	}
	return draw.Cut(f.Resin.Family.String(), 19)
}

// stated is what is stated of a material: enough to figure by hand.
func stated(m *laminate.Material, z laminate.Zone, u quantity.System) string {
	s := ""
	switch {
	case m.ArealMass.Given():
		s = u.Figure(m.ArealMass.SI(), m.Form.MassKind())
	case m.Thickness.Given():
		s = u.Thickness(m.Thickness.SI())
	}
	if share, ok := m.GlassContentIn(z); ok && m.Fiber.Glass() {
		s += ", " + quantity.Share(share)
	}
	return s
}
