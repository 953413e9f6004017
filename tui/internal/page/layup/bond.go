package layup

import (
	"errors"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance/bonds"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// face is what was answered of the cured face under an overlay. It is kept until its
// first ply is recorded, whoever leaves in between: what is asked again stands there,
// and what was done to the face is recorded anew only where it is another.
type face struct{ of, abraded, finish, gelled, bonder, qualification string }

// bonded goes on once it is known how the first ply of an overlay is bonded: what
// was done to the face, when it had gelled, who bonds and by what qualification.
func (p *Page) bonded(then func()) {
	o := p.records.Overlay()
	if r := p.records.Record(); o == nil || !o.Kind.Bonds() || r == nil || bonds.Recorded(r.Now(), o.Of) {
		then()
		return
	}
	was := &p.face
	if was.of == "" { // who lays it up bonds it; an inspector at the terminal does not
		*was = face{of: o.Name(), qualification: p.records.Qualification()}
		if p.records.By().Role == records.Laminator {
			was.bonder = p.records.By().Who
		}
	}
	p.bond = nil
	abraded := &page.Field{Label: "abraded", Text: was.abraded, Choices: []string{"abraded", "not abraded"}}
	finish := &page.Field{Label: "finish", Text: was.finish, Hint: "36 grit, dull; empty where not abraded"}
	gelled := &page.Field{Label: "gelled", Text: was.gelled, Hint: records.GelledHint}
	bonder := &page.Field{Label: "bonder", Text: was.bonder, Offers: []string{p.records.By().Who}, Hint: "who lays the first ply onto it"}
	by := &page.Field{Label: "qualification", Text: was.qualification, Hint: "procedure or list"}
	check := func() (*record.Bond, error) {
		at, err := records.Gelled(gelled.Text, p.records.Now())
		return &record.Bond{Onto: o.Of, Gelled: at, Bonder: strings.TrimSpace(bonder.Text), Qualification: strings.TrimSpace(by.Text)}, err
	}
	p.Open(&page.Form{Head: "before the first ply onto the cured face: " + o.Name(), Fields: []*page.Field{abraded, finish, gelled, bonder, by},
		Check: func(i int) (err error) {
			switch i {
			case 0:
				if abraded.Text == "" {
					err = errors.New("abraded: 1 abraded, 2 not abraded")
				}
			case 2:
				_, err = check()
			}
			return err
		},
		Take: func() error {
			b, err := check()
			if err != nil {
				return err
			}
			now := face{of: was.of, abraded: abraded.Text, finish: strings.TrimSpace(finish.Text), bonder: b.Bonder, qualification: b.Qualification}
			if !b.Gelled.IsZero() { // hours ago would be others by the time it is asked again
				now.gelled = records.GelledText(b.Gelled)
			}
			if was.abraded != now.abraded || was.finish != now.finish {
				x := &record.Preparation{Entry: p.records.By(), Onto: o.Of, Abraded: laminate.Some(abraded.Text == "abraded"), Finish: now.finish}
				if err := p.records.Append(x); err != nil {
					return err
				}
			}
			p.bond, *was = b, now
			then()
			return nil
		},
		Below: func(w, _ int) (lines []string) {
			for _, c := range safety.For(safety.Bonding, safety.Cutting) {
				lines = append(lines, page.Labeled(p.Desk.Theme, labelCells, c.Label, c.Text, w, p.Desk.Theme.Warning)...)
			}
			return lines
		}})
}

// unbonded says what speaks against the bond that the next ply makes, "" where
// nothing does: it is not recorded before that ply is.
func (p *Page) unbonded() string {
	if p.bond == nil || p.records.Record() == nil {
		return ""
	}
	with := *p.records.Record().Now()
	b := *p.bond
	b.At = p.records.By().At
	with.Bonds, with.Laid = []record.Bond{b}, nil
	for _, f := range bonds.Judge(&with, p.records.Report()) {
		if f.Key == bonds.WindowPassed && f.Severity > rules.Clear {
			return f.Found
		}
	}
	return ""
}

// putBond records the bond with its first ply.
func (p *Page) putBond(by record.Entry) error {
	if p.bond == nil {
		return nil
	}
	p.bond.Entry = by
	err := p.records.Append(p.bond)
	if err == nil {
		p.bond, p.face = nil, face{}
	}
	return err
}
