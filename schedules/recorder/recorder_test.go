package recorder

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

const sum = "8c7dd922ad47494fc02c388e12c00eac8c7dd922ad47494fc02c388e12c00eac"

func head() *record.Record {
	return &record.Record{Schedule: "drain.toml", ScheduleSHA256: sum, Serial: "D-1"}
}

func begun(t *testing.T) *Record {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	r, err := Begin(filepath.Join(t.TempDir(), "record.toml"), head())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	return r
}

// by is what an entry of somebody begins with.
func by(who string, minute int) record.Entry {
	return record.Entry{At: time.Date(2026, 3, 2, 7, minute, 0, 0, time.UTC), Who: who, Role: "inspector"}
}

func tick(n int) *record.Laid {
	return &record.Laid{Entry: by("first shift", n), Ply: n}
}

func mils(v float64) *record.Reading {
	return &record.Reading{Entry: by("inspector", 0), Kind: inspection.WallThickness, Thickness: quantity.New(v, quantity.Mil).Spelled(quantity.Mil)}
}

func add(t *testing.T, r *Record, entries ...record.Any) {
	t.Helper()
	for _, e := range entries {
		if err := r.Append(e); err != nil {
			t.Fatal(err)
		}
	}
}

func TestAppend_isOnDiskWhenItReturns(t *testing.T) {
	r := begun(t)
	add(t, r, tick(1), mils(210), tick(2))
	sameAsOnDisk(t, r)
	var order []int
	for _, e := range r.Entries() {
		if l, ok := e.(*record.Laid); ok {
			order = append(order, l.Ply)
		} else {
			order = append(order, 0)
		}
	}
	if diff := cmp.Diff([]int{1, 0, 2}, order); diff != "" {
		t.Errorf("entries in another order than entered: %s", diff)
	}
}

// Entries are not all read anew each time, but they say the same as if.
func TestAppend_anyEntriesReadTheSameAsTheFile(t *testing.T) {
	r := begun(t)
	rapid.Check(t, func(rt *rapid.T) {
		for _, what := range rapid.SliceOfN(rapid.IntRange(0, 4), 1, 6).Draw(rt, "entries") {
			n := len(r.Entries())
			switch what {
			case 0:
				add(t, r, tick(1+n%9))
			case 1:
				add(t, r, mils(200+float64(n)))
			case 2:
				add(t, r, &record.Defect{Entry: by("inspector", 0), Kind: spec.Pit, Place: "a \"quoted\" \\ place"})
			case 3:
				add(t, r, &record.Decision{Entry: by("inspector", 0), Outcome: record.Reject})
			case 4:
				if of := rapid.IntRange(0, n+1).Draw(rt, "struck"); r.Strike(of, by("inspector", 0), "slip") == nil && !r.Entry(of).Head().Struck {
					rt.Fatalf("entry %d does not count as struck", of)
				}
			}
		}
		sameAsOnDisk(t, r)
	})
}

// Every kind of entry is there at once, without the file being read again.
func TestAppend_everyKindOfEntry(t *testing.T) {
	r := begun(t)
	at := by("inspector", 0).At
	for _, e := range []record.Any{
		tick(1), mils(300),
		&record.Defect{Entry: by("inspector", 1), Kind: spec.Defects.All()[0], Count: 1},
		&record.Dimension{Entry: by("inspector", 2), What: spec.InsideDiameter, Value: quantity.New(24, quantity.Inch).Spelled(quantity.Inch)},
		&record.Hydrotest{Entry: by("inspector", 3), Medium: record.Water, Pressure: quantity.New(75, quantity.PSI).Spelled(quantity.PSI), Held: "30 min", Leaks: laminate.Some(0)},
		&record.Instrument{Entry: by("inspector", 4), Instrument: "G-1", Calibrated: at},
		&record.PostCure{Entry: by("inspector", 5), Temperature: quantity.New(180, quantity.Fahrenheit).Spelled(quantity.Fahrenheit), Held: "4 h"},
		&record.Hold{Entry: by("inspector", 6), Point: "barrier", Passed: laminate.Some(true)},
		&record.Specimen{Entry: by("inspector", 6), Mark: "D-1/A"}, &record.Photograph{Entry: by("inspector", 6), File: "d-1.jpg"},
		&record.Marked{Entry: by("inspector", 6), Serial: "D-1"},
		&record.Preparation{Entry: by("inspector", 7), Onto: "J1", Abraded: laminate.Some(true), Finish: "36 grit"},
		&record.Bond{Entry: by("inspector", 8), Onto: "J1", Gelled: at, Bonder: "B. One", Qualification: "list 4"},
	} {
		add(t, r, e)
		sameAsOnDisk(t, r)
	}
}

