package picture

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// tall and broad are what an elevation may take of a page, in mm.
const (
	tall  = 120.0
	broad = 84.0
)

// ring is a part of the equipment as it stands: from one height to another, and
// the radius of its profile by points upward, in m.
type ring struct {
	id      string
	form    laminate.PartForm
	profile []drawing.Point // X the radius, Y the height
}

// stack stands the parts of a vessel on one another, in the order in which the
// job lists them: what comes before the first course hangs below it. left are
// the parts that are not of it or whose sizes are not stated, with why.
func stack(j *laminate.Job) (rings []ring, left []string) {
	height, courses := 0.0, false
	for i := range j.Parts {
		p := &j.Parts[i]
		part := j.Wall(i).Part
		d := part.InsideDiameter
		shape := part.Shape
		switch p.Form {
		case laminate.ShellCourse, laminate.FlatBottom, laminate.HeadPart, laminate.Cone:
		default:
			left = append(left, p.ID+" is not drawn: "+p.Form.String())
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
			next := height + part.Length.SI()
			rings = append(rings, ring{id: p.ID, form: p.Form, profile: []drawing.Point{{X: r, Y: height}, {X: r, Y: next}}})
			height, courses = next, true
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
		way := -1.0
		if courses {
			way = 1
		}
		x := ring{id: p.ID, form: p.Form}
		for _, at := range rise {
			x.profile = append(x.profile, drawing.Point{X: at.X, Y: height + way*at.Y})
		}
		rings = append(rings, x)
	}
	return rings, left
}

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
	scale := math.Min(tall/(high-low), broad/(2*wide)) // mm for 1 m
	const top = 14.0
	mid := Width/2 + 10
	x := func(m float64) float64 { return mid + m*scale }
	y := func(m float64) float64 { return top + (high-m)*scale }
	p := drawing.Picture{Width: Width}
	if level := j.Vessel.LiquidHeight; level.Given() && level.SI() <= high {
		at := y(level.SI())
		p.Dash(x(-wide), at, x(wide), at, drawing.Hair)
		p.Shape([]drawing.Point{{X: mid - 1.5, Y: at - 2.6}, {X: mid + 1.5, Y: at - 2.6}, {X: mid, Y: at}}, drawing.Hair, drawing.White)
		p.Write(mid+3, at-1, "liquid "+u.Figure(level.SI(), quantity.Distance), drawing.Smallest, drawing.Start)
	}
	for i := 0.0; y(high)-4+i*4 < y(low)+4; i++ { // the axis
		p.Line(mid, y(high)-4+i*4, mid, math.Min(y(high)-4+i*4+2.6, y(low)+4), drawing.Hair)
	}
	var spots []float64
	var names []string
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
			p.Line(x(-r.profile[0].X), y(a), x(r.profile[0].X), y(a), drawing.Thin)
			p.Line(x(-r.profile[0].X), y(b), x(r.profile[0].X), y(b), drawing.Thin)
			p.Measure(x(-wide)-14, x(-wide)-1, y(a), y(b))
			name += ", " + u.Figure(b-a, quantity.Distance)
		}
		spots, names = append(spots, y((a+b)/2)), append(names, name)
	}
	for i := range spots { // from the bottom up: the lowest is the last on the page
		at := spots[i]
		for k := range i {
			if math.Abs(at-spots[k]) < labelStep {
				at = spots[k] - labelStep
			}
		}
		spots[i] = at
		p.Write(x(-wide)-16, at+1, Fit(names[i], x(-wide)-16, drawing.Smallest, false), drawing.Smallest, drawing.End)
	}
	for i := range j.Nozzles {
		nozzle(&p, &j.Nozzles[i], rings, x, y, scale, u)
	}
	bottom := y(low) + 8
	p.Across(x(-wide), x(wide), bottom, "inside diameter "+u.Figure(2*wide, quantity.Distance))
	p.Write(mid, bottom+4.5, "scale 1:"+figure(1000/scale), drawing.Smallest, drawing.Middle)
	p.Height = bottom + 7
	return p, left, true
}

