package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
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
	layers []widget.Layer
	one    bool // the barrier has one name in the picture
}

type tableLine struct {
	row int
	gel bool // the gel stop after the row
}

// look derives it, unless it is derived already.
func (s *sight) look(t *draw.Theme, r *rules.Report, one bool) {
	if s.of == r && s.one == one {
		return
	}
	s.of, s.one = r, one
	s.list(r.Schedule)
	s.mark(r)
	s.layers = page.Layers(t, r.Schedule, r.Analysis, s.layers)
	for i := range s.layers {
		if one && r.Analysis.Rows[i].Zone.InBarrier() {
			s.layers[i].Zone = "barrier" // there is room for one name
		}
	}
}

func (s *sight) list(sch *laminate.Schedule) {
	s.lines, s.at = s.lines[:0], s.at[:0]
	for i := range sch.Plies {
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
