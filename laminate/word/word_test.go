package word_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/word"
)

type color uint8

var colors = word.Of[color]("", "red", "blue", "dark-green").Reading(2, "azure", "navy").Reading(1, "scarlet")

func TestSet_readsItsWordsAndWhatIsReadAsThem(t *testing.T) {
	for text, want := range map[string]color{"red": 1, "scarlet": 1, "blue": 2, "azure": 2, "navy": 2, "dark-green": 3} {
		if got, ok := colors.Parse(text); !ok || got != want {
			t.Errorf("%q is read as %v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", "Red", "green", "?4"} {
		if got, ok := colors.Parse(text); ok {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

func TestSet_listsWordsWithoutTheSpellingsReadAsThem(t *testing.T) {
	if got := colors.Words(); !slices.Equal(got, []string{"red", "blue", "dark-green"}) {
		t.Errorf("%q", got)
	}
	if got := colors.All(); !slices.Equal(got, []color{1, 2, 3}) {
		t.Errorf("%v", got)
	}
	if got := word.Of[color]("none", "some").All(); !slices.Equal(got, []color{0, 1}) {
		t.Errorf("a set that begins at 0 lists %v", got)
	}
}

func TestSet_everyValueHasANameAndOnlyItsOwnReadBack(t *testing.T) {
	seen := map[string]bool{}
	for v := range 256 {
		name := colors.Name(color(v))
		if seen[name] {
			t.Errorf("%d is called %q like another", v, name)
		}
		seen[name] = true
		back, ok := colors.Parse(name)
		if is := v >= 1 && v <= 3; ok != is || is && back != color(v) {
			t.Errorf("%d is called %q, which is read as %v, %v", v, name, back, ok)
		}
	}
}

func TestNearest_findsWhatWasMeant(t *testing.T) {
	keys := []string{"material", "resin", "zone", "angle", "count", "strength_tension_1"}
	commands := []string{"check", "wall", "advise", "propose", "compare", "diff", "practice", "catalog", "rules", "new", "tidy", "completion"}
	for _, c := range []struct {
		among       []string
		typed, want string
	}{
		{keys, "matreial", "material"}, {keys, "Zone", "zone"}, {keys, "cuont", "count"}, {keys, "strength_tension", "strength_tension_1"},
		{keys, "strength-tension-1", "strength_tension_1"}, {keys, "banana", ""}, {keys, "x", ""}, {keys, strings.Repeat("count", 50), ""},
		{commands, "chekc", "check"}, {commands, "chck", "check"}, {commands, "checks", "check"}, {commands, "cataloque", "catalog"},
		{commands, "rule", "rules"}, {commands, "compair", "compare"}, {commands, "tdiy", "tidy"}, {commands, "advice", "advise"},
		{commands, "propsoe", "propose"}, {commands, "frobnicate", ""}, {commands, "x", ""}, {commands, "", ""}, {commands, "zzzzz", ""},
		{[]string{"thickness", "thickness_max"}, "thicknes", "thickness"}, {[]string{"thickness", "zone"}, "carries", ""},
		{[]string{"mat-1.5", "vinyl-ester"}, "mat-1-5", "mat-1.5"}, {[]string{"mat-1.5", "vinyl-ester"}, "vinylester", "vinyl-ester"},
	} {
		if got := word.Nearest(c.typed, c.among); got != c.want {
			t.Errorf("nearest to %q is %q, want %q", c.typed, got, c.want)
		}
	}
}

func TestDistance_ofWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"", "abc", 3}, {"abc", "", 3}, {"abc", "abc", 0}, {"ab", "ba", 1}, {"kitten", "sitting", 3}, {"flaw", "lawn", 2}, {"ca", "abc", 3}} {
		// "kitten" and "flaw" are the usual worked examples of edit distance;
		// "ca" to "abc" tells optimal string alignment (3) from the
		// unrestricted distance (2).
		if got := word.Distance(c.a, c.b); got != c.want {
			t.Errorf("%q to %q is %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// The optimal string alignment distance is symmetric, zero only between equal
// words, and at most the longer word's length.
func TestDistance_isADistance(t *testing.T) {
	text := rapid.StringMatching(`[abcd]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := text.Draw(t, "a"), text.Draw(t, "b")
		d := word.Distance(a, b)
		if d != word.Distance(b, a) || (d == 0) != (a == b) || d > max(len(a), len(b)) || d < max(len(a), len(b))-min(len(a), len(b)) {
			t.Fatalf("distance of %q and %q is %d", a, b, d)
		}
	})
}
