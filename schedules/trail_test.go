package schedules

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"

	"pgregory.net/rapid"
)

// by is who enters, at a minute of a morning.
func by(minute int) record.Entry {
	return record.Entry{At: time.Date(2026, 3, 2, 7, minute, 0, 0, time.UTC), Who: "Q. One", Role: "inspector"}
}

// sealed is a record of these entries as the program writes it.
func sealed(entries ...record.Any) []byte {
	return goingOn(RecordHead(&record.Record{Schedule: "drain.toml", Serial: "D-17"}), entries...)
}

// goingOn is a record with more entries.
func goingOn(b []byte, entries ...record.Any) []byte {
	for _, e := range entries {
		r, _, problems := DecodeRecord(b)
		if len(problems) > 0 {
			panic(fmt.Sprint(problems))
		}
		b = slices.Concat(b, SealEntry(e, r.Trail.Last))
	}
	return b
}

func thick(minute int, mil float64) *record.Reading {
	return &record.Reading{Entry: by(minute), Kind: inspection.WallThickness, Place: "A1", Thickness: quantity.New(mil, quantity.Mil).Spelled(quantity.Mil)}
}

func five() []byte {
	b := sealed(&record.Laid{Entry: by(0), Ply: 1}, thick(10, 236), thick(11, 60))
	r, _, _ := DecodeRecord(b)
	return goingOn(b, &record.Struck{Entry: by(12), OfID: r.Readings[1].ID, Why: "gauge not set to zero"}, &record.Decision{Entry: by(20), Outcome: record.Accept, Why: "all met"})
}

func trail(t *testing.T, b []byte) *record.Trail {
	t.Helper()
	r, torn, problems := DecodeRecord(b)
	if len(problems) > 0 || torn != "" {
		t.Fatalf("%q %v\n%s", torn, problems, b)
	}
	return &r.Trail
}

// block cuts out the nth entry, from 1.
func block(b []byte, n int) (before, entry, after string) {
	parts := strings.SplitAfter(string(b), "\n\n")
	return strings.Join(parts[:n], ""), parts[n], strings.Join(parts[n+1:], "")
}

// What is no part of what an entry says may be changed: spelling of the file, not of the entries.
func TestTrail_commentsBlanksAndLineEndsChangeNothing(t *testing.T) {
	b := five()
	for what, text := range map[string]string{
		"as written":  string(b),
		"CRLF":        strings.ReplaceAll(string(b), "\n", "\r\n"),
		"comments":    strings.ReplaceAll(string(b), "\n\n", "\n# looked at\n\n"),
		"blanks":      strings.ReplaceAll(string(b), " = ", "   =  "),
		"empty lines": strings.ReplaceAll(string(b), "\n\n", "\n\n\n\n"),
		"no last one": strings.TrimRight(string(b), "\n") + "\n",
	} {
		if tr := trail(t, []byte(text)); !tr.Sound() || tr.Sealed != 5 {
			t.Errorf("%s: %+v", what, tr)
		}
	}
}

