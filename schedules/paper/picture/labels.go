package picture

import (
	"math"

	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// box is a rectangle in mm, from its upper left corner to its lower right one.
type box struct{ x1, y1, x2, y2 float64 }

func (b box) meets(c box) bool { return b.x1 < c.x2 && c.x1 < b.x2 && b.y1 < c.y2 && c.y1 < b.y2 }

// around is the box of a path.
func around(path []drawing.Point) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, at := range path {
		b = box{math.Min(b.x1, at.X), math.Min(b.y1, at.Y), math.Max(b.x2, at.X), math.Max(b.y2, at.Y)}
	}
	return b
}

// textBox is what a text covers.
func textBox(m *drawing.Mark) box {
	w := font.Width(m.Text, m.Size, m.Bold)
	x := m.At.X - w*[...]float64{drawing.Start: 0, drawing.Middle: 0.5, drawing.End: 1}[m.Anchor]
	em := m.Size * drawing.PerPoint
	return box{x, m.At.Y - 0.78*em, x + w, m.At.Y + 0.24*em}
}

// label writes a text beside a thing, where it covers neither another text nor
// what stands on the equipment: at its right or left, over or under it, and
// farther away with a line that leads to it.
func label(p *drawing.Picture, text string, thing box) {
	text = Fit(text, Width/3, drawing.Smallest, false)
	cx, cy := (thing.x1+thing.x2)/2, (thing.y1+thing.y2)/2
	const gap, base = 1.2, 1.0
	for away := 0.0; away < 12*labelStep; away += labelStep {
		for _, at := range []drawing.Mark{
			{At: drawing.Point{X: thing.x2 + gap, Y: cy + base - away}, Anchor: drawing.Start},
			{At: drawing.Point{X: thing.x2 + gap, Y: cy + base + away}, Anchor: drawing.Start},
			{At: drawing.Point{X: thing.x1 - gap, Y: cy + base - away}, Anchor: drawing.End},
			{At: drawing.Point{X: thing.x1 - gap, Y: cy + base + away}, Anchor: drawing.End},
			{At: drawing.Point{X: cx, Y: thing.y1 - gap - away}, Anchor: drawing.Middle},
			{At: drawing.Point{X: cx, Y: thing.y2 + gap + 2 + away}, Anchor: drawing.Middle},
		} {
			at.Text, at.Size = text, drawing.Smallest
			b := textBox(&at)
			if !free(p, b, thing) {
				continue
			}
			if away > 0 {
				lead(p, thing, b)
			}
			p.Marks = append(p.Marks, at)
			return
		}
	}
	p.Write(thing.x2+gap, cy+base, text, drawing.Smallest, drawing.Start) // rather over another than nowhere
}

// free tells whether a text can stand in a box: on the page, over no text, no
// line and no small shape but the thing itself. Dashes it may cross.
func free(p *drawing.Picture, b, thing box) bool {
	if b.x1 < 0 || b.x2 > Width || b.y1 < 0 {
		return false
	}
	for i := range p.Marks {
		m := &p.Marks[i]
		if m.Text != "" {
			if b.meets(textBox(m)) {
				return false
			}
			continue
		}
		if m.Dashed {
			continue
		}
		for k := 1; k < len(m.Path); k++ {
			piece := around(m.Path[k-1 : k+1]) // of a slanting edge each piece is one
			piece.x2, piece.y2 = piece.x2+0.1, piece.y2+0.1
			if b.meets(piece) {
				return false
			}
		}
		if whole := around(m.Path); m.Closed && whole != thing && whole.x2-whole.x1 < Width/4 && b.meets(whole) {
			return false
		}
	}
	return true
}

// lead draws a line from a thing to the nearer end of its label.
func lead(p *drawing.Picture, thing, text box) {
	cx, cy := (thing.x1+thing.x2)/2, (thing.y1+thing.y2)/2
	x, y := math.Max(text.x1, math.Min(cx, text.x2)), math.Max(text.y1, math.Min(cy, text.y2))
	from := drawing.Point{X: math.Max(thing.x1, math.Min(x, thing.x2)), Y: math.Max(thing.y1, math.Min(y, thing.y2))}
	p.Line(from.X, from.Y, x, y, drawing.Hair)
}
