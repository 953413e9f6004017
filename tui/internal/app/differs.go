package app

import (
	"path/filepath"
	"strings"

	"frp/veilwright/laminate"
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
		sheet func() paper.Sheet
	}
	wall := func(name string, other *rules.Report) side {
		return side{name, func() paper.Sheet {
			return paper.Diff(name, "as it stands", schedules.FactChanges(other.Schedule, d.Now()), revision.Compare(other, d.Report()), other, d.Report(), r.desk.Units())
		}}
	}
	// Of a job all of it is told apart, not the wall on the bench.
	job := func(name string, other *rules.JobReport) side {
		return side{name, func() paper.Sheet {
			return paper.DiffJobs(name, "the job as it stands", schedules.JobChanges(other.Job, d.Job()), revision.Jobs(other, d.JobReport(), d.Library()), r.desk.Units())
		}}
	}
	const file = "the file"
	var sides []side
	if d.Job() != nil {
		if saved := d.SavedJob(); saved != nil {
			sides = append(sides, job(file, saved))
		}
		sides = append(sides, job("the job as opened", d.OpenedJob()))
	} else {
		if saved := d.Saved(); saved != nil {
			sides = append(sides, wall(file, saved))
		}
		sides = append(sides, wall("as opened", d.Opened()))
	}
	opened := len(sides) - 1
	kind := schedules.Schedule
	if d.Job() != nil {
		kind = schedules.Job
	}
	at := 0
	x := &page.Text{Head: "what differs", Full: true}
	x.Body = func(w int) []string {
		var b strings.Builder
		if err := paper.Text(&b, sides[at].sheet(), w-2); err != nil {
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
			if sides[0].name != file {
				return "there is no file yet to differ from"
			}
			return ""
		}, Do: keys.Do(func() { at = 0 })},
		{Keys: []string{"2"}, Short: "since opened", Long: "what was done since it was opened", Group: g, Rank: 2, Do: keys.Do(func() {
			at = opened
		})},
		{Keys: []string{"3"}, Short: "another revision", Long: "against another file", Group: g, Rank: 3, Do: keys.Do(func() {
			f := &page.Files{Head: "differs from which file?"}
			f.Look = func(name string, text []byte) (page.Item, bool) {
				o := r.o.Shop.Open(name, text, filepath.Dir(name))
				head := laminate.Head{}
				switch {
				case o.Kind != kind:
					return page.Item{}, false
				case o.Schedule == nil && o.Job == nil:
					return page.Item{Why: o.Why()}, true
				case o.Job != nil:
					head = o.Job.Head
				default:
					head = o.Schedule.Head
				}
				return page.Item{Note: strings.TrimSpace(head.Title + " " + head.Job)}, true
			}
			f.Take = func(path string, _ int) error {
				file, err := store.Read(path)
				if err != nil {
					return err
				}
				o := r.o.Shop.Open(path, file.Bytes, filepath.Dir(path))
				options := rules.Options{Units: r.desk.Units()}
				if o.Job != nil {
					sides = append(sides, job(filepath.Base(path), o.JudgeJob(options)))
				} else {
					sides = append(sides, wall(filepath.Base(path), o.Judge(options)))
				}
				at = len(sides) - 1
				x.Settle()
				return nil
			}
			r.push(f.List(r.desk, r.dir()))
		})},
	}
	r.push(x)
}
