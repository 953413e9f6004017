package bench

import "frp/veilwright/tui/internal/draw"

// plan is where the parts of the page stand, in the page's own lines.
type plan struct {
	draw.Bench
	list int // lines of the findings' list
	why  int // lines of the explanation
}

// planFor divides a screen. The page's first line is the one under the title.
func planFor(bench draw.Bench) plan {
	p := plan{Bench: bench}
	for _, r := range []*draw.Rect{&p.Strip, &p.Totals, &p.Plies, &p.Edge, &p.Rack, &p.Figures, &p.Findings, &p.Side} {
		r.Y -= p.Body.Y
	}
	n := p.panel()
	p.why = max(1, min(8, (n-1)/3))
	p.list = max(1, n-p.why-1)
	return p
}

// panel is how many lines the findings, or a choice in their place, have under
// their heading.
func (p plan) panel() int { return max(1, p.Findings.H-1) }

// rows is how many lines the table has under its titles.
func (p plan) rows() int { return max(1, p.Plies.H-1) }
