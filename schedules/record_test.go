package schedules

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"

	"pgregory.net/rapid"
)

const sum = "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff"

func whole9(t *testing.T) []byte {
	t.Helper()
	b := RecordHead(&record.Record{Schedule: "drain.toml", ScheduleRevision: laminate.Some(3), ScheduleSHA256: sum, Serial: "D-17"})
	at := time.Date(2026, 3, 2, 7, 15, 0, 0, time.UTC)
	for _, e := range []record.Any{
		&record.Laid{Entry: record.Entry{At: at, Who: "second shift"}, Ply: 1, MaterialLot: "m-1", ResinLot: "r-1", Initiator: laminate.Some(0.015), GelTime: "22 min",
			AirTemperature: quantity.New(68, quantity.Fahrenheit).Spelled(quantity.Fahrenheit), Humidity: laminate.Some(0.5), Remark: "two\n\nlines \"quoted\""},
		&record.Reading{Kind: inspection.WallThickness, Place: "ring 1", Thickness: quantity.New(0.31, quantity.Inch).Spelled(quantity.Inch)},
		&record.Reading{Kind: inspection.Barcol, Value: 33},
		&record.Reading{Kind: inspection.IgnitionLoss, Group: inspection.Barrier, Before: quantity.New(5, quantity.Gram), After: quantity.New(1.4, quantity.Gram)},
		&record.Reading{Kind: inspection.Acetone, Clean: true},
		&record.Reading{Kind: inspection.ResistanceToGround, Resistance: quantity.New(4, quantity.Megohm)},
		&record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: quantity.New(2, quantity.Millimetre), Place: "north"},
		&record.Struck{Entry: record.Entry{Who: "day shift"}, Of: 2, Why: "gauge not set to zero"},
		&record.Decision{Entry: record.Entry{At: at, Who: "inspector"}, Outcome: record.Accept, Why: "all met"},
	} {
		b = append(b, RecordEntry(e)...)
	}
	return b
}

func TestDecodeRecord_readsWhatEntriesWrite(t *testing.T) {
	b := whole9(t)
	r, torn, problems := DecodeRecord(b)
	if len(problems) > 0 || torn != "" {
		t.Fatalf("%v %q\n%s", problems, torn, b)
	}
	switch {
	case r.Schedule != "drain.toml" || r.ScheduleSHA256 != sum || r.ScheduleRevision.Value != 3 || r.Serial != "D-17":
		t.Errorf("head %+v", r)
	case r.Laid[0].Remark != "two\n\nlines \"quoted\"" || r.Laid[0].AirTemperature.Text() != "68 degF" || r.Laid[0].Number != 1:
		t.Errorf("laid %+v", r.Laid[0])
	case !r.Readings[0].Struck || r.Readings[0].Number != 2 || r.Readings[0].Thickness.Text() != "0.31 in":
		t.Errorf("reading 1 %+v", r.Readings[0])
	case r.Readings[1].Value != 33 || r.Readings[1].Struck:
		t.Errorf("reading 2 %+v", r.Readings[1])
	case r.Readings[2].Group != inspection.Barrier || r.Readings[2].Before.In(quantity.Gram) != 5:
		t.Errorf("reading 3 %+v", r.Readings[2])
	case !r.Readings[3].Clean || r.Readings[4].Resistance.In(quantity.Megohm) != 4:
		t.Errorf("readings %+v", r.Readings)
	case r.Defects[0].Count != 1 || r.Decisions[0].Outcome != record.Accept || r.Decisions[0].Number != 9:
		t.Errorf("%+v %+v", r.Defects, r.Decisions)
	}
}

// entriesOf is how many entries of each kind a record has.
func entriesOf(r *record.Record) [5]int {
	return [5]int{len(r.Laid), len(r.Readings), len(r.Defects), len(r.Decisions), len(r.Struck)}
}

// A power cut leaves any prefix of the last entry.
func TestDecodeRecord_cutAnywhereKeepsWholeEntries(t *testing.T) {
	b := whole9(t)
	last := bytes.LastIndex(b, []byte("[[decision]]"))
	for cut := last; cut < len(b); cut++ {
		r, _, problems := DecodeRecord(b[:cut])
		if len(problems) > 0 {
			t.Fatalf("cut at %d: %v\n%s", cut, problems, b[last:cut])
		}
		if len(r.Readings) != 5 || len(r.Defects) != 1 || len(r.Struck) != 1 {
			t.Fatalf("cut at %d lost a whole entry", cut)
		}
	}
	// Reading and recovery go by one rule.
	for cut := range len(b) {
		r, torn, problems := DecodeRecord(b[:cut])
		whole := WholeEntries(b[:cut])
		if again, _, more := DecodeRecord(b[:whole]); len(problems) == 0 && ((torn == "") != (whole == cut) || len(more) > 0 || entriesOf(r) != entriesOf(again)) {
			t.Fatalf("cut at %d: torn %q, whole %d, %v", cut, torn, whole, more)
		}
	}
	_, torn, _ := DecodeRecord(b[:last+len("[[decision]]\nout")])
	if !strings.Contains(torn, "half-written") {
		t.Errorf("a torn entry must be told: %q", torn)
	}
}

