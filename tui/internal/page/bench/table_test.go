package bench

import (
	"testing"

	"frp/veilwright/tui/internal/draw"
)

// What tells one name from another is its end: it stays, however few the cells.
func TestMiddle_keepsWhatTellsNamesApart(t *testing.T) {
	for _, tc := range []struct {
		id   string
		w    int
		want string
	}{
		{"mat-1.5", 9, "mat-1.5"}, {"veil-polyester-15", 13, "veil-poly…-15"}, {"veil-polyester-10", 13, "veil-poly…-10"},
	} {
		if got := middle(tc.id, tc.w); got != tc.want || draw.Width(got) > tc.w {
			t.Errorf("%q in %d cells is %q, want %q", tc.id, tc.w, got, tc.want)
		}
	}
}
