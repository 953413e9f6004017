// Package facts is the form of everything a schedule says beside its plies:
// header, part, service and resins. Every line that is left makes one change,
// so that figures and findings follow at once and each can be taken back.
package facts

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Facts is the page. Make it with New.
type Facts struct {
	desk    *page.Desk
	acts    page.Acts[*Facts]
	body    draw.Rect
	entries []entry
	made    *laminate.Schedule // what the entries were made of
	at      int
	top     int
	left    bool
}

// entry is a line of the form.
type entry struct {
	section string
	field   page.Field
	set     func(text string) (edit.Edit, error)
}

const scope keys.Scope = "facts"

// New makes the form.
func New(d *page.Desk) *Facts {
	f := &Facts{desk: d, acts: acts()}
	f.fill()
	if len(f.entries) > 0 {
		f.entries[0].field.Enter()
	}
	return f
}

// Name is the form's name.
func (*Facts) Name() string { return "facts" }

// SetSize tells the size of the screen.
func (f *Facts) SetSize(w, h int) { f.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset makes the lines anew.
func (f *Facts) Reset() { f.made = nil; f.fill() }

// Bindings are the form's keys.
func (f *Facts) Bindings() []keys.Binding { return f.acts.Bindings() }

// Scope is where they act.
func (*Facts) Scope() keys.Scope { return scope }

// Can tells why a binding cannot act now.
func (f *Facts) Can(id keys.ID) string { return f.acts.Why(f, scope, id) }

// Busy tells that keys of everywhere rest.
func (*Facts) Busy() bool { return true }

// Typing tells that characters go into a field.
func (*Facts) Typing() bool { return true }

// fill makes the lines of the schedule as it stands.
func (f *Facts) fill() {
	s := f.desk.Doc.Now()
	if f.made == s {
		return
	}
	f.made = s
	u := f.desk.Units()
	f.entries = append(append(append(header(s), part(s, u)...), service(s, u)...), resins(s)...)
	f.at = max(0, min(f.at, len(f.entries)-1))
}

// Press handles a key or a paste.
func (f *Facts) Press(e keys.Event) page.Wish {
	fd := &f.entries[f.at].field
	if found, _ := f.acts.Press(f, scope, e); found {
		if f.left {
			f.left = false
			return page.Back
		}
		return page.Done
	}
	if !fd.Press(e) {
		f.desk.Refuse(keys.Name(e.Key) + " does nothing here: ↑↓ go to another line, Esc goes back")
		return page.Done
	}
	if len(fd.Choices) > 0 {
		f.commit()
	}
	return page.Done
}

// commit makes the change of the line worked at; it stays open where it cannot
// be made.
func (f *Facts) commit() bool {
	en := &f.entries[f.at]
	if !en.field.Changed() {
		return true
	}
	e, err := en.set(en.field.Text)
	if err != nil {
		f.desk.Refuse(err.Error())
		return false
	}
	at := en.field
	row := f.desk.Row
	if !f.desk.Apply(e) {
		return false
	}
	f.desk.Go(row)
	// In the form u types a letter.
	f.desk.Notice.Tail = "after Esc, u takes it back"
	f.fill()
	f.entries[f.at].field.Resume(at)
	return true
}

func (f *Facts) move(by int) {
	if !f.commit() {
		return
	}
	f.at = (f.at + by + len(f.entries)) % len(f.entries)
	f.entries[f.at].field.Enter()
}

func (f *Facts) leave() {
	fd := &f.entries[f.at].field
	if fd.Changed() {
		fd.Revert()
		fd.Enter()
		f.desk.Say("put back what stood in the line; Esc again goes back")
		return
	}
	f.left = true
}

func acts() page.Acts[*Facts] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*Facts, keys.Event)) page.Act[*Facts] {
		return page.Act[*Facts]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: "In the form", Rank: rank}, Do: do}
	}
	return page.Acts[*Facts]{
		row("next line", []string{keys.Enter, keys.Down}, "Enter ↓", "take it, next line", "take the line, go to the next", 1, func(f *Facts, _ keys.Event) { f.move(1) }),
		row("line before", []string{keys.Up}, "", "line before", "take the line, go to the one before", 2, func(f *Facts, _ keys.Event) { f.move(-1) }),
		row("choose", []string{keys.Left, keys.Right}, "1-9 ←→", "choose", "in a line of choices: take one; 0 states none", 3, func(f *Facts, e keys.Event) {
			f.entries[f.at].field.Press(e)
			if len(f.entries[f.at].field.Choices) > 0 {
				f.commit()
			}
		}),
		row("screenful", []string{keys.PgUp, keys.PgDown}, "PgUp PgDn", "", "a section up, down", 5, func(f *Facts, e keys.Event) {
			if e.Key == keys.PgUp {
				f.section(-1)
			} else {
				f.section(1)
			}
		}),
		row("back", []string{keys.Esc}, "", "back", "put back what is being typed; again: back", 0, func(f *Facts, _ keys.Event) { f.leave() }),
	}
}

