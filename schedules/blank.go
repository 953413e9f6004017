package schedules

import (
	_ "embed"
	"strconv"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/spell"
)

//go:embed blank.toml
var blank string

//go:embed blank-job.toml
var blankJob string

//go:embed blank-specification.toml
var blankSpecification string

//go:embed blank-record.toml
var blankRecord string

//go:embed blank-book.toml
var blankBook string

// Blank is a schedule with nothing but a title, and comments that say what may
// stand in it. Characters that a title cannot have are left out.
func Blank(title string) []byte { return filled(blank, "TITLE", title) }

// BlankJob is the same for a job: it has no part yet.
func BlankJob(title string) []byte { return filled(blankJob, "TITLE", title) }

// BlankSpecification is the same for a specification: it demands nothing yet.
func BlankSpecification(title string) []byte { return filled(blankSpecification, "TITLE", title) }

// BlankBook is the same for a shop book.
func BlankBook(title string) []byte { return filled(blankBook, "TITLE", title) }

// BlankRecord is a record without entries, and comments that say what entries
// look like, with the head that is given but for its serial number. It ends as a
// whole entry does, so that one can be appended.
func BlankRecord(of *record.Record) []byte {
	text := string(filled(blankRecord, "SCHEDULE", of.Schedule))
	if of.ScheduleRevision.Given {
		text = strings.Replace(text, "# schedule_revision = 0\n", "schedule_revision = "+strconv.Itoa(of.ScheduleRevision.Value)+"\n", 1)
	}
	for _, k := range [][2]string{{`schedule_sha256   = ""`, of.ScheduleSHA256}, {`schedule_fingerprint = ""`, of.ScheduleFingerprint},
		{`part              = "shell-1"`, of.Part}, {`joint             = "J1"`, of.Joint}, {`overlay           = "outside"`, of.Overlay.String()}} {
		if k[1] != "" {
			before, after, _ := strings.Cut(text, "# "+k[0])
			text = before + k[0][:strings.Index(k[0], "\"")] + spell.Text(k[1]) + after
		}
	}
	return []byte(text)
}

// filled puts a text in the place of a word of a template, without the
// characters that texts cannot have.
func filled(template, slot, text string) []byte {
	var clean strings.Builder
	for _, r := range strings.ToValidUTF8(text, "") {
		if _, bad := word.BadCharacter(string(r), false); !bad {
			clean.WriteRune(r)
		}
	}
	return []byte(strings.Replace(template, `"`+slot+`"`, spell.Text(clean.String()), 1))
}
