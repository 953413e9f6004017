package schedules

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// reading is a reading while it is read: what its value may be depends on the
// kind, which may stand below it.
type reading struct {
	record.Reading
	value any
}

type recordDocument struct {
	record.Record
	readings []reading
}

// MostEntries of one kind a record may hold.
const MostEntries = 100_000

// groupField is the part of the wall that a reading or a specimen holds; the
// whole wall where it is left out.
func groupField[T any](key, what string, at func(*T) *inspection.Group) tables.Field {
	return tables.Of(key, what, at,
		func(value any) (g inspection.Group, wrong string) {
			s, ok := value.(string)
			if !ok {
				return g, "a word is expected, not " + tables.KindOf(value)
			}
			if g, ok = inspection.Groups.Parse(s); !ok {
				wrong = tables.WrongWord(s, inspection.Groups.Words())
			}
			return g, wrong
		},
		func(g inspection.Group) (string, bool) { return spell.Text(g.String()), g != inspection.WholeWall })
}

func readingValue(r *record.Reading) (string, bool) {
	switch r.Kind {
	case inspection.WallThickness:
		return spell.Text(r.Thickness.Text()), r.Thickness.Given()
	case inspection.Barcol:
		return spell.Number(r.Value), true
	case inspection.Acetone:
		if r.Clean {
			return spell.Text("clean"), true
		}
		if r.Softened {
			return spell.Text("softened"), true
		}
		return spell.Text("tacky"), true
	case inspection.ResistanceToGround:
		return spell.Text(r.Resistance.Text()), r.Resistance.Given()
	case inspection.NoKind, inspection.IgnitionLoss, inspection.Visual:
	}
	return "", false
}

// take puts the value where the kind of reading wants it; zoned says whether it
// tells what the specimen held.
func (r *reading) take(zoned func() bool) (key, wrong string) {
	text, isText := r.value.(string)
	if r.value == nil && r.Kind != inspection.IgnitionLoss && r.Kind != inspection.Visual && r.Kind != inspection.NoKind {
		return "value", "it is missing"
	}
	switch r.Kind {
	case inspection.WallThickness:
		if !isText {
			return "value", "a thickness with its unit is expected, such as \"0.31 in\", not " + tables.KindOf(r.value)
		}
		if err := quantity.Read(&r.Thickness, text); err != nil {
			return "value", err.Error()
		}
		if r.Thickness.SI() <= 0 || r.Thickness.SI() > 1 {
			return "value", tables.Quoted(text) + " is not above 0 and at most 1 m"
		}
	case inspection.Barcol:
		v, wrong := tables.Number(r.value)
		if wrong == "" && !(v >= 0 && v <= 100) {
			wrong = "the Barcol scale runs from 0 to 100"
		}
		r.Value = v
		if wrong != "" {
			return "value", wrong
		}
	case inspection.Acetone:
		words := []string{"clean", "softened", "tacky"}
		switch text {
		case "clean":
			r.Clean = true
		case "softened":
			r.Softened = true
		case "tacky":
		default:
			if !isText {
				return "value", "one of clean, softened, tacky is expected, not " + tables.KindOf(r.value)
			}
			return "value", tables.WrongWord(text, words)
		}
	case inspection.ResistanceToGround:
		if !isText {
			return "value", "a resistance with its unit is expected, such as \"4 Mohm\", not " + tables.KindOf(r.value)
		}
		if err := quantity.Read(&r.Resistance, text); err != nil {
			return "value", err.Error()
		}
		if r.Resistance.SI() < 0 {
			return "value", "it is below 0"
		}
	case inspection.IgnitionLoss:
		switch {
		case !r.Before.Given():
			return "before", "it is missing: the specimen's mass before ignition"
		case !r.After.Given():
			return "after", "it is missing: the specimen's mass after ignition"
		case r.Before.SI() <= 0:
			return "before", "it is not above 0"
		case r.After.SI() < 0 || r.After.SI() > r.Before.SI():
			return "after", "it is not between 0 and the mass before"
		case r.Plies.Given && r.Plies.Value < 0:
			return "plies", "it is below 0"
		case !zoned():
			return "zone", "it is missing: what the specimen held, for example barrier"
		}
	case inspection.Visual:
		switch {
		case r.value != nil:
			return "value", "an examination by eye has none: what was seen is a [[defect]], and none is nothing seen"
		case r.Area.Given() && r.Area.SI() <= 0:
			return "area", "it is not above 0"
		}
	case inspection.NoKind:
		return "kind", "it is missing"
	}
	return "", ""
}

