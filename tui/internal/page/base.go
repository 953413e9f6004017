package page

import (
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Base is what every page has and embeds: its name, its size, its keys, and
// what is open over it.
type Base struct {
	Desk  *Desk
	Frame draw.Frame
	// Rows are the page's own keys.
	Rows keys.Table
	// Room is the size of what is open over the page; nil: the page's whole body.
	Room func() draw.Size

	name string
	over Overlay
}

// NewBase makes the base of a page.
func NewBase(name string, d *Desk) Base { return Base{Desk: d, name: name} }

// Name is the page's name in the list of pages and, in capitals, in the title.
func (b *Base) Name() string { return b.name }

// SetSize tells the size of the whole screen.
func (b *Base) SetSize(w, h int) {
	b.Frame = draw.PageFrame(draw.Size{W: w, H: h})
	b.Fit()
}

// Fit gives what is open its size anew.
func (b *Base) Fit() {
	if b.over == nil {
		return
	}
	s := draw.Size{W: b.Frame.Body.W, H: b.Frame.Body.H}
	if b.Room != nil && !b.over.Whole() {
		s = b.Room()
	}
	b.over.SetSize(s.W, s.H)
}

// Reset drops what is open.
func (b *Base) Reset() { b.over = nil }

// Settle puts what is open right.
func (b *Base) Settle() {
	if b.over != nil {
		b.over.Settle()
	}
}

// Table is the page's own keys.
func (b *Base) Table() keys.Table { return b.Rows }

// Over is what is open over the page's own keys, nil for nothing.
func (b *Base) Over() Overlay { return b.over }

// Open opens a list, a form or a text over the page's own keys, in the place of
// what is open.
func (b *Base) Open(o Overlay) {
	o.Attach(b.Desk, func() {
		if b.over == o {
			b.over = nil
		}
	})
	b.over = o
	b.Fit()
	o.Settle()
}

// Close drops what is open.
func (b *Base) Close() { b.over = nil }
