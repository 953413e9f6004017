// Package drawing is the one way to draw on paper: a picture is a list of marks
// in millimeters, made once and written by a back end, package pdf or svg. Its
// origin is the upper left corner, y runs down.
package drawing

import "slices"

// Picture is something drawn, in mm.
type Picture struct {
	Width, Height float64
	Marks         []Mark
}

// Mark is one thing drawn: a path, or text where Text is not empty.
type Mark struct {
	Path   []Point
	Closed bool    // the last point is joined to the first
	Stroke float64 // width of the line in mm, 0 for none
	Dashed bool
	Fill   Tone // of a closed path

	Text   string
	At     Point   // of its baseline
	Size   float64 // in points
	Bold   bool
	Anchor Anchor
	Turned bool // reads from the bottom up
}

// Point is a place in mm.
type Point struct{ X, Y float64 }

// Tone is a gray that survives a copier.
type Tone uint8

// The tones; the zero value fills nothing.
const (
	Clear Tone = iota
	White
	Light
	Gray
	Black
)

// Level is the lightness of a tone, 0 to 1.
func (t Tone) Level() float64 { return [...]float64{1, 1, 0.88, 0.62, 0}[t] }

// Anchor is which point of a text its place is.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Smallest is the smallest type that reads after a copier, in points.
const Smallest = 8.0

// PerPoint is a typographic point in mm.
const PerPoint = 25.4 / 72

// Widths of lines in mm.
const (
	Hair = 0.15
	Thin = 0.25
	Bold = 0.5
)

// Line draws a line.
func (p *Picture) Line(x1, y1, x2, y2, width float64) {
	p.Marks = append(p.Marks, Mark{Path: []Point{{x1, y1}, {x2, y2}}, Stroke: width})
}

// Dash draws a dashed line.
func (p *Picture) Dash(x1, y1, x2, y2, width float64) {
	p.Marks = append(p.Marks, Mark{Path: []Point{{x1, y1}, {x2, y2}}, Stroke: width, Dashed: true})
}

// Box draws a rectangle; width 0 leaves out its outline.
func (p *Picture) Box(x, y, w, h, width float64, fill Tone) {
	p.Marks = append(p.Marks, Mark{Path: []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, Closed: true, Stroke: width, Fill: fill})
}

// Shape draws a polygon.
func (p *Picture) Shape(path []Point, width float64, fill Tone) {
	p.Marks = append(p.Marks, Mark{Path: path, Closed: true, Stroke: width, Fill: fill})
}

// Curve draws an open path.
func (p *Picture) Curve(path []Point, width float64) {
	p.Marks = append(p.Marks, Mark{Path: path, Stroke: width})
}

// Write sets text.
func (p *Picture) Write(x, y float64, text string, size float64, a Anchor) {
	if text != "" {
		p.Marks = append(p.Marks, Mark{Text: text, At: Point{x, y}, Size: size, Anchor: a})
	}
}

// WriteBold sets text in bold.
func (p *Picture) WriteBold(x, y float64, text string, size float64, a Anchor) {
	if text != "" {
		p.Marks = append(p.Marks, Mark{Text: text, At: Point{x, y}, Size: size, Anchor: a, Bold: true})
	}
}

// Place copies a picture into this one with its corner at a place.
func (p *Picture) Place(q *Picture, x, y float64) {
	points := 0
	for i := range q.Marks {
		points += len(q.Marks[i].Path)
	}
	moved := make([]Point, 0, points) // of all paths: a section of a tall wall has a hundred thousand
	p.Marks = slices.Grow(p.Marks, len(q.Marks))
	for _, m := range q.Marks {
		from := len(moved)
		for _, at := range m.Path {
			moved = append(moved, Point{at.X + x, at.Y + y})
		}
		m.Path, m.At = moved[from:len(moved):len(moved)], Point{m.At.X + x, m.At.Y + y}
		p.Marks = append(p.Marks, m)
	}
}

// Across draws a horizontal dimension line at y between two places, with its
// text above the middle.
func (p *Picture) Across(x1, x2, y float64, text string) {
	p.Line(x1, y, x2, y, Hair)
	p.tick(x1, y)
	p.tick(x2, y)
	p.Write((x1+x2)/2, y-1, text, Smallest, Middle)
}

// Measure draws a vertical dimension line at x between two places, with the
// lines that lead there from the thing measured, at from.
func (p *Picture) Measure(x, from, y1, y2 float64) {
	p.Line(x, y1, x, y2, Hair)
	for _, y := range []float64{y1, y2} {
		over := -1.5
		if from < x {
			over = 1.5
		}
		p.Line(from, y, x+over, y, Hair)
		p.tick(x, y)
	}
}

// tick is the oblique stroke at the end of a dimension line.
func (p *Picture) tick(x, y float64) { p.Line(x-0.9, y+0.9, x+0.9, y-0.9, Thin) }
