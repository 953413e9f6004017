package laminate

// Analysis is what follows from a schedule by arithmetic: zones, thickness,
// mass and fractions of every ply row, every zone and the whole wall.
// Thickness in m, mass in kg/m², fractions 0 to 1.
type Analysis struct {
	Rows     []RowFigures
	Zones    [5]Sum // by Zone; [NoZone] is unused
	Barrier  Sum    // inner surface and interior layer
	Total    Sum
	Inferred bool // some zone was inferred
	// BarrierEnd is the number of rows from the process side, one after the
	// other, that belong to the barrier (the index of the first row after it).
	BarrierEnd int

	inference Inference
}

// RowFigures are the figures of one ply row. Thickness, Mass and so on are of
// ONE ply of the row; a row of Count plies has Count of them.
type RowFigures struct {
	Zone             Zone
	ZoneGiven        bool
	First, Last      int       // single-ply numbers, from 1
	Material         *Material // nil when unknown
	Resin            *Resin    // nil when none is named
	Thickness        float64   // m, computed, one ply
	Booked           float64   // m, the shop's own booked figure, 0 when none
	ToHere           float64   // m, from the process side to the outside of the row
	FiberMass        float64   // kg/m², every reinforcement
	GlassMass        float64   // kg/m², glass alone
	ChoppedGlassMass float64   // kg/m², chopped glass alone
	Mass             float64   // kg/m²
	FillerMass       float64   // kg/m²
	FiberVolume      float64   // m³/m² = m of solid fiber
	// ThicknessKnown is false where a fact is missing without which there is no
	// thickness: a resin, a density, the angle of a band. Thickness is then 0.
	ThicknessKnown bool
	// MassKnown is false for a lamina whose mass and fractions nobody gave, and
	// where a fact is missing as for ThicknessKnown. Mass is then 0.
	MassKnown bool
}

// FiberMassFraction is the fiber share by mass; ok is false when not known or
// the ply has no mass.
func (r *RowFigures) FiberMassFraction() (share float64, ok bool) {
	return ratio(r.FiberMass, r.Mass, r.MassKnown)
}

// GlassMassFraction is the glass share by mass.
func (r *RowFigures) GlassMassFraction() (share float64, ok bool) {
	return ratio(r.GlassMass, r.Mass, r.MassKnown)
}

// FiberVolumeFraction is the fiber share by volume.
func (r *RowFigures) FiberVolumeFraction() (share float64, ok bool) {
	return ratio(r.FiberVolume, r.Thickness, r.MassKnown)
}

func ratio(part, whole float64, known bool) (float64, bool) {
	if !known || whole <= 0 {
		return 0, false
	}
	return part / whole, true
}

// Sum adds up plies of a zone.
type Sum struct {
	Plies            int
	Thickness        float64 // m
	Mass             float64 // kg/m²
	FiberMass        float64 // kg/m²
	GlassMass        float64 // kg/m²
	ChoppedGlassMass float64 // kg/m²
	FillerMass       float64 // kg/m²
	FiberVolume      float64 // m
	ThicknessKnown   bool    // every ply's thickness is known, else Thickness is of the others
	MassKnown        bool    // every ply's mass is known, else Mass is of the others
}

// FiberMassFraction is the fiber share by mass of the sum.
func (s Sum) FiberMassFraction() (share float64, ok bool) {
	return ratio(s.FiberMass, s.Mass, s.MassKnown)
}

// GlassMassFraction is the glass share by mass of the sum.
func (s Sum) GlassMassFraction() (share float64, ok bool) {
	return ratio(s.GlassMass, s.Mass, s.MassKnown)
}
