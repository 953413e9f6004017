package schedules

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
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

// The tables of a record; [table] indices are used below.
const (
	laidTable = 1 + iota
	readingTable
	defectTable
	dispositionTable
	decisionTable
	struckTable
)

var recordTables = []tables.Table{
	tables.One("", declared(Record,
		tables.TextField("schedule", func(r *record.Record) *string { return &r.Schedule }),
		tables.WholeField("schedule_revision", func(r *record.Record) *laminate.Optional[int] { return &r.ScheduleRevision }),
		tables.TextField("schedule_sha256", func(r *record.Record) *string { return &r.ScheduleSHA256 }),
		tables.TextField("serial", func(r *record.Record) *string { return &r.Serial }),
	), func(d *recordDocument) *record.Record { return &d.Record }),
	tables.Many("laid", mostEntries, laidFields, func(d *recordDocument) *[]record.Laid { return &d.Laid }),
	tables.Many("reading", mostEntries, readingFields, func(d *recordDocument) *[]reading { return &d.readings }),
	tables.Many("defect", mostEntries, defectEntryFields, func(d *recordDocument) *[]record.Defect { return &d.Defects }),
	tables.Many("disposition", mostEntries, dispositionFields, func(d *recordDocument) *[]record.Disposition { return &d.Dispositions }),
	tables.Many("decision", mostEntries, decisionFields, func(d *recordDocument) *[]record.Decision { return &d.Decisions }),
	tables.Many("struck", mostEntries, struckFields, func(d *recordDocument) *[]record.Struck { return &d.Struck }),
}

// mostEntries of one kind a record may hold.
const mostEntries = 100_000

var laidFields = []tables.Field{
	tables.OrdinalField("ply", "the ply's number in the schedule, from 1", laminate.MostPlies, func(l *record.Laid) *int { return &l.Ply }),
	timeField("time", func(l *record.Laid) *time.Time { return &l.Time }),
	tables.TextField("who", func(l *record.Laid) *string { return &l.Who }),
	tables.TextField("material_lot", func(l *record.Laid) *string { return &l.MaterialLot }),
	tables.TextField("resin_lot", func(l *record.Laid) *string { return &l.ResinLot }),
	tables.ShareField("initiator", func(l *record.Laid) *laminate.Optional[float64] { return &l.Initiator }),
	tables.ShareField("promoter", func(l *record.Laid) *laminate.Optional[float64] { return &l.Promoter }),
	tables.TextField("gel_time", func(l *record.Laid) *string { return &l.GelTime }),
	tables.SizeField("air_temperature", func(l *record.Laid) *quantity.Temperature { return &l.AirTemperature }),
	tables.ShareField("humidity", func(l *record.Laid) *laminate.Optional[float64] { return &l.Humidity }),
	tables.SizeField("surface_temperature", func(l *record.Laid) *quantity.Temperature { return &l.SurfaceTemperature }),
	tables.TextField("material", func(l *record.Laid) *string { return &l.Material }),
	tables.WholeField("plies", func(l *record.Laid) *laminate.Optional[int] { return &l.Plies }),
	tables.SizeField("lap", func(l *record.Laid) *quantity.Length { return &l.Lap }),
	tables.NotesField("remark", func(l *record.Laid) *string { return &l.Remark }),
}

var readingFields = []tables.Field{
	tables.WordField("kind", func(r *reading) *inspection.Kind { return &r.Kind }, inspection.Kinds),
	tables.TextField("place", func(r *reading) *string { return &r.Place }),
	groupField("zone", "total (the whole wall), barrier, or a zone: what a cutout or specimen holds", func(r *reading) *inspection.Group { return &r.Group }),
	{Key: "value", What: `a length, a Barcol number, "clean", "softened" or "tacky", or a resistance, as the kind asks`,
		Set: func(row, value any) string { row.(*reading).value = value; return "" },
		Get: func(row any) (string, bool) { return readingValue(&row.(*reading).Reading) }},
	tables.SizeField("before", func(r *reading) *quantity.Mass { return &r.Before }),
	tables.SizeField("after", func(r *reading) *quantity.Mass { return &r.After }),
	tables.WordField("side", func(r *reading) *spec.Side { return &r.Side }, spec.Sides),
	tables.SizeField("area", func(r *reading) *quantity.Area { return &r.Area }),
	tables.TextField("method", func(r *reading) *string { return &r.Method }),
	tables.TextField("witness", func(r *reading) *string { return &r.Witness }),
	timeField("time", func(r *reading) *time.Time { return &r.Time }),
	tables.TextField("who", func(r *reading) *string { return &r.Who }),
}

