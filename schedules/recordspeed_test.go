package schedules

import (
	"bytes"
	"crypto/sha256"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
)

// many is a record of n sealed readings.
func many(n int) []byte {
	b := RecordHead(&record.Record{Schedule: "drain.toml"})
	last := record.Next(record.Sum{}, headContent(&record.Record{Schedule: "drain.toml"}))
	for i := range n {
		r := &record.Reading{Entry: by(i), Kind: inspection.Barcol, Place: "A1", Value: float64(30 + i%9)}
		b = append(b, SealEntry(r, last)...)
		last = record.Next(last, r.Content)
	}
	return b
}

// 100,000 entries are to be read and verified in a second: what it takes beside
// hashing the same bytes.
func BenchmarkDecodeRecord(b *testing.B) {
	bare := RecordHead(&record.Record{Schedule: "drain.toml"})
	for i := range 100_000 {
		bare = append(bare, RecordEntry(&record.Reading{Entry: record.Entry{At: by(i).At, Who: "Q. One"}, Kind: inspection.Barcol, Place: "A1", Value: float64(30 + i%9)})...)
	}
	for name, text := range map[string][]byte{"without seal": bare, "sealed": many(100_000)} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			var hashing time.Duration
			for b.Loop() {
				if r, _, problems := DecodeRecord(text); len(problems) > 0 || len(r.Readings) != 100_000 || len(r.Trail.Breaks) > 0 {
					b.Fatal(problems)
				}
				b.StopTimer()
				start := time.Now()
				sha256.Sum256(text)
				hashing += time.Since(start)
				b.StartTimer()
			}
			b.ReportMetric(float64(b.Elapsed())/float64(hashing), "times-hashing")
		})
	}
}

// Reading takes work in proportion to the entries: what is counted is memory,
// which no busy machine changes, of a record and of one four times as long.
func TestDecodeRecord_takesWorkInProportionToItsEntries(t *testing.T) {
	allocations := func(n int) float64 {
		text := many(n)
		return testing.AllocsPerRun(1, func() {
			if r, _, problems := DecodeRecord(text); len(problems) > 0 || len(r.Readings) != n {
				t.Fatal(problems)
			}
		})
	}
	if one, four := allocations(500), allocations(2000); four > 4.5*one {
		t.Errorf("500 entries take %.0f allocations, 2,000 take %.0f", one, four)
	}
}

// No entry is looked for from the beginning of the file: with 40 MiB before the
// first of 100,000 entries that would be four terabytes to read. The limit is for
// what never ends; a second is usual.
func TestDecodeRecord_readsEachLineOnce(t *testing.T) {
	const entries, limit = 100_000, time.Minute
	text := []byte("document = \"record\"\nformat = 1\nschedule = \"drain.toml\"\n")
	for line := "# " + strings.Repeat("x", 1000) + "\n"; len(text) < 40<<20; {
		text = append(text, line...)
	}
	entry := RecordEntry(&record.Reading{Entry: record.Entry{At: by(0).At, Who: "Q. One"}, Kind: inspection.Barcol, Place: "A1", Value: 30})
	text = append(append(text, '\n'), bytes.Repeat(entry, entries)...)
	read := make(chan []Problem, 1)
	go func() {
		r, _, problems := DecodeRecord(text)
		if problems == nil && len(r.Readings) != entries {
			problems = []Problem{{Message: "some are missing"}}
		}
		read <- problems
	}()
	select {
	case problems := <-read:
		if len(problems) > 0 {
			t.Error(problems[0])
		}
	case <-time.After(limit):
		t.Fatal("it does not end")
	}
}

// A record is not cut off in the middle of a job because it is full: it may have four
// times what other documents may.
func TestDecodeRecord_mayBeLargerThanOtherDocuments(t *testing.T) {
	long := func(size int) []byte { return append(many(2), "#"+strings.Repeat("x", size)+"\n"...) }
	if r, _, problems := DecodeRecord(long(MostBytes)); len(problems) > 0 || len(r.Readings) != 2 {
		t.Error(problems)
	}
	if kind, problems := Sniff(long(MostBytes)); kind != Record || len(problems) > 0 {
		t.Errorf("%s %v", kind, problems)
	}
	if _, _, problems := DecodeRecord(long(MostRecordBytes)); len(problems) != 1 || problems[0].Message != "the file is larger than 64 MiB" {
		t.Error(problems)
	}
	if _, problems := DecodeSpecification(append([]byte("document = \"specification\"\nformat = 1\n#"), long(MostBytes)...)); len(problems) != 1 || problems[0].Message != "the file is larger than 16 MiB" {
		t.Error(problems)
	}
}
