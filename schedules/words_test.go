package schedules_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
)

// What shops write for a process is read as the word for it, and stays as it
// was typed until that key is changed.
func TestRender_keepsTheSpellingOfAWordUntilItIsChanged(t *testing.T) {
	for spelling, want := range map[string]laminate.Process{
		"filament-wound": laminate.Wound, "contact-molded": laminate.ContactMolded, "hand-lay-up": laminate.ContactMolded,
	} {
		text := fmt.Appendf(nil, "document = \"schedule\"\nformat = 1\n\n[part]\nform = \"pipe\"\nprocess = %q # as the shop says\n", spelling)
		src, s, problems := schedules.Decode(text, nil)
		if len(problems) > 0 || s.Part.Process != want {
			t.Errorf("%s: %v, %v", spelling, problems, s)
			continue
		}
		if got := src.Render(s); !bytes.Equal(got, text) {
			t.Errorf("%s is rewritten:\n%s", spelling, got)
		}
		other := s.Clone()
		other.Part.Form = laminate.Duct
		if got := string(src.Render(other)); !strings.Contains(got, fmt.Sprintf("process = %q # as the shop says", spelling)) {
			t.Errorf("another key is edited and %s is rewritten:\n%s", spelling, got)
		}
		other = s.Clone()
		other.Part.Process = laminate.Wound + laminate.ContactMolded - want
		if got := string(src.Render(other)); !strings.Contains(got, fmt.Sprintf("process = %q", other.Part.Process)) || strings.Contains(got, spelling) {
			t.Errorf("the process is edited and stays %s:\n%s", spelling, got)
		}
	}
}
