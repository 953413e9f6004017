package widget

import (
	"slices"
	"strings"

	"frp/veilwright/tui/internal/draw"
)

// Layer is one layer of the wall.
type Layer struct {
	Thickness float64 // in any unit, the same for all
	Glyph     string  // one cell
	Pattern   string  // glyphs of one cell each in the place of Glyph, over and over
	Look      draw.Style
	Zone      string // written under it, once for neighbors of the same zone
	Gel       bool   // a gel stop follows
}

// Strip is the picture. The zero value is an empty wall with no place marked
// but for Cursor, which then is layer 0; use -1 for none.
type Strip struct {
	Layers []Layer
	// Label names a layer by its index, where the picture is high and the name
	// fits into the layer; it is asked of those alone. Nil for no names.
	Label func(layer int) string
	// Barrier is how many layers the barrier has; its edge stands after them.
	Barrier int
	// Cursor is the layer worked at, CursorLabel its name: "ply 8".
	Cursor      int
	CursorLabel string
	// Left and Right name what is on either side: "fluid", "air".
	Left, Right string
}

// Edges as drawn, one cell each.
const (
	barrierEdge = "┃"
	gelStop     = "╎"
	cursorMark  = "▲"
)

// leastCells is what the layers need before the words beside them have room.
const leastCells = 24

// drawing is a strip laid out in a width.
type drawing struct {
	*Strip
	th          *draw.Theme
	w           int
	left, right string
	scale       scale
	marks       []mark
	gelsLost    bool
}

// mark stands between cells, before the cell at.
type mark struct {
	at    int
	glyph string
}

// View draws the strip: exactly h lines of w cells. One line is the picture
// alone; from two the last one used bears zones, cursor and what must be said of
// the scale; from four the picture is three lines high and labels its layers.
func (s *Strip) View(th *draw.Theme, w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	d := s.draw(th, w, h == 1)
	rows := 1
	if h >= 4 {
		rows = 3
	}
	lines := make([]string, 0, rows+1)
	for y := range rows {
		lines = append(lines, d.row(y == rows/2, rows > 1))
	}
	if h > 1 {
		lines = append(lines, d.under())
	}
	return draw.FitLines(lines, w, h)
}

// Note says what is not true to scale in the picture of this size, "" for
// nothing. View writes it too.
func (s *Strip) Note(w int) string {
	d := s.draw(&draw.Theme{}, w, false)
	return d.note()
}

func (s *Strip) draw(th *draw.Theme, w int, alone bool) *drawing {
	d := &drawing{Strip: s, th: th, w: w}
	if s.Left != "" {
		d.left = " " + draw.Clean(s.Left) + " "
	}
	if s.Right != "" {
		d.right = " " + draw.Clean(s.Right)
	}
	if w-draw.Width(d.left)-draw.Width(d.right) < leastCells {
		d.left, d.right = "", ""
	}
	d.divide()
	if alone && d.note() != "" {
		d.right += "≠" // there is no line to say it in
		d.divide()
	}
	return d
}

// divide gives the cells to marks and layers.
func (d *drawing) divide() {
	room := max(0, d.w-draw.Width(d.left)-draw.Width(d.right))
	thickness := make([]float64, len(d.Layers))
	gels := 0
	for i, l := range d.Layers {
		thickness[i] = l.Thickness
		if l.Gel && i != d.Barrier-1 {
			gels++
		}
	}
	edge := 0
	if d.Barrier > 0 && d.Barrier <= len(d.Layers) && room > 1 {
		edge = 1
	}
	d.gelsLost = gels > 0 && (gels > room/4 || len(d.Layers) > room-gels-edge)
	if d.gelsLost {
		gels = 0
	}
	d.scale = divide(thickness, room-gels-edge)
	d.marks = d.marks[:0]
	if len(d.scale.owner) == 0 {
		return
	}
	for i, l := range d.Layers {
		at := d.scale.end[i]
		switch {
		case i == d.Barrier-1 && edge == 1:
			d.marks = append(d.marks, mark{at, barrierEdge})
		case l.Gel && gels > 0:
			d.marks = append(d.marks, mark{at, gelStop})
		}
	}
}

func (d *drawing) note() string {
	n := d.scale.note()
	if d.gelsLost {
		if n != "" {
			n += ", "
		}
		n += "gel stops not drawn"
	}
	return n
}

// column returns the screen column of a cell: the marks before it take one each.
func (d *drawing) column(cell int) int {
	x := draw.Width(d.left) + cell
	for _, m := range d.marks {
		if m.at <= cell {
			x++
		}
	}
	return x
}