// Each kind of tampering with an entry in the middle, and the first entry that
// shows it.
func TestTrail_everyTamperingIsFoundAtTheFirstEntryThatDoesNotFollow(t *testing.T) {
	b := five()
	before2, two, after2 := block(b, 2)
	before3, three, after3 := block(b, 3)
	before4, _, after4 := block(b, 4)
	forged := SealEntry(thick(9, 240), record.Sum{})
	for what, c := range map[string]struct {
		text  string
		first int
	}{
		"a value changed":     {before2 + strings.Replace(two, "236 mil", "286 mil", 1) + after2, 2},
		"a time changed":      {before2 + strings.Replace(two, "07:10", "07:09", 1) + after2, 2},
		"a name changed":      {before2 + strings.Replace(two, "Q. One", "Q. Two", 1) + after2, 2},
		"a key added":         {before2 + strings.Replace(two, "seal =", "witness = \"P. One\"\nseal =", 1) + after2, 2},
		"a key removed":       {before2 + strings.Replace(two, "place = \"A1\"\n", "", 1) + after2, 2},
		"another id":          {before2 + regexp.MustCompile(`id = "......`).ReplaceAllString(two, `id = "000000`) + after2, 2},
		"removed":             {before2 + after2, 2},
		"a strike removed":    {before4 + after4, 4},
		"what is struck gone": {before3 + after3, 3},
		"reordered":           {before2 + three + two + after3, 2},
		"put in":              {before2 + string(forged) + two + after2, 2},
		"twice":               {before2 + two + two + after2, 3},
		"its seal taken away": {before2 + regexp.MustCompile(`seal = .*\n`).ReplaceAllString(two, "") + after2, 2},
		"head changed":        {strings.Replace(string(b), "D-17", "D-18", 1), 1},
	} {
		tr := trail(t, []byte(c.text))
		if len(tr.Breaks) == 0 || tr.Breaks[0].Number != c.first {
			t.Errorf("%s: %+v", what, tr.Breaks)
		}
	}
	// Both id and seal taken away: an entry without a seal, which nobody adopted,
	// and what follows does not follow it unless it still says the same.
	bare := regexp.MustCompile(`(id|seal) = "[0-9a-f]{8,}"\n`).ReplaceAllString(two, "")
	if tr := trail(t, []byte(before2+bare+after2)); len(tr.Breaks) > 0 || !slices.Equal(tr.Unsealed, []int{2}) {
		t.Errorf("without seal: %+v", tr)
	}
	if tr := trail(t, []byte(before2+strings.Replace(bare, "236", "286", 1)+after2)); len(tr.Breaks) == 0 || tr.Breaks[0].Number != 3 {
		t.Errorf("changed, without seal: %+v", tr)
	}
	// An entry sealed properly behind an earlier one is a copy that nobody joined.
	r, _, _ := DecodeRecord(b)
	var seal record.Sum
	copy(seal[:], mustHex(t, r.Laid[0].Seal))
	if tr := trail(t, []byte(before2+string(SealEntry(thick(9, 240), seal))+two+after2)); tr.Sound() || len(tr.Loose) != 2 {
		t.Errorf("put in with its seal: %+v", tr)
	}
}

func mustHex(t *testing.T, s string) []byte {
	t.Helper()
	var b []byte
	if _, err := fmt.Sscanf(s, "%x", &b); err != nil {
		t.Fatal(err)
	}
	return b
}

// Any change of any digit or letter of an entry's values is found.
func TestTrail_anyChangeOfAValueIsFound(t *testing.T) {
	b := five()
	values := regexp.MustCompile(`(?m)^(place|value|who|role|why|at|outcome|ply|serial) = (.*)$`).FindAllSubmatchIndex(b, -1)
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SampledFrom(values).Draw(t, "value")
		at := rapid.IntRange(v[4], v[5]-1).Draw(t, "at")
		changed := slices.Clone(b)
		changed[at] = rapid.SampledFrom([]byte("0123456789abcXYZ .")).Draw(t, "character")
		r, _, problems := DecodeRecord(changed)
		if r == nil || len(problems) > 0 || bytes.Equal(changed, b) {
			return // it cannot be read, which is told, or is no change
		}
		plain, _, _ := DecodeRecord(b)
		said := func(r *record.Record) string {
			text := string(RecordHead(r))
			for _, e := range r.Entries() {
				text += string(RecordEntry(e))
			}
			return text
		}
		if said(r) != said(plain) && r.Trail.Sound() {
			t.Fatalf("not found: %q", changed[v[0]:v[1]])
		}
	})
}

