package inspect

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// optional reads a quantity that may be left out.
func optional[D quantity.Dimension](f *page.Field, u quantity.Unit[D]) (q quantity.Quantity[D], err error) {
	if strings.TrimSpace(f.Text) == "" {
		return q, nil
	}
	if q, err = quantity.ParseDefault(f.Text, u); err != nil {
		return q, err
	}
	if q.SI() <= 0 {
		return q, fmt.Errorf("%s: %s is not above 0", f.Label, q.Text())
	}
	return q, nil
}

const yes = "repaired"

// defect is the form of one defect seen.
func (p *Page) defect() page.Overlay {
	u := p.Desk.Units()
	var kinds []string
	for _, k := range spec.Defects.All() {
		kinds = append(kinds, k.String())
	}
	kind := &page.Field{Label: "kind", Choices: kinds}
	side := &page.Field{Label: "side", Choices: []string{spec.ProcessSide.String(), spec.OutsideFace.String()}}
	size := &page.Field{Label: "size", Hint: u.Size().Symbol()}
	depth := &page.Field{Label: "depth", Hint: u.Size().Symbol()}
	count := &page.Field{Label: "count", Hint: "1"}
	area := &page.Field{Label: "in an area of", Hint: u.Surface().Symbol() + "; left out: as required"}
	place := &page.Field{Label: "place", Text: p.kept.place}
	repaired := &page.Field{Label: "repaired", Choices: []string{"not yet", yes}}
	p.records.Offer(place)
	s := &page.Form{Head: "a defect", Fields: []*page.Field{kind, side, size, depth, count, area, place, repaired}}
	taken := func() (d record.Defect, err error) {
		var ok bool
		if d.Kind, ok = spec.Defects.Parse(kind.Text); !ok {
			return d, errors.New("kind: a digit takes one, → goes on to the others")
		}
		d.Side, _ = spec.Sides.Parse(side.Text)
		if d.Size, err = optional(size, u.Size()); err != nil {
			return d, err
		}
		if d.Depth, err = optional(depth, u.Size()); err != nil {
			return d, err
		}
		if c := strings.TrimSpace(count.Text); c != "" {
			if d.Count, err = strconv.Atoi(c); err != nil || d.Count < 1 {
				return d, errors.New("count: enter a whole number, 1 or more")
			}
		}
		if d.Area, err = optional(area, u.Surface()); err != nil {
			return d, err
		}
		d.Entry = p.records.By()
		d.Place, d.Repaired = strings.TrimSpace(place.Text), repaired.Text == yes
		return d, nil
	}
	s.Check = func(i int) error {
		f := s.Fields[i]
		var err error
		switch f {
		case size, depth:
			_, err = optional(f, u.Size())
		case area:
			_, err = optional(f, u.Surface())
		case kind, count:
			_, err = taken()
			if err != nil && !strings.HasPrefix(err.Error(), f.Label) {
				err = nil // another field's
			}
		}
		return err
	}
	s.Take = func() error {
		d, err := taken()
		if err != nil {
			return err
		}
		if err := p.records.Append(&d); err != nil {
			return err
		}
		p.kept.place = place.Text
		p.Desk.Say(fmt.Sprintf("recorded as entry %d: %s; the verdict is %s", len(p.records.Record().Entries()), defectText(&d), p.answerNow()))
		return nil
	}
	s.Below = func(w, _ int) []string { return p.limits(p.Desk.Theme, kind.Text, w) }
	return s
}

// limits draws what is required of defects of a kind.
func (p *Page) limits(t *draw.Theme, kind string, w int) []string {
	var lines []string
	for i := range p.rows {
		if r := &p.rows[i]; r.Key == "inspection.defect" && (kind == "" || strings.HasPrefix(r.Demand, kind)) {
			lines = append(lines, part(t, w, "limit", r.Demand)...)
		}
	}
	if len(lines) == 0 {
		lines = part(t, w, "limit", "none was agreed for this kind: it needs a disposition (8)")
	}
	return lines
}