var defectEntryFields = []tables.Field{
	tables.WordField("kind", func(f *record.Defect) *spec.Defect { return &f.Kind }, spec.Defects),
	tables.WordField("side", func(f *record.Defect) *spec.Side { return &f.Side }, spec.Sides),
	tables.SizeField("size", func(f *record.Defect) *quantity.Length { return &f.Size }),
	tables.SizeField("depth", func(f *record.Defect) *quantity.Length { return &f.Depth }),
	tables.CountField("count", func(f *record.Defect) *int { return &f.Count }),
	tables.SizeField("area", func(f *record.Defect) *quantity.Area { return &f.Area }),
	tables.TextField("place", func(f *record.Defect) *string { return &f.Place }),
	tables.FlagField("repaired", func(f *record.Defect) *bool { return &f.Repaired }),
}

var dispositionFields = []tables.Field{
	tables.Of("entry", "the number of the entry it is about, counted from 1 in the order of the file", func(d *record.Disposition) *int { return &d.Of },
		tables.Whole, func(n int) (string, bool) { return strconv.Itoa(n), n != 0 }),
	tables.TextField("requirement", func(d *record.Disposition) *string { return &d.Requirement }),
	tables.WordField("action", func(d *record.Disposition) *record.Action { return &d.Action }, record.Actions),
	tables.TextField("procedure", func(d *record.Disposition) *string { return &d.Procedure }),
	tables.TextField("who", func(d *record.Disposition) *string { return &d.Who }),
	tables.TextField("role", func(d *record.Disposition) *string { return &d.Role }),
	timeField("when", func(d *record.Disposition) *time.Time { return &d.When }),
	tables.NotesField("why", func(d *record.Disposition) *string { return &d.Why }),
}

var decisionFields = []tables.Field{
	tables.WordField("outcome", func(d *record.Decision) *record.Outcome { return &d.Outcome }, record.Outcomes),
	tables.TextField("who", func(d *record.Decision) *string { return &d.Who }),
	timeField("when", func(d *record.Decision) *time.Time { return &d.When }),
	tables.NotesField("why", func(d *record.Decision) *string { return &d.Why }),
}

var struckFields = []tables.Field{
	tables.Of("entry", "the number of the entry taken back, counted from 1 in the order of the file", func(s *record.Struck) *int { return &s.Of },
		tables.Whole, func(n int) (string, bool) { return strconv.Itoa(n), true }),
	tables.TextField("who", func(s *record.Struck) *string { return &s.Who }),
	tables.NotesField("why", func(s *record.Struck) *string { return &s.Why }),
}

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
		func(g inspection.Group) (string, bool) { return tables.TOMLText(g.String()), g != inspection.WholeWall })
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
		func(t time.Time) (string, bool) { return t.Format(time.RFC3339), !t.IsZero() })
}

func readingValue(r *record.Reading) (string, bool) {
	switch r.Kind {
	case inspection.WallThickness:
		return tables.TOMLText(r.Thickness.Text()), r.Thickness.Given()
	case inspection.Barcol:
		return tables.TOMLNumber(r.Value), true
	case inspection.Acetone:
		if r.Clean {
			return tables.TOMLText("clean"), true
		}
		return tables.TOMLText("tacky"), true
	case inspection.ResistanceToGround:
		return tables.TOMLText(r.Resistance.Text()), r.Resistance.Given()
	case inspection.NoKind, inspection.IgnitionLoss, inspection.Visual:
	}
	return "", false
}

