package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// Field is one line of a form: free text, or one of some numbered choices.
type Field struct {
	Section string // the heading it begins, "" for none
	Label   string
	Text    string   // what is typed, or the choice taken
	Hint    string   // unit, or what holds while nothing is stated
	Choices []string // numbered from 1; empty for free text
	// Digits has digits alone choose, where a letter would be a key of the page beneath.
	Digits  bool
	Several bool // any number of the choices; Text is them with commas
	// Offers are texts that are likely: → behind the text takes the next one.
	// Anything else can be typed all the same.
	Offers []string
	Ending string // what is typed goes before this end of the text, which stays

	opened string // the text when the field was entered
	line   widget.Input
	typed  bool   // something was typed since
	at     int    // of several choices: the one the cursor is on
	beyond int    // how many choices the digits are beyond the first: 0, 9, …
	sought string // the letters by which a choice is being found
	missed string // why the key pressed last found none, "" where it did
}

// Enter opens the field: what is typed first replaces what stands there.
func (f *Field) Enter() {
	f.opened = f.Text
	f.anew()
}

// anew has what is typed first replace what stands there, as when the field was
// opened: what was proposed, and what was refused.
func (f *Field) anew() {
	f.typed, f.at, f.sought, f.missed = false, 0, "", ""
	f.put(f.Text)
}

// put has the line edited be a text, the cursor before its ending.
func (f *Field) put(text string) {
	f.line.Set(text)
	if strings.HasSuffix(text, f.Ending) {
		for range f.Ending {
			f.line.Handle(keys.Key(keys.Left))
		}
	}
}

// Resume goes on in a field that was made anew after a change of it: the place
// among choices stays.
func (f *Field) Resume(was *Field) {
	f.Enter()
	f.typed, f.at, f.beyond, f.sought = was.typed, was.at, was.beyond, was.sought
}

// Changed tells whether the text differs from when the field was opened.
func (f *Field) Changed() bool { return f.Text != f.opened }

// Revert puts back what stood in the field when it was opened.
func (f *Field) Revert() {
	f.Text = f.opened
	f.Enter()
}

// rows are the keys that type or choose; who shows them gives them their act.
func (f *Field) rows() []keys.Row {
	if len(f.Choices) == 0 {
		// A ? that comes first asks for help: it would replace what stands there.
		typing := keys.Row{Text: true, Help: !f.typed, Keys: widget.EditKeys(), Show: "letters", Long: "type; what is typed first replaces what stands there. Backspace deletes a character back, Delete the one the cursor is on, at the end all of them", Rank: 9}
		if f.offered() {
			typing.Keys = slices.DeleteFunc(typing.Keys, func(k string) bool { return k == keys.Right })
			return []keys.Row{{Keys: []string{keys.Right}, Show: "→", Short: "a likely one", Long: "the next text that is likely here; anything else can be typed", Rank: 3}, typing}
		}
		return []keys.Row{typing}
	}
	n := min(9, len(f.Choices))
	var more []keys.Row
	if !f.Digits {
		more = []keys.Row{{Text: true, Help: true, Show: "letters", Long: "find the choice that begins so; one letter again: the next one that does", Rank: 9}}
	}
	if len(f.Choices) > 9 {
		more = append(more, keys.Row{Keys: []string{".", ","}, Show: ".", Short: "other digits", Long: "the digits stand beside the other choices", Rank: 4})
	}
	if f.Several {
		return append([]keys.Row{
			{Keys: append(keys.Digits(n), keys.Space), Show: digits(n), Short: "mark", Long: "mark the numbered choice, or take its mark away; Space the one the pointer is on", Rank: 3},
			{Keys: []string{keys.Left, keys.Right}, Show: "←→", Short: "choice", Long: "to the choice before, to the next one", Rank: 4},
			{Keys: []string{"0", keys.Backspace, keys.Delete}, Show: "0", Short: "none, not stated", Long: "state that there is none of them; again: state nothing", Rank: 5},
		}, more...)
	}
	return append([]keys.Row{
		{Keys: append(keys.Digits(n), keys.Left, keys.Right, keys.Space), Show: digits(n) + " ←→", Short: "choose", Long: "take the numbered choice; the one before, the next one", Rank: 3},
		{Keys: []string{"0", keys.Backspace, keys.Delete}, Show: "0", Short: "not stated", Long: "state none", Rank: 5},
	}, more...)
}

// digits are those that choose of n choices.
func digits(n int) string {
	if n == 1 {
		return "1"
	}
	return "1-" + strconv.Itoa(n)
}