// Today's records have no seals: they are read, and wait for somebody named.
func TestTrail_entriesWithoutASealWaitUntilSomebodyAdoptsThem(t *testing.T) {
	b := []byte("document = \"record\"\nformat = 1\n\n[[laid]]\nply = 1\ntime = 2026-03-02T07:15:00Z\n\n[[struck]]\nentry = 1\nwhy = \"slip\"\n\n")
	if tr := trail(t, b); len(tr.Breaks) > 0 || !slices.Equal(tr.Unsealed, []int{1, 2}) {
		t.Fatalf("%+v", tr)
	}
	b = goingOn(b, thick(10, 236))
	if tr := trail(t, b); !slices.Equal(tr.Unsealed, []int{1, 2}) || tr.Sealed != 1 {
		t.Fatalf("after a sealed one: %+v", tr)
	}
	b = goingOn(b, &record.Adopted{Entry: by(12), Why: "the shift's notes"})
	if tr := trail(t, b); !tr.Sound() {
		t.Fatalf("adopted: %+v", tr)
	}
	// From now on they are sealed as well.
	if tr := trail(t, bytes.Replace(b, []byte("ply = 1"), []byte("ply = 2"), 1)); len(tr.Breaks) == 0 || tr.Breaks[0].Number != 3 {
		t.Errorf("changed afterwards: %+v", tr)
	}
	if tr := trail(t, append(b, "[[adopted]]\nwho = \"forger\"\n\n[[laid]]\nply = 2\n\n"...)); len(tr.Unsealed) != 2 {
		t.Errorf("an adoption without a seal adopts: %+v", tr)
	}
}

// Two copies that went separate ways: QA strikes a typing error, QB takes two
// readings. Put together, the strike is of the typing error and of nothing else.
func TestJoin_keepsBothCopiesAndEachStrikeItsEntry(t *testing.T) {
	base := sealed(&record.Laid{Entry: by(0), Ply: 1}, thick(1, 240))
	qa := goingOn(base, thick(10, 3031))
	r, _, _ := DecodeRecord(qa)
	qa = goingOn(qa, &record.Struck{Entry: by(11), OfID: r.Readings[1].ID, Why: "77 mm was 7.7"}, thick(12, 303))
	qb := goingOn(base, thick(10, 232), thick(11, 303))
	// As one resolves a conflict by hand: both ends, one behind the other.
	merged := slices.Concat(qb, qa[len(base):])
	tr := trail(t, merged)
	if len(tr.Breaks) > 0 || !slices.Equal(tr.Loose, []int{4, 7}) {
		t.Fatalf("merged by hand: %+v", tr)
	}
	for what, make := range map[string]func() ([]byte, error){
		"two files": func() ([]byte, error) { return JoinRecords(qa, qb, by(30), "the network was down") },
		"other way": func() ([]byte, error) { return JoinRecords(qb, qa, by(30), "the network was down") },
		"by hand":   func() ([]byte, error) { return JoinRecord(merged, by(30), "the network was down") },
	} {
		joined, err := make()
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		r, _, problems := DecodeRecord(joined)
		if len(problems) > 0 || !r.Trail.Sound() || len(r.Entries()) != 8 || len(r.Joined) != 1 {
			t.Errorf("%s: %v %+v\n%s", what, problems, r.Trail, joined)
			continue
		}
		for _, reading := range r.Readings {
			if reading.Struck != (reading.Thickness.In(quantity.Mil) > 3000) {
				t.Errorf("%s: %s struck: %v", what, reading.Thickness.Text(), reading.Struck)
			}
		}
		// Nothing gets between the copies and their joining.
		if tr := trail(t, bytes.Replace(joined, []byte("232 mil"), []byte("242 mil"), 1)); len(tr.Breaks) == 0 {
			t.Errorf("%s: a change before the joining is not found", what)
		}
	}
	if whole, err := JoinRecords(base, qa, by(30), ""); err != nil || !bytes.Equal(whole, qa) {
		t.Errorf("a copy that only goes on is the answer: %v", err)
	}
	if _, err := JoinRecords(base, sealed(), by(30), ""); err != nil {
		t.Errorf("the beginning: %v", err)
	}
	other := goingOn(RecordHead(&record.Record{Schedule: "other.toml"}), thick(1, 240))
	if _, err := JoinRecords(base, other, by(30), ""); err == nil || !strings.Contains(err.Error(), "heads differ") {
		t.Errorf("records of two parts were joined: %v", err)
	}
	if _, err := JoinRecord(base, by(30), ""); err == nil {
		t.Error("nothing was joined")
	}
}

