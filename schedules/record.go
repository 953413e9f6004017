package schedules

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/keyed"
)

type (
	laid     = record.Laid
	flaw     = record.Defect
	decision = record.Decision
	struck   = record.Struck
)

// reading is a reading while it is read: what its value may be depends on the
// kind, which may stand below it.
type reading struct {
	record.Reading
	value any
	zoned bool
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
	decisionTable
	struckTable
)

var recordTables = []keyed.Table{
	{Fields: []keyed.Field{
		keyed.Declaration("document", `"record"`, `"record"`),
		keyed.Declaration("format", "1", "1"),
		keyed.TextField("schedule", func(r *record.Record) *string { return &r.Schedule }),
		keyed.WholeField("schedule_revision", func(r *record.Record) *laminate.Optional[int] { return &r.ScheduleRevision }),
		keyed.TextField("schedule_sha256", func(r *record.Record) *string { return &r.ScheduleSHA256 }),
		keyed.TextField("serial", func(r *record.Record) *string { return &r.Serial }),
	}, At: func(m any, _ int) any { return &m.(*recordDocument).Record }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	logTable("laid", laidFields, func(d *recordDocument) *[]laid { return &d.Laid }),
	logTable("reading", readingFields, func(d *recordDocument) *[]reading { return &d.readings }),
	logTable("defect", flawFields, func(d *recordDocument) *[]flaw { return &d.Defects }),
	logTable("decision", decisionFields, func(d *recordDocument) *[]decision { return &d.Decisions }),
	logTable("struck", struckFields, func(d *recordDocument) *[]struck { return &d.Struck }),
}

// mostEntries of one kind a record may hold.
const mostEntries = 100_000

func logTable[T any](title string, fields []keyed.Field, list func(*recordDocument) *[]T) keyed.Table {
	return keyed.Table{Name: title, Array: true, Most: mostEntries, Fields: fields,
		At:     func(m any, i int) any { return &(*list(m.(*recordDocument)))[i] },
		Rows:   func(m any) int { return len(*list(m.(*recordDocument))) },
		Resize: func(m any, n int) { *list(m.(*recordDocument)) = make([]T, n) }}
}

var laidFields = []keyed.Field{
	{Key: "ply", What: "the ply's number in the schedule, from 1",
		Set: func(row, value any) string {
			n, wrong := keyed.Whole(value)
			if wrong == "" && (n < 1 || n > laminate.MostPlies) {
				wrong = fmt.Sprintf("%d is not between 1 and %d", n, laminate.MostPlies)
			}
			row.(*laid).Ply = n
			return wrong
		},
		Get: func(row any) (string, bool) { return fmt.Sprint(row.(*laid).Ply), true }},
	timeField("time", func(l *laid) *time.Time { return &l.Time }),
	keyed.TextField("who", func(l *laid) *string { return &l.Who }),
	keyed.TextField("material_lot", func(l *laid) *string { return &l.MaterialLot }),
	keyed.TextField("resin_lot", func(l *laid) *string { return &l.ResinLot }),
	keyed.ShareField("initiator", func(l *laid) *laminate.Optional[float64] { return &l.Initiator }),
	keyed.ShareField("promoter", func(l *laid) *laminate.Optional[float64] { return &l.Promoter }),
	keyed.TextField("gel_time", func(l *laid) *string { return &l.GelTime }),
	keyed.SizeField("air_temperature", func(l *laid) *quantity.Temperature { return &l.AirTemperature }),
	keyed.ShareField("humidity", func(l *laid) *laminate.Optional[float64] { return &l.Humidity }),
	keyed.SizeField("surface_temperature", func(l *laid) *quantity.Temperature { return &l.SurfaceTemperature }),
	keyed.TextField("remark", func(l *laid) *string { return &l.Remark }),
}

var readingFields = []keyed.Field{
	keyed.WordField("kind", func(r *reading) *record.Kind { return &r.Kind }, record.Kinds),
	keyed.TextField("place", func(r *reading) *string { return &r.Place }),
	{Key: "zone", What: "total (the whole wall), barrier, or a zone: what a cutout or specimen holds",
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "a word is expected, not " + keyed.KindOf(value)
			}
			g, ok := record.Groups.Parse(s)
			if !ok {
				return keyed.WrongWord(s, record.Groups.Words())
			}
			row.(*reading).Group, row.(*reading).zoned = g, true
			return ""
		},
		Get: func(row any) (string, bool) {
			g := row.(*reading).Group
			return keyed.TOMLText(g.String()), g != record.WholeWall
		}},
	{Key: "value", What: `a length, a Barcol number, "clean", "softened" or "tacky", or a resistance, as the kind asks`,
		Set: func(row, value any) string { row.(*reading).value = value; return "" },
		Get: func(row any) (string, bool) { return readingValue(&row.(*reading).Reading) }},
	keyed.SizeField("before", func(r *reading) *quantity.Mass { return &r.Before }),
	keyed.SizeField("after", func(r *reading) *quantity.Mass { return &r.After }),
	timeField("time", func(r *reading) *time.Time { return &r.Time }),
	keyed.TextField("who", func(r *reading) *string { return &r.Who }),
}

