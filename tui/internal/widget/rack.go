package widget

import (
	"strconv"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// slots is how many things have a number.
const slots = 9

// Rack is the numbered list. Make it with New.
type Rack struct {
	// Heading stands over the list.
	Heading string
	// AnyTitle stands before what is typed once 0 has opened the whole list.
	AnyTitle string

	th     *draw.Theme
	items  []Item
	search *Finder // nil unless opened
	choice int
	reason string
}

// New makes a rack. The first nine items have numbers, all are found by name.
func NewRack(th *draw.Theme, items []Item) *Rack {
	return &Rack{Heading: "lay with a digit", AnyTitle: "any material", th: th, items: items, choice: -1}
}

// SetItems replaces the items.
func (r *Rack) SetItems(items []Item) {
	r.items = items
	if r.search != nil {
		r.search.SetItems(items)
	}
}

// Searching reports that the whole list is open: all keys belong to the rack.
func (r *Rack) Searching() bool { return r.search != nil }

// Choice returns the index of what was picked, or of what is marked in the
// open list, for a preview.
func (r *Rack) Choice() (index int, ok bool) {
	if r.search != nil {
		return r.search.Choice()
	}
	return r.choice, r.choice >= 0
}

// Reason says why the last key was refused.
func (r *Rack) Reason() string { return r.reason }

// Handle takes a key. ours is false for keys the rack has no use for.
func (r *Rack) Handle(e keys.Event) (result Result, ours bool) {
	r.reason = ""
	if r.search != nil {
		result = r.search.Handle(e)
		switch result {
		case Taken:
			r.choice, _ = r.search.Choice()
			r.search = nil
		case Left:
			r.choice, r.search = -1, nil
		case Refused:
			r.reason = r.search.Reason()
		case Going:
		}
		return result, true
	}
	d, ok := e.Digit()
	switch {
	case !ok:
		return Going, false
	case d == 0:
		r.search = New(r.th, r.AnyTitle, r.items)
		return Going, true
	case d > len(r.items):
		r.reason = "nothing on the rack has the number " + strconv.Itoa(d)
		return Refused, true
	case r.items[d-1].Why != "":
		r.reason = r.items[d-1].Why
		return Refused, true
	}
	r.choice = d - 1
	return Taken, true
}

const anyEntry = "any, by name"

// View draws the rack as exactly h lines of w cells: one thing a line, or, where
// it is too low for that, side by side in columns.
func (r *Rack) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	if r.search != nil {
		return r.search.View(w, h)
	}
	n := min(slots, len(r.items))
	if h < n+1 {
		return r.flat(n, w, h)
	}
	lines := make([]string, 0, h)
	if h > n+1 {
		lines = append(lines, " "+r.th.Label.Render(draw.Cut(r.Heading, w-1)))
	}
	for i := range n {
		lines = append(lines, " "+r.entry(i, w-1))
	}
	lines = append(lines, " "+r.entry(-1, w-1))
	return draw.FitLines(lines, w, h)
}

// entry draws the thing at i, or "any" for -1, in w cells.
func (r *Rack) entry(i, w int) string {
	var l draw.Line
	if i < 0 {
		return l.Add(r.th.Key.Render("0")).Gap(1).Add(anyEntry).Fit(w)
	}
	it := &r.items[i]
	mark := it.Mark
	if mark == "" {
		mark = " "
	}
	l.Add(r.th.Key.Render(strconv.Itoa(i + 1))).Gap(1).Add(mark).Gap(1)
	name, note := draw.Clean(it.Name), draw.Clean(it.Note)
	if it.Why != "" {
		name, note = r.th.Dim.Render(name), draw.Clean(it.Why)
	}
	room := w - l.Width()
	if note == "" || draw.Width(name)+2+draw.Width(note) > room {
		return l.Add(draw.Cut(name, room)).Fit(w)
	}
	return l.Add(draw.Ends(name, r.th.Dim.Render(note), room)).Fit(w)
}

// flat sets the things side by side, down the columns first.
func (r *Rack) flat(n, w, h int) []string {
	columns := (n + 1 + h - 1) / h // one more for "any"
	lines := make([]string, 0, h)
	for y := range h {
		var l draw.Line
		for x := range columns {
			i := x*h + y
			from, to := x*w/columns, (x+1)*w/columns
			if i > n || to-from < 2 {
				continue
			}
			l.Gap(from - l.Width()).Gap(1)
			if i == n {
				i = -1
			}
			l.Add(r.short(i, to-from-1))
		}
		lines = append(lines, l.Fit(w))
	}
	return draw.FitLines(lines, w, h)
}

// short is entry without the note.
func (r *Rack) short(i, w int) string {
	if i < 0 {
		var l draw.Line
		return l.Add(r.th.Key.Render("0")).Gap(1).Add("any").Fit(w)
	}
	it := &r.items[i]
	name := draw.Clean(it.Mark + " " + it.Name)
	if it.Why != "" {
		name = r.th.Dim.Render(name)
	}
	var l draw.Line
	return l.Add(r.th.Key.Render(strconv.Itoa(i + 1))).Gap(1).Add(name).Fit(w)
}
