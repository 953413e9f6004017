package form

import (
	"strconv"
	"strings"

	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

const (
	pointerCells = 3  // a blank, Pointer, a blank
	listMost     = 12 // lines of an open list
)

// View draws the fields, the focused one always in sight with what belongs to
// it: exactly h lines of w cells, the last of them for signs that there is more.
func (f *Form) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	gutter := 0
	if w > 2*pointerCells {
		gutter = 1
	}
	lines, at := f.lines(w-gutter, h)
	f.scroll(at, len(lines), h)
	end := min(len(lines), f.top+h)
	out := text.FitLines(lines[f.top:end], w-gutter, h)
	if gutter == 0 {
		return out
	}
	for i := range out {
		switch {
		case i == 0 && f.top > 0:
			out[i] += f.th.Dim.Render("▲")
		case i == h-1 && end < len(lines):
			out[i] += f.th.Dim.Render("▼")
		default:
			out[i] += " "
		}
	}
	return out
}

// place is where the focused field lies among the lines: its heading, if it has
// one, else its row; its row; and the line after what belongs to it.
type place struct{ heading, row, end int }

func (f *Form) lines(w, h int) (lines []string, at place) {
	label := 0
	for i := range f.fields {
		label = max(label, text.Width(f.fields[i].Label))
	}
	label = min(label, max(1, w*2/5))
	lines = make([]string, 0, h+16)
	for i := range f.fields {
		heading := len(lines)
		if group := f.fields[i].Group; group != "" && (i == 0 || group != f.fields[i-1].Group) {
			if i > 0 {
				lines = append(lines, "")
				heading++
			}
			lines = append(lines, " "+f.th.Title.Render(text.Cut(text.Clean(group), w-1)))
		}
		row := len(lines)
		lines = append(lines, f.row(i, label, w))
		lines = f.below(lines, i, label, w, h)
		if i == f.sel {
			at = place{heading, row, len(lines)}
		}
	}
	return lines, at
}

// scroll brings the focused field into sight: its row in any case, what belongs
// to it as far as it goes, its heading if there is room.
func (f *Form) scroll(at place, total, h int) {
	f.top = max(0, min(f.top, total-h))
	f.top = max(f.top, at.end-h)
	if at.end-at.heading <= h {
		f.top = min(f.top, at.heading)
	}
	f.top = min(f.top, at.row)
}

// row draws a field's label and value.
func (f *Form) row(i, label, w int) string {
	fl := &f.fields[i]
	room := max(1, w-pointerCells-label-2)
	name := text.Left(text.Clean(fl.Label), label)
	if i == f.sel && f.state == typing {
		var l text.Line
		l.Add(" " + theme.Pointer + " ").Add(f.th.Strong.Render(name)).Gap(2)
		unit := text.Clean(fl.Unit)
		if unit != "" {
			room -= text.Width(unit) + 1
		}
		l.Add(f.line.View(f.th, max(1, room)))
		if unit != "" {
			l.Gap(1).Add(f.th.Dim.Render(unit))
		}
		return l.Fit(w)
	}
	value, given := f.shown(fl)
	value = text.Cut(text.Clean(value), room)
	if i == f.sel {
		return f.th.Selected.Render(text.Left(" "+theme.Pointer+" "+name+"  "+value, w))
	}
	if !given {
		value = f.th.Dim.Render(value)
	}
	return text.Spaces(pointerCells) + f.th.Label.Render(name) + "  " + value
}

// shown is a field's value in words, and whether it has one.
func (f *Form) shown(fl *Field) (string, bool) {
	empty := fl.Empty
	if empty == "" {
		empty = "—"
	}
	switch fl.Kind {
	case Many:
		var names []string
		for _, v := range fl.Values {
			names = append(names, fl.name(v))
		}
		if len(names) > 0 {
			return strings.Join(names, ", "), true
		}
	case Choice, Truth:
		if fl.Value != "" {
			return fl.name(fl.Value), true
		}
		if fl.Kind == Truth && fl.Empty == "" {
			return "unknown", false
		}
	default:
		if fl.Value != "" {
			return fl.Value, true
		}
	}
	return empty, false
}

