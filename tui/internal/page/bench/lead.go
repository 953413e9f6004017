package bench

import (
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// Lead is what stands first on a bench where nothing is said of what the rules
// find: a task, with the keys that go with it. All other keys of the bench are
// there, and do the same.
type Lead struct {
	Name string // what the page is called
	// Rows stand in the place of the keys about findings.
	Rows  keys.Table
	Title func() []widget.Piece
	// Text is the whole of it in lines of w cells; More says how to read on
	// where not all of it fits.
	Text func(w int) []string
	More string
}

// lines draws it in h lines under its heading.
func (l *Lead) lines(t *draw.Theme, w, h int) []string {
	out := append([]string{widget.Rule(t, w, l.Title()...)}, l.Text(w)...)
	if len(out) > h && h > 1 {
		out = out[:h]
		out[h-1] = draw.Ends(draw.Clip(out[h-1], w-draw.Width(l.More)-3), t.Dim.Render("… "+l.More+" "), w)
	}
	return out
}
