package schedules

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestNames_ofEntriesSumsAndBuilds holds what is read without expressions to the
// expressions that say what is meant.
func TestNames_ofEntriesSumsAndBuilds(t *testing.T) {
	entry, sum, build := regexp.MustCompile(`^[0-9a-f]{12}$`), regexp.MustCompile(`^[0-9A-Fa-f]{64}$`), regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	piece := rapid.SampledFrom([]string{"-", "0a", "f", "g", "A", "z9", "", "é", strings.Repeat("0", 10), strings.Repeat("c", 62), strings.Repeat("F", 64)})
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOfN(piece, 0, 4).Draw(t, "pieces"), "")
		if got, want := digits(s, 12, "0123456789abcdef"), entry.MatchString(s); got != want {
			t.Errorf("id of an entry: %q is %v", s, got)
		}
		if got, want := isSum(s), sum.MatchString(s); got != want {
			t.Errorf("isSum(%q) is %v", s, got)
		}
		if got, want := isBuildID(s), build.MatchString(s); got != want {
			t.Errorf("isBuildID(%q) is %v", s, got)
		}
	})
}