func (f *Field) name(value string) string {
	for _, o := range f.Options {
		if o.Value == value {
			return o.Name
		}
	}
	return value
}

// below adds what stands under a field: what is wrong with it, and for the
// focused one its options, open list or hint.
func (f *Form) below(lines []string, i, label, w, h int) []string {
	fl := &f.fields[i]
	indent := text.Spaces(min(pointerCells+label+2, w/2))
	room := max(1, w-text.Width(indent))
	if wrong := f.wrong[fl.ID]; wrong != "" {
		for _, s := range text.Wrap(text.Clean(wrong), room) {
			lines = append(lines, indent+f.th.Error.Render(s))
		}
	}
	if i != f.sel {
		return lines
	}
	switch f.state {
	case listing:
		n := min(len(fl.Options)+1, listMost, max(1, h-1))
		for _, s := range f.list.View(room, n) {
			lines = append(lines, indent+s)
		}
		return lines
	case ticking:
		return f.ticks(lines, fl, indent, room, min(listMost, max(1, h-1)))
	case browsing:
		if fl.Why == "" && len(fl.Options) > 0 && len(fl.Options) <= numbered {
			lines = f.offered(lines, fl, indent, room)
		}
	case typing: // its hint says what may be typed
	}
	hint := fl.Hint
	if fl.Why != "" {
		hint = fl.Why
	}
	if f.state == browsing && fl.Why == "" && len(fl.Options) > numbered {
		hint = strings.TrimPrefix(hint+"; Enter lists all", "; ")
	}
	if fl.Unit != "" && fl.Why == "" {
		hint = strings.TrimPrefix(hint+"; a bare number is "+fl.Unit, "; ")
	}
	for _, s := range text.Wrap(text.Clean(hint), room) {
		lines = append(lines, indent+f.th.Dim.Render(s))
	}
	return lines
}

// offered sets the numbered options side by side, in as many lines as they need.
func (f *Form) offered(lines []string, fl *Field, indent string, room int) []string {
	var l text.Line
	for i, o := range fl.Options {
		name := text.Clean(o.Name)
		if fl.Kind == Many {
			name = tick(fl.Has(o.Value)) + name
		}
		need := 2 + text.Width(name)
		if l.Width() > 0 && l.Width()+2+need > room {
			lines = append(lines, indent+l.String())
			l = text.Line{}
		}
		if l.Width() > 0 {
			l.Gap(2)
		}
		l.Add(f.th.Key.Render(strconv.Itoa(i + 1))).Gap(1)
		if fl.Kind != Many && o.Value == fl.Value {
			name = f.th.Strong.Render(name)
		}
		l.Add(name)
	}
	return append(lines, indent+l.String())
}

func tick(on bool) string {
	if on {
		return "[x] "
	}
	return "[ ] "
}

// ticks draws an open Many in at most h lines.
func (f *Form) ticks(lines []string, fl *Field, indent string, room, h int) []string {
	top := max(f.mark-h+1, min(f.ticksTop, f.mark))
	f.ticksTop, f.ticksRows = top, h
	for i := top; i < min(len(fl.Options), top+h); i++ {
		o := &fl.Options[i]
		number := " "
		if n := i - top + 1; n <= numbered {
			number = strconv.Itoa(n)
		}
		name := tick(fl.Has(o.Value)) + text.Clean(o.Name)
		if i == f.mark {
			line := theme.Pointer + number + " " + name + "  " + text.Clean(o.Note)
			lines = append(lines, indent+f.th.Selected.Render(text.Left(line, room)))
			continue
		}
		var l text.Line
		l.Gap(1).Add(f.th.Key.Render(number)).Gap(1).Add(name).Gap(2).Add(f.th.Dim.Render(text.Clean(o.Note)))
		lines = append(lines, indent+l.Fit(room))
	}
	return lines
}
