package schedules

import (
	_ "embed"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/keyed"
)

//go:embed example.toml
var example string

//go:embed blank.toml
var blank string

// Example is the document shown where nobody named one: a wound drain header
// of an invented scrubber. Its glass veil meets fluorides, so that a broken
// rule with a remedy is there to be looked at.
func Example() []byte { return []byte(example) }

// Blank is a schedule with nothing but a title, and comments that say what may
// stand in it. Characters that a title cannot have are left out.
func Blank(title string) []byte {
	var clean strings.Builder
	for _, r := range strings.ToValidUTF8(title, "") {
		if _, bad := laminate.BadCharacter(string(r), false); !bad {
			clean.WriteRune(r)
		}
	}
	return []byte(strings.Replace(blank, `"TITLE"`, keyed.TOMLText(clean.String()), 1))
}
