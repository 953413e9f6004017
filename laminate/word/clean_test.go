package word

import (
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func TestClean_showsWhatATerminalWouldActOn(t *testing.T) {
	for in, want := range map[string]string{
		"plain":                "plain",
		"24 in Ø, 180 °F":      "24 in Ø, 180 °F",
		"a\x1b]0;owned\x07b":   `a\u001b]0;owned\u0007b`,
		"two\nlines\there":     "two lines here",
		"csi \u009b2J":         `csi \u009b2J`,
		"del \x7f":             `del \u007f`,
		"cut \xff\xfe":         `cut \xff\xfe`,
		"left\u202eright":      `left\u202eright`,
		"line\u2028separator":  `line\u2028separator`,
		"honest \ufffd inside": "honest \ufffd inside",
	} {
		if got := Clean(in); got != want {
			t.Errorf("Clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestClean_leavesNoControlWhateverTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
		out := Clean(in)
		for _, r := range out {
			if unicode.IsControl(r) {
				t.Fatalf("Clean(%q) lets %U through", in, r)
			}
		}
		if Clean(out) != out {
			t.Fatalf("Clean(%q) is not settled: %q", in, out)
		}
	})
}

func TestBadCharacter(t *testing.T) {
	for s, bad := range map[string]bool{"": false, "Größe 3 µm ≥ 2 · ✓": false, "a\tb": true, "a\x7fb": true, "a\u0085b": true, "a\u2028b": true, "a\u2067b": true, "\ufffd": false, "\xc3": true,
		"a\u200bb": true, "a\ufeffb": true, "a\u00adb": true, "a\u2060b": true, "a\u3164b": true, "a\U000e0041b": true, "a\u202eb": true, "नमस्ते": false} {
		if _, got := BadCharacter(s, false); got != bad {
			t.Errorf("%q: %v", s, got)
		}
	}
	if _, bad := BadCharacter("a\tb\nc", true); bad {
		t.Error("notes may have tabs and newlines")
	}
	if _, bad := BadCharacter("a\u200db", true); bad {
		t.Error("notes may join letters")
	}
	if _, bad := BadCharacter("a\u200bb", true); !bad {
		t.Error("notes may hide a blank")
	}
}
