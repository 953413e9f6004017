package acceptance

import (
	"fmt"
	"testing"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// crowded is a record of n entries of all that is looked up again and again:
// readings at many places, of which some were retested, and defects repaired and
// examined again.
func crowded(n int) *record.Record {
	r := ordered()
	at := time.Date(2026, 3, 9, 8, 0, 0, 0, time.UTC)
	for k := next(r); k < n; k++ {
		e := record.Entry{Number: k, At: at.Add(time.Duration(k) * time.Second), Who: "Q. One", Role: "inspector"}
		place := fmt.Sprintf("A%d", k/8)
		switch k % 8 {
		case 0, 1, 2, 3:
			r.Readings = append(r.Readings, record.Reading{Entry: e, Kind: inspection.Barcol, Place: place, Value: 34})
		case 4:
			r.Dispositions = append(r.Dispositions, record.Disposition{Entry: e, Of: r.Readings[len(r.Readings)-1].Number, Action: record.Retest, Why: "again"})
		case 5:
			r.Defects = append(r.Defects, record.Defect{Entry: e, Kind: spec.Pit, Place: place})
		case 6:
			r.Dispositions = append(r.Dispositions, record.Disposition{Entry: e, Of: r.Defects[len(r.Defects)-1].Number, Action: record.Repair, Why: "ground out"})
		case 7:
			r.Readings = append(r.Readings, record.Reading{Entry: e, Kind: inspection.Visual, Place: place})
		}
	}
	return r
}

// A hundred thousand entries are judged while somebody waits for a key.
func BenchmarkCompare(b *testing.B) {
	for _, n := range []int{1_000, 100_000} {
		r, d := crowded(n), inspected()
		b.Run(fmt.Sprint(n, " entries"), func(b *testing.B) {
			for b.Loop() {
				if compare(header(), d, r).Part != Undetermined {
					b.Fatal("a retest that was not taken is accepted")
				}
			}
		})
	}
}
