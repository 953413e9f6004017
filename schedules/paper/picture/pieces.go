package picture

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/schedules/paper/drawing"
)

// A cell is what one part may take, in mm; so many stand side by side.
const (
	cellWide  = Width / cells
	cellHigh  = 52.0
	pieceWide = cellWide - 14
	pieceHigh = 24.0
	cells     = 3
)

// Pieces are the parts of a job that do not stand in its vessel, each by itself
// and to a scale of its own: rows of pictures, and in words what is left out.
func Pieces(j *laminate.Job, u quantity.System) (rows []drawing.Picture, left []string) {
	a, at := j.Assemble(), 0
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Form.OfShell() {
			continue
		}
		part := a.Wall(i).Part
		if _, err := ground.OfPart(&part); err != nil {
			left = append(left, p.ID+" is not drawn: "+err.Error())
			continue
		}
		name := p.ID
		if form := part.Form.String(); form != p.ID {
			name += ", " + strings.ReplaceAll(form, "-", " ")
		}
		if n := p.Count.Or(1); n > 1 {
			name += " ×" + strconv.Itoa(n)
		}
		piece := piece(name, &part, u)
		if at%cells == 0 {
			rows = append(rows, drawing.Picture{Width: Width, Height: cellHigh})
		}
		rows[len(rows)-1].Place(&piece, cellWide*float64(at%cells), 0)
		at++
	}
	return rows, left
}

// piece is one part with its measures; what they need is stated.
func piece(name string, part *laminate.Part, u quantity.System) drawing.Picture {
	p := outline{Picture: drawing.Picture{Width: cellWide, Height: cellHigh}, u: u}
	p.WriteBold(1, 5, Fit(name, cellWide-2, 9, true), 9, drawing.Start)
	d := part.InsideDiameter.SI()
	bolts := ground.Bolted(part)
	switch {
	case part.Form == laminate.Elbow:
		p.elbow(d, part.BendRadius.SI(), part.Turn.Value, part.Miters.Value)
	case part.Form == laminate.Flange || part.Form == laminate.Cover && bolts.Outside > 0:
		bore := part.Size.SI()
		if bore <= 0 {
			bore = d
		}
		p.drilled(bolts, bore, part.Form == laminate.Flange)
	case part.Form == laminate.Panel || part.Form == laminate.Cover:
		p.plate(part)
	case part.Form == laminate.Tank: // stands, and its ends are not known
		p.rectangle(d, part.Length.SI())
		p.says("straight side; its ends are not stated")
	default:
		p.tube(d, part.Length.SI())
	}
	if p.scale > 0 {
		p.says("scale 1:" + figure(1000/p.scale))
	}
	for i, text := range p.words {
		p.Write(cellWide/2, cellHigh-2-labelStep*float64(len(p.words)-1-i), Fit(text, cellWide-2, drawing.Smallest, false), drawing.Smallest, drawing.Middle)
	}
	return p.Picture
}

// outline is one part being drawn: about the middle of its cell.
type outline struct {
	drawing.Picture
	u     quantity.System
	scale float64 // mm for 1 m
	words []string
}

const (
	middleX = cellWide / 2
	middleY = 9 + pieceHigh/2
)

func (p *outline) says(text string) { p.words = append(p.words, text) }

func (p *outline) size(m float64) string { return p.u.Figure(m, quantity.Size) }

// fit takes the scale for something so wide and high, in m.
func (p *outline) fit(wide, high float64) {
	p.scale = reduced(math.Min(pieceWide/wide, pieceHigh/high))
}

func (p *outline) rectangle(wide, high float64) {
	p.fit(wide, high)
	w, h := wide*p.scale, high*p.scale
	p.Box(middleX-w/2, middleY-h/2, w, h, drawing.Bold, drawing.White)
	p.Across(middleX-w/2, middleX+w/2, middleY+h/2+4.5, p.size(wide))
	p.says("height " + p.u.Figure(high, quantity.Distance))
}

// tube is a pipe on its side. One longer than so many diameters is broken off in
// its middle, with a mark.
func (p *outline) tube(d, length float64) {
	const longest = 12
	drawn := math.Min(length, longest*d)
	p.fit(drawn, d)
	w, h := drawn*p.scale, d*p.scale
	left, right, top, low := middleX-w/2, middleX+w/2, middleY-h/2, middleY+h/2
	p.Box(left, top, w, h, drawing.Bold, drawing.White)
	p.Dash(left-2, middleY, right+2, middleY, drawing.Hair)
	if drawn < length {
		p.Shape([]drawing.Point{{X: middleX - 1.5, Y: low + 1}, {X: middleX - 0.5, Y: top - 1}, {X: middleX + 1.5, Y: top - 1}, {X: middleX + 0.5, Y: low + 1}}, 0, drawing.White)
		p.Line(middleX-1.5, low+1, middleX-0.5, top-1, drawing.Thin)
		p.Line(middleX+0.5, low+1, middleX+1.5, top-1, drawing.Thin)
		p.says("broken off in its length")
	}
	p.Across(left, right, low+4.5, p.u.Stated(length, quantity.Distance))
	p.says("inside diameter " + p.size(d))
}

