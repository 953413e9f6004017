package job

import (
	"maps"
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
)

// canvas is a picture of single cells: what stands in each, and nothing in the
// second cell of what takes two.
type canvas [][]string

func newCanvas(w, h int) canvas {
	c := make(canvas, h)
	for i := range c {
		c[i] = make([]string, w)
		for x := range c[i] {
			c[i][x] = " "
		}
	}
	return c
}

// put writes from a cell on. What does not fit whole is left out, and of what takes
// two cells no half stays.
func (c canvas) put(x, y int, s string) {
	for s != "" {
		piece, w := draw.First(s)
		s = s[len(piece):]
		if y >= 0 && y < len(c) && x >= 0 && x+w <= len(c[y]) && w > 0 {
			if c[y][x] == "" {
				c[y][x-1] = " "
			}
			if x+w < len(c[y]) && c[y][x+w] == "" {
				c[y][x+w] = " "
			}
			c[y][x] = piece
			for k := 1; k < w; k++ {
				c[y][x+k] = ""
			}
		}
		x += w
	}
}

// free tells whether w cells and one at either side of them are blank.
func (c canvas) free(x, y, w int) bool {
	if y < 0 || y >= len(c) || x < 0 || x+w > len(c[y]) {
		return false
	}
	for _, cell := range c[y][max(0, x-1):min(len(c[y]), x+w+1)] {
		if cell != " " {
			return false
		}
	}
	return true
}

// edge is the row of the outermost line in a column, from above or from below.
func (c canvas) edge(x int, under bool) int {
	for k := range c {
		y := k
		if under {
			y = len(c) - 1 - k
		}
		if c[y][x] != " " {
			return y
		}
	}
	return -1
}

func (c canvas) lines() []string {
	list := make([]string, len(c))
	for i := range c {
		list[i] = strings.Join(c[i], "")
	}
	return list
}

const (
	side    = 6 // how many cells beside the shell stand for nozzles and their names
	longest = 8 // name of a nozzle over a head or under a bottom, in cells
)

// elevation draws the shell of a job from the side, to scale, as the papers do:
// courses with their names, bottom and head where there are such, the level of the liquid, nozzles of
// courses at their heights, those of a head above it and of a bottom below it. How
// many of them it has no room to label, and how many have no place in it, is said
// under it. Nil where there is no shell to draw.
func elevation(j *laminate.Job, w, h int) []string {
	c, lost := vessel(j, w, h)
	said := lost.said()
	if len(said) > 0 {
		c, lost = vessel(j, w, h-len(said))
		said = lost.said()
	}
	if c == nil {
		return nil
	}
	list := c.lines()
	for _, s := range said {
		list = append(list, draw.Left(" "+s, w))
	}
	return list
}

// missed counts the nozzles that have no room for their names, and those that say of no
// place where they stand.
type missed struct {
	unlabeled, undrawn int
	atop, beneath      int // parts that close it, which are drawn as one
}

func (l missed) said() (list []string) {
	if l.unlabeled > 0 {
		list = append(list, "no room to label "+quantity.Counted(l.unlabeled, "nozzle", "nozzles"))
	}
	if l.undrawn > 0 {
		list = append(list, quantity.Counted(l.undrawn, "nozzle", "nozzles")+" not drawn")
	}
	for _, end := range []struct {
		parts int
		at    string
	}{{l.atop, "on top"}, {l.beneath, "below"}} {
		if end.parts > 1 {
			list = append(list, quantity.Counted(end.parts, "part", "parts")+" "+end.at+" drawn as one")
		}
	}
	return list
}

// closing counts the parts that close the vessel at an end.
func closing(a *laminate.Assembly, at func(part int) bool) (n int) {
	for i := range a.Job.Parts {
		switch a.Job.Parts[i].Form {
		case laminate.HeadPart, laminate.Cone, laminate.FlatBottom, laminate.Cover:
			if at(i) && (a.Job.Parts[i].Form != laminate.Cover || a.OnTop(i)) {
				n++
			}
		default:
		}
	}
	return n
}

