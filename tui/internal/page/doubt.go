package page

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Doubt is what a form's Check returns where a line is hardly meant as it was typed:
// the form asks which of the answers stands, one or two. They have keys of their own,
// which no number has and which is not the Enter after one: a value typed ahead, the
// question not seen, answers nothing. What was typed is never changed by another key.
type Doubt struct {
	Why     string
	Answers []Answer
	// Told is told which was given, where its text alone would be asked about again.
	Told func(Answer)
}

// Answer is one text for the line, and how it is said.
type Answer struct{ Text, Said string }

// AsTyped doubts a text: as it was typed, written out, or as is likely meant.
func AsTyped(why, typed, likely string) *Doubt {
	return &Doubt{Why: why, Answers: []Answer{{typed, typed + ", as typed"}, {likely, likely}}}
}

// Sure doubts a text of which nobody can say what else is meant; told that it stands.
func Sure(why, typed string, told func(Answer)) *Doubt {
	return &Doubt{why, []Answer{{typed, typed + ", as typed"}}, told}
}

// answerKeys are the keys of the answers, the first one's and the second one's.
func answerKeys() [2]string { return [2]string{"+", "*"} }

// said are the answers behind their keys.
func (d *Doubt) said() (list []string) {
	for i, a := range d.Answers {
		list = append(list, answerKeys()[i]+" "+a.Said)
	}
	return list
}

// Error asks.
func (d *Doubt) Error() string { return d.Why + "? " + strings.Join(d.said(), "   ") }

// doubtKeys are the keys while the form asks which answer stands.
func (f *Form) doubtKeys() keys.Table {
	const g = "Filling in"
	var t keys.Table
	for i, a := range f.doubt.Answers {
		t = append(t, keys.Row{Keys: []string{answerKeys()[i]}, Short: draw.Cut(draw.Clean(a.Said), 24), Long: "take " + draw.Clean(a.Said), Group: g, Rank: 1, Do: keys.Do(func() { f.answer(i) })})
	}
	return append(t,
		keys.Row{Text: true, Help: true, Keys: []string{keys.Enter}, Long: "nothing: what is typed while this is asked is not taken", Group: g, Rank: 9, Do: keys.Do(func() {
			f.desk.Refuse("NOT TAKEN, this is asked first: " + f.doubt.Error())
		})},
		keys.Row{Keys: []string{keys.Esc, keys.Backspace, keys.Delete}, Show: keys.Name(keys.Esc), Short: "type again", Long: "back to the line, to type it again", Group: g, Rank: 2, Do: keys.Do(func() {
			f.doubt = nil
			f.Field().Enter()
		})})
}

// answer takes an answer, and goes on as Enter does.
func (f *Form) answer(i int) {
	d, fd := f.doubt, f.Field()
	if d.Told != nil {
		d.Told(d.Answers[i])
	}
	fd.Text, f.doubt = d.Answers[i].Text, nil
	fd.Enter()
	f.enter()
}

// asked is the line worked at while the form asks: the answers beside each other, or
// each on a line of its own.
func (f *Form) asked(label int) (lines []string) {
	t, said := f.desk.Theme, f.doubt.said()
	room := max(4, f.w-label-4)
	if all := strings.Join(said, "   "); draw.Width(all) <= room {
		said = []string{all}
	}
	head := " " + draw.Pointer + " " + t.Strong.Render(draw.Left(draw.Clean(f.Field().Label), label)) + " "
	for _, s := range said {
		lines = append(lines, head+t.Strong.Render(draw.Cut(draw.Clean(s), room)))
		head = draw.Spaces(label + 4)
	}
	return lines
}