func defectText(d *record.Defect) string {
	s := d.Kind.String()
	if d.Size.Given() {
		s += " " + d.Size.Text()
	}
	if d.Count > 1 {
		s += " ×" + strconv.Itoa(d.Count)
	}
	if d.Place != "" {
		s += " at " + d.Place
	}
	if d.Repaired {
		s += ", repaired"
	}
	return s
}

// sign is the form of a decision.
func (p *Page) sign() page.Overlay {
	outcome := &page.Field{Label: "decision", Choices: []string{record.Accept.String(), record.Reject.String(), record.AcceptAfterRepair.String()}}
	by := p.records.By()
	who := &page.Field{Label: "who", Text: by.Who, Hint: "signs"}
	role := &page.Field{Label: "role", Text: by.Role, Choices: records.Roles()}
	why := &page.Field{Label: "why", Hint: "needed where the decision is not the verdict"}
	s := &page.Form{Head: "sign a decision", Fields: []*page.Field{outcome, who, role, why}}
	s.Check = func(i int) error {
		o, decided := record.Outcomes.Parse(outcome.Text)
		switch f := s.Fields[i]; {
		case f == outcome && !decided:
			return errors.New("1 accept, 2 reject, 3 accept after repair: somebody decides")
		case f == who && strings.TrimSpace(who.Text) == "":
			return errors.New("a decision is signed: who?")
		case f == role && strings.TrimSpace(role.Text) == "":
			return errors.New("role: a digit takes one")
		case f == why && strings.TrimSpace(why.Text) == "" && o != expectedOutcome(p.answerNow()):
			return fmt.Errorf("the verdict is %s: to decide %s needs a reason", p.answerNow(), o)
		}
		return nil
	}
	s.Take = func() error {
		o, _ := record.Outcomes.Parse(outcome.Text)
		p.records.Enters(who.Text, role.Text)
		d := &record.Decision{Entry: p.records.By(), Outcome: o, Covers: laminate.Some(len(p.records.Record().Entries())), Verdict: p.answerNow().String(),
			Schedule: p.records.Fingerprints().Schedule, Why: strings.TrimSpace(why.Text)}
		if demands, _ := p.records.Specification(); demands != nil {
			d.Specification = schedules.SpecificationFingerprint(demands, p.Desk.Doc.Levels())
		}
		if err := p.records.Append(d); err != nil {
			return err
		}
		p.Desk.Say(fmt.Sprintf("signed as entry %d: %s, by %s", len(p.records.Record().Entries()), o, d.Who))
		return nil
	}
	s.Below = func(w, _ int) []string {
		t := p.Desk.Theme
		a := p.answerNow()
		lines := []string{" " + answerLook(t, a).Render("the verdict is "+answerWord(a))}
		for i := range p.rows {
			if r := &p.rows[i]; !r.note && r.Verdict != acceptance.Meets {
				lines = append(lines, page.Labeled(t, verdictCells, verdictWord(r.Verdict), r.Demand+": "+r.Found, w)...)
			}
		}
		return lines
	}
	return s
}

// verdictCells is room for a verdict in words.
const verdictCells = 13

func expectedOutcome(a acceptance.Answer) record.Outcome {
	switch a {
	case acceptance.Accept:
		return record.Accept
	case acceptance.Reject:
		return record.Reject
	case acceptance.Undetermined, acceptance.NotInspected, acceptance.Conforms, acceptance.DoesNotConform:
	}
	return record.NoOutcome
}

