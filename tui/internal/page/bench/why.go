package bench

import (
	"strings"

	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// beginWhy opens a finding's whole text.
func (b *Bench) beginWhy() {
	const g = "Reading why"
	x := &page.Text{Head: "why", Full: true, Body: b.whyLines}
	x.Keys = keys.Table{
		{Keys: []string{"n", "p"}, Show: "n p", Short: "next, before", Long: "the next finding, the one before", Group: g, Rank: 2, Do: keys.By("p", func(by int) {
			n := len(b.Desk.Report().Findings)
			b.sel = (b.sel + by + n) % n
			x.Top()
		})},
		{Keys: []string{"f"}, Short: "fix", Long: "fix it and go back to the bench", Group: g, Rank: 3, Can: b.canFix, Do: keys.Do(func() {
			b.Close()
			b.fix()
		})},
	}
	b.Open(x)
}

func (b *Bench) whyLines(w int) []string {
	f := b.finding()
	if f == nil {
		return nil
	}
	fix := b.instead(f)
	if b.goesElsewhere(f) {
		fix = "no automatic fix; on the bench, " + fix
	}
	if m := b.offered(); m != nil {
		fix = m.Text + "   (f does it)"
	}
	return page.FindingLines(b.Desk.Theme, f, rowsText(b.Desk.Report(), f), fix, w)
}

func rowsText(r *rules.Report, f *rules.Finding) string {
	var names []string
	for _, row := range f.Rows {
		if row >= 0 && row < len(r.Analysis.Rows) {
			names = append(names, paper.Span(r.Analysis.Rows[row].First, r.Analysis.Rows[row].Last)+" "+draw.Clean(r.Schedule.Plies[row].Material))
		}
		if len(names) == 20 {
			names = append(names, "…")
			break
		}
	}
	return strings.Join(names, ", ")
}
