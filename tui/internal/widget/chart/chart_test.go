package chart

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/tuitest"
)

func percent(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// bent is strain in percent through four plies of a wall in bending, with a
// jump where a ply of another temperature lies.
func bent() *Chart {
	return &Chart{
		Pieces: []Piece{{0, 1, -0.15, -0.05}, {1, 3, -0.05, 0.15}, {3, 3.02, 0.32, 0.32}, {3.02, 5, 0.15, 0.25}},
		Limits: []float64{0.2, -0.2},
		Format: percent,
	}
}

func TestView_golden(t *testing.T) {
	mono := theme.New(theme.Mono)
	tuitest.Golden(t, "bent 60x9", tuitest.Box(t, bent().View(mono, 60, 9), 60, 9))
	tuitest.Golden(t, "bent 60x9 ascii", text.ASCII(tuitest.Box(t, bent().View(mono, 60, 9), 60, 9)))
	tuitest.Golden(t, "bent 30x5 dark", tuitest.Visible(tuitest.Box(t, bent().View(theme.New(theme.Dark), 30, 5), 30, 5)))
	pulled := &Chart{Pieces: []Piece{{0, 1, 0.1, 0.1}, {1, 2, 0.1, 0.12}}, Limits: []float64{0.25}, Format: percent}
	tuitest.Golden(t, "pulled 40x5", tuitest.Box(t, pulled.View(mono, 40, 5), 40, 5))
	pressed := &Chart{Pieces: []Piece{{0, 1, -0.1, -0.1}, {1, 2, -0.1, -0.12}}, Format: percent}
	tuitest.Golden(t, "pressed 40x4", tuitest.Box(t, pressed.View(mono, 40, 4), 40, 4))
	gap := &Chart{Pieces: []Piece{{0, 1, 1, 1}, {1, 2, math.NaN(), 1}, {2, 3, 1, 1}}}
	tuitest.Golden(t, "unknown ply 24x3", tuitest.Box(t, gap.View(mono, 24, 3), 24, 3))
}

func TestGlyph_fillsInProportion(t *testing.T) {
	s := scale{up: 2, down: 1, unit: 1}
	for _, tc := range []struct {
		v    float64
		want string // rows from the top
	}{
		{2, "██ "}, {1.5, "▄█ "}, {1, " █ "}, {0.5, " ▄ "}, {0.001, " ▁ "}, {0, "   "}, {-0.1, "  ▔"}, {-0.5, "  ▀"}, {-1, "  █"},
	} {
		got := ""
		for y := range 3 {
			g, _ := s.glyph(tc.v, y)
			got += g
		}
		if got != tc.want {
			t.Errorf("%g fills %q, want %q", tc.v, got, tc.want)
		}
	}
}

func TestColumns_keepTheThinPeak(t *testing.T) {
	c := &Chart{Pieces: []Piece{{0, 1, 0.1, 0.1}, {1, 1.0001, -9, -9}, {1.0001, 2, 0.1, 0.1}}}
	for n := 1; n < 60; n++ {
		found := false
		for _, col := range c.columns(n) {
			found = found || col.value == -9
		}
		if !found {
			t.Errorf("%d columns lost the peak", n)
		}
	}
}

func TestOver_bySign(t *testing.T) {
	for _, tc := range []struct {
		a, b float64
		want bool
	}{{0, 0.2, false}, {0, 0.21, true}, {-0.2, 0, false}, {-0.21, 0, true}, {math.NaN(), 9, false}} {
		c := &Chart{Pieces: []Piece{{0, 1, tc.a, tc.b}}, Limits: []float64{0.2, -0.2}}
		if c.Over() != tc.want {
			t.Errorf("%g to %g: over is %v", tc.a, tc.b, c.Over())
		}
	}
}

func TestView_anySizeAnyValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1, 1), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.MaxFloat64, -math.MaxFloat64, 5e-324}))
		c := &Chart{Format: percentShort}
		for range rapid.IntRange(0, 6).Draw(t, "pieces") {
			c.Pieces = append(c.Pieces, Piece{value.Draw(t, "from"), value.Draw(t, "to"), value.Draw(t, "a"), value.Draw(t, "b")})
		}
		c.Limits = rapid.SliceOfN(value, 0, 3).Draw(t, "limits")
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		lines := c.View(theme.New(rapid.SampledFrom(theme.Kinds()).Draw(t, "theme")), w, h)
		tuitest.Box(t, lines, w, h)
		if s := strings.Join(lines, ""); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
			t.Fatalf("%s", strings.Join(lines, "\n"))
		}
	})
}

func percentShort(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
