package layup

import (
	"slices"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// reduced is the page on a small screen, h lines of it free. Where not all has room,
// what stands is taken in order of danger: which ply, what stops it, what can hurt at
// once, whether it is warm and dry enough, then what it takes, and large letters only then.
func (p *Page) reduced(w, h int) []string {
	head, name, what, stop := p.head(w), p.letters(w, 1), p.what(w), p.stopLines(w)
	of, take, next := p.of(w), p.takeShort(w), p.nextLines(w)
	room := h - len(name) - len(stop) - 4 // head, what, the worst caution, ambient
	fits := func(n int) bool {
		if room < n {
			return false
		}
		room -= n
		return true
	}
	hurts := 1
	few := func(to int) { // cautions in few words
		for hurts < min(to, len(p.cautions())) && fits(1) {
			hurts++
		}
	}
	few(2)
	if !fits(1) {
		take = nil
	}
	goes := fits(1)
	switch {
	case len(of) > 1 && !fits(2) || len(of) == 1 && !fits(1):
		of = []string{" " + marked(draw.Clean(p.plain()), w-2)}
		if !fits(1) {
			of = nil
		}
	}
	few(3)
	if large := p.letters(w, 3); len(large) > len(name) && fits(len(large)-len(name)) {
		name = large
	}
	if !fits(len(next)) {
		next = nil
	}
	lines := slices.Concat([]string{head}, name, []string{what}, of, next, take, stop, p.warnings(w, hurts+max(0, room)))
	foot := []string{p.air(w)}
	if goes {
		foot = append(foot, p.goes(w))
	}
	for len(lines) < h-len(foot) {
		lines = append(lines, "")
	}
	return append(lines[:min(len(lines), max(0, h-len(foot)))], foot...)
}

// takeShort is what the ply takes, in one line.
func (p *Page) takeShort(w int) []string {
	t, n := p.Desk.Theme, p.ply()
	a := p.takes(n)
	if a.Missing != "" {
		return page.Labeled(t, labelCells, "material", marked("cannot be determined: "+draw.Clean(a.Missing), w-labelCells-2), w, t.Incomplete)
	}
	text := "mix " + p.mix(n, &a)
	if a.Fabric > 0 {
		text = weight(a.Fabric, p.Desk.Units()) + " net; " + text
	}
	return page.Labeled(t, labelCells, "material", marked(text, w-labelCells-2), w)
}

// plain is what the ply is, in one line.
func (p *Page) plain() string {
	n := p.ply()
	i := p.records.RowOf(n)
	ply, row := &p.records.Schedule().Plies[i], &p.analysis().Rows[i]
	return p.material(ply, row) + p.across(n) + " · " + resinText(ply, row)
}

// air says how the ambient conditions stand.
func (p *Page) air(w int) string {
	t := p.Desk.Theme
	said, look := p.measured().line(t, p.Desk.Units())
	return " " + t.Label.Render(draw.Left("ambient", labelCells)) + look.Render(marked(said, w-labelCells-2))
}

// marked cuts a text that has no room, with the key that shows its end.
func marked(text string, w int) string {
	if draw.Width(text) <= w {
		return text
	}
	return draw.Cut(text, max(1, w-2)) + " w"
}

// whole is all that the page says of the ply, to the end: on a small screen not all of it
// has room.
func (p *Page) whole() page.Overlay {
	return &page.Text{Head: "all of this ply", Body: func(w int) (lines []string) {
		t := p.Desk.Theme
		w -= 2 // beside the mark that more follows
		for _, why := range p.stopping() {
			lines = append(lines, page.Labeled(t, labelCells, "STOP", why, w, t.Break)...)
		}
		for _, c := range p.cautions() {
			lines = append(lines, page.Labeled(t, labelCells, c.Label, c.Text, w, t.Warning)...)
		}
		said, look := p.measured().line(t, p.Desk.Units())
		lines = append(lines, page.Labeled(t, labelCells, "ambient", said, w, look)...)
		lines = append(lines, page.Labeled(t, labelCells, "ply", p.plain(), w)...)
		return append(append(lines, p.take(w)...), p.goes(w))
	}}
}
