package job

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
)

// canvas is a picture of single cells.
type canvas [][]rune

func newCanvas(w, h int) canvas {
	c := make(canvas, h)
	for i := range c {
		c[i] = []rune(strings.Repeat(" ", w))
	}
	return c
}

func (c canvas) put(x, y int, s string) {
	for _, r := range s {
		if y >= 0 && y < len(c) && x >= 0 && x < len(c[y]) {
			c[y][x] = r
		}
		x++
	}
}

func (c canvas) lines() []string {
	list := make([]string, len(c))
	for i := range c {
		list[i] = string(c[i])
	}
	return list
}

// side is how many cells beside the shell stand for nozzles and their names.
const side = 6

// elevation draws the shell of a job from the side, to scale: courses with their
// names, bottom and head, the level of the liquid, nozzles at their heights. Nil
// where there is no shell to draw.
func elevation(j *laminate.Job, w, h int) []string {
	a := j.Assemble()
	low, high, across := math.Inf(1), math.Inf(-1), 0.0
	for i := range j.Parts {
		p := &j.Parts[i]
		at, ok := a.Elevation(i)
		if p.Form != laminate.ShellCourse || !ok || !p.Length.Given() {
			continue
		}
		low, high = min(low, at), max(high, at+p.Length.SI())
		across = max(across, p.InsideDiameter.SI())
	}
	if !(high > low) || across <= 0 || w < 2*side+8 || h < 6 {
		return nil
	}
	top, bottom := high, low
	for i := range j.Parts {
		p := &j.Parts[i]
		rise, ok := p.Rise()
		switch {
		case !ok || p.Form != laminate.HeadPart && p.Form != laminate.Cone:
		case a.OnTop(i):
			top = max(top, high+rise)
		default:
			if at, known := a.Elevation(i); known {
				bottom = min(bottom, at)
			}
		}
	}
	// A cell is about twice as high as it is wide.
	scale := max((top-bottom)/float64(h-1), across*2/float64(w-2*side-2))
	row := func(y float64) int { return int(math.Round((top - y) / scale)) }
	width := max(6, int(math.Round(across*2/scale)))
	left := (w - width) / 2
	right := left + width
	c := newCanvas(w, row(bottom)+1)
	for y := row(high); y <= row(low); y++ {
		c.put(left, y, "│")
		c.put(right, y, "│")
	}
	dome(c, left, right, row(top), row(high), false)
	dome(c, left, right, row(bottom), row(low), true)
	for i := range j.Parts {
		p := &j.Parts[i]
		at, ok := a.Elevation(i)
		if p.Form != laminate.ShellCourse || !ok {
			continue
		}
		if end := at + p.Length.SI(); end < high {
			c.put(left, row(end), "├"+draw.Run("─", width-1)+"┤")
		}
		name := draw.Clip(draw.Clean(p.ID), width-1)
		c.put(left+(width-draw.Width(name)+1)/2, row(at+p.Length.SI()/2), name)
	}
	if level := j.Vessel.LiquidHeight; level.Given() && low+level.SI() <= top {
		y := row(low + level.SI())
		for x := left + 1; x < right; x++ {
			if y >= 0 && y < len(c) && (c[y][x] == ' ' || c[y][x] == '─') {
				c[y][x] = '~'
			}
		}
	}
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		on := a.Part(n.On)
		if on < 0 {
			continue
		}
		at, ok := a.Elevation(on)
		if !ok {
			continue
		}
		y, id := row(at+n.Height.SI()), draw.Clip(draw.Clean(n.ID), side-2)
		if a.OnTop(on) {
			x := (left + right) / 2
			if n.Offset.Given() {
				x += int(math.Round(n.Offset.SI() * 2 / scale))
			}
			c.put(x, max(0, row(at+n.Height.SI())), "┴"+id)
			continue
		}
		if b := n.Bearing.Value; b > 90 && b < 270 {
			c.put(left-draw.Width(id)-1, y, id+"─┤")
		} else {
			c.put(right, y, "├─"+id)
		}
	}
	return c.lines()
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
