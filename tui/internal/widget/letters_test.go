package widget

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Whatever room there is, letters stay in it; the longest names are written three lines high at least on the narrowest full screen.
func TestLetters_writeEveryMaterialInTheirRoom(t *testing.T) {
	for _, name := range []string{"veil-polyester-15", "woven-24", "mat-0.75", "band-helical", "10", "×2"} {
		for _, size := range [][2]int{{60, 3}, {80, 3}, {80, 5}, {120, 5}, {200, 12}, {10, 2}, {0, 0}} {
			lines := Letters(name, size[0], size[1])
			if size[0] >= 80 && lines == nil {
				t.Errorf("%s is not written in %v", name, size)
			}
			if len(lines) > size[1] {
				t.Errorf("%s: %d lines in %v", name, len(lines), size)
			}
			for _, l := range lines {
				if utf8.RuneCountInString(l) > size[0] || utf8.RuneCountInString(l) != utf8.RuneCountInString(lines[0]) {
					t.Errorf("%s: %q in %v", name, l, size)
				}
			}
		}
	}
}

func TestLetters_areReadable(t *testing.T) {
	want := "█ █ ▄█ █ █\n█▀█  █ ▀▀█\n▀ ▀  ▀   ▀"
	if got := strings.Join(Letters("h14", 11, 3), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if Letters("ж", 80, 5) != nil {
		t.Error("a character without a letter is written")
	}
}
