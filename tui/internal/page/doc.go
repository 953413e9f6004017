// Package page says what a page of the terminal program is and what pages
// share: the open document with the place worked at, the notice of what the
// last key did, and the words and glyphs for plies and findings.
//
// A page draws between the title line and the notice line, which are the
// root's. It reads the document's report and changes the document only through
// the Desk, so that every change is told in the same words and can be taken back.
package page

import (
	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/keys"
)

// Page is one numbered page. Base has most of it.
type Page interface {
	// Name is the page's name in the list of pages and, in capitals, in the title.
	Name() string
	// SetSize tells the size of the whole screen; package draw says which part
	// of it is the page's. It is called before the first Settle.
	SetSize(w, h int)
	// Reset drops what was begun and not finished: the document became another.
	Reset()
	// Settle puts right what depends on what a key, a size or a document
	// changed. It is called after each of them and before the page is drawn, and
	// nothing else changes what is derived: drawing changes nothing.
	Settle()
	// Table is the page's own keys, those that run.
	Table() keys.Table
	// Over is what is open over them, nil for nothing.
	Over() Overlay
	// Lines draws the page's body; the root fits the lines to its room.
	Lines() []string
}

// Clicker is a page, or what is open, on which a click points at a line; x and y
// are its own cells. Nothing is taken by it.
type Clicker interface {
	Click(x, y int) bool
}

// Alone is a page that has no second column of its own: on a wide screen that
// leaves it the cells it needs, the wall stands beside it.
type Alone interface{ Alone() (cells int) }

// Selector is a page on which one part, joint or nozzle of a job is selected, which
// its papers are of; of any other kind it has none.
type Selector interface{ Selects() laminate.Ref }

// Rester is a page that leaves work for when keys pause.
type Rester interface {
	Waits() bool
	Rest()
}

// Owner is a page that may have a document of its own for a while, which is
// handed in and not saved. Keys of everywhere act on that then, and the document
// that is open is not touched.
type Owner interface {
	// Own is the desk of the document, nil while there is none.
	Own() *Desk
	// Screen is which of its screens is shown, to be compared: what was said on
	// one is gone on another.
	Screen() any
	// Keep keeps what is not handed in, so that it outlives the program. It is
	// called after every key.
	Keep() error
}
