package layup

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// details go with every tick until they are changed: a lot as long as the
// material, and the rest as long as the resin, is the same.
type details struct {
	materialLot, resinLot string
	catalyst, promoter    laminate.Optional[float64]

	material, resin string // what they were typed for
	at              time.Time
	given           bool
}

// kept are the details a ply's tick gets: from the last tick of the same
// material and of the same resin, unless something was typed since.
func (p *Page) kept(ply int) details {
	var d details
	row := p.records.RowOf(ply)
	if row < 0 {
		return d
	}
	plies := p.records.Schedule().Plies
	d.material, d.resin = plies[row].Material, plies[row].Resin
	if r := p.records.Record(); r != nil {
		for i := range r.Now().Laid {
			t := &r.Now().Laid[i]
			from := p.records.RowOf(t.Ply)
			if t.Struck || from < 0 {
				continue
			}
			if plies[from].Material == d.material {
				d.materialLot = t.MaterialLot
			}
			if plies[from].Resin == d.resin {
				d.resinLot, d.catalyst, d.promoter = t.ResinLot, t.Initiator, t.Promoter
			}
		}
	}
	if !p.typed.given {
		return d
	}
	if p.typed.material == d.material {
		d.materialLot = p.typed.materialLot
	}
	if p.typed.resin == d.resin {
		d.resinLot, d.catalyst, d.promoter = p.typed.resinLot, p.typed.catalyst, p.typed.promoter
	}
	return d
}

// decimal lets the comma of a keypad stand for the point.
func decimal(s string) string {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	return s
}

// share reads percent that may be left out.
func share(f *page.Field) (laminate.Optional[float64], error) {
	v, err := page.ReadPercent(f.Text)
	if err != nil {
		return v, fmt.Errorf("%s: enter a percentage from 0 to 100", f.Label)
	}
	return v, nil
}

func percentText(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return strconv.FormatFloat(100*o.Value, 'g', 6, 64)
}

// askDetails is the form of what is kept.
func (p *Page) askDetails() {
	n := p.ply()
	k := p.kept(n)
	by := p.records.By()
	who := &page.Field{Label: "who", Text: by.Who}
	role := &page.Field{Label: "role", Text: by.Role, Choices: records.Roles()}
	lot := &page.Field{Label: "lot of " + k.material, Text: k.materialLot}
	resin := &page.Field{Label: "lot of resin " + k.resin, Text: k.resinLot}
	catalyst := &page.Field{Label: "initiator", Text: percentText(k.catalyst), Hint: "% of the resin, by the resin manufacturer's table"}
	promoter := &page.Field{Label: "promoter", Text: percentText(k.promoter), Hint: "% of the resin, by the resin manufacturer's table"}
	p.records.Offer(who, lot, resin)
	s := &page.Form{Head: "kept from ply to ply", Fields: []*page.Field{who, role, lot, resin, catalyst, promoter}}
	// What Enter goes past is kept: somebody called away loses no line.
	keep := func() error {
		c, err := share(catalyst)
		if err != nil {
			return err
		}
		pr, err := share(promoter)
		if err != nil {
			return err
		}
		p.records.Enters(who.Text, role.Text)
		p.typed = details{materialLot: strings.TrimSpace(lot.Text), resinLot: strings.TrimSpace(resin.Text),
			catalyst: c, promoter: pr, material: k.material, resin: k.resin, at: p.records.Now(), given: true}
		return nil
	}
	asked, meant := "", map[*page.Field]string{}
	s.Check = func(i int) error {
		switch f := s.Fields[i]; f {
		case who:
			if err := p.records.Another(who, &asked); err != nil {
				return err
			}
		case catalyst:
			if err := usual(f, catalog.UsualInitiator, meant); err != nil {
				return err
			}
		case promoter:
			if err := usual(f, p.promoted(k.resin), meant); err != nil {
				return err
			}
		}
		return keep()
	}
	s.Take = func() error {
		if err := keep(); err != nil {
			return err
		}
		p.Desk.Say("kept for the next plies; another material or resin needs a lot of its own")
		return nil
	}
	p.Open(s)
}

// ambient is what was measured before a ply.
type ambient struct {
	air, surface quantity.Temperature
	humidity     laminate.Optional[float64]
	at           time.Time
}

