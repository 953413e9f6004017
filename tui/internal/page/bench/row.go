package bench

import (
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/page"
)

// rowForm opens a row: what may be said of its plies beyond the material.
type rowForm struct {
	b      *Bench
	row    int
	fields [rowFields]*page.Field
	was    [rowFields]string
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
	p := b.schedule().Plies[b.Desk.Row]
	f := &b.Desk.Report().Analysis.Rows[b.Desk.Row]
	m := &rowForm{b: b, row: b.Desk.Row}
	var resins, zones []string
	for i := range b.schedule().Resins {
		resins = append(resins, b.schedule().Resins[i].ID)
	}
	for _, z := range laminate.Zones.All() {
		zones = append(zones, z.String())
	}
	m.fields = [rowFields]*page.Field{
		fieldGlass: {Label: "glass content", Text: percentText(p.GlassContent), Hint: "% of ply mass as laid; computed " + paper.Share(f.FiberMassFraction())},
		fieldAngle: {Label: "angle", Text: number0(p.Angle), Hint: "degrees from the axis"},
		fieldResin: {Label: "resin", Text: p.Resin, Choices: resins, Hint: "no resin"},
		fieldZone:  {Label: "zone", Text: p.Zone.String(), Choices: zones, Hint: "by its place: " + f.Zone.String()},
		fieldVoid:  {Label: "voids", Text: percentText(p.VoidContent), Hint: "% of ply volume"},
		fieldCount: {Label: "count", Text: strconv.Itoa(p.Count), Hint: "plies in the row"},
	}
	for i, fd := range m.fields {
		m.was[i] = fd.Text
	}
	b.Open(&page.Form{Head: b.rowName() + " " + p.Material, Fields: m.fields[:], Straight: true, Take: m.take, Changed: m.show, Leave: b.left})
	b.Desk.Say("type a figure, or a choice's number; ↑↓ next line; Enter takes all of it")
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
func (m *rowForm) ply() (laminate.Ply, error) {
	p := m.b.schedule().Plies[m.row]
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
		return p, fmt.Errorf("count %q is not a whole number from 1 to %d", m.fields[fieldCount].Text, laminate.MostCount)
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

func (m *rowForm) show() {
	p, err := m.ply()
	if err != nil {
		m.b.preview = nil
		m.b.Desk.Refuse(err.Error())
		return
	}
	m.b.try(m.edit(p))
}

// edit makes the row as typed, one change whatever was typed.
func (m *rowForm) edit(p laminate.Ply) edit.Edit {
	var parts []string
	key := ""
	for i := range m.fields {
		f := m.fields[i]
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
	return edit.SetPly(m.b.schedule(), m.b.library(), m.row, key, strings.Join(parts, ", "), func(to *laminate.Ply) { *to = p })
}

func (m *rowForm) take() error {
	p, err := m.ply()
	switch {
	case err != nil:
		return err
	case p == m.b.schedule().Plies[m.row]:
		m.b.left()
		return nil
	}
	return m.b.take(m.edit(p))
}
