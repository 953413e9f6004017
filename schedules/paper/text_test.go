package paper

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

// A wide character takes two columns and a combining mark none, by the Unicode
// widths (UAX #11) that terminals go by: columns broke behind a name of them.
func TestText_columnsHoldWithWideAndCombiningNames(t *testing.T) {
	names := []string{"resin", "樹脂", "re\u0301sine", "수지 수지"}
	table := Table{Columns: []Column{{Title: "id"}, {Title: "mass", Right: true}, {Title: "note"}}}
	var facts Facts
	for _, n := range names {
		table.Rows = append(table.Rows, Row{Cells: []string{n, "4", "|x"}})
		facts = append(facts, Facts{{n, "|x"}}...)
	}
	var b strings.Builder
	if err := Text(&b, Sheet{table, facts}, 0); err != nil {
		t.Fatal(err)
	}
	at := map[int]int{}
	for _, l := range strings.Split(b.String(), "\n") {
		if before, _, ok := strings.Cut(l, "|"); ok {
			at[ansi.StringWidth(before)]++
		}
	}
	if len(at) != 2 {
		t.Errorf("the last columns begin at %v:\n%s", at, b.String())
	}
	b.Reset()
	if err := Text(&b, Sheet{Note{Text: strings.Repeat("樹脂", 30)}}, 40); err != nil {
		t.Fatal(err)
	}
	for _, l := range strings.Split(b.String(), "\n") {
		if ansi.StringWidth(l) > 40 {
			t.Errorf("%q is wider than 40", l)
		}
	}
}
