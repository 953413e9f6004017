// Package font is the typeface of the papers and the measure of it: the Go fonts
// of golang.org/x/image, under a BSD license, which papers embed as far as they
// use them. Text is measured here before it is set, whoever sets it.
package font

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"frp/veilwright/schedules/paper/drawing"
)

// The files of the typeface.
var (
	Regular = goregular.TTF
	Bold    = gobold.TTF
)

// Missing stands for a character that the typeface does not have.
const Missing = '¿'

// face is one of the two with what was measured of it.
type face struct {
	parsed  *sfnt.Font
	buffer  sfnt.Buffer
	advance map[rune]float64 // of the em; below 0 where there is no glyph
}

var (
	faces = sync.OnceValue(func() *[2]face {
		var both [2]face
		for i, file := range [][]byte{Regular, Bold} {
			f, err := sfnt.Parse(file)
			if err != nil {
				panic("the typeface that is built in cannot be read: " + err.Error())
			}
			both[i] = face{parsed: f, advance: map[rune]float64{}}
		}
		return &both
	})
	measuring sync.Mutex
)

func (f *face) of(r rune) float64 {
	if w, ok := f.advance[r]; ok {
		return w
	}
	w := -1.0
	if i, err := f.parsed.GlyphIndex(&f.buffer, r); err == nil && i != 0 {
		if a, err := f.parsed.GlyphAdvance(&f.buffer, i, fixed.I(1000), font.HintingNone); err == nil {
			w = float64(a) / 64 / 1000
		}
	}
	f.advance[r] = w
	return w
}

// Width is how wide text is at a size in points, in mm.
func Width(text string, size float64, bold bool) float64 {
	measuring.Lock()
	defer measuring.Unlock()
	f := &faces()[0]
	if bold {
		f = &faces()[1]
	}
	w := 0.0
	for _, r := range text {
		a := f.of(r)
		if a < 0 {
			a = f.of(Missing)
		}
		w += a
	}
	return w * size * drawing.PerPoint
}

// Known is text with Missing in the place of what the typeface does not have,
// and what that was. It has no marks that combine with a letter, and no script
// that runs from right to left.
func Known(text string) (string, []rune) {
	measuring.Lock()
	defer measuring.Unlock()
	var missing []rune
	var b strings.Builder
	f := faces()
	for _, r := range text {
		if f[0].of(r) < 0 || f[1].of(r) < 0 {
			missing = append(missing, r)
			r = Missing
		}
		b.WriteRune(r)
	}
	return b.String(), missing
}