// nozzle marks a nozzle where it is: seen from bearing 0, behind the vessel with
// dashes; at the right edge where no bearing is stated.
func nozzle(p *drawing.Picture, n *laminate.Nozzle, rings []ring, x, y func(float64) float64, scale float64, u quantity.System) {
	for i := range rings {
		r := &rings[i]
		if r.id != n.On {
			continue
		}
		size := n.Opening.SI()
		if size <= 0 {
			size = n.Size.SI()
		}
		neck := n.Projection.SI()
		if neck <= 0 {
			neck = math.Max(size/2, 5/scale)
		}
		half := math.Max(size/2, 0.6/scale)
		radius, at := r.profile[0].X, r.profile[0].Y+n.Height.SI()
		name := n.ID
		if n.Size.Given() {
			name += ", " + u.Figure(n.Size.SI(), quantity.Size)
		}
		if r.form != laminate.ShellCourse { // on a bottom or a head it stands on the far side
			radius = n.Offset.SI()
			last := r.profile[len(r.profile)-1]
			out := 1.0
			if last.Y < r.profile[0].Y || r.form == laminate.FlatBottom {
				out = -1
			}
			cx := radius
			if n.Bearing.Given {
				cx = radius * math.Sin(n.Bearing.Value*math.Pi/180)
			}
			from := heightAt(r.profile, radius)
			a, b := y(from), y(from+out*neck)
			p.Box(x(cx-half), math.Min(a, b), 2*half*scale, math.Abs(b-a), drawing.Thin, drawing.White)
			p.Write(x(cx), math.Min(a, b)-1.2, name, drawing.Smallest, drawing.Middle)
			return
		}
		side := 1.0
		if n.Bearing.Given {
			b := n.Bearing.Value * math.Pi / 180
			if cx := radius * math.Sin(b); math.Abs(math.Sin(b)) < 0.94 {
				ring := circle(x(cx), y(at), half*scale)
				if math.Cos(b) < 0 {
					for k := 0; k+1 < len(ring); k += 2 {
						p.Curve(ring[k:k+2], drawing.Thin)
					}
				} else {
					p.Shape(ring, drawing.Thin, drawing.White)
				}
				if end := x(cx) + half*scale + 1.2; end+font.Width(name, drawing.Smallest, false) > x(radius)-1 {
					p.Write(x(cx)-half*scale-1.2, y(at)+1, name, drawing.Smallest, drawing.End)
				} else {
					p.Write(end, y(at)+1, name, drawing.Smallest, drawing.Start)
				}
				return
			}
			side = math.Copysign(1, math.Sin(b))
		}
		from, to := x(side*radius), x(side*(radius+neck))
		p.Box(math.Min(from, to), y(at+half), math.Abs(to-from), 2*half*scale, drawing.Thin, drawing.White)
		p.Line(to, y(at+half)-1, to, y(at-half)+1, drawing.Bold)
		if side > 0 {
			text := name + " at " + u.Figure(n.Height.SI(), quantity.Distance)
			p.Write(to+2, y(at)+1, Fit(text, Width-to-2, drawing.Smallest, false), drawing.Smallest, drawing.Start)
			if !n.Bearing.Given {
				p.Write(to+2, y(at)+1+labelStep, "bearing not stated", drawing.Smallest, drawing.Start)
			}
		} else {
			p.Write(from-1, y(at-half)+4, n.ID, drawing.Smallest, drawing.End)
		}
		return
	}
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
	var left []string
	p := drawing.Picture{Width: Width, Height: 96}
	const r, cy = 32.0, 48.0
	mid := Width / 2
	drawn := false
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		if !n.Bearing.Given || wide <= 0 {
			left = append(left, "nozzle "+n.ID+" is not in the plan: its bearing is not stated")
			continue
		}
		drawn = true
		b := n.Bearing.Value * math.Pi / 180
		sin, cos := math.Sin(b), math.Cos(b)
		half := math.Max(n.Size.SI()/2/wide*r, 0.8)
		name := n.ID + ", " + figure(n.Bearing.Value) + "°"
		end := r + 8.0
		if onTop(rings, n.On) {
			from := n.Offset.SI() / wide * r
			p.Shape(circle(mid+from*sin, cy-from*cos, half), drawing.Thin, drawing.White)
		} else {
			corner := func(along, across float64) drawing.Point {
				return drawing.Point{X: mid + along*sin + across*cos, Y: cy - along*cos + across*sin}
			}
			p.Shape([]drawing.Point{corner(r, -half), corner(end, -half), corner(end, half), corner(r, half)}, drawing.Thin, drawing.White)
		}
		p.Dash(mid, cy, mid+end*sin, cy-end*cos, drawing.Hair)
		a := drawing.Start
		if sin < -0.1 {
			a = drawing.End
		} else if sin < 0.1 {
			a = drawing.Middle
		}
		p.Write(mid+(end+2.5)*sin, cy-(end+2.5)*cos+1, name, drawing.Smallest, a)
	}
	ring := circle(mid, cy, r)
	p.Shape(ring, drawing.Bold, drawing.Clear)
	p.Line(mid, cy-r, mid, cy-r-2, drawing.Thin)
	p.Write(mid, cy-r-12, "0°", drawing.Smallest, drawing.Middle)
	return p, left, drawn
}

func onTop(rings []ring, id string) bool {
	for i := range rings {
		if rings[i].id == id {
			return rings[i].form != laminate.ShellCourse
		}
	}
	return false
}
