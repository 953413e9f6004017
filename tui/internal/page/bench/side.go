package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/barrier"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// rackSize is how many materials take a digit.
const rackSize = 9

// rack is the material of each digit from 1; nil where the digit has none.
func (b *Bench) rack() (rack [rackSize]*laminate.Material) {
	lib, s := b.library(), b.schedule()
	n := 0
	seen := map[string]bool{}
	add := func(id string) {
		if n == rackSize || seen[id] {
			return
		}
		if m, ok := lib.Material(s, id); ok {
			rack[n], seen[id] = m, true
			n++
		}
	}
	for _, id := range lib.Rack {
		add(id)
	}
	for _, id := range catalog.Rack() {
		add(id)
	}
	return rack
}

// rackLines draws the rack as h lines of w cells.
func (b *Bench) rackLines(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	heading := b.heading
	switch {
	case heading != "":
	case w < 22:
		heading = "digit adds a ply"
	default:
		heading = "number key adds a ply"
	}
	return b.racks.get(blockKey{of: b.Desk.Report(), w: w, h: h, heading: heading}, func() []string { return b.drawRack(heading, w, h) })
}

func (b *Bench) drawRack(heading string, w, h int) []string {
	var items []widget.Item
	for _, m := range b.rack() {
		if m == nil {
			continue
		}
		item := widget.Item{Mark: page.Glyph(m.Form), Name: m.ID}
		if w >= 36 {
			item.Note = page.Weight(m, b.Desk.Units())
		} else {
			item.Name = middle(draw.Clean(m.ID), w-5)
		}
		items = append(items, item)
	}
	return widget.NewRack(b.Desk.Theme, heading, items).View(w, h)
}

// figures draws zones and criteria.
func (b *Bench) figures(r *rules.Report, w, h int) []string {
	if w < 1 || h < 3 {
		return nil
	}
	return b.sums.get(blockKey{of: r, w: w, h: h}, func() []string { return b.drawFigures(r, w, h) })
}

func (b *Bench) drawFigures(r *rules.Report, w, h int) []string {
	out := append([]string{""}, b.zoneTable(r, w)...)
	out = append(out, "")
	if b.lead == nil {
		out = append(out, b.wallBars(r, w, h-len(out)-2)...)
	}
	for _, line := range draw.Wrap("design aid: the governing code, tests and a licensed engineer decide", w-2) {
		out = append(out, " "+b.Desk.Theme.Dim.Render(line))
	}
	return out
}

// asked is what is asked of a zone: a least thickness in m, and the bounds of
// glass that inner-surface-rich and barrier-glass-content have.
func asked(least float64, glass string, u quantity.System) string {
	return "≥" + page.Thick(least, u) + " " + glass
}

// zoneTable is the table of zones: thickness, glass, mass, what is asked.
func (b *Bench) zoneTable(r *rules.Report, w int) []string {
	t, u, a := b.Desk.Theme, b.Desk.Units(), r.Analysis
	out := []string{" " + t.Label.Render(draw.Cut(draw.Left("zone", 10)+draw.Right(u.Thin().Symbol(), 7)+draw.Right("glass", 7)+"  required", w-1))}
	row := func(name string, s laminate.Sum, ask string) {
		line := draw.Left(name, 10)
		if s.Plies == 0 {
			line += draw.Right("none", 7)
		} else {
			line += draw.Right(u.Bare(s.Thickness, quantity.Thickness), 7) + draw.Right(paper.Share(s.GlassMassFraction()), 7)
		}
		out = append(out, " "+draw.Cut(line+"  "+ask, w-1))
	}
	row("inner", a.Zones[laminate.InnerSurface], asked(barrier.AskedInner(), "<20%", u))
	row("interior", a.Zones[laminate.InteriorLayer], "")
	row("barrier", a.Barrier, asked(barrier.Asked(r.Schedule, b.Desk.Doc.Library()), "22–32%", u))
	row("structure", a.Zones[laminate.StructuralLayer], "")
	row("outer", a.Zones[laminate.OuterSurface], "")
	mass := "not known"
	if a.Total.MassKnown {
		mass = u.WallMass(a.Total.Mass)
	}
	row("total", a.Total, mass)
	return out
}

// wallBars draws how much of each criterion is used, as many as there is room.
func (b *Bench) wallBars(r *rules.Report, w, h int) []string {
	t := b.Desk.Theme
	out := []string{" " + t.Label.Render("structure: utilization")}
	if r.Wall == nil {
		return append(out, " not evaluated")
	}
	if r.Wall.Problem != "" {
		for _, l := range draw.Wrap(draw.Clean(r.Wall.Problem), w-1) {
			if len(out) < h {
				out = append(out, " "+l)
			}
		}
		return out
	}
	var bars []widget.Bar
	for i := range r.Wall.Criteria {
		if c := &r.Wall.Criteria[i]; c.Governs && c.Answer != wall.NotApplicable && len(bars) < h-1 {
			u := page.Used(t, c)
			bars = append(bars, u)
		}
	}
	if len(bars) == 0 {
		return append(out, " nothing governs yet: j, design basis")
	}
	for _, line := range widget.Bars(t, bars, w-1) {
		out = append(out, " "+line)
	}
	return out
}

// blockKey is what a drawn block depends on. Units and library change the
// report too.
type blockKey struct {
	of      *rules.Report
	w, h    int
	heading string
}

// block is a part of the page that is drawn once and shown many times.
type block struct {
	key   blockKey
	lines []string
}

func (b *block) get(key blockKey, draw func() []string) []string {
	if b.lines == nil || b.key != key {
		b.key, b.lines = key, draw()
	}
	return b.lines
}
