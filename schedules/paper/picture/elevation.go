package picture

import (
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper/drawing"
)

// What an elevation may take of a page, and how near to each other seams may be
// drawn, in mm.
const (
	tall    = 120.0
	broad   = 84.0
	nearest = 1.5
)

// ring is a part of the equipment as it stands: from one height to another, and
// the radius of its profile by points upward, in m.
type ring struct {
	id      string
	form    laminate.PartForm
	profile []drawing.Point // X the radius, Y the height
	way     float64         // of what closes the vessel: 1 at its top, −1 below
}

// stack stands the parts of a vessel on one another, in the order in which the
// job lists them: what comes before the first course hangs below it. left are
// those whose sizes are not stated, with why.
func stack(j *laminate.Job) (rings []ring, left []string) {
	a, first, last := j.Assemble(), len(j.Parts), -1
	for i := range j.Parts {
		if j.Parts[i].Form == laminate.ShellCourse {
			first, last = min(first, i), i
		}
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		part := a.Wall(i).Part
		d := part.InsideDiameter
		shape := part.Shape
		if !p.Form.OfShell() {
			continue
		}
		if !d.Given() {
			left = append(left, p.ID+" is not drawn: its inside diameter is not stated")
			continue
		}
		r := d.SI() / 2
		var rise []drawing.Point // from the rim, X the radius, Y away from the vessel
		switch p.Form {
		case laminate.ShellCourse:
			if !part.Length.Given() {
				left = append(left, p.ID+" is not drawn: its length is not stated")
				continue
			}
			height, known := a.Elevation(i)
			if !known {
				left = append(left, p.ID+unplaced)
				continue
			}
			rings = append(rings, ring{id: p.ID, form: p.Form, profile: []drawing.Point{{X: r, Y: height}, {X: r, Y: height + part.Length.SI()}}})
			continue
		case laminate.FlatBottom:
			rise = []drawing.Point{{X: r}, {X: 0}}
		case laminate.HeadPart:
			rise = headProfile(&shape, r)
		case laminate.Cone:
			if shape.HalfAngle.Given && shape.HalfAngle.Value > 0 && shape.HalfAngle.Value < 90 {
				small := math.Min(shape.SmallDiameter.SI()/2, r)
				rise = []drawing.Point{{X: r}, {X: small, Y: (r - small) / math.Tan(shape.HalfAngle.Value*math.Pi/180)}, {X: 0, Y: (r - small) / math.Tan(shape.HalfAngle.Value*math.Pi/180)}}
			}
		default: // none
		}
		if rise == nil {
			left = append(left, p.ID+" is not drawn: its shape is not stated")
			continue
		}
		// What closes the vessel leads away from it: below the courses downward from its
		// top, else upward; a cone between courses that stands on its small end, downward.
		way, between := 1.0, i > first && i < last
		height, known := a.Elevation(i)
		if i < first || between && a.Tip(i) {
			way, height = -1, a.Top(i)
		}
		switch {
		case last < 0:
			way, height = -1, 0 // a job of a head alone
		case !known || math.IsNaN(height):
			left = append(left, p.ID+unplaced)
			continue
		}
		if between && p.Form == laminate.Cone {
			rise = rise[:2]
		}
		x := ring{id: p.ID, form: p.Form, way: way}
		for _, at := range rise {
			x.profile = append(x.profile, drawing.Point{X: at.X, Y: height + way*at.Y})
		}
		rings = append(rings, x)
	}
	return rings, left
}

const unplaced = " is not drawn: where it stands is not known"

// headProfile is a head from its rim to its middle; nil where a size is missing
// or is none.
func headProfile(s *laminate.Shape, r float64) []drawing.Point {
	const steps = 16
	list := make([]drawing.Point, 0, 2*steps+2)
	switch s.Head {
	case laminate.Torispherical:
		crown, knuckle := s.CrownRadius.SI(), s.KnuckleRadius.SI()
		if crown <= knuckle || knuckle <= 0 || knuckle > r || crown < r {
			return nil
		}
		c := r - knuckle
		depth := crown - math.Sqrt((crown-knuckle)*(crown-knuckle)-c*c)
		phi := math.Asin(c / (crown - knuckle))
		for i := range steps + 1 { // the knuckle, from the rim
			a := (math.Pi/2 - phi) * float64(i) / steps
			list = append(list, drawing.Point{X: c + knuckle*math.Cos(a), Y: knuckle * math.Sin(a)})
		}
		for i := range steps + 1 {
			a := phi * (1 - float64(i)/steps)
			list = append(list, drawing.Point{X: crown * math.Sin(a), Y: depth - crown + crown*math.Cos(a)})
		}
		return list
	case laminate.Ellipsoidal, laminate.Hemispherical:
		depth := r
		if s.Head == laminate.Ellipsoidal {
			depth = s.Depth.SI()
		}
		if depth <= 0 {
			return nil
		}
		for i := range 2*steps + 1 {
			a := math.Pi / 2 * float64(i) / (2 * steps)
			list = append(list, drawing.Point{X: r * math.Cos(a), Y: depth * math.Sin(a)})
		}
		return list
	case laminate.NoHeadShape:
	}
	return nil
}