// vessel draws it, and counts the nozzles that are not seen in it by name.
func vessel(j *laminate.Job, w, h int) (c canvas, lost missed) {
	a := j.Assemble()
	low, high, across, first := math.Inf(1), math.Inf(-1), 0.0, len(j.Parts)
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Form != laminate.ShellCourse {
			continue
		}
		first = min(first, i)
		at, ok := a.Elevation(i)
		if !ok || !p.Length.Given() {
			continue
		}
		low, high = min(low, at), max(high, at+p.Length.SI())
		across = max(across, p.InsideDiameter.SI())
	}
	if !(high > low) || across <= 0 || w < 2*side+8 || h < 6 {
		return nil, lost
	}
	top, bottom := high, low
	for i := range j.Parts {
		p := &j.Parts[i]
		if p.Form != laminate.HeadPart && p.Form != laminate.Cone {
			continue
		}
		if at, known := a.Elevation(i); known && a.Top(i) >= at {
			top, bottom = max(top, a.Top(i)), min(bottom, at)
		}
	}
	// A line of names above the head and one below the bottom, where nozzles are.
	var ends [2][]*laminate.Nozzle // on the head, on the bottom
	var walls []*laminate.Nozzle
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		switch at := standing(a, n, first); at {
		case onWall:
			walls = append(walls, n)
		case above, below:
			ends[at] = append(ends[at], n)
		default:
			lost.undrawn++
		}
	}
	over, under := min(1, len(ends[above])), min(1, len(ends[below]))
	// A cell is about twice as high as it is wide.
	scale := max((top-bottom)/float64(h-1-over-under), across*2/float64(w-2*side-2))
	row := func(y float64) int { return over + int(math.Round((top-y)/scale)) }
	width := max(6, int(math.Round(across*2/scale)))
	left := (w - width) / 2
	right := left + width
	c = newCanvas(w, row(bottom)+1+under)
	for y := row(high); y <= row(low); y++ {
		c.put(left, y, "│")
		c.put(right, y, "│")
	}
	// An end that nothing closes stays open.
	if lost.atop = closing(a, func(i int) bool { return i > first && a.OnTop(i) }); lost.atop > 0 {
		dome(c, left, right, row(top), row(high), false)
	}
	if lost.beneath = closing(a, func(i int) bool { return i < first }); lost.beneath > 0 {
		dome(c, left, right, row(bottom), row(low), true)
	}
	for at, list := range ends {
		lost.unlabeled += c.stand(list, at == below, left, right, scale)
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		at, ok := a.Elevation(i)
		if p.Form != laminate.ShellCourse || !ok {
			continue
		}
		if end := at + p.Length.SI(); end < high {
			c.put(left, row(end), "├"+draw.Run("─", width-1)+"┤")
		}
		name := draw.Cut(draw.Clean(p.ID), width-1)
		c.put(left+(width-draw.Width(name)+1)/2, row(at+p.Length.SI()/2), name)
	}
	if level := j.Vessel.LiquidHeight; level.Given() && low+level.SI() <= top {
		y := row(low + level.SI())
		for x := left + 1; x < right; x++ {
			if y >= 0 && y < len(c) && (c[y][x] == " " || c[y][x] == "─") {
				c[y][x] = "~"
			}
		}
	}
	var names [2]map[int][]string // left and right, by row
	names[0], names[1] = map[int][]string{}, map[int][]string{}
	for _, n := range walls {
		at, _ := a.Elevation(a.Part(n.On))
		y := row(at + n.Height.SI())
		if y < row(high) || y > row(low) {
			lost.undrawn++
			continue
		}
		on := 1
		if x := sideways(n); x < 0 || x == 0 && len(names[1][y]) > len(names[0][y]) {
			on = 0 // one in the middle stands where there is room
		}
		names[on][y] = append(names[on][y], draw.Clean(n.ID))
	}
	for on, rows := range names {
		for y, list := range rows {
			room := left - 1
			if on == 1 {
				room = w - right - 3
			}
			text, more := together(list, room)
			lost.unlabeled += more
			if on == 0 {
				c.put(left-draw.Width(text)-1, y, text+"─┤")
			} else {
				c.put(right, y, "├─"+text)
			}
		}
	}
	return c, lost
}

