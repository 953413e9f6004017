package cli

import (
	"errors"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/workings"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/whole"
	"frp/veilwright/schedules/shop"
)

type wallCommand struct {
	File         string      `arg:"" help:"A schedule or a job, or - for standard input." complete:"documents"`
	CountBarrier bool        `help:"Count the barrier as structure too; the outer surface never is."`
	Depth        flag.Length `placeholder:"LENGTH" help:"Depth below the surface of the liquid, such as \"8 ft\"; at the bottom if left out."`
	Need         flag.Need   `placeholder:"UNIT" help:"Also print how many more repeats of a unit the wall needs: mat, mat-and-woven, wound-cover or hoop-and-chop."`
	Course       flag.Length `placeholder:"HEIGHT" help:"Height of a tank's courses for --need."`
}

// Help is shown under the command's flags.
func (wallCommand) Help() string {
	return `Stiffness of the structure under the loads of part and service: line loads, strains, and each criterion with required and allowable value and whether it governs by the part's design basis; of a job, part by part, and what is laid at its joints and nozzles, with the rule breaks of the whole and what of it cannot be determined.

    veilwright wall header.toml
    veilwright wall --need mat-and-woven header.toml
    veilwright wall --need mat --course "4 ft" tank.toml
    veilwright wall --json header.toml | jq '.criteria[] | select(.governs)'

Exit code: 1 when a governing criterion fails or a rule of the job as a whole is broken, 3 when one cannot be determined, 2 when the schedule cannot be read, else 0.`
}

// Run evaluates one schedule.
func (k wallCommand) Run(c *call) error {
	d := c.named(k.File, "wall", schedules.Schedule, schedules.Job)
	if d.Kind == schedules.Job && d.Usable() {
		return k.job(c, d)
	}
	if d.Usable() && d.Kind == schedules.Schedule && k.Depth.Given() && !d.Schedule.Part.LiquidHeight.Given() {
		d.Err = errors.New("--depth is for a part with a liquid in it (liquid_height)")
	}
	if !d.Usable() {
		return c.unusable(true, func(s report.Schedule) any { return report.UnreadWall(s) }, d)
	}
	units := c.units(d.Schedule)
	o := wall.Options{CountBarrier: k.CountBarrier, Depth: k.Depth.SI(), Units: laminate.Some(units)}
	r := wall.Evaluate(d.Schedule, d.Library, laminate.Analyze(d.Schedule, d.Library), o)
	c.endsAs(r)
	needed, err := k.needs(d, o)
	if err != nil {
		c.say.Say("%s: %s: %v", d.Name, k.Need.Unit.String(), err)
		c.ends(Incomplete)
	}
	return c.either(report.WallOf(d.Name, d.Library.Books, d.Schedule, r, needed), append(paper.Wall(d.Name, d.Library.Books, d.Schedule, r, needed, units), paper.Aid(r.NotChecked)))
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

// job tells of each part of a job.
func (k wallCommand) job(c *call, d *shop.Opened) error {
	if k != (wallCommand{File: k.File}) {
		return errors.New("--count-barrier, --depth, --need and --course are of one wall, and this is a job of several")
	}
	units := c.unitsOr(d.Job.Units)
	r := d.JudgeJob(rules.Options{Units: units})
	for _, p := range r.Parts {
		c.endsAs(p.Wall)
	}
	c.endsBy(rules.Worst(r.Findings))
	checks := workings.Of(r, d.Library, units)
	return c.either(report.JobWallsOf(d.Name, d.Library.Books, r, checks, d.Line), whole.Walls(d.Name, d.Library.Books, r, checks, d.Line, units))
}

// needs tells what the wall wants of the unit asked for; of a tank, course by
// course.
func (k wallCommand) needs(d *shop.Opened, o wall.Options) ([]repeat.Course, error) {
	if k.Need.Unit == repeat.NoUnit {
		return nil, nil
	}
	if d.Schedule.Part.Form == laminate.Tank {
		return repeat.Courses(d.Schedule, d.Library, k.Need.Unit, o, k.Course.SI())
	}
	n, err := repeat.Need(d.Schedule, d.Library, k.Need.Unit, o)
	if err != nil {
		return nil, err
	}
	return []repeat.Course{{Needed: n}}, nil
}
