package rules

import (
	"frp/veilwright/laminate"
	"slices"
)

// Place is where in the wall a resin is used; several may be joined.
type Place uint8

// The places.
const (
	InBarrier Place = 1 << iota
	InStructure
	InOuterSurface
)

func placeOf(z laminate.Zone) Place {
	switch {
	case z.InBarrier():
		return InBarrier
	case z == laminate.StructuralLayer:
		return InStructure
	case z == laminate.OuterSurface:
		return InOuterSurface
	}
	return 0
}

// Facts are what many rules ask for, gathered in one walk over the rows.
type Facts struct {
	Veils      int // veil plies of the inner surface
	Mats       int // chopped plies of the interior layer
	Structural int // reinforced plies of the structural layer
	// Uses tells where each resin of the schedule is used, by its index.
	Uses []Place
	// Unresined tells where plies stand whose resin or resin family nobody
	// named. A lamina, known by its own test, needs none.
	Unresined Place
}

// room is for where each resin is used, and may be nil.
func gather(s *laminate.Schedule, a *laminate.Analysis, room []Place) Facts {
	f := Facts{Uses: append(room[:0], make([]Place, len(s.Resins))...)}
	last := -1
	for i := range a.Rows {
		row, ply := &a.Rows[i], &s.Plies[i]
		form := FormOf(row)
		switch {
		case row.Zone == laminate.InnerSurface && form == laminate.Veil:
			f.Veils += ply.Count
		case row.Zone == laminate.InteriorLayer && form.Chopped():
			f.Mats += ply.Count
		case row.Zone == laminate.StructuralLayer && reinforces(form):
			f.Structural += ply.Count
		}
		if last < 0 || s.Resins[last].ID != ply.Resin {
			last = resinIndex(s, ply.Resin)
		}
		place := placeOf(row.Zone)
		if last >= 0 {
			f.Uses[last] |= place
		}
		if (last < 0 || s.Resins[last].Family == laminate.NoFamily) && !rowNeedsNone(row) {
			f.Unresined |= place
		}
	}
	return f
}

// rowNeedsNone tells whether a row is of a tested lamina, known without a resin.
func rowNeedsNone(r *laminate.RowFigures) bool { return FormOf(r) == laminate.Lamina }

func resinIndex(s *laminate.Schedule, id string) int {
	for i := range s.Resins {
		if s.Resins[i].ID == id {
			return i
		}
	}
	return -1
}

// reinforces tells whether a ply of the form carries load.
func reinforces(f laminate.Form) bool {
	return f != laminate.NoForm && f != laminate.Veil && f != laminate.ResinCoat
}

// FormOf is the form of a row's material, NoForm where it is unknown.
func FormOf(r *laminate.RowFigures) laminate.Form {
	if r.Material == nil {
		return laminate.NoForm
	}
	return r.Material.Form
}

// FiberOf is the fiber of a row's material, NoFiber where it is unknown.
func FiberOf(r *laminate.RowFigures) laminate.Fiber {
	if r.Material == nil {
		return laminate.NoFiber
	}
	return r.Material.Fiber
}

// Rows lists the ply rows that match, nil when none does.
func (p *Pass) Rows(match func(row *laminate.RowFigures) bool) []int {
	if p.matched == nil {
		p.matched = make([]int, 0, len(p.Analysis.Rows))
	}
	rows := p.matched[:0]
	for i := range p.Analysis.Rows {
		if match(&p.Analysis.Rows[i]) {
			rows = append(rows, i)
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return slices.Clone(rows)
}

// RowsOfResin lists the rows at the place that use a resin, by its index;
// −1 lists those whose resin or family nobody named.
func (p *Pass) RowsOfResin(resin int, where Place) []int {
	var rows []int
	for i := range p.Schedule.Plies {
		if placeOf(p.Analysis.Rows[i].Zone)&where == 0 {
			continue
		}
		at := resinIndex(p.Schedule, p.Schedule.Plies[i].Resin)
		if resin < 0 && rowNeedsNone(&p.Analysis.Rows[i]) {
			continue
		}
		if at == resin || resin < 0 && at >= 0 && p.Schedule.Resins[at].Family == laminate.NoFamily {
			rows = append(rows, i)
		}
	}
	return rows
}

// FirstResinIn is the index of the first resin that is used at the place and
// matches, −1 when none does.
func (p *Pass) FirstResinIn(where Place, match func(*laminate.Resin) bool) int {
	for i := range p.Facts.Uses {
		if p.Facts.Uses[i]&where != 0 && match(&p.Schedule.Resins[i]) {
			return i
		}
	}
	return -1
}
