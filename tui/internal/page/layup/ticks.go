package layup

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/task"
	"frp/veilwright/tui/internal/widget"
)

func (p *Page) analysis() *laminate.Analysis { return p.desk.Report().Analysis }

func (p *Page) total() int { return p.analysis().Total.Plies }

// rowOf is the schedule's row of a single ply, -1 where there is none.
func (p *Page) rowOf(ply int) int {
	rows := p.analysis().Rows
	for i := range rows {
		if rows[i].First <= ply && ply <= rows[i].Last {
			return i
		}
	}
	return -1
}

// laid is the last tick of every ply that counts.
func (p *Page) laid() map[int]*record.Laid {
	r := p.binder.Record()
	if r == nil {
		return nil
	}
	ticked := make(map[int]*record.Laid, len(r.Now().Laid))
	for i := range r.Now().Laid {
		if t := &r.Now().Laid[i]; !t.Struck {
			ticked[t.Ply] = t
		}
	}
	return ticked
}

// next is the lowest ply not ticked, 0 when all are.
func (p *Page) next() int {
	ticked := p.laid()
	for n := 1; n <= p.total(); n++ {
		if ticked[n] == nil {
			return n
		}
	}
	return 0
}

// ply is the ply shown: the one looked at, else the next, else the last one.
func (p *Page) ply() int {
	if p.look >= 1 && p.look <= p.total() {
		return p.look
	}
	if n := p.next(); n > 0 {
		return n
	}
	return p.total()
}

func needPlies(p *Page) string {
	if p.total() == 0 {
		return "the schedule has no ply to lay up"
	}
	return ""
}

func needRecord(p *Page) string {
	if p.binder.Record() == nil {
		return "no record is open: 3 opens or starts one"
	}
	return needPlies(p)
}

func canTick(p *Page) string {
	if why := needRecord(p); why != "" {
		return why
	}
	switch next := p.next(); {
	case next == 0:
		return "all " + page.Count(p.total(), "ply") + " are recorded"
	case p.ply() != next:
		return fmt.Sprintf("ply %d is shown, ply %d is next: n goes back to it, * records the one shown out of order", p.ply(), next)
	}
	return ""
}

func canDisorder(p *Page) string {
	if why := needRecord(p); why != "" {
		return why
	}
	switch {
	case p.laid()[p.ply()] != nil:
		return fmt.Sprintf("ply %d is already recorded", p.ply())
	case p.ply() == p.next():
		return "this ply is the next one: Enter records it"
	}
	return ""
}

func canStrike(p *Page) string {
	if why := needRecord(p); why != "" {
		return why
	}
	if p.lastTick() == nil {
		return "no ply is recorded yet"
	}
	return ""
}

func (p *Page) lastTick() *record.Laid {
	list := p.binder.Record().Now().Laid
	for i := len(list) - 1; i >= 0; i-- {
		if !list[i].Struck {
			return &list[i]
		}
	}
	return nil
}

func (p *Page) turn(e keys.Event) {
	by := 1
	if e.Key == keys.Up || e.Key == "k" {
		by = -1
	}
	now := p.ply()
	n := max(1, min(p.total(), now+by))
	if n == now {
		p.desk.Refuse("no ply further that way")
		return
	}
	p.look = n
	if n == p.next() {
		p.look = 0
	}
	p.desk.Say(fmt.Sprintf("ply %d is shown", n))
	p.desk.Notice.Tail = "n goes to the next one"
}

// tick ticks the next ply. Before the first one it asks for the climate once.
func (p *Page) tick() {
	if err := p.held(); err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	if len(p.laid()) == 0 && !p.climate.given() && !p.skipped {
		p.task = p.askClimate(func() { p.lay(p.ply(), "") })
		p.desk.Say("before the first ply: warm and dry enough? Enter skips what is not measured")
		return
	}
	p.lay(p.ply(), "")
}

// held is an error where the tick key comes so soon after the last time that it
// is being held down: what would tick a ply then does not.
func (p *Page) held() error {
	now := p.binder.Now()
	since := now.Sub(p.pressed)
	soon := !p.pressed.IsZero() && since >= 0 && since < heldKey
	p.pressed = now
	if soon {
		return errors.New("too soon after the last key for another ply: press again")
	}
	return nil
}