// Press takes a key that types or chooses, and tells whether it was one.
func (f *Field) Press(e keys.Event) bool {
	row := keys.Find(e, f.rows())
	if row == nil {
		return false
	}
	f.missed = ""
	if len(f.Choices) > 0 {
		if row.Text || f.sought != "" && e.Rune != 0 && f.finds(f.sought+string(e.Rune), 0) >= 0 {
			f.seek(e)
			return true
		}
		lost := f.sought != "" && f.finds(f.sought, 0) < 0
		switch {
		case lost && e.Key == "0": // goes on with what was typed, and states nothing
			f.seek(e)
			return true
		case lost && e.Key == keys.Backspace: // of the letters, and states nothing
			f.sought = ""
			return true
		}
		f.sought = ""
	}
	if len(f.Choices) > 0 && (e.Key == "." || e.Key == ",") {
		f.beyond += 9
		if f.beyond >= len(f.Choices) {
			f.beyond = 0
		}
		return true
	}
	switch {
	case f.Several:
		f.pressSeveral(e)
		return true
	case len(f.Choices) > 0:
		f.pressChoice(e)
		return true
	}
	if e.Key == keys.Right && f.offered() {
		at := slices.Index(f.Offers, f.Text) // -1 where it is none of them
		f.Text = f.Offers[(at+1)%len(f.Offers)]
		f.line.Set(f.Text)
		f.typed = false
		return true
	}
	if !f.typed {
		if f.put(f.Text); f.Ending != "" && e.Key == keys.Right { // the cursor is where typing goes on
			f.typed = true
			return true
		}
		if e.Rune != 0 || e.Key == "" {
			f.put(f.Ending)
		}
	}
	f.typed = true
	if !f.line.Handle(e) && e.Key == keys.Delete {
		f.line.Set("")
	}
	f.Text = f.line.Text()
	return true
}

// offered tells that → takes a likely text: there are some, and nothing stands
// behind the cursor to go to.
func (f *Field) offered() bool {
	return len(f.Offers) > 0 && len(f.Choices) == 0 && (!f.typed || f.line.AtEnd())
}

func (f *Field) chosen() int {
	for i, c := range f.Choices {
		if c == f.Text {
			return i
		}
	}
	return -1
}

// seek takes what is typed or pasted as the beginning of a choice.
func (f *Field) seek(e keys.Event) {
	at := f.at
	if !f.Several {
		at = f.chosen()
	}
	typed := string(e.Rune)
	if e.Key == "" {
		f.sought, typed = "", strings.TrimSpace(e.Paste)
	}
	text, from := f.sought+typed, at
	if f.sought == "" {
		from++
	}
	i := f.finds(text, from)
	if i < 0 && strings.Count(text, typed)*len(typed) == len(text) { // the same letter again
		text = typed
		i = f.finds(text, at+1)
	}
	switch {
	case i < 0 && f.Several && strings.EqualFold(text, NoneOfThem):
		f.Text = NoneOfThem
	case i < 0: // what is typed on belongs to the same word, and finds no other choice
		f.sought = text
		f.missed = f.unfound()
		return
	case f.Several:
		f.at = i
	default:
		f.Text = f.Choices[i]
	}
	f.sought = text
}

// unfound says that no choice begins with the letters that were typed, "" where one
// does or none were.
func (f *Field) unfound() string {
	if f.sought == "" || len(f.Choices) == 0 || f.finds(f.sought, 0) >= 0 || f.Several && strings.EqualFold(f.sought, NoneOfThem) {
		return ""
	}
	return fmt.Sprintf("no choice begins with %q: Backspace forgets the letters, a digit or ← → takes one", f.sought)
}

// finds is the choice from one on, round the end, that begins with a text, else
// the one a word of which does; -1 for none.
func (f *Field) finds(text string, from int) int {
	text = strings.ToLower(text)
	n := len(f.Choices)
	word := -1
	for k := range n {
		i := (max(0, from) + k) % n
		switch c := strings.ToLower(f.Choices[i]); {
		case strings.HasPrefix(c, text):
			return i
		case word < 0 && slices.ContainsFunc(strings.FieldsFunc(c, func(r rune) bool { return r == '-' || r == ' ' || r == '_' }), func(w string) bool { return strings.HasPrefix(w, text) }):
			word = i
		}
	}
	return word
}

