package schedules

import (
	"testing"

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

// 100,000 entries are to be read in a second. Sealed ones of this length fill the
// 16 MiB of a document with 80,000.
func BenchmarkDecodeRecord(b *testing.B) {
	bare := RecordHead(&record.Record{Schedule: "drain.toml"})
	for i := range 100_000 {
		bare = append(bare, RecordEntry(&record.Reading{Entry: record.Entry{At: by(i).At, Who: "Q. One"}, Kind: inspection.Barcol, Place: "A1", Value: float64(30 + i%9)})...)
	}
	for name, c := range map[string]struct {
		text []byte
		n    int
	}{"100000 without seal": {bare, 100_000}, "80000 sealed": {many(80_000), 80_000}} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				if r, _, problems := DecodeRecord(c.text); len(problems) > 0 || len(r.Readings) != c.n {
					b.Fatal(problems)
				}
			}
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
