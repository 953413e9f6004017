package app

import (
	"path/filepath"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Folder is the page. Make it with New.
type folder struct {
	desk *page.Desk
	shop *shop.Shop
	open func(path string)
	do   func(tea.Cmd)

	dir     string
	entries []store.Entry
	told    []verdictRow // by entry
	fault   string
	list    *widget.Finder
	body    draw.Rect
	turn    int // counts folders shown: verdicts of an older one are dropped
}

// told is what is known of an entry.
type verdictRow struct {
	known bool
	word  string
	why   string // why it cannot be opened
	worst rules.Severity
}

// ToldMsg is the verdict of one document.
type verdictMsg struct {
	turn, at int
	told     verdictRow
	shop     *shop.Shop // keeps the folder's books for the next
}

const openScope keys.Scope = "open"

// New makes the list of a folder. Open is called with what was chosen; do runs
// a command.
func newFolder(d *page.Desk, s *shop.Shop, dir string, open func(string), do func(tea.Cmd)) *folder {
	f := &folder{desk: d, shop: s, open: open, do: do}
	f.show(dir)
	return f
}

// Name is the page's name.
func (*folder) Name() string { return "open" }

// SetSize tells the size of the screen.
func (f *folder) SetSize(w, h int) { f.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset does nothing: the folder stays.
func (*folder) Reset() {}

// Bindings are the keys of the list.
func (*folder) Bindings() []keys.Binding { return folderActs().Bindings() }

// Scope is where they act.
func (*folder) Scope() keys.Scope { return openScope }

// Can tells why a binding cannot act.
func (*folder) Can(keys.ID) string { return "" }

// Busy tells that keys of everywhere rest.
func (*folder) Busy() bool { return true }

// Typing tells that letters narrow the list.
func (*folder) Typing() bool { return true }

func folderActs() page.Acts[*folder] {
	row := func(id keys.ID, k []string, show, short, long string, rank int) page.Act[*folder] {
		return page.Act[*folder]{Binding: keys.Binding{ID: id, Scope: openScope, Keys: k, Show: show, Short: short, Long: long, Group: "In the list of documents", Rank: rank}}
	}
	return page.Acts[*folder]{
		row("open it", []string{keys.Enter}, "", "open", "open the schedule pointed at, or go into the folder", 1),
		row("numbered", []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}, "1-9", "open", "open the numbered one", 2),
		row("choose", []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown}, "↑↓", "choose", "point at another", 3),
		row("narrow", []string{keys.Backspace}, "letters", "find", "a few letters of the name; Backspace takes one back", 4),
		row("back", []string{keys.Esc}, "", "back", "forget the letters; again: back", 0),
	}
}

// show lists a folder and begins to judge its schedules.
func (f *folder) show(dir string) {
	f.dir = dir
	entries, err := store.Entries(dir)
	f.fault = ""
	if err != nil {
		f.fault = err.Error()
	}
	up := store.Entry{Name: "..", Path: filepath.Join(dir, ".."), Folder: true}
	f.entries = append([]store.Entry{up}, entries...)
	f.told = make([]verdictRow, len(f.entries))
	f.list = widget.New(f.desk.Theme, "open", f.items())
	for i, e := range f.entries {
		if !e.Folder {
			f.list.Mark(i)
			break
		}
	}
	f.turn++
	f.judge(0, f.shop.Keeping())
}

// items are the entries as the list draws them.
func (f *folder) items() []widget.Item {
	items := make([]widget.Item, len(f.entries))
	for i, e := range f.entries {
		t := &f.told[i]
		item := widget.Item{Mark: " ", Name: e.Name, Word: t.word, Why: t.why}
		switch {
		case e.Folder:
			item.Mark, item.Note = "/", "folder"
		case !t.known:
			item.Word = "…"
		case t.why == "":
			item.Look = verdictStyle(f.desk.Theme, t.worst)
		}
		items[i] = item
	}
	return items
}

func verdictStyle(t *draw.Theme, s rules.Severity) draw.Style {
	if s == rules.Clear {
		return t.Good
	}
	return page.SeverityStyle(t, s)
}

// judge has the first document from an entry on judged.
func (f *folder) judge(from int, s *shop.Shop) {
	for i := from; i < len(f.entries); i++ {
		if f.entries[i].Folder {
			continue
		}
		path, turn, units := f.entries[i].Path, f.turn, f.desk.Units()
		f.do(func() tea.Msg { return verdictMsg{turn, i, verdict(s.Read(path), units), s} })
		return
	}
}

// verdict is what the list says of a document: of a schedule what check says.
func verdict(o *shop.Opened, units quantity.System) verdictRow {
	row := verdictRow{known: true, why: o.Why()}
	switch o.Kind {
	case schedules.Schedule:
		row.worst = o.Judge(rules.Options{Units: units}).Verdict
		row.word = row.worst.String()
		if editor.Shown(o) == nil {
			row.why = "" // it opens, to be mended
		}
	case schedules.Unreadable:
		row.word = rules.Unusable.String()
	case schedules.Undeclared:
		row.word = o.Kind.String()
	default:
		row.word = o.Kind.String()
		if o.Usable() {
			row.why = o.Kind.Noun() + ", no schedule"
		} else {
			row.word = rules.Unusable.String()
		}
	}
	return row
}

// Take notes a verdict and asks for the next.
func (f *folder) Take(m verdictMsg) {
	if m.turn != f.turn || m.at >= len(f.told) {
		return
	}
	f.told[m.at] = m.told
	f.list.SetItems(f.items())
	f.judge(m.at+1, m.shop)
}

// Press handles a key.
func (f *folder) Press(e keys.Event) page.Wish {
	switch f.list.Handle(e) {
	case widget.Left:
		return page.Back
	case widget.Refused:
		f.desk.Refuse(f.list.Reason())
	case widget.Taken:
		i, _ := f.list.Choice()
		if f.entries[i].Folder {
			f.show(f.entries[i].Path)
			return page.Done
		}
		f.open(f.entries[i].Path)
	case widget.Going:
	}
	return page.Done
}

// Lines draws the list.
func (f *folder) Lines() []string {
	t, w := f.desk.Theme, f.body.W
	where := f.dir
	if full, err := filepath.Abs(f.dir); err == nil {
		where = full
	}
	out := []string{" " + t.Label.Render(draw.Cut(draw.Clean(where), w-2))}
	if f.fault != "" {
		out = append(out, " "+t.Error.Render(draw.Cut(draw.Clean(f.fault), w-2)))
	}
	return append(out, f.list.View(w, f.body.H-len(out))...)
}
