package widget

import (
	"strconv"

	"github.com/sahilm/fuzzy"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Item is one row. Its texts are drawn cleaned.
type Item struct {
	Mark string // a glyph of one cell before the name, or ""
	Name string // what typing looks for
	Note string // dim, after the names
	Word string // at the right end, in Look
	Look draw.Style
	Why  string // why it cannot be taken, "" if it can; shown instead of Note
}

// Finder is the list. Make it with New.
type Finder struct {
	// Title stands before what is typed.
	Title string

	th     *draw.Theme
	items  []Item
	query  Input
	found  []int
	sel    int // index in found
	top    int
	rows   int // rows drawn last
	reason string
}

// New makes a finder over items.
func New(th *draw.Theme, title string, items []Item) *Finder {
	f := &Finder{Title: title, th: th, rows: 9}
	f.SetItems(items)
	return f
}

// SetItems replaces the items; what is typed and the mark stay where they can.
func (f *Finder) SetItems(items []Item) {
	sel := f.sel
	f.items = items
	f.search()
	f.sel = max(0, min(sel, len(f.found)-1))
}

// Choice returns the index of the marked item, or ok = false if there is none:
// what a page previews while the choice goes on, and what was taken after Taken.
func (f *Finder) Choice() (index int, ok bool) {
	if f.sel < 0 || f.sel >= len(f.found) {
		return 0, false
	}
	return f.found[f.sel], true
}

// Reason says why the last key was refused.
func (f *Finder) Reason() string { return f.reason }

// Query returns what is typed.
func (f *Finder) Query() string { return f.query.Text() }

// Mark puts the mark on an item, if it is among those found.
func (f *Finder) Mark(index int) {
	for i, n := range f.found {
		if n == index {
			f.sel = i
		}
	}
}

// Handle takes a key. Esc first takes back what was typed, then leaves.
func (f *Finder) Handle(e keys.Event) Result {
	f.reason = ""
	if d, ok := e.Digit(); ok {
		if d == 0 || f.top+d > len(f.found) || d > f.rows {
			f.reason = "no row has the number " + strconv.Itoa(d)
			return Refused
		}
		f.sel = f.top + d - 1
		return f.pick()
	}
	switch e.Key {
	case keys.Enter:
		return f.pick()
	case keys.Esc:
		if f.query.Empty() {
			return Left
		}
		f.query.Set("")
		f.search()
	case keys.Up:
		f.move(-1)
	case keys.Down:
		f.move(1)
	case keys.PgUp:
		f.move(-f.rows)
	case keys.PgDown:
		f.move(f.rows)
	default:
		before := f.query.Text()
		f.query.Handle(e)
		if f.query.Text() != before {
			f.search()
		}
	}
	return Going
}

func (f *Finder) move(by int) {
	f.sel = max(0, min(f.sel+by, len(f.found)-1))
}

func (f *Finder) pick() Result {
	i, ok := f.Choice()
	if !ok {
		f.reason = "nothing matches what is typed"
		return Refused
	}
	if f.items[i].Why != "" {
		f.reason = f.items[i].Why
		return Refused
	}
	return Taken
}

type names []Item

func (n names) Len() int            { return len(n) }
func (n names) String(i int) string { return n[i].Name }

func (f *Finder) search() {
	f.sel, f.top = 0, 0
	f.found = f.found[:0]
	if f.query.Empty() {
		for i := range f.items {
			f.found = append(f.found, i)
		}
		return
	}
	for _, m := range fuzzy.FindFrom(f.query.Text(), names(f.items)) {
		f.found = append(f.found, m.Index)
	}
}

// View draws the line that is typed into and the rows under it: exactly h lines
// of w cells.
func (f *Finder) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	f.rows = max(1, h-1)
	f.top = max(0, min(f.top, f.sel, len(f.found)-1))
	f.top = max(f.top, f.sel-f.rows+1)
	lines := make([]string, 0, h)
	lines = append(lines, f.head(w))
	if len(f.found) == 0 {
		lines = append(lines, f.th.Dim.Render(draw.Left("  nothing matches; Esc shows all", w)))
	}
	wide := f.nameWidth(w)
	for i := f.top; i < len(f.found) && len(lines) < h; i++ {
		lines = append(lines, f.row(i, w, wide))
	}
	return draw.FitLines(lines, w, h)
}

func (f *Finder) head(w int) string {
	title := draw.Clean(f.Title)
	count := strconv.Itoa(len(f.found)) + " of " + strconv.Itoa(len(f.items))
	room := w - draw.Width(title) - draw.Width(count) - 5
	if room < 4 {
		count, room = "", w-draw.Width(title)-3
	}
	var l draw.Line
	l.Gap(1).Add(f.th.Title.Render(title)).Gap(1).Add(f.query.View(f.th, max(1, room))).Gap(2)
	l.Add(f.th.Dim.Render(count))
	return l.Fit(w)
}

// nameWidth is the room of the names drawn: their widest, within reason.
func (f *Finder) nameWidth(w int) int {
	wide := 0
	for i := f.top; i < len(f.found) && i < f.top+f.rows; i++ {
		wide = max(wide, draw.Width(f.items[f.found[i]].Name))
	}
	return min(wide, max(1, w*3/5))
}

func (f *Finder) row(i, w, wide int) string {
	it := &f.items[f.found[i]]
	number := " "
	if n := i - f.top + 1; n <= 9 {
		number = strconv.Itoa(n)
	}
	mark := it.Mark
	if mark == "" {
		mark = " "
	}
	name := draw.Left(draw.Clean(it.Name), wide)
	note := it.Note
	if it.Why != "" {
		note = it.Why
	}
	note = draw.Clean(note)
	word := draw.Clean(it.Word)
	room := w - 6 - wide - 2 - draw.Width(word) - 2
	if word == "" {
		room += 2
	}
	note = draw.Left(note, room)
	if i == f.sel {
		line := " " + draw.Pointer + number + " " + mark + " " + name + "  " + note
		if word != "" {
			line += "  " + word
		}
		return f.th.Selected.Render(draw.Left(line, w))
	}
	var l draw.Line
	l.Gap(2).Add(f.th.Key.Render(number)).Gap(1).Add(mark).Gap(1).Add(name).Gap(2).Add(f.th.Dim.Render(note))
	if word != "" {
		l.Gap(2).Add(it.Look.Render(word))
	}
	return l.Fit(w)
}
