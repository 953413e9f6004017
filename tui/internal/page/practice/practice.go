// Package practice is the page for whoever learns: the steps of the course
// with their texts and pictures, exercises of every kind answered with the
// keyboard alone, marked demand by demand with the reason for each miss, and
// the next exercise by what was missed before.
package practice

import (
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
	w, h  int
	frame draw.Frame

	list     []*exercise.Exercise
	problems []string
	loaded   bool

	person   string
	nobody   bool // practices without a name
	progress practice.Progress

	home  *home
	now   screen
	work  work // the exercise that is open, nil for none
	begun []string
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
func (p *Practice) SetSize(w, h int) {
	p.w, p.h, p.frame = w, h, draw.PageFrame(draw.Size{W: w, H: h})
	if b, ok := p.work.(*atBench); ok {
		b.bench.SetSize(w, h)
	}
	if s, ok := p.now.(*reader); ok {
		s.fit(p.frame.Body)
	}
}

// Own is the desk of the exercise that is answered on the bench, nil while
// there is none: keys of everywhere act on it then.
func (p *Practice) Own() *page.Desk {
	if b, ok := p.now.(*atBench); ok {
		return b.desk
	}
	return nil
}

// here is the desk that notices are on.
func (p *Practice) here() *page.Desk {
	if d := p.Own(); d != nil {
		return d
	}
	return p.desk
}

// Reset does nothing: exercises have nothing to do with the open document.
func (*Practice) Reset() {}

// Table is the keys of the screen that is shown. On the bench, keys of
// everywhere are about the exercise's own document; elsewhere, while an exercise
// or a text is open, those that are about a document rest.
func (p *Practice) Table() keys.Table {
	p.load()
	if b, ok := p.now.(*atBench); ok {
		return b.bench.Table()
	}
	own := p.acts.Table(p, p.now.scope())
	if p.now == screen(p.home) {
		return own
	}
	return own.Over(keys.Table{{
		Keys: []string{"u", "y", "j", "s", "a", "o"}, Long: "rest: they are about a document", Group: "Everywhere", Rank: 99,
		Can: func() string { return "no document is shown: Esc goes back" }, Do: func(keys.Event) {},
	}})
}

// Over is what is open over those keys, nil for nothing.
func (p *Practice) Over() page.Overlay {
	p.load()
	switch s := p.now.(type) {
	case *atBench:
		return s.bench.Over()
	case typist:
		if s.typing() {
			return &page.Text{Head: "an answer", Still: true, Keys: append(p.acts.Table(p, s.scope()), keys.Row{Text: true, Keys: widget.EditKeys(),
				Show: "letters", Long: "type", Group: "Filling in", Rank: 99, Do: func(e keys.Event) { s.typed(p, e) }})}
		}
	}
	return nil
}

// Settle reads the exercises the first time the page is looked at, and settles
// the bench.
func (p *Practice) Settle() {
	p.load()
	if b, ok := p.now.(*atBench); ok {
		b.bench.Settle()
	}
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
