package layup

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// What keeps its lines where there is little room.
const (
	leastTake    = 2 // fabric, resin mix
	leastWarning = 3 // the cautions that come first
	leastAhead   = 5 // lines left over from which on each row to come has one of its own
)

// Lines draws the page.
func (p *Page) Lines() []string {
	w, h := p.Frame.Body.W, p.Frame.Body.H
	if p.Frame.Form == draw.TooSmall || w < 1 || h < 1 {
		return nil
	}
	t := p.Desk.Theme
	if p.Frame.Form == draw.Reduced && p.Over() == nil && p.records.NoPlies() == "" && p.instead(w) == nil {
		return draw.FitLines(p.reduced(w, max(1, h-p.Desk.Notice.Covers(w))), w, h)
	}
	lines := p.above(w)
	if o := p.Over(); o != nil {
		lines = append(lines, widget.Rule(t, w, widget.Piece{Text: o.Title(), Look: t.Title}))
		return draw.FitLines(append(lines, o.Lines()...), w, h)
	}
	if p.records.NoPlies() != "" || p.instead(w) != nil {
		return draw.FitLines(lines, w, h)
	}
	// A notice of several rows stands over none of what is measured and entered.
	tall := h
	h = max(1, h-p.Desk.Notice.Covers(w))
	foot := []string{p.air(w), p.goes(w)}
	stop, next, take := p.stopLines(w), p.nextLines(w), p.take(w)
	room := h - len(lines) - len(foot) - len(stop)
	// What can hurt comes first: all of it in a line each, and the worst whole.
	// Then what the ply takes, then what comes.
	hurts := p.wholeWarnings(w)
	if room-len(next)-leastTake < leastWarning {
		next = nil
	}
	room -= len(next)
	least := min(leastTake, max(0, room-leastWarning))
	take = take[:max(0, min(len(take), max(least, room-hurts), room))]
	above, below := lines, slices.Concat(take, stop)
	lines = slices.Concat(above, next, below)
	lines = append(lines, p.warnings(w, h-len(lines)-len(foot))...)
	if free := h - len(lines) - len(foot); free >= leastAhead {
		// What comes has its own lines, so the one line of it need not stand above.
		lines = slices.Concat(above, below)
		lines = append(lines, p.warnings(w, h-len(lines)-len(foot))...)
		lines = append(lines, p.ahead(w, h-len(lines)-len(foot))...)
	}
	for len(lines) < h-len(foot) {
		lines = append(lines, "")
	}
	return draw.FitLines(append(lines[:min(len(lines), max(0, h-len(foot)))], foot...), w, tall)
}

// above is what always stands: the record, and the ply in large type.
func (p *Page) above(w int) []string {
	lines := []string{p.head(w)}
	if why := p.records.NoPlies(); why != "" {
		lines = append(lines, "")
		for _, l := range draw.Wrap(draw.Clean(why), w-2) {
			lines = append(lines, " "+l)
		}
		return lines
	}
	if other := p.instead(w); other != nil {
		return append(lines, other...)
	}
	return append(lines, p.big(w)...)
}

func (p *Page) head(w int) string {
	t := p.Desk.Theme
	line := " " + p.records.RecordLine()
	what := p.records.What()
	if what != "" {
		if p.reversed() {
			what += ", from the OUTSIDE in"
		}
		what = " " + draw.Clean(what) + " │"
	}
	if p.records.Record() == nil {
		line = what + line
		how := ": 3 opens or starts one, then Enter records each ply"
		if len(p.begun) > 0 {
			how = " is open: 3 Enter goes on with the one that was begun"
		}
		return line + t.Dim.Render(draw.Cut(how, max(0, w-draw.Width(line)-1)))
	}
	if p.records.OfAnother() != "" {
		return draw.Cut(what+line, w)
	}
	done := fmt.Sprintf(" %d of %d laid", len(p.laid()), p.total())
	if l := p.lastTick(); l != nil {
		done += fmt.Sprintf(", ply %d at %s", l.Ply, l.At.Format("15:04"))
	}
	return draw.Cut(what+done+" │"+line, w)
}

// big is the ply in letters as large as there is room for: its number and its
// material, which is what one sees from two meters; under them what it is.
func (p *Page) big(w int) []string {
	if p.records.RowOf(p.ply()) < 0 {
		return nil
	}
	if p.Frame.Form == draw.Reduced { // what is asked stands whole, with its answers
		return append(p.letters(w, 1), p.what(w))
	}
	// A third of the body at most, and always room for what is said below.
	tall := max(3, min(p.Frame.Body.H/3, p.Frame.Body.H-10))
	if f, ok := p.Over().(*page.Form); ok && f.Foot > 0 { // what is asked stands whole, with its cautions
		tall = 3
	}
	return append(append(p.letters(w, tall), p.what(w)), p.of(w)...)
}

