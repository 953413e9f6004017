package app

import (
	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/page/jobdata"
)

func (r *Root) jobData() {
	r.push(jobdata.New(r.here()))
	if len(r.here().Doc.Now().Resins) == 0 {
		r.here().Say("no resin is stated yet: PgDn goes to the line that adds one")
	}
}

// open lists the folder's documents.
func (r *Root) open() {
	r.folder = newFolder(r.desk, r.o.Shop, r.dir(), r.openFile, func(c tea.Cmd) { r.do(guard(c)) })
	r.push(r.folder.list)
}

// openFile opens another document in the place of this one, asking about what
// is not saved.
func (r *Root) openFile(path string) {
	r.unsaved("open", func() {
		d, err := editor.Open(path, r.o.Shop)
		if err != nil {
			r.desk.Refuse(err.Error())
			return
		}
		r.stack = nil
		r.become(d)
		r.desk.Say("opened " + d.Path())
		if ro, why := d.ReadOnly(); ro {
			r.desk.Refuse("opened " + d.Path() + " to read only: " + why)
		}
		r.sweep()
		r.remember()
		r.offer()
	})
}

// become shows a document, in the place of another one where it is one.
func (r *Root) become(d *editor.Document) {
	if old := r.desk.Doc; old != d {
		if err := old.Close(); err != nil {
			r.desk.Refuse(err.Error())
		}
		chosen(r.o.Units, d)
		r.desk.Doc = d
		r.land()
	}
	r.replaced()
	r.desk.Go(r.desk.LastRow())
}

// sweep takes away what killed programs left, beside everything else.
func (r *Root) sweep() {
	folder := r.dir()
	r.do(guard(func() tea.Msg {
		store.Sweep(folder)
		return nil
	}))
}

// result takes what a command found out.
func (r *Root) result(msg tea.Msg) {
	m, ok := msg.(verdictMsg)
	if !ok {
		return
	}
	if r.folder != nil {
		r.folder.Take(m)
		r.settle()
		r.stale = true
	}
}
