package paper

import (
	"strings"
	"testing"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
)

// Of a long note the piece that differs is shown, with words around it: all of both
// stood there, and the word had to be found.
func TestDiff_showsThePieceOfALongNote(t *testing.T) {
	note := strings.Repeat("Roll each mat until no air is left in it. ", 8)
	facts := []schedules.FactChange{
		{Key: "notes", Old: note + "Cool it first. " + note, New: note + "Cool it last. " + note},
		{Key: "part.length", Old: "20 ft", New: "21 ft"},
		{Key: "author", New: strings.Repeat("A. First and ", 8) + "Q. Two"},
	}
	var b strings.Builder
	if err := Text(&b, Diff("a", "b", facts, &revision.Difference{}, nil, nil, quantity.US), 0); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"notes: … in it. Cool it first. Roll each mat until … → … in it. Cool it last. Roll each mat until …\n", "part.length: 20 ft → 21 ft\n", "author: not stated → A. First and A. First"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing in\n%s", want, b.String())
		}
	}
}
