package inspect

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/tui/internal/page"
)

// entered is a form of one entry about the finished part; read makes the entry
// of its fields, or says which of them is wrong; doubt asks about what is hardly
// meant, and may be nil.
func (p *Page) entered(head string, warn []safety.Trigger, fields []*page.Field, doubt func(*page.Field) error, read func() (record.Any, error)) page.Overlay {
	p.records.Offer(fields...)
	s := &page.Form{Head: head, Fields: fields}
	s.Check = func(i int) error {
		// What is wrong is said at its own field, or at the last.
		_, err := read()
		if err != nil && i < len(fields)-1 && !strings.HasPrefix(err.Error(), fields[i].Label+":") {
			err = nil
		}
		if err == nil && doubt != nil {
			err = doubt(fields[i])
		}
		return err
	}
	s.Take = func() error {
		e, err := read()
		if err != nil {
			return err
		}
		if err := p.records.Append(e); err != nil {
			return err
		}
		p.Desk.Tell(fmt.Sprintf("recorded as entry %d: %s; the verdict is %s", len(p.records.Record().Entries()), p.entryText(e), p.answerNow()), "4 strikes an entry")
		return nil
	}
	if len(warn) > 0 {
		s.Foot = 1 // cautions stand whole, however long what is said beside them
	}
	s.Below = func(w, _ int) []string {
		var lines []string
		for _, c := range safety.For(warn...) {
			lines = append(lines, page.Labeled(p.Desk.Theme, labelCells, c.Label, c.Text, w, p.Desk.Theme.Warning)...)
		}
		return lines
	}
	return s
}

// field reads a physical value that is needed.
func field[D quantity.Dimension](f *page.Field, u quantity.Unit[D]) (q quantity.Quantity[D], err error) {
	if q, err = quantity.ParseDefault(f.Text, u); err != nil {
		err = fmt.Errorf("%s: %w", f.Label, err)
	}
	return q, err
}

func text(f *page.Field) string { return strings.TrimSpace(f.Text) }

// held reads a time of minutes, or with its unit.
func held(f *page.Field) (string, error) {
	s := decimal(f.Text)
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		s += " min"
	}
	if _, ok := record.Span(s); !ok {
		return "", fmt.Errorf("%s: minutes above 0, or a time such as 1.5 h", f.Label)
	}
	return s, nil
}

func (p *Page) dimension() page.Overlay {
	u := p.Desk.Units()
	what := &page.Field{Label: "what", Choices: spec.Measures.Words()}
	value := &page.Field{Label: "value", Hint: u.Size().Symbol()}
	place := &page.Field{Label: "place", Text: p.kept.place}
	instrument := &page.Field{Label: "instrument", Text: p.kept.instrument}
	witness := &page.Field{Label: "witness", Text: p.kept.witness}
	asked := doubts{}
	return p.entered("a dimension", nil, []*page.Field{what, value, place, instrument, witness}, func(f *page.Field) error {
		if measure, _ := spec.Measures.Parse(what.Text); f == value {
			size := p.expectedSize(measure)
			return unit(asked, f, u.Size(), size, "it should be about "+u.Figure(size, quantity.Size), "mm", "in", "ft", "m")
		}
		return nil
	}, func() (record.Any, error) {
		d := &record.Dimension{Entry: p.records.By(), Place: text(place), Instrument: text(instrument), Witness: text(witness)}
		var ok bool
		if d.What, ok = spec.Measures.Parse(what.Text); !ok {
			return d, errors.New("what: a digit takes one, → goes on to the others")
		}
		var err error
		if d.Value, err = field(value, u.Size()); err == nil && d.Value.SI() < 0 {
			err = errors.New("value: it is below 0")
		}
		p.kept.place, p.kept.instrument, p.kept.witness = place.Text, instrument.Text, witness.Text
		return d, cmp.Or(err, p.records.OwnWitness(witness, ""))
	})
}

