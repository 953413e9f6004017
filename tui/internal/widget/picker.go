package widget

import (
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Entry is one row of the folder.
type PickerEntry struct {
	Name   string // the file's or folder's own name
	Folder bool
	Note   string // the title of what is in it
	Word   string // its verdict; "" while that is not known yet
	Look   draw.Style
	Why    string // why it cannot be opened, "" if it can
}

// Picker is the list. Make it with New.
type Picker struct {
	th      *draw.Theme
	folder  string
	entries []PickerEntry
	list    *Finder
	up      bool
}

// New makes a picker for a folder, whose path is shown.
func NewPicker(th *draw.Theme, folder string, entries []PickerEntry) *Picker {
	p := &Picker{th: th, folder: folder, list: New(th, "open", nil)}
	p.Set(entries)
	return p
}

// Set replaces the rows: a word has become known, a file has appeared. What is
// typed stays; so does the mark, by name.
func (p *Picker) Set(entries []PickerEntry) {
	marked, had := p.Choice()
	p.entries = entries
	items := make([]Item, len(entries))
	for i, e := range entries {
		items[i] = Item{Name: e.Name, Note: e.Note, Word: e.Word, Look: e.Look, Why: e.Why}
		if e.Folder {
			items[i].Mark = "/"
		}
	}
	p.list.SetItems(items)
	if !had {
		return
	}
	for i, e := range entries {
		if e.Name == marked.Name {
			p.list.Mark(i)
		}
	}
}

// Choice returns the marked row, after Taken the one to open.
func (p *Picker) Choice() (PickerEntry, bool) {
	i, ok := p.list.Choice()
	if !ok || i >= len(p.entries) {
		return PickerEntry{}, false
	}
	return p.entries[i], true
}

// Up reports that the last key asked for the folder above.
func (p *Picker) Up() bool { return p.up }

// Reason says why the last key was refused.
func (p *Picker) Reason() string { return p.list.Reason() }

// Handle takes a key. Left and, with nothing typed, Backspace ask for the folder
// above: Up reports it.
func (p *Picker) Handle(e keys.Event) Result {
	p.up = false
	if p.list.Query() == "" && (e.Key == keys.Left || e.Key == keys.Backspace) {
		p.up = true
		return Going
	}
	return p.list.Handle(e)
}

// View draws the folder and its rows: exactly h lines of w cells.
func (p *Picker) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	if h < 4 {
		return p.list.View(w, h)
	}
	// A path tells most at its end.
	lines := []string{" " + p.th.Dim.Render(draw.Tail(draw.Clean(p.folder), w-1))}
	return draw.FitLines(append(lines, p.list.View(w, h-1)...), w, h)
}
