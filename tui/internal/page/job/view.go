package job

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

func spaced(key string) string { return strings.ReplaceAll(key, "_", " ") }

func (p *Job) columns() []widget.Column[row] {
	t := p.Desk.Theme
	return []widget.Column[row]{
		{Title: "part", Width: 13, Grow: 1, Cell: func(x row) string { return x.name }},
		{Title: "form", Width: 18, Grow: 1, Drop: 3, Cell: func(x row) string { return x.form }},
		{Title: "thickness", Width: 10, Right: true, Drop: 1, Cell: func(x row) string { return x.thickness }},
		{Title: "governs", Width: 17, Drop: 2, Cell: func(x row) string { return x.governs }},
		{Title: "asks", Width: 11, Right: true, Drop: 5, Cell: func(x row) string { return x.asks }},
		{Title: "bears", Width: 11, Right: true, Drop: 4, Cell: func(x row) string { return x.bears }},
		{Title: "of limit", Width: 8, Right: true, Cell: func(x row) string { return x.limit }},
		{Title: "verdict", Width: 10, Cell: func(x row) string {
			if !x.judged {
				return "–"
			}
			if x.others && x.verdict == rules.Clear {
				return "by others"
			}
			return x.verdict.String()
		}, Look: func(x row) draw.Style {
			switch {
			case !x.judged, x.others && x.verdict == rules.Clear:
				return t.Dim
			case x.verdict == rules.Clear:
				return t.Good
			}
			return page.SeverityStyle(t, x.verdict)
		}},
	}
}

// beside draws what stands beside the table: the shell from the side, or where there is
// room for all columns too what joints tie, in their order.
func (p *Job) beside(j *laminate.Job) []string {
	w, h := p.picture(), p.tall()
	list := elevation(j, w, h)
	if list == nil && w >= roomy {
		list = chain(j, w, h)
	}
	return list
}

// roomy is a picture on a page that has room for all columns too.
const roomy = 36

// picture is how many cells the elevation may take beside the table.
func (p *Job) picture() int {
	switch w := p.Frame.Body.W; {
	case w >= 120:
		return roomy
	case w >= 78:
		return 28
	}
	return 0
}

// enough is how many lines explain what is selected where rows wait for room: what
// governs, and two findings to their end.
const enough = 5

// pane is how many lines explain what is selected: what the table leaves, beside a picture
// at most a quarter of the body, which the picture takes too. It is the same for every
// row: nothing moves while one looks through them.
func (p *Job) pane() int {
	h := p.Frame.Body.H
	quarter := max(3, h/4)
	left := h - 2 - max(2, p.table.Len()+1)
	if p.drawn {
		left = min(left, quarter)
	}
	return max(left, min(quarter, enough))
}

func (p *Job) tall() int { return max(2, p.Frame.Body.H-2-p.pane()) }

// Lines draws the page.
func (p *Job) Lines() []string {
	w, h, t := p.Frame.Body.W, p.Frame.Body.H, p.Desk.Theme
	if o := p.Over(); o != nil && o.Whole() {
		return o.Lines()
	}
	r := p.Desk.Doc.JobReport()
	if r == nil {
		return []string{"", " " + p.isJob()}
	}
	if o := p.Over(); o != nil && !p.carrying() {
		return append([]string{widget.Rule(t, w, widget.Piece{Text: o.Title(), Look: t.Title})}, o.Lines()...)
	}
	left := p.picture()
	verdict := t.Good
	if r.Verdict > rules.Clear {
		verdict = page.SeverityStyle(t, r.Verdict)
	}
	out := []string{" " + draw.Cut(draw.Clean(r.Job.Title), w/2) + "  " + verdict.Render(r.Verdict.String())}
	picture := p.beside(r.Job)
	if picture == nil {
		left = 0
	}
	rows := p.table.View(w-left, p.tall())
	for i := range p.tall() {
		line := ""
		if left > 0 {
			if i < len(picture) {
				line = draw.Left(t.Dim.Render(picture[i]), left)
			} else {
				line = draw.Spaces(left)
			}
		}
		if i < len(rows) {
			line += rows[i]
		}
		out = append(out, line)
	}
	out = append(out, widget.Rule(t, w, p.title(r)...))
	return append(out, p.about(r, w, h-len(out))...)
}

// title heads what is said of the row: what it is, and how much was found of it.
func (p *Job) title(r *rules.JobReport) []widget.Piece {
	pieces := []widget.Piece{{Text: p.heading(), Look: p.Desk.Theme.Title}}
	x, ok := p.table.Selected()
	if found := p.found(r, x); ok && len(found) > 0 {
		pieces = append(append(pieces, widget.Piece{Text: "  "}), page.TallyPieces(p.Desk.Theme, &rules.Report{Findings: found})...)
	}
	return pieces
}

// heading says what is selected: its name, and what it is.
func (p *Job) heading() string {
	x, ok := p.table.Selected()
	switch {
	case !ok:
		return "no part"
	case p.carrying():
		return p.Over().Title()
	}
	text := x.name + ": " + x.form
	if x.size != "" {
		text += ", " + x.size
	}
	return text
}
