package inspect

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// onto asks which joint or nozzle a bond is of.
func (p *Page) onto() *page.Field {
	return &page.Field{Label: "onto", Text: p.records.Onto(), Hint: "joint or nozzle, as the job names it; empty: the part itself"}
}

func (p *Page) preparation() page.Overlay {
	onto, finish, remark := p.onto(), &page.Field{Label: "finish", Hint: "36 grit, dull"}, &page.Field{Label: "remark"}
	abraded := &page.Field{Label: "abraded", Choices: []string{"abraded", "not abraded"}}
	return p.entered("a cured face made ready for a bond", []safety.Trigger{safety.Bonding, safety.Cutting}, []*page.Field{onto, abraded, finish, remark}, nil, func() (record.Any, error) {
		x := &record.Preparation{Entry: p.records.By(), Onto: text(onto), Finish: text(finish), Remark: text(remark)}
		if text(abraded) == "" {
			return x, errors.New("abraded: 1 abraded, 2 not abraded")
		}
		x.Abraded = laminate.Some(text(abraded) == "abraded")
		return x, records.FinishOf(x.Abraded.Value, x.Finish)
	})
}

func (p *Page) bond() page.Overlay {
	onto, bonder, by, remark := p.onto(), &page.Field{Label: "bonder"}, &page.Field{Label: "qualification", Hint: "procedure or list"}, &page.Field{Label: "remark"}
	if q := p.records.Qualification(); q != "" {
		by.Offers = []string{q}
	}
	gelled := &page.Field{Label: "gelled", Hint: records.GelledHint}
	return p.entered("the first ply onto a cured face, now", nil, []*page.Field{onto, gelled, bonder, by, remark}, func(f *page.Field) error {
		if f == gelled {
			records.GelledAgo(gelled)
		}
		return nil
	}, func() (record.Any, error) {
		x := &record.Bond{Entry: p.records.By(), Onto: text(onto), Bonder: text(bonder), Qualification: text(by), Remark: text(remark)}
		var err error
		x.Gelled, err = records.Gelled(gelled.Text, x.At)
		return x, err
	})
}

// face is what a bond is of, in words.
func face(of string) string {
	if of == "" {
		return "the part"
	}
	return of
}

func remark(text string) string {
	if text == "" {
		return ""
	}
	return ", " + text
}
