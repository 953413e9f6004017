package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/rules"
	"math"
	"slices"
	"strings"
)

// Hole is the opening, m, or what is missing: the one stated, else the nominal size,
// or what a neck that goes through it takes.
func (x *Opening) Hole(p *rules.JobPass) (d float64, missing string) {
	if !x.Cut().Given() {
		return 0, "neither opening nor size is stated"
	}
	d = x.Cut().SI()
	if neck, known := x.Through(p); known && !x.Opening.Given() {
		d = math.Max(d, neck)
	}
	return d, ""
}

// Edge is how far the opening reaches from its middle, m; 0 where it is not known.
func (x *Opening) Edge(p *rules.JobPass) float64 {
	d, _ := x.Hole(p)
	return d / 2
}

// Through is the outside diameter of a neck that goes through its part, m, its bore
// taken as the nominal size; not known of one set on or conical, or where its wall is
// not. One of which nobody says how it is made is taken to go through.
func (x *Opening) Through(p *rules.JobPass) (m float64, known bool) {
	a := p.Analysis(x.Neck)
	if a == nil || len(a.Rows) == 0 || !a.Total.ThicknessKnown || !x.Size.Given() || x.Kind == laminate.SetOn || x.Kind == laminate.Conical {
		return 0, false
	}
	return x.Size.SI() + 2*a.Total.Thickness, true
}

// Free is how much of its neck lies free outside, from the part to the back of its
// flange, m: there is no more for an overlay to bond to. Not known where its projection
// is not stated.
func (x *Opening) Free(p *rules.JobPass) (m float64, known bool) {
	m = x.Projection.SI()
	if f := p.Part(x.Flange); x.Flange != "" && f >= 0 {
		if t := p.Stated(f).Thickness; t.Given() {
			m -= t.SI()
		} else if t := thickness(p, f); !math.IsNaN(t) {
			m -= t
		}
	}
	return math.Max(0, m), x.Projection.Given()
}

// Room is how far its part goes on from the edge of its opening, to the end that is
// nearest, m; not known of what no key states a place on.
func (x *Opening) Room(p *rules.JobPass) (m float64, known bool) {
	part := &p.Parts[x.Part].Schedule.Part
	switch p.Job.Parts[x.Part].Form {
	case laminate.ShellCourse, laminate.Pipe, laminate.Duct:
		known = x.Height.Given() && part.Length.Given()
		m = math.Min(x.Height.SI(), part.Length.SI()-x.Height.SI())
	case laminate.HeadPart, laminate.FlatBottom:
		known = x.Offset.Given() && part.InsideDiameter.Given()
		m = part.InsideDiameter.SI()/2 - x.Offset.SI()
	default:
	}
	if m -= x.Edge(p); m < 1e-9 { // what rounding leaves is none
		m = 0
	}
	return m, known
}

// Bonded is how far its overlay bonds along neck and part, each, m: as far as is stated,
// and where one of them is shorter no further than that; what says which it is.
func (x *Opening) Bonded(p *rules.JobPass) (m float64, what string) {
	m = x.NeckBond.SI()
	if free, known := x.Free(p); known && Thinner(free, m) {
		m, what = free, "all of it that lies free (projection, less its flange)"
	}
	if room, known := x.Room(p); known && room > 0 && Thinner(room, m) { // opening-off-part says so of none
		m, what = room, "from its opening to the end of part "+x.On
	}
	return m, what
}

// Laid is how wide its pad is laid, with the taper, m; 0 where no diameter is stated.
func (x *Opening) Laid(p *rules.JobPass) float64 {
	return ground.PadLaid(x.Nozzle, p.Analysis(x.Pad))
}

// Pressure is that at the nozzle's lowest edge, Pa, or what is missing.
func (x *Opening) Pressure(p *rules.JobPass) (pa float64, missing string) {
	if !x.Height.Given() && p.Job.Parts[x.Part].Form == laminate.ShellCourse {
		return 0, "its height is not stated"
	}
	return PressureAt(p, x.Part, x.Foot(p))
}

// Pressed is the pressure at its lowest edge, Pa, that asks the most of its bonds.
func (x *Opening) Pressed(p *rules.JobPass) (d Demand, missing string) {
	if _, missing := x.Pressure(p); missing != "" {
		return Demand{Share: 1}, missing
	}
	return hardest(p, []int{x.Part}, func(u Under) (float64, string) { return u.Pressing().At(p, x.Part, x.Foot(p)) })
}

// Foot is how high its lower edge is above the lower end of its part, m: by its
// height, else by where its head or cone is at its offset; 0, the worst, where neither
// says so.
func (x *Opening) Foot(p *rules.JobPass) float64 {
	at := x.Height.SI()
	if places := x.Heights(p, &p.Parts[x.Part].Schedule.Part); !x.Height.Given() && len(places) > 0 {
		at = slices.Min(places)
	}
	return math.Max(0, at-x.Edge(p))
}

