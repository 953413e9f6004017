package cli

import (
	"errors"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper/forms"
)

// formOf is what the papers of a schedule or a job share.
type formOf struct {
	File string `arg:"" help:"The schedule or job, or - for standard input." complete:"documents"`
	paperFlags
}

type (
	laminateScheduleCommand struct{ formOf }
	layUpSheetCommand       struct{ formOf }
	routeSheetCommand       struct{ formOf }
	calculationCommand      struct{ formOf }
	inspectionPlanCommand   struct {
		File          string `arg:"" help:"The schedule or job." complete:"documents"`
		Specification string `arg:"" optional:"" help:"The purchaser's specification, whose requirements are listed; of a schedule." complete:"documents"`
		paperFlags
	}
)

const formExit = `

Exit code: that of check: 1 when a rule is broken, 3 when a fact that matters is missing, 2 when a document cannot be read or the paper cannot be written, else 0. The paper is printed all the same, and says so.`

// Help is shown under the command's flags.
func (laminateScheduleCommand) Help() string {
	return `The drawing table of each part: what is stated of part and service, the wall in section to scale, each ply with zone, material, resin, thickness and glass, gel stops, repeats once with their count, thickness and mass by zone, what the structure has to carry, fields for what the fabricator states, lines to sign on.

    veilwright print laminate-schedule tank.toml -o tank.pdf
    veilwright print laminate-schedule tank.toml -o tank.svg` + formExit
}

// Help is shown under the command's flags.
func (layUpSheetCommand) Help() string {
	return `What lies beside the mold: the cautions that this part calls for, when to stop, the resin mix by the shop's own table, the cut list, and each single ply in the order of laying with fields to write in; work stops at each gel stop and when the barrier is whole.

    veilwright print lay-up-sheet tank.toml -o tank-lay-up.pdf` + formExit
}

// Help is shown under the command's flags.
func (routeSheetCommand) Help() string {
	return `What goes with the part through the shop: each operation in order, with hold, witness and review points, fields for dates and names, and the text for the plate.

    veilwright print route-sheet job.toml -o job-route.pdf --paper a4` + formExit
}

// Help is shown under the command's flags.
func (inspectionPlanCommand) Help() string {
	return `What is inspected, how, how often, to which limit and by whose word; what nobody has stated is a field to write in. With a specification each of its requirements is a line.

    veilwright print inspection-plan header.toml spec.toml -o header-plan.pdf` + formExit
}

// Help is shown under the command's flags.
func (calculationCommand) Help() string {
	return `The structure worked out for a reviewer with a pocket calculator: geometry, plies from their constituents, stiffness, loads and each criterion, with the formula, the numbers put in, the result and the source. wall prints the same in short, and its --json has the figures.

    veilwright print calculation header.toml
    veilwright print calculation header.toml -o header-calculation.pdf
    veilwright print calculation header.toml --units si --to md > header-3.md

Exit code: that of wall: 1 when a governing criterion fails, 3 when one cannot be determined, 2 when the schedule cannot be read, else 0.`
}

// Run prints the paper that the command is named after.
func (k formOf) Run(c *call) error {
	of, err := k.subject(c, k.File)
	if of == nil {
		return err
	}
	for i := range of.Parts {
		if p := &of.Parts[i]; c.command == "calculation" {
			c.endsAs(of.Structure(p))
		} else {
			c.endsBy(p.Report.Verdict)
		}
	}
	return k.put(c, forms.Named(c.command).Form(of), of.Units)
}

// Run prints the plan.
func (k inspectionPlanCommand) Run(c *call) error {
	of, err := k.subject(c, k.File)
	if of == nil {
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
	for i := range of.Parts {
		c.endsBy(of.Parts[i].Report.Verdict)
	}
	return k.put(c, forms.Named("inspection-plan").Form(of), of.Units)
}

// subject reads and judges a schedule or a job; nil where it cannot be used,
// which is said by then.
func (k *paperFlags) subject(c *call, name string) (*forms.Subject, error) {
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
	var units quantity.System
	if d.Job != nil {
		units = c.unitsOr(d.Job.Units)
	} else {
		units = c.units(d.Schedule)
	}
	return forms.SubjectOf(d, rules.Options{Units: units}), nil
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
