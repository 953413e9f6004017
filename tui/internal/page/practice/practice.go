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
	"frp/veilwright/tui/internal/widget"
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

// Table is the keys of the screen that is shown. While an exercise or a text is
// open, keys of everywhere that are about the document rest.
func (p *Practice) Table() keys.Table {
	p.load()
	const g = "Everywhere"
	if !p.busy() {
		return append(p.acts.Table(p, p.now.scope()), keys.Row{Keys: []string{keys.Esc}, Short: "back", Long: "back to the bench", Group: g, Do: func(keys.Event) { p.desk.Leave() }})
	}
	own := p.acts.Table(p, p.now.scope()).Over(keys.Table{
		{Keys: []string{"u", "y", "j", "s", "a", "o"}, Long: "what is about the document rests while an exercise is open", Group: g, Rank: 99,
			Can: func() string { return "this key does nothing here: ? shows the keys, Esc goes back" }, Do: func(keys.Event) {}},
	})
	if p.unfinished() {
		own = own.Over(keys.Table{{Keys: []string{"q"}, Short: "quit", Long: "quit the program and drop what was done in the exercise, asked twice", Group: g, Rank: 99, Do: func(keys.Event) {
			p.now.(work).base().warned = true
			p.desk.Refuse("q again quits the program and drops what was done in the exercise; m marks it")
		}}})
	}
	return own
}

// Over is the field that characters go into, nil for none.
func (p *Practice) Over() page.Overlay {
	p.load()
	t, ok := p.now.(typist)
	if !ok || !t.typing() {
		return nil
	}
	return &page.Text{Head: "practice", Still: true, Keys: append(p.acts.Table(p, p.now.scope()), keys.Row{Text: true, Keys: widget.EditKeys(),
		Show: "letters", Long: "type", Group: "Filling in", Rank: 99, Do: func(e keys.Event) { p.now.(typist).typed(p, e) }})}
}

// Settle reads the exercises the first time the page is looked at.
func (p *Practice) Settle() { p.load() }

func (p *Practice) busy() bool { return p.now != screen(p.home) }

// unfinished tells that something is done that is not marked, until that was said.
func (p *Practice) unfinished() bool {
	w, ok := p.now.(work)
	return ok && w.base().touched && !w.base().warned
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