// Replaced is what the pad has to carry, N/m.
func (x *Opening) Replaced(p *rules.JobPass) (need Demand, missing string) {
	d, missing := x.Hole(p)
	if missing != "" {
		return Demand{Share: 1}, missing
	}
	if most, missing := x.Most(p); missing != "" || most == 0 {
		return Demand{Share: 1}, missing
	}
	if !x.PadDiameter.Given() && x.Pad != "" {
		return Demand{Share: 1}, "the diameter of the pad is not stated (pad_diameter)"
	}
	pad := x.PadDiameter.SI()
	if x.Pad == "" {
		pad = joining.PadDiameter(d)
	}
	return hardest(p, []int{x.Part}, func(u Under) (float64, string) {
		n, along, missing := x.Taken(p, u)
		if missing != "" || n == 0 {
			return 0, missing
		}
		return joining.PadLoad(n, x.Carries(p, n, along, u), d, pad), ""
	})
}

// Taken is the load that the opening takes from the wall under a condition, N/m: that round
// it, or that along the axis where more pulls there than presses round.
func (x *Opening) Taken(p *rules.JobPass, u Under) (n float64, along bool, missing string) {
	pa, missing := u.Pressing().At(p, x.Part, x.Foot(p))
	if missing != "" {
		return 0, false, missing
	}
	if n, missing = x.HoopOf(p, pa); missing != "" {
		return 0, false, missing
	}
	if a := x.pulled(p, u); quantity.Above(a, n) {
		return a, true, ""
	}
	return n, false, ""
}

// pulled is the most that pulls along the axis of a straight part under a condition, N/m, as
// its wall is figured.
func (x *Opening) pulled(p *rules.JobPass, u Under) (n float64) {
	part := p.Parts[x.Part]
	switch f := part.Schedule.Part.Form; {
	case part.Wall == nil:
	case f == laminate.ShellCourse, f == laminate.Pipe, f == laminate.Duct, f == laminate.Tank:
		for i := range part.Wall.Cases {
			if c := &part.Wall.Cases[i]; c.Judged && (u == "" || strings.HasSuffix(c.Name, " ("+string(u)+")")) {
				n = math.Max(n, c.NAxial)
			}
		}
	default: // of others it changes from place to place, and their load round is more
	}
	return n
}

// Most is the most that the opening takes from the wall in any state, N/m.
func (x *Opening) Most(p *rules.JobPass) (n float64, missing string) {
	if n, missing = x.Hoop(p); missing != "" {
		return 0, missing
	}
	for _, u := range States(p, x.Part) {
		n = math.Max(n, x.pulled(p, u))
	}
	return n, ""
}

// Sheared is what the opening takes from the wall in the state that asks the most of the
// bond of its pad, N/m.
func (x *Opening) Sheared(p *rules.JobPass) (d Demand, missing string) {
	if _, missing := x.Hoop(p); missing != "" {
		return Demand{Share: 1}, missing
	}
	return hardest(p, []int{x.Part}, func(u Under) (float64, string) {
		n, _, missing := x.Taken(p, u)
		return n, missing
	})
}

// Carries is what the shell may bear round, N/m, its barrier never counted: by the
// strength table what its structure may bear, else by the governing hoop criterion of
// its part at the part's own load; what is needed where there is none, or where the load
// is one along the axis, so that no excess counts. Of several conditions the worst
// criterion stands for each.
func (x *Opening) Carries(p *rules.JobPass, need float64, along bool, u Under) float64 {
	part := p.Parts[x.Part]
	pa, missing := u.Pressing().At(p, x.Part, 0)
	if part.Wall == nil || missing != "" {
		return need
	}
	worst, may := 0.0, math.Inf(1)
	for i := range part.Wall.Criteria {
		c := &part.Wall.Criteria[i]
		switch {
		case !c.Governs:
		case c.Name == wall.HoopStrength: // which counts a share of the barrier
			share, missing := u.kept(p, x.Part)
			if s := StackOf(part.Analysis); missing == "" && s.Known {
				may = math.Min(may, s.Hoop*share)
			}
		case !along && c.Judged() && (c.Name == wall.HoopStrain || c.Name == wall.UnitLoad):
			worst = math.Max(worst, c.Ratio)
		}
	}
	if worst > 0 {
		factor, _ := x.shape(p) // replaced asked before
		may = math.Min(may, factor*joining.HoopLoad(pa, part.Schedule.Part.InsideDiameter.SI())/worst)
	}
	if math.IsInf(may, 1) {
		return need
	}
	return may
}