// Where both copies go on with an entry by hand, nobody can tell whether the second
// was made behind the first: each is adopted first, and then they are joined.
func TestJoin_copiesThatGoOnByHandAreAdoptedFirst(t *testing.T) {
	base := sealed(&record.Laid{Entry: by(0), Ply: 1})
	byHand := func(value string) []byte {
		return append(slices.Clone(base), "[[reading]]\nkind = \"thickness\"\nplace = \"A1\"\nvalue = \""+value+"\"\nat = 2026-03-02T08:00:00Z\n\n"...)
	}
	a, b := byHand("240 mil"), byHand("232 mil")
	if _, err := JoinRecords(a, b, by(30), "two shifts"); err == nil || !strings.Contains(err.Error(), "both go on with an entry without a seal (lines 14 and 14)") {
		t.Errorf("%v", err)
	}
	c := goingOn(b, &record.Adopted{Entry: by(21), Why: "so did I"})
	if _, err := JoinRecords(b, c, by(30), "two shifts"); err != nil {
		t.Errorf("a copy that only goes on: %v", err)
	}
	if _, err := JoinRecords(c, a, by(30), "two shifts"); err == nil {
		t.Error("one of them was not adopted")
	}
	a = goingOn(a, &record.Adopted{Entry: by(20), Why: "I took it"}, thick(25, 238))
	for what, pair := range map[string][2][]byte{"one way": {a, c}, "the other": {c, a}} {
		joined, err := JoinRecords(pair[0], pair[1], by(30), "two shifts")
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		tr := trail(t, joined)
		if !tr.Sound() || tr.Sealed != 5 {
			t.Errorf("%s: %+v", what, tr)
		}
		for _, value := range []string{"240 mil", "232 mil"} {
			if tr := trail(t, bytes.Replace(joined, []byte(value), []byte("241 mil"), 1)); len(tr.Breaks) == 0 {
				t.Errorf("%s: %s changed after it was adopted, and not found", what, value)
			}
		}
	}
}

// Who adopts what stands in one copy has not seen what stands in the other.
func TestJoin_anAdoptionSpeaksOfItsOwnCopyOnly(t *testing.T) {
	base := sealed(&record.Laid{Entry: by(0), Ply: 1})
	byHand := []byte("[[reading]]\nkind = \"thickness\"\nplace = \"A1\"\nvalue = \"232 mil\"\nat = 2026-03-02T08:00:00Z\n\n")
	a := append(goingOn(base, thick(10, 240)), byHand...)
	b := goingOn(append(goingOn(base, thick(11, 238)), byHand...), &record.Adopted{Entry: by(21), Why: "so did I"})
	joined, err := JoinRecords(a, b, by(30), "two shifts")
	if err != nil {
		t.Fatal(err)
	}
	if tr := trail(t, joined); !slices.Equal(tr.Unsealed, []int{3}) {
		t.Errorf("%+v\n%s", tr, joined)
	}
	if tr := trail(t, goingOn(joined, &record.Adopted{Entry: by(40), Why: "seen"})); !tr.Sound() {
		t.Errorf("adopted behind the joining: %+v", tr)
	}
}

// A sealed entry that is cut anywhere is not taken for a whole one: its seal,
// which stands last, is missing.
func TestDecodeRecord_aCutSealedEntryIsTornWhereverItIsCut(t *testing.T) {
	b := five()
	last := bytes.LastIndex(b, []byte("[[decision]]"))
	for cut := last + len("[[decision]]\nid = \"000000000000\"") - 12; cut < len(b)-2; cut++ {
		r, torn, problems := DecodeRecord(b[:cut])
		if len(problems) > 0 || torn == "" || len(r.Decisions) > 0 || !r.Trail.Sound() {
			t.Fatalf("cut at %q: torn %q, %v", b[last:cut], torn, problems)
		}
	}
	zeros := append(slices.Clone(b), make([]byte, 512)...)
	if r, torn, problems := DecodeRecord(zeros); len(problems) > 0 || torn == "" || len(r.Decisions) != 1 {
		t.Errorf("zeros behind a whole entry: %q %v", torn, problems)
	}
}
