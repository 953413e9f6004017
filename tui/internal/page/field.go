package page

import (
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// longestEntry is the most a field takes; no value of a schedule needs more.
const longestEntry = 500

// Field is one line of a form: free text, or one of some numbered choices.
type Field struct {
	Label   string
	Text    string   // what is typed, or the choice taken
	Hint    string   // unit, or what holds while nothing is stated
	Choices []string // numbered from 1; empty for free text
	Several bool     // any number of the choices; Text is them with commas

	opened string // the text when the field was entered
	typed  bool   // something was typed since
	at     int    // of several choices: the one the cursor is on
}

// Enter opens the field: what is typed first replaces what stands there.
func (f *Field) Enter() {
	f.opened, f.typed, f.at = f.Text, false, 0
}

// Resume goes on in a field that was made anew after a change of it: what is
// typed, and the place among choices, stay.
func (f *Field) Resume(was Field) {
	f.opened, f.typed, f.at = f.Text, was.typed, was.at
}

// Changed tells whether the text differs from when the field was opened.
func (f *Field) Changed() bool { return f.Text != f.opened }

// Revert puts back what stood in the field when it was opened.
func (f *Field) Revert() { f.Text, f.typed = f.opened, false }

// Press takes a key that types or chooses, and tells whether it was one.
func (f *Field) Press(e keys.Event) bool {
	switch {
	case f.Several:
		return f.pressSeveral(e)
	case len(f.Choices) > 0:
		return f.pressChoice(e)
	}
	if e.Key == "" {
		f.add(strings.ReplaceAll(e.Paste, "\n", " "))
		return true
	}
	switch {
	case e.Rune != 0:
		f.add(string(e.Rune))
	case e.Key == keys.Backspace:
		f.typed = true
		if r := []rune(f.Text); len(r) > 0 {
			f.Text = string(r[:len(r)-1])
		}
	case e.Key == keys.Delete:
		f.Text, f.typed = "", true
	case e.Key == keys.Right, e.Key == keys.End:
		f.typed = true // go on where the text ends
	default:
		return false
	}
	return true
}

func (f *Field) add(s string) {
	if !f.typed {
		f.Text, f.typed = "", true
	}
	if len(f.Text)+len(s) <= longestEntry {
		f.Text += s
	}
}

func (f *Field) chosen() int {
	for i, c := range f.Choices {
		if c == f.Text {
			return i
		}
	}
	return -1
}

func (f *Field) pressChoice(e keys.Event) bool {
	n := len(f.Choices)
	if d, ok := e.Digit(); ok {
		switch {
		case d == 0:
			f.Text = ""
		case d <= n:
			f.Text = f.Choices[d-1]
		}
		return true
	}
	switch e.Key {
	case keys.Right, keys.Space:
		f.Text = f.Choices[(f.chosen()+1)%n]
	case keys.Left:
		f.Text = f.Choices[(max(0, f.chosen())+n-1)%n]
	case keys.Delete, keys.Backspace:
		f.Text = ""
	default:
		return e.Key == "" || e.Rune != 0
	}
	return true
}

func (f *Field) pressSeveral(e keys.Event) bool {
	n := len(f.Choices)
	if d, ok := e.Digit(); ok {
		switch {
		case d == 0:
			f.Text = ""
		case d <= n:
			f.at = d - 1
			f.toggle()
		}
		return true
	}
	switch e.Key {
	case keys.Right:
		f.at = (f.at + 1) % n
	case keys.Left:
		f.at = (f.at + n - 1) % n
	case keys.Space:
		f.toggle()
	case keys.Delete, keys.Backspace:
		f.Text = ""
	default:
		return e.Key == "" || e.Rune != 0
	}
	return true
}

func (f *Field) toggle() {
	var list []string
	had := false
	for i, c := range f.Choices {
		on := f.has(c)
		if i == f.at {
			had, on = on, !on
		}
		if on {
			list = append(list, c)
		}
	}
	f.Text = strings.Join(list, ", ")
	if had && len(list) == 0 {
		f.Text = NoneOfThem
	}
}

// NoneOfThem is the text of a field of several choices that says: none. An
// empty text says that nothing is stated.
const NoneOfThem = "none"

func (f *Field) has(choice string) bool {
	for s := range strings.SplitSeq(f.Text, ",") {
		if strings.TrimSpace(s) == choice {
			return true
		}
	}
	return false
}

// Line draws the field in w cells, its label in the first label cells.
func (f *Field) Line(t *draw.Theme, focused bool, label, w int) string {
	pointer, name := " ", t.Label.Render(draw.Left(f.Label, label))
	if focused {
		pointer, name = draw.Pointer, t.Strong.Render(draw.Left(f.Label, label))
	}
	room := max(4, w-label-4)
	head := " " + pointer + " " + name + " "
	shown := draw.Clean(f.Text)
	if !focused {
		if shown == "" {
			return head + t.Dim.Render(draw.Cut("not stated  "+f.Hint, room))
		}
		return head + draw.Cut(shown, room)
	}
	if len(f.Choices) > 0 {
		return head + f.choiceLine(t, room)
	}
	// The end of a long text is where one types.
	for draw.Width(shown) > room-2 {
		_, n := firstRune(shown)
		shown = shown[n:]
	}
	look := t.Input
	if !f.typed && shown != "" {
		look = t.Selected
	}
	line := look.Render(shown) + t.Cursor.Render("_")
	if used := draw.Width(shown) + 1; f.Hint != "" && room-used > 3 {
		line += "  " + t.Dim.Render(draw.Cut(f.Hint, room-used-2))
	}
	return head + line
}

func firstRune(s string) (rune, int) {
	for i, r := range s {
		if i > 0 {
			return r, i
		}
	}
	return 0, len(s)
}

// choiceLine draws the numbered choices around the one that is taken.
func (f *Field) choiceLine(t *draw.Theme, room int) string {
	type piece struct {
		s  string
		on bool
	}
	pieces := make([]piece, len(f.Choices))
	focus := max(0, f.chosen())
	if f.Several {
		focus = f.at
	}
	for i, c := range f.Choices {
		num := ""
		if i < 9 {
			num = strconv.Itoa(i+1) + " "
		}
		on := c == f.Text
		if f.Several {
			on = f.has(c)
			box := "○"
			if on {
				box = "●"
			}
			num += box
			if i == f.at {
				num = draw.Pointer + num
			}
		} else if on {
			num = "●" + num
		}
		pieces[i] = piece{num + c, on}
	}
	from := 0
	for from < focus {
		w := 0
		for i := from; i <= focus; i++ {
			w += draw.Width(pieces[i].s) + 2
		}
		if w+2 <= room {
			break
		}
		from++
	}
	var l draw.Line
	if from > 0 {
		l.Add("… ")
	}
	for i := from; i < len(pieces); i++ {
		if l.Width()+draw.Width(pieces[i].s) > room {
			break
		}
		style := t.Dim
		if pieces[i].on {
			style = t.Selected
		}
		l.Add(style.Render(pieces[i].s)).Gap(2)
	}
	return draw.Cut(l.String(), room)
}

// ReadPercent reads a percentage, "30" or "30 %", into a share; nothing is not
// stated.
func ReadPercent(s string) (laminate.Optional[float64], error) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%"))
	if s == "" {
		return laminate.Optional[float64]{}, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= 0 && v <= 100) {
		return laminate.Optional[float64]{}, fmt.Errorf("%q is no percentage from 0 to 100", s)
	}
	return laminate.Some(v / 100), nil
}
