package page

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// SideCells is how wide the column beside a page is.
const SideCells = 38

// WallColumn draws the wall for a column beside a page that shows something else
// of it: the rows with the total to each, around the row worked at, then the
// zones and what the rules find.
func WallColumn(d *Desk, w, h int) []string {
	t, u, r := d.Theme, d.Units(), d.Report()
	s, a := r.Schedule, r.Analysis
	below := []string{""}
	for _, z := range laminate.Zones.All() {
		if sum := a.Zones[z]; sum.Plies > 0 {
			below = append(below, " "+ZoneStyle(t, z).Render(draw.Left(ZoneFigures(z, sum, u), w-1)))
		}
	}
	below = append(below, " "+t.Strong.Render(draw.Cut("all "+u.Thickness(a.Total.Thickness), w-1)), "",
		widget.Rule(t, w, TallyPieces(t, r)...))
	for i := range r.Findings {
		if i == 3 {
			break
		}
		f := &r.Findings[i]
		for n, line := range draw.Wrap(draw.Clean(f.Message), w-2) {
			if n == 2 {
				break
			}
			below = append(below, " "+SeverityStyle(t, f.Severity).Render(line))
		}
	}
	head := " " + t.Label.Render(draw.Left("ply", 8)+draw.Left("material", w-18)+draw.Right("total "+u.Thin().Symbol(), 9))
	rows := max(1, h-len(below)-1)
	out := []string{head}
	top := max(0, min(d.Row-rows/2, len(s.Plies)-rows))
	for i := top; i < len(s.Plies) && i < top+rows; i++ {
		f := &a.Rows[i]
		form := laminate.NoForm
		if f.Material != nil {
			form = f.Material.Form
		}
		name := draw.Clean(s.Plies[i].Material)
		if n := s.Plies[i].Count; n > 1 {
			name += " ×" + strconv.Itoa(n)
		}
		if s.Plies[i].GelAfter {
			name += " │"
		}
		total := "?"
		if f.ThicknessKnown {
			total = u.Bare(f.ToHere, quantity.Thickness)
		}
		mark := " "
		if i == d.Row {
			mark = t.Mark.Render(draw.Pointer)
		}
		out = append(out, mark+draw.Left(paper.Span(f.First, f.Last), 8)+ZoneStyle(t, f.Zone).Render(draw.Left(Glyph(form)+" "+name, w-18))+draw.Right(total, 9))
	}
	return append(out, below...)
}
