// Package service is the page for whoever has to choose a barrier and defend
// the choice: what the wall meets, which veils, resins and builds suit it and
// why, and the barrier or the whole wall that follows, laid with one key.
package service

import (
	"strings"

	"github.com/charmbracelet/bubbles/viewport"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/jobdata"
)

// Service is the page. Make it with New.
type Service struct {
	page.Base

	advised advised
	at      place // the row pointed at
	top     int   // first line of the matrix drawn
	reasons viewport.Model

	fact int // the number of the fact that is changed while one is
}

// advised is the advice, and what it was made for.
type advised struct {
	advice   *advice.Advice
	rows     []row
	revision uint64
	units    quantity.System
	library  *laminate.Library
}

// New makes the page on a desk.
func New(d *page.Desk) *Service {
	p := &Service{Base: page.NewBase("service", d)}
	p.Room = func() draw.Size { return draw.Size{W: p.Frame.Body.W, H: factRoom} }
	const g = "On the service page"
	p.Rows = keys.Table{
		{Keys: keys.Digits(9), Short: "change", Long: "change the numbered fact of the service", Group: g, Rank: 1, Do: func(e keys.Event) {
			n, _ := e.Digit()
			p.fact = n
			p.Open(jobdata.One(d, numbered[n-1]))
		}},
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "why", Long: "choose another row and read its reasons", Group: g, Rank: 2, Do: keys.By(keys.Up, p.move)},
		{Keys: []string{keys.Left, keys.Right}, Long: "to the veils, the resins, the builds", Group: g, Rank: 6, Do: keys.By(keys.Left, p.section)},
		{Keys: []string{keys.Home, keys.End}, Long: "the first row, the last row", Group: g, Rank: 9, Do: func(e keys.Event) {
			if e.Key == keys.Home {
				p.point(0)
			} else {
				p.point(len(p.advised.rows) - 1)
			}
		}},
		{Keys: []string{keys.PgUp, keys.PgDown, keys.Space}, Show: "PgUp PgDn", Short: "read on", Long: "more of the reasons", Group: g, Rank: 5, Do: keys.By(keys.PgUp, func(by int) {
			if by < 0 {
				p.reasons.HalfPageUp()
			} else {
				p.reasons.HalfPageDown()
			}
		})},
		// Not Enter: it takes a fact, and one too many of it must build nothing.
		{Keys: []string{"+"}, Short: "build this", Long: "replace the barrier with the selected one, and go to the bench", Group: g, Rank: 3, Edits: true, Can: p.whyNotBuild, Do: func(keys.Event) { p.build() }},
		{Keys: []string{"p"}, Short: "whole walls", Long: "whole schedules for this part and service, to choose from", Group: g, Rank: 4, Do: func(keys.Event) { p.propose() }},
		d.Out(g),
	}
	return p
}

// Reset drops what was begun and what was advised on another document.
func (p *Service) Reset() {
	p.Base.Reset()
	p.advised, p.top = advised{}, 0
	p.reasons.GotoTop()
}

// Settle makes the advice of the document as it stands, and keeps what is
// pointed at in sight.
func (p *Service) Settle() {
	p.advice()
	p.Base.Settle()
	if p.Over() == nil {
		p.fact = 0
	}
	main, _, side := p.rects()
	p.scroll(main.H)
	p.reasons.Width, p.reasons.Height = side.W, side.H
	p.reasons.SetContent(strings.Join(p.reasonLines(side.W), "\n"))
	p.reasons.SetYOffset(p.reasons.YOffset)
}

// advice is what suits the document as it stands, made once a revision.
func (p *Service) advice() *advice.Advice {
	d := p.Desk.Doc
	t := &p.advised
	if t.advice == nil || t.revision != d.Revision() || t.units != d.Units() || t.library != d.Library() {
		*t = advised{revision: d.Revision(), units: d.Units(), library: d.Library()}
		t.advice = advice.Advise(d.Now(), t.library, t.units)
		t.rows = rowsOf(t.advice)
		p.stay()
	}
	return t.advice
}