// entries lists the record, the last entry first; one taken is struck.
func (p *Page) entries() page.Overlay {
	all := p.records.Record().Entries()
	items := make([]page.Item, len(all))
	for i := range all {
		e := all[len(all)-1-i]
		it := page.Item{Name: fmt.Sprintf("%4d  %s", e.Head().Number, p.entryText(e))}
		if e.Head().Struck {
			it.Mark, it.Word, it.Look, it.Why = "✗", "struck", p.Desk.Theme.Dim, "it is struck already"
		}
		switch e.(type) {
		case *record.Struck:
			it.Why = "a strike stands: what was struck is entered anew"
		case *record.Adopted, *record.Joined, *record.Cut:
			it.Why = "it says how the record came about, and stands"
		}
		items[i] = it
	}
	head := "entries, the last first: none can be changed; Enter strikes one, with a reason"
	if torn := p.records.Record().Torn(); torn != "" {
		head = "recovered: " + torn
	}
	return &page.List{Head: head, Find: "entry", Verb: "strike", Items: items, Take: func(i int) error {
		if why := p.records.NeedOwn("6"); why != "" {
			return errors.New(why)
		}
		p.records.Named(p.Open, func() { p.meant(func() { p.Open(p.strike(all[len(all)-1-i].Head().Number)) }) })
		return nil
	}}
}

func (p *Page) entryText(of record.Any) string {
	switch e := of.(type) {
	case *record.Laid:
		s := "ply " + strconv.Itoa(e.Ply) + " laid" + clockText(e.At) + by(e.Who)
		if e.Remark != "" {
			s += ": " + e.Remark
		}
		return s
	case *record.Reading:
		return kindWord(e.Kind, e.Group) + ": " + p.value(e) + at(e.Place) + by(e.Who)
	case *record.Defect:
		return defectText(e)
	case *record.Disposition:
		of := e.Requirement
		if of == "" {
			of = "entry " + strconv.Itoa(e.Of)
		}
		return e.Action.String() + ": " + of + by(e.Who) + clockText(e.At)
	case *record.Decision:
		return e.Outcome.String() + by(e.Who) + clockText(e.At)
	case *record.Struck:
		return "strikes entry " + strconv.Itoa(e.Of) + ": " + e.Why + by(e.Who)
	case *record.Adopted:
		return "entries without a seal adopted" + by(e.Who) + clockText(e.At)
	case *record.Dimension:
		return strings.ReplaceAll(e.What.String(), "-", " ") + ": " + e.Value.Text() + at(e.Place) + by(e.Who)
	case *record.Hydrotest:
		return "hydrotest: " + e.Pressure.Text() + " held " + e.Held + ", " + page.Count(e.Leaks.Value, "leak") + by(e.Who)
	case *record.Instrument:
		return "instrument " + e.Instrument + ", calibrated " + e.Calibrated.Format(time.DateOnly) + by(e.Who)
	case *record.PostCure:
		return "post-cure: " + e.Temperature.Text() + " held " + e.Held + by(e.Who)
	case *record.Hold:
		return records.HoldText(e) + by(e.Who)
	case *record.Specimen:
		return "specimen " + e.Mark + " kept" + at(e.Place) + by(e.Who)
	case *record.Photograph:
		return "photograph " + e.File + at(e.Place) + by(e.Who)
	case *record.Marked:
		return "serial number " + e.Serial + by(e.Who)
	case *record.Preparation:
		word := "not abraded"
		if e.Abraded.Value {
			word = "abraded"
		}
		return "face of " + face(e.Onto) + ": " + word + remark(e.Finish) + by(e.Who)
	case *record.Bond:
		return "bond onto " + face(e.Onto) + remark(e.Bonder) + by(e.Who)
	case *record.Revision:
		return "lay-up goes on to another revision of the schedule" + by(e.Who) + clockText(e.At)
	case *record.Joined:
		return "copies of the record joined" + by(e.Who) + clockText(e.At)
	case *record.Cut:
		return "a half-written entry put aside in " + e.Aside + clockText(e.At)
	}
	return "entry"
}

func by(who string) string {
	if who == "" {
		return ""
	}
	return ", " + who
}

func at(place string) string {
	if place == "" {
		return ""
	}
	return " at " + place
}