// letters are number and material of the ply in letters of up to tall lines, of one
// line where they have no room.
func (p *Page) letters(w, tall int) []string {
	t, n := p.Desk.Theme, p.ply()
	ply := &p.records.Schedule().Plies[p.records.RowOf(n)]
	const least = 4 // blanks between number and material; more where letters stand wide apart
	number, name := strconv.Itoa(n), draw.Clean(ply.Material)
	if ply.Angle.Given {
		name += " " + page.Degrees(ply.Angle.Value)
	}
	// Number and material are of one size: the larger it is, the less fits beside.
	var lines []string
	for h := tall; h >= 3 && lines == nil; h-- {
		a := widget.Letters(number, w/3, h)
		if a == nil {
			continue
		}
		wide, gap := draw.Width(a[0]), max(least, len(a))
		b := widget.Letters(name, w-wide-gap-2, h)
		if len(a) != len(b) {
			continue
		}
		for y := range a {
			lines = append(lines, " "+t.Title.Render(a[y])+draw.Spaces(gap)+t.Strong.Render(b[y]))
		}
	}
	if lines == nil {
		lines = []string{" " + t.Title.Render(number) + draw.Spaces(least) + t.Strong.Render(draw.Cut(name, w-8))}
	}
	return lines
}

// what says what to do with the ply, where it is and which gel stop comes.
func (p *Page) what(w int) string {
	t, n := p.Desk.Theme, p.ply()
	zone := p.analysis().Rows[p.records.RowOf(n)].Zone
	what, look := "LAY PLY ", t.Strong
	switch done := p.laid()[n]; {
	case p.next() == 0 && p.look == 0:
		what, look = "ALL LAID, the last ply is ", t.Good
	case done != nil:
		what, look = "LAID at "+done.At.Format("15:04")+", ply ", t.Good
	case n != p.next() && p.records.Record() != nil:
		what, look = "NOT THE NEXT ONE: ply ", t.Warning
	}
	what += strconv.Itoa(n) + " of " + strconv.Itoa(p.total())
	return draw.Ends(" "+look.Render(what)+"   "+page.ZoneStyle(t, zone).Render("zone: "+page.ZoneWord(zone)), p.comes(t, n, max(1, w-draw.Width(what)-25))+" ", w)
}

// of says what the ply is, to the end.
func (p *Page) of(w int) (lines []string) {
	for _, l := range draw.Wrap(p.plain(), w-2) {
		lines = append(lines, " "+l)
	}
	return lines
}

// nextLines are the plies that come after the one shown.
func (p *Page) nextLines(w int) []string {
	t := p.Desk.Theme
	n := p.ply()
	var parts []string
	if p.stops(n) {
		parts = append(parts, "GEL STOP")
	}
	for _, c := range p.coming(n) {
		if hold := p.holdBefore(c.from); hold != "" {
			parts = append(parts, hold)
		}
		parts = append(parts, paper.Span(c.first, c.last)+" "+draw.Clean(p.records.Schedule().Plies[c.row].Material))
		if c.stop {
			parts = append(parts, "GEL STOP")
		}
	}
	if len(parts) == 0 {
		parts = []string{"nothing: this is the last ply"}
	}
	most := 1
	if p.Frame.Form >= draw.Wide {
		most = 3
	}
	lines := page.Labeled(t, labelCells, "next", strings.Join(parts, " · "), w)
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] = draw.Cut(lines[most-1]+" …", w)
	}
	return lines
}

// ahead are the rows that come, a line each, under their heading.
func (p *Page) ahead(w, h int) []string {
	t := p.Desk.Theme
	plies, rows := p.records.Schedule().Plies, p.analysis().Rows
	n := p.ply()
	stop := " " + draw.Spaces(labelCells) + t.Mark.Render("GEL STOP: let it gel and cool down")
	var lines []string
	if p.stops(n) {
		lines = append(lines, stop)
	}
	for _, c := range p.coming(n) {
		i := c.row
		if hold := p.holdBefore(c.from); hold != "" {
			lines = append(lines, " "+draw.Spaces(labelCells)+t.Mark.Render(draw.Cut(draw.Clean(hold), max(1, w-labelCells-2))))
		}
		name := p.material(&plies[i], &rows[i])
		if k := c.last - c.first + 1; k > 1 {
			name = page.Count(k, "ply") + " of " + name
		}
		zone := page.ZoneStyle(t, rows[i].Zone).Render(draw.Left(page.ZoneWord(rows[i].Zone), labelCells))
		lines = append(lines, " "+t.Strong.Render(draw.Left(paper.Span(c.first, c.last), labelCells))+zone+draw.Cut(name, max(1, w-2*labelCells-2)))
		if c.stop {
			lines = append(lines, stop)
		}
	}
	if len(lines) == 0 {
		lines = []string{" nothing: this is the last ply"}
	}
	if len(lines) > h-1 {
		lines = append(lines[:h-2:h-2], " "+draw.Ellipsis)
	}
	return append([]string{widget.Rule(t, w, widget.Piece{Text: "next", Look: t.Title})}, lines...)
}

