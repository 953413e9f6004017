package bench

import "frp/veilwright/tui/internal/draw"

// plan is where the parts of the page stand, in the page's own lines.
type plan struct {
	draw.Bench
	list int // lines of the findings' list
	why  int // lines of the explanation
}

// leastTable is how many lines the plies keep, their titles counted.
const leastTable = 6

// planFor divides a screen. The page's first line is the one under the title.
// A pane that would like to be tall gets what the table can spare.
func planFor(w, h, tall int) plan {
	p := plan{Bench: draw.BenchPage(draw.Size{W: w, H: h})}
	for _, r := range []*draw.Rect{&p.Strip, &p.Totals, &p.Plies, &p.Edge, &p.Rack, &p.Figures, &p.Findings, &p.Side} {
		r.Y -= p.Body.Y
	}
	if more := min(tall-p.Findings.H, p.Plies.H-leastTable); more > 0 && p.Form != draw.Huge {
		p.Findings.Y, p.Findings.H = p.Findings.Y-more, p.Findings.H+more
		p.Plies.H -= more
		if p.Form == draw.Full {
			p.Edge.H, p.Rack.H = p.Edge.H-more, p.Rack.H-more
		}
		if p.Form == draw.Reduced {
			p.Rack.Y -= more
		}
	}
	n := p.panel()
	p.why = max(1, min(8, n/3))
	p.list = max(1, n-p.why-1)
	return p
}

// panel is how many lines the findings, or a choice in their place, have under
// their heading.
func (p plan) panel() int { return max(1, p.Findings.H-1) }

// rows is how many lines the table has under its titles.
func (p plan) rows() int { return max(1, p.Plies.H-1) }
