package cli

import (
	"fmt"
	"path/filepath"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/rules"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/shop"
)

type compareCommand struct {
	Schedule      string  `arg:"" help:"The schedule, or the job whose part the record is of." complete:"documents"`
	Specification string  `arg:"" help:"The purchaser's specification." complete:"documents"`
	Record        string  `arg:"" optional:"" help:"The record of what was laid and measured." complete:"documents"`
	To            flag.To `placeholder:"md|csv" help:"Print a Markdown table or CSV instead of text."`
}

// Help is shown under the command's flags.
func (compareCommand) Help() string {
	return `Every requirement of a specification, what was found, and whether it is met; with a record, also the readings, the lay-up and the defects. Broken rules of the schedule itself are listed beside the verdict.

Without a record the verdict is about the schedule: conforms, does not conform or incomplete. With one it is about the part: accept, reject, incomplete, or not inspected while the record has neither a ply checked off nor a reading. A part laid to a schedule that breaks a rule is not accepted. Of a job the one part is compared that the record names (part).

    veilwright compare header.toml spec.toml
    veilwright compare tank.toml spec.toml shell-1-17.toml
    veilwright compare header.toml spec.toml header-17.toml --to md > header-17.md
    veilwright compare header.toml spec.toml --json | jq '.lines[] | select(.verdict == "fails")'

veilwright new --kind specification and veilwright new --kind record make the other two documents, with every key commented out.

Exit code: 0 conforms or accept, 1 does not conform or reject, 3 incomplete or not inspected, 2 when a document cannot be read.`
}

// Run holds one schedule against one specification.
func (k compareCommand) Run(c *call) error {
	if c.JSON && k.To != "" {
		return fmt.Errorf("--json and --to %s exclude each other", k.To)
	}
	h, err := c.hold("compare", k.Schedule, k.Specification, k.Record)
	if h == nil {
		return err
	}
	if c.JSON {
		return c.out.JSON(h.report())
	}
	return c.as(k.To, append(paper.Compare(h.files, h.Result, h.Judged), paper.Aid(nil)))
}

type diffCommand struct {
	Old string `arg:"" help:"The older revision." complete:"documents"`
	New string `arg:"" help:"The newer revision." complete:"documents"`

	Takeoff bool `help:"Tell what it takes to build them apart instead: material and resin to order, hours, cost."`
}

// Help is shown under the command's flags.
func (diffCommand) Help() string {
	return `Two revisions of a schedule, ply by ply, rows aligned by content and not by number: plies changed, added, removed or moved, and changes in thickness, glass content, mass and findings.

    veilwright diff header-2.toml header-3.toml
    git show HEAD:header.toml | veilwright diff - header.toml --json
    veilwright diff --takeoff tank-2.toml tank-3.toml

Exit code: 0, or 2 when a document cannot be read; with --takeoff 3 when a quantity cannot be determined.`
}

// Run tells two revisions apart.
func (k diffCommand) Run(c *call) error {
	old := c.named(k.Old, "diff", schedules.Schedule, schedules.Job)
	new := c.named(k.New, "diff", schedules.Schedule, schedules.Job)
	if old.Usable() && new.Usable() {
		if k.Takeoff {
			return k.takeoffs(c, old, new)
		} else if old.Kind != new.Kind {
			new.Err = fmt.Errorf("is of kind %s and the older revision of kind %s: two revisions of one document are compared", new.Kind, old.Kind)
		} else if old.Kind == schedules.Job {
			return k.jobs(c, old, new)
		}
	}
	if !old.Usable() || !new.Usable() {
		return c.unusable(false, func(s report.Schedule) any {
			return report.Difference{Old: k.Old, New: k.New, Error: s.Error, Problems: s.Problems,
				Facts: []report.FactChange{}, Rows: []report.RowChange{}, Figures: []report.FigureChange{}, Gone: []report.Finding{}, Come: []report.Finding{}}
		}, old, new)
	}
	units := c.units(new.Schedule)
	older, newer := old.Judge(rules.Options{Units: units}), new.Judge(rules.Options{Units: units})
	facts, d := schedules.FactChanges(old.Schedule, new.Schedule), revision.Compare(older, newer)
	return c.either(report.Differing(k.Old, k.New, facts, d, older, newer), paper.Diff(k.Old, k.New, facts, d, older, newer, units))
}

// takeoffs tells apart what it takes to build two documents.
func (k diffCommand) takeoffs(c *call, old, new *shop.Opened) error {
	older := c.takenOff(old, filepath.Dir(k.Old), quantity.Temperature{})
	newer := c.takenOff(new, filepath.Dir(k.New), quantity.Temperature{})
	list := takeoff.Differ(older, newer, new.Library)
	return c.either(report.TakeoffDiffering(k.Old, k.New, list), append(paper.DiffTakeoff(k.Old, k.New, list, older.Incomplete() || newer.Incomplete(), c.unitsOr(new.Head().Units)), paper.Aid(nil)))
}

// jobs tells two revisions of a job apart.
func (k diffCommand) jobs(c *call, old, new *shop.Opened) error {
	units := c.unitsOr(new.Job.Units)
	d := revision.Jobs(old.JudgeJob(rules.Options{Units: units}), new.JudgeJob(rules.Options{Units: units}), new.Library)
	facts := schedules.JobChanges(old.Job, new.Job)
	return c.either(report.JobDiffering(k.Old, k.New, facts, d), paper.DiffJobs(k.Old, k.New, facts, d, units))
}
