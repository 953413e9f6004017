package form

import (
	"slices"
	"strconv"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/widget"
	"frp/veilwright/tui/internal/widget/finder"
	"frp/veilwright/tui/internal/widget/input"
)

// numbered is how many options can have a digit.
const numbered = 9

// Handle takes a key. After Taken, Changed is the field with its new value.
// ours is false for keys the form has no use for, which are then the page's.
func (f *Form) Handle(e keyin.Event) (result widget.Result, ours bool) {
	f.reason = ""
	if len(f.fields) == 0 {
		if e.Key == keyin.Esc {
			return widget.Left, true
		}
		return widget.Going, false
	}
	switch f.state {
	case typing:
		return f.typed(e), true
	case listing:
		return f.listed(e), true
	case ticking:
		return f.ticked(e)
	default:
		return f.browsed(e)
	}
}

func (f *Form) refuse(why string) widget.Result {
	f.reason = why
	return widget.Refused
}

func (f *Form) move(to int) {
	f.sel = max(0, min(to, len(f.fields)-1))
}

func (f *Form) browsed(e keyin.Event) (widget.Result, bool) {
	fl := &f.fields[f.sel]
	if d, ok := e.Digit(); ok {
		return f.digit(fl, d, e), true
	}
	switch e.Key {
	case keyin.Up, keyin.ShiftTab:
		f.move(f.sel - 1)
	case keyin.Down, keyin.Tab:
		f.move(f.sel + 1)
	case keyin.Home, keyin.PgUp:
		f.move(0)
	case keyin.End, keyin.PgDown:
		f.move(len(f.fields) - 1)
	case keyin.Esc:
		return widget.Left, true
	case keyin.Enter:
		return f.open(), true
	case keyin.Delete:
		return f.empty(fl), true
	case "": // a paste
		if fl.Kind != Text && fl.Kind != Number {
			return f.refuse("text can be pasted into texts and numbers only"), true
		}
		if r := f.open(); r != widget.Going {
			return r, true
		}
		f.line.Set("")
		return f.typed(e), true
	default:
		return widget.Going, false
	}
	return widget.Going, true
}

func (f *Form) digit(fl *Field, d int, e keyin.Event) widget.Result {
	if fl.Why != "" {
		return f.refuse(fl.Why)
	}
	if fl.Kind == Text || fl.Kind == Number {
		f.open()
		f.line.Set("")
		return f.typed(e)
	}
	if len(fl.Options) > numbered {
		return f.refuse("Enter lists what can be chosen")
	}
	if d == 0 || d > len(fl.Options) {
		return f.refuse("no option has the number " + strconv.Itoa(d))
	}
	if fl.Kind == Many {
		return f.toggle(fl, d-1)
	}
	return f.take(fl, fl.Options[d-1].Value)
}

// open begins the entry of the focused field.
func (f *Form) open() widget.Result {
	fl := &f.fields[f.sel]
	if fl.Why != "" {
		return f.refuse(fl.Why)
	}
	switch fl.Kind {
	case Text, Number:
		f.state = typing
		f.line = input.Line{}
		f.line.Set(fl.Value)
	case Choice, Truth:
		items := make([]finder.Item, len(fl.Options))
		at := 0
		for i, o := range fl.Options {
			items[i] = finder.Item{Name: o.Name, Note: o.Note}
			if o.Value == fl.Value {
				at = i
			}
		}
		f.state = listing
		f.list = finder.New(f.th, "find", items)
		f.list.Mark(at)
	case Many:
		if len(fl.Options) == 0 {
			return f.refuse("there is nothing to choose")
		}
		f.state = ticking
		f.mark, f.ticksTop, f.ticksRows = 0, 0, 0
	}
	return widget.Going
}

// take gives the field a value and reports it, if it is another than before.
func (f *Form) take(fl *Field, value string) widget.Result {
	f.close()
	delete(f.wrong, fl.ID)
	if fl.Value == value {
		return widget.Going
	}
	fl.Value = value
	f.changed = *fl
	return widget.Taken
}

