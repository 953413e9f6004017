package app

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
)

// squeezed is text with one blank where there are several, for cells whose
// widths differ.
func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }

// What the bench shows of a row is what the sheet prints of it, in both units.
func TestBench_showsTheCellsOfTheSheet(t *testing.T) {
	for _, units := range []quantity.System{quantity.US, quantity.Metric} {
		text := string(schedules.Example())
		if units == quantity.Metric {
			text = strings.Replace(text, `"us"`, `"si"`, 1)
		}
		g := fresh(t, text, 240, 60)
		if got := g.r.desk.Units(); got != units {
			t.Fatalf("the bench has %v, want %v", got, units)
		}
		screen := squeezed(g.screen())
		rows := 0
		for _, b := range paper.Check("", nil, g.r.Document().Report(), func(laminate.Ref) int { return 0 }, units, paper.Detail{Plies: true}) {
			table, ok := b.(paper.Table)
			if !ok || table.Columns[0].Title != "ply" {
				continue
			}
			for i, r := range table.Rows {
				rows++
				number, material, resin, each, total, glass := r.Cells[0], r.Cells[1], r.Cells[3], r.Cells[4], r.Cells[5], r.Cells[6]
				p := paper.PlyOf(g.r.Document().Now(), g.r.Document().Report().Analysis, i, units)
				if want := squeezed(strings.Join([]string{each, total, glass, p.Fiber, p.Mass, resin}, " ")); !strings.Contains(screen, want) ||
					!strings.Contains(screen, number) || !strings.Contains(screen, material) {
					t.Errorf("row %d: the bench does not show %s %s … %s:\n%s", i, number, material, want, g.screen())
				}
			}
		}
		if rows == 0 {
			t.Error("the sheet has no plies")
		}
	}
}

// Only rows in sight are written: moving through 2,000 rows makes no more
// strings than moving through 60, of which as many are in sight.
func TestBench_formatsOnlyTheRowsInSight(t *testing.T) {
	made := func(rows int) float64 {
		g := fresh(t, string(long(rows)), 120, 36)
		return testing.AllocsPerRun(20, func() {
			g.press("up")
			_ = g.r.View()
			g.press("down")
			_ = g.r.View()
		})
	}
	if short, much := made(60), made(2000); much > short*1.1 {
		t.Errorf("a move at 60 rows makes %v allocations, at 2,000 rows %v", short, much)
	}
}