// section goes to the first line of another section.
func (f *Facts) section(by int) {
	if !f.commit() {
		return
	}
	i := f.at
	for i > 0 && f.entries[i-1].section == f.entries[i].section {
		i--
	}
	if by < 0 {
		if i == f.at {
			i = max(0, i-1)
		}
		for i > 0 && f.entries[i-1].section == f.entries[i].section {
			i--
		}
	} else {
		for i < len(f.entries)-1 && f.entries[i].section == f.entries[f.at].section {
			i++
		}
	}
	f.at = i
	f.entries[f.at].field.Enter()
}

const labelWidth = 18

// Lines draws the form, and under it what the rules say by now.
func (f *Facts) Lines() []string {
	f.fill()
	t, w, h := f.desk.Theme, f.body.W, f.body.H
	var lines []string
	focus := 0
	for i := range f.entries {
		en := &f.entries[i]
		if i == 0 || en.section != f.entries[i-1].section {
			if i > 0 {
				lines = append(lines, "")
			}
			lines = append(lines, " "+t.Title.Render(draw.Cut(en.section, w-1)))
		}
		if i == f.at {
			focus = len(lines)
		}
		if choices := choiceLines(t, &en.field, w-labelWidth-4); i == f.at && len(choices) > 1 {
			head := " " + draw.Pointer + " " + t.Strong.Render(draw.Left(en.field.Label, labelWidth)) + " "
			for _, l := range choices {
				lines = append(lines, head+l)
				head = draw.Spaces(labelWidth + 4)
			}
			focus = len(lines) - 1
			continue
		}
		lines = append(lines, en.field.Line(t, i == f.at, labelWidth, w))
	}
	room := h - 2
	if focus >= f.top+room-1 {
		f.top = focus - room + 2
	}
	if focus < f.top+2 {
		f.top = focus - 2
	}
	f.top = max(0, min(f.top, len(lines)-room))
	out := draw.FitLines(lines[f.top:min(len(lines), f.top+room)], w, room)
	r := f.desk.Report()
	say := "no rule has anything to say"
	if len(r.Findings) > 0 {
		say = page.SeverityWord(r.Findings[0].Severity) + ": " + draw.Clean(r.Findings[0].Message)
	}
	head := page.TallyPieces(t, r)
	if f.desk.Quiet {
		head, say = nil, "what check finds is said once the answer is handed in"
	}
	return append(out, widget.Rule(t, w, head...), draw.Cut(" "+say, w))
}

// choiceLines are the numbered choices of a line in as many lines of w cells
// as they take: none may be left to guessing.
func choiceLines(t *draw.Theme, f *page.Field, w int) []string {
	if len(f.Choices) == 0 || f.Several || w < 1 {
		return nil
	}
	var out []string
	var l draw.Line
	for i, c := range f.Choices {
		look, mark := t.Dim, ""
		if c == f.Text {
			look, mark = t.Selected, "●"
		}
		piece := draw.Cut(mark+strconv.Itoa(i+1)+" "+c, w)
		if l.Width() > 0 && l.Width()+2+draw.Width(piece) > w {
			out = append(out, l.String())
			l = draw.Line{}
		}
		if l.Width() > 0 {
			l.Gap(2)
		}
		l.Add(look.Render(piece))
	}
	return append(out, l.String())
}
