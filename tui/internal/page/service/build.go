package service

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// whyNotBuild tells why what is pointed at cannot be built.
func (p *Service) whyNotBuild() string {
	r := p.pointed()
	switch {
	case r == nil || r.option == nil:
		return "select a veil, a resin or a build: ↑↓"
	case r.option.Suits == advice.Unsuitable:
		return r.id + " is unsuitable for this service: see the reasons beside it"
	case r.id == advice.NoVeil:
		return "a barrier begins with a veil: select one"
	case r.id == advice.HeavyBuild:
		return "it has no figure of its own: build the double barrier, then add more on the bench"
	}
	return ""
}

// build lays the barrier with what is pointed at, as one change, and asks to go
// to the bench, where it stands.
func (p *Service) build() {
	r := p.pointed()
	lib, o := p.Desk.Doc.Library(), advice.Options{Units: p.Desk.Units()}
	switch r.axis {
	case veils:
		o.Veil = r.id
	case resins:
		o.Resin = r.id
	case builds:
		o.Build = r.id
	case together:
	}
	ok := p.Desk.Apply(edit.Edit{
		Label: "built the barrier with " + r.id, At: laminate.PlyRef(0, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) { return advice.WithBarrier(s, lib, o) },
	})
	if ok {
		p.Desk.Leave()
	}
}

// candidates are whole schedules to choose from.
type candidates struct {
	list []advice.Candidate
	cost bool // any of them has one
}

func (p *Service) propose() {
	d := p.Desk.Doc
	list, err := advice.Propose(d.Now(), d.Library(), advice.Options{Units: d.Units(), Replace: true})
	if err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	c := &candidates{list: list}
	for i := range list {
		c.cost = c.cost || list[i].Figures.CostKnown
	}
	x := &page.List{
		Head: "whole schedules", Full: true, Verb: "take it, in place of all plies", Titles: c.cells("plies", "stops", "thick", "mass", "cost"),
		Take: func(i int) error { return p.take(&c.list[i]) }, Leave: func() { p.Desk.Say("left as it was") },
	}
	for i := range list {
		x.Items = append(x.Items, c.item(p, i))
	}
	x.Below = func(w, h int) []string { return c.below(p, &c.list[max(0, x.Pointed())], w, h) }
	p.Open(x)
	p.Desk.Say(page.Count(len(list), "whole schedule") + "; nothing changes until one is taken")
}

// take puts a candidate in the place of all plies, as one change.
func (p *Service) take(c *advice.Candidate) error {
	label := "built the whole laminate"
	if len(c.Titles) > 0 {
		label += ": " + strings.Join(c.Titles, ", ")
	}
	ok := p.Desk.Apply(edit.Edit{
		Label: label, At: laminate.PlyRef(0, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) { return c.Into(s), nil },
	})
	if !ok {
		return page.ErrStay
	}
	p.Desk.Leave()
	return nil
}

// below draws of the one pointed at the wall, its trade-offs and what was taken
// for granted.
func (c *candidates) below(p *Service, x *advice.Candidate, w, h int) []string {
	t, u := p.Desk.Theme, p.Desk.Units()
	picture := page.Picture(t, x.Schedule, x.Report.Analysis)
	out := append([]string{widget.Rule(t, w, page.TallyPieces(t, x.Report)...)}, picture.View(t, w, 2)...)
	part := func(label string, list ...string) {
		for _, s := range list {
			out = append(out, page.Labeled(t, 11, label, s, w)...)
			label = ""
		}
	}
	var plies []string
	for i := range x.Schedule.Plies {
		q := &x.Schedule.Plies[i]
		s := q.Material
		if q.Count > 1 {
			s += " ×" + strconv.Itoa(q.Count)
		}
		plies = append(plies, s)
	}
	part("plies", strings.Join(plies, ", "))
	part("trade-offs", x.GivesUp...)
	part("notes", x.Notes...)
	part("figures", "computed with typical glass content, "+page.ZoneFigures(laminate.StructuralLayer, x.Report.Analysis.Zones[laminate.StructuralLayer], u)+
		"; a design aid: the governing code, the resin manufacturer's data and a licensed engineer decide")
	return out[:min(len(out), h)]
}

// cells sets the columns of a candidate; the cost has one where any is known.
func (c *candidates) cells(plies, stops, thick, mass, cost string) string {
	s := draw.Right(plies, 6) + draw.Right(stops, 6) + draw.Right(thick, 11) + draw.Right(mass, 13)
	if c.cost {
		s += draw.Right(cost, 12)
	}
	return s
}

func (c *candidates) item(p *Service, i int) page.Item {
	u, x := p.Desk.Units(), &c.list[i]
	f := &x.Figures
	name := strings.Join(x.Titles, ", ")
	if name == "" {
		name = "between the others"
	}
	mass, cost := "—", "—"
	if f.MassKnown {
		mass = u.WallMass(f.Mass)
	}
	if f.CostKnown {
		cost = f.Currency + strconv.FormatFloat(f.Cost, 'f', 2, 64) + "/m²"
	}
	return page.Item{Name: name, Word: c.cells(strconv.Itoa(f.Plies), strconv.Itoa(f.GelStops), u.Thickness(f.Thickness), mass, cost)}
}

// rects divides what is left under the facts between matrix and reasons: beside
// each other, or below where the screen is small.
func (p *Service) rects() (main, edge, side draw.Rect) {
	f := p.Frame
	lines := factLines
	if p.fact > 0 {
		lines += factRoom
	}
	f.Body.Y, f.Body.H = 0, max(0, f.Body.H-lines-1)
	return draw.Sided(f, f.Body.W-matrixWidth-1, max(3, f.Body.H/3))
}

// split draws both.
func (p *Service) split() []string {
	t, w := p.Desk.Theme, p.Frame.Body.W
	main, edge, side := p.rects()
	left, right := p.matrixLines(main.W, main.H), p.read(side.W, side.H)
	if edge.H == 1 || edge.W > 1 {
		out := append(left, widget.Rule(t, w, widget.Piece{Text: "why", Look: t.Title}))
		return append(out, right...)
	}
	return draw.Beside(main.H, "", draw.Block{W: main.W, Lines: left}, draw.Block{W: 1, Lines: widget.Edge(t, edge.H)}, draw.Block{W: side.W, Lines: right})
}

// matrixWidth holds the longest name of a resin family after its answer.
const matrixWidth = 42
