package bench

import (
	"slices"
	"strconv"

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

// rack is the materials of the number keys: those that the user keeps, then the
// shop book's, then the usual ones.
func (b *Bench) rack() (rack [page.RackSize]*laminate.Material) {
	lib, s := b.library(), b.schedule()
	seen := map[string]bool{}
	for i, id := range b.Desk.Rack {
		if m, ok := lib.Material(s, id); ok && !seen[id] {
			rack[i], seen[id] = m, true
		}
	}
	n := 0
	for _, id := range slices.Concat(lib.Rack, catalog.Rack()) {
		for n < len(rack) && rack[n] != nil {
			n++
		}
		if n == len(rack) {
			break
		}
		if m, ok := lib.Material(s, id); ok && !seen[id] {
			rack[n], seen[id] = m, true
		}
	}
	return rack
}

// canRack says why no number key can be given another material.
func (b *Bench) canRack() string {
	if b.Desk.KeepRack == nil {
		return "an exercise is answered with the keys of the bench"
	}
	return b.onRow()
}

// beginRack asks for the number key of the selected row's material. What had it
// takes the other's place, so that none is lost.
func (b *Bench) beginRack() {
	id := b.schedule().Plies[b.Desk.Row].Material
	rack := b.rack()
	l := &page.List{Head: "number keys", Text: "Which number key adds " + id + " from now on, in every schedule?", Verb: "take it"}
	was := -1
	for i, m := range rack {
		item := page.Item{Name: "-"}
		if m != nil {
			item = page.Item{Name: m.ID, Note: m.Name}
			if m.ID == id {
				was = i
			}
		}
		l.Items = append(l.Items, item)
	}
	l.Take = func(at int) error {
		kept := b.Desk.Rack
		for i, m := range rack { // as they stand, so that no other moves
			if m != nil {
				kept[i] = m.ID
			}
		}
		if was >= 0 {
			kept[was] = kept[at]
		}
		kept[at] = id
		b.Desk.KeepRack(kept)
		b.Desk.Say(strconv.Itoa(at+1) + " adds " + id + " from now on, in every schedule")
		return nil
	}
	b.Open(l)
}

// rackLines draws the rack as h lines of w cells.
func (b *Bench) rackLines(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	heading := b.heading
	switch {
	case heading != "":
	case b.visited():
		heading = "Enter builds"
	case w < 22:
		heading = "digit adds a ply"
	default:
		heading = "number key adds a ply"
	}
	return b.racks.get(blockKey{of: b.Desk.Report(), w: w, h: h, heading: heading, rack: b.Desk.Rack}, func() []string { return b.drawRack(heading, w, h) })
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
		if r.Overlay != nil && name != "total" {
			ask = "" // that is asked of a wall
		}
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
	if r.Overlay != nil {
		for _, line := range draw.Wrap("no wall of a part: what it has to bear where it is laid stands in the findings", w-1) {
			out = append(out, " "+line)
		}
		return out
	}
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
	rack    [page.RackSize]string
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