// DecodeRecord reads a record. A last entry that a power cut left half-written
// is left out, and the second result says so in one sentence. Where there are
// problems the record is nil.
func DecodeRecord(b []byte) (r *record.Record, torn string, problems []Problem) {
	r, problems = decodeRecord(b)
	whole := wholeOf(b, r)
	if whole == 0 || whole == len(b) {
		return r, "", problems
	}
	again, _ := decodeRecord(b[:whole])
	if again == nil {
		return r, "", problems
	}
	line, _ := tables.Place(b, whole)
	again.Torn = fmt.Sprintf("the last entry, from line %d, is half-written and was left out", line)
	return again, again.Torn, nil
}

// WholeEntries says how many leading bytes of a record are whole: those that
// DecodeRecord takes. What can be read is whole however it ends, but for an entry
// that has an id and, where the text stops, no seal; where something cannot be
// read, what was written up to the zeros of a power cut or to the last empty line is.
func WholeEntries(b []byte) int {
	r, _ := decodeRecord(b)
	return wholeOf(b, r)
}

// wholeOf is the same where the text was decoded; r is nil where it could not be.
func wholeOf(b []byte, r *record.Record) int {
	if r != nil {
		all := r.Entries()
		if len(all) == 0 || !all[len(all)-1].Head().Cut || ended(b) == len(b) {
			return len(b)
		}
		return lineStart(b, all[len(all)-1].Head().Line)
	}
	if len(b) > MostRecordBytes {
		return len(b) // too much is not half-written
	}
	if whole := len(bytes.TrimRight(b, "\x00")); whole < len(b) {
		if r, _ := decodeRecord(b[:whole]); r != nil {
			return wholeOf(b[:whole], r)
		}
	}
	return ended(b)
}

// lineStart is where a line begins, from 1.
func lineStart(b []byte, line int) int {
	at := 0
	for ; line > 1; line-- {
		at += 1 + bytes.IndexByte(b[at:], '\n')
	}
	return at
}

// ended is the length of what ends in an empty line, as every entry does that
// the program writes.
func ended(b []byte) int {
	whole := 0
	for _, end := range []string{"\n\n", "\n\r\n"} {
		if at := bytes.LastIndex(b, []byte(end)); at >= 0 {
			whole = max(whole, at+len(end))
		}
	}
	return whole
}

func decodeRecord(b []byte) (*record.Record, []Problem) {
	d := new(recordDocument)
	src, problems := read(b, Record, recordTables(), d)
	if src.doc == nil {
		return nil, problems
	}
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	if h := d.ScheduleSHA256; h != "" && !isSum(h) {
		fail(0, 0, "schedule_sha256", "64 hexadecimal digits are expected")
	}
	if h := d.ScheduleFingerprint; h != "" && !isSum(h) {
		fail(0, 0, "schedule_fingerprint", "64 hexadecimal digits are expected")
	}
	for i, x := range d.Revisions {
		switch {
		case !isSum(x.Fingerprint):
			fail(revisionTable, i, "fingerprint", "64 hexadecimal digits are expected")
		case strings.TrimSpace(x.Who) == "" || strings.TrimSpace(x.Why) == "":
			fail(revisionTable, i, "why", "somebody answers for a revision in mid-job, and says why")
		}
	}
	for i := range d.readings {
		if key, wrong := d.readings[i].take(func() bool { return src.doc.Has(tables.Spot{Table: readingTable, Row: i, Key: "zone"}) }); wrong != "" {
			fail(readingTable, i, key, wrong)
		}
		d.Readings = append(d.Readings, d.readings[i].Reading)
	}
	for i, l := range d.Laid {
		if l.Ply == 0 {
			fail(laidTable, i, "ply", "it is missing")
		}
		for key, share := range map[string]laminate.Optional[float64]{"humidity": l.Humidity, "initiator": l.Initiator, "promoter": l.Promoter} {
			if share.Given && !(share.Value >= 0 && share.Value <= 1) {
				fail(laidTable, i, key, "it is a share from 0 to 1")
			}
		}
	}
	for i := range d.Defects {
		if d.Defects[i].Kind == spec.NoDefect {
			fail(defectTable, i, "kind", "it is missing")
		}
		if d.Defects[i].Count == 0 {
			d.Defects[i].Count = 1
		}
		if d.Defects[i].Count < 0 {
			fail(defectTable, i, "count", "it is below 1")
		}
		if a := d.Defects[i].Area; a.Given() && a.SI() <= 0 {
			fail(defectTable, i, "area", "it is not above 0")
		}
	}
	for i := range d.Dispositions {
		switch x := &d.Dispositions[i]; {
		case x.Action == record.NoAction:
			fail(dispositionTable, i, "action", "it is missing")
		case x.Of == 0 && x.OfID == "" && x.Requirement == "":
			fail(dispositionTable, i, "entry", "it is missing: the entry, or a requirement, that it is about")
		case (x.Of != 0 || x.OfID != "") && x.Requirement != "":
			fail(dispositionTable, i, "requirement", "an entry or a requirement, not both")
		case x.Requirement != "" && x.Action != record.UseAsIs:
			fail(dispositionTable, i, "action", "a requirement is conceded as a whole, with use-as-is; a retest or repair is of an entry")
		case strings.TrimSpace(x.Who) == "":
			fail(dispositionTable, i, "who", "it is missing: somebody answers for it")
		case strings.TrimSpace(x.Why) == "":
			fail(dispositionTable, i, "why", "it is missing")
		}
	}
	d.ofPart(fail)
	for i := range d.Adopted {
		if strings.TrimSpace(d.Adopted[i].Who) == "" {
			fail(adoptedTable, i, "who", "it is missing: somebody answers for the entries without a seal")
		}
	}
	for i, x := range d.Decisions {
		if x.Outcome == record.NoOutcome {
			fail(decisionTable, i, "outcome", "it is missing")
		}
	}
	src.number(d, fail)
	problems = src.doc.Strange(problems, d)
	if len(problems) > 0 {
		return nil, tables.Sorted(problems)
	}
	return &d.Record, nil
}

