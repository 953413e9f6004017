// Package picture draws what papers show: a wall cut through, a job from
// outside, a joint, where nozzles stand.
package picture

import (
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// Width is how wide a picture for a page may be, in mm.
const Width = 178.0

// Wall is a laminate cut through, from the process side outward.
type Wall struct {
	Layers []Layer
	Labels []Label // of neighboring layers; none draws no words
	Zones  []Label
	Total  string // thickness of the whole
	Notes  []string
}

// Layer is a row of plies.
type Layer struct {
	Plies, Material, Zone string
	Thickness             float64 // m, of all of its plies; 0 where it is not known
	Count                 int     // of plies, at least 1
	Hatch                 drawing.Hatch
	Gel                   bool // a gel stop follows
}

// Label says what a run of layers is.
type Label struct {
	First, Last int // layers
	Text        string
}

// Folded are the layers, neighbors that have one label as one.
func (w *Wall) Folded() []Layer {
	if len(w.Labels) == 0 {
		return w.Layers
	}
	list := make([]Layer, 0, len(w.Labels))
	for _, label := range w.Labels {
		if label.First == label.Last {
			list = append(list, w.Layers[label.First])
			continue
		}
		all := Layer{Zone: w.Layers[label.First].Zone}
		all.Plies, all.Material, _ = strings.Cut(label.Text, "  ")
		for i := label.First; i <= label.Last; i++ {
			all.Thickness += w.Layers[i].Thickness
		}
		all.Gel = w.Layers[label.Last].Gel
		list = append(list, all)
	}
	return list
}

const (
	highest   = 105.0 // mm that a wall is drawn
	labelStep = 3.9   // mm between lines of type
)

// Section draws the wall to scale: the process side above, zones to the left,
// plies to the right.
func (w *Wall) Section() drawing.Picture {
	total := 0.0
	for i := range w.Layers {
		total += w.Layers[i].Thickness
	}
	p := drawing.Picture{Width: Width}
	if total <= 0 {
		p.Height = 8
		p.Write(0, 5, "No section: the thickness of no ply is known.", 9, drawing.Start)
		return p
	}
	scale := scaleFor(total * 1000)
	const left, wide, top = 52.0, 42.0, 9.0
	right := left + wide
	p.WriteBold(left+wide/2, 6, "PROCESS SIDE", 9, drawing.Middle)
	edges := make([]float64, len(w.Layers)+1)
	y := top
	for i := range w.Layers {
		edges[i] = y
		y += w.Layers[i].Thickness * 1000 * scale
	}
	edges[len(w.Layers)] = y
	for i := range w.Layers {
		l := &w.Layers[i]
		each := (edges[i+1] - edges[i]) / float64(max(1, l.Count))
		if each < 0.9 { // no room for a hatch of its own for each ply
			p.Hatched(left, edges[i], wide, edges[i+1]-edges[i], l.Hatch, uint32(i+1))
			continue
		}
		for k := range l.Count {
			p.Hatched(left, edges[i]+float64(k)*each, wide, each, l.Hatch, uint32(i*37+k+1))
		}
	}
	p.Box(left, top, wide, y-top, drawing.Thin, drawing.Clear)
	p.Line(left, top, right, top, drawing.Bold)
	bottom := w.words(&p, edges, right)
	for i := range w.Layers {
		if w.Layers[i].Gel {
			p.Dash(left-3, edges[i+1], right+5, edges[i+1], drawing.Bold)
		}
	}
	for _, z := range w.Zones {
		p.Measure(left-5, left-1, edges[z.First], edges[z.Last+1])
	}
	w.zones(&p, edges, left-7.5)
	p.WriteBold(left+wide/2, y+5, "OUTSIDE", 9, drawing.Middle)
	p.Write(left+wide/2, y+9.5, "scale "+ratio(scale)+", whole "+w.Total, drawing.Smallest, drawing.Middle)
	p.Height = math.Max(y+11, bottom+2)
	return p
}

// words sets the labels beside their layers, apart from one another, and gives
// where they end.
func (w *Wall) words(p *drawing.Picture, edges []float64, right float64) float64 {
	type line struct {
		at   float64 // where it points
		text string
		bold bool
	}
	var lines []line
	for _, l := range w.Labels {
		lines = append(lines, line{(edges[l.First] + edges[l.Last+1]) / 2, l.Text, false})
		for i := l.First; i <= l.Last; i++ {
			if w.Layers[i].Gel && i == l.Last {
				lines = append(lines, line{edges[i+1], "gel stop: let it gel and cool", true})
			}
		}
	}
	spots := apart(len(lines), func(i int) float64 { return lines[i].at })
	end := 0.0
	for i, l := range lines {
		at := spots[i]
		from := right
		if l.bold {
			from = right + 5
		}
		p.Curve([]drawing.Point{{X: from, Y: l.at}, {X: right + 7, Y: l.at}, {X: right + 12, Y: at}, {X: right + 14, Y: at}}, drawing.Hair)
		text := Fit(l.text, Width-right-16, drawing.Smallest, l.bold)
		if l.bold {
			p.WriteBold(right+15, at+1, text, drawing.Smallest, drawing.Start)
		} else {
			p.Write(right+15, at+1, text, drawing.Smallest, drawing.Start)
		}
		end = at + 2
	}
	return end
}

func (w *Wall) zones(p *drawing.Picture, edges []float64, x float64) {
	spots := apart(len(w.Zones), func(i int) float64 { return (edges[w.Zones[i].First] + edges[w.Zones[i].Last+1]) / 2 })
	for i, z := range w.Zones {
		p.Write(x, spots[i]+1, Fit(z.Text, x, drawing.Smallest, false), drawing.Smallest, drawing.End)
	}
}

// apart moves places that want to be at increasing heights so far that a line of
// type fits between them, and none above the first.
func apart(n int, at func(int) float64) []float64 {
	spots := make([]float64, n)
	for i := range n {
		spots[i] = at(i)
		if i > 0 {
			spots[i] = math.Max(spots[i], spots[i-1]+labelStep)
		}
	}
	// What was pushed down goes up again as far as there is room above it.
	for i := n - 1; i > 0; i-- {
		if over := spots[i] - at(i); over > 0 {
			first := i
			for first > 0 && spots[first]-spots[first-1] <= labelStep+1e-9 {
				first--
			}
			room := over / 2
			if first > 0 {
				room = math.Min(room, spots[first]-spots[first-1]-labelStep)
			} else {
				room = math.Min(room, math.Max(0, spots[0]-8))
			}
			for k := first; k <= i; k++ {
				spots[k] -= room
			}
			i = first
		}
	}
	return spots
}

// scaleFor is how many times larger than life a thickness in mm is drawn.
func scaleFor(mm float64) float64 {
	for _, s := range []float64{50, 25, 20, 15, 10, 8, 5, 4, 3, 2, 1, 0.5, 0.2, 0.1} {
		if mm*s <= highest {
			return s
		}
	}
	return highest / mm
}

func ratio(scale float64) string {
	if scale >= 1 {
		return strconv.FormatFloat(scale, 'g', 3, 64) + ":1"
	}
	return "1:" + strconv.FormatFloat(1/scale, 'g', 3, 64)
}

// Fit is text made safe that is at most so wide in mm, cut where it is not.
func Fit(text string, width, size float64, bold bool) string {
	text = word.Clean(text)
	if font.Width(text, size, bold) <= width {
		return text
	}
	letters := []rune(text)
	low, high := 0, len(letters)
	for low < high {
		mid := (low + high + 1) / 2
		if font.Width(string(letters[:mid])+"…", size, bold) <= width {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return string(letters[:low]) + "…"
}
