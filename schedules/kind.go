package schedules

import (
	"bytes"
	"fmt"
	"strconv"
	"unicode/utf8"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/tables"
)

// Kind is what a document says it is.
type Kind uint8

// The kinds of documents.
const (
	// Unreadable is no document: not TOML, too large, or of a kind or format
	// that is not known. The problems say why.
	Unreadable Kind = iota
	// Undeclared is TOML without a `document` key: somebody else's file.
	Undeclared
	Schedule
	Job
	Specification
	Record
	ShopBook
	Exercise
)

// kindWords are the words documents use.
var kindWords = word.Of[Kind]("", "", "schedule", "job", "specification", "record", "shop-book", "exercise")

// String gives the word documents use.
func (k Kind) String() string {
	switch k {
	case Unreadable:
		return "unreadable"
	case Undeclared:
		return "undeclared"
	default:
		return kindWords.Name(k)
	}
}

// Noun is the word with its article: "an exercise".
func (k Kind) Noun() string {
	if k == Exercise {
		return "an " + k.String()
	}
	return "a " + k.String()
}

// Kinds lists the kinds a document may declare.
func Kinds() []Kind { return kindWords.All() }

// Format is the format written and the highest one read.
const Format = 1

// MostBytes is the size of the largest document read. A record only ever grows, and
// is not begun anew where it is full: it may have MostRecordBytes.
const (
	MostBytes       = 16 << 20
	MostRecordBytes = 64 << 20
)

var mark = []byte("\ufeff")

// Sniff reads what kind of document b is, leniently: it looks at the keys
// before the first table alone. For Unreadable and Undeclared there is a
// problem that says why; a known kind comes without any.
func Sniff(b []byte) (Kind, []Problem) {
	b, problems := text(b, MostRecordBytes)
	if problems != nil {
		return Unreadable, problems
	}
	top, errs := tables.Top(b, "document", "format")
	kind, problem := kindOf(b, top)
	switch {
	case kind != Record && len(b) > MostBytes:
		return Unreadable, tooLarge(MostBytes)
	case kind == Undeclared && len(errs) > 0:
		return Unreadable, errs
	case problem != nil:
		return kind, []Problem{*problem}
	}
	return kind, nil
}

// text strips a byte order mark and refuses what is too much, or no text.
func text(b []byte, most int) ([]byte, []Problem) {
	if len(b) > most {
		return nil, tooLarge(most)
	}
	b = bytes.TrimPrefix(b, mark)
	if utf8.Valid(b) {
		return b, nil
	}
	at := 0
	for at < len(b) {
		r, size := utf8.DecodeRune(b[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	p := Problem{Message: "this is not text in UTF-8"}
	p.Line, p.Column = tables.Place(b, at)
	return nil, []Problem{p}
}

func tooLarge(most int) []Problem {
	return []Problem{{Message: fmt.Sprintf("the file is larger than %d MiB", most>>20)}}
}

// kindOf reads `document` and `format`.
func kindOf(b []byte, top map[string]tables.TopKey) (Kind, *Problem) {
	declared, ok := top["document"]
	if !ok {
		return Undeclared, &Problem{Line: 1, Column: 1, Key: "document", Message: `it is missing: a document begins with document = "schedule" (or another kind) and format = 1`}
	}
	fail := func(key string, at int, message string) (Kind, *Problem) {
		p := &Problem{Key: key, Message: message}
		p.Line, p.Column = tables.Place(b, at)
		return Unreadable, p
	}
	kinds := kindWords.List() + " is expected"
	if !declared.Text {
		return fail("document", declared.Offset, tables.Printable(declared.Value)+" is no text: "+kinds+", between quotes")
	}
	kind, ok := kindWords.Parse(declared.Value)
	if !ok {
		return fail("document", declared.Offset, tables.Quoted(declared.Value)+" is no kind of document: "+kinds)
	}
	format, ok := top["format"]
	switch {
	case !ok:
		return fail("format", declared.Offset, "it is missing: format = 1 is expected")
	case format.Text:
		return fail("format", format.Offset, tables.Quoted(format.Value)+" is text: format = 1 is expected, without quotes")
	case !format.Integer:
		return fail("format", format.Offset, tables.Printable(format.Value)+" is no whole number: format = 1 is expected")
	}
	n, err := strconv.Atoi(format.Value)
	switch {
	case err == nil && n == Format:
		return kind, nil
	case err == nil && n > Format:
		return fail("format", format.Offset, fmt.Sprintf("the document has format %d, this program reads up to format %d: a newer program is needed", n, Format))
	}
	return fail("format", format.Offset, fmt.Sprintf("format %s is not known: this program reads format %d", tables.Clipped(format.Value), Format))
}
