package widget

import (
	"math"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
)

// Bar is demand over capacity.
type Bar struct {
	Label string
	// Ratio is demand by capacity, 1 at the limit. Not a number: unknown.
	Ratio float64
	// Word says it in words, "holds"; left out, Bar says "over" past the limit
	// and "cannot be determined" where the ratio is unknown.
	Word string
	// Look is the look of the word.
	Look draw.Style
}

const (
	barUsed = "█"
	free    = "·"
	beyond  = "▸" // the last cell of a bar past its limit
	partial = "▌" // half a cell
)

// Gauge draws a ratio in w cells. The right end is the limit: a bar past it is
// full and ends in an arrow. Anything used shows at least half a cell.
func Gauge(th *draw.Theme, ratio float64, w int) string {
	switch {
	case w < 1:
		return ""
	case math.IsNaN(ratio):
		return th.Dim.Render(draw.Run("?", w))
	case ratio > 1:
		return th.GaugeOver.Render(draw.Run(barUsed, w-1) + beyond)
	}
	halves := int(math.Floor(max(0, ratio)*float64(2*w) + 1e-9)) // never drawn fuller than it is
	if ratio > 0 {
		halves = max(1, halves)
	}
	s := draw.Run(barUsed, halves/2)
	if halves%2 == 1 {
		s += partial
	}
	return th.Gauge.Render(s) + th.Dim.Render(draw.Run(free, w-(halves+1)/2))
}

// figureCells is the least room of a figure: "1000 %", and a blank.
const figureCells = 7

// Lines draws bars under one another, each line exactly w cells, with labels,
// gauges, figures and words in line. Where they do not all fit the gauges go,
// then the labels are cut.
func Bars(th *draw.Theme, bars []Bar, w int) []string {
	if w < 1 {
		return nil
	}
	label, word, figure := 0, 0, figureCells
	for _, b := range bars {
		label = max(label, draw.Width(b.Label))
		if s, _ := b.word(th); !math.IsNaN(b.Ratio) {
			word = max(word, draw.Width(s)) // else it stands where the gauge would
			figure = max(figure, draw.Width(quantity.Utilization(b.Ratio)))
		}
	}
	label = min(label, w/2)
	gauge := w - label - 1 - 1 - figure - 2 - word
	lines := make([]string, len(bars))
	for i, b := range bars {
		lines[i] = b.line(th, label, gauge, figure, w)
	}
	return lines
}

// leastGauge is the shortest gauge that tells anything.
const leastGauge = 4

func (b Bar) line(th *draw.Theme, label, gauge, figure, w int) string {
	word, look := b.word(th)
	name := draw.Clean(b.Label)
	if gauge < leastGauge {
		figure := "?"
		if !math.IsNaN(b.Ratio) {
			figure = quantity.Utilization(b.Ratio)
		}
		return draw.Ends(name, figure+"  "+look.Render(word), w)
	}
	var l draw.Line
	if math.IsNaN(b.Ratio) {
		return l.Add(draw.Left(name, label)).Gap(1).Add(look.Render(word)).Fit(w)
	}
	l.Add(draw.Left(name, label)).Gap(1).Add(Gauge(th, b.Ratio, gauge)).Gap(1)
	l.Add(draw.Right(quantity.Utilization(b.Ratio), figure)).Gap(2).Add(look.Render(word))
	return l.Fit(w)
}

func (b Bar) word(th *draw.Theme) (string, draw.Style) {
	switch {
	case b.Word != "":
		return draw.Clean(b.Word), b.Look
	case math.IsNaN(b.Ratio):
		return "cannot be determined", th.Incomplete
	case b.Ratio > 1:
		return "over", th.Break
	}
	return "", b.Look
}
