package word_test

import (
	"testing"

	"frp/veilwright/laminate/word"
)

func TestAnswered(t *testing.T) {
	for text, want := range map[string][2]bool{
		"": {}, " ": {}, "?": {}, "TBD": {}, "tbd, with the test": {}, "Pending.": {}, "pending review": {}, "not yet": {}, "to be confirmed": {}, "to follow": {}, "Awaiting the engineer": {}, "unknown": {},
		"none": {true, false}, "No.": {true, false}, "n/a": {true, false}, "-": {true, false},
		"list 4": {true, true}, "calculation 45, revision 2": {true, true}, "copper strap to the lug": {true, true},
	} {
		if stated, there := word.Answered(text); stated != want[0] || there != want[1] {
			t.Errorf("%q: stated %v, there %v", text, stated, there)
		}
	}
}
