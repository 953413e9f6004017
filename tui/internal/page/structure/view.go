package structure

import (
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

func (p *Structure) columns() []widget.Column[*wall.Criterion] {
	t := p.Desk.Theme
	type c = *wall.Criterion
	look := func(x c) draw.Style { return page.AnswerStyle(t, x) }
	row := func(x c) paper.Criterion { return paper.CriterionOf(x, p.Desk.Units()) }
	return []widget.Column[c]{
		{Title: "criterion", Width: 18, Cell: func(x c) string { return row(x).Name }},
		{Title: "case", Width: 9, Drop: 4, Cell: func(x c) string { return row(x).Case }},
		{Title: "of limit", Width: 11, Right: true, Cell: func(x c) string { return row(x).Utilization }},
		{Title: "", Width: 10, Grow: 1, Drop: 1, Fill: func(x c, cells int) string { return gauge(page.Used(t, x).Ratio, cells) }, Look: func(x c) draw.Style {
			if x.Answer == wall.Fails {
				return t.GaugeOver
			}
			return t.Gauge
		}},
		{Title: "answer", Width: 14, Cell: func(x c) string { return page.Used(t, x).Word }, Look: look},
		{Title: "required", Width: 11, Right: true, Drop: 3, Cell: func(x c) string { return row(x).Required }},
		{Title: "allowable", Width: 11, Right: true, Drop: 2, Cell: func(x c) string { return row(x).Allowable }},
		{Title: "role", Width: 7, Cell: func(x c) string { return row(x).Role }},
	}
}

// gauge is a plain gauge; what passes its limit ends in an arrow.
func gauge(ratio float64, cells int) string {
	switch {
	case math.IsNaN(ratio):
		return draw.Run("·", cells)
	case ratio > 1:
		return draw.Run("█", cells-1) + "▸"
	}
	n := int(ratio*float64(cells) + 1e-9)
	return draw.Run("█", n) + draw.Run("·", cells-n)
}

// whyMost is how many lines may explain what is pointed at, under their heading.
func whyMost(h int) int {
	if h < 18 {
		return 1
	}
	return max(3, h/3)
}

// heights divides what head, why and foot leave between table and chart.
func (p *Structure) heights(r *wall.Result) (table, chart int) {
	w, h := p.Frame.Body.W, p.Frame.Body.H
	left := h - 1 - len(p.foot(w)) - len(p.why(w))
	table = min(len(r.Criteria)+1, max(3, left-4))
	return table, left - table
}

// Lines draws the page.
func (p *Structure) Lines() []string {
	w, h := p.Frame.Body.W, p.Frame.Body.H
	if o := p.Over(); o != nil && o.Whole() {
		return o.Lines()
	}
	r := p.result()
	if r == nil {
		return []string{"", " the structure is not evaluated"}
	}
	table, chart := p.heights(r)
	foot := p.foot(w)
	out := []string{" " + p.headline(r, w-1)}
	out = append(out, p.table.View(w, table)...)
	out = append(out, p.why(w)...)
	if chart >= 2 {
		out = append(out, widget.Rule(p.Desk.Theme, w, widget.Piece{Text: p.drawn.title, Look: p.Desk.Theme.Title}))
		strains := strings.Split(p.strains.View(), "\n")
		out = append(out, draw.FitLines(strains, w, min(chart-1, max(1, p.strains.TotalLineCount())))...)
	}
	out = append(out, p.loads(r, w, h-len(foot)-len(out))...)
	for len(out) < h-len(foot) {
		out = append(out, "")
	}
	return append(out[:max(0, h-len(foot))], foot...)
}

// loads are the loads and where the moduli come from, in what is left of a tall
// screen; w shows them in any case.
func (p *Structure) loads(r *wall.Result, w, h int) []string {
	t := p.Desk.Theme
	if h < 4 || r.Problem != "" {
		return nil
	}
	sheet := paper.Sheet{}
	if f := paper.Loads(r, p.Desk.Units()); f != nil {
		sheet = append(sheet, f)
	}
	if r.Counted > 0 {
		sheet = append(sheet, paper.Moduli(p.schedule(), r, p.Desk.Units()))
	}
	if len(sheet) == 0 {
		return nil
	}
	lines := written(sheet, w)
	if len(lines) > h-2 {
		lines = append(lines[:h-3:h-3], "   "+draw.Ellipsis+"  "+t.Key.Render("w")+" all of it")
	}
	return append([]string{widget.Rule(t, w, widget.Piece{Text: "loads and moduli", Look: t.Title})}, lines...)
}

// fill gives the table the criteria of a result, once.
func (p *Structure) fill(r *wall.Result) {
	if p.of == r {
		return
	}
	p.of = r
	rows := make([]*wall.Criterion, len(r.Criteria))
	for i := range r.Criteria {
		rows[i] = &r.Criteria[i]
	}
	p.table.SetRows(rows)
}

// headline says in one line how the wall stands.
func (p *Structure) headline(r *wall.Result, w int) string {
	t, u := p.Desk.Theme, p.Desk.Units()
	if r.Problem != "" {
		return t.Incomplete.Render(draw.Cut(draw.Clean(r.Problem), w))
	}
	s := "counts " + u.Thickness(r.Thickness)
	if r.Membrane.Ex > 0 {
		s += ", modulus axial " + u.Figure(r.Membrane.Ex, quantity.Stress) + ", hoop " + u.Figure(r.Membrane.Ey, quantity.Stress)
	}
	if p.need != nil && p.need.err == nil && p.need.found.Repeats > 0 {
		s = "with " + page.Count(p.need.found.Repeats, "repeat") + " of " + p.need.unit.String() + " it " + s
		return t.Changed.Render(draw.Cut(s, w))
	}
	return t.Strong.Render(draw.Cut(s, w))
}

// why is the answer to what is needed while it is open, else why the selected
// criterion stands as it does.
func (p *Structure) why(w int) []string {
	t := p.Desk.Theme
	title, lines := "", []string(nil)
	if o := p.Over(); o != nil && p.need != nil {
		title, lines = o.Title(), draw.Wrap(draw.Clean(p.need.words()), max(10, w-3))
	} else if c, ok := p.table.Selected(); ok {
		title, lines = c.Title(), draw.Wrap(p.said(c), max(10, w-3))
	}
	out := []string{widget.Rule(t, w, widget.Piece{Text: title, Look: t.Title})}
	most, least := whyMost(p.Frame.Body.H), min(3, whyMost(p.Frame.Body.H))
	if len(lines) > most {
		lines = append(lines[:most-1], draw.Cut(lines[most-1]+" "+draw.Ellipsis, max(1, w-9))+" "+t.Key.Render("w")+" all")
	}
	for len(lines) < least {
		lines = append(lines, "")
	}
	for _, l := range lines {
		out = append(out, "   "+l)
	}
	return out
}

func (p *Structure) said(c *wall.Criterion) string {
	var parts []string
	if c.Judged() {
		parts = append(parts, c.Compared(p.Desk.Units()))
	}
	if c.Answer == wall.NotApplicable {
		parts = append(parts, wall.NotApplicable.String())
	}
	if c.Reason != "" {
		parts = append(parts, draw.Clean(c.Reason))
	}
	if s := p.result().Stiffeners; c.Name == wall.ExternalPressure && s.Known {
		for _, f := range paper.Rings(s, p.Desk.Units()) {
			parts = append(parts, f.Name+": "+f.Value)
		}
	}
	return strings.Join(append(parts, "basis: "+draw.Clean(c.Basis)), " · ")
}

// foot offers the units, and says what the page is not.
func (p *Structure) foot(w int) []string {
	t := p.Desk.Theme
	var l draw.Line
	l.Gap(1).Add(t.Label.Render("what is needed of")).Gap(1)
	for i, u := range repeat.Units.All() {
		s := strconv.Itoa(i + 1)
		if p.need != nil && p.need.unit == u {
			s = draw.Pointer + s
		}
		l.Gap(1).Add(t.Key.Render(s)).Gap(1).Add(u.String())
	}
	aid := " design aid: governing code, the shop's own tests, a licensed engineer decide"
	not := ""
	if r := p.result(); r != nil && len(r.NotChecked) > 0 {
		not = "not checked:"
		for i, n := range r.NotChecked {
			if i > 0 {
				not += ","
			}
			not += " " + n
		}
	}
	out := []string{draw.Cut(l.String(), w)}
	lines := draw.Wrap(draw.Clean(not), max(10, w-3))
	most := 2
	if p.Frame.Body.H < 18 {
		most = 1
	}
	for i := 0; i < len(lines) && i < most; i++ {
		line := lines[i]
		if i == most-1 && len(lines) > most {
			line += " " + draw.Ellipsis
		}
		out = append(out, t.Dim.Render(" "+line))
	}
	for _, c := range safety.ForPart(p.Desk.Doc.Now()) {
		out = append(out, " "+t.Warning.Render(draw.Cut("Safety: "+c.Label+": "+c.Line, w-2)))
	}
	return append(out, t.Dim.Render(draw.Cut(aid, w)))
}

// charted is what the chart was made of.
type charted struct {
	of    *wall.Result
	need  *needed
	w     int
	title string
}

// chart fills the chart with the strain of every ply that counts, from the
// process side outward: along the fiber and across it, to one scale.
func (p *Structure) chart(r *wall.Result, w, h int) {
	p.strains.Width, p.strains.Height = w, max(0, h)
	if p.drawn.of == r && p.drawn.need == p.need && p.drawn.w == w {
		p.strains.SetYOffset(p.strains.YOffset)
		return
	}
	title := "strain of each ply in %: 1 along, 2 across the fiber"
	if r.PlyCase != "" {
		title += ", " + r.PlyCase
	}
	p.drawn = charted{r, p.need, w, title}
	most, plies := 0.0, r.Plies()
	for i := range plies {
		most = max(most, math.Abs(plies[i].Strain1), math.Abs(plies[i].Strain2))
	}
	var lines []string
	switch {
	case r.PlyCase == "" || len(plies) == 0:
		lines = []string{"   no strain to show: no load, or the moduli are not known"}
	case most == 0:
		lines = []string{"   no strain under this case"}
	default:
		half := max(4, (w-2*strainCells-numberCells-nameCells-2)/2)
		for i := range plies {
			lines = append(lines, p.strainLine(&plies[i], most, half))
		}
	}
	p.strains.SetContent(strings.Join(lines, "\n"))
	p.strains.SetYOffset(p.strains.YOffset)
}

// Cells of a line of the chart beside its bars.
const (
	numberCells = 6
	nameCells   = 13
	strainCells = 11
)

func (p *Structure) strainLine(s *wall.PlyStrain, most float64, half int) string {
	t := p.Desk.Theme
	num := strconv.Itoa(s.First)
	if s.Last > s.First {
		num += "-" + strconv.Itoa(s.Last)
	}
	name := ""
	if sch := p.schedule(); s.Row >= 0 && s.Row < len(sch.Plies) {
		name = draw.Clean(sch.Plies[s.Row].Material)
	}
	one := func(v float64, sign string) string {
		n := int(math.Abs(v)/most*float64(half) + 0.5)
		return t.Gauge.Render(draw.Run("█", n)) + t.Dim.Render(draw.Run("·", half-n)) + draw.Right(sign+quantity.US.Figure(v, quantity.Strain), strainCells)
	}
	return " " + draw.Left(num, numberCells) + draw.Left(name, nameCells-1) + " " + one(s.Strain1, "1 ") + " " + one(s.Strain2, "2 ")
}

func (p *Structure) schedule() *laminate.Schedule {
	s := p.Desk.Doc.Now()
	if p.need != nil && p.need.err == nil && len(p.need.found.Plies) > 0 {
		return p.need.found.Apply(s, p.Desk.Doc.Library())
	}
	return s
}
