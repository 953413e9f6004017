package bench

import (
	"slices"
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// part is a piece of the page and where it stands.
type part struct {
	at    draw.Rect
	lines []string
}

// Lines draws the page.
func (b *Bench) Lines() []string {
	p := b.plan
	if p.Form == draw.TooSmall {
		return nil
	}
	if o := b.Over(); o != nil && o.Whole() {
		return o.Lines()
	}
	r, s := b.shown(), b.sight()
	b.look() // where nothing settled since
	return compose(p.Body.W, p.Body.H,
		part{p.Strip, b.strip(s, r, p.Strip.W, p.Strip.H)},
		part{p.Totals, []string{b.totals(p.Totals.W)}},
		part{p.Plies, b.table(s, r, p.Plies.W, p.Plies.H)},
		part{p.Edge, widget.Edge(b.Desk.Theme, p.Edge.H)},
		part{p.Rack, b.rackLines(p.Rack.W, p.Rack.H)},
		part{p.Figures, b.figures(r, p.Figures.W, p.Figures.H)},
		part{p.Side, widget.Edge(b.Desk.Theme, p.Side.H)},
		part{p.Findings, b.panel(p.Findings.W)},
	)
}

// compose sets parts that do not overlap into h lines.
func compose(w, h int, parts ...part) []string {
	slices.SortStableFunc(parts, func(a, b part) int { return a.at.X - b.at.X })
	lines := make([]strings.Builder, h)
	used := make([]int, h)
	for _, p := range parts {
		for i, s := range draw.FitLines(p.lines, p.at.W, p.at.H) {
			y := p.at.Y + i
			if y < 0 || y >= h || used[y] > p.at.X {
				continue
			}
			lines[y].WriteString(draw.Spaces(p.at.X - used[y]))
			lines[y].WriteString(s)
			used[y] = p.at.X + p.at.W
		}
	}
	out := make([]string, h)
	for y := range out {
		out[y] = lines[y].String() + draw.Spaces(w-used[y])
	}
	return out
}

// panel is what stands under the table: the findings, or the choice that is
// open.
func (b *Bench) panel(w int) []string {
	t := b.Desk.Theme
	if o := b.Over(); o != nil {
		return append([]string{widget.Rule(t, w, widget.Piece{Text: o.Title(), Look: t.Title})}, o.Lines()...)
	}
	if b.lead != nil {
		return b.lead.Lines(w, b.plan.Findings.H)
	}
	return append([]string{widget.Rule(t, w, page.TallyPieces(t, b.Desk.Report())...)}, b.findings(w)...)
}
