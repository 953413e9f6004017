package widget

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
)

// Piece is a part of a title with a look of its own.
type Piece struct {
	Text string
	Look draw.Style
}

// Rule draws "── title ─────" in exactly w cells; pieces are set side by side
// as they are, cleaned.
func Rule(th *draw.Theme, w int, title ...Piece) string {
	if w < 1 {
		return ""
	}
	var l draw.Line
	for _, p := range title {
		l.Add(p.Look.Render(draw.Clean(p.Text)))
	}
	if l.Width() == 0 || w < 8 {
		return th.Rule.Render(draw.Run("─", w))
	}
	s := draw.Cut(l.String(), w-6)
	return th.Rule.Render("──") + " " + s + " " + th.Rule.Render(draw.Run("─", w-4-draw.Width(s)))
}

// Edge returns h lines of one upright stroke, to stand between two panes.
func Edge(th *draw.Theme, h int) []string {
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
func Title(th *draw.Theme, page, document, state string, w int) string {
	page = draw.Clean(page)
	left := th.Title.Render(page) + "  " + draw.Clean(document)
	return draw.Ends(" "+left, th.Dim.Render(draw.Clean(state)), w)
}

// Notice is the line that says what the last key did, or why it did nothing.
type Notice struct {
	Text string
	// Tail is how it is taken back; it stands at the right end.
	Tail string
	// Refusal tells that the key could not act.
	Refusal bool
	// Whole has what was done said to its end too, though it has a Tail.
	Whole bool
}

// mostRows is how many rows a notice takes at most: half of the least body.
const mostRows = 7

// Lines draws the notice in rows of exactly w cells: it is said to its end, in as many
// as that takes. A change that says how it is undone is one row, with every key.
func (n Notice) Lines(th *draw.Theme, w int) []string {
	text := n.rows(w)
	if len(text) < 2 {
		return []string{n.Line(th, w)}
	}
	lines := make([]string, len(text))
	tail := n.Tail
	for i := range text {
		n.Text, n.Tail = text[i], ""
		if i == len(text)-1 {
			n.Tail = tail
		}
		lines[i] = n.Line(th, w)
	}
	return lines
}

// Covers is how many rows above its own one the notice takes of a page.
func (n Notice) Covers(w int) int { return max(0, len(n.rows(w))-1) }

func (n Notice) rows(w int) []string {
	if n.Tail != "" && !n.Whole {
		return nil
	}
	text := draw.Wrap(draw.Clean(n.Text), max(1, w-1))
	if tail := draw.Width(draw.Clean(n.Tail)); tail > 0 && len(text) > 0 && draw.Width(text[len(text)-1])+tail+4 > w {
		text = append(text, "") // the tail has a row of its own
	}
	if len(text) > mostRows {
		text = append(text[:mostRows-1], strings.Join(text[mostRows-1:], " "))
	}
	return text
}

// Line draws the notice in exactly w cells.
func (n Notice) Line(th *draw.Theme, w int) string {
	look := th.Changed
	if n.Refusal {
		look = th.Error
	}
	tail := draw.Clean(n.Tail)
	if tail != "" {
		tail = th.Dim.Render(tail) + " "
	}
	said := draw.Clean(n.Text)
	if said != "" {
		said = " " + look.Render(said)
	}
	return draw.Ends(said, tail, w)
}