// shift is how long ambient conditions measured once go with the plies that are
// recorded (common practice, no source).
const shift = 4 * time.Hour

// measured are the ambient conditions that go with the next tick: none once they
// are older than a shift.
func (p *Page) measured() ambient {
	if since := p.records.Now().Sub(p.ambient.at); since < 0 || since > shift {
		return ambient{}
	}
	return p.ambient
}

func (c ambient) given() bool {
	return c.air.Given() || c.surface.Given() || c.humidity.Given
}

// warnings say what speaks against laying now, dew first: nothing bonds through it, and
// where there is little room the first alone is read. untold is what cannot be determined.
func (c ambient) warnings(u quantity.System) (against []string, untold string) {
	if c.air.Given() && quantity.Below(c.air.In(quantity.Celsius), inspection.LowestAir) {
		against = append(against, "air "+u.Temperature(c.air.SI())+" is below "+celsius(inspection.LowestAir, u)+" ("+inspection.ByPractice+")")
	}
	if c.humidity.Given && quantity.Above(c.humidity.Value, inspection.HighestHumidity) {
		against = append(against, "humidity "+quantity.Share(c.humidity.Value)+" is above "+quantity.Share(inspection.HighestHumidity)+" ("+inspection.ByPractice+")")
	}
	if !c.air.Given() || !c.humidity.Given || !c.surface.Given() {
		return against, "dew point cannot be determined without air, humidity and surface"
	}
	dew, err := inspection.DewPoint(c.air.In(quantity.Celsius), c.humidity.Value)
	if err != nil {
		return against, "dew point cannot be determined: " + err.Error()
	}
	if quantity.Below(c.surface.In(quantity.Celsius), dew+inspection.DewPointMargin) {
		against = slices.Insert(against, 0, fmt.Sprintf("DEW: surface %s, dew point %s; at least %s above it (%s)", u.Temperature(c.surface.SI()), celsius(dew, u), u.Figure(inspection.DewPointMargin, quantity.Rise), inspection.ByDewPoint))
	}
	return against, ""
}

func celsius(t float64, u quantity.System) string {
	return u.Temperature(quantity.New(t, quantity.Celsius).SI())
}

// line says in one line how things stand.
func (c ambient) line(t *draw.Theme, u quantity.System) (string, draw.Style) {
	if !c.given() {
		return "not measured for this ply (1)", t.Dim
	}
	against, untold := c.warnings(u)
	switch {
	case len(against) > 0:
		return "DO NOT LAY: " + strings.Join(against, "; "), t.Break
	case untold != "":
		return untold, t.Incomplete
	}
	dew, _ := inspection.DewPoint(c.air.In(quantity.Celsius), c.humidity.Value)
	return fmt.Sprintf("air %s, humidity %s, surface %s; dew point %s: dry", u.Temperature(c.air.SI()),
		quantity.Share(c.humidity.Value), u.Temperature(c.surface.SI()), celsius(dew, u)), t.Good
}

func temperature(f *page.Field, u quantity.System) (q quantity.Temperature, err error) {
	if strings.TrimSpace(f.Text) == "" {
		return q, nil
	}
	q, err = quantity.ParseDefault(strings.TrimSpace(f.Text), u.Heat())
	if err != nil {
		return q, err
	}
	if c := q.In(quantity.Celsius); !(c >= -45 && c <= 60) {
		return quantity.Temperature{}, fmt.Errorf("%s: %s is not a shop temperature", f.Label, q.Text())
	}
	return q, nil
}

// likely asks about a humidity that reads as a share: 0.85 is hardly ever 0.85 %. A
// percent sign says that it was meant as typed.
func likely(f *page.Field) error {
	h, err := share(f)
	if err != nil || !h.Given || h.Value > 0.01 || h.Value == 0 || strings.Contains(f.Text, "%") {
		return err
	}
	return percent(f, h.Value)
}

// percent asks whether a number was meant as percent, or as a share of 1.
func percent(f *page.Field, v float64) error {
	typed := strings.TrimSpace(f.Text)
	return page.AsTyped(f.Label+" "+typed+" % is hardly meant", typed+" %", percentText(laminate.Some(100*v))+" %")
}