var flawFields = []keyed.Field{
	keyed.WordField("kind", func(f *flaw) *spec.Defect { return &f.Kind }, spec.Defects),
	keyed.WordField("side", func(f *flaw) *spec.Side { return &f.Side }, spec.Sides),
	keyed.SizeField("size", func(f *flaw) *quantity.Length { return &f.Size }),
	keyed.SizeField("depth", func(f *flaw) *quantity.Length { return &f.Depth }),
	keyed.CountField("count", func(f *flaw) *int { return &f.Count }),
	keyed.SizeField("area", func(f *flaw) *quantity.Area { return &f.Area }),
	keyed.TextField("place", func(f *flaw) *string { return &f.Place }),
	keyed.FlagField("repaired", func(f *flaw) *bool { return &f.Repaired }),
}

var decisionFields = []keyed.Field{
	keyed.WordField("outcome", func(d *decision) *record.Outcome { return &d.Outcome }, record.Outcomes),
	keyed.TextField("who", func(d *decision) *string { return &d.Who }),
	timeField("when", func(d *decision) *time.Time { return &d.When }),
	keyed.TextField("why", func(d *decision) *string { return &d.Why }),
}

var struckFields = []keyed.Field{
	{Key: "entry", What: "the number of the entry taken back, counted from 1 in the order of the file",
		Set: func(row, value any) string {
			n, wrong := keyed.Whole(value)
			row.(*struck).Of = n
			return wrong
		},
		Get: func(row any) (string, bool) { return fmt.Sprint(row.(*struck).Of), true }},
	keyed.TextField("who", func(s *struck) *string { return &s.Who }),
	keyed.TextField("why", func(s *struck) *string { return &s.Why }),
}

// timeField is a point in time, as a TOML date-time with its offset.
func timeField[T any](key string, at func(*T) *time.Time) keyed.Field {
	return keyed.Field{Key: key, What: "a date and time such as 2026-03-02T07:15:00Z",
		Set: func(row, value any) string {
			t, ok := value.(time.Time)
			if !ok {
				return "a date and time such as 2026-03-02T07:15:00Z is expected, not " + keyed.KindOf(value)
			}
			*at(row.(*T)) = t
			return ""
		},
		Get: func(row any) (string, bool) {
			t := *at(row.(*T))
			return t.Format(time.RFC3339), !t.IsZero()
		}}
}

func readingValue(r *record.Reading) (string, bool) {
	switch r.Kind {
	case record.WallThickness:
		return keyed.TOMLText(r.Thickness.Text()), r.Thickness.Given()
	case record.Barcol:
		return keyed.TOMLNumber(r.Value), true
	case record.Acetone:
		if r.Clean {
			return keyed.TOMLText("clean"), true
		}
		return keyed.TOMLText("tacky"), true
	case record.ResistanceToGround:
		return keyed.TOMLText(r.Resistance.Text()), r.Resistance.Given()
	case record.NoKind, record.IgnitionLoss:
	}
	return "", false
}

