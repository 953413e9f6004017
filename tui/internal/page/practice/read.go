package practice

import (
	"strings"

	"github.com/charmbracelet/bubbles/viewport"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// reader shows a text on the whole page.
type reader struct {
	title []widget.Piece
	body  func(w int) []string
	back  screen
	view  viewport.Model
}

// read opens a text; leaving it goes back to where one was.
func (p *Practice) read(title []widget.Piece, body func(w int) []string) {
	s := &reader{title: title, body: body, back: p.now}
	s.fit(p.frame.Body)
	p.now = s
}

// fit lays the text out for a page's body.
func (s *reader) fit(body draw.Rect) {
	s.view.Width, s.view.Height = body.W, max(1, body.H-1)
	s.view.SetContent(strings.Join(s.body(body.W), "\n"))
}

func (*reader) scope() keys.Scope { return scopeRead }

func readActs() page.Acts[*Practice] {
	const g = "Reading"
	return page.Acts[*Practice]{
		act(scopeRead, "read", g, arrows(), "↑↓", "read on", "a line up, a line down", 1, nil, in(func(s *reader, _ *Practice, e keys.Event) {
			if inward(e) {
				s.view.ScrollUp(1)
			} else {
				s.view.ScrollDown(1)
			}
		})),
		act(scopeRead, "read far", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "a screenful", "a screenful up, down", 2, nil, in(func(s *reader, _ *Practice, e keys.Event) {
			if e.Key == keys.PgUp {
				s.view.PageUp()
			} else {
				s.view.PageDown()
			}
		})),
		act(scopeRead, "back", g, []string{keys.Esc, keys.Enter}, "Esc", "back", "back to where you were", 3, nil, in(func(s *reader, p *Practice, _ keys.Event) { p.now = s.back })),
	}
}

func (s *reader) lines(p *Practice, w, _ int) []string {
	return append([]string{widget.Rule(p.desk.Theme, w, s.title...)}, strings.Split(s.view.View(), "\n")...)
}
