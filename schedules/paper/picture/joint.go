package picture

import (
	"math"
	"strconv"

	"frp/veilwright/schedules/paper/drawing"
)

// Joint is an overlay cut through along the parts that it joins.
type Joint struct {
	Left, Right JoinedWall
	Gap         float64 // m between them
	Outside     []Band  // from the wall outward
	Inside      []Band  // from the wall inward; empty for none
	Widths      string  // of the outside, as it is printed: "2 in to 8 in"
}

// JoinedWall is the wall of a part that is joined.
type JoinedWall struct {
	Name               string
	Thickness, Barrier float64 // m
}

// Band is one ply of an overlay: all of its width lies across the joint.
type Band struct {
	Width, Thickness float64 // m
	Hatch            drawing.Hatch
}

// Draped draws the joint. A ply comes down onto the wall past the end of a
// narrower one under it, as it is laid; heights are drawn larger than widths.
func (j *Joint) Draped() (drawing.Picture, bool) {
	wall := math.Max(j.Left.Thickness, j.Right.Thickness)
	wide, high := 0.0, wall
	for _, list := range [][]Band{j.Outside, j.Inside} {
		for _, b := range list {
			wide, high = math.Max(wide, b.Width), high+b.Thickness
		}
	}
	if wide <= 0 || wall <= 0 {
		return drawing.Picture{}, false
	}
	span := wide * 1.35
	sx := 150 / span
	sy := math.Min(sx*8, 55/high)
	sx = math.Min(sx, sy)
	mid := Width / 2
	x := func(m float64) float64 { return mid + m*sx }
	up := 0.0
	for _, b := range j.Outside {
		up += b.Thickness
	}
	top := 10 + up*sy // where the outside face of the walls is
	bottom := top + wall*sy
	p := drawing.Picture{Width: Width}
	p.WriteBold(x(-span/2), 6, "OUTSIDE", 9, drawing.Start)
	for _, side := range []struct {
		w        *JoinedWall
		from, to float64
	}{{&j.Left, -span / 2, -j.Gap / 2}, {&j.Right, j.Gap / 2, span / 2}} {
		t, b := side.w.Thickness*sy, side.w.Barrier*sy
		p.Box(x(side.from), bottom-t, (side.to-side.from)*sx, t, drawing.Thin, drawing.White)
		for at := x(side.from) + 2; at < x(side.to)-1; at += 4 { // strokes mark what was there before
			p.Line(at, bottom-b, math.Min(at+3, x(side.to)), bottom-math.Min(b+3, t), drawing.Hair)
		}
		if b > 0 {
			p.Box(x(side.from), bottom-b, (side.to-side.from)*sx, b, drawing.Thin, drawing.Light)
		}
	}
	// Paste fills the gap, and levels one wall with the other.
	run := math.Max(j.Gap/2, wide*0.02)
	face := func(at float64) float64 {
		share := math.Max(0, math.Min(1, (at+run)/(2*run)))
		return j.Left.Thickness + share*(j.Right.Thickness-j.Left.Thickness)
	}
	if j.Gap > 0 || j.Left.Thickness != j.Right.Thickness {
		p.Shape([]drawing.Point{{X: x(-j.Gap / 2), Y: bottom}, {X: x(-j.Gap / 2), Y: bottom - j.Left.Thickness*sy}, {X: x(-run), Y: bottom - j.Left.Thickness*sy},
			{X: x(run), Y: bottom - j.Right.Thickness*sy}, {X: x(j.Gap / 2), Y: bottom - j.Right.Thickness*sy}, {X: x(j.Gap / 2), Y: bottom}}, drawing.Hair, drawing.Gray)
	}
	drape(&p, j.Outside, x, func(at, h float64) float64 { return bottom - (face(at)+h)*sy })
	drape(&p, j.Inside, x, func(_, h float64) float64 { return bottom + h*sy })
	down := bottom
	for _, b := range j.Inside {
		down += b.Thickness * sy
	}
	p.WriteBold(x(-span/2), down+6, "PROCESS SIDE", 9, drawing.Start)
	p.Write(x(-span/2)+1, top-2, Fit(j.Left.Name, (span-wide)/2*sx+8, drawing.Smallest, false), drawing.Smallest, drawing.Start)
	p.Write(x(span/2)-1, top-2, Fit(j.Right.Name, (span-wide)/2*sx+8, drawing.Smallest, false), drawing.Smallest, drawing.End)
	p.Across(x(-wide/2), x(wide/2), down+10, j.Widths)
	if len(j.Outside) > 0 {
		p.Write(mid, 6, strconv.Itoa(len(j.Outside))+" plies outside, "+strconv.Itoa(len(j.Inside))+" inside", drawing.Smallest, drawing.Middle)
	}
	p.Write(mid, down+15, "along 1:"+figure(1000/sx)+", heights drawn "+figure(sy/sx)+" times larger", drawing.Smallest, drawing.Middle)
	p.Height = down + 18
	return p, true
}

// drape lays bands over one another: each follows what lies under it.
func drape(p *drawing.Picture, bands []Band, x func(float64) float64, y func(at, height float64) float64) {
	const steps = 120
	under := func(upto int, at float64) float64 {
		h := 0.0
		for _, b := range bands[:upto] {
			h += b.Thickness * cover(b.Width/2, at)
		}
		return h
	}
	for i := range bands {
		b := &bands[i]
		if b.Width <= 0 {
			continue
		}
		var path []drawing.Point
		for k := range steps + 1 {
			at := -b.Width/2 + b.Width*float64(k)/steps
			path = append(path, drawing.Point{X: x(at), Y: y(at, under(i, at)+b.Thickness*cover(b.Width/2, at))})
		}
		for k := steps; k >= 0; k-- {
			at := -b.Width/2 + b.Width*float64(k)/steps
			path = append(path, drawing.Point{X: x(at), Y: y(at, under(i, at))})
		}
		fill := drawing.White
		if b.Hatch == drawing.Woven {
			fill = drawing.Light
		} else if b.Hatch == drawing.Stippled || b.Hatch == drawing.Blackened {
			fill = drawing.Gray
		}
		p.Shape(path, drawing.Hair, fill)
	}
}

// cover is how much of a ply's thickness there is at a place: whole, and
// running out over the last of its half width.
func cover(half, at float64) float64 {
	edge := half - math.Abs(at)
	switch run := half * 0.06; {
	case edge <= 0:
		return 0
	case edge < run:
		return edge / run
	}
	return 1
}

// figure prints a number with three digits that count.
func figure(v float64) string {
	if v >= 100 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'g', 3, 64)
}
