package store

import (
	"regexp"
	"testing"

	"pgregory.net/rapid"
)

// TestNames_goByTheirPattern holds what is swept to the patterns of names, which
// the standard library's expressions state.
func TestNames_goByTheirPattern(t *testing.T) {
	fresh := regexp.MustCompile(`^\..+` + regexp.QuoteMeta(newEnding) + `[0-9]?$`)
	key := regexp.MustCompile(`^[0-9a-f]{32}$`)
	journal := regexp.MustCompile(`^(?:[0-9a-f]{32}|` + untitled + `)-[0-9]+$`)
	piece := rapid.SampledFrom([]string{".", "a", "-", "7", "12", "", untitled, newEnding, "0123456789abcdef0123456789abcdef", "0123456789abcdef0123456789abcdeF", "0123456789abcdef0123456789abcde", "é"})
	rapid.Check(t, func(t *rapid.T) {
		name := ""
		for _, p := range rapid.SliceOfN(piece, 1, 5).Draw(t, "pieces") {
			name += p
		}
		if got, want := isNewName(name), fresh.MatchString(name); got != want {
			t.Errorf("isNewName(%q) is %v", name, got)
		}
		if got, want := isKey(name), key.MatchString(name); got != want {
			t.Errorf("isKey(%q) is %v", name, got)
		}
		if got, want := isJournal(name), journal.MatchString(name); got != want {
			t.Errorf("isJournal(%q) is %v", name, got)
		}
	})
}
