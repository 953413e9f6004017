package laminate

// Fiber share by mass that chopped glass is taken to have in unfilled resin
// where its material gives none.
const (
	ChoppedBarrierGlassContent = 0.27 // API 12P 5.4.3: 27 ± 5 %
	ChoppedGlassContent        = 0.30 // in the structure; common practice, no source
)

// HoopFrom is the angle in degrees from which a band is hoop winding: one layer
// instead of a cover of two. Common practice, no source.
const HoopFrom = 85

// FiberDensity is the density of a material's fiber in kg/m³: its own, else
// the typical one of its fiber. ok is false where neither is known.
func (l *Library) FiberDensity(m *Material) (kgPerM3 float64, ok bool) {
	if m.FiberDensity.Given() {
		return positive(m.FiberDensity.SI())
	}
	if int(m.Fiber) >= len(l.Fibers) {
		return 0, false
	}
	return positive(l.Fibers[m.Fiber].Density.SI())
}

// ResinDensity is the density of a resin in kg/m³, cured and unfilled: its own,
// else the typical one of its family. r may be nil. ok is false where neither
// is known.
func (l *Library) ResinDensity(r *Resin) (kgPerM3 float64, ok bool) {
	switch {
	case r == nil:
		return 0, false
	case r.Density.Given():
		return positive(r.Density.SI())
	case int(r.Family) >= len(l.Families):
		return 0, false
	}
	return positive(l.Families[r.Family].Density.SI())
}

// BinderDensity is the density of the cured mix of resin and filler in kg/m³:
// 1/ρb = (1−φ)/ρr + φ/ρfiller with φ the filler's share by mass. ok is false
// where a filler is named but not how much, or a density is not known.
func (l *Library) BinderDensity(r *Resin) (kgPerM3 float64, ok bool) {
	resin, ok := l.ResinDensity(r)
	if !ok || r.Filler == NoFiller {
		return resin, ok
	}
	filler := r.FillerDensity.SI()
	if !r.FillerDensity.Given() {
		if int(r.Filler) >= len(l.Fillers) {
			return 0, false
		}
		filler = l.Fillers[r.Filler].Density.SI()
	}
	share := r.FillerContent.Value
	if _, ok := positive(filler); !ok || !r.FillerContent.Given || !(share >= 0 && share < 1) {
		return 0, false
	}
	return 1 / ((1-share)/resin + share/filler), true
}

// GlassContentIn is the fiber share by mass that a material has in unfilled
// resin in a zone: its own, else the default of chopped glass. ok is false for
// every other material that gives none.
func (m *Material) GlassContentIn(z Zone) (share float64, ok bool) {
	switch {
	case z.InBarrier() && m.BarrierGlassContent.Given:
		share = m.BarrierGlassContent.Value
	case m.GlassContent.Given:
		share = m.GlassContent.Value
	case !m.Form.Chopped():
		return 0, false
	case z.InBarrier():
		share = ChoppedBarrierGlassContent
	default:
		share = ChoppedGlassContent
	}
	return share, share > 0 && share <= 1
}

// PlyFiber is the fiber of one ply of m in kg/m². A band has tows × tow mass /
// band width a layer, and at an angle above 0 and below 85 degrees one ply is a
// cover of two layers. ok is false where the material does not say, or a band
// has no angle.
func (m *Material) PlyFiber(angle Optional[float64]) (kgPerM2 float64, ok bool) {
	if m.Form != RovingBand {
		return positive(m.ArealMass.SI())
	}
	layer := m.ArealMass.SI()
	if !m.ArealMass.Given() {
		layer = float64(m.Tows.Value) * m.Tow.SI() / m.BandWidth.SI()
	}
	if !angle.Given {
		return 0, false
	}
	if angle.Value > 0 && angle.Value < HoopFrom {
		layer *= 2
	}
	return positive(layer)
}

// beyondReason is far above any figure of a wall in SI units, and low enough
// that the sums of the largest schedule stay finite.
const beyondReason = 1e100

// positive passes what can be a size: not zero, NaN nor without bounds.
func positive(v float64) (float64, bool) {
	if v > 0 && v <= beyondReason {
		return v, true
	}
	return 0, false
}

