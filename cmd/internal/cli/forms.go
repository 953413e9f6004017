package cli

import (
	"errors"
	"path/filepath"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper/forms"
)

// onlyOf says what of a job a paper is of.
type onlyOf struct {
	Part  string `placeholder:"ID" help:"Of a job: this part alone."`
	Joint string `placeholder:"ID" help:"Of a job: what is laid at this joint or nozzle alone."`
}

// formOf is a paper of a schedule or a job.
type formOf struct {
	File string `arg:"" help:"The schedule or job, or - for standard input." complete:"documents"`
	onlyOf
	paperFlags
}

type (
	takeoffPaperCommand struct {
		formOf
		ShopTemperature flag.Temperature `placeholder:"TEMPERATURE" help:"Temperature of shop and resin, where the shop's table of initiators asks for it."`
	}
	specifiedCommand struct {
		File          string `arg:"" help:"The schedule or job." complete:"documents"`
		Specification string `arg:"" optional:"" help:"The purchaser's specification, whose requirements and hold points are listed; of a schedule or one part." complete:"documents"`
		onlyOf
		paperFlags
	}
)

// Run prints the takeoff.
func (k takeoffPaperCommand) Run(c *call) error { return k.print(c, k.ShopTemperature.Temperature) }

// Run prints the paper that the command is named after.
func (k formOf) Run(c *call) error { return k.print(c, quantity.Temperature{}) }

func (k *formOf) print(c *call, at quantity.Temperature) error {
	of, err := k.subject(c, k.File, k.onlyOf)
	if of == nil || err != nil {
		return err
	}
	of.At = at
	switch c.command {
	case "calculation":
		for _, p := range of.Shown() {
			c.endsAs(of.Structure(p))
		}
		c.endsBy(rules.Worst(of.Whole))
	case "takeoff":
		if of.Count().Incomplete() {
			c.ends(Incomplete)
		}
	default:
		c.endsBy(of.Verdict())
	}
	return k.put(c, forms.Named(c.command).Form(of), of.Units)
}

// Run prints the plan, or the lay-up sheet.
func (k specifiedCommand) Run(c *call) error {
	of, err := k.subject(c, k.File, k.onlyOf)
	if of == nil || err != nil {
		return err
	}
	if k.Specification != "" {
		asked := c.named(k.Specification, "print", schedules.Specification)
		if !asked.Usable() {
			return c.unusable(false, func(s report.Schedule) any { return s }, asked)
		}
		if err := of.Require(asked); err != nil {
			return err
		}
	}
	c.endsBy(of.Verdict())
	return k.put(c, forms.Named(c.command).Form(of), of.Units)
}

// subject reads and judges a schedule or a job; nil where it cannot be used,
// which is said by then.
func (k *paperFlags) subject(c *call, name string, only onlyOf) (*forms.Subject, error) {
	if err := k.check(c); err != nil {
		return nil, err
	}
	if c.JSON {
		return nil, errors.New("this is a paper; veilwright check --json and wall --json have its figures")
	}
	d := c.named(name, "print", schedules.Schedule, schedules.Job)
	if !d.Usable() {
		return nil, c.unusable(false, func(s report.Schedule) any { return s }, d)
	}
	folder := "" // of the shop books
	if name != stdinName {
		folder = filepath.Dir(name)
	}
	of := forms.SubjectOf(d, c.books().Stock(folder), rules.Options{Units: c.unitsOr(d.Head().Units)})
	return of, of.Narrow(only.Part, only.Joint)
}

// endsBy has the call end as a verdict asks for.
func (c *call) endsBy(v rules.Severity) {
	switch v {
	case rules.Break:
		c.ends(Broken)
	case rules.Incomplete:
		c.ends(Incomplete)
	case rules.Clear, rules.Note, rules.Warning, rules.Unusable:
	}
}