func sameAsOnDisk(t *testing.T, r *Record) {
	t.Helper()
	text, err := os.ReadFile(r.Path())
	if err != nil {
		t.Fatal(err)
	}
	onDisk, torn, problems := schedules.DecodeRecord(text)
	if torn != "" || len(problems) > 0 {
		t.Fatalf("on disk: %q %v", torn, problems)
	}
	if diff := cmp.Diff(onDisk, r.Now(), cmpopts.EquateEmpty(), cmp.Exporter(func(reflect.Type) bool { return true })); diff != "" {
		t.Errorf("disk and program differ: %s", diff)
	}
}

func TestAppend_refusesWhatCouldNotBeReadBack(t *testing.T) {
	r := begun(t)
	add(t, r, tick(1))
	before, edition := r.text, r.Edition()
	for _, bad := range []record.Any{mils(-3), &record.Reading{Entry: by("inspector", 0), Kind: inspection.Barcol, Value: 140}, &record.Laid{Entry: by("inspector", 0)}, &record.Decision{Entry: by("inspector", 0)},
		&record.Laid{Ply: 1}, &record.Laid{Entry: record.Entry{Who: "A", Role: "inspector"}, Ply: 1}} {
		if err := r.Append(bad); err == nil {
			t.Errorf("%+v was recorded", bad)
		}
	}
	now, err := os.ReadFile(r.Path())
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(now, before) || r.Edition() != edition {
		t.Error("a refused entry left its trace")
	}
}

func TestStrike_keepsTheEntryAndNeedsAReason(t *testing.T) {
	r := begun(t)
	add(t, r, mils(210), mils(21))
	for _, bad := range []struct {
		of  int
		why string
	}{{2, " "}, {0, "slip"}, {9, "slip"}} {
		if err := r.Strike(bad.of, by("inspector", 0), bad.why); err == nil {
			t.Errorf("entry %d struck because of %q", bad.of, bad.why)
		}
	}
	if err := r.Strike(2, by("inspector", 0), "decimal point"); err != nil {
		t.Fatal(err)
	}
	if e := r.Entries()[1]; !e.Head().Struck || e.(*record.Reading).Thickness.Text() != "21 mil" {
		t.Errorf("the struck entry is %+v", e)
	}
	for _, again := range []int{2, 3} {
		if err := r.Strike(again, by("inspector", 0), "again"); err == nil {
			t.Errorf("entry %d was struck", again)
		}
	}
}

func TestOpen_putsATornTailAsideAndSaysSo(t *testing.T) {
	r := begun(t)
	add(t, r, tick(1), tick(2))
	path := r.Path()
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	half := "[[laid]]\nply = 3\nti"
	if err := os.WriteFile(path, append(whole, half...), 0o644); err != nil {
		t.Fatal(err)
	}
	again, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if n := len(again.Entries()); n != 3 || !strings.Contains(again.Torn(), "cut short") {
		t.Errorf("%d entries; said %q", n, again.Torn())
	}
	if aside, err := os.ReadFile(path + ".torn-1"); err != nil || string(aside) != half {
		t.Errorf("put aside: %q, %v", aside, err)
	}
	// What was cut off stays told in the record, for good.
	if c := again.Now().Cuts; len(c) != 1 || c[0].Bytes != len(half) || c[0].Aside != "record.toml.torn-1" || c[0].SHA256 != store.SumOf([]byte(half)).String() {
		t.Errorf("the record says of it: %+v", c)
	}
	add(t, again, tick(3))
	if n := len(again.Entries()); n != 4 || !again.Now().Trail.Sound() {
		t.Errorf("%d entries after one more: %+v", n, again.Now().Trail)
	}
}

// A second person may look while one writes, and adds nothing.
func TestOpen_ofARecordInUseLooksAndAddsNothing(t *testing.T) {
	r := begun(t)
	add(t, r, tick(1))
	other, err := Open(r.Path())
	if err != nil || other.Held() == nil {
		t.Fatalf("opened: %v, held %v", err, other.Held())
	}
	if n := len(other.Entries()); n != 1 {
		t.Errorf("%d entries are seen", n)
	}
	if err := other.Append(tick(2)); err == nil {
		t.Error("an entry was added beside the one who writes")
	}
	add(t, r, tick(2))
	if err := errors.Join(r.Close(), other.Close()); err != nil {
		t.Fatal(err)
	}
	again, err := Open(r.Path())
	if err != nil || again.Held() != nil || len(again.Entries()) != 2 {
		t.Fatalf("%v: %d entries, held %v", err, len(again.Entries()), again.Held())
	}
	add(t, again, tick(3))
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
}