// usual asks about a share of initiator or promoter that is outside what is usual, once: meant
// is what was answered. A percent sign says that one not far outside is meant as typed.
func usual(f *page.Field, of quantity.Range, meant map[*page.Field]string) error {
	share, err := share(f)
	v, typed := share.Value, strings.TrimSpace(f.Text)
	far := v < of.Low/catalog.FarFromUsual || v > of.High*catalog.FarFromUsual
	switch {
	case err != nil || !share.Given || v == 0 || f.Text == meant[f] || of.Spans(v) || strings.Contains(typed, "%") && !far:
		return err
	case !strings.Contains(typed, "%") && of.Spans(100*v): // typed as a share of 1
		return percent(f, v)
	}
	text := f.Label + " " + quantity.Share(v) + ": usual are " + quantity.Share(of.Low) + " to " + quantity.Share(of.High)
	d := page.Sure(text, quantity.Share(v), func(a page.Answer) { meant[f] = a.Text })
	if looks := quantity.ShareLooksLike(v, of.Spans); looks != "" {
		d.Answers = append(d.Answers, page.Answer{Text: looks, Said: looks})
	}
	return d
}

// promoted is the usual share of promoter of a resin of the schedule.
func (p *Page) promoted(resin string) quantity.Range {
	list := p.records.Report().Schedule.Resins
	cure := laminate.NoCure
	if i := slices.IndexFunc(list, func(r laminate.Resin) bool { return r.ID == resin }); i >= 0 {
		cure = list[i].Cure
	}
	share, _ := catalog.UsualPromoter(cure)
	return share
}

// askAmbient is the form of the ambient conditions; then goes on where a tick waits for it.
func (p *Page) askAmbient(then func()) {
	u := p.Desk.Units()
	air := &page.Field{Label: "air", Hint: u.Heat().Symbol()}
	humid := &page.Field{Label: "humidity", Hint: "%"}
	surface := &page.Field{Label: "surface", Hint: u.Heat().Symbol() + " of the mold or the last ply"}
	was := p.measured() // what is older is measured again
	if was.air.Given() {
		air.Text = was.air.Text()
	}
	if was.surface.Given() {
		surface.Text = was.surface.Text()
	}
	humid.Text = percentText(was.humidity)
	again := p.again && was.given()
	s := &page.Form{Head: "ambient conditions, recorded with the next ply", Fields: []*page.Field{air, humid, surface}, Straight: again}
	s.Changed = func() { s.Straight = false }
	// What cannot be read takes nothing of the others away: they may forbid laying.
	read := func() (ambient, error) {
		var c ambient
		var wrong [3]error
		c.air, wrong[0] = temperature(air, u)
		c.humidity, wrong[1] = share(humid)
		if c.humidity.Given && c.humidity.Value == 0 {
			c.humidity, wrong[1] = laminate.Optional[float64]{}, errors.New("humidity: 0 % does not occur")
		}
		c.surface, wrong[2] = temperature(surface, u)
		return c, cmp.Or(wrong[:]...)
	}
	s.Check = func(i int) (err error) {
		switch f := s.Fields[i]; f {
		case air, surface:
			_, err = temperature(f, u)
		case humid:
			err = likely(f)
		}
		return err
	}
	s.Take = func() error {
		c, err := read()
		if err != nil {
			return err
		}
		if then != nil {
			if err := p.held(); err != nil {
				return err
			}
		}
		if c.at = was.at; !again || c != was { // what is taken as it stood was measured then
			c.at = p.records.Now()
		}
		p.ambient, p.skipped, p.again = c, true, false
		against, _ := c.warnings(u)
		switch {
		case len(against) > 0:
			// The warning stands, and somebody decides: the next tick asks.
			p.Desk.Refuse("DO NOT LAY: " + strings.Join(against, "; "))
			return nil
		case then != nil:
			then()
			return nil
		}
		text, _ := c.line(p.Desk.Theme, u)
		p.Desk.Say(text)
		return nil
	}
	s.Below = func(w, _ int) []string {
		c, err := read()
		text, look := c.line(p.Desk.Theme, u)
		switch {
		case err != nil && !c.given():
			return nil
		case !c.given():
			text = "nothing measured: the record will have no ambient conditions for this ply"
		}
		return page.Labeled(p.Desk.Theme, labelCells, "", text, w, look)
	}
	p.Open(s)
}
