package drawing_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/schedules/paper/drawing"
)

// A band that its own outline covers has no hatch, which would stand out of it.
func TestHatched_isAllOutlineWhereNothingElseFits(t *testing.T) {
	for hatch := drawing.Plain; hatch <= drawing.Blackened; hatch++ {
		for h, want := range map[float64]bool{0.01: true, drawing.Hair: true, 2 * drawing.Hair: false} {
			var p drawing.Picture
			p.Hatched(0, 0, 42, h, hatch, 1)
			if got := len(p.Marks) == 1 && p.Marks[0].Closed && p.Marks[0].Stroke == drawing.Hair; got != want {
				t.Errorf("hatch %d, %g mm: %d marks", hatch, h, len(p.Marks))
			}
		}
	}
}

func TestHatched_staysInItsBoxAndIsTheSameEachTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(0.5, 180).Draw(t, "w"), rapid.Float64Range(0.1, 120).Draw(t, "h")
		hatch := drawing.Hatch(rapid.IntRange(int(drawing.Plain), int(drawing.Blackened)).Draw(t, "hatch"))
		seed := rapid.Uint32().Draw(t, "seed")
		var p, q drawing.Picture
		p.Hatched(10, 20, w, h, hatch, seed)
		q.Hatched(10, 20, w, h, hatch, seed)
		if fmt.Sprint(p) != fmt.Sprint(q) {
			t.Fatal("two runs differ")
		}
		for _, m := range p.Marks {
			for _, at := range m.Path {
				if at.X < 10-0.4 || at.X > 10+w+0.4 || at.Y < 20-0.4 || at.Y > 20+h+0.4 {
					t.Fatalf("%v is outside of %g × %g", at, w, h)
				}
			}
		}
	})
}
