// Package structure is the page that tells whether the structure is enough:
// every criterion with how much of it is used, the strain of every ply that
// counts, and what would have to be added for it to hold.
package structure

import (
	"strings"

	"github.com/charmbracelet/bubbles/viewport"

	"frp/veilwright/laminate/wall"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Structure is the page. Make it with New.
type Structure struct {
	page.Base
	table   *widget.Table[string, *wall.Criterion]
	of      *wall.Result // what the table shows
	need    *needed      // what is needed, while it is asked
	strains viewport.Model
	drawn   charted
}

// New makes the page on a desk.
func New(d *page.Desk) *Structure {
	p := &Structure{Base: page.NewBase("structure", d)}
	p.table = widget.NewTable(d.Theme, func(c *wall.Criterion) string { return c.Name + c.Case }, p.columns()...)
	p.table.Gap = 1
	p.table.Empty = "no criterion"
	const g = "On the structure page"
	p.Rows = keys.Table{
		{Keys: keys.Digits(4), Short: "what is needed", Long: "how many repeats of the unit are needed", Group: g, Rank: 1, Do: p.ask},
		{Keys: widget.TableKeys(), Show: "↑↓", Short: "criterion", Long: "another criterion and why", Group: g, Rank: 2, Do: func(e keys.Event) { p.table.Handle(e) }},
		{Keys: []string{keys.Left, keys.Right}, Show: "←→", Short: "plies", Long: "more of the plies' strains", Group: g, Rank: 3, Do: func(e keys.Event) {
			if e.Key == keys.Left {
				p.strains.ScrollUp(1)
			} else {
				p.strains.ScrollDown(1)
			}
		}},
		{Keys: []string{"w"}, Short: "all of it", Long: "the whole evaluation: loads, moduli and where they come from, every basis, rings, notes", Group: g, Rank: 4, Do: keys.Do(p.whole)},
		d.Out(g),
	}
	return p
}

// whole shows all that the wall command prints.
func (p *Structure) whole() {
	r := p.Desk.Report().Wall
	if r == nil {
		p.Desk.Refuse("the structure is not evaluated")
		return
	}
	p.Open(&page.Text{Head: "the whole evaluation", Full: true, Body: func(w int) []string {
		d := p.Desk.Doc
		return written(append(paper.Wall(d.Name(), d.Library().Books, d.Now(), r, nil, p.Desk.Units()), paper.Aid(r.NotChecked)), w)
	}})
}

// written is a sheet as the lines of a screen w wide.
func written(sheet paper.Sheet, w int) []string {
	var b strings.Builder
	if err := paper.Text(&b, sheet, w-1); err != nil {
		return []string{" " + err.Error()}
	}
	var lines []string
	for _, l := range strings.Split(strings.TrimRight(b.String(), "\n"), "\n") {
		lines = append(lines, " "+l)
	}
	return lines
}

// Reset drops what was asked.
func (p *Structure) Reset() {
	p.Base.Reset()
	p.need, p.of = nil, nil
	p.strains.GotoTop()
}

// Settle gives the table and the chart what is shown by now.
func (p *Structure) Settle() {
	if p.Over() == nil {
		p.need = nil
	}
	p.Base.Settle()
	if r := p.result(); r != nil {
		p.fill(r)
		tall, chart := p.heights(r)
		p.table.Fit(tall)
		p.chart(r, p.Frame.Body.W, chart-1)
	}
}

// result is what is shown: of the document, or of the wall with what is needed.
func (p *Structure) result() *wall.Result {
	if p.need != nil && p.need.found.Result != nil {
		return p.need.found.Result
	}
	return p.Desk.Report().Wall
}

// Alone tells that there is room beside it where all its columns have theirs.
func (*Structure) Alone() int { return 100 }
