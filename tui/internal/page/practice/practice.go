// Package practice is the page for whoever learns: the steps of the course
// with their texts and pictures, exercises of every kind answered with the
// keyboard alone, marked demand by demand with the reason for each miss, and
// the next exercise by what was missed before.
package practice

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Keeper keeps what each person did.
type Keeper interface {
	People() ([]string, error)
	Load(person string) (practice.Progress, error)
	Add(person string, e practice.Entry) error
}

// Options are what the page is made of.
type Options struct {
	// Exercises lists them, and tells what could not be read.
	Exercises func() (list []*exercise.Exercise, problems []string)
	Keeper    Keeper // nil keeps nothing
	Person    string // whose progress is kept, "" = it is asked once
	Today     func() practice.Day
	Seed      func() uint64 // for an exercise that is made up
}

// Practice is the page. Make it with New.
type Practice struct {
	desk  *page.Desk
	o     Options
	acts  page.Acts[*Practice]
	frame draw.Frame

	list     []*exercise.Exercise
	problems []string
	loaded   bool

	person   string
	nobody   bool // practices without a name
	progress practice.Progress

	home *home
	now  screen
	wish page.Wish
}

// screen is what the page shows.
type screen interface {
	scope() keys.Scope
	lines(p *Practice, w, h int) []string
}

// typist is a screen on which characters may go into a field.
type typist interface {
	screen
	typing() bool
	typed(p *Practice, e keys.Event)
}

// New makes the page on a desk.
func New(d *page.Desk, o Options) *Practice {
	p := &Practice{desk: d, o: o, acts: acts(), home: &home{}}
	p.now = p.home
	return p
}

// Name is the page's name.
func (*Practice) Name() string { return "practice" }

// SetSize tells the size of the screen.
func (p *Practice) SetSize(w, h int) { p.frame = draw.PageFrame(draw.Size{W: w, H: h}) }

// Reset does nothing: exercises have nothing to do with the open document.
func (*Practice) Reset() {}

// Bindings are the page's keys.
func (p *Practice) Bindings() []keys.Binding { return p.acts.Bindings() }

// Scope is where keys act now.
func (p *Practice) Scope() keys.Scope { return p.now.scope() }

// Can tells why a binding cannot act now.
func (p *Practice) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that an exercise or a text is open: keys of everywhere are about
// the document, which has nothing to do with it.
func (p *Practice) Busy() bool { return p.now != screen(p.home) }

// Typing tells that characters go into a field.
func (p *Practice) Typing() bool {
	t, ok := p.now.(typist)
	return ok && t.typing()
}

// Press handles a key or a paste.
func (p *Practice) Press(e keys.Event) page.Wish {
	p.load()
	p.wish = page.Done
	if p.Typing() && (e.Rune != 0 || e.Key == "") {
		p.now.(typist).typed(p, e)
		return p.wish
	}
	found, why := p.acts.Press(p, p.Scope(), e)
	switch {
	case why != "":
		p.desk.Refuse(why)
	case found:
	case p.Typing():
		p.now.(typist).typed(p, e)
	case e.Key == "":
		p.desk.Refuse("pasted text goes into fields only; nothing was changed")
	case !p.Busy() && e.Key == keys.Esc:
		return page.Back
	case e.Key == "q" && p.unfinished():
		p.desk.Refuse("q again quits the program and drops what was done in the exercise; m marks it")
	case !p.Busy(), e.Key == "?", e.Key == "q", e.Key == "i", e.Key == keys.Tab:
		return page.Leave
	default:
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: ? shows the keys, Esc goes back")
	}
	return p.wish
}

// unfinished tells, once, that something is done that is not marked.
func (p *Practice) unfinished() bool {
	w, ok := p.now.(work)
	if !ok || !w.base().touched || w.base().warned {
		return false
	}
	w.base().warned = true
	return true
}

// Lines draws the page.
func (p *Practice) Lines() []string {
	p.load()
	return p.now.lines(p, p.frame.Body.W, p.frame.Body.H)
}

// load reads the exercises the first time the page is looked at.
func (p *Practice) load() {
	if p.loaded {
		return
	}
	p.loaded = true
	p.list, p.problems = p.o.Exercises()
	if p.o.Person != "" {
		if err := p.be(p.o.Person); err != nil {
			p.desk.Refuse(err.Error())
		}
	}
}

func (p *Practice) library() *laminate.Library { return p.desk.Doc.Library() }

// of are the exercises of a step.
func (p *Practice) of(step int) []*exercise.Exercise {
	var list []*exercise.Exercise
	for _, e := range p.list {
		if e.Step == step {
			list = append(list, e)
		}
	}
	return list
}

// in makes what a key does to a screen of one kind.
func in[S screen](do func(S, *Practice, keys.Event)) func(*Practice, keys.Event) {
	return func(p *Practice, e keys.Event) {
		if s, ok := p.now.(S); ok {
			do(s, p, e)
		}
	}
}

// can makes why a key cannot act on a screen of one kind.
func can[S screen](why func(S, *Practice) string) func(*Practice) string {
	return func(p *Practice) string {
		if s, ok := p.now.(S); ok {
			return why(s, p)
		}
		return "not here"
	}
}

// inward tells the arrows apart.
func inward(e keys.Event) bool { return e.Key == keys.Up || e.Key == "k" || e.Key == keys.Left }
