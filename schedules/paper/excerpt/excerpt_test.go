package excerpt

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const note = "Lay the first veil dry and wet it out from below. Roll each mat until no air is left. Let the barrier gel and cool before the structure is begun."

func TestOf(t *testing.T) {
	for _, c := range []struct {
		older, newer string
		want         []Pair
	}{
		{"short", "shorter", []Pair{{"short", "shorter"}}},
		{note, "", []Pair{{note, ""}}},
		{note, strings.Replace(note, "each", "every", 1), []Pair{{"… out from below. Roll each mat until no air …", "… out from below. Roll every mat until no air …"}}},
		{note, "Then l" + note[1:], []Pair{{"Lay the first veil dry …", "Then lay the first veil dry …"}}},
		{note, note + " Date it.", []Pair{{"… the structure is begun.", "… the structure is begun. Date it."}}},
		{note, strings.Replace(strings.Replace(note, "dry ", "", 1), "begun", "started", 1), []Pair{
			{"Lay the first veil dry and wet it out …", "Lay the first veil and wet it out …"},
			{"… before the structure is begun.", "… before the structure is started."}}},
		{note, strings.ReplaceAll(note, " ", "\n"), nil},
	} {
		if got := Of(c.older, c.newer); !slices.Equal(got, c.want) {
			t.Errorf("%q\n%q\ndiffer in %q\nwant %q", c.older, c.newer, got, c.want)
		}
	}
}

// The pieces put in the place of the others make the newer text of the older one.
func TestHunks_makeOneOfTheOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c"}), 0, 30)
		a, b := words.Draw(t, "older"), words.Draw(t, "newer")
		for _, list := range [][]hunk{hunks(a, b), near(hunks(a, b))} {
			var got []string
			at := 0
			for _, h := range list {
				got = append(append(got, a[at:h.from]...), b[h.at:h.end]...)
				at = h.to
			}
			if got = append(got, a[at:]...); !slices.Equal(got, b) {
				t.Fatalf("%q and %q by %v are %q", a, b, list, got)
			}
		}
	})
}
