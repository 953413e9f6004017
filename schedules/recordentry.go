package schedules

import (
	"crypto/sha256"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// entryFields are those that every entry has around its own: id first and seal
// last, so that what was cut short has the one without the other. The time was
// called otherwise before entries were sealed; it is still read so.
func entryFields[T any](at func(*T) *record.Entry, earlier string, own ...tables.Field) []tables.Field {
	first, last := entryEnds(earlier)
	return slices.Concat(tables.Lift(first, at), own, tables.Lift(last, at))
}

// entryEnds are what stands before and behind an entry's own fields.
func entryEnds(earlier string) (first, last []tables.Field) {
	moment := func(e *record.Entry) *time.Time { return &e.At }
	first = []tables.Field{tables.TextField("id", func(e *record.Entry) *string { return &e.ID })}
	last = []tables.Field{timeField("at", moment)}
	if earlier != "" {
		f := timeField(earlier, moment)
		read := f.Set
		f.Set = func(row, value any) string {
			if !row.(*record.Entry).At.IsZero() {
				return "at says it already"
			}
			return read(row, value)
		}
		f.Get = func(any) (string, bool) { return "", false }
		last = append(last, f)
	}
	return first, append(last,
		tables.TextField("who", func(e *record.Entry) *string { return &e.Who }),
		tables.TextField("role", func(e *record.Entry) *string { return &e.Role }),
		tables.TextField("seal", func(e *record.Entry) *string { return &e.Seal }))
}

// ofField names an earlier entry: by its id, or where that has none by its number.
func ofField[T any](at func(*T) (of *int, id *string)) tables.Field {
	return tables.Field{Key: "entry", What: "the id of the entry it is about; of one without a seal its number, counted from 1 in the order of the file",
		Set: func(row, value any) (wrong string) {
			of, id := at(row.(*T))
			if text, ok := value.(string); ok {
				if *id = text; !digits(text, 12, "0123456789abcdef") {
					return "an id of 12 hexadecimal digits is expected, or a number"
				}
				return ""
			}
			*of, wrong = tables.Whole(value)
			return wrong
		},
		Get: func(row any) (string, bool) {
			of, id := at(row.(*T))
			if *id != "" {
				return spell.Text(*id), true
			}
			return strconv.Itoa(*of), *of != 0
		}}
}

// timeField is a point in time, as a TOML date-time with its offset.
func timeField[T any](key string, at func(*T) *time.Time) tables.Field {
	return tables.Of(key, "a date and time such as 2026-03-02T07:15:00Z", at,
		func(value any) (time.Time, string) {
			t, ok := value.(time.Time)
			if !ok {
				return t, "a date and time such as 2026-03-02T07:15:00Z is expected, not " + tables.KindOf(value)
			}
			return t, ""
		},
		func(t time.Time) (string, bool) {
			layout := time.RFC3339
			if strings.HasSuffix(t.Location().String(), "-local") {
				layout = "2006-01-02T15:04:05" // without an offset it is the same in every zone
			}
			return t.Format(layout), !t.IsZero()
		})
}

// RecordHead is the beginning of a new record, to which entries are added.
func RecordHead(r *record.Record) []byte {
	return appendEntry(nil, "", recordTables()[0].Fields, r)
}

// headContent is the sum of what the head says.
func headContent(r *record.Record) record.Sum { return sha256.Sum256(RecordHead(r)) }

// tableOf is the table of each kind of entry.
var tableOf = map[reflect.Type]int{
	reflect.TypeFor[*record.Laid]():        laidTable,
	reflect.TypeFor[*record.Reading]():     readingTable,
	reflect.TypeFor[*record.Defect]():      defectTable,
	reflect.TypeFor[*record.Disposition](): dispositionTable,
	reflect.TypeFor[*record.Decision]():    decisionTable,
	reflect.TypeFor[*record.Struck]():      struckTable,
	reflect.TypeFor[*record.Adopted]():     adoptedTable,
	reflect.TypeFor[*record.Joined]():      joinedTable,
	reflect.TypeFor[*record.Cut]():         cutTable,
	reflect.TypeFor[*record.Revision]():    revisionTable,
	reflect.TypeFor[*record.Dimension]():   dimensionEntryTable,
	reflect.TypeFor[*record.Hydrotest]():   hydrotestEntryTable,
	reflect.TypeFor[*record.Instrument]():  instrumentEntryTable,
	reflect.TypeFor[*record.PostCure]():    postCureEntryTable,
	reflect.TypeFor[*record.Hold]():        holdEntryTable,
	reflect.TypeFor[*record.Preparation](): preparationTable,
	reflect.TypeFor[*record.Bond]():        bondTable,
	reflect.TypeFor[*record.Specimen]():    specimenTable,
	reflect.TypeFor[*record.Photograph]():  photographTable,
	reflect.TypeFor[*record.Marked]():      markedTable,
}

// kindOfEntry tells how an entry is written: its table, its fields, and the row
// that they read.
func kindOfEntry(entry record.Any) (title string, fields []tables.Field, row any) {
	t, ok := tableOf[reflect.TypeOf(entry)]
	if !ok {
		panic(fmt.Sprintf("a record has no entry of type %T", entry))
	}
	switch e := entry.(type) {
	case *record.Reading:
		row = &reading{Reading: *e}
	case *record.Defect:
		seen := *e
		seen.Count = max(seen.Count, 1)
		row = &seen
	default:
		row = entry
	}
	return recordTables()[t].Name, recordTables()[t].Fields, row
}

// RecordEntry writes one entry as it is added to a record: a table of one line
// a key and the empty line that ends it.
func RecordEntry(entry record.Any) []byte {
	title, fields, row := kindOfEntry(entry)
	return appendEntry(nil, title, fields, row)
}

// SealEntry writes an entry as RecordEntry does, sealed behind what comes before it.
func SealEntry(entry record.Any, before record.Sum) []byte {
	e := entry.Head()
	e.Content = content(entry)
	seal := record.Next(before, e.Content)
	e.ID, e.Seal = seal.ID(), seal.String()
	return RecordEntry(entry)
}

// content is the sum of what an entry says, whatever its spelling, comments and
// line ends: of the text that RecordEntry gives, without id and seal.
func content(entry record.Any) record.Sum {
	title, fields, row := kindOfEntry(entry)
	return sha256.Sum256(appendEntry(make([]byte, 0, 512), title, fields[1:len(fields)-1], row))
}

func appendEntry(b []byte, title string, fields []tables.Field, row any) []byte {
	if title != "" {
		b = append(b, "[["+title+"]]\n"...)
	}
	for _, f := range fields {
		if text, ok := f.Get(row); ok {
			b = append(append(append(append(b, f.Key...), " = "...), oneLine(text)...), '\n')
		}
	}
	return append(b, '\n')
}

// oneLine keeps an entry free of empty lines, which end it.
func oneLine(value string) string {
	if !strings.HasPrefix(value, `"""`) {
		return value
	}
	inner := strings.TrimSuffix(strings.TrimPrefix(value, "\"\"\"\n"), `"""`)
	return `"` + strings.ReplaceAll(inner, "\n", `\n`) + `"`
}
