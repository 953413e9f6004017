package inspect

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/tui/internal/page"
)

// dispositions asks what somebody disposes of: a requirement that fails or that
// nobody measured, or a rule that the schedule breaks or that lacks a fact, as the
// purchaser alone may, or an entry.
func (p *Page) dispositions() page.Overlay {
	p.compare()
	var items []page.Item
	var of []record.Disposition
	add := func(name, note string, d record.Disposition) {
		if !slices.ContainsFunc(of, func(o record.Disposition) bool { return o.Requirement == d.Requirement && o.OfID == d.OfID }) {
			items, of = append(items, page.Item{Name: name, Note: note}), append(of, d)
		}
	}
	for i := range p.rows {
		if r := &p.rows[i]; !r.note && acceptance.Concedable(&r.Line) {
			add("requirement "+r.Key, r.Found, record.Disposition{Requirement: r.Key, Action: record.UseAsIs})
		}
	}
	for i := range p.seen.report.Findings {
		if f := &p.seen.report.Findings[i]; f.Unsettled() {
			add("rule "+f.Rule.ID, f.Message, record.Disposition{Requirement: f.Rule.ID, Action: record.UseAsIs})
		}
	}
	all := p.records.Record().Entries()
	for i := range all {
		e := all[len(all)-1-i]
		switch e.(type) {
		case *record.Reading, *record.Defect, *record.Decision, *record.Dimension, *record.Hydrotest:
			if !e.Head().Struck {
				add(fmt.Sprintf("%4d  %s", e.Head().Number, p.entryText(e)), "", record.Disposition{OfID: e.Head().ID})
			}
		}
	}
	return &page.List{Head: "what becomes of which nonconformance?", Find: "entry", Verb: "take", Items: items, Take: func(i int) error {
		p.Open(p.dispose(items[i].Name, of[i]))
		return nil
	}}
}

// dispose is the form of a disposition.
func (p *Page) dispose(what string, d record.Disposition) page.Overlay {
	action := &page.Field{Label: "what", Choices: record.Actions.Words()}
	procedure := &page.Field{Label: "procedure", Hint: "of the repair or the retest"}
	by := p.records.By()
	who := &page.Field{Label: "who", Text: by.Who}
	role := &page.Field{Label: "role", Text: by.Role, Hint: record.Purchaser + " with use-as-is: the purchaser's concession"}
	why := &page.Field{Label: "why"}
	fields := []*page.Field{action, procedure, who, role, why}
	if d.Requirement != "" {
		fields = []*page.Field{who, role, why} // conceded, or nothing
	}
	s := &page.Form{Head: "disposition of " + strings.TrimSpace(what), Fields: fields}
	s.Check = func(i int) error {
		f := s.Fields[i]
		a, chosen := record.Actions.Parse(action.Text)
		switch text := strings.TrimSpace(f.Text); {
		case f == action && !chosen:
			return errors.New("a digit takes one: repair, retest, use-as-is, which is the purchaser's concession, or scrap")
		case (f == who || f == why || f == role) && text == "":
			return errors.New(f.Label + ": a disposition is answered for")
		case f == role && !strings.EqualFold(text, record.Purchaser) && (d.Requirement != "" || a == record.UseAsIs):
			return errors.New("role: use-as-is is a concession, which only the purchaser makes")
		}
		return nil
	}
	s.Take = func() error {
		if d.Requirement == "" {
			d.Action, _ = record.Actions.Parse(action.Text)
		}
		d.Procedure, d.Why = strings.TrimSpace(procedure.Text), strings.TrimSpace(why.Text)
		d.Entry = p.records.By()
		d.Who, d.Role = strings.TrimSpace(who.Text), strings.TrimSpace(role.Text) // the purchaser may stand by
		if err := p.records.Append(&d); err != nil {
			return err
		}
		p.Desk.Say(fmt.Sprintf("recorded as entry %d: %s; the verdict is %s", len(p.records.Record().Entries()), d.Action, p.answerNow()))
		return nil
	}
	return s
}
