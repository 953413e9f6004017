package app

import (
	"runtime/debug"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

const (
	// restAfter is how long keys pause before a page does what it left.
	restAfter = 80 * time.Millisecond
	// watchEvery is how often the file is looked at.
	watchEvery = 3 * time.Second
)

type (
	watchMsg struct{}
	restMsg  struct{}
	// crashMsg is a mistake in a command.
	crashMsg struct {
		what  any
		stack []byte
	}
)

// EndMsg tells the program that the system wants it gone.
type EndMsg struct{ Signal string }

// Update takes a message. A mistake in the program ends it with unsaved work
// kept, and not with the terminal left raw.
func (r *Root) Update(msg tea.Msg) (model tea.Model, cmd tea.Cmd) {
	defer func() {
		if what := recover(); what != nil {
			r.crash(what, debug.Stack())
			model, cmd = r, tea.Quit
		}
	}()
	r.update(msg)
	cmds := r.cmds
	r.cmds = nil
	if len(cmds) == 1 {
		return r, cmds[0]
	}
	return r, tea.Batch(cmds...)
}

func (r *Root) update(msg tea.Msg) {
	switch m := msg.(type) {
	case tea.WindowSizeMsg:
		if m.Width != r.w || m.Height != r.h {
			r.resize(m.Width, m.Height)
			r.do(tea.ClearScreen)
		}
		return
	case tea.MouseMsg:
		r.mouse(m)
		return
	case keepMsg:
		r.keep()
		return
	case keptMsg:
		r.lookKept()
		return
	case restMsg:
		r.resting = false
		r.rest()
		return
	case watchMsg:
		r.watch()
		r.do(r.later(watchEvery, watchMsg{}))
		return
	case tea.ResumeMsg:
		r.stale = true
		r.watch()
		r.do(tea.EnableMouseCellMotion) // which the library does not set again
		r.do(tea.ClearScreen)
		return
	case StopMsg:
		if r.o.CanStop != nil && r.o.CanStop() == "" {
			r.stop()
		}
		return
	case ContinueMsg:
		r.outside(func() {})
		return
	case EndMsg:
		r.end.Signal = m.Signal
		r.keepNow()
		r.do(tea.Quit)
		return
	case crashMsg:
		r.crash(m.what, m.stack)
		r.do(tea.Quit)
		return
	}
	if events, cmd, ours := r.reader.Read(msg); ours {
		r.do(cmd)
		for _, e := range events {
			if r.ending() {
				return
			}
			r.press(e)
			r.keepOwn()
		}
		r.keepSoon()
		r.restSoon()
		return
	}
	r.result(msg)
}

// restSoon has a page do what it left, once keys pause.
func (r *Root) restSoon() {
	p, ok := r.pages[r.at].(page.Rester)
	r.typed++
	if r.resting || !ok || !p.Waits() || r.ending() {
		return
	}
	r.resting, r.restFor = true, r.typed
	r.do(r.later(restAfter, restMsg{}))
}

func (r *Root) rest() {
	p, ok := r.pages[r.at].(page.Rester)
	if !ok || !p.Waits() {
		return
	}
	if r.restFor != r.typed { // keys came meanwhile
		r.resting, r.restFor = true, r.typed
		r.do(r.later(restAfter, restMsg{}))
		return
	}
	p.Rest()
	r.settle()
	r.stale = true
}

// ending tells that the program is ending: keys typed ahead act no more.
func (r *Root) ending() bool { return r.end.Quit || r.end.Signal != "" || r.end.Crash != nil }

func (r *Root) resize(w, h int) {
	r.w, r.h, r.stale = w, h, true
	for _, p := range r.pages {
		p.SetSize(r.beside(p, w), h)
	}
	body := draw.PageFrame(draw.Size{W: w, H: h}).Body
	for _, o := range r.stack {
		o.SetSize(body.W, body.H)
	}
	r.settle()
}

// place is where a notice belongs: the page, its screen, and what is open over it.
type place struct {
	at, depth int
	screen    any
	over      string
}

func (r *Root) place() place {
	p := place{at: r.at, depth: len(r.stack)}
	if o, ok := r.owner(); ok {
		p.screen = o.Screen()
	}
	if o := r.over(); o != nil {
		p.over = o.Title()
	}
	return p
}

// press does what a key does: what is open over the page first, else the page,
// then the keys of everywhere. What was said is gone when its place or its
// document is.
func (r *Root) press(e keys.Event) {
	r.stale = true
	here := r.here()
	for _, d := range []*page.Desk{r.desk, here} {
		if d.Notice.Refusal {
			d.Notice = widget.Notice{}
		}
	}
	said := map[*page.Desk]uint64{r.desk: r.desk.Said(), here: here.Said()}
	place, now := r.place(), here.Doc.Now()
	if row := keys.Find(e, r.tables()...); row != nil && row.Edits && r.now().Sub(r.moved) < r.o.Pause {
		r.here().Refuse("too soon after what was open before: " + keys.Name(e.Key) + " again means it")
		return
	}
	found, why := keys.Press(e, r.tables()...)
	switch {
	case why != "":
		r.here().Refuse(why)
	case found:
	case e.Key == "":
		r.here().Refuse("pasted text goes into fields only; nothing was changed")
	case e.Key == keys.Unprintable:
		r.here().Refuse("this key does nothing here: F1 shows the keys")
	default:
		r.here().Refuse(keys.Name(e.Key) + " does nothing here: " + keys.Name(r.helpKey()) + " shows the keys")
	}
	r.settle()
	if r.at != 0 {
		r.desk.Visiting = ""
	}
	moved := r.place() != place
	if moved {
		r.moved = r.now()
	}
	for d, n := range said {
		if d.Said() == n && (moved || d == here && d.Doc.Now() != now) {
			d.Notice = widget.Notice{}
		}
	}
}

// keepOwn keeps what the page's own document says by now: that is small, and
// written at once.
func (r *Root) keepOwn() {
	if o, ok := r.owner(); ok {
		if err := o.Keep(); err != nil {
			r.here().Refuse(err.Error())
		}
	}
}

// guard makes a mistake in a command end the program with its trace told.
func guard(c tea.Cmd) tea.Cmd {
	return func() (msg tea.Msg) {
		defer func() {
			if what := recover(); what != nil {
				msg = crashMsg{what, debug.Stack()}
			}
		}()
		return c()
	}
}
