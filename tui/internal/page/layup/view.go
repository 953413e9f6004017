package layup

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// digits are five rows of three cells, a cell two columns wide, so that a ply's
// number is read from across the room.
func digits() [10][digitRows]string {
	return [10][digitRows]string{
		{"###", "# #", "# #", "# #", "###"},
		{" # ", "## ", " # ", " # ", "###"},
		{"###", "  #", "###", "#  ", "###"},
		{"###", "  #", " ##", "  #", "###"},
		{"# #", "# #", "###", "  #", "  #"},
		{"###", "#  ", "###", "  #", "###"},
		{"###", "#  ", "###", "# #", "###"},
		{"###", "  #", "  #", " # ", " # "},
		{"###", "# #", "###", "# #", "###"},
		{"###", "# #", "###", "  #", "###"},
	}
}

const digitRows = 5

// large writes a number in blocks.
func large(n int) []string {
	font := digits()
	lines := make([]string, digitRows)
	for i, c := range strconv.Itoa(n) {
		for y := range lines {
			if i > 0 {
				lines[y] += "  "
			}
			for _, cell := range font[c-'0'][y] {
				if cell == '#' {
					lines[y] += "██"
				} else {
					lines[y] += "  "
				}
			}
		}
	}
	return lines
}

// Heights of the page's parts, in lines.
const (
	footLines    = 2 // ambient, and what a tick carries
	leastTake    = 2 // fabric, resin mix
	leastWarning = 3 // the cautions that come first
)

// Lines draws the page.
func (p *Page) Lines() []string {
	w, h := p.Frame.Body.W, p.Frame.Body.H
	if p.Frame.Form == draw.TooSmall || w < 1 || h < 1 {
		return nil
	}
	t := p.Desk.Theme
	lines := p.above(w)
	if o := p.Over(); o != nil {
		lines = append(lines, widget.Rule(t, w, widget.Piece{Text: o.Title(), Look: t.Title}))
		return draw.FitLines(append(lines, o.Lines()...), w, h)
	}
	if p.total() > 0 {
		room := h - len(lines) - footLines
		take := p.take(w)
		if room-len(take) < leastWarning {
			take = take[1:] // what it takes needs no heading, the warning needs its end
		}
		lines = append(lines, take[:min(len(take), max(leastTake, room-leastWarning))]...)
		lines = append(lines, p.warnings(w, h-len(lines)-footLines)...)
	}
	for len(lines) < h-footLines {
		lines = append(lines, "")
	}
	lines = lines[:max(0, h-footLines)]
	if p.total() > 0 {
		said, look := p.measured().line(t, p.Desk.Units())
		lines = append(lines, " "+t.Label.Render(draw.Left("ambient", labelCells))+look.Render(draw.Cut(said, w-labelCells-2)), p.goes(w))
	}
	return draw.FitLines(lines, w, h)
}

// above is what always stands: the record, and the ply in large type.
func (p *Page) above(w int) []string {
	lines := []string{p.head(w)}
	if why := p.breaks(); why != "" {
		lines = append(lines, " "+p.Desk.Theme.Break.Render(draw.Cut("✗ "+why, w-2)))
	}
	if p.total() == 0 {
		return append(lines, "", " the schedule has no ply to lay up")
	}
	return append(lines, p.big(w)...)
}

func (p *Page) head(w int) string {
	t := p.Desk.Theme
	if why := p.records.Foreign(); why != "" {
		return " " + t.Break.Render(draw.Cut("✗ "+why, w-2))
	}
	line := " " + p.records.RecordLine()
	if p.records.Record() == nil {
		return line + t.Dim.Render(draw.Cut(": 3 opens or starts one, then Enter records each ply", max(0, w-len(line)-1)))
	}
	done := fmt.Sprintf(" %d of %d laid", len(p.laid()), p.total())
	if l := p.lastTick(); l != nil {
		done += fmt.Sprintf(", ply %d at %s", l.Ply, l.At.Format("15:04"))
	}
	return draw.Cut(done+" │"+line, w)
}

// big is the ply in large type, and beside it what it is.
func (p *Page) big(w int) []string {
	t := p.Desk.Theme
	n := p.ply()
	i := p.Desk.RowOf(n)
	if i < 0 {
		return nil
	}
	ply, row := &p.Desk.Doc.Now().Plies[i], &p.analysis().Rows[i]
	number := large(n)
	wide := draw.Width(number[0]) + 4
	say := make([]string, digitRows)
	what := "LAY PLY "
	look := t.Strong
	switch done := p.laid()[n]; {
	case p.next() == 0 && p.look == 0:
		what, look = "ALL LAID, the last ply is ", t.Good
	case done != nil:
		what, look = "LAID at "+done.At.Format("15:04")+", ply ", t.Good
	case n != p.next() && p.records.Record() != nil:
		what, look = "NOT THE NEXT ONE: ply ", t.Warning
	}
	room := max(1, w-wide-1)
	say[0] = look.Render(draw.Cut(what+strconv.Itoa(n)+" of "+strconv.Itoa(p.total()), room))
	say[1] = t.Strong.Render(draw.Cut(p.material(ply, row), room))
	say[2] = draw.Cut(resinText(ply, row), room)
	say[3] = page.ZoneStyle(t, row.Zone).Render(draw.Cut("zone: "+page.ZoneWord(row.Zone), room))
	say[4] = p.comes(t, n, room)
	lines := make([]string, digitRows)
	for y := range lines {
		lines[y] = "  " + t.Title.Render(number[y]) + "  " + say[y]
	}
	return lines
}

