package widget

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// standard is a barrier of one veil and two mats under a hand-laid structure;
// thicknesses in mil.
func standard() *Strip {
	var labels []string
	layer := func(t float64, glyph, label, zone string) Layer {
		labels = append(labels, label)
		return Layer{Thickness: t, Glyph: glyph, Zone: zone}
	}
	s := &Strip{Barrier: 2, Cursor: 6, CursorLabel: "ply 8", Left: "fluid", Right: "air", Layers: []Layer{
		layer(14.6, ":", "1", "inner"), layer(98.5, "░", "2-3", "interior"),
		layer(43.4, "░", "4", "structural"), layer(35.2, "▓", "5", "structural"), layer(43.4, "░", "6", "structural"),
		layer(35.2, "▓", "7", "structural"), layer(43.4, "░", "8", "structural"),
	}}
	s.Layers[1].Gel = true
	s.Label = func(i int) string { return labels[i%len(labels)] } // tests take other walls
	return s
}

func TestDivide_isProportional(t *testing.T) {
	for _, tc := range []struct {
		name      string
		thickness []float64
		n         int
		want      []int
		note      string
	}{
		{"to scale", []float64{1, 2, 1}, 8, []int{2, 4, 2}, ""},
		{"edges rounded where they lie", []float64{1, 1, 1}, 8, []int{3, 2, 3}, ""},
		{"thin ply gets a cell", []float64{1, 999}, 10, []int{1, 9}, "not to scale"},
		{"half a cell is one", []float64{1, 19}, 10, []int{1, 9}, ""},
		{"thin ply at the end", []float64{999, 1}, 10, []int{9, 1}, "not to scale"},
		{"thin plies on one another", []float64{1e-6, 1e-6, 1e-6, 1}, 6, []int{1, 1, 1, 3}, "not to scale"},
		{"as many as cells", []float64{5, 1, 1}, 3, []int{1, 1, 1}, "not to scale"},
		{"nothing known", []float64{0, math.NaN()}, 4, []int{2, 2}, "not to scale"},
		{"what is no thickness counts as none", []float64{math.Inf(1), -3, 1}, 4, []int{1, 1, 2}, "not to scale"},
		{"sums that would overflow", []float64{math.MaxFloat64, math.MaxFloat64}, 4, []int{2, 2}, ""},
		{"more plies than cells", []float64{1, 1, 1, 1}, 2, []int{0, 1, 0, 1}, "2 of 4 plies too thin to draw"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := divide(tc.thickness, tc.n)
			got := make([]int, len(tc.thickness))
			for _, i := range s.owner {
				got[i]++
			}
			if !slices.Equal(got, tc.want) || s.note() != tc.note {
				t.Errorf("got %v %q, want %v %q", got, s.note(), tc.want, tc.note)
			}
		})
	}
}

func TestDivide_losesNothingSilently(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thickness := rapid.SliceOfN(rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 100)), 0, 120).Draw(t, "thickness")
		n := rapid.IntRange(0, 100).Draw(t, "n")
		s := divide(thickness, n)
		cells := make([]int, len(thickness))
		for x, i := range s.owner {
			cells[i]++
			if x > 0 && i < s.owner[x-1] {
				t.Fatalf("layers out of order: %v", s.owner)
			}
			if x < s.start[i] || x >= s.end[i] {
				t.Fatalf("cell %d of layer %d is outside %d–%d", x, i, s.start[i], s.end[i])
			}
		}
		lost := 0
		for i, c := range cells {
			if c == 0 {
				lost++
			}
			if s.start[i] < 0 || s.end[i] > n || s.start[i] > s.end[i] || n > 0 && s.start[i] >= n {
				t.Fatalf("layer %d lies at %d–%d of %d", i, s.start[i], s.end[i], n)
			}
		}
		if lost != s.lost {
			t.Fatalf("%d layers have no cell, %d said", lost, s.lost)
		}
		if len(thickness) <= n && lost > 0 {
			t.Fatalf("%d layers have no cell though there are %d", lost, n)
		}
		if len(thickness) > 0 && n > 0 && s.note() == "" {
			sum := 0.0
			for _, v := range thickness {
				if valid(v) {
					sum += v / 1e300
				}
			}
			at := 0.0
			for i, v := range thickness {
				if valid(v) {
					at += v / 1e300
				}
				if edge := at / sum * float64(n); sum > 1e-290 && math.Abs(edge-float64(s.end[i])) > 1+1e-6 {
					t.Fatalf("edge of layer %d at %d is said to be to scale, true is %.2f", i, s.end[i], edge)
				}
			}
		}
	})
}

