package cli

import (
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/shop"
)

type checkCommand struct {
	Files   []string `arg:"" name:"file" help:"Schedules, jobs, folders of them, or - for standard input." complete:"documents"`
	Plies   bool     `help:"Print every ply with its thickness and glass content."`
	Explain bool     `help:"Print basis and fix under every finding."`
}

// Help is shown under the command's flags.
func (checkCommand) Help() string {
	return `The report of each schedule, and of each part of a job: thickness, mass and glass content by zone, the findings of the rules, and a verdict: clear, warning, incomplete (a fact that matters is missing), break (do not build) or unusable. Facts that a document states and nothing weighs are listed. Folders are searched for *.toml; other documents found there are validated.

    veilwright check header.toml
    veilwright check --plies --explain --units si header.toml
    veilwright check jobs/ --json | jq '.[] | select(.verdict == "break") | .file'
    git show HEAD:header.toml | veilwright check -

Exit code: 1 when a rule is broken, 2 when something cannot be read, 3 when no rule is broken but a fact that matters is missing, else 0.`
}

// Run reports each schedule in the order given.
func (k checkCommand) Run(c *call) error {
	run := &checking{checkCommand: k, c: c, reports: []any{}, passed: map[schedules.Kind]int{}}
	for _, in := range c.inputs(k.Files) {
		run.one(in)
	}
	run.tellPassed()
	if run.seen == 0 {
		c.say.Say("no document to check in %s", strings.Join(k.Files, ", "))
		c.ends(Unusable)
	}
	if c.JSON {
		return c.out.JSON(run.reports)
	}
	if run.judgedAny {
		c.print(paper.Sheet{paper.Aid(run.notChecked)})
	}
	return nil
}

// checking is one run of check.
type checking struct {
	checkCommand
	c       *call
	reports []any
	seen    int                    // documents, of whatever kind
	passed  map[schedules.Kind]int // documents of other kinds

	judgedAny  bool
	notChecked []string // what no schedule's wall was checked for
}

func (k *checking) one(in input) {
	d := k.c.open(in)
	if d.Kind == schedules.Undeclared && in.searched {
		k.passed[d.Kind]++
		return
	}
	k.seen++
	if d.Torn != "" {
		k.c.say.Say("%s: %s", d.Name, d.Torn)
		k.c.ends(Incomplete)
	}
	switch {
	case !d.Usable():
		k.unusable(d)
	case d.Kind == schedules.Schedule:
		k.judged(d)
	case d.Kind == schedules.Job:
		k.job(d)
	default:
		k.passed[d.Kind]++
	}
}

func (k *checking) job(d *shop.Opened) {
	units := k.c.unitsOr(d.Job.Units)
	r := d.JudgeJob(rules.Options{Units: units, Fixes: k.c.JSON || k.Explain})
	k.c.endsBy(r.Verdict)
	k.judgedAny = true
	for _, p := range r.Parts {
		if p.Wall != nil {
			k.notChecked = p.Wall.NotChecked
		}
	}
	if k.c.JSON {
		k.reports = append(k.reports, report.JudgedJob(d.Name, d.Library.Books, r, d.Line))
		return
	}
	k.c.print(paper.CheckJob(d.Name, d.Library.Books, r, d.Line, units, paper.Detail{Plies: k.Plies, Explain: k.Explain}))
}

func (k *checking) judged(d *shop.Opened) {
	units := k.c.units(d.Schedule)
	r := d.Judge(rules.Options{Units: units, Fixes: k.c.JSON || k.Explain})
	k.c.endsBy(r.Verdict)
	k.judgedAny = true
	if r.Wall != nil {
		k.notChecked = r.Wall.NotChecked
	}
	if k.c.JSON {
		k.reports = append(k.reports, report.Judged(d.Name, d.Library.Books, r, d.Line))
		return
	}
	k.c.print(paper.Check(d.Name, d.Library.Books, r, d.Line, units, paper.Detail{Plies: k.Plies, Explain: k.Explain}))
}

func (k *checking) unusable(d *shop.Opened) {
	s := k.c.unread(d)
	if d.Kind == schedules.Job {
		k.reports = append(k.reports, report.UnreadJob(s))
	} else {
		k.reports = append(k.reports, s)
	}
	if !k.c.JSON {
		k.c.printUnread(s)
	}
}

// tellPassed counts what is no schedule.
func (k *checking) tellPassed() {
	var read []string
	for _, kind := range []schedules.Kind{schedules.Specification, schedules.Record, schedules.ShopBook, schedules.Exercise} {
		if n := k.passed[kind]; n > 0 {
			read = append(read, fmt.Sprintf("%d of kind %s", n, kind))
		}
	}
	if len(read) > 0 {
		k.c.say.Say("other documents, valid: %s", strings.Join(read, ", "))
	}
	if n := k.passed[schedules.Undeclared]; n > 0 {
		k.c.say.Say("TOML files that are not documents, skipped: %d", n)
	}
}