func (p *Page) material(ply *laminate.Ply, row *laminate.RowFigures) string {
	s := draw.Clean(ply.Material)
	if row.Material != nil {
		if m := draw.Clean(page.MaterialName(row.Material)); m != s {
			s += ", " + m
		}
		s = page.Glyph(row.Material.Form) + " " + s
	}
	if ply.Angle.Given {
		s += " at " + page.Degrees(ply.Angle.Value)
	}
	return s
}

func resinText(ply *laminate.Ply, row *laminate.RowFigures) string {
	switch {
	case row.Resin == nil && ply.Resin == "":
		return "no resin stated"
	case row.Resin == nil:
		return "resin " + draw.Clean(ply.Resin)
	}
	s := "resin " + draw.Clean(row.Resin.ID) + ": " + row.Resin.Family.String()
	if row.Resin.Filler != laminate.NoFiller {
		s += " with " + row.Resin.Filler.String()
		if row.Resin.FillerContent.Given {
			s += " " + quantity.Share(row.Resin.FillerContent.Value)
		}
	}
	return s
}

// comes says which gel stop comes.
func (p *Page) comes(t *draw.Theme, n, w int) string {
	switch stop := p.stop(n); {
	case stop == n:
		return t.Mark.Render(draw.Cut("GEL STOP after this ply: let it gel and cool down", w))
	case stop > 0:
		return draw.Cut(fmt.Sprintf("gel stop after ply %d, in %s", stop, page.Count(stop-n+1, "ply")), w)
	}
	return t.Dim.Render(draw.Cut("no more gel stops", w))
}

const labelCells = 12

// take says what the ply takes.
func (p *Page) take(w int) []string {
	t, u := p.Desk.Theme, p.Desk.Units()
	n := p.ply()
	lines := []string{widget.Rule(t, w, widget.Piece{Text: "material for this ply, net", Look: t.Title})}
	a, how, missing := p.amounts(n)
	if missing != "" {
		return append(lines, page.Labeled(t, labelCells, "", "cannot be determined: "+missing, w, t.Incomplete)...)
	}
	row := func(label, s string) string {
		return " " + t.Label.Render(draw.Left(label, labelCells)) + draw.Cut(s, max(1, w-labelCells-2))
	}
	if a.fabric > 0 {
		lines = append(lines, row("material", weight(a.fabric, u)))
	}
	mix := weight(a.mix, u) + " of resin"
	if a.filler > 0 {
		mix = weight(a.mix, u) + ": " + weight(a.resin(), u) + " of resin and " + weight(a.filler, u) + " of filler"
	}
	lines = append(lines, row("resin mix", mix))
	if last, kg, ok := p.batch(n); ok && last > n {
		lines = append(lines, row("", fmt.Sprintf("plies %d-%d together: %s of this mix, in small pots", n, last, weight(kg, u))))
	}
	m2, _, _ := p.area(n)
	return append(lines, row("area", u.Figure(m2, quantity.Surface)+" = "+how))
}

// warnings are the cautions of the ply, the worst hazard first: each in one
// line, and in whole sentences as far as there is room.
func (p *Page) warnings(w, h int) []string {
	t := p.Desk.Theme
	row := &laminate.RowFigures{}
	if i := p.Desk.RowOf(p.ply()); i >= 0 {
		row = &p.analysis().Rows[i]
	}
	cautions := safety.ForPly(row)
	said := make([][]string, len(cautions))
	room := h
	for i, c := range cautions {
		said[i] = page.Labeled(t, labelCells, c.Label, c.Line, w, t.Warning)
		room -= len(said[i])
	}
	for i, c := range cautions {
		if whole := page.Labeled(t, labelCells, c.Label, c.Text, w, t.Warning); len(whole)-len(said[i]) <= room {
			room -= len(whole) - len(said[i])
			said[i] = whole
		}
	}
	lines := slices.Concat(said...)
	if len(lines) < h {
		lines = append([]string{widget.Rule(t, w, widget.Piece{Text: "safety", Look: t.Warning})}, lines...)
	}
	return lines[:max(0, min(len(lines), h))]
}

// goes is what the next tick carries beside its time.
func (p *Page) goes(w int) string {
	t := p.Desk.Theme
	k := p.kept(p.ply())
	var parts []string
	for _, f := range [][2]string{{"", p.records.By().Who}, {"lot ", k.materialLot}, {"resin lot ", k.resinLot},
		{"initiator ", percentText(k.catalyst)}, {"promoter ", percentText(k.promoter)}} {
		if f[1] != "" {
			parts = append(parts, f[0]+draw.Clean(f[1]))
		}
	}
	s := strings.Join(parts, ", ")
	if s == "" {
		s = "operator and lots not entered (2)"
	}
	return " " + t.Label.Render(draw.Left("entered", labelCells)) + draw.Cut(s, max(1, w-labelCells-2))
}
