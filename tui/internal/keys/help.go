package keys

import (
	"slices"

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

// rows calls f for the rows of the tables that can be reached, with the keys by
// which they can: an earlier table stands before a later one.
func rows(f func(*Row), tables ...Table) {
	for n, t := range tables {
		for i := range t {
			r := &t[i]
			if n > 0 {
				free := slices.DeleteFunc(slices.Clone(r.Keys), func(k string) bool { return Find(Key(k), tables[:n]...) != nil })
				if len(free) == 0 {
					continue
				}
				if len(free) < len(r.Keys) {
					x := *r
					x.Keys, x.Show = free, ""
					r = &x
				}
			}
			f(r)
		}
	}
}

// Sections returns the rows of the tables under their headings, in their order.
func Sections(tables ...Table) []Section {
	var out []Section
	rows(func(r *Row) {
		i := slices.IndexFunc(out, func(s Section) bool { return s.Title == r.Group })
		if i < 0 {
			i = len(out)
			out = append(out, Section{Title: r.Group})
		}
		out[i].Entries = append(out[i].Entries, Entry{Keys: r.All(), What: r.Long, Why: r.why()})
	}, tables...)
	return out
}

// Hint is a key and its word on the last line.
type Hint struct{ Keys, Word string }

// Hints returns what of the tables can act here and now and has a word for the
// last line, the most important first; fixed are those of rank 0.
func Hints(tables ...Table) (hints, fixed []Hint) {
	var ranked []*Row
	rows(func(r *Row) {
		if r.Short != "" && r.why() == "" {
			ranked = append(ranked, r)
		}
	}, tables...)
	slices.SortStableFunc(ranked, func(a, b *Row) int { return a.Rank - b.Rank })
	for _, r := range ranked {
		h := Hint{r.shown(), r.Short}
		if r.Rank == 0 {
			fixed = append(fixed, h)
		} else {
			hints = append(hints, h)
		}
	}
	return hints, fixed
}

// HelpLine draws the last line of the screen, exactly w cells: the fixed hints
// at the right end, before them as many others as fit, the first first. The
// line of bubbles/help cuts its end off, and with it the key that leads out of
// where one is; it also costs 16 µs a frame, of the 110 µs a cursor key takes.
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
