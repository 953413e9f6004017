package widget

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

func TestGauge_isProportional(t *testing.T) {
	for _, tc := range []struct {
		ratio float64
		want  string
	}{
		{0, "··········"},
		{-1, "··········"},
		{1e-9, "▌·········"},
		{0.25, "██▌·······"},
		{0.5, "█████·····"},
		{0.999, "█████████▌"},
		{1, "██████████"},
		{1.0000001, "█████████▸"},
		{math.Inf(1), "█████████▸"},
		{math.Inf(-1), "··········"},
		{math.NaN(), "??????????"},
	} {
		if got := Gauge(draw.New(draw.Mono), tc.ratio, 10); got != tc.want {
			t.Errorf("%g: %q, want %q", tc.ratio, got, tc.want)
		}
	}
}

func TestBars_golden(t *testing.T) {
	mono := draw.New(draw.Mono)
	bars := []Bar{
		{Label: "hoop strain", Ratio: 0.62, Word: "holds"},
		{Label: "axial strain", Ratio: 0.318, Word: "holds"},
		{Label: "buckling", Ratio: 1.28},
		{Label: "impact", Ratio: math.NaN()},
		{Label: "first ply \x1b failure", Ratio: 40},
	}
	for _, w := range []int{60, 43, 26} {
		tuitest.Golden(t, strconv.Itoa(w)+" cells", tuitest.Box(t, Bars(mono, bars, w), w, len(bars)))
	}
}

func TestBarLines_anyWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Bar{Label: "hoop strain", Ratio: rapid.Float64().Draw(t, "ratio"), Word: rapid.SampledFrom([]string{"", "holds", "does not apply"}).Draw(t, "word")}
		w := rapid.IntRange(1, 250).Draw(t, "w")
		lines := Bars(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), []Bar{b, {Label: "impact", Ratio: math.NaN()}}, w)
		tuitest.Box(t, lines, w, 2)
		if w > 30 && b.Ratio > 1 && b.Word == "" && !strings.Contains(tuitest.Plain(lines[0]), "over") {
			t.Fatalf("%q does not say that it is over", lines[0])
		}
	})
}
