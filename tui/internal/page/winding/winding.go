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
	page.Base

	band   laminate.Material // the band that is tried out
	bands  []laminate.Material
	fields []*page.Field
	form   *page.Form // the figure that is open, or was last
	at     int
	made   *laminate.Schedule
	row    int // ply row the angle came from, -1 for none
}

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
	p := &Winding{Base: page.NewBase("winding", d), row: -1}
	p.Room = func() draw.Size { return draw.Size{W: p.Frame.Body.W - 2, H: fieldCount} }
	const g = "On the winding page"
	p.Rows = keys.Table{
		{Keys: keys.Digits(fieldCount), Short: "figure", Long: "type another figure; nothing is changed yet", Group: g, Rank: 1, Do: func(e keys.Event) {
			n, _ := e.Digit()
			p.enter(n - 1)
		}},
		{Keys: []string{keys.Enter}, Short: "open", Long: "type the figure the pointer is on", Group: g, Rank: 4, Do: func(keys.Event) { p.enter(p.at) }},
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "other figure", Long: "another figure", Group: g, Rank: 5, Do: func(e keys.Event) {
			by := 1
			if e.Key == keys.Up {
				by = fieldCount - 1
			}
			p.at = (p.at + by) % fieldCount
		}},
		{Keys: []string{"+"}, Short: "keep band", Long: "make this the schedule's own band: plies of it follow", Group: g, Rank: 2, Can: func() string {
			if _, err := p.try(); err != nil {
				return err.Error()
			}
			return ""
		}, Do: func(keys.Event) { p.keep() }, Edits: true},
		{Keys: []string{"*"}, Short: "give angle", Long: "give this angle to the wound ply", Group: g, Rank: 3, Can: func() string {
			if p.row < 0 {
				return "no ply is wound: add a band on the bench first"
			}
			return ""
		}, Do: func(keys.Event) { p.giveAngle() }, Edits: true},
		d.Out(g),
	}
	return p
}

// enter opens a figure.
func (p *Winding) enter(at int) {
	f := &page.Form{Head: "a figure", Fields: p.fields, At: at, Once: true, Leave: func() {
		p.fields[p.at].Revert()
		p.Desk.Say("left as it was")
	}}
	f.Each = func(i int) error {
		p.spell(i)
		if i == fieldBand && p.fields[i].Text != "" {
			p.take(p.fields[i].Text)
			f.Refill(p.fields)
		}
		return nil
	}
	p.Open(f)
	p.form = f
}

// Reset drops what was typed.
func (p *Winding) Reset() {
	p.Base.Reset()
	p.made = nil
}

// Settle takes what the schedule says by now.
func (p *Winding) Settle() {
	p.fill()
	if p.Over() != nil {
		p.at = p.form.At
	}
	p.Base.Settle()
}

// fill takes band, diameter and angle from the schedule, once a schedule: what
// was typed since stays until the schedule changes.
func (p *Winding) fill() {
	s := p.Desk.Doc.Now()
	if p.made == s {
		return
	}
	p.made = s
	p.bands = p.bands[:0]
	seen := map[string]bool{}
	for _, list := range [][]laminate.Material{s.Materials, p.Desk.Doc.Library().Materials} {
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
		if m, ok := p.Desk.Doc.Library().Material(s, s.Plies[i].Material); ok && m.Form == laminate.RovingBand {
			if p.row < 0 || i == p.Desk.Row {
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
	d, ok := winding.Diameter(s, p.Desk.Report().Analysis, p.row)
	if !ok || d == inside.SI() {
		return inside.Text()
	}
	unit := p.Desk.Units().Size()
	return quantity.Number(quantity.New(d, quantity.Meter).In(unit), 2) + " " + unit.Name()
}

// spell writes what was typed into a figure with its unit.
func (p *Winding) spell(i int) {
	f := p.fields[i]
	if i != fieldWidth && i != fieldDiameter {
		return
	}
	if q, err := length(f.Text, p.Desk.Units()); err == nil {
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
	u := p.Desk.Units()
	was := p.fields
	p.fields = []*page.Field{
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
	u := p.Desk.Units()
	t.material = p.band
	if err = quantity.ReadTyped(&t.material.Tow, p.fields[fieldTow].Text); err != nil {
		return t, fmt.Errorf("tow: %w", missing(p.fields[fieldTow].Text, err))
	}
	tows, err := strconv.Atoi(p.fields[fieldTows].Text)
	if err != nil || tows < 1 || tows > 100_000 {
		return t, fmt.Errorf("tows: %w", missing(p.fields[fieldTows].Text, errors.New("enter a whole number, 1 or more")))
	}
	t.material.Tows = laminate.Some(tows)
	if t.material.BandWidth, err = length(p.fields[fieldWidth].Text, u); err != nil {
		return t, fmt.Errorf("band width: %w", err)
	}
	if t.diameter, err = length(p.fields[fieldDiameter].Text, u); err != nil {
		return t, fmt.Errorf("diameter: %w", err)
	}
	if t.angle, err = strconv.ParseFloat(p.fields[fieldAngle].Text, 64); err != nil {
		return t, fmt.Errorf("angle: %w", missing(p.fields[fieldAngle].Text, errors.New("enter degrees from 0 to 90")))
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
	if p.row < 0 {
		return winding.Laid{}, errors.New("no wound ply names a resin")
	}
	return winding.Lay(p.Desk.Doc.Now(), p.Desk.Doc.Library(), p.row, &t.material, t.pattern.CoverMass)
}

// keep makes the band the schedule's own, one change.
func (p *Winding) keep() {
	t, err := p.try()
	if err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	if t.material.ID == "" {
		p.Desk.Refuse("there is no band to keep it as: the library has none")
		return
	}
	m := t.material
	m.Source = "worked out on the winding page; confirm it by a weighed sample"
	row := p.Desk.Row
	p.Desk.Apply(edit.SetMaterial(p.Desk.Doc.Now(), m, fmt.Sprintf("%d tows of %s on %s", t.band.Tows, m.Tow.Text(), m.BandWidth.Text())))
	p.Desk.Row = row
}

// angle gives the angle to the wound ply worked at, one change.
func (p *Winding) giveAngle() {
	t, err := p.try()
	if err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	a := t.angle
	p.Desk.Apply(edit.SetPly(p.Desk.Doc.Now(), p.Desk.Doc.Library(), p.row, "angle", "angle "+quantity.US.Figure(a, quantity.Angle), func(ply *laminate.Ply) {
		ply.Angle = laminate.Some(a)
	}))
}

// Alone tells that there is room beside it.
func (*Winding) Alone() int { return 80 }
