package rules

import (
	"errors"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

// Layup is a schedule being fixed, and the zone each row is meant to have.
type Layup struct {
	Schedule *laminate.Schedule
	Zones    []laminate.Zone
	// Infer lets zones without a word be inferred anew; else every row keeps
	// its zone, which is written out only where inference would differ.
	Infer bool
}

// Insert puts a ply row before row i; its zone is the one it is meant to have.
func (l *Layup) Insert(i int, ply laminate.Ply) {
	l.Schedule.Plies = slices.Insert(l.Schedule.Plies, i, ply)
	l.Zones = slices.Insert(l.Zones, i, ply.Zone)
}

// Remove takes row i out.
func (l *Layup) Remove(i int) {
	l.Schedule.Plies = slices.Delete(l.Schedule.Plies, i, i+1)
	l.Zones = slices.Delete(l.Zones, i, i+1)
}

var errChanged = errors.New("the schedule has changed since the fix was offered")

// Fix makes a fix: text in the present tense, label in the past tense for
// the notice line, at the place to show. Nil while another fix is tried out.
func (p *Pass) Fix(text, label string, at laminate.Ref, change func(*Layup) error) *Fix {
	if !p.fix {
		return nil
	}
	judged, lib, analysis := p.Schedule, p.Library, p.Analysis
	do := func(s *laminate.Schedule) (*laminate.Schedule, error) {
		if s != judged && !(slices.Equal(s.Plies, judged.Plies) && slices.Equal(s.Resins, judged.Resins)) {
			return nil, errChanged
		}
		l := &Layup{Schedule: s.Clone(), Zones: make([]laminate.Zone, len(s.Plies))}
		for i := range l.Zones {
			l.Zones[i] = analysis.Rows[i].Zone
		}
		if err := change(l); err != nil {
			return nil, err
		}
		if len(l.Schedule.Plies) > laminate.MostRows || l.Schedule.NumberOfPlies() > laminate.MostPlies {
			return nil, errors.New("more plies than a schedule may have")
		}
		if !l.Infer {
			hold(l, lib)
		}
		return l.Schedule, nil
	}
	return &Fix{Text: text, Edit: edit.Edit{Label: label, At: at, Do: do}}
}

// hold writes zones out where inference would give others than meant. Each
// zone written can change what is inferred after it, hence the rounds.
func hold(l *Layup, lib *laminate.Library) {
	const rounds = 8
	for range rounds {
		a := laminate.Analyze(l.Schedule, lib)
		same := true
		for i := range a.Rows {
			if a.Rows[i].Zone != l.Zones[i] {
				l.Schedule.Plies[i].Zone = l.Zones[i]
				same = false
				break
			}
		}
		if same {
			return
		}
	}
	for i := range l.Zones {
		l.Schedule.Plies[i].Zone = l.Zones[i]
	}
}

// Stock finds a material to fix with: the one of that id where it is known
// and fits, else the first that fits, the schedule's own before the library's.
func (p *Pass) Stock(id string, fits func(*laminate.Material) bool) (string, bool) {
	if m, ok := p.Library.Material(p.Schedule, id); ok && fits(m) {
		return id, true
	}
	for _, list := range [][]laminate.Material{p.Schedule.Materials, p.Library.Materials} {
		for i := range list {
			if fits(&list[i]) {
				return list[i].ID, true
			}
		}
	}
	return "", false
}

// StockMat finds the mat to fix with: 1.5 oz/ft² where it is known.
func (p *Pass) StockMat() (string, bool) {
	return p.Stock(catalog.Mat15, func(m *laminate.Material) bool { return m.Form == laminate.ChoppedMat && m.Fiber.Glass() })
}

// StockVeil finds a veil of a fiber to fix with.
func (p *Pass) StockVeil(fiber laminate.Fiber) (string, bool) {
	return p.Stock(catalog.UsualVeil(fiber), func(m *laminate.Material) bool { return m.Form == laminate.Veil && m.Fiber == fiber })
}