// Where a nozzle stands on the vessel.
const (
	above = iota
	below
	onWall
	nowhere
)

// standing is where a nozzle is drawn; nowhere on what is no part of the vessel, and
// where it does not say how high it is or how far from the axis. first is the lowest
// course: what a job lists before it closes the vessel below.
func standing(a *laminate.Assembly, n *laminate.Nozzle, first int) int {
	on := a.Part(n.On)
	if on < 0 {
		return nowhere
	}
	switch a.Job.Parts[on].Form {
	case laminate.ShellCourse:
		if _, ok := a.Elevation(on); ok && n.Height.Given() {
			return onWall
		}
	case laminate.HeadPart, laminate.FlatBottom, laminate.Cone:
		switch {
		case !n.Offset.Given():
		case a.OnTop(on):
			return above
		case on < first:
			return below
		}
	default:
	}
	return nowhere
}

// sideways is how far to the right a nozzle is of the axis, −1 to 1: seen from
// bearing 180°, as a plan with 0° at its top is seen from below it.
func sideways(n *laminate.Nozzle) float64 {
	if !n.Bearing.Given {
		return 1
	}
	x := math.Sin(n.Bearing.Value * math.Pi / 180)
	if math.Abs(x) < 1e-9 {
		return 0
	}
	return x
}

// stand puts nozzles on a head or under a bottom, and counts those without a name.
func (c canvas) stand(list []*laminate.Nozzle, under bool, left, right int, scale float64) (unnamed int) {
	mark, away := "┴", -1
	if under {
		mark, away = "┬", 1
	}
	names := map[int][]string{}
	for _, n := range list {
		x := (left+right)/2 + int(math.Round(max(-1e6, min(1e6, n.Offset.SI()*sideways(n)*2/scale))))
		x = max(left+1, min(right-1, x))
		names[x] = append(names[x], draw.Cut(draw.Clean(n.ID), longest))
	}
	edges := make(map[int]int, len(names))
	for x := range names {
		edges[x] = c.edge(x, under)
	}
	for _, x := range slices.Sorted(maps.Keys(names)) {
		c.put(x, edges[x], mark)
	next:
		for k := len(names[x]); ; k-- {
			text := strings.Join(names[x][:k], ",")
			w := draw.Width(text)
			for _, from := range []int{x, x - w + 1, x - w/2, x + 1, x - w} {
				if k == 0 || c.free(from, edges[x]+away, w) {
					c.put(from, edges[x]+away, text)
					unnamed += len(names[x]) - k
					break next
				}
			}
		}
	}
	return unnamed
}

// together is as many of the names of one place as there is room for, the first in
// any case, and how many are left.
func together(names []string, room int) (text string, more int) {
	text = draw.Cut(names[0], room)
	for k, name := range names[1:] {
		if longer := text + "," + name; draw.Width(longer) <= room {
			text = longer
			continue
		}
		return text, len(names) - 1 - k
	}
	return text, 0
}

// dome closes the shell between its edge and the line of its crown.
func dome(c canvas, left, right, crown, edge int, below bool) {
	corners := [2]string{"╭", "╮"}
	step := 1
	if below {
		corners, step = [2]string{"╰", "╯"}, -1
	}
	lines := edge - crown
	if below {
		lines = crown - edge
	}
	inset := func(k int) int { // k lines from the crown
		if lines == 0 {
			return 0
		}
		f := 1 - float64(k)/float64(lines)
		return int(math.Round(float64(right-left) / 2 * 0.7 * f * f))
	}
	for k := 0; k <= lines; k++ {
		y, in := crown+step*k, inset(k)
		inner := in
		if k > 0 {
			inner = inset(k-1) - 1
		}
		if k == 0 {
			c.put(left+in, y, corners[0]+draw.Run("─", right-left-2*in-1)+corners[1])
			continue
		}
		c.put(left+in, y, corners[0]+draw.Run("─", max(0, inner-in)))
		c.put(right-max(in, inner), y, draw.Run("─", max(0, inner-in))+corners[1])
	}
}