func TestDecodeRecord_tellsTheLine(t *testing.T) {
	head := "document = \"record\"\nformat = 1\n"
	for _, c := range []struct {
		text string
		line int
		key  string
	}{
		{"schedule_sha256 = \"abc\"\n", 3, "schedule_sha256"},
		{"[[laid]]\nwho = \"x\"\n", 3, "laid.ply"},
		{"[[laid]]\nply = 0\n", 4, "laid.ply"},
		{"[[laid]]\nply = 1\nhumidity = 55\n", 5, "laid.humidity"},
		{"[[laid]]\nply = 1\ntime = \"noon\"\n", 5, "laid.time"},
		{"[[reading]]\nvalue = 3\n", 3, "reading.kind"},
		{"[[reading]]\nkind = \"thickness\"\nvalue = 3\n", 5, "reading.value"},
		{"[[reading]]\nkind = \"thickness\"\nvalue = \"3 psi\"\n", 5, "reading.value"},
		{"[[reading]]\nkind = \"thickness\"\n", 3, "reading.value"},
		{"[[reading]]\nkind = \"barcol\"\nvalue = 130\n", 5, "reading.value"},
		{"[[reading]]\nkind = \"acetone\"\nvalue = \"fine\"\n", 5, "reading.value"},
		{"[[reading]]\nkind = \"ignition-loss\"\nzone = \"barrier\"\nbefore = \"5 g\"\nafter = \"6 g\"\n", 7, "reading.after"},
		{"[[reading]]\nkind = \"ignition-loss\"\nbefore = \"5 g\"\nafter = \"1 g\"\n", 3, "reading.zone"},
		{"[[defect]]\nsize = \"1 mm\"\n", 3, "defect.kind"},
		{"[[decision]]\nwho = \"x\"\n", 3, "decision.outcome"},
		{"[[laid]]\nply = 1\nwho = \"\\u001b[31m\"\n\n", 5, "laid.who"},
		{"serial = \"a\\u202eb\"\n", 3, "serial"},
		{"[[struck]]\nentry = 1\nwhy = \"y\"\n", 4, "struck.entry"},
		{"[[laid]]\nply = 1\n[[struck]]\nentry = 1\n", 5, "struck.why"},
	} {
		r, _, problems := DecodeRecord([]byte(head + c.text))
		if r != nil || len(problems) != 1 || problems[0].Line != c.line || problems[0].Key != c.key {
			t.Errorf("%q: %v, want line %d key %s", c.text, problems, c.line, c.key)
		}
	}
}

func TestRecordEntry_neverHoldsAnEmptyLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.ToValidUTF8(rapid.StringMatching(`[a-z"\\\n\t ]{0,40}`).Draw(t, "remark"), "")
		entry := RecordEntry(&record.Laid{Ply: 1, Remark: text})
		if WholeEntries(entry) != len(entry) || bytes.Count(entry, []byte("\n\n")) != 1 {
			t.Fatalf("entry %q", entry)
		}
		r, _, problems := DecodeRecord(append(RecordHead(&record.Record{}), entry...))
		if len(problems) > 0 || r.Laid[0].Remark != text {
			t.Fatalf("wrote %q: %v", text, problems)
		}
	})
}

func FuzzDecodeRecord(f *testing.F) {
	f.Add([]byte("document = \"record\"\nformat = 1\n\n[[laid]]\nply = 1\ntime = 2026-03-02T07:15:00Z\n\n[[struck]]\nentry = 1\nwhy = \"x\"\n\n"))
	f.Add([]byte("document = \"record\"\nformat = 1\nlaid = [{ply = 1}]\n"))
	f.Add([]byte("document = \"record\"\nformat = 1\n\n[[reading]]\nkind = \"acetone\"\nvalue = \"clean\"\n\n[[rea"))
	whole := five()
	f.Add(whole)
	sound, _, _ := DecodeRecord(whole)
	f.Add(bytes.Replace(whole, []byte("60"), []byte("160"), 1))
	f.Add(whole[:len(whole)/2])
	f.Fuzz(func(t *testing.T, b []byte) {
		r, _, problems := DecodeRecord(b)
		if (r == nil) != (len(problems) > 0) {
			t.Fatalf("record %v with problems %v", r != nil, problems)
		}
		if r == nil {
			return
		}
		// Nobody comes upon a seal: what follows unchanged was sealed here.
		if seals := r.Trail.Sound() && len(r.Entries()) > 0; seals && !slices.ContainsFunc(sound.Entries(), func(e record.Any) bool { return e.Head().Seal == r.Entries()[len(r.Entries())-1].Head().Seal }) {
			t.Fatalf("sealed by nobody, and said to be unchanged:\n%s", b)
		}
		if WholeEntries(b) == len(b) {
			next := slices.Concat(b, SealEntry(&record.Laid{Ply: 1}, r.Trail.Last))
			if now, _, problems := DecodeRecord(next); len(problems) == 0 && len(now.Entries()) != len(r.Entries())+1 {
				t.Fatalf("an entry more, and there are %d after %d:\n%s", len(now.Entries()), len(r.Entries()), next)
			}
		}
	})
}
