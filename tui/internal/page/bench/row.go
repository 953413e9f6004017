package bench

import (
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// rowForm opens a row: what may be said of its plies beyond the material.
type rowForm struct {
	row    int
	fields [rowFields]page.Field
	was    [rowFields]string
	at     int
}

const (
	fieldGlass = iota
	fieldAngle
	fieldResin
	fieldZone
	fieldVoid
	fieldCount
	rowFields
)

// rowKeys are the document's keys of the fields.
var rowKeys = [rowFields]string{"glass_content", "angle", "resin", "zone", "void_content", "count"}

func (b *Bench) beginRow() {
	p := b.schedule().Plies[b.desk.Row]
	f := &b.desk.Report().Analysis.Rows[b.desk.Row]
	m := &rowForm{row: b.desk.Row}
	share, ok := f.FiberMassFraction()
	m.fields[fieldGlass] = page.Field{Label: "glass content", Text: percentText(p.GlassContent), Hint: "% of ply mass as laid; computed " + page.Percent(share, ok)}
	m.fields[fieldAngle] = page.Field{Label: "angle", Text: number0(p.Angle), Hint: "degrees from the axis"}
	resins := make([]string, 0, len(b.schedule().Resins))
	for i := range b.schedule().Resins {
		resins = append(resins, b.schedule().Resins[i].ID)
	}
	m.fields[fieldResin] = page.Field{Label: "resin", Text: p.Resin, Choices: resins, Hint: "no resin"}
	zones := make([]string, 0, 4)
	for _, z := range laminate.Zones.All() {
		zones = append(zones, z.String())
	}
	m.fields[fieldZone] = page.Field{Label: "zone", Text: p.Zone.String(), Choices: zones, Hint: "by its place: " + f.Zone.String()}
	m.fields[fieldVoid] = page.Field{Label: "voids", Text: percentText(p.VoidContent), Hint: "% of ply volume"}
	m.fields[fieldCount] = page.Field{Label: "count", Text: strconv.Itoa(p.Count), Hint: "plies in the row"}
	if f.Material != nil && !f.Material.Form.Directed() {
		m.at = fieldGlass
	}
	for i := range m.fields {
		m.was[i] = m.fields[i].Text
	}
	m.fields[m.at].Enter()
	b.begin(m)
	b.desk.Say("type a figure, or a choice's number; ↑↓ next line; Enter takes all of it")
}

func percentText(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return strconv.FormatFloat(100*o.Value, 'g', 6, 64)
}

func number0(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return strconv.FormatFloat(o.Value, 'f', -1, 64)
}

// ply reads the fields into the row.
func (m *rowForm) ply(b *Bench) (laminate.Ply, error) {
	p := b.schedule().Plies[m.row]
	var err error
	if m.fields[fieldGlass].Text != percentText(p.GlassContent) {
		if p.GlassContent, err = page.ReadPercent(m.fields[fieldGlass].Text); err != nil {
			return p, fmt.Errorf("glass content %w", err)
		}
	}
	if m.fields[fieldVoid].Text != percentText(p.VoidContent) {
		if p.VoidContent, err = page.ReadPercent(m.fields[fieldVoid].Text); err != nil {
			return p, fmt.Errorf("voids %w", err)
		}
	}
	if p.Angle, err = angle(m.fields[fieldAngle].Text); err != nil {
		return p, err
	}
	p.Resin = m.fields[fieldResin].Text
	p.Zone, _ = laminate.Zones.Parse(m.fields[fieldZone].Text)
	n, err := strconv.Atoi(strings.TrimSpace(m.fields[fieldCount].Text))
	if err != nil || n < 1 || n > laminate.MostCount {
		return p, fmt.Errorf("count %q is no whole number from 1 to %d", m.fields[fieldCount].Text, laminate.MostCount)
	}
	p.Count = n
	return p, nil
}

func angle(s string) (laminate.Optional[float64], error) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "°"))
	if s == "" {
		return laminate.Optional[float64]{}, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= -90 && v <= 90) {
		return laminate.Optional[float64]{}, fmt.Errorf("angle %q is none from −90 to 90 degrees", s)
	}
	return laminate.Some(v), nil
}

func (m *rowForm) show(b *Bench) {
	p, err := m.ply(b)
	if err != nil {
		b.preview = nil
		b.desk.Refuse(err.Error())
		return
	}
	b.try(m.edit(b, p))
}

// edit makes the row as typed, one change whatever was typed.
func (m *rowForm) edit(b *Bench, p laminate.Ply) edit.Edit {
	var parts []string
	key := ""
	for i := range m.fields {
		f := &m.fields[i]
		if f.Text == m.was[i] {
			continue
		}
		value := f.Text
		if value == "" {
			value = "not stated"
		} else if i == fieldGlass || i == fieldVoid {
			value += " %"
		}
		parts = append(parts, f.Label+" "+value)
		key = rowKeys[i]
	}
	return edit.SetPly(b.schedule(), b.library(), m.row, key, strings.Join(parts, ", "), func(to *laminate.Ply) { *to = p })
}

func (m *rowForm) take(b *Bench) {
	p, err := m.ply(b)
	switch {
	case err != nil:
		b.desk.Refuse(err.Error())
	case p == b.schedule().Plies[m.row]:
		b.drop()
	default:
		b.finish(m.edit(b, p))
	}
}

func (m *rowForm) focus(i int) {
	m.at = i
	m.fields[i].Enter()
}

func (m *rowForm) title(b *Bench) string {
	return b.rowName() + " " + b.schedule().Plies[m.row].Material
}

func (m *rowForm) lines(b *Bench, w, h int) []string {
	out := make([]string, 0, rowFields)
	from := max(0, min(m.at-h+1, rowFields-h))
	if from < 0 || rowFields <= h {
		from = 0
	}
	for i := from; i < rowFields && len(out) < h; i++ {
		out = append(out, m.fields[i].Line(b.desk.Theme, i == m.at, 13, w))
	}
	return out
}

func (*rowForm) scope() keys.Scope { return scopeRow }
func (*rowForm) typing() bool      { return true }

func (m *rowForm) typed(b *Bench, e keys.Event) {
	if !m.fields[m.at].Press(e) {
		b.desk.Refuse("this line takes figures; ↑↓ go to another")
		return
	}
	m.show(b)
}

func rowActs() page.Acts[*Bench] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*rowForm, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeRow, Keys: k, Show: show, Short: short, Long: long, Group: "In an open row", Rank: rank}, Do: in(do)}
	}
	return page.Acts[*Bench]{
		row("line", []string{keys.Up, keys.Down}, "↑↓", "line", "the line before, after", 1, func(m *rowForm, _ *Bench, e keys.Event) {
			by := 1
			if e.Key == keys.Up {
				by = rowFields - 1
			}
			m.focus((m.at + by) % rowFields)
		}),
		row("choice", []string{keys.Left, keys.Right}, "1-9 ←→", "choose", "in a line of choices: take one; 0 states none", 2, (*rowForm).typed),
		row("take the row", []string{keys.Enter}, "", "take it", "take all lines as one change", 3, func(m *rowForm, b *Bench, _ keys.Event) { m.take(b) }),
		row("empty", []string{keys.Backspace, keys.Delete}, "", "", "take back a character; the whole line", 5, (*rowForm).typed),
		row("leave", []string{keys.Esc}, "", "leave", "leave everything as it was", 0, func(_ *rowForm, b *Bench, _ keys.Event) { b.drop() }),
	}
}
