package word_test

import (
	"testing"

	"frp/veilwright/laminate/word"
)

func TestNearest_isWhatWasMeantOrNothing(t *testing.T) {
	words := []string{"thickness", "zone", "book", "strength_tension_1", "mat-1.5", "vinyl-ester", "count"}
	for typed, want := range map[string]string{
		"thicknes": "thickness", "Thickness": "thickness", "cuont": "count", "foo": "", "strength_tension": "strength_tension_1",
		"mat-1-5": "mat-1.5", "vinylester": "vinyl-ester", "carries": "", "x": "", "": "",
	} {
		if got := word.Nearest(typed, words); got != want {
			t.Errorf("%q is taken for %q, want %q", typed, got, want)
		}
	}
}
