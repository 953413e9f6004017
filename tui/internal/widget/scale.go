package widget

import (
	"math"
	"strconv"
)

// scale is the division of a row of cells among layers.
type scale struct {
	owner   []int // by cell: the layer drawn in it
	start   []int // by layer: its first cell; where it has none, the cell it lies in
	end     []int // by layer: the cell after its last; where it has none, start
	widened int   // layers drawn wider than they are, to be seen at all
	lost    int   // layers without a cell
	unknown bool  // no layer has a thickness
}

// divide shares n cells among layers in proportion to their thickness. What is
// not finite or below 0 counts as 0. Every layer gets a cell if n allows it.
func divide(thickness []float64, n int) scale {
	k := len(thickness)
	s := scale{start: make([]int, k), end: make([]int, k)}
	if k == 0 || n < 1 {
		s.lost = k
		return s
	}
	s.owner = make([]int, n)
	edges := edges(thickness, n)
	if edges == nil {
		s.unknown = true
		edges = make([]float64, k+1)
		for i := range edges {
			edges[i] = float64(n) * float64(i) / float64(k)
		}
	}
	if k > n {
		s.sample(edges)
		return s
	}
	at := make([]int, k+1)
	for i := 1; i <= k; i++ {
		at[i] = max(int(math.Round(edges[i])), at[i-1]+1)
	}
	at[k] = n
	for i := k - 1; i > 0; i-- {
		at[i] = min(at[i], at[i+1]-1)
	}
	for i := range thickness {
		s.start[i], s.end[i] = at[i], at[i+1]
		for x := at[i]; x < at[i+1]; x++ {
			s.owner[x] = i
		}
		// A cell instead of less than half of one, or edges pushed aside by
		// more than the one cell that rounding is worth.
		if edges[i+1]-edges[i] < 0.5 || math.Abs(float64(at[i+1])-edges[i+1]) > 1 {
			s.widened++
		}
	}
	return s
}

// edges returns where in n cells the layers begin and end, k+1 places, nil if
// no layer has a thickness.
func edges(thickness []float64, n int) []float64 {
	most := 0.0
	for _, t := range thickness {
		if valid(t) {
			most = max(most, t)
		}
	}
	if most == 0 {
		return nil
	}
	// Relative to the thickest, so that no sum overflows.
	out := make([]float64, len(thickness)+1)
	sum := 0.0
	for i, t := range thickness {
		if valid(t) {
			sum += t / most
		}
		out[i+1] = sum
	}
	for i := range out {
		out[i] *= float64(n) / sum
	}
	return out
}

func valid(t float64) bool { return t > 0 && !math.IsInf(t, 1) && !math.IsNaN(t) }

// sample gives each cell to the layer in its middle.
func (s *scale) sample(edges []float64) {
	k, n := len(s.start), len(s.owner)
	drawn := make([]bool, k)
	i := 0
	for x := range n {
		for i < k-1 && edges[i+1] <= float64(x)+0.5 {
			i++
		}
		s.owner[x] = i
		drawn[i] = true
	}
	for i := range k {
		s.start[i] = min(n-1, int(edges[i]))
		s.end[i] = s.start[i]
		if !drawn[i] {
			s.lost++
		}
	}
	for x, i := range s.owner {
		if s.end[i] == s.start[i] || x < s.start[i] {
			s.start[i] = x
		}
		s.end[i] = x + 1
	}
}

// note is what has to be said about the scale, "" if it is true.
func (s *scale) note() string {
	switch {
	case s.lost > 0:
		return strconv.Itoa(s.lost) + " of " + strconv.Itoa(len(s.start)) + " plies too thin to draw"
	case s.unknown && len(s.start) > 0, s.widened > 0:
		return "not to scale"
	}
	return ""
}
