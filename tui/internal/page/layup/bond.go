package layup

import (
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance/bonds"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// bonded goes on once it is known how the first ply of an overlay is bonded: what
// was done to the face, when it had gelled, who bonds and by what qualification. What
// is answered is in the record at once, as the preparation of the face: whoever leaves
// before the ply, or is left by the power, finds it there and goes on with Enter.
func (p *Page) bonded(then func()) {
	o := p.records.Overlay()
	r := p.records.Record()
	if o == nil || !o.Kind.Bonds() || r == nil || bonds.Recorded(r.Now(), o.Of) {
		then()
		return
	}
	was := prepared(r.Now(), o.Of)
	p.bond = nil
	abraded := &page.Field{Label: "abraded", Choices: []string{isAbraded, notAbraded}}
	finish := &page.Field{Label: "finish", Hint: "36 grit, dull; empty where not abraded"}
	gelled := &page.Field{Label: "gelled", Hint: records.GelledHint}
	// Who bonds and by what is answered, not filled in: the likely answer is a key away.
	bonder := &page.Field{Label: "bonder", Offers: []string{p.records.By().Who}, Hint: "who lays the first ply onto it"}
	by := &page.Field{Label: "qualification", Hint: "procedure or list"}
	if q := p.records.Qualification(); q != "" {
		by.Offers = []string{q}
	}
	if was != nil {
		abraded.Text, finish.Text = notAbraded, was.Finish
		if was.Abraded.Value {
			abraded.Text = isAbraded
		}
	}
	answered := told(was)
	if answered {
		bonder.Text, by.Text = was.Bonder, was.Qualification
		if !was.Gelled.IsZero() {
			gelled.Text = records.GelledText(was.Gelled)
		}
	}
	check := func() (*record.Bond, error) {
		at, err := records.Gelled(gelled.Text, p.records.Now())
		return &record.Bond{Onto: o.Of, Gelled: at, Bonder: strings.TrimSpace(bonder.Text), Qualification: strings.TrimSpace(by.Text)}, err
	}
	denied := was != nil && !was.Abraded.Value
	s := &page.Form{Head: "before the first ply onto the cured face: " + o.Name(), Fields: []*page.Field{abraded, finish, gelled, bonder, by},
		Straight: answered, Foot: 1,
		Check: func(i int) (err error) {
			switch i {
			case 0:
				if abraded.Text == "" {
					err = errors.New("abraded: 1 abraded, 2 not abraded")
				}
			case 1:
				if err = records.FinishOf(abraded.Text == isAbraded, finish.Text); err == nil && denied && abraded.Text == isAbraded && strings.TrimSpace(finish.Text) == "" {
					err = fmt.Errorf("finish: at %s the face was not abraded: to what finish is it now?", was.At.Local().Format("15:04"))
				}
			case 2:
				if _, err = check(); err == nil {
					records.GelledAgo(gelled)
				}
			}
			return err
		},
		Take: func() error {
			b, err := check()
			if err != nil {
				return err
			}
			now := &record.Preparation{Entry: p.records.By(), Onto: o.Of, Abraded: laminate.Some(abraded.Text == isAbraded), Finish: strings.TrimSpace(finish.Text),
				Gelled: b.Gelled, Bonder: b.Bonder, Qualification: b.Qualification}
			if err := p.prepare(now, was); err != nil {
				return err
			}
			p.bond = b
			if denied && now.Abraded.Value { // what was ground since has a time of its own
				p.Desk.Say("recorded: abraded now, and it was not before; clean the face, then Enter for the ply")
				return nil
			}
			then()
			return nil
		},
		Below: func(w, h int) (lines []string) {
			for _, c := range safety.For(safety.Bonding, safety.Cutting) {
				lines = append(lines, page.Labeled(p.Desk.Theme, labelCells, c.Label, c.Text, w, p.Desk.Theme.Warning)...)
			}
			if len(lines) <= h {
				return lines
			}
			lines = lines[:0] // each in few words rather than some whole and the others not at all
			for _, c := range safety.For(safety.Bonding, safety.Cutting) {
				lines = append(lines, page.Labeled(p.Desk.Theme, labelCells, c.Label, c.Line, w, p.Desk.Theme.Warning)...)
			}
			return lines
		}}
	s.Changed = func() {
		if !s.Straight {
			return
		}
		// What was answered of another face is no answer: the lines that follow are asked anew.
		s.Straight = false
		for _, f := range s.Fields[s.At+1:] {
			if f.Offers == nil && f.Text != "" {
				f.Offers = []string{f.Text}
			}
			f.Text = ""
		}
		p.Desk.Say("changed: the lines that follow are asked anew, → offers what stood there")
	}
	p.Open(s)
	if answered {
		p.Desk.Say("as entered " + was.At.Format("2006-01-02 15:04") + ": Enter takes it as it stands")
	}
}

const isAbraded, notAbraded = "abraded", "not abraded"

// prepared is what the record says last of the face under an overlay, nil for nothing.
func prepared(r *record.Record, of string) (last *record.Preparation) {
	for i := range r.Preparations {
		if x := &r.Preparations[i]; !x.Struck && strings.TrimSpace(x.Onto) == of {
			last = x
		}
	}
	return last
}

// told tells whether an entry says what is asked of the bond to come: one made on the
// inspect page is about the face alone.
func told(x *record.Preparation) bool {
	return x != nil && (!x.Gelled.IsZero() || x.Bonder != "" || x.Qualification != "")
}

// prepare records what was answered of a face, unless it stands there. Where the same
// person tells something else of one preparation by now, the earlier entry is struck.
func (p *Page) prepare(now, was *record.Preparation) error {
	same := was != nil && now.Abraded == was.Abraded && now.Finish == was.Finish
	if same && now.Bonder == was.Bonder && now.Qualification == was.Qualification && records.SameMinute(now.Gelled, was.Gelled) {
		return nil
	}
	number := 0
	if same && told(was) && was.Who == now.Who {
		number = was.Number
	}
	if err := p.records.Append(now); err != nil || number == 0 {
		return err
	}
	return p.records.Record().Strike(number, p.records.By(), "what is asked before the first ply was answered anew")
}

// unbonded says what speaks against the bond that the next ply makes, "" where
// nothing does: it is not recorded before that ply is, and what was answered of it may
// be in the record alone.
func (p *Page) unbonded() string {
	r, o := p.records.Record(), p.records.Overlay()
	if r == nil || o == nil || p.records.OfAnother() != "" || bonds.Recorded(r.Now(), o.Of) {
		return ""
	}
	ahead := p.bond
	if was := prepared(r.Now(), o.Of); ahead == nil && told(was) {
		ahead = &record.Bond{Onto: o.Of, Gelled: was.Gelled, Bonder: was.Bonder, Qualification: was.Qualification}
	}
	if ahead == nil {
		return ""
	}
	with := *r.Now()
	b := *ahead
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
		p.bond = nil
	}
	return err
}
