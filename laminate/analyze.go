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
	n := len(s.Plies)
	a := &Analysis{Rows: make([]RowFigures, n)}
	forms, zones := make([]Form, n), make([]Zone, n)
	find := newFinder(s, lib)
	for i := range s.Plies {
		row := &a.Rows[i]
		row.Material = find.material(s.Plies[i].Material)
		row.Resin = find.resin(s.Plies[i].Resin)
		if row.Material != nil {
			forms[i] = row.Material.Form
		}
	}
	inferZones(s.Plies, forms, zones)

	for i := range a.Zones {
		a.Zones[i].ThicknessKnown, a.Zones[i].MassKnown = true, true
	}
	next := 1
	toHere := 0.0
	for i := range s.Plies {
		p, row := &s.Plies[i], &a.Rows[i]
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
	return a
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

// finder looks materials and resins up, by a map where a schedule has so many
// of its own that going through them for every row would take its time.
type finder struct {
	s         *Schedule
	lib       *Library
	listed    *Schedule // whose materials are gone through, nil where materials has them
	materials map[string]*Material
	resins    map[string]*Resin

	// What was found last: the rows of a wall use few materials in turn.
	recent    [4]*Material
	next      int
	lastResin *Resin
}

const manyOwn = 16

func newFinder(s *Schedule, lib *Library) finder {
	f := finder{s: s, lib: lib, listed: s}
	if len(s.Materials) > manyOwn {
		f.listed = nil
		f.materials = make(map[string]*Material, len(s.Materials))
		for i := len(s.Materials) - 1; i >= 0; i-- {
			f.materials[s.Materials[i].ID] = &s.Materials[i]
		}
	}
	if len(s.Resins) > manyOwn {
		f.resins = make(map[string]*Resin, len(s.Resins))
		for i := len(s.Resins) - 1; i >= 0; i-- {
			f.resins[s.Resins[i].ID] = &s.Resins[i]
		}
	}
	return f
}

// material is nil where nobody knows the id.
func (f *finder) material(id string) *Material {
	for _, m := range f.recent {
		if m != nil && m.ID == id {
			return m
		}
	}
	m := f.materials[id]
	if m == nil {
		m, _ = f.lib.Material(f.listed, id)
	}
	if m != nil {
		f.recent[f.next] = m
		f.next = (f.next + 1) % len(f.recent)
	}
	return m
}

// resin is nil where none is named or the id is not defined.
func (f *finder) resin(id string) *Resin {
	switch {
	case id == "":
		return nil
	case f.lastResin != nil && f.lastResin.ID == id:
		return f.lastResin
	}
	r := f.resins[id]
	if f.resins == nil {
		r, _ = f.s.Resin(id)
	}
	if r != nil {
		f.lastResin = r
	}
	return r
}
