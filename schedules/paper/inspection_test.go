package paper

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
)

// What is asked of a ply as it is laid stands in the report.
func TestInspectionReport_hasWhatWasEnteredOfAPly(t *testing.T) {
	of := Inspected{Judged: &rules.Report{Analysis: &laminate.Analysis{}}, Built: &record.Record{Laid: []record.Laid{{Ply: 1, MaterialLot: "M-1", ResinLot: "R-1",
		Initiator: laminate.Some(0.015), Promoter: laminate.Some(0.003), GelTime: "24 min", Humidity: laminate.Some(0.5), Remark: "dry spot"}}}}
	row := strings.Join(of.layup().Rows[0].Cells, "|")
	for _, want := range []string{"M-1", "R-1", "1.5 %|0.3 %", "24 min", "humidity 50 %", "dry spot"} {
		if !strings.Contains(row, want) {
			t.Errorf("%q is not in %s", want, row)
		}
	}
	if n, titles := len(of.layup().Rows[0].Cells), len(of.layup().Columns); n != titles {
		t.Errorf("%d cells under %d titles", n, titles)
	}
}
