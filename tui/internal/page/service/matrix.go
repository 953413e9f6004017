package service

import (
	"strconv"
	"strings"

	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// axis is a section of the matrix.
type axis uint8

const (
	veils axis = iota
	resins
	builds
	together // what holds for all of it
)

var axisNames = [...]string{"veils", "resins", "barrier builds", "all together"}

// row is a row of the matrix: an option, or a list of what holds for all.
type row struct {
	axis    axis
	id      string
	option  *advice.Option  // nil in the last section
	reasons []advice.Reason // of the row
}

// place is a row by its name, so that it stays pointed at when answers change.
type place struct {
	axis axis
	id   string
}

const (
	conflictsRow = "exclude each other"
	notesRow     = "for every choice"
	ratingsRow   = "ratings of the shop book"
)

func rowsOf(a *advice.Advice) []row {
	var rows []row
	for x, list := range [][]advice.Option{a.Veils, a.Resins, a.Builds} {
		for i := range list {
			rows = append(rows, row{axis(x), list[i].ID, &list[i], list[i].Reasons})
		}
	}
	if len(a.Conflicts) > 0 {
		rows = append(rows, row{together, conflictsRow, nil, a.Conflicts})
	}
	if len(a.Ratings) > 0 {
		var list []advice.Reason
		for i := range a.Ratings {
			r := &a.Ratings[i]
			list = append(list, advice.Reason{
				Text:  r.Grade + ": " + r.Family.String() + ", " + r.Build + ", up to " + r.MaxTemperature.Text(),
				Basis: r.Source + " " + r.Date + ", " + r.Book + " line " + strconv.Itoa(r.Line),
			})
		}
		rows = append(rows, row{together, ratingsRow, nil, list})
	}
	if len(a.Notes) > 0 {
		rows = append(rows, row{together, notesRow, nil, a.Notes})
	}
	return rows
}

// index is where the row pointed at stands, -1 where there is none.
func (p *Service) index() int {
	for i := range p.advised.rows {
		if r := &p.advised.rows[i]; r.axis == p.at.axis && r.id == p.at.id {
			return i
		}
	}
	return -1
}

// stay points at a row that is there: the same, else the first of its
// section that suits best.
func (p *Service) stay() {
	if p.index() >= 0 {
		return
	}
	best := -1
	for i := range p.advised.rows {
		r := &p.advised.rows[i]
		if r.axis != p.at.axis {
			continue
		}
		if best < 0 || r.option != nil && r.option.Suits < p.advised.rows[best].option.Suits {
			best = i
		}
	}
	p.point(max(0, best))
}

func (p *Service) point(i int) {
	if i >= 0 && i < len(p.advised.rows) {
		p.at = place{p.advised.rows[i].axis, p.advised.rows[i].id}
		p.reasons.GotoTop()
	}
}

func (p *Service) move(by int) {
	p.point(max(0, min(len(p.advised.rows)-1, p.index()+by)))
}

// section points at the best of another section.
func (p *Service) section(by int) {
	n := int(together) + 1
	for range n {
		p.at = place{axis: axis((int(p.at.axis) + by + n) % n)}
		for i := range p.advised.rows {
			if p.advised.rows[i].axis == p.at.axis {
				p.stay()
				p.reasons.GotoTop()
				return
			}
		}
	}
}

// pointed is the row pointed at, nil for none.
func (p *Service) pointed() *row {
	if i := p.index(); i >= 0 {
		return &p.advised.rows[i]
	}
	return nil
}

// mark is the one-cell sign of an answer, the same as of a finding where they
// say the same.
func mark(s advice.Suits) string {
	switch s {
	case advice.Usual:
		return "*"
	case advice.Suitable:
		return "+"
	case advice.Conditional:
		return "~"
	case advice.Unsuitable:
		return "!"
	case advice.Unknown:
	}
	return "?"
}

func look(t *draw.Theme, s advice.Suits) draw.Style {
	switch s {
	case advice.Usual, advice.Suitable:
		return t.Good
	case advice.Conditional:
		return t.Warning
	case advice.Unsuitable:
		return t.Break
	case advice.Unknown:
	}
	return t.Incomplete
}

// matrix draws all rows; focus is the line of the one pointed at.
func (p *Service) matrix(w int) (lines []string, focus int) {
	t := p.Desk.Theme
	last := axis(255)
	for i := range p.advised.rows {
		r := &p.advised.rows[i]
		if r.axis != last {
			lines = append(lines, " "+t.Title.Render(draw.Cut(axisNames[r.axis], w-1)))
			last = r.axis
		}
		here := i == p.index()
		if here {
			focus = len(lines)
		}
		lines = append(lines, rowLine(t, r, here, w))
	}
	return lines, focus
}

// scroll keeps the row pointed at in sight, the heading over it too.
func (p *Service) scroll(h int) {
	lines, focus := p.matrix(matrixWidth)
	p.top = max(p.top, focus-h+1)
	p.top = max(0, min(p.top, focus-1, len(lines)-h))
}

// matrixLines draws the rows in sight.
func (p *Service) matrixLines(w, h int) []string {
	t := p.Desk.Theme
	lines, focus := p.matrix(w)
	top := max(0, min(p.top, len(lines)-1))
	out := draw.FitLines(lines[top:min(len(lines), top+h)], w, h)
	if left := len(lines) - top - h; left > 0 && focus < top+h-1 && h > 2 {
		out[h-1] = draw.Left(t.Dim.Render(draw.Cut(" … "+strconv.Itoa(left+1)+" more lines: ↓, or → to the next list", w)), w)
	}
	return out
}

func rowLine(t *draw.Theme, r *row, here bool, w int) string {
	sign, word, style := " ", "", t.Note
	switch {
	case r.option != nil:
		sign, word, style = mark(r.option.Suits), r.option.Suits.String(), look(t, r.option.Suits)
	case r.id == conflictsRow:
		sign, word, style = "~", strconv.Itoa(len(r.reasons)), t.Warning
	default:
		word = strconv.Itoa(len(r.reasons))
	}
	answer := sign + " " + draw.Left(word, 11)
	if here {
		return t.Selected.Render(draw.Left(draw.Pointer+answer+" "+draw.Clean(r.id), w))
	}
	var l draw.Line
	return l.Gap(1).Add(style.Render(answer)).Gap(1).Add(draw.Clean(r.id)).Fit(w)
}

// reasonLines is why, with the basis of each.
func (p *Service) reasonLines(w int) []string {
	t := p.Desk.Theme
	r := p.pointed()
	if r == nil || w < 4 {
		return nil
	}
	head := t.Title.Render(draw.Cut(draw.Clean(r.id), w-2))
	if r.option != nil {
		head += " " + look(t, r.option.Suits).Render(r.option.Suits.String())
	}
	body := []string{" " + head}
	for _, x := range r.reasons {
		for i, s := range draw.Wrap(draw.CleanText(x.Text), w-3) {
			lead := "   "
			if i == 0 {
				lead = " · "
			}
			body = append(body, lead+s)
		}
		for _, s := range draw.Wrap("basis: "+draw.CleanText(x.Basis), w-3) {
			body = append(body, "   "+t.Dim.Render(s))
		}
	}
	return body
}

// read draws the reasons in sight, and says where there are more.
func (p *Service) read(w, h int) []string {
	t := p.Desk.Theme
	out := draw.FitLines(strings.Split(p.reasons.View(), "\n"), w, h)
	if left := p.reasons.TotalLineCount() - p.reasons.YOffset - h; left > 0 && h > 2 {
		out[h-1] = draw.Left(t.Dim.Render(draw.Cut(" … "+strconv.Itoa(left+1)+" more lines: PgDn", w)), w)
	}
	return out
}

// factLines is how many lines the facts take, and the rule under them one more.
const factLines = 3

// Lines draws the page.
func (p *Service) Lines() []string {
	if o := p.Over(); o != nil && o.Whole() {
		return o.Lines()
	}
	w := p.Frame.Body.W
	out := append(p.facts(w), widget.Rule(p.Desk.Theme, w, p.headline()...))
	return append(out, p.split()...)
}

// headline says in one line what can be had.
func (p *Service) headline() []widget.Piece {
	t, a := p.Desk.Theme, p.advised.advice
	if nothingStated(&p.Desk.Doc.Now().Service) {
		return []widget.Piece{{Text: "nothing is stated of the service yet: digits state it", Look: t.Incomplete}}
	}
	worst := a.Worst()
	said := map[advice.Suits]string{
		advice.Usual: "the usual barrier is suitable", advice.Suitable: "a suitable barrier exists", advice.Conditional: "the best barrier is conditional",
		advice.Unknown: "facts are missing", advice.Unsuitable: "nothing is suitable",
	}[worst]
	pieces := []widget.Piece{{Text: said, Look: look(t, worst)}}
	switch n := len(a.Conflicts); n {
	case 0:
	case 1:
		pieces = append(pieces, widget.Piece{Text: " · 1 conflict of requirements", Look: t.Warning})
	default:
		pieces = append(pieces, widget.Piece{Text: " · " + strconv.Itoa(n) + " conflicts of requirements", Look: t.Warning})
	}
	return pieces
}