// Elevation is the equipment seen from outside, to scale, and in words what it
// leaves out; false where there is no vessel in the job.
func Elevation(j *laminate.Job, u quantity.System) (drawing.Picture, []string, bool) {
	rings, left := stack(j)
	if len(rings) == 0 {
		return drawing.Picture{}, left, false
	}
	low, high, wide := math.Inf(1), math.Inf(-1), 0.0
	for i := range rings {
		for _, at := range rings[i].profile {
			low, high, wide = math.Min(low, at.Y), math.Max(high, at.Y), math.Max(wide, at.X)
		}
	}
	if high-low <= 0 || wide <= 0 {
		return drawing.Picture{}, left, false
	}
	// Nozzles on heads and bottoms reach beyond them.
	at := standingOn(rings)
	over, under, names := high, low, 0.0
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		on, ok := at[n.On]
		if !ok || rings[on].way == 0 {
			continue
		}
		end := heightAt(rings[on].profile, n.Offset.SI()) + rings[on].way*n.Projection.SI()
		over, under = math.Max(over, end), math.Min(under, end)
		if rings[on].way < 0 {
			names = 2 * labelStep // below them
		}
	}
	scale := reduced(math.Min(tall/(over-under), broad/(2*wide))) // mm for 1 m
	top := 14 + math.Max(0, (over-high)*scale-6)
	mid := Width/2 + 10
	x := func(m float64) float64 { return mid + m*scale }
	y := func(m float64) float64 { return top + (high-m)*scale }
	p := drawing.Picture{Width: Width}
	if level := j.Vessel.LiquidHeight; level.Given() && level.SI() <= high {
		at := y(level.SI())
		p.Dash(x(-wide), at, x(wide), at, drawing.Hair)
		p.Shape([]drawing.Point{{X: mid - 1.5, Y: at - 2.6}, {X: mid + 1.5, Y: at - 2.6}, {X: mid, Y: at}}, drawing.Hair, drawing.White)
		p.Write(mid+3, at-1, "liquid "+u.Stated(level.SI(), quantity.Distance), drawing.Smallest, drawing.Start)
	}
	for i := 0.0; y(high)-4+i*4 < y(low)+4; i++ { // the axis
		p.Line(mid, y(high)-4+i*4, mid, math.Min(y(high)-4+i*4+2.6, y(low)+4), drawing.Hair)
	}
	var spots []float64
	var parts []string
	seam, tight := math.Inf(-1), 0 // the last that is drawn
	for i := range rings {
		r := &rings[i]
		var right, other []drawing.Point
		for _, at := range r.profile {
			right = append(right, drawing.Point{X: x(at.X), Y: y(at.Y)})
			other = append(other, drawing.Point{X: x(-at.X), Y: y(at.Y)})
		}
		p.Curve(right, drawing.Bold)
		p.Curve(other, drawing.Bold)
		a, b := r.profile[0].Y, r.profile[len(r.profile)-1].Y
		name := r.id
		if form := r.form.String(); form != r.id {
			name += ", " + strings.ReplaceAll(form, "-", " ")
		}
		if r.form == laminate.ShellCourse {
			if (b-seam)*scale < nearest {
				tight++
			} else {
				p.Line(x(-r.profile[0].X), y(a), x(r.profile[0].X), y(a), drawing.Thin)
				p.Line(x(-r.profile[0].X), y(b), x(r.profile[0].X), y(b), drawing.Thin)
				p.Measure(x(-wide)-14, x(-wide)-1, y(a), y(b))
				seam = b
			}
			name += ", " + u.Stated(b-a, quantity.Distance)
		}
		spots, parts = append(spots, y((a+b)/2)), append(parts, name)
	}
	last, unnamed := math.Inf(1), 0
	for i := range spots { // from the bottom up: the lowest is the last on the page
		at := math.Min(spots[i], last-labelStep)
		if spots[i]-at > 2*labelStep || at < labelStep { // it would stand beside another part
			unnamed++
			continue
		}
		last = at
		p.Write(x(-wide)-16, at+1, Fit(parts[i], x(-wide)-16, drawing.Smallest, false), drawing.Smallest, drawing.End)
	}
	if tight > 0 {
		left = append(left, quantity.Counted(tight, "course is", "courses are")+" too low at this scale: the seam is not drawn")
	}
	if unnamed > 0 {
		left = append(left, quantity.Counted(unnamed, "part is", "parts are")+" not named in the picture: there is no room")
	}
	bottom := y(low) + 8 + (low-under)*scale + names
	p.Across(x(-wide), x(wide), bottom, "inside diameter "+u.Stated(2*wide, quantity.Distance))
	text := "scale 1:" + figure(1000/scale)
	if len(j.Nozzles) > 0 {
		text += ", seen from bearing 180°"
	}
	p.Write(mid, bottom+4.5, text, drawing.Smallest, drawing.Middle)
	p.Height = bottom + 7
	var list []standing
	var missing reasons
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		on, ok := at[n.On]
		switch {
		case !ok:
			missing.add(n.ID, " is not drawn: on no part of this picture")
		case rings[on].way == 0 && !n.Height.Given():
			missing.add(n.ID, " is not drawn: the height is not stated")
		case rings[on].way != 0 && !n.Offset.Given():
			missing.add(n.ID, " is not drawn: the offset from the axis is not stated")
		default:
			list = append(list, unbeared(n, rings[on].way != 0, func(p *drawing.Picture) (box, []string) { return nozzle(p, n, &rings[on], x, y, scale, u) }))
		}
	}
	named(&p, list, func(*drawing.Picture) {}, " is not drawn: there is no room for the name", &missing)
	return p, append(left, missing.said()...), true
}

