package bench

import (
	"testing"

	"frp/veilwright/tui/internal/draw"
)

// What tells one id from another is its end: it stays, however few the cells.
func TestShortID_keepsWhatTellsIdsApart(t *testing.T) {
	for _, tc := range []struct {
		id   string
		w    int
		want string
	}{
		{"liner", 5, "liner"}, {"resin-3", 5, "res…3"}, {"resin-4", 5, "res…4"}, {"outer-novolac", 9, "outer…lac"},
	} {
		if got := shortID(tc.id, tc.w); got != tc.want || draw.Width(got) > tc.w {
			t.Errorf("%q in %d cells is %q, want %q", tc.id, tc.w, got, tc.want)
		}
	}
}