func TestStripView_golden(t *testing.T) {
	mono := draw.New(draw.Mono)
	s := standard()
	tuitest.Golden(t, "standard 80x2", tuitest.Box(t, s.View(mono, 80, 2), 80, 2))
	tuitest.Golden(t, "standard 120x4", tuitest.Box(t, s.View(mono, 120, 4), 120, 4))
	tuitest.Golden(t, "standard 120x4 ascii", draw.ASCII(tuitest.Box(t, s.View(mono, 120, 4), 120, 4)))
	tuitest.Golden(t, "standard 20x2", tuitest.Box(t, s.View(mono, 20, 2), 20, 2))
	tuitest.Golden(t, "standard 120x4 dark", tuitest.Visible(tuitest.Box(t, colored(s).View(draw.New(draw.Dark), 120, 4), 120, 4)))
	empty := &Strip{Cursor: -1, Left: "fluid", Right: "air"}
	tuitest.Golden(t, "empty 60x2", tuitest.Box(t, empty.View(mono, 60, 2), 60, 2))
	thin := standard()
	thin.Layers[0].Thickness = 0.4
	tuitest.Golden(t, "thin veil 80x2", tuitest.Box(t, thin.View(mono, 80, 2), 80, 2))
	tuitest.Golden(t, "thin veil 80x1", tuitest.Box(t, thin.View(mono, 80, 1), 80, 1))
	gels := standard()
	gels.Layers[3].Gel = true
	gels.Cursor = 0
	gels.CursorLabel = "ply 1"
	tuitest.Golden(t, "gel stop in the structure 80x2", tuitest.Box(t, gels.View(mono, 80, 2), 80, 2))
	tuitest.Golden(t, "2000 plies 80x2", tuitest.Box(t, many(2000).View(mono, 80, 2), 80, 2))
}

func colored(s *Strip) *Strip {
	th := draw.New(draw.Dark)
	for i := range s.Layers {
		if i < s.Barrier {
			s.Layers[i].Look = th.Barrier
		} else {
			s.Layers[i].Look = th.Structure
		}
	}
	return s
}

func many(n int) *Strip {
	s := standard()
	for len(s.Layers) < n {
		s.Layers = append(s.Layers, s.Layers[2+len(s.Layers)%2])
	}
	s.Cursor = n - 1
	s.CursorLabel = fmt.Sprintf("ply %d", n)
	return s
}

func TestStripView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := many(rapid.IntRange(0, 300).Draw(t, "n"))
		if rapid.Bool().Draw(t, "few") {
			s.Layers = s.Layers[:rapid.IntRange(0, 7).Draw(t, "k")]
		}
		for i := range s.Layers {
			s.Layers[i].Thickness = rapid.Float64().Draw(t, "thickness")
			s.Layers[i].Gel = rapid.Bool().Draw(t, "gel")
		}
		s.Barrier = rapid.IntRange(-2, 310).Draw(t, "barrier")
		s.Cursor = rapid.IntRange(-1, 310).Draw(t, "cursor")
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		lines := s.View(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), w, h)
		tuitest.Box(t, lines, w, h)
		if note := s.Note(w); note != "" && h > 1 && w > 60 && !strings.Contains(tuitest.Plain(strings.Join(lines, "\n")), note) {
			t.Fatalf("%q is not said in\n%s", note, strings.Join(lines, "\n"))
		}
	})
}

func BenchmarkView(b *testing.B) {
	for _, n := range []int{7, 40, 2000} {
		b.Run(fmt.Sprintf("%d layers 120x4", n), func(b *testing.B) {
			th := draw.New(draw.Dark)
			s := colored(many(n))
			b.ReportAllocs()
			for b.Loop() {
				s.View(th, 120, 4)
			}
		})
	}
}
