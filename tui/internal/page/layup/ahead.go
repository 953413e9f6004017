package layup

import (
	"time"

	"frp/veilwright/schedules/recorder"
)

// keepAhead takes up what was measured and entered before the program ended and no
// record has, and keeps what there is of it now.
func (p *Page) keepAhead() {
	if a, ok := p.records.Ahead(shift); ok {
		p.takeUp(&a)
	}
	var a recorder.Ahead
	if m := p.measured(); m.given() && !p.done() {
		a.Measured, a.Air, a.Surface, a.Humidity = m.at, m.air, m.surface, m.humidity
	}
	if d := &p.typed; d.given && !p.done() {
		a.Entered, a.Material, a.Resin = d.at, d.material, d.resin
		a.MaterialLot, a.ResinLot, a.Initiator, a.Promoter = d.materialLot, d.resinLot, d.catalyst, d.promoter
	}
	if err := p.records.KeepAhead(a); err != nil {
		p.Desk.Refuse(err.Error())
	}
}

// done tells that no ply is to come.
func (p *Page) done() bool { return p.total() > 0 && p.next() == 0 }

// takeUp goes on with what was left. What was measured anew since stands; lots that a
// ply was recorded with, or that others were recorded after, are the record's to tell.
func (p *Page) takeUp(a *recorder.Ahead) {
	if a.Measured.After(p.ambient.at) {
		p.ambient = ambient{a.Air, a.Surface, a.Humidity, a.Measured}
		p.again = true
	}
	if !p.typed.given && !a.Entered.IsZero() && !p.laidSince(a) {
		p.typed = details{a.MaterialLot, a.ResinLot, a.Initiator, a.Promoter, a.Material, a.Resin, a.Entered, true}
	}
	if p.measured().given() && p.again && !p.Desk.Notice.Refusal {
		p.Desk.Say("ambient conditions measured at " + p.ambient.at.Local().Format("15:04") + ", before the program ended, are there again: 1 shows them")
	}
}

// laidSince tells whether a ply was recorded after lots were entered.
func (p *Page) laidSince(a *recorder.Ahead) bool {
	for _, l := range p.laid() {
		if !l.At.Before(a.Entered.Truncate(time.Second)) {
			return true
		}
	}
	return false
}