// standingOn finds the parts of a vessel by their ids; the first of an id counts.
func standingOn(rings []ring) map[string]int {
	at := make(map[string]int, len(rings))
	for i := range rings {
		if _, there := at[rings[i].id]; !there {
			at[rings[i].id] = i
		}
	}
	return at
}

// reasons are nozzles left out, by why.
type reasons struct {
	why []string
	ids map[string][]string
}

func (r *reasons) add(id, why string) {
	if r.ids == nil {
		r.ids = map[string][]string{}
	}
	if r.ids[why] == nil {
		r.why = append(r.why, why)
	}
	r.ids[why] = append(r.ids[why], id)
}

func (r *reasons) said() (list []string) {
	for _, why := range r.why {
		list = append(list, omitted(r.ids[why], why))
	}
	return list
}

// nozzle marks a nozzle where it is: seen from bearing 180°, as the plan is from the
// foot of the page, behind the vessel with dashes; at the right edge where no
// bearing is stated. It gives what the nozzle covers, and what may be
// written beside it.
func nozzle(p *drawing.Picture, n *laminate.Nozzle, r *ring, x, y func(float64) float64, scale float64, u quantity.System) (box, []string) {
	size := n.Cut().SI()
	neck := n.Projection.SI()
	if neck <= 0 {
		neck = math.Max(size/2, 5/scale)
	}
	half := math.Max(size/2, 0.6/scale)
	name := n.ID
	names := []string{name}
	say := func(more string) { // before what is shorter
		name += more
		names = slices.Insert(names, 0, name)
	}
	if n.Size.Given() {
		say(", " + u.Stated(n.Size.SI(), quantity.Size))
	}
	sin, cos := math.Sincos(n.Bearing.Value * math.Pi / 180)
	if r.way != 0 { // on a bottom or a head it stands on the far side
		radius := n.Offset.SI()
		cx := radius
		switch {
		case n.Bearing.Given:
			cx = radius * sin
		case radius > 0:
			say(", bearing not stated")
		}
		from := heightAt(r.profile, radius)
		a, b := y(from), y(from+r.way*neck)
		thing := box{x(cx - half), math.Min(a, b), x(cx + half), math.Max(a, b)}
		p.Box(thing.x1, thing.y1, thing.x2-thing.x1, thing.y2-thing.y1, drawing.Thin, drawing.White)
		return thing, names
	}
	radius, at := r.profile[0].X, r.profile[0].Y+n.Height.SI()
	side := 1.0
	if n.Bearing.Given {
		if math.Abs(sin) < 0.94 {
			ring := circle(x(radius*sin), y(at), half*scale)
			if cos > 0 {
				dashed(p, ring)
			} else {
				p.Shape(ring, drawing.Thin, drawing.White)
			}
			return around(ring), names
		}
		side = math.Copysign(1, sin)
	}
	from, to := x(side*radius), x(side*(radius+neck))
	thing := box{math.Min(from, to), y(at + half), math.Max(from, to), y(at - half)}
	p.Box(thing.x1, thing.y1, thing.x2-thing.x1, thing.y2-thing.y1, drawing.Thin, drawing.White)
	p.Line(to, thing.y1-1, to, thing.y2+1, drawing.Bold)
	say(" at " + u.Stated(n.Height.SI(), quantity.Distance))
	if !n.Bearing.Given {
		say(", bearing not stated")
	}
	return thing, names
}