// setFigures fills in the figures of one ply of the row, whose Zone, Material
// and Resin are set. What cannot be had stays zero, and not known.
func (f *RowFigures) setFigures(p *Ply, lib *Library) {
	m := f.Material
	if m == nil {
		return
	}
	switch m.Form {
	case ResinCoat:
		f.setCoat(p, lib)
	case Lamina:
		f.setLamina(p)
	default:
		if m.Thickness.Given() {
			f.Booked, _ = positive(m.Thickness.SI())
		}
		f.setFiberPly(p, lib)
	}
	if !(f.Thickness+f.Mass+f.FiberVolume <= beyondReason) {
		*f = RowFigures{Zone: f.Zone, ZoneGiven: f.ZoneGiven, First: f.First, Last: f.Last, Material: m, Resin: f.Resin, Booked: f.Booked}
	}
}

// setCoat: the stated thickness is the coat's as it stands, voids included.
func (f *RowFigures) setCoat(p *Ply, lib *Library) {
	f.Thickness, f.ThicknessKnown = positive(f.Material.Thickness.SI())
	density, ok := lib.BinderDensity(f.Resin)
	solid, sound := solidShare(p)
	if !f.ThicknessKnown || !ok || !sound {
		return
	}
	f.Mass = f.Thickness * solid * density
	f.FillerMass = f.Mass * fillerShare(f.Resin)
	f.MassKnown = true
}

// setLamina takes thickness and fractions as tested. Where the lamina does not
// name its fiber, its glass content says that it is glass.
func (f *RowFigures) setLamina(p *Ply) {
	m := f.Material
	f.Thickness, f.ThicknessKnown = positive(m.Thickness.SI())
	share := p.GlassContent.Or(m.GlassContent.Value)
	fiber, ok := positive(m.ArealMass.SI())
	density, dense := positive(m.FiberDensity.SI())
	if !ok || !dense || !(share > 0 && share <= 1) {
		return
	}
	f.setFiber(fiber, density, m.Fiber.Glass() || m.Fiber == NoFiber)
	f.Mass = fiber / share
	f.MassKnown = true
}

// setFiberPly computes thickness from what lies in the ply: t = W/ρf + b/ρb.
// A material's own fiber share is for unfilled resin; in a filled one it takes
// up the same binder volume. A share given on the ply is as laid.
func (f *RowFigures) setFiberPly(p *Ply, lib *Library) {
	m := f.Material
	fiber, ok := m.PlyFiber(p.Angle)
	density, dense := lib.FiberDensity(m)
	resin, cured := lib.ResinDensity(f.Resin)
	solid, sound := solidShare(p)
	if !ok || !dense || !cured || !sound {
		return
	}
	binder, mixed := lib.BinderDensity(f.Resin)
	var volume float64 // of binder, m³/m²
	if p.GlassContent.Given {
		share := p.GlassContent.Value
		if !(share > 0 && share <= 1) || !mixed {
			return
		}
		volume = fiber * (1 - share) / share / binder
	} else {
		share, ok := m.GlassContentIn(f.Zone)
		if !ok {
			return
		}
		volume = fiber * (1 - share) / share / resin
	}
	f.Thickness = (fiber/density + volume) / solid
	f.ThicknessKnown = true
	f.setFiber(fiber, density, m.Fiber.Glass())
	if !mixed {
		return
	}
	f.Mass = fiber + volume*binder
	f.FillerMass = volume * binder * fillerShare(f.Resin)
	f.MassKnown = true
}

func (f *RowFigures) setFiber(fiber, density float64, glass bool) {
	f.FiberMass = fiber
	f.FiberVolume = fiber / density
	if glass {
		f.GlassMass = fiber
		if f.Material.Form.Chopped() {
			f.ChoppedGlassMass = fiber
		}
	}
}

func fillerShare(r *Resin) float64 {
	if r.Filler == NoFiller {
		return 0
	}
	return r.FillerContent.Value
}

// solidShare is what voids leave of the ply's volume.
func solidShare(p *Ply) (share float64, ok bool) {
	v := p.VoidContent.Value // 0 when not given
	return 1 - v, v >= 0 && v < 1
}
