package press_test

import (
	"bytes"
	"testing"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/press"
)

// Whatever text a paper is asked to hold and whatever the width of its table: it
// is written in every form, twice the same, and no control character is in the
// forms that a terminal shows.
func FuzzMake(f *testing.F) {
	f.Add("Header, 24 in", "as laid\nby hand", "=1+1", uint8(3), uint8(4))
	f.Add("管\u202e\x1b[2J\x00", "\xff|`*_<script>\t", "a very long word without any place to break it at all "+string(bytes.Repeat([]byte("W"), 300)), uint8(12), uint8(60))
	f.Fuzz(func(t *testing.T, title, text, cell string, columns, rows uint8) {
		// Long text and large tables have tests of their own: here many are tried.
		title, text, cell = title[:min(len(title), 400)], text[:min(len(text), 400)], cell[:min(len(cell), 100)]
		table := paper.Table{}
		for range columns%16 + 1 {
			table.Columns = append(table.Columns, paper.Column{Title: title})
		}
		for range rows % 8 {
			row := paper.Row{}
			for range table.Columns {
				row.Cells = append(row.Cells, cell)
			}
			table.Rows = append(table.Rows, row)
		}
		asked := func() *paper.Form {
			made := *form()
			made.Title, made.Sheet = title, append(paper.Sheet{paper.Heading{Level: 2, Text: text}, table}, made.Sheet[2])
			return &made
		}
		for _, ending := range press.Endings {
			a, err := press.Make(asked(), ending, layout.Letter)
			b, again := press.Make(asked(), ending, layout.Letter)
			if (err == nil) != (again == nil) || !bytes.Equal(a.Bytes, b.Bytes) || err == nil && len(a.Bytes) == 0 {
				t.Fatalf("%s: two runs differ, or nothing is written: %v, %v", ending, err, again)
			}
			if ending == ".txt" || ending == ".md" || ending == ".csv" {
				if i := bytes.IndexFunc(a.Bytes, func(r rune) bool { return r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7f }); i >= 0 {
					t.Fatalf("%s has a control character at %d: %q", ending, i, a.Bytes[max(0, i-20):min(len(a.Bytes), i+20)])
				}
			}
		}
	})
}
