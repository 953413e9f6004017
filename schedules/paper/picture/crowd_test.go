package picture

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"frp/veilwright/schedules/paper/drawing"
)

// How often a box is held against another grows with the nozzles, and not with
// their square, however few of them find room.
func TestNamed_comparesInProportion(t *testing.T) {
	count := func(n int) float64 {
		r := rand.New(rand.NewPCG(1, 2)) //nolint:gosec // places of nozzles
		p := drawing.Picture{Width: Width, Height: 150}
		var list []standing
		for i := range n {
			x, y := 50+80*r.Float64(), 20+110*r.Float64()
			list = append(list, standing{id: strconv.Itoa(i), draw: func(p *drawing.Picture) (box, []string) {
				ring := circle(x, y, 0.6)
				p.Shape(ring, drawing.Thin, drawing.White)
				return around(ring), []string{"N" + strconv.Itoa(i) + ", 2 in", "N" + strconv.Itoa(i)}
			}})
		}
		var missing reasons
		tries := named(&p, list, func(*drawing.Picture) {}, " is not drawn", &missing)
		texts := 0
		for i := range p.Marks {
			if p.Marks[i].Text != "" {
				texts++
			}
		}
		if left := len(missing.ids[" is not drawn"]); texts+left != n || texts < min(n, 60) {
			t.Fatalf("%d of %d are named, %d left out", texts, n, left)
		}
		return float64(tries)
	}
	if exponent := math.Log(count(4000)/count(500)) / math.Log(8); exponent > 1.1 {
		t.Errorf("comparisons grow with the power %.2f", exponent)
	}
}
