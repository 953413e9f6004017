package bench

import (
	"strings"

	"github.com/charmbracelet/bubbles/viewport"

	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// fuller is a choice that takes the whole page.
type fuller interface {
	page(b *Bench, w, h int) []string
}

// why is a finding's whole text.
type why struct {
	view viewport.Model
	held string // what the view was given
}

func (b *Bench) beginWhy() { b.begin(&why{view: viewport.New(b.plan.Body.W, b.plan.Body.H)}) }

func (m *why) next(b *Bench, by int) {
	b.settle()
	n := len(b.desk.Report().Findings)
	b.sel = (b.sel + by + n) % n
	m.view.GotoTop()
}

func (m *why) page(b *Bench, w, h int) []string {
	t := b.desk.Theme
	f := b.finding()
	if f == nil {
		return nil
	}
	var body []string
	part := func(label, s string) {
		if s == "" {
			return
		}
		for i, line := range draw.Wrap(draw.CleanText(s), max(20, min(w-12, 90))) {
			if i > 0 {
				label = ""
			}
			body = append(body, " "+t.Label.Render(draw.Left(label, 10))+line)
		}
		body = append(body, "")
	}
	r := b.desk.Report()
	body = append(body, " "+t.Title.Render(draw.Cut(draw.Clean(f.Rule.Title), w-2)), "")
	part(page.SeverityWord(f.Severity), draw.Clean(f.Message))
	part("plies", rowsText(r, f))
	part("why", f.Rule.Why)
	part("fires", f.Rule.When)
	part("basis", f.Basis)
	fix := instead(f)
	if goesElsewhere(f) {
		fix = "nothing mechanical; on the bench, " + fix
	}
	if m := b.offered(); m != nil {
		fix = m.Text + "   (m does it)"
	}
	part("fix", fix)
	part("rule", f.Rule.ID)
	m.view.Width, m.view.Height = w, h
	if held := strings.Join(body, "\n"); held != m.held {
		m.held = held
		m.view.SetContent(held)
	}
	return strings.Split(m.view.View(), "\n")
}

func rowsText(r *rules.Report, f *rules.Finding) string {
	var names []string
	for _, row := range f.Rows {
		if row >= 0 && row < len(r.Analysis.Rows) {
			names = append(names, page.PlyNumbers(&r.Analysis.Rows[row])+" "+draw.Clean(r.Schedule.Plies[row].Material))
		}
		if len(names) == 20 {
			names = append(names, "…")
			break
		}
	}
	return strings.Join(names, ", ")
}

func (*why) scope() keys.Scope               { return scopeWhy }
func (*why) title(*Bench) string             { return "why" }
func (*why) lines(*Bench, int, int) []string { return nil }
func (*why) typing() bool                    { return false }
func (*why) typed(*Bench, keys.Event)        {}

func whyActs() page.Acts[*Bench] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, can func(*Bench) string, do func(*why, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeWhy, Keys: k, Show: show, Short: short, Long: long, Group: "Reading why", Rank: rank}, Can: can, Do: in(do)}
	}
	return page.Acts[*Bench]{
		row("read", []string{keys.Up, keys.Down, "k", "j"}, "↑↓", "read", "read on", 1, nil, func(m *why, _ *Bench, e keys.Event) {
			if e.Key == keys.Up || e.Key == "k" {
				m.view.ScrollUp(1)
			} else {
				m.view.ScrollDown(1)
			}
		}),
		row("read far", []string{keys.PgUp, keys.PgDown, keys.Space}, "", "", "a screenful", 5, nil, func(m *why, _ *Bench, e keys.Event) {
			if e.Key == keys.PgUp {
				m.view.PageUp()
			} else {
				m.view.PageDown()
			}
		}),
		row("finding", []string{"n", "p"}, "n p", "next, before", "the next finding, the one before", 2, nil, func(m *why, b *Bench, e keys.Event) {
			by := 1
			if e.Key == "p" {
				by = -1
			}
			m.next(b, by)
		}),
		row("fix it", []string{"m"}, "", "fix", "fix it and go back to the bench", 3, canFix, func(_ *why, b *Bench, _ keys.Event) {
			b.end()
			b.fix()
		}),
		row("back", []string{keys.Esc, keys.Enter, "w"}, "Esc", "back", "back to the bench", 0, nil, func(_ *why, b *Bench, _ keys.Event) { b.end() }),
	}
}
