package app

import (
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/bench"
	"frp/veilwright/tui/internal/page/inspect"
	"frp/veilwright/tui/internal/page/job"
	"frp/veilwright/tui/internal/page/layup"
	"frp/veilwright/tui/internal/page/practice"
	"frp/veilwright/tui/internal/page/records"
	"frp/veilwright/tui/internal/page/service"
	"frp/veilwright/tui/internal/page/structure"
	"frp/veilwright/tui/internal/page/winding"
)

// Options are what the root needs of its surroundings.
type Options struct {
	Theme  *draw.Theme
	ASCII  bool
	Folder string // where opening begins
	List   bool   // begin with the list of the folder
	Start  bool   // begin with the start page: no document is named
	Keep   bool   // keep settings and the list of recent documents
	Units  string // the units somebody chose to see, us or si; "" is the document's own
	Rack   string // the number keys that somebody keeps, as the settings have them
	Page   string // the page to begin on, by its name; "" = the bench
	// Person is whose progress practice keeps, "" = it is asked once.
	// Exercises are the shop's own, beside those that come with the program.
	Person    string
	Exercises []*exercise.Exercise
	Shop      *shop.Shop // for opening other documents
	// CanStop says why the program cannot be stopped for a shell to go on, ""
	// when it can; Stop stops it, and returns when it goes on.
	CanStop func() string
	Stop    func()
	Clock   func() time.Time
	// Pause is how long keys that change the document at once rest after
	// something closed or another page opened: what was typed ahead for it is not
	// meant for them. 0 is not at all.
	Pause time.Duration
	// After delivers a message later; nil means tea.Tick.
	After func(time.Duration, tea.Msg) tea.Cmd
	// Quit ends the program from outside of an update.
	Quit func()
	// First shows the first frame, of Width cells by Height, before the frame
	// clock ticks: most of what a start takes is waiting for that.
	First         func(frame string)
	Width, Height int
}

// Root is the model.
type Root struct {
	o       Options
	desk    *page.Desk
	reader  keys.Reader
	acts    keys.Table // keys of everywhere, where nothing is open
	always  keys.Table // keys of everywhere
	pages   []page.Page
	at      int            // the page that is open
	stack   []page.Overlay // what lies over the whole page, the last on top
	folder  *folder        // the list of documents that was opened last
	records *records.Case
	w, h    int

	cmds    []tea.Cmd // to return from the update
	frame   string    // the last view
	stale   bool      // it no longer shows how things are
	keeper  keeper
	handed  uint64    // the revision that the keeper was handed last
	typed   uint64    // counts messages with keys
	resting bool      // a pause is waited for
	restFor uint64    // the count it was asked at
	moved   time.Time // when something opened or closed last
	told    bool      // that the file changed on disk was said
	fault   string    // why unsaved work is not kept, "" when it is
	amiss   string    // why what the document rests on cannot be used any more, "" when it can
	end     End
}

// End is how the program came to its end.
type End struct {
	Quit    bool   // a person quit
	Signal  string // the system asked
	Crash   any    // a mistake in the program
	Stack   []byte
	Journal error // why unsaved work could not be kept
}

// New makes the model for an open document.
func New(d *editor.Document, o Options) *Root {
	desk := &page.Desk{Doc: d, Theme: o.Theme, Row: -1}
	chosen(o.Units, d)
	copy(desk.Rack[:], strings.Fields(o.Rack))
	desk.Go(desk.LastRow())
	r := &Root{o: o, desk: desk, stale: true, handed: d.Revision(), records: records.New(desk, o.Clock)}
	r.pages = pages(desk, r.records, o)
	r.land()
	for i, p := range r.pages {
		if p.Name() == o.Page {
			r.at = i
		}
	}
	r.acts, r.always = r.everywhere(), r.anywhere()
	desk.KeepRack = func(rack [page.RackSize]string) {
		desk.Rack = rack
		r.set(func(s *settings.Settings) { s.Rack = rackText(rack) })
	}
	desk.Back, desk.Pages = func() { r.at = 0 }, func() { r.choosePage(0) }
	desk.Takes = func(key string) bool { return keys.Find(keys.Key(key), r.pages[r.at].Table()) != nil }
	desk.Page = func(name string) {
		r.at = max(0, slices.IndexFunc(r.pages, func(p page.Page) bool { return p.Name() == name }))
	}
	return r
}

