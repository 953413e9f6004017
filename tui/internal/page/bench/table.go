package bench

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// columns says which columns a table of some width has, and how wide. The
// fixed part is pointer, numbers, mark, glyph; the material takes what is left.
type columns struct {
	num, material, each, here, glass, resin, zone, mass, fiber int
}

const fixed = 4 // pointer, finding mark, glyph, a blank

func columnsFor(width int, total laminate.Sum, u quantity.System) columns {
	c := columns{num: max(5, 2*len(strconv.Itoa(total.Plies))+1), here: max(8, len(u.Bare(total.Thickness, quantity.Thickness))+2), glass: 6}
	left := width - fixed - c.num - c.here - c.glass - 14
	take := func(into *int, n int) {
		if left >= n {
			*into, left = n, left-n
		}
	}
	take(&c.each, 6)
	take(&c.zone, 9)
	take(&c.resin, 6)
	if c.zone > 0 && left >= 12 {
		c.zone, c.resin, left = c.zone+1, c.resin+4, left-5
	}
	if left >= 20 {
		take(&c.mass, 8)
		take(&c.fiber, 7)
	}
	c.material = min(14+max(0, left), 34)
	return c
}

// table draws the plies as h lines, the titles included.
func (b *Bench) table(s *sight, r *rules.Report, w, h int) []string {
	t := b.desk.Theme
	c := columnsFor(w, r.Analysis.Total, b.desk.Units())
	out := make([]string, 0, h)
	out = append(out, t.Label.Render(b.titles(c)))
	rows := h - 1
	hereAt := -1
	total := len(s.lines)
	if b.mode == nil {
		hereAt = s.gap(b.desk.Row)
		total++
	}
	b.scroll(s, rows, total, hereAt)
	for i := b.top; i < b.top+rows && i < total; i++ {
		n := i
		switch {
		case i == hereAt:
			out = append(out, b.here(w))
			continue
		case hereAt >= 0 && i > hereAt:
			n--
		}
		if l := s.lines[n]; l.gel {
			out = append(out, b.gelLine(r, l.row, w))
		} else {
			out = append(out, b.plyLine(s, r, c, l.row, w))
		}
	}
	return out
}

// scroll keeps the row worked at, and the place after it, in sight.
func (b *Bench) scroll(s *sight, rows, total, hereAt int) {
	row := b.row()
	first, last := 0, 0
	if row >= 0 && row < len(s.at) {
		first = s.at[row]
		last = first
	}
	if hereAt >= 0 {
		last = hereAt
		if row < 0 {
			first = hereAt
		}
	}
	if last >= b.top+rows {
		b.top = last - rows + 1
	}
	if first < b.top {
		b.top = first
	}
	b.top = max(0, min(b.top, total-rows))
}

func (b *Bench) titles(c columns) string {
	var l strings.Builder
	l.WriteString(draw.Left(" ply", 1+c.num+2))
	l.WriteByte(' ')
	l.WriteString(draw.Left("material", c.material))
	for _, col := range [...]struct {
		w    int
		name string
	}{{c.each, "each"}, {c.here, "to here"}, {c.glass, "glass"}, {c.fiber, "fiber"}, {c.mass, b.desk.Units().Wall().Symbol()}} {
		if col.w > 0 {
			l.WriteString(draw.Right(col.name, col.w))
		}
	}
	if c.resin > 0 {
		l.WriteString(" " + draw.Left("resin", c.resin-1))
	}
	if c.zone > 0 {
		l.WriteString(" " + draw.Left("zone", c.zone-1))
	}
	return l.String()
}

