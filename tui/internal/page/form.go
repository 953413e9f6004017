package page

import (
	"errors"
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// Form is lines to fill in. Either each line is taken when it is left (Each),
// or all of them at the end (Take): value, Enter, value, Enter.
type Form struct {
	Head   string
	Full   bool   // it takes the page's whole body
	Text   string // a paragraph that stands before the lines
	Fields []*Field
	At     int // the line worked at

	// Each takes a line when it is left, or says why it cannot; a line of
	// choices is taken with the choice.
	Each func(i int) error
	// Once closes the form with the first line that Enter, or a digit, takes.
	Once bool

	// Take takes the form, all lines checked; an error keeps it open, with why.
	Take func() error
	// Check says what is wrong with a line; nil lets anything pass.
	Check func(i int) error
	// Needs is how many lines Enter goes through before it takes the form; the
	// others are gone to by the arrows and keep what they hold. 0 is all.
	Needs int
	// Straight makes Enter take the form from any line.
	Straight bool
	// End is what Enter in the last line does where each line is taken by itself;
	// nil goes to the first line again.
	End func() error
	// Again keeps the form open for another one like it.
	Again bool
	// Keeps tells that what is filled in is there again when it is opened anew.
	Keeps bool
	// EmptyEnds makes Enter in an empty first line leave: the keypad alone will do.
	EmptyEnds bool

	// Changed is told of every key that changed a line.
	Changed func()
	// Below draws what stands under the lines; Foot is how many lines it takes at
	// least, 0 half of the room. With a Foot it may take up to half of the room, and what the
	// lines leave.
	Below func(w, h int) []string
	Foot  int
	// Leave is what comes after it was left; nil: nothing.
	Leave func()

	panel
	top    int
	under  []string // what Below drew where there is a Foot
	warned bool     // Esc was pressed once with something typed
	doubt  *Doubt   // what is asked of the line worked at
	opened bool
	first  []string // what stood in the lines then
}

// Title heads it.
func (f *Form) Title() string { return f.Head }

// Whole tells that it takes the page's whole body.
func (f *Form) Whole() bool { return f.Full }

// Field is the line worked at.
func (f *Form) Field() *Field {
	if !f.opened {
		f.focus(f.At)
	}
	return f.Fields[f.At]
}

func (f *Form) focus(i int) {
	if !f.opened {
		f.begin()
	}
	f.At = max(0, min(i, len(f.Fields)-1))
	f.Fields[f.At].Enter()
}

// begin notes how it stands before anything is typed.
func (f *Form) begin() {
	f.opened, f.first = true, f.first[:0]
	for _, fd := range f.Fields {
		f.first = append(f.first, fd.Text)
	}
}

// Refill replaces the lines by others made of what is stated by now; the line
// worked at goes on as it was.
func (f *Form) Refill(fields []*Field) {
	was := f.Field()
	f.Fields = fields
	f.At = max(0, min(f.At, len(fields)-1))
	f.Fields[f.At].Resume(was)
}

func (f *Form) needs() int {
	if f.Needs < 1 || f.Needs > len(f.Fields) {
		return len(f.Fields)
	}
	return f.Needs
}

// begun tells whether something is typed in the line worked at that nobody has taken.
func (f *Form) begun() bool {
	return f.Field().Changed() && (f.Field().Text != "" || f.Each != nil)
}

// filled tells whether other lines were filled in that nobody has taken.
func (f *Form) filled() bool {
	for i, fd := range f.Fields[:f.needs()] {
		if f.Each == nil && i != f.At && fd.Text != "" && i < len(f.first) && fd.Text != f.first[i] {
			return true
		}
	}
	return false
}

// esc leaves; what is typed and not taken goes line by line, and only when it is
// pressed a second time.
func (f *Form) esc() {
	why := ""
	switch fd := f.Field(); {
	case f.begun() && fd.Text == "":
		why = "emptied, but not taken: Enter takes it, Esc once more puts back what stood there"
	case f.begun():
		why = widget.Unfinished
	case f.filled() && !f.Keeps:
		why = "filled in, but not taken: Esc once more leaves, and drops all of it"
	}
	switch {
	case why != "" && !f.warned:
		f.warned = true
		f.desk.Refuse(why)
	case f.begun() && len(f.Fields) > 1 && !f.Once:
		if f.Field().Revert(); f.Changed != nil {
			f.Changed()
		}
		said := "the line is as it was; Esc leaves"
		if f.filled() && !f.Keeps {
			said += ", and drops the lines that are filled in"
		}
		f.desk.Say(said)
	default:
		f.leave(f.Leave)
	}
}

// commit takes the line worked at, where each is taken by itself.
func (f *Form) commit() bool {
	if f.Each == nil || !f.Field().Changed() {
		return true
	}
	fd := f.Field()
	if err := f.Each(f.At); err != nil {
		if !errors.Is(err, ErrStay) {
			f.refuse(err)
		}
		return false
	}
	fd.opened = fd.Text
	return true
}

func (f *Form) move(by int) {
	if !f.commit() {
		return
	}
	n := len(f.Fields)
	f.focus((f.At + by + n) % n)
}

// section goes to the first line of another section.
func (f *Form) section(by int) {
	if !f.commit() {
		return
	}
	i := f.At
	for i > 0 && f.Fields[i].Section == "" {
		i--
	}
	if by > 0 || i == f.At {
		for i += by; i > 0 && i < len(f.Fields)-1 && f.Fields[i].Section == ""; {
			i += by
		}
	}
	f.focus(i)
}

func (f *Form) enter() {
	if why := f.Field().unfound(); why != "" { // the choice that stands there is not what was typed
		f.Field().sought = ""
		f.desk.Refuse(why)
		return
	}
	switch {
	case f.Each != nil && f.Once:
		if f.commit() {
			f.done()
		}
		return
	case f.Each != nil && f.End != nil && f.At == len(f.Fields)-1:
		if f.commit() {
			f.done()
			if err := f.End(); err != nil {
				f.desk.Refuse(err.Error())
			}
		}
		return
	case f.Each != nil:
		f.move(1)
		return
	case f.EmptyEnds && f.At == 0 && strings.TrimSpace(f.Field().Text) == "":
		f.leave(f.Leave)
		return
	}
	if err := f.wrong(f.At); err != nil {
		f.refuse(err)
		return
	}
	if !f.Straight {
		switch needs := f.needs(); {
		case f.At >= needs:
			f.focus(0)
			return
		case f.At < needs-1:
			f.focus(f.At + 1)
			return
		}
	}
	for i := range f.Fields {
		if err := f.wrong(i); err != nil {
			f.focus(i)
			f.refuse(err)
			return
		}
	}
	if err := f.Take(); err != nil || !f.Again {
		if !f.taken(err) {
			f.Field().anew()
		}
		return
	}
	for i := range f.needs() {
		f.Fields[i].Text = ""
	}
	f.begin()
	f.focus(0)
}

// refuse says what is wrong with the line worked at, or asks: what is typed next
// replaces what stands there.
func (f *Form) refuse(err error) {
	if !errors.As(err, &f.doubt) {
		f.Field().anew()
	}
	f.desk.Refuse(err.Error())
}

func (f *Form) wrong(i int) error {
	if f.Check == nil {
		return nil
	}
	return f.Check(i)
}

func (f *Form) press(e keys.Event) {
	fd := f.Field()
	before := fd.Text
	fd.Press(e)
	if fd.missed != "" {
		f.desk.Refuse(fd.missed)
	}
	if fd.Text == before {
		return
	}
	if f.Each != nil && len(fd.Choices) > 0 {
		_, digit := e.Digit()
		if f.commit() && f.Once && digit && !fd.Several {
			f.done()
		}
	}
	if f.Changed != nil {
		f.Changed()
	}
}

// Table is its keys.
func (f *Form) Table() keys.Table {
	if f.doubt != nil {
		return f.doubtKeys()
	}
	const g = "Filling in"
	do := func(act func()) func(keys.Event) {
		return func(keys.Event) {
			f.warned = false
			act()
		}
	}
	// Who was warned takes with Enter: a key that only goes elsewhere does not.
	leaves := func(act func(keys.Event)) func(keys.Event) {
		return func(e keys.Event) {
			if f.warned && f.Each != nil && f.begun() {
				f.desk.Refuse(widget.Unfinished)
				return
			}
			f.warned = false
			act(e)
		}
	}
	enter := keys.Row{Keys: []string{keys.Enter}, Short: "next, take", Long: "the next line; from the last one: take it", Group: g, Rank: 1, Do: do(f.enter)}
	switch {
	case f.Each != nil && !f.Once:
		enter.Short, enter.Long = "take it, next line", "take the line, go to the next"
	case f.Each != nil, f.Straight, f.needs() == 1:
		enter.Short, enter.Long = "take it", "take what is filled in"
	}
	t := keys.Table{enter}
	if len(f.Fields) > 1 {
		t = append(t, keys.Row{Keys: []string{keys.Up, keys.Down, keys.ShiftTab, keys.Tab}, Show: "↑↓", Short: "line", Long: "the line before, the next one", Group: g, Rank: 2, Do: leaves(func(e keys.Event) {
			if e.Key == keys.Up || e.Key == keys.ShiftTab {
				f.move(-1)
			} else {
				f.move(1)
			}
		})})
	}
	if f.sections() {
		t = append(t, keys.Row{Keys: []string{keys.PgUp, keys.PgDown}, Long: "a section up, down", Group: g, Rank: 9, Do: leaves(func(e keys.Event) {
			if e.Key == keys.PgUp {
				f.section(-1)
			} else {
				f.section(1)
			}
		})})
	}
	for _, r := range f.Field().rows() {
		r.Group, r.Do = g, func(e keys.Event) {
			f.warned = false
			f.press(e)
		}
		t = append(t, r)
	}
	return append(t, keys.Row{Keys: []string{keys.Esc}, Short: "leave", Long: "leave it; where something is typed that is not taken, the second time drops the line", Group: g, Do: func(keys.Event) { f.esc() }})
}

func (f *Form) sections() bool {
	n := 0
	for _, fd := range f.Fields {
		if fd.Section != "" {
			n++
		}
	}
	return n > 1
}

// leastFields is how many lines of a form a paragraph over them leaves at least.
const leastFields = 4

// room is how many lines the fields have.
func (f *Form) room() int {
	h := f.tall() - len(f.paragraph(f.Text, len(f.Fields), min(len(f.Fields), leastFields)))
	switch {
	case f.Below == nil:
	case f.Foot > 0:
		h -= f.foot()
	case len(f.Fields) > h/2:
		// What a value does is the point of entering it: at least half of the
		// room stays for it.
		h -= h / 2
	}
	return max(1, h)
}

// foot is how many lines are kept for what stands under the others.
func (f *Form) foot() int { return max(f.Foot, len(f.under)) }

// Settle keeps the line worked at in sight.
func (f *Form) Settle() {
	if f.Foot > 0 && f.Below != nil {
		room := max(f.Foot, f.tall()/2, f.tall()-len(f.Fields))
		f.under = fitBelow(f.Below(f.w, room), f.w, room)
	}
	lines, from, to := f.fields()
	room := f.room()
	f.top = max(0, min(f.top, from-1, len(lines)-room))
	f.top = max(f.top, to-room+1)
}

// labelCells is the room of the labels.
func (f *Form) labelCells() int {
	label := 0
	for _, fd := range f.Fields {
		label = max(label, draw.Width(fd.Label))
	}
	return min(label, f.w/2)
}

// fields draws all lines; the one worked at takes those from and to.
func (f *Form) fields() (lines []string, from, to int) {
	t, label := f.desk.Theme, f.labelCells()
	at := f.Field()
	for i, fd := range f.Fields {
		if fd.Section != "" {
			if i > 0 {
				lines = append(lines, "")
			}
			lines = append(lines, " "+t.Title.Render(draw.Cut(draw.Clean(fd.Section), max(1, f.w-1))))
		}
		if fd == at {
			from = len(lines)
		}
		if fd == at && f.doubt != nil {
			lines = append(lines, f.asked(label)...)
		} else {
			lines = append(lines, fd.Lines(t, fd == at, label, f.w)...)
		}
		if fd == at {
			to = len(lines) - 1
		}
	}
	return lines, from, to
}

// Lines draws it.
func (f *Form) Lines() []string {
	if f.w < 1 || f.h < 1 {
		return nil
	}
	out := f.paragraph(f.Text, len(f.Fields), min(len(f.Fields), leastFields))
	lines, _, _ := f.fields()
	room := min(f.room(), len(lines))
	top := max(0, min(f.top, len(lines)-room))
	out = append(out, lines[top:top+room]...)
	if n := len(out) - 1; top+room < len(lines) { // more lines follow
		out[n] = draw.Ends(strings.TrimRight(out[n], " "), "▼", f.w)
	}
	if f.Foot > 0 {
		for len(out) < f.tall()-f.foot() {
			out = append(out, "")
		}
		out = append(out, f.under...)
	} else if left := f.tall() - len(out); f.Below != nil && left > 0 {
		out = append(out, fitBelow(f.Below(f.w, left), f.w, left)...)
	}
	return draw.FitLines(out, f.w, f.h)
}
