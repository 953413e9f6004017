package task

import (
	"path/filepath"

	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Menu is a choice of a few numbered things.
type Menu struct {
	head string
	list *widget.Menu
	take func(i int) Task
}

// NewMenu makes a choice; take says what comes next.
func NewMenu(d *page.Desk, head string, take func(i int) Task, items ...widget.MenuItem) *Menu {
	return &Menu{head: head, list: widget.NewMenu(d.Theme, "", 0, items...), take: take}
}

// Title heads the choice.
func (m *Menu) Title() string { return m.head }

// Kind is Choosing.
func (*Menu) Kind() Kind { return Choosing }

// Press handles a key.
func (m *Menu) Press(d *page.Desk, e keys.Event) Task {
	switch m.list.Handle(e) {
	case widget.Taken:
		return m.take(m.list.Choice())
	case widget.Left:
		return nil
	case widget.Refused:
		d.Refuse(m.list.Reason())
	case widget.Going:
	}
	return m
}

// Lines draws it.
func (m *Menu) Lines(_ *draw.Theme, w, h int) []string { return m.list.View(w, h) }

// List is a choice of many, narrowed by typing.
type List struct {
	head string
	list *widget.Finder
	take func(i int) (Task, error)
}

// NewList makes a list; take says what comes next, or why it cannot be taken.
func NewList(d *page.Desk, head, ask string, items []widget.Item, take func(i int) (Task, error)) *List {
	return &List{head: head, list: widget.New(d.Theme, ask, items), take: take}
}

// Title heads the list.
func (l *List) Title() string { return l.head }

// Kind is Finding.
func (*List) Kind() Kind { return Finding }

// Press handles a key.
func (l *List) Press(d *page.Desk, e keys.Event) Task {
	switch l.list.Handle(e) {
	case widget.Taken:
		i, _ := l.list.Choice()
		next, err := l.take(i)
		if err != nil {
			d.Refuse(err.Error())
			return l
		}
		return next
	case widget.Left:
		return nil
	case widget.Refused:
		d.Refuse(l.list.Reason())
	case widget.Going:
	}
	return l
}

// Lines draws it.
func (l *List) Lines(_ *draw.Theme, w, h int) []string { return l.list.View(w, h) }

// mostLooked is how many files of a folder are read to tell what they are.
const mostLooked = 300

// Files is the list of a folder, of which one file is taken.
type Files struct {
	head   string
	folder string
	first  []widget.PickerEntry // before the files: what else may be taken
	// look tells what a file is: its row, and whether it belongs into the list.
	look func(path string, text []byte) (widget.PickerEntry, bool)
	take func(path string, first int) (Task, error)
	list *widget.Picker
	rows int
}

// NewFiles lists a folder. What take gets is the path of a file, or first, the
// index of one of the rows before the files, with an empty path.
func NewFiles(d *page.Desk, head, folder string, first []widget.PickerEntry, look func(string, []byte) (widget.PickerEntry, bool), take func(path string, first int) (Task, error)) *Files {
	f := &Files{head: head, first: first, look: look, take: take}
	f.enter(d, folder)
	return f
}

func (f *Files) enter(d *page.Desk, folder string) {
	list, err := store.Entries(folder)
	if err != nil && len(list) == 0 && f.list != nil {
		d.Refuse(err.Error())
		return
	}
	f.folder = folder
	rows := append([]widget.PickerEntry{}, f.first...)
	looked := 0
	for _, e := range list {
		if e.Folder {
			rows = append(rows, widget.PickerEntry{Name: e.Name, Folder: true})
			continue
		}
		if looked++; looked > mostLooked {
			rows = append(rows, widget.PickerEntry{Name: "more files", Why: "the folder holds too many files to list: name it on the command line, or tidy the folder"})
			break
		}
		file, err := store.Read(e.Path)
		if err != nil {
			continue // what cannot be read is neither a specification nor a record
		}
		if row, ok := f.look(e.Path, file.Bytes); ok {
			row.Name = e.Name
			rows = append(rows, row)
		}
	}
	f.list, f.rows = widget.NewPicker(d.Theme, folder, rows), len(rows)
	if err != nil {
		d.Refuse(err.Error())
	}
}

// Title heads the list.
func (f *Files) Title() string { return f.head }

// Kind is Finding.
func (*Files) Kind() Kind { return Finding }

// Press handles a key.
func (f *Files) Press(d *page.Desk, e keys.Event) Task {
	switch f.list.Handle(e) {
	case widget.Taken:
		row, ok := f.list.Choice()
		if !ok {
			return f
		}
		return f.taken(d, row)
	case widget.Left:
		return nil
	case widget.Refused:
		d.Refuse(f.list.Reason())
	case widget.Going:
		if f.list.Up() {
			f.enter(d, filepath.Dir(absolute(f.folder)))
		}
	}
	return f
}

func absolute(folder string) string {
	if abs, err := filepath.Abs(folder); err == nil {
		return abs
	}
	return folder
}

func (f *Files) taken(d *page.Desk, row widget.PickerEntry) Task {
	for i, r := range f.first {
		if r.Name == row.Name {
			return f.next(d, "", i)
		}
	}
	path := filepath.Join(f.folder, row.Name)
	if row.Folder {
		f.enter(d, path)
		return f
	}
	return f.next(d, path, -1)
}

func (f *Files) next(d *page.Desk, path string, first int) Task {
	next, err := f.take(path, first)
	if err != nil {
		d.Refuse(err.Error())
		return f
	}
	return next
}

// Lines draws it.
func (f *Files) Lines(t *draw.Theme, w, h int) []string {
	if f.rows > 0 {
		return f.list.View(w, h)
	}
	where := " " + t.Dim.Render(draw.Tail(draw.Clean(f.folder), max(1, w-2)))
	return draw.FitLines([]string{where, " nothing of the kind here: ← goes to the folder above"}, w, h)
}