// What is read is what is opened: an entry by hand, or by an editor that takes
// empty lines away, is whole however it ends.
func TestOpen_movesNothingThatCanBeRead(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	const text = "document = \"record\"\nformat = 1\n\n[[laid]]\nply = 1\n\n[[reading]]\nkind = \"thickness\"\nvalue = \"231 mil\"\n\n"
	for name, text := range map[string]string{
		"as written":          text,
		"no empty line":       strings.TrimRight(text, "\n") + "\n",
		"no line break":       strings.TrimRight(text, "\n"),
		"a comment":           text + "# seen by the inspector\n",
		"CRLF":                strings.ReplaceAll(text, "\n", "\r\n"),
		"CRLF, no empty line": strings.ReplaceAll(strings.TrimRight(text, "\n")+"\n", "\n", "\r\n"),
		"blanks":              text + "  \n",
	} {
		path := filepath.Join(t.TempDir(), "record.toml")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		r, err := Open(path)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if now, err := os.ReadFile(path); r.Torn() != "" || len(r.Entries()) != 2 || err != nil || string(now) != text {
			t.Errorf("%s: %d entries, %q; the file is %q", name, len(r.Entries()), r.Torn(), now)
		}
		add(t, r, mils(240))
		if err := r.Strike(2, by("inspector", 0), "slip"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if list := r.Now().Readings; len(list) != 2 || !list[0].Struck || list[1].Number != 3 {
			t.Errorf("%s: %+v", name, list)
		}
		sameAsOnDisk(t, r)
		if now, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(now), text) || !regexp.MustCompile(`\n\n\[\[reading\]\]\nid = .*\nkind = "thickness"\nvalue = "240 mil"\n(.+\n)+\n\[\[struck\]\]`).Match(bytes.ReplaceAll(now, []byte("\r"), nil)) {
			t.Errorf("%s: the file is %q", name, now)
		}
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
}

// A file picked by mistake keeps its every byte.
func TestOpen_leavesWhatIsNoRecordAlone(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	for name, text := range map[string]string{
		"schedule": string(schedules.Example()), "nothing": "", "no toml": "x", "broken record": "document = \"record\"\nformat = 1\n\n[[laid]]\nply = 0\n\n",
	} {
		path := filepath.Join(t.TempDir(), "file.toml")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(path); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", name, err)
		}
		if now, err := os.ReadFile(path); err != nil || string(now) != text {
			t.Errorf("%s was changed to %q, %v", name, now, err)
		}
	}
}

func TestBegin_doesNotReplaceAFile(t *testing.T) {
	r := begun(t)
	add(t, r, tick(1))
	if _, err := Begin(r.Path(), head()); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("begun over another: %v", err)
	}
}

func TestAppend_noticesAnotherProgram(t *testing.T) {
	r := begun(t)
	if err := os.WriteFile(r.Path(), []byte("x\n\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := r.Append(tick(1)); err == nil || !strings.Contains(err.Error(), r.Path()) {
		t.Errorf("appended to a file that was replaced: %v", err)
	}
	if len(r.Entries()) != 0 {
		t.Error("the entry counts though it is not on disk")
	}
}

func TestCase_keepsWhatItHasWhereTheNextCannotBeOpened(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	dir := t.TempDir()
	var c Case
	if err := c.Begin(filepath.Join(dir, "a.toml"), head()); err != nil {
		t.Fatal(err)
	}
	first := c.Record()
	if err := c.Open(filepath.Join(dir, "none.toml")); err == nil || c.Record() != first {
		t.Errorf("after a missing file: %v, %p", err, c.Record())
	}
	if err := c.Open(first.Path()); err != nil || c.Record() != first {
		t.Errorf("the same record again: %v", err)
	}
	if err := c.Begin(filepath.Join(dir, "b.toml"), head()); err != nil {
		t.Fatal(err)
	}
	again, err := Open(first.Path())
	if err != nil {
		t.Fatalf("the first was not let go of: %v", err)
	}
	if err := again.Close(); err != nil {
		t.Error(err)
	}
	demands := filepath.Join(dir, "demands.toml")
	if err := os.WriteFile(demands, []byte("document = \"specification\"\nformat = 1\n\n[barrier]\nmat_plies = 2\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := c.Choose(demands); err != nil {
		t.Fatal(err)
	}
	if err := c.Choose(first.Path()); err == nil || !strings.Contains(err.Error(), "takes a specification") {
		t.Errorf("a record as specification: %v", err)
	}
	if s, path := c.Specification(); s == nil || path != demands {
		t.Errorf("specification %v of %s", s, path)
	}
	if err := c.Close(); err != nil || c.Record() != nil {
		t.Errorf("closed: %v", err)
	}
}

func TestOpen_tenThousandReadingsInMixedUnits(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	text := schedules.RecordHead(head())
	for i := range 10_000 {
		value := "5.9 mm"
		if i%2 == 1 {
			value = "0.232 in"
		}
		text = append(text, "[[reading]]\nkind = \"thickness\"\nvalue = \""+value+"\"\n\n"...)
	}
	lines := bytes.Count(text, []byte("\n"))
	path := filepath.Join(t.TempDir(), "many.toml")
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	r, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	add(t, r, mils(231))
	list := r.Now().Readings
	if n := len(list); n != 10_001 || list[n-1].Number != n || list[n-1].Line != lines+1 {
		t.Errorf("%d readings, the last is number %d on line %d", n, list[n-1].Number, list[n-1].Line)
	}
	sameAsOnDisk(t, r)
}