// empty removes the value.
func (f *Form) empty(fl *Field) widget.Result {
	if fl.Why != "" {
		return f.refuse(fl.Why)
	}
	if fl.Kind == Many {
		if len(fl.Values) == 0 {
			return widget.Going
		}
		fl.Values = nil
		f.changed = *fl
		return widget.Taken
	}
	if fl.Check != nil {
		if wrong := fl.Check(""); wrong != "" {
			return f.refuse(wrong)
		}
	}
	return f.take(fl, "")
}

func (f *Form) typed(e keyin.Event) widget.Result {
	fl := &f.fields[f.sel]
	warned := f.warned
	f.warned = false
	next := f.sel
	switch e.Key {
	case keyin.Enter:
	case keyin.Down, keyin.Tab:
		next++
	case keyin.Up, keyin.ShiftTab:
		next--
	case keyin.Esc:
		if f.line.Text() != fl.Value && !warned {
			f.warned = true
			f.wrong[fl.ID] = input.Unfinished
			return widget.Going
		}
		delete(f.wrong, fl.ID)
		f.close()
		return widget.Going
	default:
		if f.line.Handle(e) {
			delete(f.wrong, fl.ID)
		}
		return widget.Going
	}
	typed := f.line.Text()
	if fl.Check != nil && typed != fl.Value {
		if wrong := fl.Check(typed); wrong != "" {
			f.wrong[fl.ID] = wrong
			return f.refuse(wrong)
		}
	}
	r := f.take(fl, typed)
	f.move(next)
	return r
}

func (f *Form) listed(e keyin.Event) widget.Result {
	fl := &f.fields[f.sel]
	switch f.list.Handle(e) {
	case widget.Taken:
		i, _ := f.list.Choice()
		return f.take(fl, fl.Options[i].Value)
	case widget.Left:
		f.close()
	case widget.Refused:
		return f.refuse(f.list.Reason())
	case widget.Going:
	}
	return widget.Going
}

// ticked is a key for an open Many: every tick is taken at once, so there is
// nothing to lose on the way out.
func (f *Form) ticked(e keyin.Event) (widget.Result, bool) {
	fl := &f.fields[f.sel]
	if d, ok := e.Digit(); ok {
		if d == 0 || f.ticksTop+d > len(fl.Options) || f.ticksRows > 0 && d > f.ticksRows {
			return f.refuse("no option has the number " + strconv.Itoa(d)), true
		}
		f.mark = f.ticksTop + d - 1
		return f.toggle(fl, f.mark), true
	}
	last := len(fl.Options) - 1
	switch e.Key {
	case keyin.Space:
		return f.toggle(fl, f.mark), true
	case keyin.Up, keyin.ShiftTab:
		f.mark--
	case keyin.Down, keyin.Tab:
		f.mark++
	case keyin.Home, keyin.PgUp:
		f.mark = 0
	case keyin.End, keyin.PgDown:
		f.mark = last
	case keyin.Enter, keyin.Esc:
		f.close()
	default:
		return widget.Going, false
	}
	f.mark = max(0, min(f.mark, last))
	return widget.Going, true
}

// toggle ticks an option or takes its tick away; the values keep the options'
// order.
func (f *Form) toggle(fl *Field, i int) widget.Result {
	had := fl.Has(fl.Options[i].Value)
	values := make([]string, 0, len(fl.Values)+1)
	for _, v := range fl.Values { // what no option knows is kept
		if !slices.ContainsFunc(fl.Options, func(o Option) bool { return o.Value == v }) {
			values = append(values, v)
		}
	}
	for j, o := range fl.Options {
		if ticked := fl.Has(o.Value); j == i && !had || j != i && ticked {
			values = append(values, o.Value)
		}
	}
	fl.Values = values
	delete(f.wrong, fl.ID)
	f.changed = *fl
	return widget.Taken
}
