package ground

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/surface"
)

// Strap is the ground of an overlay round the outside of a tube, its plies each
// of their own width.
func Strap(diameter float64, widths []float64) Ground {
	g := across(widths)
	g.Area = func(i int, z float64) (float64, error) {
		if i >= len(widths) {
			return 0, fmt.Errorf("no width of ply %d", i+1)
		}
		return surface.Cylinder(diameter+2*z, widths[i])
	}
	return g
}

// across is a ground of which the widths of plies are known, and nothing else.
func across(widths []float64) Ground {
	return Ground{what: "strap, round the parts", varies: true, Across: func(i int, _ float64) float64 {
		if i >= len(widths) {
			return 0
		}
		return widths[i]
	}}
}

// diameters are the inside diameter of the parts where a joint joins them, and the
// outside diameter of the thicker one. ok is false where neither is known.
func diameters(j *laminate.Job, x *laminate.Joint, lib *laminate.Library) (inside, outside float64, ok bool) {
	parts, thick := [2]*laminate.Part{{}, {}}, [2]float64{}
	for k, id := range x.Between {
		i := j.Part(id)
		if i < 0 {
			continue
		}
		own, s := &j.Parts[i], &laminate.Schedule{}
		parts[k] = &own.Part
		if l := j.Laminate(own.Laminate); own.Schedule != "" {
			s = j.Wall(i)
			parts[k] = &s.Part
		} else if l >= 0 {
			s = j.Schedule(l)
		}
		thick[k] = laminate.Analyze(s, lib).Total.Thickness
	}
	in, out := Joined(parts, thick)
	for k := range parts {
		if !math.IsNaN(in[k]) {
			inside, ok = math.Max(inside, in[k]), true
		}
		if !math.IsNaN(out[k]) {
			outside = math.Max(outside, out[k])
		}
	}
	return inside, outside, ok && outside > 0
}

var errNoDiameter = errors.New("the inside diameter of the parts is not stated (inside_diameter)")

// OfStrap is the ground of the overlay outside of a joint, whose plies a is the
// analysis of. Where the error is of the parts, the widths are there all the same.
// lib must not be nil.
func OfStrap(j *laminate.Job, x *laminate.Joint, a *laminate.Analysis, lib *laminate.Library) (Ground, error) {
	if !x.Width.Given() || !x.FirstWidth.Given() {
		return Ground{}, errors.New("the widths of the strap are not stated (width, first_width)")
	}
	widths := strapWidths(x, a)
	_, outside, ok := diameters(j, x, lib)
	if !ok {
		return across(widths), errNoDiameter
	}
	return Strap(outside, widths), nil
}

// strapWidths are those of the single plies of a strap, m. The stated width is that
// of the widest ply that counts: the bond is figured by it. A coat or veil outside of
// them goes over all of them, as wide.
func strapWidths(x *laminate.Joint, a *laminate.Analysis) []float64 {
	counted, all := counting(a)
	widths := joining.PlyWidths(x.FirstWidth.SI(), x.Width.SI(), counted)
	if x.Widths == laminate.WideFirst {
		slices.Reverse(widths)
	}
	for range all - counted {
		widths = append(widths, x.Width.SI())
	}
	return widths
}

// counting are how many single plies of an overlay lie under its coats and veils,
// and how many it has in all.
func counting(a *laminate.Analysis) (counted, all int) {
	for i := range a.Rows {
		all = a.Rows[i].Last
		if a.Rows[i].Zone != laminate.OuterSurface {
			counted = all
		}
	}
	return counted, all
}

// OfSeal is the ground of the overlay inside of a joint, whose plies lie one
// inside the other. lib must not be nil.
func OfSeal(j *laminate.Job, x *laminate.Joint, lib *laminate.Library) (Ground, error) {
	if !x.InsideWidth.Given() {
		return Ground{}, errors.New("the width of the seal is not stated (inside_width)")
	}
	width := x.InsideWidth.SI()
	g := Ground{what: "seal, round the inside", varies: true, Across: func(int, float64) float64 { return width }}
	inside, _, ok := diameters(j, x, lib)
	if !ok {
		return g, errNoDiameter
	}
	g.Area = func(_ int, z float64) (float64, error) { return surface.Cylinder(inside-2*z, width) }
	return g, nil
}

// PadDiameters are those of the single plies of a nozzle's pad, m, by the analysis
// of its laminate. The stated diameter is how far the whole pad counts, which is as
// far as its first ply reaches; each ply runs out beyond the one under it by the
// taper, and a coat or veil outside goes over the last of them.
func PadDiameters(n *laminate.Nozzle, a *laminate.Analysis) []float64 {
	counted, all := counting(a)
	list := make([]float64, 0, all)
	for i := range a.Rows {
		r := &a.Rows[i]
		for ply := r.First; ply <= r.Last; ply++ {
			under := r.ToHere - float64(r.Last-ply+1)*r.Thickness
			d := n.PadDiameter.SI() + 2*joining.TaperRatio*under
			if ply > max(counted, 1) {
				d = list[len(list)-1]
			}
			list = append(list, d)
		}
	}
	return list
}