// rackText is a rack as the settings have it.
func rackText(rack [page.RackSize]string) string {
	list := make([]string, len(rack))
	for i, id := range rack {
		if list[i] = id; id == "" {
			list[i] = "-"
		}
	}
	return strings.Join(list, " ")
}

// chosen has figures shown as somebody chose to see them.
func chosen(units string, d *editor.Document) {
	if u, ok := quantity.Systems.Parse(units); ok {
		d.SetUnits(u)
	}
}

// pages are the pages in the order of their numbers.
func pages(d *page.Desk, c *records.Case, o Options) []page.Page {
	return []page.Page{bench.New(d, nil), structure.New(d), winding.New(d), service.New(d), layup.New(d, c), inspect.New(d, c),
		practice.New(d, practice.Usual(o.Person, o.Exercises, o.Clock)), job.New(d, c)}
}

// Document is the document that is open.
func (r *Root) Document() *editor.Document { return r.desk.Doc }

// End tells how the program came to its end.
func (r *Root) End() End { return r.end }

// Init offers unsaved work of a program that is gone, and starts to watch the
// file.
func (r *Root) Init() tea.Cmd {
	switch {
	case r.o.List:
		r.open()
	case r.o.Start:
		r.begin()
	}
	if !r.o.Start { // there each is a line of its own
		r.offer()
	}
	r.remember()
	r.sweep()
	r.settle()
	r.restSoon()
	if r.o.First != nil && r.o.Width > 0 && r.o.Height > 0 {
		r.resize(r.o.Width, r.o.Height)
		r.o.First(r.View())
	}
	cmds := r.cmds
	r.cmds = nil
	return tea.Batch(append(cmds, r.later(watchEvery, watchMsg{}))...)
}

// owner is the page that is open, where it may have a document of its own.
func (r *Root) owner() (page.Owner, bool) {
	o, ok := r.pages[r.at].(page.Owner)
	return o, ok
}

// here is the desk that keys of everywhere act on: of the page's own document
// where it has one, else of the one that is open.
func (r *Root) here() *page.Desk {
	if o, ok := r.owner(); ok {
		if d := o.Own(); d != nil {
			return d
		}
	}
	return r.desk
}

// over is what is open over the page or over its keys, nil for nothing.
func (r *Root) over() page.Overlay {
	if n := len(r.stack); n > 0 {
		return r.stack[n-1]
	}
	return r.pages[r.at].Over()
}

// tables are the keys that act now, the nearest first.
func (r *Root) tables() []keys.Table {
	if o := r.over(); o != nil {
		return []keys.Table{o.Table(), r.always}
	}
	return []keys.Table{r.pages[r.at].Table(), r.acts, r.always}
}

// push opens something over the whole page.
func (r *Root) push(o page.Overlay) {
	o.Attach(r.here(), func() { r.remove(o) })
	body := draw.PageFrame(draw.Size{W: r.w, H: r.h}).Body
	o.SetSize(body.W, body.H)
	r.stack = append(r.stack, o)
}

func (r *Root) remove(o page.Overlay) {
	r.stack = slices.DeleteFunc(r.stack, func(q page.Overlay) bool { return q == o })
}

// settle puts right, after a key or whatever else, what is drawn.
func (r *Root) settle() {
	if r.w < 1 || r.h < 1 {
		return
	}
	if r.notThere(r.pages[r.at].Name()) != "" { // undo turned to something else
		r.at = 0
	}
	r.pages[r.at].Settle()
	for _, o := range r.stack {
		o.Settle()
	}
}

func (r *Root) do(c tea.Cmd) {
	if c != nil {
		r.cmds = append(r.cmds, c)
	}
}

func (r *Root) later(d time.Duration, msg tea.Msg) tea.Cmd {
	if r.o.After != nil {
		return r.o.After(d, msg)
	}
	return tea.Tick(d, func(time.Time) tea.Msg { return msg })
}
