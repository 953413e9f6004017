package picture

import (
	"math"
	"slices"
	"strconv"
	"strings"

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
	return wideBox(m, font.Width(m.Text, m.Size, m.Bold))
}

// wideBox is textBox of a text that is so wide.
func wideBox(m *drawing.Mark, w float64) box {
	x := m.At.X - w*[...]float64{drawing.Start: 0, drawing.Middle: 0.5, drawing.End: 1}[m.Anchor]
	em := m.Size * drawing.PerPoint
	return box{x, m.At.Y - 0.78*em, x + w, m.At.Y + 0.24*em}
}

// A taken page is what a picture has drawn by now, by squares of the page, so that
// a text is held only against what is near it.
type taken struct {
	p       *drawing.Picture
	entered int // marks of the picture that are
	squares [across * down][]covered
	into    []int // squares that got a cover, in turn
	reach   int   // lines of type that a text may be away from what it names
	tries   int   // how often one box was held against another
}

const (
	square = 4.0 // mm
	far    = 13  // lines of type, where all find room
	crowd  = 2   // in a crowd
	across = 45  // squares, more than Width
	down   = 100 // as many as a picture is high
)

// covered is a box and what covers it: a text, a line, or the whole of a small shape.
type covered struct {
	box
	text, shape bool
}

// near calls f with the squares that a box lies in.
func near(b box, f func(square int) bool) bool {
	at := func(v float64, most int) int { return int(math.Max(0, math.Min(v/square, float64(most-1)))) }
	for y := at(b.y1, down); y <= at(b.y2, down); y++ {
		for x := at(b.x1, across); x <= at(b.x2, across); x++ {
			if !f(y*across + x) {
				return false
			}
		}
	}
	return true
}

func (t *taken) enter(c covered) {
	near(c.box, func(at int) bool {
		t.squares[at], t.into = append(t.squares[at], c), append(t.into, at)
		return true
	})
}

// covers gives what a mark covers: its text, its lines piece by piece, of a small
// closed shape its inside too. Only a level dash covers anything.
func covers(m *drawing.Mark, f func(covered)) {
	if m.Text != "" {
		f(covered{box: textBox(m), text: true})
		return
	}
	if m.Dashed && m.Path[0].Y != m.Path[len(m.Path)-1].Y {
		return
	}
	for k := 1; k < len(m.Path); k++ {
		piece := around(m.Path[k-1 : k+1]) // of a slanting edge each piece is one
		piece.x2, piece.y2 = piece.x2+0.1, piece.y2+0.1
		f(covered{box: piece})
	}
	if whole := around(m.Path); m.Closed && whole.x2-whole.x1 < Width/4 {
		f(covered{box: whole, shape: true})
	}
}

// update enters what was drawn since.
func (t *taken) update() {
	for ; t.entered < len(t.p.Marks); t.entered++ {
		covers(&t.p.Marks[t.entered], t.enter)
	}
}

// back takes out what was drawn since there were so many marks, which were entered
// when so many squares had got something.
func (t *taken) back(marks, into int) {
	for _, at := range t.into[into:] {
		t.squares[at] = t.squares[at][:len(t.squares[at])-1]
	}
	t.p.Marks, t.into, t.entered = t.p.Marks[:marks], t.into[:into], marks
}

// free tells whether nothing in a box is of the kind that f asks for.
func (t *taken) free(b box, f func(*covered) bool) bool {
	return near(b, func(at int) bool {
		for i := range t.squares[at] {
			t.tries++
			if c := &t.squares[at][i]; b.meets(c.box) && f(c) {
				return false
			}
		}
		return true
	})
}

// label writes a text beside a thing, where it covers neither another text nor
// what stands on the equipment: at its right or left, over or under it, and
// farther away with a line that leads to it, over other texts where it may cross them.
// False where there is no such place.
func (t *taken) label(text string, thing box, cross bool) bool {
	text = Fit(text, Width/3, drawing.Smallest, false)
	wide := font.Width(text, drawing.Smallest, false)
	cx, cy := (thing.x1+thing.x2)/2, (thing.y1+thing.y2)/2
	const gap, base = 1.2, 1.0
	for line := range t.reach {
		away := float64(line) * labelStep
		for _, at := range [...]drawing.Mark{
			{At: drawing.Point{X: thing.x2 + gap, Y: cy + base - away}, Anchor: drawing.Start},
			{At: drawing.Point{X: thing.x2 + gap, Y: cy + base + away}, Anchor: drawing.Start},
			{At: drawing.Point{X: thing.x1 - gap, Y: cy + base - away}, Anchor: drawing.End},
			{At: drawing.Point{X: thing.x1 - gap, Y: cy + base + away}, Anchor: drawing.End},
			{At: drawing.Point{X: cx, Y: thing.y1 - gap - away}, Anchor: drawing.Middle},
			{At: drawing.Point{X: cx, Y: thing.y2 + gap + 2 + away}, Anchor: drawing.Middle},
		} {
			at.Text, at.Size = text, drawing.Smallest
			b := wideBox(&at, wide)
			if b.x1 < 0 || b.x2 > Width || b.y1 < 0 || b.y2 > t.p.Height || !t.free(b, func(c *covered) bool { return !c.shape || c.box != thing }) {
				continue
			}
			if away > 0 && !t.lead(thing, b, cross) {
				continue
			}
			t.p.Marks = append(t.p.Marks, at)
			return true
		}
	}
	return false
}

