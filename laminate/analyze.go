package laminate

// Analyze figures zones, thickness, mass and fractions of a schedule. lib must
// not be nil. It never fails: what a fact is missing for stays zero and says so
// in ThicknessKnown and MassKnown; no figure is ever NaN or infinite. A
// schedule with the same plies gives the same figures.
//
// A fiber ply without a resin, of an unknown material, or of a fiber or resin
// whose density nobody gave has no known thickness. One whose resin names a
// filler but not how much of it has a thickness where the fiber share is the
// material's own, but no mass.
func Analyze(s *Schedule, lib *Library) *Analysis {
	a := &Analysis{}
	a.Again(s, lib)
	return a
}

// Again analyzes another schedule in the memory of an analysis that nobody reads
// any more.
func (a *Analysis) Again(s *Schedule, lib *Library) {
	n := len(s.Plies)
	*a = Analysis{Rows: append(a.Rows[:0], make([]RowFigures, n)...), inference: a.inference}
	zones := a.inference.Of(s, lib)
	resins := newIndex(s.Resins, func(r *Resin) string { return r.ID })
	for i := range a.Zones {
		a.Zones[i].ThicknessKnown, a.Zones[i].MassKnown = true, true
	}
	next := 1
	toHere := 0.0
	for i := range s.Plies {
		p, row := &s.Plies[i], &a.Rows[i]
		row.Material = a.inference.materials[i]
		if p.Resin != "" {
			row.Resin = resins.find(p.Resin)
		}
		count := max(p.Count, 0)
		row.Zone = zones[i]
		row.ZoneGiven = p.Zone != NoZone
		a.Inferred = a.Inferred || !row.ZoneGiven
		row.First, row.Last = next, next+count-1
		next += count
		row.setFigures(p, lib)
		toHere += float64(count) * row.Thickness
		row.ToHere = toHere
		a.Zones[row.Zone].addRow(row, count)
	}
	a.Barrier, a.Total = a.Zones[NoZone], a.Zones[NoZone]
	for _, z := range Zones.All() {
		a.Total.add(&a.Zones[z])
		if z.InBarrier() {
			a.Barrier.add(&a.Zones[z])
		}
	}
	for a.BarrierEnd < n && zones[a.BarrierEnd].InBarrier() {
		a.BarrierEnd++
	}
}

func (s *Sum) addRow(r *RowFigures, count int) {
	c := float64(count)
	s.Plies += count
	s.Thickness += c * r.Thickness
	s.Mass += c * r.Mass
	s.FiberMass += c * r.FiberMass
	s.GlassMass += c * r.GlassMass
	s.ChoppedGlassMass += c * r.ChoppedGlassMass
	s.FillerMass += c * r.FillerMass
	s.FiberVolume += c * r.FiberVolume
	if count > 0 {
		s.ThicknessKnown = s.ThicknessKnown && r.ThicknessKnown
		s.MassKnown = s.MassKnown && r.MassKnown
	}
}

func (s *Sum) add(o *Sum) {
	s.Plies += o.Plies
	s.Thickness += o.Thickness
	s.Mass += o.Mass
	s.FiberMass += o.FiberMass
	s.GlassMass += o.GlassMass
	s.ChoppedGlassMass += o.ChoppedGlassMass
	s.FillerMass += o.FillerMass
	s.FiberVolume += o.FiberVolume
	s.ThicknessKnown = s.ThicknessKnown && o.ThicknessKnown
	s.MassKnown = s.MassKnown && o.MassKnown
}

// finder finds the material of a ply by its id.
type finder struct {
	own index[Material]
	lib *Library
}

// newFinder knows of no others than those of the schedule where lib is nil.
func newFinder(s *Schedule, lib *Library) finder {
	return finder{newIndex(s.Materials, func(m *Material) string { return m.ID }), lib}
}

// material is nil where nobody knows the id.
func (f *finder) material(id string) *Material {
	m := f.own.find(id)
	if m == nil && f.lib != nil {
		m, _ = f.lib.Material(nil, id)
		f.own.recent[slot(id)] = m
	}
	return m
}

// index looks up what a schedule has of its own, by a map where that is so much
// that going through it for every row would take its time.
type index[T any] struct {
	own    []T
	id     func(*T) string
	byID   map[string]*T
	recent [16]*T // found, by slot
}

func newIndex[T any](own []T, id func(*T) string) index[T] {
	x := index[T]{own: own, id: id}
	if len(own) > len(x.recent) {
		x.byID = make(map[string]*T, len(own))
		for i := len(own) - 1; i >= 0; i-- {
			x.byID[id(&own[i])] = &own[i]
		}
	}
	return x
}

func slot(id string) int {
	if id == "" {
		return 0
	}
	return (len(id) + 5*int(id[len(id)-1]) + 3*int(id[len(id)/2])) % 16
}

func (x *index[T]) find(id string) *T {
	at := slot(id)
	if kept := x.recent[at]; kept != nil && x.id(kept) == id {
		return kept
	}
	found := x.byID[id]
	for i := 0; i < len(x.own) && x.byID == nil && found == nil; i++ {
		if x.id(&x.own[i]) == id {
			found = &x.own[i]
		}
	}
	if found != nil {
		x.recent[at] = found
	}
	return found
}
