package app

import (
	"fmt"
	"path/filepath"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// folder is the list of a folder's documents from which one is opened, each
// schedule with what the rules say of it.
type folder struct {
	desk    *page.Desk
	options editor.Options
	open    func(path string)
	do      func(tea.Cmd)

	entries []store.Entry
	told    []verdictRow // by entry
	list    *page.List
	turn    int // counts folders shown: verdicts of an older one are dropped
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
	told     verdictRow
	library  *laminate.Library
}

// newFolder makes the list of a folder. Open is called with what was chosen; do
// runs a command.
func newFolder(d *page.Desk, o editor.Options, dir string, open func(string), do func(tea.Cmd)) *folder {
	f := &folder{desk: d, options: o, open: open, do: do}
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
	f.told = make([]verdictRow, len(f.entries))
	f.list.Fill(f.items())
	for i, e := range f.entries {
		if !e.Folder {
			f.list.PointAt(i)
			break
		}
	}
	f.turn++
	f.judge(0, nil)
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
		t := &f.told[i]
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
func (f *folder) judge(from int, library *laminate.Library) {
	for i := from; i < len(f.entries); i++ {
		if f.entries[i].Folder {
			continue
		}
		path, o, turn, units := f.entries[i].Path, f.options, f.turn, f.desk.Units()
		f.do(func() tea.Msg {
			if library == nil {
				library = libraryOf(o, filepath.Dir(path))
			}
			return verdictMsg{turn, i, verdict(path, func(s *laminate.Schedule) *rules.Report { return o.Judge(s, library, units) }), library}
		})
		return
	}
}

// libraryOf is the folder's library; where its books cannot be read the list
// goes by the built-in one, and opening tells what is wrong with them.
func libraryOf(o editor.Options, dir string) *laminate.Library {
	if o.Library != nil {
		if lib, err := o.Library(dir); err == nil {
			return lib
		}
	}
	return catalog.Library()
}

func verdict(path string, judge func(*laminate.Schedule) *rules.Report) verdictRow {
	file, err := store.Read(path)
	if err != nil {
		return verdictRow{known: true, word: "unusable", why: err.Error()}
	}
	if kind, problems := schedules.Sniff(file.Bytes); kind != schedules.Schedule {
		why := "no document of this program"
		if len(problems) > 0 {
			why = problems[0].String()
		} else if kind != schedules.Undeclared && kind != schedules.Unreadable {
			why = kind.Noun() + ", no schedule"
		}
		return verdictRow{known: true, word: kind.String(), why: why}
	}
	_, s, problems := schedules.Decode(file.Bytes, nil)
	if len(problems) > 0 {
		why := problems[0].String()
		if n := len(problems) - 1; n > 0 {
			why += fmt.Sprintf(" (and %d more)", n)
		}
		return verdictRow{known: true, word: "unusable", why: why}
	}
	v := judge(s).Verdict
	return verdictRow{known: true, word: v.String(), worst: v}
}

// Take notes a verdict and asks for the next.
func (f *folder) Take(m verdictMsg) {
	if m.turn != f.turn || m.at >= len(f.told) {
		return
	}
	f.told[m.at] = m.told
	f.list.SetItems(f.items())
	f.judge(m.at+1, m.library)
}
