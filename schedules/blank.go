package schedules

import (
	_ "embed"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
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

// RecordOf names the schedule a record is of.
type RecordOf struct {
	Schedule string // its file, as the record names it
	Revision laminate.Optional[int]
	SHA256   string // of its text, 64 hexadecimal digits; empty where not known
	// Fingerprint is of its content; empty where not known.
	Fingerprint string
}

// BlankRecord is a record without entries, and comments that say what entries
// look like. It ends as a whole entry does, so that one can be appended.
func BlankRecord(of RecordOf) []byte {
	text := string(filled(blankRecord, "SCHEDULE", of.Schedule))
	if of.Revision.Given {
		text = strings.Replace(text, "# schedule_revision = 0\n", "schedule_revision = "+strconv.Itoa(of.Revision.Value)+"\n", 1)
	}
	if of.SHA256 != "" {
		before, after, _ := strings.Cut(text, `# schedule_sha256   = ""`)
		text = before + "schedule_sha256   = " + spell.Text(of.SHA256) + after
	}
	if of.Fingerprint != "" {
		before, after, _ := strings.Cut(text, `# schedule_fingerprint = ""`)
		text = before + "schedule_fingerprint = " + spell.Text(of.Fingerprint) + after
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
