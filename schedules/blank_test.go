package schedules

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/internal/tables"
)

// offered matches a line of a template that is left out: a key or a table.
var offered = regexp.MustCompile(`(?m)^# ?((?:\w+ *= |\[).*)$`)

func uncommented(b []byte) []byte { return offered.ReplaceAll(b, []byte("$1")) }

func blanks() map[Kind][]byte {
	return map[Kind][]byte{
		Job: BlankJob("A \"drain\""), Specification: BlankSpecification("A \"drain\""), ShopBook: BlankBook("Our shop"),
		Record: BlankRecord(&record.Record{Schedule: "header.toml", ScheduleRevision: laminate.Some(3), ScheduleSHA256: strings.Repeat("0a", 32)}),
	}
}

func decodedKind(k Kind, b []byte) []Problem {
	var problems []Problem
	switch k {
	case Job:
		_, _, problems = DecodeJob(b, catalog.Library(), nil)
	case Specification:
		_, problems = DecodeSpecification(b)
	case ShopBook:
		_, problems = DecodeBook(b)
	default:
		_, _, problems = DecodeRecord(b)
	}
	return problems
}

func TestBlanks_decodeCleanAsTheyAreAndFilledIn(t *testing.T) {
	for kind, b := range blanks() {
		if got, problems := Sniff(b); got != kind || len(problems) > 0 {
			t.Errorf("%s: sniffed as %s, %v", kind, got, problems)
		}
		for what, text := range map[string][]byte{"as it is": b, "all filled in": uncommented(b)} {
			if problems := decodedKind(kind, text); len(problems) > 0 {
				t.Errorf("%s %s: %v\n%s", kind, what, problems, text)
			}
		}
	}
}

// unoffered are keys of a record that the program alone writes, and those that
// at was called before.
var unoffered = []string{"id", "seal", "covers", "verdict", "specification", "heads", "bytes", "aside", "sha256", "time", "when"}

// A job, a specification and a record offer every key they may have; of a book the
// figures for calculators by hand alone (lamina, towing) are left to its help.
func TestBlanks_nameEveryKey(t *testing.T) {
	for kind, tables := range map[Kind][]tables.Table{Specification: specTables(), Record: recordTables(), Job: jobTables()} {
		text := string(uncommented(blanks()[kind]))
		for _, table := range tables {
			if kind == Job && (table.Name == "resin" || table.Name == "material") {
				continue // the shop book names theirs
			}
			for _, f := range table.Fields {
				if f.Key != "defect" && !(kind == Record && slices.Contains(unoffered, f.Key)) && !regexp.MustCompile(`(?m)^`+f.Key+` *=`).MatchString(text) {
					t.Errorf("%s: %s %s is not offered", kind, table.Name, f.Key)
				}
			}
		}
	}
}

func TestBlankRecord_saysWhatItIsOf(t *testing.T) {
	b := blanks()[Record]
	r, torn, problems := DecodeRecord(b)
	if len(problems) > 0 || torn != "" {
		t.Fatal(problems, torn)
	}
	if r.Schedule != "header.toml" || r.ScheduleRevision != laminate.Some(3) || r.ScheduleSHA256 != strings.Repeat("0a", 32) {
		t.Errorf("%+v", r)
	}
	if WholeEntries(b) != len(b) {
		t.Error("an entry appended to it would be taken for half-written")
	}
	bare, _, problems := DecodeRecord(BlankRecord(&record.Record{}))
	if len(problems) > 0 || bare.Schedule != "" || bare.ScheduleRevision.Given || bare.ScheduleSHA256 != "" {
		t.Errorf("%+v, %v", bare, problems)
	}
}