// standing is a nozzle to be drawn. Drawing it gives what it covers and what may be
// written beside it, the longest first.
type standing struct {
	id     string
	draw   func(*drawing.Picture) (thing box, names []string)
	unsaid string // what only the longest name says, as a reason
}

// name writes the longest name that finds a place; -1 where none does.
func (t *taken) name(names []string, thing box) int {
	t.update()
	return slices.IndexFunc(names, func(text string) bool {
		return t.label(text, thing, false) || t.reach == far && t.label(text, thing, true)
	})
}

// named draws nozzles and then their names, so that no name lies over one of them.
// Where one has no room for any name, nozzles are drawn one by one, as they are listed,
// and those are left out, for the reason given, that would have none near by or cover
// another or its name: so that what is drawn of a crowd can be told apart.
// over is drawn over the nozzles. What it gives is how often boxes were compared.
func named(p *drawing.Picture, list []standing, over func(*drawing.Picture), why string, missing *reasons) (tries int) {
	bare := *p
	bare.Marks = slices.Clone(p.Marks)
	t := &taken{p: p, reach: far}
	things, names := make([]box, len(list)), make([][]string, len(list))
	for i := range list {
		things[i], names[i] = list[i].draw(p)
	}
	over(p)
	chosen := make([]int, len(list))
	all := true
	for i := 0; all && i < len(list); i++ {
		chosen[i] = t.name(names[i], things[i])
		all = chosen[i] >= 0
	}
	if !all {
		*p = bare
		over(p)
		tries, t = t.tries, &taken{p: p, reach: crowd}
		for i := range list {
			chosen[i] = t.single(&list[i])
		}
	}
	for i := range list {
		switch {
		case chosen[i] < 0:
			missing.add(list[i].id, why)
		case chosen[i] > 0 && list[i].unsaid != "":
			missing.add(list[i].id, list[i].unsaid)
		}
	}
	return tries + t.tries
}

// single draws one nozzle with its name, or nothing where it would cover another or
// its name, or have no name: then it gives -1.
func (t *taken) single(n *standing) (chosen int) {
	t.update()
	marks, into := len(t.p.Marks), len(t.into)
	thing, names := n.draw(t.p)
	clear := true
	for k := marks; k < len(t.p.Marks); k++ {
		covers(&t.p.Marks[k], func(c covered) {
			clear = clear && t.free(c.box, func(other *covered) bool { return other.text || other.shape })
		})
	}
	if chosen = -1; clear {
		chosen = t.name(names, thing)
	}
	if chosen < 0 {
		t.back(marks, into)
	}
	return chosen
}

// omitted says which nozzles are left out and why: by name where they are few.
func omitted(ids []string, why string) string {
	switch {
	case len(ids) == 1:
		return "nozzle " + ids[0] + why
	case len(ids) <= 4:
		return "nozzles " + strings.Join(ids, ", ") + strings.Replace(why, " is ", " are ", 1)
	}
	return strconv.Itoa(len(ids)) + " nozzles" + strings.Replace(why, " is ", " are ", 1) + "; the table of nozzles has them"
}

// lead draws a line from a thing to the nearer end of its label; false where it
// would cross another text and may not.
func (t *taken) lead(thing, text box, cross bool) bool {
	cx, cy := (thing.x1+thing.x2)/2, (thing.y1+thing.y2)/2
	x, y := math.Max(text.x1, math.Min(cx, text.x2)), math.Max(text.y1, math.Min(cy, text.y2))
	from := drawing.Point{X: math.Max(thing.x1, math.Min(x, thing.x2)), Y: math.Max(thing.y1, math.Min(y, thing.y2))}
	const step = 1.0
	n := math.Ceil(math.Hypot(x-from.X, y-from.Y) / step)
	at := from
	for k := 1.0; k <= n && !cross; k++ {
		to := drawing.Point{X: from.X + (x-from.X)*k/n, Y: from.Y + (y-from.Y)*k/n}
		if !t.free(around([]drawing.Point{at, to}), func(c *covered) bool { return c.text }) {
			return false
		}
		at = to
	}
	t.p.Line(from.X, from.Y, x, y, drawing.Hair)
	return true
}