func (b *Bench) plyLine(s *sight, r *rules.Report, c columns, row, w int) string {
	t, u := b.desk.Theme, b.desk.Units()
	p, f := &r.Schedule.Plies[row], &r.Analysis.Rows[row]
	chosen := row == b.row()
	form := laminate.NoForm
	if f.Material != nil {
		form = f.Material.Form
	}
	var rest strings.Builder
	if c.each > 0 {
		rest.WriteString(draw.Right(u.Bare(f.Thickness, quantity.Thickness), c.each))
	}
	rest.WriteString(draw.Right(u.Bare(f.ToHere, quantity.Thickness), c.here))
	share, known := f.GlassMassFraction()
	rest.WriteString(draw.Right(page.Percent(share, known), c.glass))
	if c.fiber > 0 {
		share, known := f.FiberMassFraction()
		rest.WriteString(draw.Right(page.Percent(share, known), c.fiber))
	}
	if c.mass > 0 {
		mass := "—"
		if f.MassKnown {
			mass = u.Bare(f.Mass*float64(p.Count), quantity.WallMass)
		}
		rest.WriteString(draw.Right(mass, c.mass))
	}
	if c.resin > 0 {
		rest.WriteString(" " + draw.Left(shortID(draw.Clean(p.Resin), c.resin-1), c.resin-1))
	}
	if c.zone > 0 {
		rest.WriteString(" " + draw.Left(zoneCell(f.Zone, c.zone-1), c.zone-1))
	}
	name := rowTitle(p, c.material)
	num := draw.Left(page.PlyNumbers(f), c.num)
	worst := s.worst[row]
	if chosen {
		line := draw.Pointer + num + page.SeverityMark(worst) + page.Glyph(form) + " " + name + rest.String()
		return t.Selected.Render(draw.Left(line, w))
	}
	zone := page.ZoneStyle(t, f.Zone)
	mark := page.SeverityMark(worst)
	if mark != " " {
		mark = page.SeverityStyle(t, worst).Render(mark)
	}
	return " " + num + mark +
		zone.Render(page.Glyph(form)+" "+name) + rest.String()
}

// zoneCell is a zone's word where it fits, else one that can still be told.
func zoneCell(z laminate.Zone, w int) string {
	if s := page.ZoneWord(z); draw.Width(s) <= w || z != laminate.StructuralLayer {
		return s
	}
	return "struct."
}

// rowTitle is the material with its angle and count in exactly w cells; a long
// name loses its middle, since its end tells one weight from another.
func rowTitle(p *laminate.Ply, w int) string {
	tail := ""
	if p.Angle.Given {
		tail = " " + page.Degrees(p.Angle.Value)
	}
	if p.Count > 1 {
		tail += " ×" + strconv.Itoa(p.Count)
	}
	return draw.Left(middle(draw.Clean(p.Material), w-1-draw.Width(tail))+tail, w)
}

func middle(s string, w int) string { return without(s, w, 3) }

// shortID is an id in few cells: its last letter tells resin-3 from resin-4.
func shortID(s string, w int) string {
	if w < 8 {
		return without(s, w, 1)
	}
	return middle(s, w)
}

// without drops the middle of a name that is too long and keeps end cells of
// its end.
func without(s string, w, end int) string {
	n := draw.Width(s)
	if n <= w || w < 4 || n != len(s) {
		return draw.Cut(s, w)
	}
	return s[:w-end-1] + draw.Ellipsis + s[len(s)-end:]
}

func (b *Bench) gelLine(r *rules.Report, row, w int) string {
	what := "gel stop: let it gel and cool down"
	if row+1 == r.Analysis.BarrierEnd {
		what = "gel stop: barrier hard before the wall"
	}
	return b.desk.Theme.Mark.Render(draw.Cut("      ── "+what+" ──", w))
}

func (b *Bench) here(w int) string {
	t := b.desk.Theme
	switch {
	case len(b.schedule().Plies) == 0:
		return t.Selected.Render(draw.Left(draw.Pointer+"+ the next digit lays the first ply: a veil, as a rule", w))
	case b.desk.Row < 0:
		return t.Selected.Render(draw.Left(draw.Pointer+"+ the next digit lays here, on the process face", w))
	}
	return t.Dim.Render(draw.Cut("    + the next digit lays here", w))
}
