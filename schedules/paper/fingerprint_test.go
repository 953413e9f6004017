package paper

import (
	"testing"

	"pgregory.net/rapid"
)

func TestFingerprint_leavesOutTheReleaseAndNothingElse(t *testing.T) {
	text := "document = \"schedule\"\ntitle = \"released = x\"\nreleased = \"0123456789ab\"\n  superseded=true\nunits = \"us\"\n\n[part]\nreleased = \"not the head\"\n"
	want := "document = \"schedule\"\ntitle = \"released = x\"\nunits = \"us\"\n\n[part]\nreleased = \"not the head\"\n"
	if got := string(unreleased([]byte(text))); got != want {
		t.Errorf("got\n%s", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOf(rapid.Byte()).Draw(t, "text")
		once := unreleased(text)
		if twice := unreleased(once); string(twice) != string(once) {
			t.Fatalf("%q becomes %q", once, twice)
		}
	})
}