func (f *Field) pressChoice(e keys.Event) {
	n := len(f.Choices)
	if d, ok := e.Digit(); ok {
		switch {
		case d == 0:
			f.Text = ""
		case f.beyond+d <= n:
			i := f.beyond + d - 1
			f.Text = f.Choices[i]
			// A name may be typed by its number: 1 may go on to be the 150 of class-150.
			if f.finds(e.Key, i) == i {
				f.sought = e.Key
			}
		}
		return
	}
	switch e.Key {
	case keys.Right, keys.Space:
		f.Text = f.Choices[(f.chosen()+1)%n]
	case keys.Left:
		f.Text = f.Choices[(max(0, f.chosen())+n-1)%n]
	case keys.Delete, keys.Backspace:
		f.Text = ""
	}
}

func (f *Field) pressSeveral(e keys.Event) {
	n := len(f.Choices)
	if d, ok := e.Digit(); ok {
		switch {
		case d == 0 && f.Text != NoneOfThem:
			f.Text = NoneOfThem
		case d == 0:
			f.Text = ""
		case f.beyond+d <= n:
			f.at = f.beyond + d - 1
			f.toggle()
		}
		return
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
	}
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

// Lines draws the field in w cells, its label in the first label cells. All
// choices of a field that is open are shown, in as many lines as they take.
func (f *Field) Lines(t *draw.Theme, open bool, label, w int) []string {
	pointer, name := " ", t.Label.Render(draw.Left(draw.Clean(f.Label), label))
	if open {
		pointer, name = draw.Pointer, t.Strong.Render(draw.Left(draw.Clean(f.Label), label))
	}
	room := max(4, w-label-4)
	head := " " + pointer + " " + name + " "
	shown := draw.Clean(f.Text)
	switch {
	case open && len(f.Choices) > 0:
		var out []string
		for _, l := range f.choiceLines(t, room) {
			out = append(out, head+l)
			head = draw.Spaces(label + 4)
		}
		return out
	case !open && shown == "":
		return []string{head + t.Dim.Render(draw.Cut("not stated  "+f.Hint, room))}
	case !open:
		return []string{head + draw.Cut(shown, room)}
	}
	used := min(room, draw.Width(shown)+1)
	line := f.line.View(t, used)
	if !f.typed && shown != "" {
		line = t.Selected.Render(draw.Tail(shown, used-1)) + t.Cursor.Render("_")
	}
	hint := f.Hint
	if f.offered() {
		at := slices.Index(f.Offers, f.Text)
		if next := draw.Clean(f.Offers[(at+1)%len(f.Offers)]); next != shown {
			hint = "→ " + next
		}
	}
	if hint != "" && room-used > 3 {
		line += "  " + t.Dim.Render(draw.Cut(hint, room-used-2))
	}
	return []string{head + line}
}

// choiceLines are the numbered choices in as many lines of w cells as they take.
func (f *Field) choiceLines(t *draw.Theme, w int) []string {
	var out []string
	var l draw.Line
	for i, c := range f.Choices {
		mark, on := "", c == f.Text
		if f.Several {
			on = f.has(c)
			if i == f.at {
				mark = draw.Pointer
			}
		}
		look := t.Dim
		if on {
			look, mark = t.Selected, mark+"●"
		} else if f.Several {
			mark += "○"
		}
		if n := i + 1 - f.beyond; n >= 1 && n <= 9 {
			mark += strconv.Itoa(n) + " "
		}
		piece := draw.Cut(mark+draw.Clean(c), w)
		if l.Width() > 0 && l.Width()+2+draw.Width(piece) > w {
			out = append(out, l.String())
			l = draw.Line{}
		}
		if l.Width() > 0 {
			l.Gap(2)
		}
		l.Add(look.Render(piece))
	}
	if f.Several {
		look, mark := t.Dim, "○"
		if f.Text == NoneOfThem {
			look, mark = t.Selected, "●"
		}
		piece := draw.Cut(mark+"0 "+NoneOfThem, w)
		if l.Width()+2+draw.Width(piece) > w {
			out = append(out, l.String())
			l = draw.Line{}
		} else {
			l.Gap(2)
		}
		l.Add(look.Render(piece))
	}
	return append(out, l.String())
}

// ReadShare reads a share, "30 %", "30" or "0.30"; nothing is not stated.
func ReadShare(s string) (laminate.Optional[float64], error) {
	return readShare(s, quantity.ParseShare)
}

// ReadPercent reads a percentage, "30" or "30 %", into a share; nothing is not
// stated.
func ReadPercent(s string) (laminate.Optional[float64], error) {
	return readShare(s, quantity.ParsePercent)
}

func readShare(s string, parse func(string) (float64, error)) (laminate.Optional[float64], error) {
	if strings.Trim(s, " %") == "" {
		return laminate.Optional[float64]{}, nil
	}
	v, err := parse(s)
	if err != nil {
		return laminate.Optional[float64]{}, err
	}
	return laminate.Some(v), nil
}
