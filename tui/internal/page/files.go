package page

import (
	"cmp"
	"path/filepath"

	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
)

// mostLooked is how many files of a folder are read to tell what they are.
const mostLooked = 300

// Files is the list of a folder, of which one file is taken.
type Files struct {
	Head  string
	First []Item // before the files: what else may be taken
	// Look tells what a file is: its row, and whether it belongs into the list.
	Look func(path string, text []byte) (Item, bool)
	// Take takes the path of a file, or the index of one of First with no path.
	Take func(path string, first int) error
	// None says what to do where nothing of the kind lies here; "" is nothing more.
	None string

	desk   *Desk
	folder string
	paths  []string // by row: the file, or the folder; "" for one of First
	into   []bool   // by row: a folder
	list   *List
}

// List makes the list of a folder.
func (f *Files) List(d *Desk, folder string) *List {
	f.desk = d
	f.list = &List{Head: f.Head, Find: "open", Verb: "take", Take: f.take, Again: f.again, Above: func() { f.enter(filepath.Dir(absolute(f.folder))) }}
	f.enter(folder)
	return f.list
}

// Only is the file of the folder where it has one and no other that could be
// meant; "" where there is a choice.
func (f *Files) Only() string {
	only := ""
	for i, path := range f.paths {
		switch {
		case path == "" || f.into[i]:
		case only != "" || f.list.Items[i].Why != "":
			return ""
		default:
			only = path
		}
	}
	return only
}

func absolute(folder string) string {
	if abs, err := filepath.Abs(folder); err == nil {
		return abs
	}
	return folder
}

func (f *Files) enter(folder string) {
	list, err := store.Entries(folder)
	if err != nil {
		f.desk.Refuse(err.Error())
		if len(list) == 0 && f.folder != "" {
			return
		}
	}
	f.folder, f.paths, f.into = folder, nil, nil
	var rows []Item
	add := func(row Item, path string, into bool) {
		rows, f.paths, f.into = append(rows, row), append(f.paths, path), append(f.into, into)
	}
	for _, row := range f.First {
		add(row, "", false)
	}
	looked := 0
	for _, e := range list {
		if e.Folder {
			add(Item{Mark: "/", Name: e.Name, Note: "folder"}, e.Path, true)
			continue
		}
		if looked++; looked > mostLooked {
			add(Item{Name: "more files", Why: "the folder holds too many files to list: name it on the command line, or tidy the folder"}, "", false)
			break
		}
		file, err := store.Read(e.Path)
		if err != nil {
			continue // what cannot be read is nothing that is looked for
		}
		if row, ok := f.Look(e.Path, file.Bytes); ok {
			row.Name = e.Name
			add(row, e.Path, false)
		}
	}
	if len(rows) == 0 {
		f.desk.Refuse(cmp.Or(f.None, "nothing of the kind here") + ": ← goes to the folder above")
	}
	f.list.Text = draw.Clean(absolute(folder))
	f.list.Fill(rows)
}

// again reads a file anew that could not be taken.
func (f *Files) again(i int) {
	path := f.paths[i]
	if path == "" || f.into[i] {
		return
	}
	file, err := store.Read(path)
	if err != nil {
		return
	}
	if row, ok := f.Look(path, file.Bytes); ok {
		row.Name = f.list.Items[i].Name
		f.list.SetItem(i, row)
	}
}

func (f *Files) take(i int) error {
	if f.into[i] {
		f.enter(f.paths[i])
		return ErrStay
	}
	return f.Take(f.paths[i], i)
}
