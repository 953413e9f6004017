package inspect

import (
	"errors"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/tui/internal/page"
)

// onto asks which joint or nozzle a bond is of.
func (p *Page) onto() *page.Field {
	return &page.Field{Label: "onto", Hint: "joint or nozzle, as the job names it; empty: the part itself"}
}

func (p *Page) preparation() page.Overlay {
	onto, finish, remark := p.onto(), &page.Field{Label: "finish", Hint: "36 grit, dull"}, &page.Field{Label: "remark"}
	abraded := &page.Field{Label: "abraded", Choices: []string{"abraded", "not abraded"}}
	return p.entered("a cured face made ready for a bond", []safety.Trigger{safety.Cutting}, []*page.Field{onto, abraded, finish, remark}, nil, func() (record.Any, error) {
		x := &record.Preparation{Entry: p.records.By(), Onto: text(onto), Finish: text(finish), Remark: text(remark)}
		if text(abraded) == "" {
			return x, errors.New("abraded: 1 abraded, 2 not abraded")
		}
		x.Abraded = laminate.Some(text(abraded) == "abraded")
		return x, nil
	})
}

func (p *Page) bond() page.Overlay {
	onto, bonder, by, remark := p.onto(), &page.Field{Label: "bonder"}, &page.Field{Label: "qualification", Hint: "procedure or list"}, &page.Field{Label: "remark"}
	gelled := &page.Field{Label: "gelled", Hint: "the face: 2026-03-02 14:30"}
	return p.entered("the first ply onto a cured face, now", nil, []*page.Field{onto, gelled, bonder, by, remark}, nil, func() (record.Any, error) {
		x := &record.Bond{Entry: p.records.By(), Onto: text(onto), Bonder: text(bonder), Qualification: text(by), Remark: text(remark)}
		if text(gelled) == "" {
			return x, nil // not recorded, and the comparison says so
		}
		t, err := time.ParseInLocation("2006-01-02 15:04", text(gelled), time.Local)
		switch {
		case err != nil:
			return x, errors.New("gelled: a date and time such as 2026-03-02 14:30, or nothing where it is not recorded")
		case t.After(x.At):
			return x, errors.New("gelled: it is later than now")
		}
		x.Gelled = t
		return x, nil
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
