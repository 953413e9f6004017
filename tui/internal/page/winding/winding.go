// Package winding is the page that figures how a band closes a cover: lead,
// circuits, overlap, areal mass and thickness, and the same at other angles.
// What is typed is tried out; it becomes the schedule's own band when asked.
package winding

import (
	"errors"
	"fmt"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/winding"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Winding is the page. Make it with New.
type Winding struct {
	desk *page.Desk
	acts page.Acts[*Winding]
	body draw.Rect

	band   laminate.Material // the band that is tried out
	bands  []laminate.Material
	fields []page.Field
	at     int
	open   bool // a field is open
	made   *laminate.Schedule
	row    int // ply row the angle came from, -1 for none
}

const (
	scopeWinding keys.Scope = "winding"
	scopeField   keys.Scope = "winding, a figure"
)

// The fields, in order.
const (
	fieldBand = iota
	fieldTow
	fieldTows
	fieldWidth
	fieldDiameter
	fieldAngle
	fieldCount
)

// New makes the page on a desk.
func New(d *page.Desk) *Winding {
	p := &Winding{desk: d, acts: acts(), row: -1}
	return p
}

// Name is the page's name.
func (*Winding) Name() string { return "winding" }

// SetSize tells the size of the screen.
func (p *Winding) SetSize(w, h int) { p.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset drops what was typed.
func (p *Winding) Reset() { p.made, p.open = nil, false }

// Bindings are the page's keys.
func (p *Winding) Bindings() []keys.Binding { return p.acts.Bindings() }

// Scope is where keys act now.
func (p *Winding) Scope() keys.Scope {
	if p.open {
		return scopeField
	}
	return scopeWinding
}

// Can tells why a binding cannot act now.
func (p *Winding) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that a field is open.
func (p *Winding) Busy() bool { return p.open }

// Typing tells that characters go into a field.
func (p *Winding) Typing() bool { return p.open }

// fill takes band, diameter and angle from the schedule, once a schedule: what
// was typed since stays until the schedule changes.
func (p *Winding) fill() {
	s := p.desk.Doc.Now()
	if p.made == s {
		return
	}
	p.made = s
	p.bands = p.bands[:0]
	seen := map[string]bool{}
	for _, list := range [][]laminate.Material{s.Materials, p.desk.Doc.Library().Materials} {
		for _, m := range list {
			if m.Form == laminate.RovingBand && !seen[m.ID] {
				seen[m.ID] = true
				p.bands = append(p.bands, m)
			}
		}
	}
	p.row = -1
	want := ""
	for i := range s.Plies {
		if m, ok := p.desk.Doc.Library().Material(s, s.Plies[i].Material); ok && m.Form == laminate.RovingBand {
			if p.row < 0 || i == p.desk.Row {
				p.row, want = i, m.ID
			}
		}
	}
	p.take(want)
	p.fields[fieldDiameter].Text = p.woundOn(s)
	if p.row >= 0 && s.Plies[p.row].Angle.Given {
		p.fields[fieldAngle].Text = quantity.Number(s.Plies[p.row].Angle.Value, 1)
	}
}

// woundOn spells the diameter that the wound ply lies on: the inside diameter,
// and twice what is laid under the ply.
func (p *Winding) woundOn(s *laminate.Schedule) string {
	inside := s.Part.InsideDiameter
	rows := p.desk.Report().Analysis.Rows
	if !inside.Given() || p.row <= 0 || p.row > len(rows)-1 {
		return inside.Text()
	}
	unit := p.desk.Units().Size()
	over := quantity.New(inside.SI()+2*rows[p.row-1].ToHere, quantity.Meter)
	return quantity.Number(over.In(unit), 2) + " " + unit.Name()
}

// settle spells what was typed into the open figure with its unit.
func (p *Winding) settle() {
	f := &p.fields[p.at]
	if p.at != fieldWidth && p.at != fieldDiameter {
		return
	}
	if q, err := length(f.Text, p.desk.Units()); err == nil {
		f.Text = q.Text()
	}
}

// take puts a band's figures into the fields; diameter and angle stay.
func (p *Winding) take(id string) {
	names := make([]string, 0, 9)
	p.band = laminate.Material{}
	for i := range p.bands {
		if len(names) < 9 {
			names = append(names, p.bands[i].ID)
		}
		if p.bands[i].ID == id || id == "" && i == 0 {
			p.band = p.bands[i]
		}
	}
	u := p.desk.Units()
	was := p.fields
	p.fields = []page.Field{
		fieldBand:     {Label: "band", Text: p.band.ID, Choices: names},
		fieldTow:      {Label: "tow", Text: p.band.Tow.Text(), Hint: "tex, or yd/lb"},
		fieldTows:     {Label: "tows in the band", Hint: "a whole number"},
		fieldWidth:    {Label: "band width", Text: p.band.BandWidth.Text(), Hint: u.Size().Symbol()},
		fieldDiameter: {Label: "diameter wound on", Hint: u.Size().Symbol() + "; over what lies under the ply"},
		fieldAngle:    {Label: "angle from the axis", Hint: "degrees, 0 to 90"},
	}
	if p.band.Tows.Given {
		p.fields[fieldTows].Text = strconv.Itoa(p.band.Tows.Value)
	}
	if len(was) == fieldCount {
		p.fields[fieldDiameter].Text, p.fields[fieldAngle].Text = was[fieldDiameter].Text, was[fieldAngle].Text
	}
}

// tried is what the fields say, and what follows.
type tried struct {
	material laminate.Material
	band     winding.Band
	diameter quantity.Length
	angle    float64
	pattern  winding.Pattern
	laid     winding.Laid
	laidErr  error // no resin or glass content to figure the thickness with
}

var errEmpty = errors.New("not stated")

// try reads the fields and figures the pattern; the error names what is
// missing or wrong.
func (p *Winding) try() (t tried, err error) {
	u := p.desk.Units()
	t.material = p.band
	if err = quantity.Read(&t.material.Tow, p.fields[fieldTow].Text); err != nil {
		return t, fmt.Errorf("tow: %w", missing(p.fields[fieldTow].Text, err))
	}
	tows, err := strconv.Atoi(p.fields[fieldTows].Text)
	if err != nil || tows < 1 || tows > 100_000 {
		return t, fmt.Errorf("tows: %w", missing(p.fields[fieldTows].Text, errors.New("a whole number from 1 is expected")))
	}
	t.material.Tows = laminate.Some(tows)
	if t.material.BandWidth, err = length(p.fields[fieldWidth].Text, u); err != nil {
		return t, fmt.Errorf("band width: %w", err)
	}
	if t.diameter, err = length(p.fields[fieldDiameter].Text, u); err != nil {
		return t, fmt.Errorf("diameter: %w", err)
	}
	if t.angle, err = strconv.ParseFloat(p.fields[fieldAngle].Text, 64); err != nil {
		return t, fmt.Errorf("angle: %w", missing(p.fields[fieldAngle].Text, errors.New("degrees from 0 to 90 are expected")))
	}
	t.band = winding.Band{Tows: tows, TowMass: t.material.Tow.SI(), Width: t.material.BandWidth.SI()}
	if t.pattern, err = winding.Wind(t.band, t.diameter.SI(), t.angle); err != nil {
		return t, err
	}
	t.laid, t.laidErr = p.lay(&t)
	return t, nil
}

func missing(text string, err error) error {
	if text == "" {
		return errEmpty
	}
	return err
}

func length(s string, u quantity.System) (quantity.Length, error) {
	if s == "" {
		return quantity.Length{}, errEmpty
	}
	q, err := quantity.ParseDefault(s, u.Size())
	if err == nil && q.SI() <= 0 {
		err = errors.New("it is not above zero")
	}
	return q, err
}

// lay figures the thickness of a cover in the resin of the ply it is wound for.
func (p *Winding) lay(t *tried) (winding.Laid, error) {
	lib, s := p.desk.Doc.Library(), p.desk.Doc.Now()
	if p.row < 0 {
		return winding.Laid{}, errors.New("no wound ply names a resin")
	}
	resin, ok := s.Resin(s.Plies[p.row].Resin)
	if !ok {
		return winding.Laid{}, errors.New("the wound ply names no resin")
	}
	density, ok := lib.BinderDensity(resin)
	if !ok {
		return winding.Laid{}, errors.New("the resin's density is not known")
	}
	fiber, ok := lib.FiberDensity(&t.material)
	if !ok {
		return winding.Laid{}, errors.New("the fiber's density is not known")
	}
	share := s.Plies[p.row].GlassContent
	if !share.Given {
		g, ok := t.material.GlassContentIn(laminate.StructuralLayer)
		if !ok {
			return winding.Laid{}, errors.New("the band's glass content is not known")
		}
		share = laminate.Some(g)
	}
	return winding.Binder{FiberDensity: fiber, Density: density, FiberContent: share.Value}.Lay(t.pattern.CoverMass)
}

// keep makes the band the schedule's own, one change.
func (p *Winding) keep() {
	t, err := p.try()
	if err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	if t.material.ID == "" {
		p.desk.Refuse("there is no band to keep it as: the library has none")
		return
	}
	m := t.material
	m.Source = "worked out on the winding page; prove it by a weighed sample"
	row := p.desk.Row
	p.desk.Apply(edit.SetMaterial(p.desk.Doc.Now(), m, fmt.Sprintf("%d tows of %s on %s", t.band.Tows, m.Tow.Text(), m.BandWidth.Text())))
	p.desk.Row = row
}

// angle gives the angle to the wound ply worked at, one change.
func (p *Winding) giveAngle() {
	t, err := p.try()
	if err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	a := t.angle
	p.desk.Apply(edit.SetPly(p.desk.Doc.Now(), p.desk.Doc.Library(), p.row, "angle", "angle "+quantity.US.Figure(a, quantity.Angle), func(ply *laminate.Ply) {
		ply.Angle = laminate.Some(a)
	}))
}

// Press handles a key or a paste.
func (p *Winding) Press(e keys.Event) page.Wish {
	p.fill()
	if !p.open && e.Key == keys.Esc {
		return page.Back
	}
	found, why := p.acts.Press(p, p.Scope(), e)
	switch {
	case why != "":
		p.desk.Refuse(why)
	case found:
	case p.open:
		f := &p.fields[p.at]
		if !f.Press(e) {
			p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes it, Esc leaves it")
		} else if p.at == fieldBand && f.Changed() && f.Text != "" {
			p.take(f.Text)
			p.open = false
		}
	default:
		return page.Leave
	}
	return page.Done
}

func acts() page.Acts[*Winding] {
	row := func(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Winding) string, do func(*Winding, keys.Event)) page.Act[*Winding] {
		return page.Act[*Winding]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: can, Do: do}
	}
	const g, f = "On the winding page", "A figure on the winding page"
	enter := func(p *Winding, at int) {
		p.settle()
		p.at, p.open = at, true
		p.fields[at].Enter()
	}
	return page.Acts[*Winding]{
		row(scopeWinding, "figure", g, []string{"1", "2", "3", "4", "5", "6"}, "1-6", "figure", "type another figure; nothing is changed yet", 1, nil, func(p *Winding, e keys.Event) {
			d, _ := e.Digit()
			enter(p, d-1)
		}),
		row(scopeWinding, "open figure", g, []string{keys.Enter}, "", "open", "type the figure the pointer is on", 4, nil, func(p *Winding, _ keys.Event) { enter(p, p.at) }),
		row(scopeWinding, "other figure", g, []string{keys.Up, keys.Down}, "↑↓", "other figure", "another figure", 5, nil, func(p *Winding, e keys.Event) {
			if e.Key == keys.Up {
				p.at = max(0, p.at-1)
			} else {
				p.at = min(fieldCount-1, p.at+1)
			}
		}),
		row(scopeWinding, "keep band", g, []string{"+"}, "", "keep band", "make this the schedule's own band: plies of it follow", 2, func(p *Winding) string {
			if _, err := p.try(); err != nil {
				return err.Error()
			}
			return ""
		}, func(p *Winding, _ keys.Event) { p.keep() }),
		row(scopeWinding, "give angle", g, []string{"*"}, "", "give angle", "give this angle to the wound ply", 3, func(p *Winding) string {
			if p.row < 0 {
				return "no ply is wound: lay a band on the bench first"
			}
			return ""
		}, func(p *Winding, _ keys.Event) { p.giveAngle() }),
		row(scopeField, "take figure", f, []string{keys.Enter}, "", "take it", "take what is typed", 1, nil, func(p *Winding, _ keys.Event) {
			p.settle()
			p.open = false
		}),
		row(scopeField, "next figure", f, []string{keys.Down}, "", "next", "take it and go to the next figure", 2, nil, func(p *Winding, _ keys.Event) { enter(p, min(fieldCount-1, p.at+1)) }),
		row(scopeField, "previous figure", f, []string{keys.Up}, "", "one back", "take it and go to the figure before", 3, nil, func(p *Winding, _ keys.Event) { enter(p, max(0, p.at-1)) }),
		row(scopeField, "leave figure", f, []string{keys.Esc}, "", "leave", "leave the figure as it was", 4, nil, func(p *Winding, _ keys.Event) {
			p.fields[p.at].Revert()
			p.open = false
			p.desk.Say("left as it was")
		}),
	}
}
