package practice

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// mixing is the form of the resin that a row is laid in. In the barrier it is
// the resin of the barrier alone: a resin that the structure shares is parted.
type mixing struct {
	*building
	fields []page.Field
	at     int
}

const (
	fieldFamily = iota
	fieldFiller
	fieldContent
	fieldCure
	fieldEarth
)

func newMixing(p *Practice, b *building) *mixing {
	m := &mixing{building: b}
	m.fill()
	m.fields[0].Enter()
	p.desk.Say("digits choose; Enter goes on, Esc goes back to the plies")
	return m
}

func names[T interface{ String() string }](list []T) []string {
	var out []string
	for _, x := range list {
		out = append(out, x.String())
	}
	return out
}

func (m *mixing) fill() {
	s := m.schedule()
	r := laminate.Resin{}
	if own, ok := s.Resin(s.Plies[m.row].Resin); ok {
		r = *own
	}
	content := ""
	if r.FillerContent.Given {
		content = strconv.FormatFloat(100*r.FillerContent.Value, 'g', 6, 64)
	}
	m.fields = []page.Field{
		{Label: "family", Text: r.Family.String(), Choices: names(laminate.Families.All())},
		{Label: "filler", Text: r.Filler.String(), Choices: names(laminate.Fillers.All()), Hint: "none"},
		{Label: "filler content", Text: content, Hint: "% of the mix by mass"},
		{Label: "cure", Text: r.Cure.String(), Choices: names(laminate.Cures.All())},
		{Label: "wall grounded by", Text: s.Part.Grounding, Hint: "how a conductive barrier is grounded"},
	}
}

func (*mixing) scope() keys.Scope { return scopeResin }
func (*mixing) typing() bool      { return true }

func (m *mixing) typed(p *Practice, e keys.Event) {
	f := &m.fields[m.at]
	if !f.Press(e) {
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter goes on, Esc goes back")
		return
	}
	if len(f.Choices) > 0 {
		m.commit(p)
	}
}

// commit makes the change of the field; it stays open where it cannot be made.
func (m *mixing) commit(p *Practice) bool {
	f := m.fields[m.at]
	if !f.Changed() {
		return true
	}
	value := strings.TrimSpace(f.Text)
	share, err := laminate.Optional[float64]{}, error(nil)
	if m.at == fieldContent {
		if share, err = page.ReadPercent(value); err != nil {
			p.desk.Refuse(err.Error())
			return false
		}
	}
	row, at := m.row, m.at
	said := f.Label + " " + value
	if value == "" {
		said = f.Label + " not stated"
	}
	m.apply(p, edit.Edit{Label: said, Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		n := s.Clone()
		if at == fieldEarth {
			n.Part.Grounding = value
			return n, nil
		}
		r := ownResin(n, row, p.library())
		switch at {
		case fieldFamily:
			r.Family, _ = laminate.Families.Parse(value)
		case fieldFiller:
			r.Filler, _ = laminate.Fillers.Parse(value)
			if r.Filler == laminate.NoFiller {
				r.FillerContent = laminate.Optional[float64]{}
			}
		case fieldContent:
			r.FillerContent = share
		case fieldCure:
			r.Cure, _ = laminate.Cures.Parse(value)
		}
		return n, nil
	}})
	m.fill()
	m.fields[m.at].Resume(&f)
	return true
}

// ownResin is the resin of a row, to be changed: in the barrier one that
// nothing outside of it is laid in. The veil's may be parted from the mats' by
// the choice of another row afterwards.
func ownResin(n *laminate.Schedule, row int, lib *laminate.Library) *laminate.Resin {
	zones := laminate.InferZones(n, lib)
	id := n.Plies[row].Resin
	inside, outside := zones[row].InBarrier(), false
	for i := range n.Plies {
		outside = outside || n.Plies[i].Resin == id && !zones[i].InBarrier()
	}
	if !inside || !outside {
		for i := range n.Resins {
			if n.Resins[i].ID == id {
				return &n.Resins[i]
			}
		}
	}
	own := laminate.Resin{}
	if r, ok := n.Resin(id); ok {
		own = *r
	}
	own.Origin, own.ID = 0, "liner"
	for k := 2; ; k++ {
		if _, taken := n.Resin(own.ID); !taken {
			break
		}
		own.ID = "liner-" + strconv.Itoa(k)
	}
	for i := range n.Plies {
		if n.Plies[i].Resin == id && zones[i].InBarrier() == inside {
			n.Plies[i].Resin = own.ID
			n.Plies[i].Zone = zones[i]
		}
	}
	n.Resins = append(n.Resins, own)
	return &n.Resins[len(n.Resins)-1]
}

func (m *mixing) move(p *Practice, by int) {
	if !m.commit(p) {
		return
	}
	m.at = (m.at + by + len(m.fields)) % len(m.fields)
	m.fields[m.at].Enter()
}

func resinActs() page.Acts[*Practice] {
	const g = "The resin of a row"
	return page.Acts[*Practice]{
		act(scopeResin, "next line", g, []string{keys.Enter, keys.Down}, "Enter ↓", "next line", "take the line, go to the next", 1, nil, in(func(m *mixing, p *Practice, _ keys.Event) { m.move(p, 1) })),
		act(scopeResin, "line before", g, []string{keys.Up}, "", "", "take the line, go to the one before", 5, nil, in(func(m *mixing, p *Practice, _ keys.Event) { m.move(p, -1) })),
		act(scopeResin, "choose", g, []string{keys.Left, keys.Right}, "1-9 ←→", "choose", "in a line of choices: take one; 0 states none", 2, nil, in(func(m *mixing, p *Practice, e keys.Event) { m.typed(p, e) })),
		act(scopeResin, "own", g, []string{keys.PgDown}, "", "own mix", "give this row a mix of its own, to fill the veil's resin otherwise than the mats'", 4, nil, in(func(m *mixing, p *Practice, _ keys.Event) { m.part(p) })),
		act(scopeResin, "back", g, []string{keys.Esc}, "", "back to the plies", "back to the plies", 3, nil, in(func(m *mixing, p *Practice, _ keys.Event) {
			if m.commit(p) {
				p.now = m.building
			}
		})),
	}
}

// part gives the row a resin of its own, like the one it has.
func (m *mixing) part(p *Practice) {
	row := m.row
	m.apply(p, edit.Edit{Label: "a mix of its own for " + edit.PlyLabel(m.schedule(), row), Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		n := s.Clone()
		own := laminate.Resin{}
		if r, ok := n.Resin(n.Plies[row].Resin); ok {
			own = *r
		}
		zones := laminate.InferZones(n, p.library())
		for i := range n.Plies {
			n.Plies[i].Zone = zones[i]
		}
		own.Origin, own.ID = 0, "mix"
		for k := 2; ; k++ {
			if _, taken := n.Resin(own.ID); !taken {
				break
			}
			own.ID = "mix-" + strconv.Itoa(k)
		}
		n.Resins = append(n.Resins, own)
		n.Plies[row].Resin = own.ID
		return n, nil
	}})
	m.fill()
	m.fields[m.at].Enter()
}

func (m *mixing) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out, left := m.head(p, w, h)
	s := m.schedule()
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "resin " + s.Plies[m.row].Resin + " of " + edit.PlyLabel(s, m.row), Look: t.Strong}))
	for i := range m.fields {
		out = append(out, m.fields[i].Lines(t, i == m.at, 16, w)...)
	}
	if left > len(m.fields)+2 {
		out = append(out, "", t.Dim.Render(draw.Cut(" what the structure is laid in stays: a barrier that shares it gets a mix of its own", w)))
	}
	return out[:min(len(out), h)]
}
