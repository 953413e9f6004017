// Package service is the page for whoever has to choose a barrier and defend
// the choice: what the wall meets, which veils, resins and builds suit it and
// why, and the barrier or the whole wall that follows, laid with one key.
package service

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/facts"
)

// Service is the page. Make it with New.
type Service struct {
	desk  *page.Desk
	acts  page.Acts[*Service]
	frame draw.Frame

	told   told
	at     place // the row pointed at
	top    int   // first line of the matrix drawn
	read   int   // first line of the reasons drawn
	unread int   // lines of reasons that could be scrolled

	fact  int         // the number of the fact that is changed, 0 for none
	line  facts.Line  // its line
	offer *candidates // whole schedules to choose from, nil for none
	wish  page.Wish
}

// told is the advice, and what it was made for.
type told struct {
	advice   *advice.Advice
	rows     []row
	revision uint64
	units    quantity.System
	library  *laminate.Library
}

const (
	scopeService keys.Scope = "service"
	scopeFact    keys.Scope = "service, a fact"
	scopeOffer   keys.Scope = "service, proposals"
)

// New makes the page on a desk.
func New(d *page.Desk) *Service { return &Service{desk: d, acts: acts()} }

// Name is the page's name.
func (*Service) Name() string { return "service" }

// SetSize tells the size of the screen.
func (p *Service) SetSize(w, h int) { p.frame = draw.PageFrame(draw.Size{W: w, H: h}) }

// Reset drops what was begun and what was told of another document.
func (p *Service) Reset() {
	p.told, p.fact, p.offer, p.top, p.read = told{}, 0, nil, 0, 0
}

// Bindings are the page's keys.
func (p *Service) Bindings() []keys.Binding { return p.acts.Bindings() }

// Scope is where keys act now.
func (p *Service) Scope() keys.Scope {
	switch {
	case p.fact > 0:
		return scopeFact
	case p.offer != nil:
		return scopeOffer
	}
	return scopeService
}

// Can tells why a binding cannot act now.
func (p *Service) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that a fact or a list of proposals is open.
func (p *Service) Busy() bool { return p.fact > 0 || p.offer != nil }

// Typing tells that characters go into a fact.
func (p *Service) Typing() bool { return p.fact > 0 }

// Press handles a key or a paste.
func (p *Service) Press(e keys.Event) page.Wish {
	p.wish = page.Done
	if p.fact == 0 && p.offer == nil && e.Key == keys.Esc {
		return page.Back
	}
	found, why := p.acts.Press(p, p.Scope(), e)
	switch {
	case why != "":
		p.desk.Refuse(why)
	case found:
	case p.fact > 0:
		p.typed(e)
	case p.offer != nil && e.Key != "?":
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter lays it, Esc leaves it")
	default:
		return page.Leave
	}
	return p.wish
}

// advice is what suits the document as it stands, made once a revision.
func (p *Service) advice() *advice.Advice {
	d := p.desk.Doc
	t := &p.told
	if t.advice == nil || t.revision != d.Revision() || t.units != d.Units() || t.library != d.Library() {
		*t = told{revision: d.Revision(), units: d.Units(), library: d.Library()}
		t.advice = advice.Advise(d.Now(), t.library, t.units)
		t.rows = rowsOf(t.advice)
		p.settle()
	}
	return t.advice
}

func acts() page.Acts[*Service] {
	row := func(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Service) string, do func(*Service, keys.Event)) page.Act[*Service] {
		return page.Act[*Service]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: can, Do: do}
	}
	const g, f, o = "On the service page", "Changing a fact", "Whole schedules to choose from"
	digits := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}
	return page.Acts[*Service]{
		row(scopeService, "fact", g, digits, "1-9", "change", "change the numbered fact of the service", 1, nil, func(p *Service, e keys.Event) {
			d, _ := e.Digit()
			p.open(d)
		}),
		row(scopeService, "point", g, []string{keys.Up, keys.Down, "k", "j"}, "↑↓", "why", "point at another row and read its reasons", 2, nil, func(p *Service, e keys.Event) {
			by := 1
			if e.Key == keys.Up || e.Key == "k" {
				by = -1
			}
			p.move(by)
		}),
		row(scopeService, "axis", g, []string{keys.Left, keys.Right}, "←→", "", "to the veils, the resins, the builds", 6, nil, func(p *Service, e keys.Event) {
			by := 1
			if e.Key == keys.Left {
				by = -1
			}
			p.section(by)
		}),
		row(scopeService, "ends", g, []string{keys.Home, keys.End}, "", "", "the first row, the last row", 9, nil, func(p *Service, e keys.Event) {
			p.advice()
			if e.Key == keys.Home {
				p.point(0)
			} else {
				p.point(len(p.told.rows) - 1)
			}
		}),
		row(scopeService, "read", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "read on", "more of the reasons", 5, nil, func(p *Service, e keys.Event) {
			if e.Key == keys.PgUp {
				p.read = max(0, p.read-5)
			} else {
				p.read = min(p.unread, p.read+5)
			}
		}),
		row(scopeService, "build this", g, []string{keys.Enter, "b"}, "Enter", "build this", "lay the barrier with what is pointed at in the place of the one there is, and go to the bench", 3, (*Service).whyNotBuild, func(p *Service, _ keys.Event) { p.build() }),
		row(scopeService, "propose", g, []string{"p"}, "", "whole walls", "whole schedules for this part and service, to choose from", 4, nil, func(p *Service, _ keys.Event) { p.propose() }),

		row(scopeFact, "take", f, []string{keys.Enter}, "", "take it", "take what is typed or chosen", 1, nil, func(p *Service, _ keys.Event) {
			if p.commit() {
				p.fact = 0
			}
		}),
		row(scopeFact, "choose", f, []string{keys.Left, keys.Right}, "1-9 ←→", "choose", "in a line of choices: take one; 0 states none", 3, nil, func(p *Service, e keys.Event) { p.typed(e) }),
		row(scopeFact, "leave", f, []string{keys.Esc}, "", "leave", "leave what stood there", 2, nil, func(p *Service, _ keys.Event) { p.leave() }),

		row(scopeOffer, "lay", o, digits, "1-9", "lay it", "lay the numbered schedule, as one change", 1, nil, func(p *Service, e keys.Event) {
			d, _ := e.Digit()
			p.take(p.offer.page() + d - 1)
		}),
		row(scopeOffer, "lay marked", o, []string{keys.Enter}, "", "lay it", "lay the one pointed at, as one change", 2, nil, func(p *Service, _ keys.Event) { p.take(p.offer.at) }),
		row(scopeOffer, "other", o, []string{keys.Up, keys.Down, "k", "j", keys.PgUp, keys.PgDown}, "↑↓", "compare", "point at another one", 3, nil, func(p *Service, e keys.Event) {
			by := map[string]int{keys.Up: -1, "k": -1, keys.Down: 1, "j": 1, keys.PgUp: -shown, keys.PgDown: shown}[e.Key]
			p.offer.at = max(0, min(len(p.offer.list)-1, p.offer.at+by))
		}),
		row(scopeOffer, "leave offers", o, []string{keys.Esc}, "", "leave", "leave everything as it was", 4, nil, func(p *Service, _ keys.Event) {
			p.offer = nil
			p.desk.Say("left as it was")
		}),
	}
}
