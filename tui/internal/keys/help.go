package keys

import (
	"slices"
	"strings"

	"frp/veilwright/tui/internal/draw"
)

// Entry is a key and what it does, ready to be shown.
type Entry struct {
	Keys string
	What string
	Why  string // why it cannot act now, "" if it can
}

// Section is a heading and its entries.
type Section struct {
	Title   string
	Entries []Entry
}

// Sections returns the bindings of the scopes under their headings, in the
// order of the table. can may be nil.
func (t *Table) Sections(can Can, scopes ...Scope) []Section {
	var out []Section
	for _, b := range t.In(scopes...) {
		i := slices.IndexFunc(out, func(s Section) bool { return s.Title == b.Group })
		if i < 0 {
			i = len(out)
			out = append(out, Section{Title: b.Group})
		}
		e := Entry{Keys: b.Shown(), What: b.Long}
		if can != nil {
			e.Why = can(b.ID)
		}
		out[i].Entries = append(out[i].Entries, e)
	}
	return out
}

// Manual returns the sections as plain text for people without the program
// running, lines of at most w cells.
func Manual(sections []Section, w int) string {
	var b strings.Builder
	for i, s := range sections {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(s.Title + "\n")
		wide := 0
		for _, e := range s.Entries {
			wide = max(wide, draw.Width(e.Keys))
		}
		for _, e := range s.Entries {
			for i, line := range draw.Wrap(e.What, w-wide-4) {
				keys := e.Keys
				if i > 0 {
					keys = ""
				}
				b.WriteString("  " + draw.Left(keys, wide) + "  " + line + "\n")
			}
		}
	}
	return b.String()
}

// Hint is a key and its word on the last line.
type Hint struct{ Keys, Word string }

// Hints returns what of the scopes can act here and now and has a word for the
// last line, the most important first; fixed are those of rank 0.
func (t *Table) Hints(can Can, scopes ...Scope) (hints, fixed []Hint) {
	var ranked []Binding
	for _, b := range t.In(scopes...) {
		if b.Short == "" || can != nil && can(b.ID) != "" {
			continue
		}
		ranked = append(ranked, b)
	}
	slices.SortStableFunc(ranked, func(a, b Binding) int { return a.Rank - b.Rank })
	for _, b := range ranked {
		h := Hint{b.Shown(), b.Short}
		if b.Rank == 0 {
			fixed = append(fixed, h)
		} else {
			hints = append(hints, h)
		}
	}
	return hints, fixed
}

// HelpLine draws the last line of the screen, exactly w cells: the fixed hints
// at the right end, before them as many others as fit, the first first.
func HelpLine(th *draw.Theme, hints, fixed []Hint, w int) string {
	end := 0
	for _, h := range fixed {
		end += h.width() + 2
	}
	var l draw.Line
	l.Gap(1)
	for _, h := range hints {
		if l.Width()+h.width()+end > w {
			break
		}
		h.add(&l, th)
		l.Gap(2)
	}
	for i, h := range fixed {
		if i > 0 {
			l.Gap(2)
		}
		h.add(&l, th)
	}
	return l.Fit(w)
}

func (h Hint) width() int { return draw.Width(h.Keys) + 1 + draw.Width(h.Word) }

func (h Hint) add(l *draw.Line, th *draw.Theme) {
	l.Add(th.Key.Render(h.Keys)).Gap(1).Add(h.Word)
}
