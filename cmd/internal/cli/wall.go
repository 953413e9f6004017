package cli

import (
	"errors"
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/shop"
)

type wallCommand struct {
	File         string     `arg:"" help:"A schedule or a job, or - for standard input." complete:"documents"`
	CountBarrier bool       `help:"Count the barrier as structure too; the outer surface never is."`
	Depth        lengthFlag `placeholder:"LENGTH" help:"Depth below the surface of the liquid, such as \"8 ft\"; at the bottom if left out."`
	Need         needFlag   `placeholder:"UNIT" help:"Also print how many more repeats of a unit the wall needs: mat, mat-and-woven, wound-cover or hoop-and-chop."`
	Course       lengthFlag `placeholder:"HEIGHT" help:"Height of a tank's courses for --need."`
}

// Help is shown under the command's flags.
func (wallCommand) Help() string {
	return `Stiffness of the structure under the loads of part and service: line loads, strains, and each criterion with required and allowable value and whether it governs by the part's design basis; of a job, part by part.

    veilwright wall header.toml
    veilwright wall --need mat-and-woven header.toml
    veilwright wall --need mat --course "4 ft" tank.toml
    veilwright wall --json header.toml | jq '.criteria[] | select(.governs)'

Exit code: 1 when a governing criterion fails, 3 when one cannot be determined, 2 when the schedule cannot be read, else 0.`
}

// lengthFlag is a length with its unit.
type lengthFlag struct{ quantity.Length }

// Decode reads a length above zero. A figure below zero looks like a flag to
// the parser and is taken here, to be refused for what it is.
func (f *lengthFlag) Decode(ctx *kong.DecodeContext) error {
	var text string
	if next, ok := ctx.Scan.Peek().Value.(string); ok && len(next) > 1 && next[0] == '-' && strings.ContainsRune("0123456789.", rune(next[1])) {
		ctx.Scan.Pop()
		text = next
	} else if err := ctx.Scan.PopValueInto("length", &text); err != nil {
		return err
	}
	if err := parse(&f.Length, text); err != nil {
		return err
	}
	if f.SI() <= 0 {
		return fmt.Errorf("must be above zero, not %q", text)
	}
	return nil
}

func parse[D quantity.Dimension](into *quantity.Quantity[D], text string) (err error) {
	*into, err = quantity.Parse[D](text)
	return err
}

// needFlag is the word of a repeat unit.
type needFlag struct{ unit repeat.Unit }

// UnmarshalText reads the word of a repeat unit.
func (f *needFlag) UnmarshalText(text []byte) error {
	var word needWord
	if err := oneOf(&word, text, needWords()...); err != nil {
		return err
	}
	f.unit, _ = repeat.Units.Parse(string(word))
	return nil
}

// Words lists the repeat units.
func (needFlag) Words() []string {
	var words []string
	for _, u := range repeat.Units.All() {
		words = append(words, u.String())
	}
	return words
}

type needWord string

func needWords() []needWord {
	var words []needWord
	for _, u := range repeat.Units.All() {
		words = append(words, needWord(u.String()))
	}
	return words
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
		c.say.Say("%s: %s: %v", d.Name, k.Need.unit.String(), err)
		c.ends(Incomplete)
	}
	if c.JSON {
		return c.out.JSON(report.WallOf(d.Name, d.Library.Books, d.Schedule, r, needed))
	}
	c.print(append(paper.Wall(d.Name, d.Library.Books, d.Schedule, r, needed, units), paper.Aid(r.NotChecked)))
	return nil
}

// job evaluates each part of a job.
func (k wallCommand) job(c *call, d *shop.Opened) error {
	if k.Depth.Given() || k.Need.unit != repeat.NoUnit || k.Course.Given() {
		c.say.Say("%s: --depth, --need and --course are of one wall, and this is a job of several", d.Name)
		c.ends(Unusable)
		return nil
	}
	units := c.unitsOr(d.Job.Units)
	var sheet paper.Sheet
	out := report.JobWalls{File: d.Name, Title: d.Job.Title, Books: append([]string{}, d.Library.Books...), Problems: []report.Problem{}, Parts: []report.JobWall{}}
	for i := range d.Job.Parts {
		s := d.Job.Wall(i)
		r := wall.Evaluate(s, d.Library, laminate.Analyze(s, d.Library), wall.Options{CountBarrier: k.CountBarrier, Units: laminate.Some(units)})
		c.endsAs(r)
		id := d.Job.Parts[i].ID
		out.Parts = append(out.Parts, report.JobWall{Part: id, Wall: report.WallOf(d.Name, d.Library.Books, s, r, nil)})
		sheet = append(sheet, paper.Wall(d.Name+": part "+id, d.Library.Books, s, r, nil, units)...)
		if i == len(d.Job.Parts)-1 {
			sheet = append(sheet, paper.Aid(r.NotChecked))
		}
	}
	if c.JSON {
		return c.out.JSON(out)
	}
	c.print(sheet)
	return nil
}

// needs tells what the wall wants of the unit asked for; of a tank, course by
// course.
func (k wallCommand) needs(d *shop.Opened, o wall.Options) ([]repeat.Course, error) {
	if k.Need.unit == repeat.NoUnit {
		return nil, nil
	}
	if d.Schedule.Part.Form == laminate.Tank {
		return repeat.Courses(d.Schedule, d.Library, k.Need.unit, o, k.Course.SI())
	}
	n, err := repeat.Need(d.Schedule, d.Library, k.Need.unit, o)
	if err != nil {
		return nil, err
	}
	return []repeat.Course{{Needed: n}}, nil
}
