package task

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Sheet is fields filled in one after another: value, Enter, value, Enter.
type Sheet struct {
	Head   string
	Fields []*page.Field
	// Needs is how many fields Enter goes through before it takes the sheet; the
	// others are gone to by the arrows and keep what they hold. 0 is all.
	Needs int
	// EmptyEnds makes Enter in an empty first field leave: the keypad alone will do.
	EmptyEnds bool
	// Check tells what is wrong with a field; nil lets anything pass.
	Check func(i int) error
	// Take takes the sheet, all fields checked, and says what comes next: the
	// sheet itself for another one like it, another task, or nil.
	Take func() (Task, error)
	// Leaving is what comes next where the sheet is left; nil ends it.
	Leaving func() Task
	// Below draws what stands under the fields.
	Below func(t *draw.Theme, w, h int) []string

	at     int
	warned bool // Esc was pressed once with something typed
	opened bool
}

// Title heads the sheet.
func (s *Sheet) Title() string { return s.Head }

// Kind is Filling.
func (*Sheet) Kind() Kind { return Filling }

func (s *Sheet) field() *page.Field { return s.Fields[s.at] }

func (s *Sheet) focus(i int) {
	s.at = max(0, min(i, len(s.Fields)-1))
	s.field().Enter()
	s.opened = true
}

func (s *Sheet) needs() int {
	if s.Needs < 1 || s.Needs > len(s.Fields) {
		return len(s.Fields)
	}
	return s.Needs
}

// begun tells whether something is typed that nobody has taken.
func (s *Sheet) begun() bool {
	if s.field().Changed() && s.field().Text != "" {
		return true
	}
	for i := range s.needs() {
		if i < s.at && s.Fields[i].Changed() && s.Fields[i].Text != "" {
			return true
		}
	}
	return false
}

// Press handles a key.
func (s *Sheet) Press(d *page.Desk, e keys.Event) Task {
	if !s.opened {
		s.focus(s.at)
	}
	warned := s.warned
	s.warned = false
	switch e.Key {
	case keys.Esc:
		if s.begun() && !warned {
			s.warned = true
			d.Refuse(widget.Unfinished)
			return s
		}
		return s.leave()
	case keys.Enter:
		return s.enter(d)
	case keys.Up, keys.ShiftTab:
		s.focus(s.at - 1)
	case keys.Down, keys.Tab:
		s.focus(s.at + 1)
	default:
		if !s.field().Press(e) {
			d.Refuse(keys.Name(e.Key) + " does nothing here: Enter goes on, Esc leaves")
		}
	}
	return s
}

func (s *Sheet) leave() Task {
	if s.Leaving != nil {
		return s.Leaving()
	}
	return nil
}

func (s *Sheet) wrong(i int) error {
	if s.Check == nil {
		return nil
	}
	return s.Check(i)
}

func (s *Sheet) enter(d *page.Desk) Task {
	if s.EmptyEnds && s.at == 0 && strings.TrimSpace(s.Fields[0].Text) == "" {
		return s.leave()
	}
	if err := s.wrong(s.at); err != nil {
		d.Refuse(err.Error())
		return s
	}
	switch needs := s.needs(); {
	case s.at >= needs:
		s.focus(0)
		return s
	case s.at < needs-1:
		s.focus(s.at + 1)
		return s
	}
	for i := range s.Fields {
		if err := s.wrong(i); err != nil {
			s.focus(i)
			d.Refuse(err.Error())
			return s
		}
	}
	next, err := s.Take()
	if err != nil {
		d.Refuse(err.Error())
		return s
	}
	if next == Task(s) {
		for i := range s.needs() {
			s.Fields[i].Text = ""
		}
		s.focus(0)
	}
	return next
}

// Lines draws the fields, the one being filled in in sight, and what stands
// below them.
func (s *Sheet) Lines(t *draw.Theme, w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	if !s.opened {
		s.focus(s.at)
	}
	label := 0
	for _, f := range s.Fields {
		label = max(label, draw.Width(f.Label))
	}
	label = min(label, w/2)
	// What a value does to the verdict is the point of entering it: at least
	// half of the room stays for it, where there is any.
	room := h
	if s.Below != nil && len(s.Fields) > h/2 {
		room = max(1, h-h/2)
	}
	room = min(room, len(s.Fields))
	top := max(0, min(s.at-room/2, len(s.Fields)-room))
	lines := make([]string, 0, h)
	for i := top; i < top+room; i++ {
		lines = append(lines, s.Fields[i].Line(t, i == s.at, label, w))
	}
	if s.Below != nil && h > room {
		lines = append(lines, s.Below(t, w, h-room)...)
	}
	return draw.FitLines(lines, w, h)
}
