package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// plyTable draws plies.
type plyTable struct {
	s       *laminate.Schedule
	a       *laminate.Analysis
	row     int // pointed at; -1 the process face, -2 none
	here    bool
	resins  bool                 // the resin before the figures
	figures bool                 // thickness and glass: what a question asks for stays hidden
	mark    func(row int) string // one cell before the glyph
	top     int
}

// lines draws h lines of w cells with the row pointed at in sight.
func (x *plyTable) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	var out []string
	focus := 0
	face := func() {
		if x.here && x.row == -1 {
			focus = len(out)
			out = append(out, t.Selected.Render(draw.Left(draw.Pointer+"+ the process face: a digit lays here", w)))
		}
	}
	face()
	for i := range x.s.Plies {
		if i == x.row {
			focus = len(out)
		}
		out = append(out, x.line(p, i, w))
		if x.s.Plies[i].GelAfter {
			out = append(out, t.Mark.Render(draw.Cut("      ── gel stop ──", w)))
		}
	}
	if len(x.s.Plies) == 0 && !x.here {
		out = append(out, " nothing is laid")
	}
	if focus >= x.top+h-1 {
		x.top = focus - h + 2
	}
	if focus < x.top {
		x.top = focus
	}
	x.top = max(0, min(x.top, len(out)-h))
	return draw.FitLines(out[x.top:min(len(out), x.top+h)], w, h)
}

// line draws a row: what does not fit is left out from the right.
func (x *plyTable) line(p *Practice, i, w int) string {
	t, u := p.desk.Theme, p.desk.Units()
	q, f := &x.s.Plies[i], &x.a.Rows[i]
	form := laminate.NoForm
	if f.Material != nil {
		form = f.Material.Form
	}
	name := draw.Clean(q.Material)
	if q.Angle.Given {
		name += " " + page.Degrees(q.Angle.Value)
	}
	if q.Count > 1 {
		name += " ×" + strconv.Itoa(q.Count)
	}
	mark := " "
	if x.mark != nil {
		mark = x.mark(i)
	}
	tail := ""
	wide := 18
	if w < 45 {
		wide = 16
	}
	left := w - 10 - wide
	add := func(s string, n int, right bool) {
		if left < n {
			left = 0
			return
		}
		left -= n
		if right {
			tail += draw.Right(s, n)
		} else {
			tail += " " + draw.Left(s, n-1)
		}
	}
	resin := draw.Clean(q.Resin)
	if f.Resin != nil {
		resin = shortFamily(f.Resin)
	}
	if x.resins {
		add(resin, 12, false)
	}
	if x.figures {
		add(thin(f.Thickness, u), 6, true)
		add(thin(f.ToHere, u), 7, true)
		share, known := f.GlassMassFraction()
		add(page.Percent(share, known), 6, true)
	} else if f.Material != nil {
		add(stuff(f.Material, f.Zone, u), 22, false)
	}
	if !x.resins {
		add(resin, 14, false)
	}
	add(page.ZoneWord(f.Zone), 10, false)
	head := draw.Left(page.PlyNumbers(f), 6) + mark + page.Glyph(form) + " " + draw.Left(name, wide)
	if i == x.row {
		return t.Selected.Render(draw.Left(draw.Pointer+head+tail, w))
	}
	return draw.Left(" "+page.ZoneStyle(t, f.Zone).Render(head)+tail, w)
}

// stuff is what a material is stated to be: enough to figure by hand.
func stuff(m *laminate.Material, z laminate.Zone, u quantity.System) string {
	s := ""
	switch {
	case m.ArealMass.Given():
		s = u.FabricMass(m.ArealMass.SI())
	case m.Thickness.Given():
		s = u.Thickness(m.Thickness.SI())
	}
	if share, ok := m.GlassContentIn(z); ok && m.Fiber.Glass() {
		s += ", " + quantity.Share(share)
	}
	return s
}

// shortFamily is a resin in few cells: its family's initials tell it from others.
func shortFamily(r *laminate.Resin) string {
	s := map[laminate.Family]string{
		laminate.Isophthalic: "isophthalic", laminate.Terephthalic: "terephthalic", laminate.BisphenolFumarate: "bisphenol-f.",
		laminate.Chlorendic: "chlorendic", laminate.VinylEster: "vinyl ester", laminate.BrominatedVinylEster: "brom. vinyl",
		laminate.NovolacVinylEster: "novolac", laminate.BrominatedNovolacVinylEster: "brom. novolac",
	}[r.Family]
	if s == "" {
		s = draw.Clean(r.ID)
	}
	switch {
	case r.Filler.Hard():
		s = draw.Cut(s, 8) + "+grit"
	case r.Filler == laminate.CarbonPowder:
		s = draw.Cut(s, 6) + "+carbon"
	}
	return s
}

func thin(m float64, u quantity.System) string {
	return u.Bare(m, quantity.Thickness)
}
