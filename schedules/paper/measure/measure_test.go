package measure

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

func TestWrap_keepsEveryWordAndTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("ab° é樹e\u0301 "))).Draw(t, "text")
		width := rapid.IntRange(1, 12).Draw(t, "width")
		lines := Wrap(text, width)
		for _, l := range lines {
			if ansi.StringWidth(l) > max(width, 2) || strings.TrimSpace(l) != l {
				t.Fatalf("%q at %d: line %q", text, width, l)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if bare(strings.Join(lines, " ")) != bare(text) {
			t.Fatalf("%q at %d became %q", text, width, lines)
		}
	})
}
