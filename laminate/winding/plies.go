package winding

import (
	"errors"

	"frp/veilwright/laminate"
)

// Ply is a wound row of a schedule with how its band closes a cover.
type Ply struct {
	Row      int // in Schedule.Plies
	Material *laminate.Material
	Diameter float64 // m, that it is wound on
	Angle    float64 // degrees from the axis
	Band     Band
	Pattern  Pattern
	Laid     Laid  // zero where LaidErr says why
	LaidErr  error // no resin or glass content to figure the thickness with
	Err      error // why there is no pattern: a fact is missing, or no band lies so
}

// Plies figures every wound row of a schedule, a being its analysis.
func Plies(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis) []Ply {
	var list []Ply
	for i := range s.Plies {
		m, ok := lib.Material(s, s.Plies[i].Material)
		if !ok || m.Form != laminate.RovingBand {
			continue
		}
		p := Ply{Row: i, Material: m}
		p.Err = p.wind(s, lib, a)
		list = append(list, p)
	}
	return list
}

func (p *Ply) wind(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis) (err error) {
	ply := &s.Plies[p.Row]
	var ok bool
	if p.Diameter, ok = Diameter(s, a, p.Row); !ok {
		return errors.New("the diameter wound on is not known (inside_diameter, and the thickness of what lies under the ply)")
	}
	switch {
	case !ply.Angle.Given:
		return errors.New("the angle is not given (angle)")
	case !p.Material.Tow.Given() || !p.Material.Tows.Given || !p.Material.BandWidth.Given():
		return errors.New("the band of " + p.Material.ID + " is not known (tow, tows, band_width)")
	}
	p.Angle = ply.Angle.Value
	p.Band = Band{Tows: p.Material.Tows.Value, TowMass: p.Material.Tow.SI(), Width: p.Material.BandWidth.SI()}
	if p.Pattern, err = Wind(p.Band, p.Diameter, p.Angle); err != nil {
		return err
	}
	p.Laid, p.LaidErr = Lay(s, lib, p.Row, p.Material, p.Pattern.CoverMass)
	return nil
}

// Diameter is what a row is wound on, in m: the inside diameter, and twice what
// is laid under the row.
func Diameter(s *laminate.Schedule, a *laminate.Analysis, row int) (diameter float64, ok bool) {
	if !s.Part.InsideDiameter.Given() || row < 0 || row >= len(a.Rows) {
		return 0, false
	}
	under := 0.0
	for i := range row {
		if !a.Rows[i].ThicknessKnown {
			return 0, false
		}
		under = a.Rows[i].ToHere
	}
	return s.Part.InsideDiameter.SI() + 2*under, true
}

// Lay figures a cover of the fiber mass (kg/m²) in the resin and at the glass
// content of a row, of a material that may be another than the row's.
func Lay(s *laminate.Schedule, lib *laminate.Library, row int, m *laminate.Material, coverMass float64) (Laid, error) {
	resin, ok := s.Resin(s.Plies[row].Resin)
	if !ok {
		return Laid{}, errors.New("the wound ply names no resin")
	}
	density, ok := lib.BinderDensity(resin)
	if !ok {
		return Laid{}, errors.New("the resin's density is not known")
	}
	fiber, ok := lib.FiberDensity(m)
	if !ok {
		return Laid{}, errors.New("the fiber's density is not known")
	}
	share := s.Plies[row].GlassContent
	if !share.Given {
		g, ok := m.GlassContentIn(laminate.StructuralLayer)
		if !ok {
			return Laid{}, errors.New("the band's glass content is not known")
		}
		share = laminate.Some(g)
	}
	return Binder{FiberDensity: fiber, Density: density, FiberContent: share.Value}.Lay(coverMass)
}
