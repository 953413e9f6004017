package page

import (
	"fmt"
	"strings"

	"frp/veilwright/tui/internal/keys"
)

// Doubt is what a form's Check returns where a line is hardly meant as it was typed:
// the form asks which of the answers stands, and none of them is under Enter. What was
// typed is never changed by a key that would have taken it.
type Doubt struct {
	Why     string
	Answers []Answer
}

// Answer is one text for the line, and how it is said.
type Answer struct{ Text, Said string }

// AsTyped doubts a text: as it was typed, written out, or as is likely meant.
func AsTyped(why, typed, likely string) *Doubt {
	return &Doubt{why, []Answer{{typed, typed + ", as typed"}, {likely, likely}}}
}

// Error asks.
func (d *Doubt) Error() string {
	parts := make([]string, len(d.Answers))
	for i, a := range d.Answers {
		parts[i] = fmt.Sprintf("%d %s", i+1, a.Said)
	}
	return d.Why + "? " + strings.Join(parts, "   ")
}

// doubtKeys are the keys while the form asks which answer stands.
func (f *Form) doubtKeys() keys.Table {
	const g = "Filling in"
	n := len(f.doubt.Answers)
	return keys.Table{
		{Keys: keys.Digits(n), Show: digits(n), Short: "take one", Long: "take the numbered answer", Group: g, Rank: 1, Do: func(e keys.Event) {
			i, _ := e.Digit()
			fd := f.Field()
			fd.Text = f.doubt.Answers[i-1].Text
			f.doubt = nil
			fd.Enter()
			f.enter()
		}},
		{Keys: []string{keys.Enter}, Long: "nothing: a digit takes an answer", Group: g, Rank: 9, Do: keys.Do(func() { f.desk.Refuse(f.doubt.Error()) })},
		{Keys: []string{keys.Esc, keys.Backspace, keys.Delete}, Show: keys.Esc, Short: "type again", Long: "back to the line, to type it again", Group: g, Rank: 2, Do: keys.Do(func() {
			f.doubt = nil
			f.Field().Enter()
		})},
	}
}

// asked is the line worked at while the form asks.
func (f *Form) asked(label int) []string {
	line := Field{Label: f.Field().Label}
	for _, a := range f.doubt.Answers {
		line.Choices = append(line.Choices, a.Said)
	}
	return line.Lines(f.desk.Theme, true, label, f.w)
}
