package bench

import (
	"slices"
	"sort"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// sight is what the page derives from a report once and draws from many times.
type sight struct {
	of     *rules.Report
	lines  []tableLine
	at     []int // by row: its line
	worst  []rules.Severity
	all    []widget.Layer // by row
	joined []widget.Layer // with a unit in the place of its rows
	layers []widget.Layer // whichever of them is drawn
	one    bool           // the barrier has one name in the picture
	fold   bool           // what repeats is one line each
	open   int            // but this one of the units: the row worked at is in it
	units  []unit
	layer  []int // by row: its layer in the picture
	edge   int   // how many layers the barrier has
}

type tableLine struct {
	row int
	gel bool // the gel stop after the row
	of  int  // 1 + the index of the unit that stands in the place of its rows, 0 for a row
}

// look derives it, unless it is derived already.
func (s *sight) look(t *draw.Theme, r *rules.Report, one, fold bool, row int) {
	open := -1
	if s.of == r {
		open = s.unitOf(row)
	}
	if s.of == r && s.one == one && s.fold == fold && s.open == open {
		return
	}
	if s.of != r || s.fold != fold {
		s.units = nil
		if fold {
			s.units = unitsOf(r)
		}
	}
	fresh := s.of != r || s.one != one || s.fold != fold
	s.of, s.one, s.fold, s.open = r, one, fold, s.unitOf(row)
	s.list(r.Schedule)
	if !fresh {
		return
	}
	s.mark(r)
	s.all = page.Layers(t, r.Schedule, r.Analysis, s.all)
	s.layers = s.all
	for i := range s.layers {
		if one && r.Analysis.Rows[i].Zone.InBarrier() {
			s.layers[i].Zone = "barrier" // there is room for one name
		}
	}
	s.join(r)
}

// unitOf is the index of the unit that a row is in, -1 for none.
func (s *sight) unitOf(row int) int {
	for i, u := range s.units {
		if u.first <= row && row < u.end() {
			return i
		}
	}
	return -1
}

// join makes one layer of each unit: what is too thin to draw by itself is drawn
// as what it is, a sequence that repeats.
func (s *sight) join(r *rules.Report) {
	s.layer, s.edge = s.layer[:0], r.Analysis.BarrierEnd
	if len(s.units) == 0 {
		for i := range s.layers {
			s.layer = append(s.layer, i)
		}
		return
	}
	joined := s.joined[:0]
	next := s.units
	for i := range s.layers {
		if len(next) > 0 && i >= next[0].end() {
			next = next[1:]
		}
		if i == r.Analysis.BarrierEnd {
			s.edge = len(joined)
		}
		inside := len(next) > 0 && i >= next[0].first
		if inside && i > next[0].first {
			u := &joined[len(joined)-1]
			u.Thickness += s.layers[i].Thickness
			s.layer = append(s.layer, len(joined)-1)
			continue
		}
		l := s.layers[i]
		if inside {
			u := next[0]
			l.Pattern, l.Gel = u.glyphs(r), false
		}
		joined = append(joined, l)
		s.layer = append(s.layer, len(joined)-1)
	}
	if r.Analysis.BarrierEnd >= len(s.layers) {
		s.edge = len(joined)
	}
	s.joined, s.layers = joined, joined
}

// label names the plies of a layer that is drawn.
func (s *sight) label(layer int) string {
	rows := s.of.Analysis.Rows
	first, behind := sort.SearchInts(s.layer, layer), sort.SearchInts(s.layer, layer+1)
	return paper.Span(rows[first].First, rows[behind-1].Last)
}

func (s *sight) list(sch *laminate.Schedule) {
	s.lines, s.at = s.lines[:0], s.at[:0]
	n := 0 // the unit at the row or after it
	for i := 0; i < len(sch.Plies); i++ {
		for n < len(s.units) && s.units[n].end() <= i {
			n++
		}
		if n < len(s.units) && s.units[n].first == i && n != s.open {
			u := s.units[n]
			for range u.end() - i {
				s.at = append(s.at, len(s.lines))
			}
			s.lines = append(s.lines, tableLine{row: i, of: n + 1})
			i = u.end() - 1
			continue
		}
		s.at = append(s.at, len(s.lines))
		s.lines = append(s.lines, tableLine{row: i})
		if sch.Plies[i].GelAfter {
			s.lines = append(s.lines, tableLine{row: i, gel: true})
		}
	}
}

func (s *sight) mark(r *rules.Report) {
	s.worst = append(s.worst[:0], make([]rules.Severity, len(r.Schedule.Plies))...)
	for i := range r.Findings {
		f := &r.Findings[i]
		for _, row := range f.Rows {
			if row >= 0 && row < len(s.worst) && f.Severity > s.worst[row] {
				s.worst[row] = f.Severity
			}
		}
	}
	for i := range s.units {
		u := &s.units[i]
		u.worst = slices.Max(s.worst[u.first:u.end()])
	}
}

// rowAt is the row of a table line, -1 for none.
func (s *sight) rowAt(line int) int {
	if line < 0 || line >= len(s.lines) {
		return -1
	}
	return s.lines[line].row
}

// gap is the table line at which the next ply would come, after the row and
// its gel stop.
func (s *sight) gap(row int) int {
	if row < 0 || len(s.at) == 0 {
		return 0
	}
	n := s.at[row] + 1
	if n < len(s.lines) && s.lines[n].gel {
		n++
	}
	return n
}
