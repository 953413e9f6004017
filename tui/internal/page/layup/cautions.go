package layup

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// cautions are those of the ply shown.
func (p *Page) cautions() []safety.Caution {
	row := &laminate.RowFigures{}
	if i := p.records.RowOf(p.ply()); i >= 0 {
		row = &p.analysis().Rows[i]
	}
	list := safety.ForPly(row)
	o := p.records.Overlay()
	if o == nil {
		return list
	}
	// What kills or blinds at once stands before what harms later, and the bond before dust.
	var work, hurts []safety.Trigger
	if o.Kind.Inside() {
		for _, i := range o.Faces(o.Job) {
			if safety.Encloses(o.Job.Wall(i).Part.Form) {
				work = append(work, safety.Entering)
			}
		}
	}
	if o.Kind.Bonds() && p.ply() == 1 {
		hurts = append(hurts, safety.Bonding, safety.Cutting)
	}
	list = slices.Insert(list, 1, safety.For(work...)...)
	eyes := slices.IndexFunc(list, func(c safety.Caution) bool { return c.ID == "peroxide-eyes" })
	return slices.Insert(list, eyes+1, safety.For(hurts...)...)
}

// wholeWarnings is how many lines the cautions take with the first one whole.
func (p *Page) wholeWarnings(w int) int {
	list := p.cautions()
	return len(page.Labeled(p.Desk.Theme, labelCells, "", list[0].Text, w)) + len(list) - 1
}

// warnings are the cautions of the ply, the worst hazard first: each in one
// line, and in whole sentences as far as there is room.
func (p *Page) warnings(w, h int) []string {
	t := p.Desk.Theme
	cautions := p.cautions()
	said := make([][]string, len(cautions))
	room := h
	for i, c := range cautions {
		said[i] = page.Labeled(t, labelCells, c.Label, c.Line, w, t.Warning)
		room -= len(said[i])
	}
	for i, c := range cautions {
		if whole := page.Labeled(t, labelCells, c.Label, c.Text, w, t.Warning); len(whole)-len(said[i]) <= room {
			room -= len(whole) - len(said[i])
			said[i] = whole
		}
	}
	lines := slices.Concat(said...)
	switch {
	case len(lines) < h:
		return append([]string{widget.Rule(t, w, widget.Piece{Text: "safety", Look: t.Warning})}, lines...)
	case len(lines) == h || h < 1:
		return lines[:max(0, h)]
	case h == 1: // the worst is said, the others are counted
		return page.Labeled(t, labelCells, fmt.Sprintf("%s +%d", cautions[0].Label, len(cautions)-1), cautions[0].Line, w, t.Warning)[:1]
	}
	// The rest is named at least: none goes without a word.
	lines = nil
	for i := range said {
		if len(lines)+len(said[i]) < h {
			lines = append(lines, said[i]...)
			continue
		}
		var rest []string
		for _, c := range cautions[i:] {
			rest = append(rest, c.Label)
		}
		return append(lines, page.Labeled(t, labelCells, "and", named(rest, w-labelCells-2), w, t.Warning)[:1]...)
	}
	return lines
}

// named names as many of some cautions as fit, counts the others, and says by what key
// all of them are read.
func named(labels []string, w int) string {
	for n := len(labels); ; n-- {
		s := strings.Join(labels[:n], ", ")
		if more := len(labels) - n; more > 0 {
			s += fmt.Sprintf(" and %d more", more)
		}
		if s += ": w"; draw.Width(s) <= w || n == 0 {
			return s
		}
	}
}
