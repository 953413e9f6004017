package tables

import (
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"pgregory.net/rapid"
)

func TestLongestRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 8).Draw(t, "n")
		order := rapid.Permutation([]int{0, 1, 2, 3, 4, 5, 6, 7}[:n]).Draw(t, "order")
		for i := range order {
			if rapid.IntRange(0, 3).Draw(t, "new") == 0 {
				order[i] = -1
			}
		}
		stay := longestRun(order)
		last, got := -1, 0
		for i, s := range stay {
			if s {
				if order[i] <= last {
					t.Fatalf("%v marks %v", order, stay)
				}
				last = order[i]
				got++
			}
		}
		best := 0
		for set := range 1 << n { // every subset: nothing to trust but counting
			last, size, ok := -1, 0, true
			for i, o := range order {
				if set>>i&1 == 1 {
					ok = ok && o > last
					last = o
					size++
				}
			}
			if ok {
				best = max(best, size)
			}
		}
		if got != best {
			t.Fatalf("%v: %d stay, %d could", order, got, best)
		}
	})
}

func TestPrintable_keepsASentenceWhole(t *testing.T) {
	sentence := "this is not TOML: " + strings.Repeat("word ", 30) + "end"
	if got := Printable(sentence); got != sentence {
		t.Errorf("cut to %q", got)
	}
	if got := Printable(strings.Repeat("\x1b", 5000)); strings.Contains(got, "\x1b") || strings.Count(got, "u001b") != 200 {
		t.Errorf("%q", got)
	}
}

func TestDayField_takesADayAsTOMLWritesItOrAsText(t *testing.T) {
	type row struct{ day string }
	f := DayField("date", func(r *row) *string { return &r.day })
	for text, want := range map[string]string{"date = 2026-03-01": "2026-03-01", `date = "2026-03-01"`: "2026-03-01", "date = 2026-03-01T10:00:00Z": "", "date = 2026-03-01T00:00:00Z": "", "date = 3": "", `date = "March"`: "", `date = "2026-02-30"`: ""} {
		var doc map[string]any
		if err := toml.Unmarshal([]byte(text), &doc); err != nil {
			t.Fatal(err)
		}
		var r row
		if wrong := f.Set(&r, doc["date"]); (wrong == "") != (want != "") || r.day != want {
			t.Errorf("%s is read as %q, %q", text, r.day, wrong)
		}
		if got, given := f.Get(&r); given != (want != "") || got != want {
			t.Errorf("%s is written %q", text, got)
		}
	}
}
