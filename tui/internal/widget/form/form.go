// Package form is a list of labelled fields: texts, numbers with a unit, one of
// several, yes or no or unknown, any of several.
//
// One field has the focus. Enter opens it, Enter again takes what was entered;
// the arrows and Tab go on to another. A digit on a number begins a new one, on
// a choice it takes the numbered option at once. Esc goes one step back and
// drops nothing typed without having said so. Letters are left to the page
// while nothing is being typed.
//
// Each field that is taken is reported at once, so the page applies it, shows
// what it does, and undo takes it back singly; there is no "save form".
package form

import (
	"slices"

	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/widget/finder"
	"frp/veilwright/tui/internal/widget/input"
)

// Kind is what a field holds.
type Kind int

const (
	// Text is any line of text.
	Text Kind = iota
	// Number is a figure, with its unit where it has one, as text: what it
	// means is the page's to say.
	Number
	// Choice is one of the options, or none.
	Choice
	// Truth is yes, no, or not known: the values Yes, No and "".
	Truth
	// Many is any of the options.
	Many
)

// The values of a Truth.
const (
	Yes = "yes"
	No  = "no"
)

// Option is what a Choice or Many offers.
type Option struct {
	Value string // what the field's Value becomes
	Name  string // as shown
	Note  string // what it means, shown in the open list
}

// Field is one labelled line.
type Field struct {
	ID     string
	Group  string // heading over it where it differs from the field before
	Label  string
	Kind   Kind
	Value  string   // as shown; of Choice an option's value, "" for none
	Values []string // of Many
	// Unit is what a bare number is taken in.
	Unit string
	// Options are what Choice and Many offer. Truth has its own.
	Options []Option
	// Empty is shown where there is no value: "not given".
	Empty string
	// Hint is shown under the field while it has the focus.
	Hint string
	// Check tells what is wrong with a typed text, "" if it can be taken.
	Check func(typed string) (wrong string)
	// Why tells why the field cannot be changed, "" if it can.
	Why string
}

// Has reports whether a Many holds an option's value.
func (f *Field) Has(value string) bool { return slices.Contains(f.Values, value) }

// Form is the list. Make it with New.
type Form struct {
	th     *theme.Theme
	fields []Field
	wrong  map[string]string // by field id
	sel    int
	state  state
	line   input.Line
	warned bool
	list   *finder.Finder // an open Choice
	mark   int            // the marked row of an open Many
	// The rows of an open Many drawn last; digits are theirs.
	ticksTop, ticksRows int
	changed             Field
	reason              string
	top                 int
}

type state int

const (
	browsing state = iota
	typing
	listing // an open Choice or Truth
	ticking // an open Many
)

// New makes a form with the focus on its first field.
func New(th *theme.Theme, fields ...Field) *Form {
	f := &Form{th: th, wrong: map[string]string{}}
	f.SetFields(fields...)
	return f
}

// SetFields replaces the fields after the document changed. Focus and what is
// being typed stay if their field is still there; what was wrong is forgotten.
func (f *Form) SetFields(fields ...Field) {
	id := f.Focused()
	var old Field
	if id != "" {
		old = f.fields[f.sel]
	}
	f.fields = slices.Clone(fields)
	for i := range f.fields {
		if f.fields[i].Kind == Truth {
			f.fields[i].Options = []Option{{Value: Yes, Name: "yes"}, {Value: No, Name: "no"}, {Name: "unknown"}}
		}
	}
	clear(f.wrong)
	i := slices.IndexFunc(f.fields, func(fl Field) bool { return fl.ID == id })
	if i < 0 || !sameEntry(old, f.fields[i]) {
		f.close()
	}
	if i < 0 {
		i = min(f.sel, len(f.fields)-1)
	}
	f.sel = max(0, i)
}

// sameEntry reports whether what is open of a field can go on in another.
func sameEntry(a, b Field) bool {
	return a.Kind == b.Kind && b.Why == "" && slices.Equal(a.Options, b.Options)
}

// Focus puts the focus on a field and reports whether there is one of this id.
func (f *Form) Focus(id string) bool {
	i := slices.IndexFunc(f.fields, func(fl Field) bool { return fl.ID == id })
	if i < 0 {
		return false
	}
	if i != f.sel {
		f.close()
	}
	f.sel = i
	return true
}

// Focused returns the id of the field with the focus, "" in an empty form.
func (f *Form) Focused() string {
	if f.sel < 0 || f.sel >= len(f.fields) {
		return ""
	}
	return f.fields[f.sel].ID
}

// Changed returns the field that the last Taken was about, with its new value.
func (f *Form) Changed() Field { return f.changed }

// Draft returns the focused field as it would be if what is typed or marked were
// taken now, for a preview; ok is false while nothing is open.
func (f *Form) Draft() (field Field, ok bool) {
	if len(f.fields) == 0 {
		return Field{}, false
	}
	field = f.fields[f.sel]
	switch f.state {
	case typing:
		field.Value = f.line.Text()
		return field, true
	case listing:
		if i, ok := f.list.Choice(); ok {
			field.Value = field.Options[i].Value
			return field, true
		}
	case browsing, ticking: // nothing is open, or it is taken already
	}
	return Field{}, false
}

// SetError says under a field what is wrong with it, "" for nothing: for what
// only shows when the page applies a value.
func (f *Form) SetError(id, wrong string) {
	if wrong == "" {
		delete(f.wrong, id)
		return
	}
	f.wrong[id] = wrong
}

// Reason says why the last key was refused.
func (f *Form) Reason() string { return f.reason }

// Typing reports that characters go into text.
func (f *Form) Typing() bool { return f.state == typing || f.state == listing }

// close ends what is open without taking it.
func (f *Form) close() {
	f.state, f.list, f.warned = browsing, nil, false
	f.line = input.Line{}
}