// row draws one line of the picture; the middle one bears the words.
func (d *drawing) row(middle, labels bool) string {
	var b strings.Builder
	b.Grow(4*d.w + 64)
	if middle {
		b.WriteString(d.th.Dim.Render(d.left))
	} else {
		b.WriteString(draw.Spaces(draw.Width(d.left)))
	}
	if len(d.Layers) == 0 {
		b.WriteString(d.th.Dim.Render(draw.Run("·", d.w-draw.Width(d.left)-draw.Width(d.right))))
	}
	owner, marks := d.scale.owner, d.marks
	for x := 0; x < len(owner); {
		for len(marks) > 0 && marks[0].at <= x {
			b.WriteString(d.th.Mark.Render(marks[0].glyph))
			marks = marks[1:]
		}
		end := x
		for end < len(owner) && owner[end] == owner[x] && (len(marks) == 0 || end < marks[0].at) {
			end++
		}
		d.layer(&b, owner[x], end-x, middle && labels)
		x = end
	}
	for _, m := range marks {
		b.WriteString(d.th.Mark.Render(m.glyph))
	}
	if middle {
		b.WriteString(d.th.Dim.Render(d.right))
	}
	return b.String()
}

// layer draws n cells of a layer, labeled if asked and if there is room.
func (d *drawing) layer(b *strings.Builder, i, n int, label bool) {
	l := &d.Layers[i]
	glyph := l.Glyph
	if draw.Width(glyph) != 1 {
		glyph = "?"
	}
	run := func(n int) string { return draw.Run(glyph, n) }
	if cells := []rune(l.Pattern); len(cells) > 1 {
		run = func(n int) string {
			var s strings.Builder
			for i := range n {
				s.WriteRune(cells[i%len(cells)])
			}
			return s.String()
		}
	}
	if label && d.Label != nil && n > 4 {
		word := " " + draw.Clean(d.Label(i)) + " "
		if k := draw.Width(word); k+2 <= n {
			before := (n - k) / 2
			b.WriteString(l.Look.Render(run(before) + word + run(n-k-before)))
			return
		}
	}
	b.WriteString(l.Look.Render(run(n)))
}

// word is a piece of the line under the picture.
type word struct {
	x    int
	text string
	look draw.Style
}

// under draws the line under the picture: the cursor, then what must be said
// of the scale, then the zones' words where they still have room.
func (d *drawing) under() string {
	var words []word
	place := func(x int, s string, look draw.Style, apart int) bool {
		n := draw.Width(s)
		if x < 0 || x+n > d.w {
			return false
		}
		for _, o := range words {
			if x < o.x+draw.Width(o.text)+apart && o.x < x+n+apart {
				return false
			}
		}
		words = append(words, word{x, s, look})
		return true
	}
	note := d.note()
	if note != "" {
		note = draw.Cut(note, d.w)
	}
	if d.Cursor >= 0 && d.Cursor < len(d.Layers) && len(d.scale.owner) > 0 {
		x := d.column((d.scale.start[d.Cursor] + max(d.scale.start[d.Cursor], d.scale.end[d.Cursor]-1)) / 2)
		label := draw.Clean(d.CursorLabel)
		room := d.w
		if note != "" && x+1 < d.w-draw.Width(note) {
			room -= draw.Width(note) + 1
		}
		switch n := draw.Width(label); {
		case x+1+n <= room:
			place(x, cursorMark+label, d.th.Mark, 0)
		case x-n >= 0:
			place(x-n, label+cursorMark, d.th.Mark, 0)
		default:
			place(x, cursorMark, d.th.Mark, 0)
		}
	}
	if note != "" && !place(d.w-draw.Width(note), note, d.th.Warning, 1) {
		if !place(0, note, d.th.Warning, 1) {
			words = words[:0]
			place(0, note, d.th.Warning, 0)
		}
	}
	for i := 0; i < len(d.Layers) && len(d.scale.owner) > 0; {
		j := i
		for j < len(d.Layers) && d.Layers[j].Zone == d.Layers[i].Zone {
			j++
		}
		if zone := draw.Clean(d.Layers[i].Zone); zone != "" {
			from, to := d.column(d.scale.start[i]), d.column(max(d.scale.start[j-1], d.scale.end[j-1]-1))+1
			if n := draw.Width(zone); n <= to-from {
				middle := from + (to-from-n)/2
				_ = place(middle, zone, d.th.Dim, 1) || place(from, zone, d.th.Dim, 1) || place(to-n, zone, d.th.Dim, 1)
			}
		}
		i = j
	}
	slices.SortFunc(words, func(a, b word) int { return a.x - b.x })
	var l draw.Line
	for _, wd := range words {
		l.Gap(wd.x - l.Width()).Add(wd.look.Render(wd.text))
	}
	return l.String()
}
