package word_test

import (
	"testing"

	"frp/veilwright/laminate/word"
)

func TestAnswered(t *testing.T) {
	for text, want := range map[string][2]bool{
		"": {}, " ": {}, "?": {}, "TBD": {}, "tbd, with the test": {}, "Pending.": {}, "pending review": {}, "not yet": {}, "to be confirmed": {}, "to follow": {}, "Awaiting the engineer": {}, "unknown": {},
		"Todo": {}, "to do": {}, "??": {}, "T.B.D.": {}, "(pending)": {}, "[tbc]": {}, "missing": {}, "x": {}, "Xxx": {}, "...": {}, "requested": {}, "in progress": {}, "in-progress": {}, "will follow": {}, "by others": {},
		"not stated": {}, "Not available": {}, "to be": {}, "to be issued as calc 7": {}, "calculation 45, pending": {}, "calculation 45 (TBD)": {}, "calculation 45?": {},
		"none": {true, false}, "No.": {true, false}, "n/a": {true, false}, "-": {true, false}, "—": {true, false}, "--": {true, false}, "n.a.": {true, false}, "N. A.": {true, false}, "nil": {true, false}, "nobody": {true, false}, "no one": {true, false},
		"not required": {true, false}, "not grounded": {true, false}, "none required": {true, false}, "None, rev 2": {true, false},
		"to be or calc 7": {true, true}, "TBDesign report 7": {true, true}, "No. 45 of the engineer": {true, true}, "Pendington list 4": {true, true},
		"list 4": {true, true}, "calculation 45, revision 2": {true, true}, "copper strap to the lug": {true, true},
	} {
		if stated, there := word.Answered(text); stated != want[0] || there != want[1] {
			t.Errorf("%q: stated %v, there %v", text, stated, there)
		}
	}
}
