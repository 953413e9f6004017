package app

import (
	"errors"
	"slices"
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// answer is an answer to a question, and what it does.
type answer struct {
	text  string
	note  string // what it is, beside it
	do    func()
	why   string // why it cannot be given, "" if it can
	drops bool   // something is lost by it that no key brings back
}

// ask asks a question with numbered answers: a digit or Enter gives one, Esc
// leaves everything as it is. An answer that drops something has a key of its own:
// a digit meant for a ply only points at it, and Enter does not give it.
func (r *Root) ask(title, text string, at int, answers ...answer) *page.List {
	l := &page.List{Head: title, Text: text, At: at, Verb: "answer"}
	drops := func() bool { i := l.Pointed(); return i >= 0 && answers[i].drops }
	l.Take = func(i int) error {
		if answers[i].drops {
			return errors.New("x gives this answer: Enter drops nothing")
		}
		answers[i].do()
		return nil
	}
	for _, a := range answers {
		item := page.Item{Name: a.text, Note: a.note, Why: a.why}
		if a.drops {
			item.Word, item.Look, item.Points = "x", r.desk.Theme.Key, true
		}
		l.Items = append(l.Items, item)
	}
	if slices.ContainsFunc(answers, func(a answer) bool { return a.drops }) {
		l.Keys = keys.Table{{Keys: []string{"x"}, Short: "drop", Long: "give the selected answer, which drops something for good", Group: "Choosing", Rank: 2, Can: func() string {
			if !drops() {
				return "nothing is dropped by this answer: Enter gives it"
			}
			return ""
		}, Do: keys.Do(func() {
			i := l.Pointed()
			r.remove(l)
			answers[i].do()
		})}}
	}
	r.push(l)
	return l
}

// asked tells whether a question of this title is open.
func (r *Root) asked(title string) bool {
	for _, o := range r.stack {
		if o.Title() == title {
			return true
		}
	}
	return false
}

// showKeys opens the page of all keys that act where it was opened from.
func (r *Root) showKeys() {
	if r.asked("keys") {
		return
	}
	sections := keys.Sections(r.tables()...)
	x := &page.Text{Head: "keys", Search: func(query string, w int) []string { return keyLines(r.desk.Theme, sections, query, w) }}
	x.Keys = keys.Table{{Keys: []string{"?", "f1"}, Long: "back to where you were", Group: "Reading", Do: func(keys.Event) { r.remove(x) }}}
	r.push(x)
}

// keyLines draws the keys under their headings; what cannot act says why.
// Letters leave the lines in which they stand.
func keyLines(t *draw.Theme, sections []keys.Section, query string, w int) []string {
	const indent = 3
	query = strings.ToLower(query)
	wide := 0
	for _, s := range sections {
		for _, e := range s.Entries {
			wide = max(wide, draw.Width(e.Keys))
		}
	}
	wide = min(wide, max(1, w/3))
	var out []string
	for _, s := range sections {
		first := true
		for _, e := range s.Entries {
			if !says(query, e.Keys+" "+e.What+" "+e.Why+" "+s.Title) {
				continue
			}
			if first && len(out) > 0 {
				out = append(out, "")
			}
			if first {
				out = append(out, " "+t.Label.Render(draw.Clean(s.Title)))
			}
			first = false
			room := max(1, w-indent-wide-2)
			shown := draw.Wrap(e.Keys, wide)
			what := draw.Wrap(draw.Clean(e.What), room)
			n := len(what)
			if e.Why != "" {
				what = append(what, draw.Wrap("not now: "+draw.Clean(e.Why), room)...)
			}
			for i := range max(len(shown), len(what)) {
				k, text := "", ""
				if i < len(shown) {
					k = shown[i]
				}
				if i < len(what) {
					text = what[i]
				}
				if i >= n {
					text = t.Dim.Render(text)
				}
				out = append(out, draw.Spaces(indent)+t.Key.Render(draw.Left(k, wide))+"  "+text)
			}
		}
	}
	if out == nil {
		out = []string{t.Dim.Render("  no key says that; Esc shows all")}
	}
	return out
}

func says(query, text string) bool {
	for word := range strings.FieldsSeq(query) {
		if !strings.Contains(strings.ToLower(text), word) {
			return false
		}
	}
	return true
}