// UnderVacuum is the most vacuum on its part, that of the test too, Pa, and how thick the structure of its pad
// has to be under it, m; no number where that cannot be told, both 0 without a vacuum.
func (x *Opening) UnderVacuum(p *rules.JobPass) (vacuum, structure float64) {
	s := p.Parts[x.Part].Schedule
	vacuum = math.Max(s.Service.Vacuum.SI(), p.Job.Test.Vacuum.SI())
	for i := range s.Conditions {
		vacuum = math.Max(vacuum, s.Conditions[i].Vacuum.SI())
	}
	d, missing := x.Hole(p)
	if vacuum <= 0 || missing != "" {
		return 0, 0 // opening-large says what is missing
	}
	pad := joining.PadDiameter(d) // the least, where none is stated
	if x.PadDiameter.Given() {
		pad = x.PadDiameter.SI()
	}
	wall, ring := StackOf(p.Parts[x.Part].Analysis), math.Min(pad, 2*d)-d
	if !wall.Known || ring <= 0 {
		return vacuum, math.NaN()
	}
	return vacuum, wall.Structure * d / 2 / ring
}

// Hoop is the load round that the wall there has to carry, N/m: of a head that of
// the sphere that its crown is, of other parts by the factor of their form.
func (x *Opening) Hoop(p *rules.JobPass) (load float64, missing string) {
	part := &p.Parts[x.Part].Schedule.Part
	if !part.InsideDiameter.Given() && form.Answers(part.Form) == form.ByMembrane {
		return 0, "the inside diameter of part " + x.On + " is not stated"
	}
	pa, missing := x.Pressure(p)
	if missing != "" {
		return 0, missing
	}
	return x.HoopOf(p, pa)
}

// HoopOf is hoop under a pressure, Pa.
func (x *Opening) HoopOf(p *rules.JobPass, pa float64) (load float64, missing string) {
	if pa == 0 {
		return 0, ""
	}
	part := &p.Parts[x.Part].Schedule.Part
	d := part.InsideDiameter.SI()
	if part.Form == laminate.HeadPart {
		if _, missing = x.shape(p); missing != "" {
			return 0, missing
		}
		switch part.Head {
		case laminate.Torispherical:
			return joining.HoopLoad(pa, part.CrownRadius.SI()), ""
		case laminate.Ellipsoidal:
			return joining.HoopLoad(pa, d*d/(4*part.Depth.SI())), ""
		default:
			return joining.HoopLoad(pa, d/2), ""
		}
	}
	if part.Form == laminate.Cone && x.Offset.Given() { // as wide as it is there
		d = math.Min(d, 2*x.Offset.SI())
	}
	factor, missing := x.shape(p)
	return factor * joining.HoopLoad(pa, d), missing
}

// shape is how many times the load round of a straight shell its part carries, or
// why that cannot be told.
func (x *Opening) shape(p *rules.JobPass) (factor float64, missing string) {
	part := p.Parts[x.Part]
	if part.Schedule.Part.Form == laminate.FlatBottom {
		return 0, "part " + x.On + " is a flat bottom, and what bears it round the recess that a nozzle needs in its foundation is not figured"
	}
	if form.Answers(part.Schedule.Part.Form) == form.ByBending {
		return 0, "part " + x.On + " is a plate, which pressure bends: what an opening takes from it is not figured"
	}
	facts := form.Facts{Part: &part.Schedule.Part, Units: p.Units, Whole: part.Analysis.Total.Thickness}
	f, open := facts.Shape()
	return f.Hoop, open
}

// Unfigured says why no formula here figures what the opening takes from its part, ""
// where one does or a fact is missing for it.
func (x *Opening) Unfigured(p *rules.JobPass) string {
	part := &p.Parts[x.Part].Schedule.Part
	facts := form.Facts{Part: part, Units: p.Units, Whole: p.Parts[x.Part].Analysis.Total.Thickness}
	if f, _ := facts.Shape(); part.Form != laminate.FlatBottom && form.Answers(part.Form) != form.ByBending && !f.Outside {
		return ""
	}
	_, why := x.shape(p)
	return why
}

// Heights are how high above the lower end of its head or cone an opening is at its
// offset, m: both ways up where nothing says which, none where a size is missing.
func (x *Opening) Heights(p *rules.JobPass, part *laminate.Part) []float64 {
	rise, known := part.Rise()
	above := part.Profile().At(x.Offset.SI()) // the wide end
	if !x.Offset.Given() || !known || rise <= 0 || math.IsNaN(above) {
		return nil
	}
	if _, stands := p.Elevation(x.Part); !stands {
		return []float64{above, rise - above}
	}
	return []float64{p.Up(x.Part, x.Offset.SI())}
}

// EndTo is the end of a part, 0 its bottom and 1 its top, on which another stands;
// not known of what is not in the stack.
func EndTo(p *rules.JobPass, part, other int) (end int, known bool) {
	if other < 0 || !p.Job.Parts[part].Form.OfShell() || !p.Job.Parts[other].Form.OfShell() {
		return 0, false
	}
	if other > part { // the stack stands as it is written, from the bottom up
		return 1, true
	}
	return 0, true
}
