package bench

import (
	"slices"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Lead is what stands first on a bench where nothing is said of what the rules
// find: a task, with the keys that go with it. All other keys of the bench are
// there, and do the same.
type Lead struct {
	Scope keys.Scope // where the keys of the bench itself act then
	// Acts stand in the place of those about findings; their scope is set here.
	Acts  page.Acts[*Bench]
	Title func() []widget.Piece
	// Text is the whole of it in lines of w cells; More says how to read on
	// where not all of it fits.
	Text func(w int) []string
	More string
}

// NewLed makes the page on a desk of its own, with a lead.
func NewLed(d *page.Desk, l *Lead) *Bench {
	return &Bench{desk: d, lead: l, acts: slices.Concat(l.acts(), choiceActs())}
}

// acts are the keys of the bench itself, in the scope of the lead.
func (l *Lead) acts() page.Acts[*Bench] {
	all := slices.Concat(building(), l.Acts, places())
	for i := range all {
		all[i].Scope = l.Scope
	}
	return all
}

// Bindings are the lead's part of the key table.
func (l *Lead) Bindings() []keys.Binding { return l.acts().Bindings() }

// lines draws it in h lines under its heading.
func (l *Lead) lines(t *draw.Theme, w, h int) []string {
	out := append([]string{widget.Rule(t, w, l.Title()...)}, l.Text(w)...)
	if len(out) > h && h > 1 {
		out = out[:h]
		out[h-1] = draw.Ends(draw.Clip(out[h-1], w-draw.Width(l.More)-3), t.Dim.Render("… "+l.More+" "), w)
	}
	return out
}