// stopping is what stops work, the worst first, each with what answers it.
func (p *Page) stopping() []string {
	var list []string
	if why := p.records.Foreign(); why != "" {
		list = append(list, why)
	}
	if why := p.unbonded(); why != "" {
		list = append(list, why+": abrade it; Enter asks anew")
	}
	at := p.points.before(p, p.ply())
	if why := at.said(); why != nil {
		list = append(list, strings.Join(why, "; ")+": "+at.answer())
	}
	if why := p.breaks(); why != "" {
		where := ": g shows it on the bench"
		if p.records.OnBench() != "" {
			where = ": the job page says why"
		}
		list = append(list, why+where)
	}
	if before := p.waits(); before != "" {
		list = append(list, "the waxed coat comes after "+before+": nothing bonds to wax")
	}
	if why, _ := p.measured().warnings(p.Desk.Units()); len(why) > 0 {
		list = append(list, why...)
	}
	if why := p.unjudged(); why != "" {
		where := ": j, job data"
		if p.records.Overlay() != nil {
			where = ": e on the job page states it"
		}
		list = append(list, why+where)
	}
	return list
}

// stopLines is the first of what stops work, whole: one at a time.
func (p *Page) stopLines(w int) []string {
	t := p.Desk.Theme
	list := p.stopping()
	if len(list) == 0 {
		return nil
	}
	label, text := "STOP", draw.Clean(list[0])
	if len(list) > 1 {
		label = fmt.Sprintf("STOP 1 of %d", len(list))
	}
	most := 2
	if p.Frame.Form == draw.Reduced {
		most, text = 1, marked(text, w-labelCells-2)
	}
	lines := page.Labeled(t, labelCells, "", text, w, t.Break)
	lines[0] = " " + t.Break.Render(draw.Left(label, labelCells)) + lines[0][len(" ")+len(t.Label.Render(draw.Spaces(labelCells))):]
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], draw.Cut(strings.TrimRight(lines[most-1], " ")+" … w", w))
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
		return draw.Cut(fmt.Sprintf("gel stop after ply %d, in %s", stop, page.Count(p.at(stop)-p.at(n)+1, "ply")), w)
	}
	return t.Dim.Render(draw.Cut("no more gel stops", w))
}

const labelCells = 12

// take says what the ply takes.
func (p *Page) take(w int) []string {
	t, u := p.Desk.Theme, p.Desk.Units()
	n := p.ply()
	a := p.takes(n)
	if a.Missing != "" {
		return page.Labeled(t, labelCells, "material", "cannot be determined: "+a.Missing, w, t.Incomplete)
	}
	var lines []string
	if a.Fabric > 0 {
		lines = page.Labeled(t, labelCells, "material", weight(a.Fabric, u)+", net, on "+u.Figure(a.Area, quantity.Surface), w)
	}
	lines = append(lines, page.Labeled(t, labelCells, "resin mix", p.mix(n, &a), w)...)
	return append(lines, page.Labeled(t, labelCells, "area", u.Figure(a.Area, quantity.Surface)+" = "+a.How, w)...)
}

// mix is the resin mix of a ply that takes a.
func (p *Page) mix(n int, a *laid.Ply) string {
	u := p.Desk.Units()
	mix := weight(a.Mix, u) + " of resin"
	if a.Filler > 0 {
		mix = weight(a.Mix, u) + ": " + weight(a.Resin(), u) + " of resin and " + weight(a.Filler, u) + " of filler"
	}
	if pots := takeoff.Pots(p.analysis().Rows[a.Row].Material, a.Mix, p.Desk.Doc.Stock()); pots > 0 {
		mix += "; with waste " + page.Count(pots, "pot") + " of " + weight(p.Desk.Doc.Stock().Takeoff.Batch.SI(), u)
	}
	if last, kg, ok := p.batch(n); ok && last != n {
		mix += fmt.Sprintf("; plies %d-%d together: %s, in small pots", n, last, weight(kg, u))
	}
	return mix
}

// across is how wide a ply of an overlay lies, behind its material.
func (p *Page) across(ply int) string {
	o, u := p.records.Overlay(), p.Desk.Units()
	if o == nil {
		return ""
	}
	a := p.takes(ply)
	if a.Across <= 0 {
		return ""
	}
	wide := ", " + u.Figure(a.Across, quantity.Size)
	switch o.Kind {
	case overlay.Pad:
		return wide + " across"
	case overlay.LaidInside, overlay.LaidOutside:
		return wide + " wide: half up the neck"
	default:
	}
	return wide + " wide"
}

func ofResin(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return quantity.Percent(o.Value)
}

// goes is what the next tick carries beside its time.
func (p *Page) goes(w int) string {
	t := p.Desk.Theme
	k := p.kept(p.ply())
	var parts []string
	for _, f := range [][2]string{{"", p.records.By().Who}, {"lot ", k.materialLot}, {"resin lot ", k.resinLot},
		{"initiator ", ofResin(k.catalyst)}, {"promoter ", ofResin(k.promoter)}} {
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
