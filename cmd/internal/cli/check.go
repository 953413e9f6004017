package cli

import (
	"bytes"
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/inorder"
	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/whole"
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

// Run reports each schedule in the order given. Documents are read, judged and
// set on all processors; only a few reports are held at a time.
func (k checkCommand) Run(c *call) error {
	inputs := c.inputs(k.Files)
	for _, in := range inputs {
		// What cannot be searched for books is said here, in order; that there is
		// no library is said of the document that needs it.
		_, _ = c.books().Library(in.folder)
	}
	run := &checking{checkCommand: k, c: c, passed: map[schedules.Kind]int{}, list: output.NewList(c.out)}
	inorder.Do(len(inputs), func(i int) looked { return run.look(inputs[i]) }, run.take)
	run.tellPassed()
	if run.seen == 0 {
		c.say.Say("no document to check in %s", strings.Join(k.Files, ", "))
		c.ends(Unusable)
	}
	if c.JSON {
		return run.list.Close()
	}
	if run.judgedAny {
		c.print(paper.Sheet{paper.Aid(run.notChecked)})
	}
	return nil
}

// checking is one run of check.
type checking struct {
	checkCommand
	c      *call
	list   *output.List           // what is printed as JSON
	seen   int                    // documents, of whatever kind
	passed map[schedules.Kind]int // documents of other kinds

	judgedAny  bool
	notChecked []string // what no schedule's wall was checked for
}

// looked is what a look at one input came to.
type looked struct {
	d          *shop.Opened
	searched   bool
	judged     bool
	verdict    rules.Severity
	notChecked []string     // what its walls were not checked for
	item       output.Item  // as it is printed as JSON
	text       bytes.Buffer // and as text
}

// look reads an input and judges it. It says nothing and changes nothing of the
// run: several are looked at at once.
func (k *checking) look(in input) (r looked) {
	d := k.c.open(in)
	r.d, r.searched = d, in.searched
	if !d.Usable() {
		return r
	}
	options, detail := rules.Options{Fixes: k.c.JSON || k.Explain}, paper.Detail{Plies: k.Plies, Explain: k.Explain}
	var sheet paper.Sheet
	if d.Kind == schedules.Schedule {
		options.Units = k.c.units(d.Schedule)
		judged := d.Judge(options)
		r.judged, r.verdict, r.notChecked = true, judged.Verdict, judged.NotChecked()
		if k.c.JSON {
			r.item = output.ItemOf(report.Judged(d.Name, d.Library.Books, judged, d.Line))
		} else {
			sheet = paper.Check(d.Name, d.Library.Books, judged, d.Line, options.Units, detail)
		}
	}
	if d.Kind == schedules.Job {
		options.Units = k.c.unitsOr(d.Job.Units)
		judged := d.JudgeJob(options)
		r.judged, r.verdict = true, judged.Verdict
		r.notChecked = judged.NotChecked()
		if k.c.JSON {
			r.item = output.ItemOf(report.JudgedJob(d.Name, d.Library.Books, judged, d.Line))
		} else {
			sheet = whole.Check(d.Name, d.Library.Books, judged, d.Line, options.Units, detail)
		}
	}
	if !k.c.JSON {
		_ = paper.Text(&r.text, sheet, lineWidth) // nothing of a buffer fails
	}
	return r
}

// take says and prints what an input came to.
func (k *checking) take(r looked) {
	d := r.d
	if d.Kind == schedules.Undeclared && r.searched {
		k.passed[d.Kind]++
		return
	}
	k.seen++
	if d.Torn != "" {
		k.c.say.Say("%s: %s", d.Name, d.Torn)
		k.c.ends(Incomplete)
	}
	for _, w := range d.Warnings() {
		k.c.say.Say("%s: warning %s", d.Name, w)
	}
	switch {
	case !d.Usable():
		k.unusable(d)
	case !r.judged:
		k.passed[d.Kind]++
	default:
		k.c.endsBy(r.verdict)
		k.judgedAny = true
		if r.notChecked != nil {
			k.notChecked = r.notChecked
		}
		if k.c.JSON {
			k.list.Add(r.item)
		}
		_, _ = r.text.WriteTo(k.c.out.Plain) // which keeps an error until it is closed
	}
}

func (k *checking) unusable(d *shop.Opened) {
	s := k.c.unread(d)
	switch {
	case !k.c.JSON:
		k.c.printUnread(s)
	case d.Kind == schedules.Job:
		k.list.Add(output.ItemOf(report.UnreadJob(s)))
	default:
		k.list.Add(output.ItemOf(s))
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
