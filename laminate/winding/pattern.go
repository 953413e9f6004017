package winding

import (
	"fmt"
	"math"
)

// Pattern is how a band closes a cover.
type Pattern struct {
	// Angle is what is laid, degrees. It is the angle asked but where Stepped.
	Angle float64
	// Stepped is set where 90 degrees was asked. There a band would lie on
	// itself for ever; hoop winding steps one band width a turn, and all
	// figures, Angle among them, are for that.
	Stepped bool

	Lead    float64 // advance in a turn, m; 0 where Endless
	Endless bool    // the lead is infinite: the band runs along the axis

	// CircuitsExact is πD cos α over the band width, and Circuits the whole
	// number from there up. A circuit of a helical cover is one way there and
	// back, and lays a band in each of the two layers; of hoop winding it is one
	// start; along the axis one strip.
	CircuitsExact float64
	Circuits      int

	// Overlap is by how much neighboring bands lie over one another, across the
	// band, m, and OverlapShare the same as a share of its width. Above a half
	// the cover is more than one band deep everywhere.
	Overlap      float64
	OverlapShare float64
	// ClosingWidth is the band width at which as many circuits close without
	// overlap, m.
	ClosingWidth float64

	Layers     int     // in a cover, 1 or 2
	LayerMass  float64 // fiber of one layer, bands edge to edge, kg/m²
	LaidMass   float64 // fiber of one layer as it comes with the overlap, kg/m²
	CoverMass  float64 // fiber of all layers of a cover, bands edge to edge, kg/m²
	LaidCover  float64 // the same with the overlap, kg/m²
	BandLength float64 // of band laid per meter of axis and cover, both layers, m/m
}

// Wind returns how the band closes a cover on a surface of the given diameter
// (m, 1e-4 to 1000) at the given angle from the axis (degrees, 0 to 90).
//
// Errors: a *DomainError; ErrTooWide.
func Wind(b Band, diameter, angleDeg float64) (Pattern, error) {
	if err := b.check(); err != nil {
		return Pattern{}, fmt.Errorf("winding pattern: %w", err)
	}
	if err := checkDiameter(diameter); err != nil {
		return Pattern{}, fmt.Errorf("winding pattern: %w", err)
	}
	if err := checkAngle(angleDeg); err != nil {
		return Pattern{}, fmt.Errorf("winding pattern: %w", err)
	}
	round := math.Pi * diameter
	if b.Width > round {
		return Pattern{}, fmt.Errorf("winding pattern: %w: %.4g m on %.4g m", ErrTooWide, b.Width, round)
	}
	p := Pattern{Angle: angleDeg, Layers: coverLayers(angleDeg)}
	across := round * math.Cos(angleDeg*math.Pi/180)
	if angleDeg == 90 {
		p.Stepped = true
		p.Angle = math.Acos(b.Width/round) * 180 / math.Pi
		across = b.Width
	}
	var finite bool
	if p.Lead, finite = lead(diameter, p.Angle); !finite {
		p.Lead, p.Endless = 0, true
	}
	p.CircuitsExact = across / b.Width
	// A cover meant to close exactly must not gain a circuit by rounding.
	p.Circuits = max(1, int(math.Ceil(p.CircuitsExact*(1-1e-9))))
	p.ClosingWidth = across / float64(p.Circuits)
	p.Overlap = math.Max(0, b.Width-p.ClosingWidth)
	p.OverlapShare = p.Overlap / b.Width
	p.LayerMass = b.mass() / b.Width
	p.LaidMass = b.mass() / p.ClosingWidth
	p.CoverMass = float64(p.Layers) * p.LayerMass
	p.LaidCover = float64(p.Layers) * p.LaidMass
	p.BandLength = round * float64(p.Layers) / p.ClosingWidth
	return p, nil
}

// Choice is a row of a what-if on the angle.
type Choice struct {
	Asked float64 // angle, degrees
	Pattern
	Ratio    float64 // of hoop to axial load that the fibers alone hold, tan²Asked; 0 where HoopOnly
	HoopOnly bool    // the ratio is infinite: nothing is held along the axis
}

// WhatIf lays the band at each of the angles and writes what comes of it into
// out, growing it only when its capacity is short. Errors are Wind's, for the
// first angle that has one.
func WhatIf(b Band, diameter float64, anglesDeg []float64, out []Choice) ([]Choice, error) {
	out = out[:0]
	for _, a := range anglesDeg {
		p, err := Wind(b, diameter, a)
		if err != nil {
			return nil, err
		}
		c := Choice{Asked: a, Pattern: p}
		var finite bool
		c.Ratio, finite = nettingRatio(a)
		c.HoopOnly = !finite
		out = append(out, c)
	}
	return out, nil
}

// Binder is the resin a layer is laid in.
type Binder struct {
	FiberDensity float64 // kg/m³, 1 to 1e5
	Density      float64 // of the cured resin with its filler, kg/m³, 1 to 1e5
	FiberContent float64 // fiber share of the mass, above 1e-6 and at most 1
	Voids        float64 // share of the volume, 0 to 0.9
}

func (b Binder) check() error {
	if !within(b.FiberDensity, 1, 1e5) {
		return &DomainError{"fiber density", b.FiberDensity, "between 1 kg/m³ and 1e5 kg/m³"}
	}
	if !within(b.Density, 1, 1e5) {
		return &DomainError{"density of the resin mix", b.Density, "between 1 kg/m³ and 1e5 kg/m³"}
	}
	if !within(b.FiberContent, 1e-6, 1) {
		return &DomainError{"fiber content", b.FiberContent, "a share of the mass above 0 and at most 1"}
	}
	if !within(b.Voids, 0, 0.9) {
		return &DomainError{"voids", b.Voids, "a share of the volume from 0 to 0.9"}
	}
	return nil
}

// Laid is a layer with its binder.
type Laid struct {
	Thickness   float64 // m, voids included
	PlyMass     float64 // fiber and binder, kg/m²
	FiberVolume float64 // fiber share of the volume, voids included
	BinderMass  float64 // binder, kg/m²
}

// Lay returns what the fiber of areal mass W (kg/m², above 0 and at most 1e6)
// makes with its binder: t = (W/ρf + b/ρb)/(1 − v), b = W(1 − g)/g.
func (b Binder) Lay(arealMass float64) (Laid, error) {
	if err := b.check(); err != nil {
		return Laid{}, fmt.Errorf("band thickness: %w", err)
	}
	if !within(arealMass, 1e-9, 1e6) {
		return Laid{}, fmt.Errorf("band thickness: %w", &DomainError{"areal mass", arealMass, "above 0 and at most 1e6 kg/m²"})
	}
	resin := arealMass * (1 - b.FiberContent) / b.FiberContent
	t := (arealMass/b.FiberDensity + resin/b.Density) / (1 - b.Voids)
	return Laid{Thickness: t, PlyMass: arealMass + resin, FiberVolume: arealMass / b.FiberDensity / t, BinderMass: resin}, nil
}