// take puts the value where the kind of reading wants it; zoned says whether it
// tells what the specimen held.
func (r *reading) take(zoned bool) (key, wrong string) {
	text, isText := r.value.(string)
	bad := func(err error) (string, string) {
		if err != nil {
			return "value", err.Error()
		}
		return "", ""
	}
	if r.value == nil && r.Kind != inspection.IgnitionLoss && r.Kind != inspection.Visual && r.Kind != inspection.NoKind {
		return "value", "it is missing"
	}
	switch r.Kind {
	case inspection.WallThickness:
		if !isText {
			return "value", "a thickness with its unit is expected, such as \"0.31 in\", not " + tables.KindOf(r.value)
		}
		if err := quantity.Read(&r.Thickness, text); err != nil {
			return bad(err)
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
		case "softened", "tacky":
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
			return bad(err)
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
		case !zoned:
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
	if r != nil || len(problems) == 0 {
		return r, "", problems
	}
	whole := ended(b)
	if whole == 0 || whole == len(b) {
		return nil, "", problems
	}
	r, again := decodeRecord(b[:whole])
	if r == nil || len(again) > 0 {
		return nil, "", problems
	}
	line, _ := tables.Place(b, whole)
	r.Torn = fmt.Sprintf("the last entry, from line %d, is half-written and was left out", line)
	return r, r.Torn, nil
}

func decodeRecord(b []byte) (*record.Record, []Problem) {
	d := new(recordDocument)
	src, problems := read(b, Record, recordTables, d)
	if src.doc == nil {
		return nil, problems
	}
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	if h := d.ScheduleSHA256; h != "" && !hexSum.MatchString(h) {
		fail(0, 0, "schedule_sha256", "64 hexadecimal digits are expected")
	}
	for i := range d.readings {
		if key, wrong := d.readings[i].take(src.doc.Has(tables.Spot{Table: readingTable, Row: i, Key: "zone"})); wrong != "" {
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
		case x.Of == 0 && x.Requirement == "":
			fail(dispositionTable, i, "entry", "it is missing: the entry, or a requirement, that it is about")
		case x.Of != 0 && x.Requirement != "":
			fail(dispositionTable, i, "requirement", "an entry or a requirement, not both")
		case x.Requirement != "" && x.Action != record.UseAsIs:
			fail(dispositionTable, i, "action", "a requirement is conceded as a whole, with use-as-is; a retest or repair is of an entry")
		case strings.TrimSpace(x.Who) == "":
			fail(dispositionTable, i, "who", "it is missing: somebody answers for it")
		case strings.TrimSpace(x.Why) == "":
			fail(dispositionTable, i, "why", "it is missing")
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

var hexSum = regexp.MustCompile(`^[0-9A-Fa-f]{64}$`)

// number counts the entries in the order of the file and strikes those that a
// later entry takes back.
func (s *Source) number(d *recordDocument, fail func(table, row int, key, message string)) {
	var entries []*record.Entry
	var seen [struckTable + 1]int
	for _, h := range s.doc.Heads {
		var e *record.Entry
		switch h.Table {
		case laidTable:
			e = &d.Laid[h.Row].Entry
		case readingTable:
			e = &d.Readings[h.Row].Entry
		case defectTable:
			e = &d.Defects[h.Row].Entry
		case dispositionTable:
			e = &d.Dispositions[h.Row].Entry
			if of := d.Dispositions[h.Row].Of; of < 0 || of > len(entries) {
				fail(dispositionTable, h.Row, "entry", fmt.Sprintf("there is no entry %d before this one", of))
			}
		case decisionTable:
			e = &d.Decisions[h.Row].Entry
		case struckTable:
			e = &d.Struck[h.Row].Entry
			of := d.Struck[h.Row].Of
			switch {
			case of < 1 || of > len(entries):
				fail(struckTable, h.Row, "entry", fmt.Sprintf("there is no entry %d before this one", of))
			case strings.TrimSpace(d.Struck[h.Row].Why) == "":
				fail(struckTable, h.Row, "why", "it is missing: an entry is struck with a reason")
			default:
				entries[of-1].Struck = true
			}
		default:
			continue
		}
		entries = append(entries, e)
		seen[h.Table]++
		e.Number = len(entries)
		e.Line, _ = tables.Place(s.doc.Data, h.Start)
	}
	for t := laidTable; t <= struckTable; t++ {
		if seen[t] < len(recordTables[t].Rows(d)) {
			fail(t, 0, "", fmt.Sprintf("an entry is a [[%s]] table of its own, so that the order is told", recordTables[t].Name))
		}
	}
}

// WholeEntries says how many leading bytes of a record are whole: those that
// DecodeRecord takes. What can be read is whole however it ends; where something
// cannot, what was written up to the last empty line is.
func WholeEntries(b []byte) int {
	if r, _ := decodeRecord(b); r != nil {
		return len(b)
	}
	return ended(b)
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

// RecordHead is the beginning of a new record, to which entries are added.
func RecordHead(r *record.Record) []byte {
	return appendEntry(nil, "", recordTables[0].Fields, r)
}

// RecordEntry writes one entry as it is added to a record: a table of one line
// a key and the empty line that ends it. entry is a *record.Laid,
// *record.Reading, *record.Defect, *record.Disposition, *record.Decision or *record.Struck.
func RecordEntry(entry any) ([]byte, error) {
	switch e := entry.(type) {
	case *record.Laid:
		return appendEntry(nil, "laid", laidFields, e), nil
	case *record.Reading:
		return appendEntry(nil, "reading", readingFields, &reading{Reading: *e}), nil
	case *record.Defect:
		seen := *e
		seen.Count = max(seen.Count, 1)
		return appendEntry(nil, "defect", defectEntryFields, &seen), nil
	case *record.Disposition:
		return appendEntry(nil, "disposition", dispositionFields, e), nil
	case *record.Decision:
		return appendEntry(nil, "decision", decisionFields, e), nil
	case *record.Struck:
		return appendEntry(nil, "struck", struckFields, e), nil
	}
	return nil, fmt.Errorf("a record has no entry of type %T", entry)
}

func appendEntry(b []byte, title string, fields []tables.Field, row any) []byte {
	if title != "" {
		b = append(b, "[["+title+"]]\n"...)
	}
	for _, f := range fields {
		if text, ok := f.Get(row); ok {
			b = append(b, f.Key+" = "+oneLine(text)+"\n"...)
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
