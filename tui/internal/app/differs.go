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
		name string
		// One of the two: of a job all of it is told apart, not the wall on the bench.
		other *rules.Report
		job   *rules.JobReport
	}
	var sides []side
	if saved, job := d.Saved(), d.SavedJob(); job != nil {
		sides = append(sides, side{"the file", nil, job})
	} else if saved != nil {
		sides = append(sides, side{"the file", saved, nil})
	}
	if job := d.OpenedJob(); job != nil {
		sides = append(sides, side{"the job as opened", nil, job})
	} else {
		sides = append(sides, side{"as opened", d.Opened(), nil})
	}
	kind := schedules.Schedule
	if d.Job() != nil {
		kind = schedules.Job
	}
	at := 0
	x := &page.Text{Head: "what differs", Full: true}
	x.Body = func(w int) []string {
		s := sides[at]
		var sheet paper.Sheet
		if s.job != nil {
			sheet = paper.DiffJobs(s.name, "the job as it stands", schedules.JobChanges(s.job.Job, d.Job()), revision.Jobs(s.job, d.JobReport(), d.Library()), r.desk.Units())
		} else {
			sheet = paper.Diff(s.name, "as it stands", schedules.FactChanges(s.other.Schedule, d.Now()), revision.Compare(s.other, d.Report()), s.other, d.Report(), r.desk.Units())
		}
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
				if strings.HasSuffix(s.name, "as opened") {
					at = i
				}
			}
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
				s := side{name: filepath.Base(path)}
				if o.Job != nil {
					s.job = o.JudgeJob(rules.Options{Units: r.desk.Units()})
				} else {
					s.other = o.Judge(rules.Options{Units: r.desk.Units()})
				}
				sides = append(sides, s)
				at = len(sides) - 1
				x.Settle()
				return nil
			}
			r.push(f.List(r.desk, r.dir()))
		})},
	}
	r.push(x)
}
