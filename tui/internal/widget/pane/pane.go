// Package pane draws what stands between the parts of a page: rules with a
// title, the line that says what the last key did, and the title line.
package pane

import (
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

// Piece is a part of a title with a look of its own.
type Piece struct {
	Text string
	Look theme.Style
}

// Rule draws "── title ─────" in exactly w cells; pieces are set side by side
// as they are, cleaned.
func Rule(th *theme.Theme, w int, title ...Piece) string {
	if w < 1 {
		return ""
	}
	var l text.Line
	for _, p := range title {
		l.Add(p.Look.Render(text.Clean(p.Text)))
	}
	if l.Width() == 0 || w < 8 {
		return th.Rule.Render(text.Run("─", w))
	}
	s := text.Cut(l.String(), w-6)
	return th.Rule.Render("──") + " " + s + " " + th.Rule.Render(text.Run("─", w-4-text.Width(s)))
}

// Edge returns h lines of one upright stroke, to stand between two panes.
func Edge(th *theme.Theme, h int) []string {
	if h < 1 {
		return nil
	}
	lines := make([]string, h)
	stroke := th.Rule.Render("│")
	for i := range lines {
		lines[i] = stroke
	}
	return lines
}

// Title draws the first line of a page in exactly w cells: the page's name, what
// is open, and at the right end the state of things, which is cut last.
func Title(th *theme.Theme, page, document, state string, w int) string {
	page = text.Clean(page)
	left := th.Title.Render(page) + "  " + text.Clean(document)
	return text.Ends(" "+left, th.Dim.Render(text.Clean(state)), w)
}

// Notice is the line that says what the last key did, or why it did nothing.
type Notice struct {
	Text string
	// Tail is how it is taken back; it stands at the right end.
	Tail string
	// Refusal tells that the key could not act.
	Refusal bool
}

// Line draws the notice in exactly w cells.
func (n Notice) Line(th *theme.Theme, w int) string {
	look := th.Changed
	if n.Refusal {
		look = th.Error
	}
	tail := text.Clean(n.Tail)
	if tail != "" {
		tail = th.Dim.Render(tail) + " "
	}
	said := text.Clean(n.Text)
	if said != "" {
		said = " " + look.Render(said)
	}
	return text.Ends(said, tail, w)
}