// elbow lies in its plane: smooth, or of segments cut at so many miters.
func (p *outline) elbow(d, bend, turn float64, miters int) {
	const steps = 32
	in, out := math.Max(bend-d/2, 0), bend+d/2
	half := turn * math.Pi / 180
	var inner, outer []drawing.Point // round the origin, in m
	add := func(angle, longer float64) {
		sin, cos := math.Sincos(angle)
		inner, outer = append(inner, drawing.Point{X: in * longer * sin, Y: -in * longer * cos}), append(outer, drawing.Point{X: out * longer * sin, Y: -out * longer * cos})
	}
	if miters == 0 {
		for i := range steps + 1 {
			add(half*float64(i)/steps, 1)
		}
	} else {
		theta := half / float64(2*miters) // between a miter and the end of its segment
		add(0, 1)
		for k := range miters {
			add(theta*float64(2*k+1), 1/math.Cos(theta))
		}
		add(half, 1)
	}
	path := append(append([]drawing.Point{}, inner...), reversed(outer)...)
	whole := around(path)
	p.fit(whole.x2-whole.x1, whole.y2-whole.y1)
	place := func(at drawing.Point) drawing.Point {
		return drawing.Point{X: middleX + (at.X-(whole.x1+whole.x2)/2)*p.scale, Y: middleY + (at.Y-(whole.y1+whole.y2)/2)*p.scale}
	}
	for i := range path {
		path[i] = place(path[i])
	}
	p.Shape(path, drawing.Bold, drawing.White)
	for k := 1; miters > 0 && k <= miters; k++ {
		a, b := place(inner[k]), place(outer[k])
		p.Line(a.X, a.Y, b.X, b.Y, drawing.Thin)
	}
	what := "smooth"
	if miters > 0 {
		what = quantity.Counted(miters, "miter", "miters")
	}
	p.says(figure(turn) + "°, " + what + ", bend radius " + p.size(bend))
	p.says("inside diameter " + p.size(d))
}

func reversed(list []drawing.Point) []drawing.Point {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// drilled is a flange or a cover seen along its axis, bolt holes off the center
// lines.
func (p *outline) drilled(bolts vessel.Drilling, bore float64, open bool) {
	p.fit(bolts.Outside, bolts.Outside)
	r := bolts.Outside / 2 * p.scale
	p.Shape(circle(middleX, middleY, r), drawing.Bold, drawing.White)
	if open {
		p.Shape(circle(middleX, middleY, bore/2*p.scale), drawing.Bold, drawing.White)
	}
	p.Line(middleX-r-2, middleY, middleX+r+2, middleY, drawing.Hair)
	p.Line(middleX, middleY-r-2, middleX, middleY+r+2, drawing.Hair)
	said, holes := "outside "+p.size(bolts.Outside), ""
	if at := bolts.Circle / 2 * p.scale; at > 0 {
		said += ", bolt circle " + p.size(bolts.Circle)
		ring := circle(middleX, middleY, at)
		for k := 0; k+1 < len(ring); k += 2 {
			p.Curve(ring[k:k+2], drawing.Hair)
		}
		if bolts.Bolts > 0 && bolts.Bolt > 0 {
			holes = strconv.Itoa(bolts.Bolts) + " holes " + p.size(bolts.Hole()) + ", "
			for i := range bolts.Bolts {
				sin, cos := math.Sincos((float64(i) + 0.5) * 2 * math.Pi / float64(bolts.Bolts))
				p.Shape(circle(middleX+at*sin, middleY-at*cos, bolts.Hole()/2*p.scale), drawing.Thin, drawing.White)
			}
		}
	}
	p.says(said)
	if bore > 0 {
		p.says(holes + "size " + p.size(bore))
	}
}

// plate is a panel or a cover, by whatever its size is stated.
func (p *outline) plate(part *laminate.Part) {
	switch {
	case part.Width.Given() && part.Length.Given():
		w, l := part.Width.SI(), part.Length.SI()
		p.rectangle(math.Max(w, l), math.Min(w, l))
		p.words = []string{"by " + p.size(math.Min(w, l))}
	case part.Area.Given(): // of no shape that is stated
		p.says("area " + p.u.Figure(part.Area.SI(), quantity.Surface) + "; its outline is not stated")
	default:
		d := part.InsideDiameter.SI()
		p.fit(d, d)
		p.Shape(circle(middleX, middleY, d/2*p.scale), drawing.Bold, drawing.White)
		p.Across(middleX-d/2*p.scale, middleX+d/2*p.scale, middleY+d/2*p.scale+4.5, p.size(d))
	}
}
