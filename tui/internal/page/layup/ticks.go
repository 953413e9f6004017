package layup

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

func (p *Page) analysis() *laminate.Analysis { return p.records.Analysis() }

func (p *Page) total() int { return p.analysis().Total.Plies }

// laid is the last tick of every ply that counts.
func (p *Page) laid() map[int]*record.Laid {
	r := p.records.Record()
	if r == nil || p.records.OfAnother() != "" { // of another part it says nothing of this one
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

// next is the first ply not ticked, 0 when all are.
func (p *Page) next() int {
	ticked := p.laid()
	for _, n := range p.order().Plies {
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
	if list := p.order().Plies; len(list) > 0 {
		return list[len(list)-1]
	}
	return 0
}

func (p *Page) needPlies() string {
	return p.records.NoPlies()
}

func (p *Page) canBench() string {
	if why := p.needPlies(); why != "" {
		return why
	}
	return p.records.OnBench()
}

func (p *Page) needRecord() string {
	if p.records.Record() == nil && len(p.begun) > 0 {
		return "no record is open: 3 Enter goes on with " + filepath.Base(p.begun[0].Path)
	}
	if why := p.records.NeedThis("3"); why != "" {
		return why
	}
	return p.needPlies()
}

func (p *Page) canTick() string {
	if why := p.needRecord(); why != "" {
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

func (p *Page) canDisorder() string {
	if why := p.needRecord(); why != "" {
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

func (p *Page) canStrike() string {
	if why := p.needRecord(); why != "" {
		return why
	}
	if p.lastTick() == nil {
		return "no ply is recorded yet"
	}
	return ""
}

func (p *Page) lastTick() *record.Laid {
	list := p.records.Record().Now().Laid
	for i := len(list) - 1; i >= 0; i-- {
		if !list[i].Struck {
			return &list[i]
		}
	}
	return nil
}

func (p *Page) turn(e keys.Event) {
	by := 1
	if e.Key == keys.Up {
		by = -1
	}
	now := p.ply()
	n := now
	if list, k := p.order().Plies, p.at(now)+by; k >= 0 && k < len(list) {
		n = list[k]
	}
	if n == now {
		p.Desk.Refuse("no ply further that way")
		return
	}
	p.look = n
	if n == p.next() {
		p.look = 0
	}
	p.Desk.Note(fmt.Sprintf("ply %d is shown", n), "n goes to the next one")
}

// tick ticks the next ply. Before the first one it asks for the ambient once.
func (p *Page) tick() {
	if err := p.held(); err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	if len(p.laid()) == 0 && !p.skipped {
		p.askAmbient(func() { p.gate(func(note string) { p.lay(p.ply(), note, record.Laid{}) }) })
		if p.again && p.measured().given() {
			p.Desk.Say("as measured at " + p.ambient.at.Local().Format("15:04") + ": Enter takes it as it stands, or type what it is now")
			return
		}
		p.Desk.Say("before the first ply: warm and dry enough? Enter skips what is not measured")
		return
	}
	if l := p.lastTick(); l != nil && !l.At.IsZero() {
		if since := p.records.Now().Sub(l.At); since >= 0 && since < holdpoint.TooSoon {
			p.askPace(l.Ply)
			return
		}
	}
	p.gate(func(note string) { p.lay(p.ply(), note, record.Laid{}) })
}

// against says what speaks against laying up: a hold point that is not passed, what
// the schedule breaks, what cannot be judged of it for want of a fact, the ambient
// conditions.
func (p *Page) against(at *points) string {
	parts := at.said()
	ambient, _ := p.measured().warnings(p.Desk.Units())
	parts = append(parts, ambient...)
	if s := p.unbonded(); s != "" {
		parts = append(parts, s)
	}
	if s := p.breaks(); s != "" {
		parts = append(parts, s)
	}
	if s := p.unjudged(); s != "" {
		parts = append(parts, s)
	}
	return strings.Join(parts, "; ")
}

// unjudged says how many rules lack a fact, "" where none does.
func (p *Page) unjudged() string {
	n := page.Tally(p.records.Report())[rules.Incomplete]
	if n == 0 {
		return ""
	}
	return page.Count(n, "rule") + " cannot be determined for want of a fact"
}

// breaks names the rules that the schedule breaks, "" where it breaks none.
func (p *Page) breaks() string {
	var ids []string
	for i := range p.records.Report().Findings {
		if f := &p.records.Report().Findings[i]; f.Severity == rules.Break && !slices.Contains(ids, f.Rule.ID) {
			ids = append(ids, f.Rule.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	what := "the schedule"
	if o := p.records.Overlay(); o != nil {
		what = o.Where()
	}
	return what + " breaks " + strings.Join(ids, ", ")
}

// waits says what the ply shown comes after: the waxed coat of a part or overlay after what
// is bonded onto it. "" where nothing is.
func (p *Page) waits() string {
	if c := p.records.Report().Coat; c != nil && p.ply() >= c.First {
		return c.Before()
	}
	return ""
}

// gate asks before a ply is recorded what it waits for, and then what else speaks
// against it.
func (p *Page) gate(then func(note string)) {
	before := p.waits()
	if before == "" || before == p.coated {
		p.unopposed(then)
		return
	}
	laid := func(note string) {
		p.coated = before
		p.unopposed(func(why string) { then(joined(note, why)) })
	}
	p.Open(&page.List{Head: "is all laid that is bonded onto it?", Text: "The waxed coat comes after " + before + ": nothing bonds to wax.", Items: []page.Item{
		{Name: "no: nothing is recorded"}, {Name: "yes, all laid before the coat"}, {Name: "no, the coat is laid: to be ground off where they bond"},
	}, Take: func(i int) error {
		if i == 0 {
			return nil
		}
		if err := p.held(); err != nil {
			return err
		}
		if i == 1 {
			laid(record.CoatedLast + before)
			return nil
		}
		laid(record.CoatedFirst + before + ": to be ground off where they bond")
		return nil
	}})
}

// unopposed asks before a ply is recorded that something speaks against, once until
// that is something else; what was answered is the tick's remark.
func (p *Page) unopposed(then func(note string)) {
	at := p.pointsBefore(p.ply())
	why := p.against(&at)
	if why == "" || why == p.answered {
		then("")
		return
	}
	p.Desk.Refuse("nothing is recorded until this is answered")
	ask := &page.List{Head: "lay up nevertheless?", Text: why, Items: []page.Item{
		{Name: "no: nothing is recorded"}, {Name: "laid nevertheless; the reasons go into the record"}, {Name: "laid nevertheless, by order of …"},
	}}
	if len(at.list) > 0 { // nobody goes past one without a name
		ask.Head = "HOLD POINT: lay up nevertheless?"
		ask.Items[1].Name = "the point is passed: record that, with who witnesses"
	}
	ask.Take = func(i int) error {
		switch {
		case i == 1 && len(at.list) > 0:
			p.askHold()
		case i == 1:
			if err := p.held(); err != nil {
				return err
			}
			p.answered = why
			then("laid nevertheless: " + why)
		case i == 2:
			by := &page.Field{Label: "by order of"}
			p.Open(&page.Form{Head: "who ordered it, though " + why, Fields: []*page.Field{by}, Check: func(int) error {
				if strings.TrimSpace(by.Text) == "" {
					return errors.New("a name is needed")
				}
				return nil
			}, Take: func() error {
				p.answered = why
				then("laid by order of " + strings.TrimSpace(by.Text) + ": " + why)
				return nil
			}})
		}
		return nil
	}
	p.Open(ask)
}

// askPace asks how a ply can be laid within seconds of the one before; what is
// answered is its note. Enter alone, however often, records nothing.
func (p *Page) askPace(before int) {
	n := p.ply()
	answers := []string{"laid earlier, recorded together", "laid as the second part of the ply before"}
	items := []page.Item{{Name: answers[0]}, {Name: answers[1]}, {Name: "not laid yet: record nothing"}}
	p.Open(&page.List{Head: fmt.Sprintf("ply %d was recorded a moment ago; is ply %d laid?", before, n), Items: items, At: len(answers), Take: func(i int) error {
		if i >= len(answers) {
			return nil
		}
		if err := p.held(); err != nil {
			return err
		}
		p.gate(func(why string) { p.lay(n, joined(answers[i], why), record.Laid{}) })
		return nil
	}})
}

// held is an error where the tick key comes so soon after the last time that it
// is being held down: what would tick a ply then does not.
func (p *Page) held() error {
	now := p.records.Now()
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
func (p *Page) notes() { p.records.Named(p.Open, func() { p.bonded(p.askNote) }) }

func (p *Page) askNote() {
	n := p.ply()
	var items []page.Item
	for _, s := range notes() {
		items = append(items, page.Item{Name: s})
	}
	items = append(items, page.Item{Name: "in your own words"})
	p.Open(&page.List{Head: fmt.Sprintf("ply %d is laid, with the note:", n), Items: items, Take: func(i int) error {
		if i < len(notes()) {
			p.gate(func(why string) { p.lay(n, joined(notes()[i], why), record.Laid{}) })
			return nil
		}
		words := &page.Field{Label: "note"}
		p.Open(&page.Form{Head: fmt.Sprintf("note on ply %d", n), Fields: []*page.Field{words}, Take: func() error {
			p.gate(func(why string) { p.lay(n, joined(strings.TrimSpace(words.Text), why), record.Laid{}) })
			return nil
		}})
		return nil
	}})
}

// joined is a note and what speaks against laying, either of which may be empty.
func joined(note, why string) string {
	if note == "" || why == "" {
		return note + why
	}
	return note + "; " + why
}

// Gel times that are usual; others are asked about once (common practice, no source).
const (
	shortestGel = 3 * time.Minute
	longestGel  = 3 * time.Hour
)

// gelled asks about a gel time that is hardly ever watched: a short one was likely
// typed in hours.
func gelled(f *page.Field, span string, asked *string) error {
	gel, ok := (&record.Laid{GelTime: span}).Gel()
	typed := strings.TrimSpace(f.Text)
	switch {
	case !ok || gel >= shortestGel && gel <= longestGel || *asked == typed:
		return nil
	case gel < shortestGel && !strings.ContainsFunc(typed, unicode.IsLetter):
		typed = decimal(typed)
		*asked = typed + " min"
		return page.AsTyped("gel time "+*asked+" is short", *asked, typed+" h")
	}
	return page.Sure("gel time "+span+" is unusual", typed, func(page.Answer) { *asked = typed })
}

// lay ticks a ply, after its gel time was asked for where it is a gel stop. As
// holds what was laid otherwise than written.
func (p *Page) lay(n int, note string, as record.Laid) {
	if !p.stops(n) {
		if err := p.put(n, note, "", as); err != nil {
			p.Desk.Refuse(err.Error())
		}
		return
	}
	gel := &page.Field{Label: "gel time", Hint: "min since the mix; record it when it has gelled and cooled"}
	read := func() (string, error) {
		t := strings.TrimSpace(gel.Text)
		if t == "" {
			return "", nil
		}
		if _, err := strconv.ParseFloat(decimal(t), 64); err == nil {
			t = decimal(t) + " min"
		}
		if _, ok := (&record.Laid{GelTime: t}).Gel(); !ok {
			return "", errors.New("gel time: minutes above 0, or a span such as 1.5 h; empty where nobody watched it")
		}
		return t, nil
	}
	asked := ""
	p.Open(&page.Form{Check: func(int) error {
		t, err := read()
		if err == nil {
			err = gelled(gel, t, &asked)
		}
		return err
	}, Head: fmt.Sprintf("ply %d is a gel stop: wait, then record it", n), Fields: []*page.Field{gel}, Take: func() error {
		if err := p.held(); err != nil {
			return err
		}
		t, err := read()
		if err != nil {
			return err
		}
		return p.put(n, note, t, as)
	}})
}

// stops tells whether a gel stop follows a single ply.
func (p *Page) stops(n int) bool {
	return n >= 1 && n <= p.total() && p.order().Stops[p.at(n)+1]
}

// put appends the tick and says so.
func (p *Page) put(n int, note, gel string, as record.Laid) error {
	// What was asked before may have been answered after the schedule became another.
	if why := p.needRecord(); why != "" {
		return errors.New(why)
	}
	k, m := p.kept(n), p.measured()
	t := &record.Laid{Entry: p.records.By(), Ply: n, MaterialLot: k.materialLot, ResinLot: k.resinLot,
		Initiator: k.catalyst, Promoter: k.promoter, GelTime: gel, AirTemperature: m.air, Humidity: m.humidity,
		SurfaceTemperature: m.surface, Material: as.Material, Plies: as.Plies, Lap: as.Lap, Remark: note}
	if prints := p.records.Fingerprints().Plies; n <= len(prints) {
		t.Fingerprint = prints[n-1]
	}
	if err := p.putBond(t.Entry); err != nil {
		return err
	}
	if err := p.records.Append(t); err != nil {
		return err
	}
	p.look = 0
	said := fmt.Sprintf("ply %d recorded at %s", n, t.At.Format("15:04"))
	if other := t.Deviations(p.scheduled(n), p.Desk.Units()); other != nil {
		said += ", " + strings.Join(other, ", ")
	}
	if note != "" {
		said += ", " + note
	}
	switch {
	case p.stops(n) && gel == "":
		said += "; no gel time recorded"
	case p.next() == 0:
		said += ": the last one, all plies are laid"
	}
	p.Desk.Tell(said, "u undoes it")
	return nil
}
