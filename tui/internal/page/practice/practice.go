// Package practice is the page for whoever learns: the steps of the course
// with their texts and pictures, exercises of every kind answered with the
// keyboard alone, marked demand by demand with the reason for each miss, and
// the next exercise by what was missed before.
//
// What is built is built on the bench, on a document of the exercise's own.
package practice

import (
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice"
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
	page.Base
	o    Options
	w, h int

	list     []*exercise.Exercise
	problems []string
	loaded   bool

	person   string
	nobody   bool // practices without a name
	progress practice.Progress
	begun    []string // exercises left with an answer that is not marked

	home *home
	now  screen
	work work // the exercise that is open, nil for none
}

// screen is what the page shows while nothing is open over it.
type screen interface {
	rows(p *Practice) keys.Table
	lines(p *Practice, w, h int) []string
}

// New makes the page on a desk.
func New(d *page.Desk, o Options) *Practice {
	p := &Practice{Base: page.NewBase("practice", d), o: o, home: &home{}}
	p.now = p.home
	d.Ends = append(d.Ends, p.letGo)
	return p
}

// SetSize tells the size of the screen.
func (p *Practice) SetSize(w, h int) {
	p.w, p.h = w, h
	p.Base.SetSize(w, h)
	if b, ok := p.work.(*atBench); ok {
		b.bench.SetSize(w, h)
	}
}

// Reset does nothing: exercises have nothing to do with the open document.
func (*Practice) Reset() {}

// Own is the desk of the exercise that is answered on the bench, nil while
// there is none: keys of everywhere act on it then.
func (p *Practice) Own() *page.Desk {
	if b, ok := p.now.(*atBench); ok {
		return b.desk
	}
	return nil
}

// Screen is what is shown while nothing is open over it.
func (p *Practice) Screen() any { return p.now }

// here is the desk that notices are on.
func (p *Practice) here() *page.Desk {
	if d := p.Own(); d != nil {
		return d
	}
	return p.Desk
}

// open opens a list, a form or a text over what is shown.
func (p *Practice) open(o page.Overlay) {
	if b, ok := p.now.(*atBench); ok {
		b.bench.Open(o)
		return
	}
	p.Open(o)
}

// Settle reads the exercises the first time the page is looked at.
func (p *Practice) Settle() {
	p.load()
	if b, ok := p.now.(*atBench); ok {
		b.bench.Settle()
	}
	p.Base.Settle()
}

// Table is the keys of what is shown. Keys that are about the document that is
// open rest where it cannot be seen.
func (p *Practice) Table() keys.Table {
	p.load()
	if b, ok := p.now.(*atBench); ok {
		return b.bench.Table()
	}
	t := p.now.rows(p)
	rest := []string{"u", "y"}
	if p.now != screen(p.home) {
		rest = append(rest, "j", "s", "a", "o")
	}
	if p.now == screen(p.work) {
		rest = append(rest, keys.Tab)
	}
	return t.Over(keys.Table{{
		Keys: rest, Long: "what is about the document that is open rests here", Group: "Everywhere", Rank: 99,
		Can: func() string { return elsewhere }, Do: func(keys.Event) {},
	}})
}

const elsewhere = "this key acts on the open document, and this is an exercise: Esc goes back first"

// Over is what is open over it.
func (p *Practice) Over() page.Overlay {
	if b, ok := p.now.(*atBench); ok {
		return b.bench.Over()
	}
	return p.Base.Over()
}

// Lines draws the page.
func (p *Practice) Lines() []string {
	if b, ok := p.now.(*atBench); ok {
		return b.bench.Lines()
	}
	if o := p.Over(); o != nil {
		return o.Lines()
	}
	return p.now.lines(p, p.Frame.Body.W, p.Frame.Body.H)
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
			p.Desk.Refuse(err.Error())
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

// points is the row of keys that points at another of n rows.
func points(at *int, n int, group, short, long string) keys.Row {
	return keys.Row{
		Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: short, Long: long, Group: group, Rank: 8,
		Do: func(e keys.Event) {
			if e.Key == keys.Up {
				*at = max(0, *at-1)
			} else {
				*at = max(0, min(n-1, *at+1))
			}
		},
	}
}

// digit makes a row's act of what a digit does.
func digit(do func(d int)) func(keys.Event) {
	return func(e keys.Event) {
		d, _ := e.Digit()
		do(d)
	}
}