// isSum tells whether s is a SHA-256 sum as people copy it.
func isSum(s string) bool { return digits(s, 64, "0123456789ABCDEFabcdef") }

// digits tells whether s is n characters of set.
func digits(s string, n int, set string) bool { return len(s) == n && strings.Trim(s, set) == "" }

// number counts the entries in the order of the file, follows their seals, and
// strikes those that a later entry takes back.
func (s *Source) number(d *recordDocument, fail func(table, row int, key, message string)) {
	rows := make([][]tables.Row, len(recordTables()))
	for t := range rows {
		rows[t] = recordTables()[t].Rows(d)
	}
	seen := make([]int, len(rows))
	n, line, from := 0, 1, 0
	for _, h := range s.doc.Heads {
		if h.Table < laidTable || h.Row >= len(rows[h.Table]) {
			continue // the head, or a [laid] that is no [[laid]], which is said already
		}
		e := d.entryOf(h.Table, rows, h.Row)
		if e == nil {
			continue
		}
		seen[h.Table]++
		n++
		line += bytes.Count(s.doc.Data[from:h.Start], []byte{'\n'})
		from = h.Start
		head := e.Head()
		head.Number, head.Line, head.Content = n, line, content(e)
	}
	for t := laidTable; t < len(rows); t++ {
		if seen[t] < len(rows[t]) {
			fail(t, 0, "", fmt.Sprintf("an entry is a [[%s]] table of its own, so that the order is told", recordTables()[t].Name))
			return
		}
	}
	entries := d.Entries()
	d.Trail = record.Follow(headContent(&d.Record), entries)
	ids := make(map[string]int, len(entries))
	for _, e := range entries {
		ids[e.Head().ID] = e.Head().Number
	}
	// named finds the entry that another is about; 0 where it is not there.
	named := func(table, row int, by *record.Entry, of *int, id string) bool {
		if id != "" {
			if *of = ids[id]; *of == 0 || *of >= by.Number {
				*of = 0
				d.Trail.Breaks = append(d.Trail.Breaks, record.Break{Number: by.Number, Line: by.Line, Why: "it is about entry " + id + ", which is not before it: that one was changed or removed"})
			}
			return *of > 0
		}
		if *of < 0 || *of >= by.Number {
			fail(table, row, "entry", fmt.Sprintf("there is no entry %d before this one", *of))
			return false
		}
		return *of > 0
	}
	for i := range d.Dispositions {
		x := &d.Dispositions[i]
		named(dispositionTable, i, &x.Entry, &x.Of, x.OfID)
	}
	for i := range d.Struck {
		x := &d.Struck[i]
		switch found := named(struckTable, i, &x.Entry, &x.Of, x.OfID); {
		case x.Of == 0 && x.OfID == "":
			fail(struckTable, i, "entry", "there is no entry 0 before this one")
		case strings.TrimSpace(x.Why) == "":
			fail(struckTable, i, "why", "it is missing: an entry is struck with a reason")
		case found:
			entries[x.Of-1].Head().Struck = true
		}
	}
	slices.SortStableFunc(d.Trail.Breaks, func(a, b record.Break) int { return a.Number - b.Number })
}

// entryOf is the entry of a row of a table, nil where it holds none.
func (d *recordDocument) entryOf(table int, rows [][]tables.Row, row int) record.Any {
	if table == readingTable { // rows of it hold more than the reading
		return &d.Readings[row]
	}
	e, _ := rows[table][row].Value.(record.Any)
	return e
}
