package bench

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// unit is a sequence of rows that repeats: the rows from first, period by period.
type unit struct {
	first, period, times int
	worst                rules.Severity // of its rows
}

func (u unit) end() int { return u.first + u.period*u.times }

const (
	leastRepeats = 3
	longest      = 8  // rows of one repeat
	many         = 60 // rows from which a wall is shown by its units at first
)

// unitsOf finds the sequences that repeat, from the process side outward: at
// each place the one that covers most rows. Rows of two zones are never alike.
func unitsOf(r *rules.Report) []unit {
	plies, rows := r.Schedule.Plies, r.Analysis.Rows
	alike := func(i, j int) bool {
		if plies[i].Material != plies[j].Material || rows[i].Zone != rows[j].Zone {
			return false
		}
		a := plies[i]
		a.Origin = plies[j].Origin
		return a == plies[j]
	}
	var list []unit
	for i := 0; i < len(plies); {
		best, through := unit{first: i, period: 1, times: 1}, false
		for p := 1; p <= longest; p++ {
			if through && p%best.period == 0 {
				continue // several in one cover no more than the one does
			}
			n := 0
			for i+n+p < len(plies) && alike(i+n, i+n+p) {
				n++
			}
			if u := (unit{first: i, period: p, times: n/p + 1}); u.times >= leastRepeats && u.end()-i > best.end()-i {
				best, through = u, i+n+p == len(plies)
			}
		}
		if best.times >= leastRepeats {
			list = append(list, best)
		}
		i = best.end()
	}
	return list
}

// name is what repeats: "mat-1.5 + woven-24 ×28".
func (u unit) name(plies []laminate.Ply) string {
	var names []string
	for i := range u.period {
		p := &plies[u.first+i]
		s := draw.Clean(p.Material)
		if p.Count > 1 {
			s += " ×" + strconv.Itoa(p.Count)
		}
		if p.GelAfter {
			s += " │"
		}
		names = append(names, s)
	}
	return strings.Join(names, " + ") + "  ×" + strconv.Itoa(u.times)
}

// glyphs are the marks of the materials of one repeat.
func (u unit) glyphs(r *rules.Report) string {
	var b strings.Builder
	for i := range u.period {
		form := laminate.NoForm
		if m := r.Analysis.Rows[u.first+i].Material; m != nil {
			form = m.Form
		}
		b.WriteString(page.Glyph(form))
	}
	return b.String()
}

// folded tells whether units are shown in the place of their rows.
func (b *Bench) folded() bool { return (len(b.shown().Schedule.Plies) > many) != b.unfolds }

func (b *Bench) fold() {
	if len(unitsOf(b.Desk.Report())) == 0 {
		b.Desk.Refuse("no sequence of rows repeats three times: nothing to fold")
		return
	}
	b.unfolds = !b.unfolds
	if b.folded() {
		b.Desk.Note("what repeats is one line each; the one worked at is open", "z unfolds")
	} else {
		b.Desk.Note("every row is a line", "z folds")
	}
}