// notes are what is said of a ply again and again.
func notes() []string {
	return []string{"air rolled out a second time", "dry spot wetted again", "lap moved", "pieced at the end of a roll", "waited for resin", "resin thicker than usual", "wrinkle cut out and patched"}
}

// notes asks for the note a ply is ticked with.
func (p *Page) notes() task.Task {
	n := p.ply()
	var items []widget.MenuItem
	for _, s := range notes() {
		items = append(items, widget.MenuItem{Name: s})
	}
	items = append(items, widget.MenuItem{Name: "in your own words"})
	return task.NewMenu(p.desk, fmt.Sprintf("ply %d is laid, with the note:", n), func(i int) task.Task {
		if i < len(notes()) {
			return p.lay(n, notes()[i])
		}
		words := &page.Field{Label: "note"}
		s := &task.Sheet{Head: fmt.Sprintf("note on ply %d", n), Fields: []*page.Field{words}}
		s.Take = func() (task.Task, error) { return p.lay(n, strings.TrimSpace(words.Text)), nil }
		return s
	}, items...)
}

// lay ticks a ply, after its gel time was asked for where it is a gel stop. The
// task it returns, which is the page's too, asks for that.
func (p *Page) lay(n int, note string) task.Task {
	p.task = nil
	if !p.stops(n) {
		if err := p.put(n, note, ""); err != nil {
			p.desk.Refuse(err.Error())
		}
		return nil
	}
	gel := &page.Field{Label: "gel time", Hint: "min since the mix; record it when it has gelled and cooled"}
	s := &task.Sheet{Head: fmt.Sprintf("ply %d is a gel stop: wait, then record it", n), Fields: []*page.Field{gel}}
	s.Take = func() (task.Task, error) {
		if err := p.held(); err != nil {
			return nil, err
		}
		t := strings.TrimSpace(gel.Text)
		if _, err := strconv.ParseFloat(t, 64); err == nil {
			t += " min"
		}
		return nil, p.put(n, note, t)
	}
	p.task = s
	return s
}

// stops tells whether a gel stop follows a single ply.
func (p *Page) stops(n int) bool {
	i := p.rowOf(n)
	return i >= 0 && p.desk.Doc.Now().Plies[i].GelAfter && p.analysis().Rows[i].Last == n
}

// put appends the tick and says so.
func (p *Page) put(n int, note, gel string) error {
	r := p.binder.Record()
	if r == nil {
		return errors.New("the record was closed")
	}
	k := p.kept(n)
	t := &record.Laid{Ply: n, Time: p.binder.Now(), Who: k.who, MaterialLot: k.materialLot, ResinLot: k.resinLot,
		Initiator: k.catalyst, Promoter: k.promoter, GelTime: gel, AirTemperature: p.climate.air, Humidity: p.climate.humidity,
		SurfaceTemperature: p.climate.surface, Remark: note}
	if err := r.Append(t); err != nil {
		return err
	}
	p.climate, p.look = climate{}, 0
	said := fmt.Sprintf("ply %d recorded at %s", n, t.Time.Format("15:04"))
	if note != "" {
		said += ", " + note
	}
	switch {
	case p.stops(n) && gel == "":
		said += "; no gel time recorded"
	case p.next() == 0:
		said += ": the last one, all plies are laid"
	}
	p.desk.Say(said)
	p.desk.Notice.Tail = "x strikes it"
	return nil
}

// strike asks for the reason the last tick is taken back.
func (p *Page) strike() task.Task {
	t := p.lastTick()
	why := &page.Field{Label: "why", Hint: "is it struck"}
	s := &task.Sheet{Head: fmt.Sprintf("strike ply %d, %s", t.Ply, t.Time.Format("15:04")), Fields: []*page.Field{why}}
	n, ply := t.Number, t.Ply
	s.Take = func() (task.Task, error) {
		if err := p.binder.Record().Strike(n, p.kept(ply).who, strings.TrimSpace(why.Text)); err != nil {
			return nil, err
		}
		p.look = 0
		p.desk.Say(fmt.Sprintf("struck ply %d; it stays in the record and no longer counts", ply))
		return nil, nil
	}
	return s
}