// unbeared is a nozzle to be drawn that says so, in its name or elsewhere, where no
// bearing is stated and it has one: in the middle of an end none has.
func unbeared(n *laminate.Nozzle, end bool, draw func(*drawing.Picture) (box, []string)) standing {
	s := standing{id: n.ID, draw: draw}
	if !n.Bearing.Given && (!end || n.Offset.SI() > 0) {
		s.unsaid = " is drawn at the right: the bearing is not stated"
	}
	return s
}

// dashed draws a ring that something hides.
func dashed(p *drawing.Picture, ring []drawing.Point) {
	for k := 0; k+1 < len(ring); k += 2 {
		p.Curve(ring[k:k+2], drawing.Thin)
	}
}

// reduced is the scale of a drawing, in mm for 1 m, that is at most so large and
// that a rule reads: of ISO 5455 and halfway between (from memory).
func reduced(most float64) float64 {
	for of := 1.0; of < 1e6; of *= 10 {
		for _, step := range []float64{1, 2, 2.5, 4, 5} {
			if scale := 1000 / (of * step); scale <= most {
				return scale
			}
		}
	}
	return most
}

// heightAt is how high a profile is at a radius.
func heightAt(profile []drawing.Point, radius float64) float64 {
	for i := 0; i+1 < len(profile); i++ {
		a, b := profile[i], profile[i+1]
		if radius <= a.X && radius >= b.X && a.X > b.X {
			return b.Y + (a.Y-b.Y)*(radius-b.X)/(a.X-b.X)
		}
	}
	return profile[len(profile)-1].Y
}

func circle(x, y, r float64) []drawing.Point {
	steps := 24 + 4*int(r)
	list := make([]drawing.Point, steps)
	for i := range list {
		a := 2 * math.Pi * float64(i) / float64(steps)
		list[i] = drawing.Point{X: x + r*math.Cos(a), Y: y + r*math.Sin(a)}
	}
	return list
}

// Plan is where nozzles stand, seen from above, bearings clockwise from the top
// of the page; false where no nozzle states one.
func Plan(j *laminate.Job) (drawing.Picture, []string, bool) {
	rings, _ := stack(j)
	wide := 0.0
	for i := range rings {
		wide = math.Max(wide, rings[i].profile[0].X)
	}
	p := drawing.Picture{Width: Width, Height: 96}
	const r, cy = 32.0, 48.0
	mid := Width / 2
	p.Line(mid, cy-r, mid, cy-r+3, drawing.Thin)
	p.Write(mid, cy-r+6, "0°", drawing.Smallest, drawing.Middle)
	at := standingOn(rings)
	var list []standing
	var missing reasons
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		on, ok := at[n.On]
		switch {
		case !ok:
			missing.add(n.ID, " is not in the plan: on no part of the vessel")
			continue
		case !n.Bearing.Given:
			missing.add(n.ID, " is not in the plan: the bearing is not stated")
			continue
		case rings[on].way != 0 && !n.Offset.Given():
			missing.add(n.ID, " is not in the plan: the offset from the axis is not stated")
			continue
		}
		list = append(list, standing{id: n.ID, draw: func(p *drawing.Picture) (box, []string) {
			sin, cos := math.Sincos(n.Bearing.Value * math.Pi / 180)
			half := math.Max(n.Size.SI()/2/wide*r, 0.8)
			begins, end := 0.0, r+8.0
			var path []drawing.Point
			if way := rings[on].way; way != 0 {
				from := n.Offset.SI() / wide * r
				path = circle(mid+from*sin, cy-from*cos, half)
				if way < 0 { // under the vessel
					dashed(p, path)
				} else {
					p.Shape(path, drawing.Thin, drawing.White)
				}
			} else {
				begins = r // its name stands inside, where the axis would strike it through
				corner := func(along, across float64) drawing.Point {
					return drawing.Point{X: mid + along*sin + across*cos, Y: cy - along*cos + across*sin}
				}
				path = []drawing.Point{corner(r, -half), corner(end, -half), corner(end, half), corner(r, half)}
				p.Shape(path, drawing.Thin, drawing.White)
			}
			p.Dash(mid+begins*sin, cy-begins*cos, mid+end*sin, cy-end*cos, drawing.Hair)
			return around(path), []string{n.ID + ", " + figure(n.Bearing.Value) + "°", n.ID}
		}})
	}
	named(&p, list, func(p *drawing.Picture) { p.Shape(circle(mid, cy, r), drawing.Bold, drawing.Clear) }, " is not in the plan: there is no room for the name", &missing)
	return p, missing.said(), len(list) > 0
}
