package bench

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// columns says which columns a table of some width has, and how wide. The
// fixed part is pointer, numbers, mark, glyph; the material takes what is left.
type columns struct {
	num, material, each, here, glass, resin, zone, mass, fiber int
}

const (
	fixed         = 4  // pointer, finding mark, glyph, a blank
	leastMaterial = 17 // the longest id of the catalog
)

// columnsFor leaves out what does not fit: no word is cut but a material's.
func columnsFor(width int, s *laminate.Schedule, total laminate.Sum, u quantity.System) columns {
	c := columns{num: max(5, 2*len(strconv.Itoa(total.Plies))+1), here: max(8, len(u.Bare(total.Thickness, quantity.Thickness))+2), glass: 6}
	left := width - fixed - c.num - c.here - c.glass - leastMaterial
	take := func(into *int, n int) {
		if left >= n {
			*into, left = n, left-n
		}
	}
	resin := len("resin")
	for i := range s.Resins {
		resin = max(resin, draw.Width(draw.Clean(s.Resins[i].ID)))
	}
	take(&c.each, 8)
	take(&c.zone, 10)
	take(&c.resin, min(resin, 16)+1)
	if left >= 20 {
		take(&c.mass, 8)
		take(&c.fiber, 7)
	}
	c.material = min(leastMaterial+max(0, left), 34)
	return c
}

// table draws the plies as h lines, the titles included.
func (b *Bench) table(s *sight, r *rules.Report, w, h int) []string {
	t := b.Desk.Theme
	c := columnsFor(w, r.Schedule, r.Analysis.Total, b.Desk.Units())
	out := make([]string, 0, h)
	out = append(out, t.Label.Render(b.titles(c)))
	rows := h - 1
	total, hereAt := b.tableLines()
	for i := b.top; i < b.top+rows && i < total; i++ {
		n := i
		switch {
		case i == hereAt:
			out = append(out, b.here(w))
			continue
		case hereAt >= 0 && i > hereAt:
			n--
		}
		switch l := s.lines[n]; {
		case l.gel:
			out = append(out, b.gelLine(r, l.row, w))
		case l.of > 0:
			out = append(out, b.unitLine(r, c, s.units[l.of-1], w))
		default:
			out = append(out, b.plyLine(s, r, c, l.row, w))
		}
	}
	return out
}

// Click goes to the row on a line of the table.
func (b *Bench) Click(x, y int) bool {
	p := b.plan.Plies
	if x < p.X || x >= p.X+p.W || y <= p.Y || y >= p.Y+p.H {
		return false
	}
	line := b.top + y - p.Y - 1
	if _, here := b.tableLines(); here >= 0 && line >= here {
		if line == here {
			return false
		}
		line--
	}
	row := b.sight().rowAt(line)
	if row < 0 {
		return false
	}
	b.Desk.Go(row)
	return true
}

// tableLines is how many lines the whole table has, and in which of them it
// says where the next ply comes, -1 for none.
func (b *Bench) tableLines() (total, hereAt int) {
	s := b.sight()
	if b.Over() != nil {
		return len(s.lines), -1
	}
	return len(s.lines) + 1, s.gap(b.Desk.Row)
}

// scroll keeps the row worked at, and the place after it, in sight.
func (b *Bench) scroll() {
	s, rows := b.sight(), b.plan.rows()
	total, hereAt := b.tableLines()
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

// unitLine is a sequence that repeats, in the place of its rows.
func (b *Bench) unitLine(r *rules.Report, c columns, u unit, w int) string {
	t := b.Desk.Theme
	first, last := &r.Analysis.Rows[u.first], &r.Analysis.Rows[u.end()-1]
	mark := page.SeverityMark(u.worst)
	if mark != " " {
		mark = page.SeverityStyle(t, u.worst).Render(mark)
	}
	total := draw.Right(b.Desk.Units().Bare(last.ToHere, quantity.Thickness), c.here)
	room := max(1, c.material+2+c.each)
	name := draw.Left(u.glyphs(r)+" "+u.name(r.Schedule.Plies), room)
	return draw.Cut(" "+draw.Left(paper.Span(first.First, last.Last), c.num)+mark+page.ZoneStyle(t, first.Zone).Render(name)+total, w)
}

func (b *Bench) titles(c columns) string {
	var l strings.Builder
	l.WriteString(draw.Left(" ply", 1+c.num+2))
	l.WriteByte(' ')
	l.WriteString(draw.Left("material", c.material))
	for _, col := range [...]struct {
		w    int
		name string
	}{{c.each, "per ply"}, {c.here, "total"}, {c.glass, "glass"}, {c.fiber, "fiber"}, {c.mass, b.Desk.Units().Wall().Symbol()}} {
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
	t := b.Desk.Theme
	p, f := &r.Schedule.Plies[row], &r.Analysis.Rows[row]
	chosen := row == b.row()
	form := laminate.NoForm
	if f.Material != nil {
		form = f.Material.Form
	}
	cells := paper.PlyOf(r.Schedule, r.Analysis, row, b.Desk.Units())
	var rest strings.Builder
	for _, col := range [...]struct {
		w    int
		text string
	}{{c.each, cells.PerPly}, {c.here, cells.Total}, {c.glass, cells.Glass}, {c.fiber, cells.Fiber}, {c.mass, cells.Mass}} {
		if col.w > 0 {
			rest.WriteString(draw.Right(col.text, col.w))
		}
	}
	if c.resin > 0 {
		rest.WriteString(" " + draw.Left(draw.Clean(cells.Resin), c.resin-1))
	}
	if c.zone > 0 {
		rest.WriteString(" " + draw.Left(page.ZoneWord(f.Zone), c.zone-1))
	}
	name := rowTitle(p, c.material)
	num := draw.Left(cells.Numbers, c.num)
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
	edge := " "
	if from, to := b.marked(); b.marks && b.preview == nil && from <= row && row <= to {
		edge = t.Mark.Render("•")
	}
	return edge + num + mark +
		zone.Render(page.Glyph(form)+" "+name) + rest.String()
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

// middle drops the middle of a name that is too long.
func middle(s string, w int) string {
	const end = 3
	n := draw.Width(s)
	if n <= w || w < end+1 || n != len(s) {
		return draw.Cut(s, w)
	}
	return s[:w-end-1] + draw.Ellipsis + s[len(s)-end:]
}

func (b *Bench) gelLine(r *rules.Report, row, w int) string {
	what := "gel stop: let it gel and cool down"
	if row+1 == r.Analysis.BarrierEnd && b.laid() == nil {
		what = "gel stop: barrier gels before the structure"
	}
	return b.Desk.Theme.Mark.Render(draw.Cut("      ── "+what+" ──", w))
}

func (b *Bench) here(w int) string {
	t := b.Desk.Theme
	switch {
	case len(b.schedule().Plies) == 0:
		return t.Selected.Render(draw.Left(draw.Pointer+"+ a number key adds the first ply: "+b.begins()+", as a rule", w))
	case b.Desk.Row < 0:
		return t.Selected.Render(draw.Left(draw.Pointer+"+ "+b.adds()+", on "+b.face(), w))
	}
	return t.Dim.Render(draw.Cut("    + "+b.adds(), w))
}

// adds says what adds a ply at the row.
func (b *Bench) adds() string {
	if b.visited() {
		return "Enter begins to build here"
	}
	return "a number key adds a ply here"
}