// PadLaid is how wide a nozzle's pad is laid, m, with its taper; 0 where no diameter
// is stated. a may be nil: of no plies it is the stated diameter.
func PadLaid(n *laminate.Nozzle, a *laminate.Analysis) float64 {
	if a == nil || len(a.Rows) == 0 || !n.PadDiameter.Given() {
		return n.PadDiameter.SI()
	}
	return slices.Max(PadDiameters(n, a))
}

// hole is the diameter cut for a nozzle whose neck has the analysis neck, and that of
// its neck outside, m: a neck that goes through takes its own. Of a neck of unknown wall,
// where neck is nil or not known, both are the opening; 0 where nothing is stated.
func hole(n *laminate.Nozzle, neck *laminate.Analysis) (cut, outside float64) {
	cut = n.Cut().SI()
	if outside = cut; neck == nil || len(neck.Rows) == 0 || !neck.Total.ThicknessKnown || !n.Size.Given() {
		return cut, outside
	}
	outside = n.Size.SI() + 2*neck.Total.Thickness
	if !n.Opening.Given() && n.Kind != laminate.SetOn && n.Kind != laminate.Conical {
		cut = outside
	}
	return cut, outside
}

// OfPad is the ground of a nozzle's pad, whose plies a is the analysis of: a ring
// round what its neck takes, see hole.
func OfPad(n *laminate.Nozzle, a, neck *laminate.Analysis) (Ground, error) {
	cut, _ := hole(n, neck)
	if cut == 0 || !n.PadDiameter.Given() {
		return Ground{}, errors.New("its opening or the diameter of its pad is not stated (size or opening, pad_diameter)")
	}
	list := PadDiameters(n, a)
	outer := func(i int) float64 {
		if i >= len(list) {
			return 0
		}
		return list[i]
	}
	return Ground{what: "ring of the pad, round the opening", varies: true, Across: func(i int, _ float64) float64 { return outer(i) },
		Area: func(i int, _ float64) (float64, error) { return surface.Ring(outer(i), cut) }}, nil
}

// OfNeckBond is the ground of an overlay that bonds a nozzle: outside up the neck and as
// far out on the part, each ply in the corner of the one under it; inside into the bore,
// over the cut edge, and as far out on the part.
func OfNeckBond(n *laminate.Nozzle, neck *laminate.Analysis, inside bool) (Ground, error) {
	cut, d := hole(n, neck)
	if d == 0 || !n.NeckBond.Given() {
		return Ground{}, errors.New("its opening or neck_bond is not stated")
	}
	h := n.NeckBond.SI()
	if inside {
		bore := cut
		if n.Size.Given() {
			bore = min(cut, n.Size.SI())
		}
		return Ground{what: "into the neck and out on the part", varies: true, Across: func(_ int, z float64) float64 { return 2*h + (cut-bore)/2 + z },
			Area: func(_ int, z float64) (float64, error) {
				at := max(0, bore-2*z)
				ring, err := surface.Ring(cut+2*h, at)
				return math.Pi*at*h + ring, err
			}}, nil
	}
	return Ground{what: "up the neck and out on the part", varies: true, Across: func(int, float64) float64 { return 2 * h },
		Area: func(_ int, z float64) (float64, error) {
			ring, err := surface.Ring(d+2*z+2*h, d+2*z)
			return math.Pi*(d+2*z)*h + ring, err
		}}, nil
}

// OfNeck is the ground of a nozzle's neck, a tube from the part to the flange.
func OfNeck(n *laminate.Nozzle) (Ground, error) {
	if !n.Size.Given() || !n.Projection.Given() {
		return Ground{}, errors.New("its size or projection is not stated")
	}
	return Tube(n.Size.SI(), n.Projection.SI()), nil
}

// OfKnuckle is the ground of the reinforcement of a flat bottom's corner, outside on a
// wall so thick: up the wall to its height, round the knuckle, and in under the bottom
// as far as up the wall, which no key states and whoever reads How sees.
func OfKnuckle(p *laminate.Part, wall float64) (Ground, error) {
	if err := first(need(p.InsideDiameter.Given(), "the inside diameter", "inside_diameter"), need(p.KnuckleRadius.Given(), "the radius of the knuckle", "knuckle_radius"),
		need(p.KnuckleHeight.Given(), "the height of the knuckle's reinforcement", "knuckle_height")); err != nil {
		return Ground{}, err
	}
	radius, r, h := p.InsideDiameter.SI()/2, p.KnuckleRadius.SI(), p.KnuckleHeight.SI()
	if h < r {
		return Ground{}, errors.New("the height of the knuckle's reinforcement is below its radius (knuckle_height, knuckle_radius)")
	}
	if _, err := surface.KnuckledBottom(radius, r); err != nil {
		return Ground{}, err
	}
	left := math.Max(0, radius-h) // of the bottom
	return Ground{varies: true, what: "outside, up the wall, round the knuckle, and as far in under the bottom as up the wall (taken so: no key states it)", Area: func(_ int, z float64) (float64, error) {
		out := wall + z
		whole, err := surface.KnuckledBottom(radius+out, r+out)
		return 2*math.Pi*(radius+out)*(h-r) + whole - math.Pi*left*left, err
	}}, nil
}
