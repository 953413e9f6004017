package layup

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/page"
)

// scheduled is the material that the schedule has for a single ply.
func (p *Page) scheduled(n int) string {
	if i := p.records.RowOf(n); i >= 0 {
		return p.records.Schedule().Plies[i].Material
	}
	return ""
}

// otherwise ticks the ply with what was laid otherwise than written: the
// inspector has to know, and no remark in words is judged.
func (p *Page) otherwise() {
	n := p.ply()
	lay := func(as record.Laid) { p.gate(func(why string) { p.lay(n, why, as) }) }
	number := func(head, label, hint string, read func(string) (record.Laid, error)) {
		f := &page.Field{Label: label, Hint: hint}
		p.Open(&page.Form{Head: head, Fields: []*page.Field{f}, Check: func(int) error {
			_, err := read(strings.TrimSpace(f.Text))
			return err
		}, Take: func() error {
			as, err := read(strings.TrimSpace(f.Text))
			if err == nil {
				lay(as)
			}
			return err
		}})
	}
	p.Open(&page.List{Head: fmt.Sprintf("ply %d is laid otherwise than written:", n), Items: []page.Item{
		{Name: "another material"}, {Name: "another number of plies in its place"}, {Name: "another lap"}, {Name: "another lot", Note: "it goes with this ply and those that follow"},
	}, Take: func(i int) error {
		switch i {
		case 0:
			pool, items := page.Materials(p.Desk)
			p.Open(&page.List{Head: fmt.Sprintf("ply %d was laid of", n), Find: "name", Items: items, Take: func(i int) error {
				if pool[i].ID == p.scheduled(n) {
					return errors.New("that is what the schedule has: Enter records it as written")
				}
				lay(record.Laid{Material: pool[i].ID})
				return nil
			}})
		case 1:
			number(fmt.Sprintf("how many plies in the place of ply %d?", n), "plies", "0 where it was left out", func(s string) (as record.Laid, err error) {
				v, err := strconv.Atoi(s)
				if err != nil || v < 0 || v > 99 || v == 1 {
					return as, errors.New("plies: a whole number from 0 to 99 that is not 1")
				}
				as.Plies = laminate.Some(v)
				return as, nil
			})
		case 2:
			u := p.Desk.Units()
			number(fmt.Sprintf("the lap of ply %d as laid", n), "lap", u.Size().Symbol(), func(s string) (as record.Laid, err error) {
				as.Lap, err = quantity.ParseDefault(s, u.Size())
				if err == nil && !(as.Lap.SI() >= 0 && as.Lap.SI() <= 2) {
					err = errors.New("lap: a length from 0 to 2 m")
				}
				return as, err
			})
		case 3:
			p.askDetails()
		}
		return nil
	}})
}

// strike takes the last tick back, with the reason: it stays in the record.
func (p *Page) strike() {
	t := p.lastTick()
	n, ply := t.Number, t.Ply
	strike := func(why string) error {
		if err := p.records.Record().Strike(n, p.records.By(), why); err != nil {
			return err
		}
		p.look = 0
		p.Desk.Say(fmt.Sprintf("struck ply %d; it stays in the record and no longer counts", ply))
		return nil
	}
	reasons := []string{"recorded by mistake: it is not laid", "taken off again", "something of the entry is wrong"}
	var items []page.Item
	for _, s := range append(reasons, "in your own words") {
		items = append(items, page.Item{Name: s})
	}
	p.Open(&page.List{Head: fmt.Sprintf("undo ply %d, recorded %s, because", t.Ply, t.At.Format("15:04")), Items: items, Take: func(i int) error {
		if i < len(reasons) {
			return strike(reasons[i])
		}
		why := &page.Field{Label: "why"}
		p.Open(&page.Form{Head: fmt.Sprintf("why is ply %d undone?", ply), Fields: []*page.Field{why}, Take: func() error { return strike(strings.TrimSpace(why.Text)) }})
		return nil
	}})
}