func (p *Page) hydrotest() page.Overlay {
	u := p.Desk.Units()
	medium := &page.Field{Label: "medium", Text: record.Water, Hint: "water; never gas"}
	pressure := &page.Field{Label: "pressure", Hint: u.Load().Symbol()}
	span := &page.Field{Label: "held", Hint: "min"}
	leaks := &page.Field{Label: "leaks", Hint: "how many were seen; 0 for none"}
	gauge := &page.Field{Label: "gauge", Text: p.kept.instrument}
	witness := &page.Field{Label: "witness", Text: p.kept.witness}
	asked := doubts{}
	return p.entered("a test under water at pressure", []safety.Trigger{safety.PressureTest}, []*page.Field{medium, pressure, span, leaks, gauge, witness}, func(f *page.Field) error {
		load, time, says := p.expectedTest()
		switch f {
		case pressure:
			return unit(asked, f, u.Load(), load.SI(), says+" "+load.TextFor(u, u.Load()), "psi", "kPa", "bar")
		case span:
			return asked.hours(f, time, says+" "+time.String())
		}
		return nil
	}, func() (record.Any, error) {
		h := &record.Hydrotest{Entry: p.records.By(), Medium: strings.ToLower(text(medium)), Instrument: text(gauge), Witness: text(witness)}
		if h.Medium != record.Water {
			return h, errors.New("medium: " + record.GasRefused)
		}
		var err error
		if h.Pressure, err = field(pressure, u.Load()); err == nil && h.Pressure.SI() <= 0 {
			err = errors.New("pressure: it is not above 0")
		}
		if err != nil {
			return h, err
		}
		if h.Held, err = held(span); err != nil {
			return h, err
		}
		n, err := strconv.Atoi(text(leaks))
		if err != nil || n < 0 {
			return h, errors.New("leaks: enter a whole number, 0 for none")
		}
		h.Leaks = laminate.Some(n)
		return h, p.records.OwnWitness(witness, "")
	})
}

func (p *Page) calibration() page.Overlay {
	name := &page.Field{Label: "instrument", Hint: "as readings name it"}
	what := &page.Field{Label: "what", Hint: "thickness gauge, Barcol impressor, pressure gauge"}
	on := &page.Field{Label: "calibrated", Hint: "2026-01-15"}
	due := &page.Field{Label: "due", Hint: "2027-01-15"}
	day := func(f *page.Field) (time.Time, error) {
		t, err := time.Parse(time.DateOnly, text(f))
		if err != nil {
			err = fmt.Errorf("%s: a date such as 2026-01-15", f.Label)
		}
		return t, err
	}
	asked := doubts{}
	return p.entered("an instrument and its calibration", nil, []*page.Field{name, what, on, due}, func(f *page.Field) error {
		if until, err := day(due); f == due && err == nil && until.Before(p.records.Now()) {
			return asked.ask(f, "its calibration has run out by today")
		}
		return nil
	}, func() (record.Any, error) {
		i := &record.Instrument{Entry: p.records.By(), Instrument: text(name), What: text(what)}
		if i.Instrument == "" {
			return i, errors.New("instrument: a name is needed")
		}
		var err error
		if i.Calibrated, err = day(on); err == nil && i.Calibrated.After(p.records.Now()) {
			err = errors.New("calibrated: it is in the future")
		}
		if err != nil {
			return i, err
		}
		if i.Due, err = day(due); err == nil && i.Due.Before(i.Calibrated) {
			err = errors.New("due: it is before the calibration")
		}
		return i, err
	})
}

func (p *Page) postCure() page.Overlay {
	u := p.Desk.Units()
	heat := &page.Field{Label: "temperature", Hint: u.Heat().Symbol()}
	span := &page.Field{Label: "held", Hint: "min, or 4 h"}
	instrument := &page.Field{Label: "instrument", Text: p.kept.instrument}
	remark := &page.Field{Label: "remark"}
	asked := doubts{}
	return p.entered("a post-cure", nil, []*page.Field{heat, span, instrument, remark}, func(f *page.Field) error {
		switch f {
		case heat:
			return p.cureHeat(asked, f)
		case span:
			return asked.hours(f, usualCure, "a post-cure takes hours")
		}
		return nil
	}, func() (record.Any, error) {
		c := &record.PostCure{Entry: p.records.By(), Instrument: text(instrument), Remark: text(remark)}
		var err error
		if c.Temperature, err = field(heat, u.Heat()); err != nil {
			return c, err
		}
		c.Held, err = held(span)
		return c, err
	})
}

func (p *Page) holdPoint() page.Overlay {
	fields, read := p.records.HoldPoint("", p.kept.witness)
	return p.entered("a hold or witness point", nil, fields, nil, func() (record.Any, error) { return read() })
}