func clockText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return " " + t.Format("2006-01-02 15:04")
}

// strike asks for the reason an entry is taken back.
func (p *Page) strike(number int) page.Overlay {
	why := &page.Field{Label: "why", Hint: "is it struck"}
	e := p.records.Record().Entry(number)
	s := &page.Form{Head: fmt.Sprintf("strike entry %d: %s", number, p.entryText(e)), Fields: []*page.Field{why}}
	s.Check = func(i int) error {
		if s.Fields[i] == why && strings.TrimSpace(why.Text) == "" {
			return errors.New("an entry is struck with a reason")
		}
		return nil
	}
	s.Take = func() error {
		if err := p.records.Record().Strike(number, p.records.By(), strings.TrimSpace(why.Text)); err != nil {
			return err
		}
		p.Desk.Say(fmt.Sprintf("struck entry %d; it stays in the record and counts no more. The verdict is %s", number, p.answerNow()))
		return nil
	}
	return s
}

// canAdopt says why there is nothing to adopt.
func (p *Page) canAdopt() string {
	if why := p.records.NeedOwn("6"); why != "" {
		return why
	}
	if len(p.records.Record().Now().Trail.Unsealed) == 0 {
		return "no entry waits for somebody to adopt it: all have a seal, or were adopted"
	}
	return ""
}

// adopt is the form by which somebody answers for entries without a seal.
func (p *Page) adopt() page.Overlay {
	r := p.records.Record()
	why := &page.Field{Label: "why", Hint: "how you know that they say what was laid and read"}
	s := &page.Form{Head: "adopt " + page.Count(len(r.Now().Trail.Unsealed), "entry without a seal"), Fields: []*page.Field{why}}
	s.Check = func(int) error {
		if strings.TrimSpace(why.Text) == "" {
			return errors.New("why: whoever adopts entries says how they are known")
		}
		return nil
	}
	s.Take = func() error {
		a := &record.Adopted{Entry: p.records.By(), Why: strings.TrimSpace(why.Text)}
		if err := p.records.Append(a); err != nil {
			return err
		}
		p.Desk.Say(fmt.Sprintf("adopted by %s; the verdict is %s", a.Who, p.answerNow()))
		return nil
	}
	return s
}

// tolerances is the form on which somebody states the ply-to-ply scatter.
func (p *Page) tolerances() page.Overlay {
	mass := &page.Field{Label: "areal mass, ±", Hint: "% of it: 95 of 100 plies lie within"}
	resin := &page.Field{Label: "resin content, ±", Hint: "points of %: 95 of 100 plies lie within"}
	if p.stated {
		mass.Text, resin.Text = strings.TrimSuffix(quantity.Percent(p.tolerance.ArealMass), " %"), strings.TrimSuffix(quantity.Percent(p.tolerance.ResinContent), " %")
	}
	share := func(f *page.Field) (float64, error) {
		v, err := quantity.ParsePercent(f.Text)
		if err != nil || v >= 1 {
			return 0, fmt.Errorf("%s: a number of percent from 0 to below 100 is expected", f.Label)
		}
		return v, nil
	}
	s := &page.Form{Head: "ply-to-ply scatter", Fields: []*page.Field{mass, resin}}
	s.Check = func(i int) error {
		_, err := share(s.Fields[i])
		return err
	}
	s.Take = func() error {
		m, err := share(mass)
		if err != nil {
			return err
		}
		r, err := share(resin)
		if err != nil {
			return err
		}
		p.tolerance, p.stated = inspection.Tolerance{ArealMass: m, ResinContent: r}, true
		p.Desk.Say("expected ranges take each ply's scatter as its own; a crew that runs wet on every ply scatters more")
		return nil
	}
	s.Below = func(w, _ int) []string {
		t := p.Desk.Theme
		return part(t, w, "", "State your own: measured ones of the shop are best. The scatter of each ply is taken as its own; the mean is the schedule's figure.")
	}
	return s
}
