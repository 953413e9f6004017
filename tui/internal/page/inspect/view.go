package inspect

import (
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Heights and widths of the page's parts.
const (
	headLines   = 2
	panelLow    = 8 // with its rule
	panelLeast  = 6
	columnCells = 44
)

// panelHeight is how many lines stand under the table, with their rule; the work
// at hand needs more of them.
func (p *Page) panelHeight(work bool) int {
	h := p.Frame.Body.H
	panel := panelLow
	switch p.Frame.Form {
	case draw.Reduced:
		panel = panelLeast
	case draw.Wide, draw.Huge:
		return h / 2
	case draw.TooSmall, draw.Full:
		panel = max(panelLow, h*2/5)
	}
	if work {
		panel = max(panel, h/2)
	}
	return panel
}

// tableHeight is how many lines the table has.
func (p *Page) tableHeight() int {
	return max(1, p.Frame.Body.H-headLines-1-p.panelHeight(p.Over() != nil))
}

// Lines draws the page.
func (p *Page) Lines() []string {
	w, h := p.Frame.Body.W, p.Frame.Body.H
	if p.Frame.Form == draw.TooSmall || w < 1 || h < 1 {
		return nil
	}
	lines := append(p.head(w), p.middle(w, p.tableHeight())...)
	lines = append(lines, p.numbers(w))
	return draw.FitLines(append(lines, p.panel(w, h-len(lines))...), w, h)
}

// middle is the table, on wide screens with figures beside it.
func (p *Page) middle(w, h int) []string {
	t := p.Desk.Theme
	if p.Frame.Form != draw.Wide && p.Frame.Form != draw.Huge {
		return p.table.View(w, h)
	}
	side := draw.Block{W: columnCells, Lines: p.figures(columnCells)}
	list := draw.Block{W: w - columnCells - 1, Lines: p.table.View(w-columnCells-1, h)}
	return draw.Beside(h, t.Rule.Render("│"), list, side)
}

// numbers is the line of what digits do. Where something fails the one that says what
// becomes of it stands first.
func (p *Page) numbers(w int) string {
	if p.Over() != nil { // whose digits are others
		return ""
	}
	t := p.Desk.Theme
	words := [...]string{"readings", "defect", "sign", "entries", "specification", "record", "scatter", "disposition"}
	order := []int{1, 2, 3, 4, 5, 6, 7, 8}
	if p.records.Record() != nil && slices.ContainsFunc(p.rows, func(r row) bool { return !r.note && r.Verdict == acceptance.Fails }) {
		order = []int{8, 1, 2, 3, 4, 5, 6, 7}
	}
	var l draw.Line
	l.Gap(1)
	for _, n := range order {
		word := words[n-1]
		if l.Width()+len(word)+3 > w {
			break
		}
		l.Add(t.Key.Render(strconv.Itoa(n))).Gap(1).Add(word).Gap(2)
	}
	return l.Fit(w)
}

// panel is the task at hand, else the whole of the line pointed at.
func (p *Page) panel(w, h int) []string {
	t := p.Desk.Theme
	if h < 1 {
		return nil
	}
	if o := p.Over(); o != nil {
		return append([]string{widget.Rule(t, w, widget.Piece{Text: o.Title(), Look: t.Title})}, o.Lines()...)
	}
	r, ok := p.table.Selected()
	if !ok {
		lines := append([]string{widget.Rule(t, w)}, part(t, w, "begin", "5 takes the specification, 6 begins the record of "+p.records.It()+" or opens it; then 1 enters readings, 2 a defect, and 3 signs")...)
		if len(p.lying) > 0 {
			lines = append(lines, part(t, w, "record", "6 Enter opens "+draw.Clean(filepath.Base(p.lying[0].Path))+", "+p.found())...)
		}
		if p.Frame.Form == draw.Wide || p.Frame.Form == draw.Huge {
			return lines // what is expected stands beside the table
		}
		return append(lines, p.expectation(w)...)
	}
	if r.note {
		return append([]string{widget.Rule(t, w, widget.Piece{Text: "note", Look: t.Note})}, p.line(&r, w)...)
	}
	lines := append([]string{widget.Rule(t, w, widget.Piece{Text: verdictWord(r.Verdict), Look: verdictLook(t, r.Verdict)})}, p.line(&r, w)...)
	if g, ok := groupOf(r.Key); ok {
		lines = append(lines, p.expected(g, w)...)
	}
	return lines
}

// line draws all that a line says.
func (p *Page) line(r *row, w int) []string {
	t := p.Desk.Theme
	if r.note {
		return part(t, w, "found", r.Found)
	}
	lines := append(part(t, w, "required", r.Demand), part(t, w, "found", r.Found)...)
	if next := next(r); next != "" {
		lines = append(lines, part(t, w, "next", next)...)
	}
	if len(r.Plies) > 0 {
		there := "  (g shows them on the bench)"
		if p.records.OnBench() != "" {
			there = ""
		}
		lines = append(lines, part(t, w, "plies", paper.Numbers(r.Plies)+there)...)
	}
	return append(lines, part(t, w, "basis", r.Basis)...)
}

const labelCells = 11

func part(t *draw.Theme, w int, label, s string) []string {
	return page.Labeled(t, labelCells, label, s, w)
}

// groupOf is the part of the wall whose thickness or glass a line is about.
func groupOf(key string) (inspection.Group, bool) {
	switch key {
	case "total.thickness", "total.thickness measured", "inspection.spot_minimum", "inspection.thickness_readings":
		return inspection.WholeWall, true
	case "barrier.thickness", "barrier.thickness measured", "barrier.glass_content", "barrier.glass_content measured":
		return inspection.Barrier, true
	case "structure.thickness", "structure.thickness measured", "structure.glass_content", "structure.glass_content measured":
		return inspection.StructuralLayer, true
	}
	return 0, false
}

// predict is the spread to be expected of a part of the wall under the stated
// tolerances.
func (p *Page) predict(g inspection.Group) (inspection.Spread, error) {
	return inspection.Predict(p.records.Analysis(), g.Holds, p.tolerance)
}

// unstated is said as long as nobody stated how plies scatter.
const unstated = "7 states the ply-to-ply scatter, to show which readings are outside the expected range"

// expected says what readings of a part of the wall are to be expected.
func (p *Page) expected(g inspection.Group, w int) []string {
	t := p.Desk.Theme
	if !p.stated {
		return part(t, w, "expected", unstated)
	}
	s, err := p.predict(g)
	if err != nil {
		return part(t, w, "expected", "cannot be determined: "+err.Error())
	}
	return part(t, w, "expected", p.range95(s)+" for 95 of 100, "+p.assumed())
}

// odds is expected in one line, for the sheet on which readings are entered.
func (p *Page) odds(k inspection.Kind, g inspection.Group, w int) []string {
	t := p.Desk.Theme
	s, err := p.predict(g)
	if !p.stated || err != nil {
		return p.expected(g, w)[:1]
	}
	if k == inspection.WallThickness {
		s.GlassContent = inspection.Expected{}
	}
	return part(t, w, "expected", draw.Cut(p.range95(s)+": 95 of 100, independent plies, as stated", max(20, w-labelCells-2)))
}

func (p *Page) range95(s inspection.Spread) string {
	u := p.Desk.Units()
	line := u.Bare(s.Thickness.Mean, quantity.Thickness) + " ± " + u.Thickness(s.Thickness.Half)
	if s.GlassContent.Mean > 0 {
		line += ", glass " + quantity.Percent(s.GlassContent.Mean) + " ± " + quantity.Percent(s.GlassContent.Half)
	}
	return line
}

// assumed says what the range rests on.
func (p *Page) assumed() string {
	return "if plies scatter independently by ±" + quantity.Percent(p.tolerance.ArealMass) + " of areal mass, ±" + strings.TrimSuffix(quantity.Percent(p.tolerance.ResinContent), " %") + " points of resin (as stated)"
}

// expectation lists the three parts of the wall.
func (p *Page) expectation(w int) []string {
	t := p.Desk.Theme
	if !p.stated {
		return p.expected(inspection.WholeWall, w)
	}
	var lines []string
	for _, g := range [...]inspection.Group{inspection.Barrier, inspection.StructuralLayer, inspection.WholeWall} {
		s, err := p.predict(g)
		if err != nil {
			lines = append(lines, part(t, w, groupWord(g), "cannot be determined: "+err.Error())...)
			continue
		}
		lines = append(lines, part(t, w, groupWord(g), p.range95(s))...)
	}
	return append(lines, part(t, w, "", "95 of 100, "+p.assumed())...)
}

func groupWord(g inspection.Group) string {
	switch g {
	case inspection.WholeWall:
		return "whole wall"
	case inspection.Barrier:
		return "barrier"
	case inspection.StructuralLayer:
		return "structure"
	case inspection.InnerSurface:
		return "inner surface"
	case inspection.InteriorLayer:
		return "interior layer"
	case inspection.OuterSurface:
	}
	return "outer surface"
}

// figures is the column of wide screens: what was read, and what is expected.
func (p *Page) figures(w int) []string {
	t := p.Desk.Theme
	lines := []string{" " + t.Label.Render("read so far")}
	none := true
	for _, k := range [...]inspection.Kind{inspection.WallThickness, inspection.Barcol, inspection.IgnitionLoss, inspection.Acetone, inspection.ResistanceToGround} {
		for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
			list := p.readings(k, g)
			if len(list) == 0 {
				continue
			}
			none = false
			lines = append(lines, " "+t.Strong.Render(draw.Cut(kindWord(k, g), w-2)))
			for _, s := range draw.Wrap(p.statistics(k, list), w-4) {
				lines = append(lines, "   "+s)
			}
		}
	}
	if none {
		lines = append(lines, " nothing")
	}
	lines = append(lines, "", " "+t.Label.Render("expected"))
	if !p.stated {
		for _, s := range draw.Wrap(unstated, w-2) {
			lines = append(lines, " "+s)
		}
		return lines
	}
	return append(lines, p.expectation(w)...)
}
