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
		return "point at a veil, a resin or a build: ↑↓"
	case r.option.Suits == advice.Unsuitable:
		return r.id + " does not suit this service: its reasons stand beside it"
	case r.id == advice.NoVeil:
		return "a barrier begins with a veil: point at one"
	case r.id == advice.HeavyBuild:
		return "it has no figure of its own: build the double barrier, then lay more on the bench"
	}
	return ""
}

// build lays the barrier with what is pointed at, as one change, and asks to go
// to the bench, where it stands.
func (p *Service) build() {
	r := p.pointed()
	lib, o := p.desk.Doc.Library(), advice.Options{Units: p.desk.Units()}
	switch r.axis {
	case veils:
		o.Veil = r.id
	case resins:
		o.Resin = r.id
	case builds:
		o.Build = r.id
	case together:
	}
	ok := p.desk.Apply(edit.Edit{
		Label: "built the barrier with " + r.id, At: laminate.PlyRef(0, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) { return advice.WithBarrier(s, lib, o) },
	})
	if ok {
		p.wish = page.Back
	}
}

// candidates are whole schedules to choose from.
type candidates struct {
	list []advice.Candidate
	at   int
}

// shown is how many are numbered at once.
const shown = 9

// page is the first of those that are numbered now.
func (c *candidates) page() int { return c.at / shown * shown }

func (p *Service) propose() {
	d := p.desk.Doc
	list, err := advice.Propose(d.Now(), d.Library(), advice.Options{Units: d.Units(), Replace: true})
	if err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	p.offer = &candidates{list: list}
	p.desk.Say(page.Count(len(list), "whole schedule") + "; nothing is laid until one is taken")
}

// take lays a candidate in the place of all plies, as one change.
func (p *Service) take(i int) {
	if i < 0 || i >= len(p.offer.list) {
		p.desk.Refuse("there is no schedule of that number")
		return
	}
	c := &p.offer.list[i]
	if c.Unfinished != "" && structured(p.desk.Report().Analysis) {
		p.desk.Refuse("it has no structure, and the one there is would go: Esc, then Enter on a build lays the barrier alone")
		return
	}
	made := c.Schedule
	label := "built the whole wall"
	if len(c.Titles) > 0 {
		label += ": " + strings.Join(c.Titles, ", ")
	}
	ok := p.desk.Apply(edit.Edit{
		Label: label, At: laminate.PlyRef(0, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := s.Clone()
			n.Plies, n.Resins = made.Plies, made.Resins
			return n, nil
		},
	})
	if ok {
		p.offer = nil
		p.wish = page.Back
	}
}

func structured(a *laminate.Analysis) bool { return a.Zones[laminate.StructuralLayer].Plies > 0 }

// lines draws the candidates, and of the one pointed at the wall, what it gives
// up and what was taken for granted.
func (c *candidates) lines(p *Service, w, h int) []string {
	t, u := p.desk.Theme, p.desk.Units()
	x := &c.list[c.at]
	picture := page.Picture(t, x.Schedule, x.Report.Analysis)
	out := picture.View(t, w, 2)
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "whole schedules for this part and service", Look: t.Title}))
	out = append(out, t.Label.Render(draw.Left("   #  "+c.cells(w, "best at", "plies", "stops", "thick", "mass", "cost"), w)))
	for i := c.page(); i < len(c.list) && i < c.page()+shown; i++ {
		out = append(out, c.line(p, i, w))
	}
	body := []string{}
	part := func(label string, list []string) {
		for _, s := range list {
			for k, l := range draw.Wrap(draw.CleanText(s), max(10, w-14)) {
				if k > 0 {
					label = ""
				}
				body = append(body, " "+t.Label.Render(draw.Left(label, 11))+" "+l)
			}
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
	part("plies", []string{strings.Join(plies, ", ")})
	part("gives up", x.GivesUp)
	part("notes", x.Notes)
	part("figures", []string{"computed at typical glass contents, " + page.ZoneFigures(laminate.StructuralLayer, x.Report.Analysis.Zones[laminate.StructuralLayer], u) +
		"; a design aid: the governing code, the resin maker's data and a licensed engineer decide"})
	out = append(out, widget.Rule(t, w, page.TallyPieces(t, x.Report)...))
	out = append(out, body...)
	return out[:min(len(out), h)]
}

// cells sets the columns of a candidate; the name takes what is left over, the
// cost has a column where any is known.
func (c *candidates) cells(w int, name, plies, stops, thick, mass, cost string) string {
	rest := draw.Right(plies, 6) + draw.Right(stops, 6) + draw.Right(thick, 11) + draw.Right(mass, 13)
	for i := range c.list {
		if c.list[i].Figures.CostKnown {
			rest += draw.Right(cost, 12)
			break
		}
	}
	return draw.Left(name, max(8, w-7-draw.Width(rest))) + rest
}

func (c *candidates) line(p *Service, i, w int) string {
	t, u := p.desk.Theme, p.desk.Units()
	x := &c.list[i]
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
	s := strconv.Itoa(i-c.page()+1) + "  " + c.cells(w, draw.Clean(name), strconv.Itoa(f.Plies), strconv.Itoa(f.GelStops), u.Thickness(f.Thickness), mass, cost)
	if i == c.at {
		return t.Selected.Render(draw.Left(" "+draw.Pointer+" "+s, w))
	}
	return draw.Left("   "+s, w)
}

// split sets the matrix and the reasons beside each other, or below where the
// screen is small.
func (p *Service) split(f draw.Frame) []string {
	t := p.desk.Theme
	main, edge, side := draw.Sided(f, f.Body.W-matrixWidth-1, max(3, f.Body.H/3))
	left := p.matrixLines(main.W, main.H)
	if edge.H == 1 || edge.W > 1 {
		out := append(left, widget.Rule(t, f.Body.W, widget.Piece{Text: "why", Look: t.Title}))
		return append(out, p.reasonLines(side.W, side.H)...)
	}
	return draw.Beside(f.Body.H, "", draw.Block{W: main.W, Lines: left}, draw.Block{W: 1, Lines: widget.Edge(t, edge.H)}, draw.Block{W: side.W, Lines: p.reasonLines(side.W, side.H)})
}

// matrixWidth holds the longest name of a resin family after its answer.
const matrixWidth = 42
