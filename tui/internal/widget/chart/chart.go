// Package chart draws a quantity through the thickness of a wall: position runs
// from left to right like in the picture of the wall, the quantity upward and,
// where it is negative, downward from a common zero.
package chart

import (
	"math"
	"strings"

	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

// Piece is a straight piece of the profile, one ply's. Position and value are
// in any unit, the same for all pieces.
type Piece struct {
	From, To float64 // positions, From < To
	A, B     float64 // values there
}

// Chart is the profile with what is allowed.
type Chart struct {
	Pieces []Piece
	// Limits are values not to be passed, away from zero; each is drawn as a
	// dashed line, and what passes one has another look and is named by Worst.
	Limits []float64
	// Format writes a value for the scale at the left, its unit left out.
	Format func(float64) string
}

// finite reports a piece that can be drawn.
func (p Piece) finite() bool {
	return drawable(p.From) && drawable(p.To) && drawable(p.A) && drawable(p.B) && p.To > p.From
}

// drawable reports a number; what is so large that sums of it overflow is none.
func drawable(v float64) bool { return math.Abs(v) <= 1e300 }

// at returns the value at a position within the piece.
func (p Piece) at(x float64) float64 {
	return p.A + (p.B-p.A)*((x-p.From)/(p.To-p.From))
}

// Over reports whether any value passes a limit.
func (c *Chart) Over() bool {
	for _, p := range c.Pieces {
		if p.finite() && (c.passes(p.A) || c.passes(p.B)) {
			return true
		}
	}
	return false
}

func (c *Chart) passes(v float64) bool {
	for _, l := range c.Limits {
		if l > 0 && v > l || l < 0 && v < l {
			return true
		}
	}
	return false
}

// column is what one column of the drawing shows: of all values that lie in it
// the one farthest from zero, so that a thin ply's peak is not lost.
type column struct {
	value float64
	known bool
}

func (c *Chart) columns(n int) []column {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range c.Pieces {
		if p.finite() {
			lo, hi = min(lo, p.From), max(hi, p.To)
		}
	}
	out := make([]column, n)
	if n < 1 || hi <= lo {
		return out
	}
	scale := float64(n) / (hi - lo)
	for _, p := range c.Pieces {
		if !p.finite() {
			continue
		}
		first := max(0, min(n-1, int((p.From-lo)*scale)))
		last := max(first, min(n-1, int(math.Ceil((p.To-lo)*scale))-1))
		for x := first; x <= last; x++ {
			left, right := max(p.From, lo+float64(x)/scale), min(p.To, lo+float64(x+1)/scale)
			for _, at := range [...]float64{left, right} {
				v := p.at(max(p.From, min(p.To, at)))
				if !out[x].known || math.Abs(v) > math.Abs(out[x].value) {
					out[x] = column{v, true}
				}
			}
		}
	}
	return out
}

// scale is the vertical division: up rows above zero, down below, each worth unit.
type scale struct {
	up, down int
	unit     float64
}

func (c *Chart) scale(columns []column, h int) scale {
	top, bottom := 0.0, 0.0
	stretch := func(v float64) { top, bottom = max(top, v), min(bottom, v) }
	for _, col := range columns {
		if col.known {
			stretch(col.value)
		}
	}
	for _, l := range c.Limits {
		if drawable(l) {
			stretch(l)
		}
	}
	span := top/2 - bottom/2 // halves, lest the sum overflow
	if span == 0 {
		return scale{up: h, unit: 1}
	}
	s := scale{up: int(math.Round(float64(h) * (top / 2 / span)))}
	if top > 0 && s.up == 0 {
		s.up = 1
	}
	if bottom < 0 && s.up == h && h > 1 {
		s.up = h - 1
	}
	s.down = h - s.up
	if s.up > 0 {
		s.unit = top / float64(s.up)
	}
	if s.down > 0 {
		s.unit = max(s.unit, -bottom/float64(s.down))
	}
	s.unit = max(s.unit, math.SmallestNonzeroFloat64)
	return s
}

// rowOf returns the row a value lies in, 0 at the top.
func (s scale) rowOf(v float64) int {
	h := s.up + s.down
	rows := max(1, int(math.Ceil(min(math.Abs(v)/s.unit, float64(h))-1e-9)))
	if v >= 0 {
		return max(0, s.up-rows)
	}
	return min(h-1, s.up+rows-1)
}

var eighths = [...]string{" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"}

// glyph returns what a value fills of a row, in eighths from zero on; below
// zero, where glyphs hang from above, there are just three.
func (s scale) glyph(v float64, row int) (string, bool) {
	if v > 0 && row < s.up {
		fill := v/s.unit - float64(s.up-1-row)
		if n := int(math.Round(min(fill, 1) * 8)); n > 0 {
			return eighths[n], true
		}
		if row == s.up-1 { // there is something, however little
			return eighths[1], true
		}
	}
	if v < 0 && row >= s.up {
		fill := -v/s.unit - float64(row-s.up)
		switch {
		case fill >= 0.75:
			return "█", true
		case fill >= 0.25:
			return "▀", true
		case fill > 0:
			return "▔", true
		}
	}
	return " ", false
}

const dashes = "╌"

// View draws the chart: exactly h lines of w cells, the scale at the left.
func (c *Chart) View(th *theme.Theme, w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	labels := 0
	lines := make([]string, h)
	// The scale depends on the columns and their number on the scale's width,
	// so the values are labelled by a first pass.
	s := c.scale(c.columns(w), h)
	marks := c.marks(s, h)
	for _, m := range marks {
		labels = max(labels, text.Width(m))
	}
	if labels > 0 && labels+1+8 <= w {
		labels++
	} else {
		labels = 0
	}
	columns := c.columns(w - labels)
	s = c.scale(columns, h)
	marks = c.marks(s, h)
	limits := make([]bool, h)
	for _, l := range c.Limits {
		if drawable(l) && l != 0 {
			limits[s.rowOf(l)] = true
		}
	}
	for y := range h {
		lines[y] = c.row(th, columns, s, y, limits[y], marks[y], labels)
	}
	return text.FitLines(lines, w, h)
}

// marks are the figures at the left, by row: the ends of the scale and limits.
func (c *Chart) marks(s scale, h int) []string {
	out := make([]string, h)
	if c.Format == nil || len(c.Pieces) == 0 {
		return out
	}
	put := func(row int, v float64) {
		if out[row] == "" {
			out[row] = text.Clean(c.Format(v))
		}
	}
	for _, l := range c.Limits {
		if drawable(l) && l != 0 {
			put(s.rowOf(l), l)
		}
	}
	if s.up > 0 {
		put(0, s.unit*float64(s.up))
	}
	if s.down > 0 {
		put(h-1, -s.unit*float64(s.down))
	}
	return out
}

func (c *Chart) row(th *theme.Theme, columns []column, s scale, y int, limit bool, label string, labels int) string {
	var b strings.Builder
	if labels > 0 {
		b.WriteString(th.Dim.Render(text.Right(label, labels-1)))
		b.WriteByte(' ')
	}
	for x := 0; x < len(columns); {
		look, run := th.Rule, ""
		kind := c.kind(columns[x], s, y)
		for x < len(columns) && c.kind(columns[x], s, y) == kind {
			g, ok := s.glyph(columns[x].value, y)
			switch {
			case kind == blank && limit:
				g = dashes
			case kind == unknown:
				g = "?"
			case !ok:
				g = " "
			}
			run += g
			x++
		}
		switch kind {
		case within:
			look = th.Gauge
		case over:
			look = th.Break
		case unknown:
			look = th.Open
		case blank: // a limit's dashes, if anything
		}
		b.WriteString(look.Render(run))
	}
	return b.String()
}

type kind int

const (
	blank kind = iota
	within
	over
	unknown
)

func (c *Chart) kind(col column, s scale, y int) kind {
	if !col.known {
		if y == max(0, s.up-1) {
			return unknown
		}
		return blank
	}
	if _, ok := s.glyph(col.value, y); !ok {
		return blank
	}
	if c.passes(col.value) {
		return over
	}
	return within
}