// take puts the value where the kind of reading wants it.
func (r *reading) take() (key, wrong string) {
	text, isText := r.value.(string)
	bad := func(err error) (string, string) {
		if err != nil {
			return "value", err.Error()
		}
		return "", ""
	}
	if r.value == nil && r.Kind != record.IgnitionLoss && r.Kind != record.NoKind {
		return "value", "it is missing"
	}
	switch r.Kind {
	case record.WallThickness:
		if !isText {
			return "value", "a thickness with its unit is expected, such as \"0.31 in\", not " + keyed.KindOf(r.value)
		}
		if err := quantity.Read(&r.Thickness, text); err != nil {
			return bad(err)
		}
		if r.Thickness.SI() <= 0 || r.Thickness.SI() > 1 {
			return "value", keyed.Quoted(text) + " is not above 0 and at most 1 m"
		}
	case record.Barcol:
		v, wrong := keyed.Number(r.value)
		if wrong == "" && !(v >= 0 && v <= 100) {
			wrong = "the Barcol scale runs from 0 to 100"
		}
		r.Value = v
		if wrong != "" {
			return "value", wrong
		}
	case record.Acetone:
		words := []string{"clean", "softened", "tacky"}
		switch text {
		case "clean":
			r.Clean = true
		case "softened", "tacky":
		default:
			if !isText {
				return "value", "one of clean, softened, tacky is expected, not " + keyed.KindOf(r.value)
			}
			return "value", keyed.WrongWord(text, words)
		}
	case record.ResistanceToGround:
		if !isText {
			return "value", "a resistance with its unit is expected, such as \"4 Mohm\", not " + keyed.KindOf(r.value)
		}
		if err := quantity.Read(&r.Resistance, text); err != nil {
			return bad(err)
		}
		if r.Resistance.SI() < 0 {
			return "value", "it is below 0"
		}
	case record.IgnitionLoss:
		switch {
		case !r.Before.Given():
			return "before", "it is missing: the specimen's mass before ignition"
		case !r.After.Given():
			return "after", "it is missing: the specimen's mass after ignition"
		case r.Before.SI() <= 0:
			return "before", "it is not above 0"
		case r.After.SI() < 0 || r.After.SI() > r.Before.SI():
			return "after", "it is not between 0 and the mass before"
		case !r.zoned:
			return "zone", "it is missing: what the specimen held, for example barrier"
		}
	case record.NoKind:
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
	whole := WholeEntries(b)
	if whole == 0 || whole == len(b) {
		return nil, "", problems
	}
	r, again := decodeRecord(b[:whole])
	if r == nil || len(again) > 0 {
		return nil, "", problems
	}
	line, _ := keyed.Place(b, whole)
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
		p := Problem{Key: keyed.Name(&recordTables[table], key), Message: message}
		p.Line, p.Column = keyed.Place(src.doc.Data, max(0, src.doc.Offset(table, row, key)))
		for i := range problems {
			if problems[i].Line == p.Line && problems[i].Key == p.Key {
				return // that value is told already
			}
		}
		problems = append(problems, p)
	}
	if h := d.ScheduleSHA256; h != "" && !hexSum.MatchString(h) {
		fail(0, 0, "schedule_sha256", "64 hexadecimal digits are expected")
	}
	for i := range d.readings {
		if key, wrong := d.readings[i].take(); wrong != "" {
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
	for i, x := range d.Decisions {
		if x.Outcome == record.NoOutcome {
			fail(decisionTable, i, "outcome", "it is missing")
		}
	}
	src.number(d, fail)
	problems = append(problems, src.strange(recordTables, "remark", "why")...)
	if len(problems) > 0 {
		return nil, keyed.Sorted(problems)
	}
	return &d.Record, nil
}

var hexSum = regexp.MustCompile(`^[0-9A-Fa-f]{64}$`)

// number counts the entries in the order of the file and strikes those that a
// later entry takes back.
func (s *Source) number(d *recordDocument, fail func(table, row int, key, message string)) {
	var entries []*record.Entry
	var seen [struckTable + 1]int
	for _, h := range s.doc.Out.Heads {
		var e *record.Entry
		switch h.Table {
		case laidTable:
			e = &d.Laid[h.Row].Entry
		case readingTable:
			e = &d.Readings[h.Row].Entry
		case defectTable:
			e = &d.Defects[h.Row].Entry
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
		e.Line, _ = keyed.Place(s.doc.Data, h.Start)
	}
	for t := laidTable; t <= struckTable; t++ {
		if seen[t] < recordTables[t].Rows(d) {
			fail(t, 0, "", fmt.Sprintf("an entry is a [[%s]] table of its own, so that the order is told", recordTables[t].Name))
		}
	}
}

// WholeEntries says how many leading bytes of a record are whole: up to and
// with the last empty line, which ends an entry.
func WholeEntries(b []byte) int {
	if at := bytes.LastIndex(b, []byte("\n\n")); at >= 0 {
		return at + 2
	}
	return 0
}

// RecordHead is the beginning of a new record, to which entries are added.
func RecordHead(r *record.Record) []byte {
	return appendEntry(nil, "", recordTables[0].Fields, r)
}

// RecordEntry writes one entry as it is added to a record: a table of one line
// a key and the empty line that ends it. entry is a *record.Laid,
// *record.Reading, *record.Defect, *record.Decision or *record.Struck.
func RecordEntry(entry any) ([]byte, error) {
	switch e := entry.(type) {
	case *record.Laid:
		return appendEntry(nil, "laid", laidFields, e), nil
	case *record.Reading:
		return appendEntry(nil, "reading", readingFields, &reading{Reading: *e}), nil
	case *record.Defect:
		seen := *e
		seen.Count = max(seen.Count, 1)
		return appendEntry(nil, "defect", flawFields, &seen), nil
	case *record.Decision:
		return appendEntry(nil, "decision", decisionFields, e), nil
	case *record.Struck:
		return appendEntry(nil, "struck", struckFields, e), nil
	}
	return nil, fmt.Errorf("a record has no entry of type %T", entry)
}

func appendEntry(b []byte, title string, fields []keyed.Field, row any) []byte {
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
