package winding

import (
	"slices"
	"strconv"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/winding"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// labelCells is the room of the longest label, which a form takes too.
const labelCells = len("angle from the axis")

// Lines draws the page.
func (p *Winding) Lines() []string {
	w, th := p.Frame.Body.W, p.Desk.Theme
	var lines []string
	if o := p.Over(); o != nil {
		lines = o.Lines()
	} else {
		for _, f := range p.fields {
			lines = append(lines, f.Lines(th, false, labelCells, w-2)...)
		}
	}
	var out []string
	for i, line := range lines {
		mark := " "
		if i == p.at && p.Over() == nil {
			mark = draw.Pointer
		}
		out = append(out, mark+th.Key.Render(strconv.Itoa(i+1))+line)
	}
	t, err := p.try()
	out = append(out, widget.Rule(th, w, widget.Piece{Text: "one cover", Look: th.Title}))
	if err != nil {
		out = append(out, "   "+th.Incomplete.Render(draw.Cut("cannot be determined: "+draw.Clean(err.Error()), w-4)))
		return append(out, p.aid(w)...)
	}
	out = append(out, p.figures(&t, w)...)
	out = append(out, widget.Rule(th, w, widget.Piece{Text: "the same band at other angles", Look: th.Title}))
	out = append(out, p.whatIf(&t, w, p.Frame.Body.H-len(out)-2)...)
	return append(out, p.aid(w)...)
}

func (p *Winding) aid(w int) []string {
	return []string{p.Desk.Theme.Dim.Render(draw.Cut(" design aid: bands are computed edge to edge; a weighed sample of the shop's own band governs", w))}
}

// figures tells the pattern in two columns.
func (p *Winding) figures(t *tried, w int) []string {
	u, q := p.Desk.Units(), &t.pattern
	lead := "endless: along the axis"
	if !q.Endless {
		lead = u.Figure(q.Lead, quantity.Size)
	}
	thick := "cannot be determined: "
	if t.laidErr != nil {
		thick += t.laidErr.Error()
	} else {
		thick = u.Thickness(t.laid.Thickness)
	}
	circuits := strconv.Itoa(q.Circuits) + " (" + quantity.Number(q.CircuitsExact, 2) + " exact)"
	if q.Stepped {
		circuits = "one band width a turn, true angle " + u.Figure(q.Angle, quantity.Angle)
	}
	rows := [][2]string{
		{"lead a turn", lead},
		{"circuits to close", circuits},
		{"actual overlap", u.Figure(q.Overlap, quantity.Size) + ", " + quantity.Percent(q.OverlapShare) + " of the band; with it " + u.FabricMass(q.LaidCover)},
		{"closes with no overlap", "at a band of " + u.Figure(q.ClosingWidth, quantity.Size)},
		{"fiber", u.FabricMass(q.LayerMass) + " a layer, " + u.FabricMass(q.CoverMass) + " a cover of " + page.Count(q.Layers, "layer")},
		{"thickness, a cover", thick},
	}
	var out []string
	for _, r := range rows {
		out = append(out, "   "+draw.Left(r[0], 24)+draw.Cut(draw.Clean(r[1]), w-28))
	}
	return out
}

// ideal is the angle at which fibers alone hold a closed pipe: tan² is 2.
const ideal = 54.7

// others are the angles to compare with, those worth most first.
var others = []float64{ideal, 45, 60, 70, 88, 30, 80}

// whatIf tells what the band does at other angles, as many as there is room for.
func (p *Winding) whatIf(t *tried, w, room int) []string {
	u := p.Desk.Units()
	angles := slices.Clone(others[:max(1, min(len(others), room))])
	slices.Sort(angles)
	choices, err := winding.WhatIf(t.band, t.diameter.SI(), angles, nil)
	if err != nil {
		return []string{"   " + draw.Cut(draw.Clean(err.Error()), w-4)}
	}
	th := p.Desk.Theme
	out := []string{"   " + th.Label.Render(draw.Right("angle", 7)+draw.Right("hoop:axial", 12)+draw.Right("circuits", 10)+draw.Right("overlap", 10)+draw.Right("lead", 12)+"  fibers alone")}
	for _, c := range choices {
		ratio := u.Figure(c.Ratio, quantity.Times)
		if c.HoopOnly {
			ratio = "hoop only"
		}
		lead := "endless"
		if !c.Endless {
			lead = u.Figure(c.Lead, quantity.Size)
		}
		note := ""
		if c.Asked == ideal {
			note = "  a closed pipe"
		}
		out = append(out, "   "+draw.Right(u.Figure(c.Asked, quantity.Angle), 7)+draw.Right(ratio, 12)+draw.Right(strconv.Itoa(c.Circuits), 10)+
			draw.Right(quantity.Share(c.OverlapShare), 10)+draw.Right(lead, 12)+note)
	}
	return out
}
