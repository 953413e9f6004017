package practice

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/paper"
)

// The plies of the given walls are shown with the figures that the sheet prints.
func TestPlyLines_showTheCellsOfTheSheet(t *testing.T) {
	p := open(t)
	p.load()
	rows := 0
	for _, e := range p.list {
		a := laminate.Analyze(&e.Given, p.Desk.Doc.Library())
		lines := plyLines(p.Practice, &e.Given, a, 120, -1, true, func(int) string { return " " })
		for i := range e.Given.Plies {
			rows++
			c := paper.PlyOf(&e.Given, a, i, p.Desk.Units())
			fields := strings.Fields(lines[i])
			line := strings.Join(fields, " ")
			if fields[0] != c.Numbers || !strings.Contains(line, strings.Join([]string{c.PerPly, c.Total, c.Glass}, " ")) {
				t.Errorf("%s: %q is not %+v", e.ID, line, c)
			}
		}
	}
	if rows == 0 {
		t.Error("no exercise gives plies")
	}
}
