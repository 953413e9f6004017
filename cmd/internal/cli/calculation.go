package cli

import (
	"errors"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
)

type calculationCommand struct {
	Schedule string `arg:"" help:"The schedule, or - for standard input." complete:"documents"`
	paperFlags
}

// Help is shown under the command's flags.
func (calculationCommand) Help() string {
	return `The structure worked out for a reviewer with a pocket calculator: geometry, plies from their constituents, stiffness, loads and each criterion, with the formula, the numbers put in, the result and the source. wall prints the same in short, and its --json has the figures.

    veilwright print calculation header.toml
    veilwright print calculation header.toml -o header-calculation.pdf
    veilwright print calculation header.toml --units si --to md > header-3.md

Exit code: that of wall: 1 when a governing criterion fails, 3 when one cannot be determined, 2 when the schedule cannot be read, else 0.`
}

// Run prints the calculation.
func (k calculationCommand) Run(c *call) error {
	if c.JSON {
		return errors.New("a calculation is a paper; veilwright wall --json has its figures")
	}
	if err := k.check(c); err != nil {
		return err
	}
	d := c.named(k.Schedule, "print", schedules.Schedule)
	if !d.Usable() {
		return c.unusable(false, func(s report.Schedule) any { return report.UnreadWall(s) }, d)
	}
	u := c.units(d.Schedule)
	o := wall.Options{Units: laminate.Some(u)}
	a := laminate.Analyze(d.Schedule, d.Library)
	r := wall.Evaluate(d.Schedule, d.Library, a, o)
	c.endsAs(r)
	worked := wall.Calculate(d.Schedule, d.Library, a, o)
	frame := c.paperOf(d, d.Schedule.Head, u).Frame("Calculation")
	frame.NotChecked = r.NotChecked
	return k.put(c, &paper.Form{Frame: frame, Sheet: paper.Calculation(d.Name, &worked, r)}, u)
}

// endsAs notes the exit code of an evaluated structure.
func (c *call) endsAs(r *wall.Result) {
	switch r.Answer() {
	case wall.Fails:
		c.ends(Broken)
	case wall.Incomplete:
		c.ends(Incomplete)
	case wall.Holds, wall.NotApplicable:
	}
}
