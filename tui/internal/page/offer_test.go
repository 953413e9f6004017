package page

import (
	"strings"
	"testing"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// → behind the text takes the likely texts one after the other; within the text
// it goes about, and typing replaces what was taken.
func TestField_offersWhatIsLikely(t *testing.T) {
	f := &Field{Label: "place", Offers: []string{"ring 1", "ring 2"}}
	f.Enter()
	right := keys.Event{Key: keys.Right}
	for _, want := range []string{"ring 1", "ring 2", "ring 1"} {
		if f.Press(right); f.Text != want {
			t.Fatalf("→ takes %q, want %q", f.Text, want)
		}
	}
	if line := strings.Join(f.Lines(draw.New(draw.Mono), true, 6, 60), ""); !strings.Contains(line, "→ ring 2") {
		t.Errorf("the next one is not shown: %q", line)
	}
	f.Press(keys.Event{Key: "3", Rune: '3'})
	if f.Text != "3" {
		t.Errorf("typing after it gives %q", f.Text)
	}
	f.Press(keys.Event{Key: keys.Left})
	if f.Press(right); f.Text != "3" {
		t.Errorf("→ within the text makes %q of it", f.Text)
	}
	if f.Press(right); f.Text != "ring 1" {
		t.Errorf("→ behind it takes %q", f.Text)
	}
	if f.Revert(); f.Text != "" {
		t.Errorf("what was taken stays: %q", f.Text)
	}
	plain := &Field{}
	plain.Enter()
	if plain.Press(right); plain.Text != "" {
		t.Errorf("without offers → takes %q", plain.Text)
	}
}
