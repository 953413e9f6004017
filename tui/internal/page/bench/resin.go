package bench

import (
	"fmt"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// firstResin asks for the resin of the first ply of a schedule that states
// none: a resin decides too much to be taken for granted.
type firstResin struct {
	material string
	wall     bool // the ply is structure: there is no barrier yet
}

// needsResin tells that a ply has nothing to be laid in yet.
func (b *Bench) needsResin() bool { return len(b.schedule().Resins) == 0 }

// lay lays a material, after asking for a resin where none is stated.
func (b *Bench) lay(id string) {
	if !b.needsResin() {
		b.finish(b.laying(id))
		return
	}
	m := &firstResin{material: id}
	if c, ok := b.library().Material(b.schedule(), id); ok {
		m.wall = c.Form != laminate.Veil && c.Form != laminate.ResinCoat && !c.Form.Chopped()
	}
	b.preview = nil
	b.begin(m)
	b.desk.Say("a digit takes the resin and lays " + draw.Clean(id))
}

func (m *firstResin) id() string {
	if m.wall {
		return "structure"
	}
	return "barrier"
}

// edit adds the resin and lays the ply in it, as one change.
func (m *firstResin) edit(b *Bench, family laminate.Family) edit.Edit {
	add := edit.AddResin(b.schedule(), laminate.Resin{ID: m.id(), Family: family})
	lay := b.laying(m.material)
	return edit.Edit{
		Label: lay.Label + " in " + family.String(),
		At:    lay.At,
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n, err := add.Do(s)
			if err != nil {
				return nil, err
			}
			return lay.Do(n)
		},
	}
}

func (m *firstResin) digit(b *Bench, d int) {
	families := laminate.Families.All()
	if d > len(families) {
		b.desk.Refuse(fmt.Sprintf("the resin families go from 1 to %d", len(families)))
		return
	}
	b.finish(m.edit(b, families[d-1]))
}

// page takes the whole page: the schedule has nothing else to show yet.
func (m *firstResin) page(b *Bench, w, h int) []string {
	t := b.desk.Theme
	what := "barrier"
	if m.wall {
		what = "structure"
	}
	families := laminate.Families.All()
	more := draw.Wrap("The schedule states no resin. The one taken is added as "+m.id()+"; plies laid after it take it too, until f, the facts, adds another.", max(10, w-6))
	gap := len(families)+len(more)+4 <= h
	var out []string
	space := func() {
		if gap {
			out = append(out, "")
		}
	}
	space()
	out = append(out, "   "+t.Title.Render(draw.Cut("which resin is this "+what+" laid in?", w-4)))
	for _, l := range more {
		out = append(out, "   "+t.Dim.Render(l))
	}
	space()
	for i, f := range families {
		out = append(out, "   "+t.Key.Render(strconv.Itoa(i+1))+"  "+draw.Cut(f.String(), w-7))
	}
	return draw.FitLines(out, w, h)
}

func (*firstResin) scope() keys.Scope               { return scopeResin }
func (*firstResin) title(*Bench) string             { return "which resin?" }
func (*firstResin) lines(*Bench, int, int) []string { return nil }
func (*firstResin) typing() bool                    { return false }
func (*firstResin) typed(*Bench, keys.Event)        {}

func resinActs() page.Acts[*Bench] {
	const g = "The first resin"
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*firstResin, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeResin, Keys: k, Show: show, Short: short, Long: long, Group: g, Rank: rank}, Do: in(do)}
	}
	return page.Acts[*Bench]{
		row("resin", digits(), "1-8", "resin", "add the resin and lay the ply in it, one change", 1, func(m *firstResin, b *Bench, e keys.Event) {
			d, _ := e.Digit()
			m.digit(b, d)
		}),
		row("leave", []string{keys.Esc}, "", "leave", "lay nothing", 0, func(_ *firstResin, b *Bench, _ keys.Event) { b.drop() }),
	}
}
