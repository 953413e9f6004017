package app

import (
	"path/filepath"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// folder is the list of a folder's documents from which one is opened, each
// schedule with what the rules say of it.
type folder struct {
	desk *page.Desk
	shop *shop.Shop
	open func(path string)
	do   func(tea.Cmd)

	entries  []store.Entry
	verdicts []verdictRow // by entry
	list     *page.List
	turn     int // counts folders shown: verdicts of an older one are dropped
	next     int // the entries before it are judged
}

// verdictRow is what is known of an entry.
type verdictRow struct {
	known bool
	word  string
	why   string // why it cannot be opened
	worst rules.Severity
}

// verdictMsg is the verdicts of some documents.
type verdictMsg struct {
	turn     int
	at       []int // entries
	verdicts []verdictRow
	shop     *shop.Shop // keeps the folder's books for the next
}

// A message holds what was judged in so long, of at most so many documents: a
// key does not wait for more.
const (
	judgeFor  = 20 * time.Millisecond
	judgeMost = 256
)

// newFolder makes the list of a folder. Open is called with what was chosen; do
// runs a command.
func newFolder(d *page.Desk, s *shop.Shop, dir string, open func(string), do func(tea.Cmd)) *folder {
	f := &folder{desk: d, shop: s, open: open, do: do}
	f.list = &page.List{Head: "open", Find: "open", Verb: "open", Take: f.take, Again: f.again}
	f.show(dir)
	return f
}

// show lists a folder and begins to judge its schedules.
func (f *folder) show(dir string) {
	f.list.Text = dir
	if full, err := filepath.Abs(dir); err == nil {
		f.list.Text = full
	}
	entries, err := store.Entries(dir)
	if err != nil {
		f.desk.Refuse(err.Error())
	}
	up := store.Entry{Name: "..", Path: filepath.Join(dir, ".."), Folder: true}
	f.list.Above = func() { f.show(up.Path) }
	f.entries = append([]store.Entry{up}, entries...)
	f.verdicts = make([]verdictRow, len(f.entries))
	f.list.Fill(f.items())
	for i, e := range f.entries {
		if !e.Folder {
			f.list.PointAt(i)
			break
		}
	}
	f.turn++
	f.next = 0
	f.judge(f.shop.Keeping())
}

// again judges a document anew that could not be opened.
func (f *folder) again(i int) {
	if !f.entries[i].Folder {
		f.verdicts[i] = verdict(f.shop.Read(f.entries[i].Path), f.desk.Units())
		f.list.SetItem(i, f.item(i))
	}
}

func (f *folder) take(i int) error {
	if f.entries[i].Folder {
		f.show(f.entries[i].Path)
		return page.ErrStay
	}
	f.open(f.entries[i].Path)
	return nil
}

// items are the entries as the list draws them.
func (f *folder) items() []page.Item {
	items := make([]page.Item, len(f.entries))
	for i := range f.entries {
		items[i] = f.item(i)
	}
	return items
}

func (f *folder) item(i int) page.Item {
	e, t := &f.entries[i], &f.verdicts[i]
	item := page.Item{Mark: " ", Name: e.Name, Word: t.word, Why: t.why}
	switch {
	case e.Folder:
		item.Mark, item.Note = "/", "folder"
	case !t.known:
		item.Word = "…"
	case t.why == "":
		item.Look = verdictStyle(f.desk.Theme, t.worst)
	}
	return item
}

func verdictStyle(t *draw.Theme, s rules.Severity) draw.Style {
	if s == rules.Clear {
		return t.Good
	}
	return page.SeverityStyle(t, s)
}

// judge has the next documents judged: those in sight first.
func (f *folder) judge(s *shop.Shop) {
	var at []int
	for _, i := range f.list.InSight() {
		if !f.judged(i) {
			at = append(at, i)
		}
	}
	for f.next < len(f.entries) && f.judged(f.next) {
		f.next++
	}
	for i := f.next; i < len(f.entries) && len(at) < judgeMost; i++ {
		if !f.judged(i) && !slices.Contains(at, i) {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return
	}
	paths := make([]string, len(at))
	for k, i := range at {
		paths[k] = f.entries[i].Path
	}
	turn, units := f.turn, f.desk.Units()
	f.do(func() tea.Msg {
		m := verdictMsg{turn: turn, at: at, shop: s}
		for start := time.Now(); len(m.verdicts) < len(paths) && (len(m.verdicts) == 0 || time.Since(start) < judgeFor); {
			m.verdicts = append(m.verdicts, verdict(s.Read(paths[len(m.verdicts)]), units))
		}
		return m
	})
}

func (f *folder) judged(i int) bool { return f.entries[i].Folder || f.verdicts[i].known }

// verdict is what the list says of a document: of a schedule or a job what
// check says.
func verdict(o *shop.Opened, units quantity.System) verdictRow {
	row := verdictRow{known: true, why: o.Why(), word: o.Kind.String()}
	if worst, judged := o.Verdict(rules.Options{Units: units}); judged {
		row.worst, row.word = worst, worst.String()
	}
	switch {
	case (o.Kind == schedules.Schedule || o.Kind == schedules.Job) && editor.Shown(o) == nil:
		row.why = "" // it opens, if only to be mended
	case o.Usable() && o.Kind != schedules.Schedule:
		row.why = o.Kind.Noun() + ", no schedule"
	}
	return row
}

// Take notes verdicts and asks for the next.
func (f *folder) Take(m verdictMsg) {
	if m.turn != f.turn {
		return
	}
	for k, v := range m.verdicts {
		f.verdicts[m.at[k]] = v
		f.list.SetItem(m.at[k], f.item(m.at[k]))
	}
	f.judge(m.shop)
}
