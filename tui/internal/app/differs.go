package app

import (
	"path/filepath"
	"strings"

	"frp/veilwright/rules"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// differs shows what differs: from the file as it was saved last, from the
// schedule as it was opened, from another revision.
func (r *Root) differs() {
	d := r.desk.Doc
	type side struct {
		name  string
		other *rules.Report
	}
	var sides []side
	if saved := d.Saved(); saved != nil {
		sides = append(sides, side{"the file", saved})
	}
	sides = append(sides, side{"as opened", d.Opened()})
	at := 0
	x := &page.Text{Head: "what differs", Full: true}
	x.Body = func(w int) []string {
		s := sides[at]
		sheet := paper.Diff(s.name, "as it stands", schedules.FactChanges(s.other.Schedule, d.Now()), revision.Compare(s.other, d.Report()), s.other, d.Report(), r.desk.Units())
		var b strings.Builder
		if err := paper.Text(&b, sheet, w-2); err != nil {
			return []string{" " + err.Error()}
		}
		var lines []string
		for line := range strings.Lines(b.String()) {
			lines = append(lines, " "+strings.TrimRight(line, "\n"))
		}
		return lines
	}
	const g = "What differs"
	x.Keys = keys.Table{
		{Keys: []string{"1"}, Short: "since saved", Long: "what differs from the file", Group: g, Rank: 1, Can: func() string {
			if len(sides) < 2 || sides[0].name != "the file" {
				return "there is no file yet to differ from"
			}
			return ""
		}, Do: keys.Do(func() { at = 0 })},
		{Keys: []string{"2"}, Short: "since opened", Long: "what was done since it was opened", Group: g, Rank: 2, Do: keys.Do(func() {
			for i, s := range sides {
				if s.name == "as opened" {
					at = i
				}
			}
		})},
		{Keys: []string{"3"}, Short: "another revision", Long: "against another file", Group: g, Rank: 3, Do: keys.Do(func() {
			f := &page.Files{Head: "differs from which file?"}
			f.Look = func(name string, text []byte) (page.Item, bool) {
				o := r.o.Shop.Open(name, text, filepath.Dir(name))
				if o.Schedule == nil {
					return page.Item{Why: o.Why()}, o.Kind == schedules.Schedule
				}
				return page.Item{Note: strings.TrimSpace(o.Schedule.Title + " " + o.Schedule.Job)}, o.Kind == schedules.Schedule
			}
			f.Take = func(path string, _ int) error {
				file, err := store.Read(path)
				if err != nil {
					return err
				}
				o := r.o.Shop.Open(path, file.Bytes, filepath.Dir(path))
				sides = append(sides, side{filepath.Base(path), o.Judge(rules.Options{Units: r.desk.Units()})})
				at = len(sides) - 1
				x.Settle()
				return nil
			}
			r.push(f.List(r.desk, r.dir()))
		})},
	}
	r.push(x)
}
