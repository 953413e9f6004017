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
}

// verdictRow is what is known of an entry.
type verdictRow struct {
	known bool
	word  string
	why   string // why it cannot be opened
	worst rules.Severity
}

// verdictMsg is the verdict of one document.
type verdictMsg struct {
	turn, at int
	verdict  verdictRow
	shop     *shop.Shop // keeps the folder's books for the next
}

// newFolder makes the list of a folder. Open is called with what was chosen; do
// runs a command.
func newFolder(d *page.Desk, s *shop.Shop, dir string, open func(string), do func(tea.Cmd)) *folder {
	f := &folder{desk: d, shop: s, open: open, do: do}
	f.list = &page.List{Head: "open", Find: "open", Verb: "open", Take: f.take}
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
	f.judge(0, f.shop.Keeping())
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
	for i, e := range f.entries {
		t := &f.verdicts[i]
		item := page.Item{Mark: " ", Name: e.Name, Word: t.word, Why: t.why}
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

// Take notes a verdict and asks for the next.
func (f *folder) Take(m verdictMsg) {
	if m.turn != f.turn || m.at >= len(f.verdicts) {
		return
	}
	f.verdicts[m.at] = m.verdict
	f.list.SetItems(f.items())
	f.judge(m.at+1, m.shop)
}
