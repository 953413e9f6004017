package paper

import (
	"encoding/csv"
	"frp/veilwright/laminate/word"
	"io"
	"strings"
)

// CSV writes the tables of a sheet, the titles first, for a spreadsheet. A cell
// that one would take for a formula begins with an apostrophe.
func CSV(w io.Writer, sheet Sheet) error {
	out := csv.NewWriter(w)
	var rows [][]string
	for _, b := range sheet {
		t, ok := b.(Table)
		if !ok {
			continue
		}
		titles := make([]string, len(t.Columns))
		for i, c := range t.Columns {
			titles[i] = word.Clean(c.Title)
		}
		rows = append(rows, titles)
		for _, r := range t.Rows {
			given := r.Cells
			if r.Band != "" {
				given = make([]string, len(t.Columns))
				given[0] = r.Band
			}
			cells := make([]string, len(given))
			for i, c := range given {
				if cells[i] = word.Clean(strings.ReplaceAll(c, "\n", "; ")); cells[i] != "" && strings.ContainsRune("=+-@", rune(cells[i][0])) {
					cells[i] = "'" + cells[i]
				}
			}
			rows = append(rows, cells)
		}
	}
	return out.WriteAll(rows)
}
