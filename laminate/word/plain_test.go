package word

import (
	"testing"

	"pgregory.net/rapid"
)

// Pairs of UAX 15, figures 3 to 6: what is composed, ordered and a singleton there is
// canonically the same; ligatures, superscripts and letters of other scripts are not.
func TestPlain(t *testing.T) {
	for name, want := range map[string]string{
		"": "", "N 1": "N 1", "Behälter": "Behälter",
		"e\u0301": "\u00e9", "\u00e9": "\u00e9", "\u212b": "\u00c5", "A\u030a": "\u00c5", "\u2126": "\u03a9", "q\u0307\u0323": "q\u0323\u0307", "\u1112\u1161\u11ab": "\ud55c",
		"N\u00a01": "N 1", "N\u20091": "N 1", "N1\ufe0f": "N1", "\u845b\U000e0100": "\u845b",
		"\ufb01": "\ufb01", "x\u00b2": "x\u00b2", "\u0410": "\u0410", "N": "N", "n": "n",
	} {
		if got := Plain(name); got != want {
			t.Errorf("%+q is plainly %+q, not %+q", name, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		if once := Plain(rapid.String().Draw(t, "name")); Plain(once) != once {
			t.Fatalf("%+q is not plain", once)
		}
	})
}

func TestPlainly(t *testing.T) {
	for name, want := range map[string]string{"": "", "N1": "", "\u00e9": "", "e\u0301": `; write it "\u00e9"`, "e\u0301\u200b": "", "\xc3": ""} {
		if got := Plainly(name); got != want {
			t.Errorf("%+q: %s, not %s", name, got, want)
		}
	}
}
