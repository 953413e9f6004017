package widget

import (
	"strconv"

	"frp/veilwright/tui/internal/draw"
)

// slots is how many things have a number.
const slots = 9

// Item is one thing. Its texts are drawn cleaned.
type Item struct {
	Mark string // a glyph of one cell before the name, or ""
	Name string
	Note string // dim, at the right end
}

// Rack is the numbered list: up to nine things always in sight, and 0 for any
// other by its name. Make it with NewRack.
type Rack struct {
	heading string
	th      *draw.Theme
	items   []Item
}

// NewRack makes a rack under a heading. The first nine items have numbers.
func NewRack(th *draw.Theme, heading string, items []Item) *Rack {
	return &Rack{heading: heading, th: th, items: items}
}

const anyEntry = "any, by name"

// View draws the rack as exactly h lines of w cells: one thing a line, or, where
// it is too low for that, side by side in columns.
func (r *Rack) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	n := min(slots, len(r.items))
	if h < n+1 {
		return r.flat(n, w, h)
	}
	lines := make([]string, 0, h)
	if h > n+1 {
		lines = append(lines, " "+r.th.Label.Render(draw.Cut(r.heading, w-1)))
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
	// Its end tells one weight, or one angle, from another.
	name := draw.Clean(it.Name)
	const end = 4
	if room := w - 4; room > end+1 && draw.Width(name) > room && draw.Width(name) == len(name) {
		name = name[:room-end-1] + draw.Ellipsis + name[len(name)-end:]
	}
	name = draw.Clean(it.Mark) + " " + name
	var l draw.Line
	return l.Add(r.th.Key.Render(strconv.Itoa(i + 1))).Gap(1).Add(name).Fit(w)
}
