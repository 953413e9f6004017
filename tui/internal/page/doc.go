// Package page says what a page of the terminal program is and what pages
// share: the open document with the place worked at, the notice of what the
// last key did, and the words and glyphs for plies and findings.
//
// A page draws between the title line and the notice line, which are the
// root's. It reads the document's report and changes the document only through
// the Desk, so that every change is told in the same words and can be taken back.
package page

import (
	"frp/veilwright/tui/internal/keys"
)

// Page is one numbered page.
type Page interface {
	// Name is the page's name in the list of pages and, in capitals, in the title.
	Name() string
	// SetSize tells the size of the whole screen; layout says which part of it
	// is the page's. It is called before the first Lines.
	SetSize(w, h int)
	// Reset drops what was begun and not finished: the document became another.
	Reset()
	// Bindings are the page's part of the key table, all its scopes.
	Bindings() []keys.Binding
	// Scope is where its keys act now.
	Scope() keys.Scope
	// Can says why a binding of the scope cannot act now, "" when it can.
	Can(id keys.ID) string
	// Press handles a key or a paste.
	Press(e keys.Event) Wish
	// Lines draws the page's body; the root fits the lines to its room.
	Lines() []string
	// Busy tells that a choice or a field is open: keys of everywhere rest.
	Busy() bool
	// Typing tells that characters go into a text field.
	Typing() bool
}

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
	// Keep keeps what is not handed in, so that it outlives the program. It is
	// called after every key.
	Keep() error
}

// Wish is what a page asks of the root after a key.
type Wish uint8

// The wishes.
const (
	Done  Wish = iota // the key is dealt with
	Leave             // the key is not the page's
	Back              // one step back: to the page before
)
