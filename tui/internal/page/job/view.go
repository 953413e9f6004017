package job

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

func spaced(key string) string { return strings.ReplaceAll(key, "_", " ") }

func (p *Job) columns() []widget.Column[row] {
	t := p.Desk.Theme
	return []widget.Column[row]{
		{Title: "part", Width: 13, Cell: func(x row) string { return x.name }},
		{Title: "form", Width: 19, Drop: 3, Cell: func(x row) string { return x.form }},
		{Title: "thickness", Width: 11, Right: true, Drop: 4, Cell: func(x row) string { return x.thickness }},
		{Title: "has", Width: 11, Right: true, Drop: 1, Cell: func(x row) string { return x.has }},
		{Title: "asks", Width: 11, Right: true, Drop: 2, Cell: func(x row) string { return x.asks }},
		{Title: "of limit", Width: 8, Right: true, Cell: func(x row) string { return x.limit }},
		{Title: "verdict", Width: 11, Cell: func(x row) string {
			if !x.judged {
				return "–"
			}
			return x.verdict.String()
		}, Look: func(x row) draw.Style {
			switch {
			case !x.judged:
				return t.Dim
			case x.verdict == rules.Clear:
				return t.Good
			}
			return page.SeverityStyle(t, x.verdict)
		}},
	}
}

// picture is how many cells the elevation may take beside the table.
func (p *Job) picture() int {
	switch w := p.Frame.Body.W; {
	case w >= 120:
		return 38
	case w >= 78:
		return 28
	}
	return 0
}

// why is how many lines explain what is pointed at.
func (p *Job) why() int { return max(3, p.Frame.Body.H/4) }

func (p *Job) tall() int { return max(2, p.Frame.Body.H-2-p.why()) }

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
	picture := elevation(r.Job, left, p.tall())
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
	out = append(out, widget.Rule(t, w, widget.Piece{Text: p.pointed(), Look: t.Title}))
	about := p.about(r, w-2)
	if most := h - len(out); len(about) > most {
		about = about[:max(0, most)]
	}
	return append(out, about...)
}

func (p *Job) pointed() string {
	x, ok := p.table.Selected()
	switch {
	case !ok:
		return "no part"
	case p.carrying():
		return p.Over().Title()
	}
	return x.name
}

// about says why what is pointed at stands as it does: what decides, and what
// there is to say of it.
func (p *Job) about(r *rules.JobReport, w int) (lines []string) {
	x, ok := p.table.Selected()
	if !ok {
		return nil
	}
	say := func(look draw.Style, text string) {
		for _, l := range draw.Wrap(draw.Clean(text), w) {
			lines = append(lines, " "+look.Render(l))
		}
	}
	t := p.Desk.Theme
	if x.plies {
		if by := edit.UsedBy(r.Job, x.name); len(by) > 0 {
			say(draw.Style{}, "named by "+strings.Join(by, ", "))
		} else {
			say(t.Dim, "nothing names it")
		}
		return lines
	}
	if x.criterion != "" {
		text := x.criterion
		if x.note != "" {
			text += ": " + x.note
		}
		say(draw.Style{}, text)
	}
	tell := func(list []rules.Finding, of func(*rules.Finding) bool) {
		for i := range list {
			if f := &list[i]; of(f) && f.Severity > rules.Note {
				say(page.SeverityStyle(t, f.Severity), f.Severity.String()+" "+f.Rule.ID+": "+f.Message)
			}
		}
	}
	if x.at.Kind == laminate.RefJobPart {
		tell(r.Parts[x.at.Index].Findings, func(*rules.Finding) bool { return true })
	}
	tell(r.Findings, func(f *rules.Finding) bool { _, ok := f.In(x.at); return ok })
	// What is of no row is said at each.
	tell(r.Findings, func(f *rules.Finding) bool { return !p.placed[laminate.Ref{Kind: f.At.Kind, Index: f.At.Index}] })
	switch {
	case len(r.Job.Parts) == 0:
		say(draw.Style{}, "a adds the first part, then nozzles, joints and their laminates")
	case len(lines) == 0:
		say(t.Dim, "nothing to say of it")
	}
	return lines
}
