package layout

import (
	"strings"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// Columns in mm.
const (
	writeWide  = 17.0 // a column to be written in
	writeLeast = 13.0
	wordMost   = 40.0 // what one long word may ask for
	noise      = 0.01 // of sums of widths
	titleMost  = 6    // lines
)

// grid is a table as it is set.
type grid struct {
	s       *setter
	t       *paper.Table
	columns []int // of the table, those that stand beside one another
	widths  []float64
	titles  [][]string
	pens    bool // something is written in
	beneath bool // something stands beneath rows, or across them
}

func (s *setter) table(t paper.Table) {
	g := &grid{s: s, t: &t}
	for i, c := range t.Columns {
		if !c.Under {
			g.columns = append(g.columns, i)
		}
		g.pens, g.beneath = g.pens || c.Write, g.beneath || c.Under
	}
	if len(g.columns) == 0 || len(t.Rows) == 0 {
		return
	}
	for i := range t.Rows {
		g.beneath = g.beneath || t.Rows[i].Band != ""
	}
	g.measure()
	for k, i := range g.columns {
		lines := s.wrap(s.clean(t.Columns[i].Title), g.widths[k]-2*pad, small, true)
		g.titles = append(g.titles, lines[:min(len(lines), titleMost)])
	}
	s.room(g.headHigh() + 12)
	g.head()
	for i := range t.Rows {
		g.row(&t.Rows[i])
	}
	s.y += 2
}

// measure shares the width out: to each column its longest word, what is left
// to those that would like more.
func (g *grid) measure() {
	n := len(g.columns)
	least, wish, titled := make([]float64, n), make([]float64, n), make([]float64, n)
	for k, i := range g.columns {
		c := &g.t.Columns[i]
		ask := func(text string, bold, title bool) {
			text = g.s.clean(text)
			whole := font.Width(text, small, bold)
			if whole <= wish[k] && whole <= least[k] {
				return
			}
			wish[k] = max(wish[k], whole)
			if c.Right && !title { // figures stay in one piece
				least[k] = max(least[k], min(whole, wordMost))
				return
			}
			for _, w := range strings.Fields(text) {
				least[k] = max(least[k], min(font.Width(w, small, bold), wordMost))
			}
		}
		ask(c.Title, true, true)
		titled[k] = wish[k]
		wish[k] = least[k] // a title may take several lines
		if c.Write {
			least[k], wish[k] = max(least[k], writeLeast), max(least[k], writeWide)
		}
		for r := range g.t.Rows {
			if row := &g.t.Rows[r]; row.Band == "" {
				ask(row.Cells[i], row.Strong, false)
			}
		}
		least[k] += 2*pad + noise
		wish[k] += 2*pad + noise
		titled[k] = max(wish[k], titled[k]+2*pad+noise)
	}
	total := func(list []float64) (sum float64) {
		for _, v := range list {
			sum += v
		}
		return sum
	}
	if total(titled) <= g.s.width {
		wish = titled // and takes one where there is room
	}
	g.widths = least
	switch floor, want := total(least), total(wish); {
	case floor > g.s.width:
		for k := range least {
			g.widths[k] *= g.s.width / floor
		}
	case want <= g.s.width:
		g.widths = wish
		if !g.pens && !g.beneath && want < g.s.width*0.75 { // a short table stays together
			return
		}
		spare := g.s.width - want
		var takers []int // columns with a pen take what is left, else the last
		for k, i := range g.columns {
			if g.t.Columns[i].Write {
				takers = append(takers, k)
			}
		}
		switch {
		case takers != nil:
		case !g.t.Columns[g.columns[n-1]].Right:
			takers = []int{n - 1}
		default: // figures at the end stay near the others
			for k := range n {
				takers = append(takers, k)
			}
		}
		for _, k := range takers {
			g.widths[k] += spare / float64(len(takers))
		}
	default:
		share := (g.s.width - floor) / (want - floor)
		for k := range least {
			g.widths[k] += (wish[k] - least[k]) * share
		}
	}
}

func (g *grid) wide() (sum float64) {
	for _, w := range g.widths {
		sum += w
	}
	return sum
}

func (g *grid) headHigh() float64 {
	most := 1
	for _, t := range g.titles {
		most = max(most, len(t))
	}
	return float64(most)*smallLine + 1.6
}

// head sets the titles, on every page anew.
func (g *grid) head() {
	s, high, x := g.s, g.headHigh(), marginLeft
	s.page().Box(x, s.y, g.wide(), high, 0, drawing.Light)
	for k, lines := range g.titles {
		for i, l := range lines {
			g.cell(x, s.y+3+float64(i)*smallLine, k, l, true)
		}
		x += g.widths[k]
	}
	s.page().Line(marginLeft, s.y, marginLeft+g.wide(), s.y, drawing.Thin)
	s.y += high
	s.page().Line(marginLeft, s.y, marginLeft+g.wide(), s.y, drawing.Thin)
}

func (g *grid) cell(x, y float64, k int, text string, bold bool) {
	a := drawing.Start
	if g.t.Columns[g.columns[k]].Right {
		x, a = x+g.widths[k]-pad, drawing.End
	} else {
		x += pad
	}
	if bold {
		g.s.page().WriteBold(x, y, text, small, a)
		return
	}
	g.s.page().Write(x, y, text, small, a)
}

// row sets a row, over several pages where one does not hold it.
func (g *grid) row(r *paper.Row) {
	s := g.s
	if r.Band != "" {
		g.band(r.Band)
		return
	}
	cells := make([][]string, len(g.columns))
	most := 1
	for k, i := range g.columns {
		if r.Cells[i] != "" {
			cells[k] = g.lines(r.Cells[i], g.widths[k]-2*pad, r.Strong)
		}
		most = max(most, len(cells[k]))
	}
	under := g.under(r)
	high := g.high(most)
	if need := high + smallLine*float64(min(len(under), 4)); s.y+need > s.bottom {
		if s.y > s.top {
			s.newPage()
			g.head()
		}
	}
	for from := 0; from < most; {
		fit := max(1, min(most-from, int((s.bottom-s.y-1.6)/smallLine)))
		g.slice(cells, from, from+fit, most <= fit, r.Strong)
		if from += fit; from < most {
			s.newPage()
			g.head()
		}
	}
	for _, l := range under {
		if s.y+smallLine > s.bottom {
			s.newPage()
			g.head()
		}
		s.page().Write(marginLeft+5, s.y+2.6, l, small, drawing.Start)
		s.y += smallLine
	}
	if under != nil {
		s.y += 0.8
	}
	s.page().Line(marginLeft, s.y, marginLeft+g.wide(), s.y, drawing.Hair)
}

func (g *grid) high(lines int) float64 {
	high := float64(lines)*smallLine + 1.6
	if g.pens {
		high = max(high, boxHigh)
	}
	return high
}

// slice sets some lines of the cells of a row.
func (g *grid) slice(cells [][]string, from, to int, whole, strong bool) {
	s, x := g.s, marginLeft
	high := float64(to-from)*smallLine + 1.6
	if whole {
		high = g.high(to - from)
	}
	if strong {
		s.page().Box(x, s.y, g.wide(), high, 0, drawing.Light)
		s.page().Line(x, s.y, x+g.wide(), s.y, drawing.Hair)
	}
	for k := range cells {
		if g.pens { // fields to write in have edges
			s.page().Line(x, s.y, x, s.y+high, drawing.Hair)
		}
		for i := from; i < min(to, len(cells[k])); i++ {
			g.cell(x, s.y+3+float64(i-from)*smallLine, k, cells[k][i], strong)
		}
		x += g.widths[k]
	}
	if g.pens {
		s.page().Line(x, s.y, x, s.y+high, drawing.Hair)
	}
	s.y += high
}

// lines are those of a cell.
func (g *grid) lines(text string, width float64, bold bool) (all []string) {
	for line := range strings.SplitSeq(text, "\n") {
		all = append(all, g.s.wrap(g.s.clean(line), width, small, bold)...)
	}
	return all
}

// under is what stands beneath a row.
func (g *grid) under(r *paper.Row) (all []string) {
	if r.Brief {
		return nil
	}
	for i, c := range g.t.Columns {
		if !c.Under || r.Cells[i] == "" {
			continue
		}
		title, lines := c.Title+": ", []string{r.Cells[i]}
		if c.List {
			title, lines = "- ", strings.Split(r.Cells[i], "\n")
		} else if c.Plain {
			title = ""
		}
		for _, l := range lines {
			for k, part := range g.s.wrap(g.s.clean(title+l), g.wide()-10, small, false) {
				if k > 0 {
					part = "   " + part
				}
				all = append(all, part)
			}
		}
	}
	return all
}

// band says across the table what stops the work.
func (g *grid) band(text string) {
	s := g.s
	lines, step := s.wrap(s.clean(text), g.wide()-6, body, true), bodyLine
	if strings.Contains(text, "__") { // to be written in
		step = boxHigh
	}
	for len(lines) > 0 {
		fit := min(len(lines), int((s.bottom-s.y-2)/step))
		if fit < min(len(lines), 3) {
			s.newPage()
			g.head()
			continue
		}
		high := step*float64(fit) + 2
		s.page().Box(marginLeft, s.y, g.wide(), high, drawing.Bold, drawing.Light)
		for i, l := range lines[:fit] {
			s.page().WriteBold(marginLeft+3, s.y+4.2+(step-bodyLine)*0.7+step*float64(i), l, body, drawing.Start)
		}
		s.y += high
		lines = lines[fit:]
	}
}
