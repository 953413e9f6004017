package widget

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Help is the page of all keys. Make it with New.
type Help struct {
	// Title stands on the first line.
	Title string

	th       *draw.Theme
	sections []keys.Section
	query    Input
	top      int
	rows     int // drawn last
	total    int
}

// New makes a page of the sections a key table gives.
func NewHelp(th *draw.Theme, title string, sections []keys.Section) *Help {
	return &Help{Title: title, th: th, sections: sections, rows: 1}
}

// Handle takes a key: letters search, arrows and PgUp, PgDn, Home and End
// scroll, Esc takes the search back and then leaves, as Enter and a second ? do.
func (p *Help) Handle(e keys.Event) Result {
	switch e.Key {
	case keys.Esc:
		if p.query.Empty() {
			return Left
		}
		p.query.Set("")
		p.top = 0
	case keys.Enter:
		return Left
	case "?":
		if p.query.Empty() {
			return Left
		}
		p.search(e)
	case keys.Up:
		p.top--
	case keys.Down:
		p.top++
	case keys.PgUp:
		p.top -= p.rows
	case keys.PgDown:
		p.top += p.rows
	case keys.Home:
		p.top = 0
	case keys.End:
		p.top = p.total
	default:
		p.search(e)
	}
	p.top = max(0, min(p.top, p.total-p.rows))
	return Going
}

func (p *Help) search(e keys.Event) {
	before := p.query.Text()
	if p.query.Handle(e); p.query.Text() != before {
		p.top = 0
	}
}

// View draws the page: exactly h lines of w cells.
func (p *Help) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	body := p.body(w)
	p.rows, p.total = max(1, h-1), len(body)
	p.top = max(0, min(p.top, p.total-p.rows))
	lines := append(make([]string, 0, h), p.head(w))
	return draw.FitLines(append(lines, body[p.top:]...), w, h)
}

func (p *Help) head(w int) string {
	var l draw.Line
	l.Gap(1).Add(p.th.Title.Render(draw.Clean(p.Title))).Gap(2)
	more := ""
	if p.total > p.rows {
		more = "↑↓ more"
	}
	if room := w - l.Width() - draw.Width("find ↑↓ more") - 2; room >= 8 {
		l.Add(p.th.Dim.Render("find")).Gap(1).Add(p.query.View(p.th, room))
	}
	return draw.Ends(l.String(), p.th.Dim.Render(more), w)
}

// body is all lines that match the search, drawn.
func (p *Help) body(w int) []string {
	query := strings.ToLower(p.query.Text())
	wide := 0
	for _, s := range p.sections {
		for _, e := range s.Entries {
			wide = max(wide, draw.Width(e.Keys))
		}
	}
	wide = min(wide, max(1, w/3))
	var out []string
	for _, s := range p.sections {
		first := true
		for _, e := range s.Entries {
			if !matches(query, s, e) {
				continue
			}
			if first {
				if len(out) > 0 {
					out = append(out, "")
				}
				out = append(out, " "+p.th.Label.Render(draw.Clean(s.Title)))
				first = false
			}
			out = append(out, p.entry(e, wide, w)...)
		}
	}
	if out == nil {
		out = []string{p.th.Dim.Render("  no key says that; Esc shows all")}
	}
	return out
}

// matches finds a row by its key, when just that is typed, or by any words.
func matches(query string, s keys.Section, e keys.Entry) bool {
	for word := range strings.FieldsSeq(query) {
		if !strings.Contains(strings.ToLower(e.Keys+" "+e.What+" "+e.Why+" "+s.Title), word) {
			return false
		}
	}
	return true
}

func (p *Help) entry(e keys.Entry, wide, w int) []string {
	const indent = 3
	room := max(1, w-indent-wide-2)
	what := draw.Wrap(draw.Clean(e.What), room)
	n := len(what)
	if e.Why != "" {
		what = append(what, draw.Wrap("not now: "+draw.Clean(e.Why), room)...)
	}
	lines := make([]string, 0, len(what))
	for i, s := range what {
		var l draw.Line
		l.Gap(indent)
		if i == 0 {
			l.Add(p.th.Key.Render(draw.Left(e.Keys, wide)))
		} else {
			l.Gap(wide)
		}
		l.Gap(2)
		if i >= n {
			s = p.th.Dim.Render(s)
		}
		lines = append(lines, l.Add(s).String())
	}
	return lines
}
