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
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
)

type wallCommand struct {
	File         string     `arg:"" help:"A schedule, or - for standard input." complete:"documents"`
	CountBarrier bool       `help:"Count the barrier as structure too; the outer surface never is."`
	Depth        lengthFlag `placeholder:"LENGTH" help:"Depth below the surface of a tank's liquid, such as \"8 ft\"; left out, at the bottom."`
	Need         needFlag   `placeholder:"UNIT" help:"Also tell how many repeats of a unit the wall wants: mat, mat-and-woven, wound-cover or hoop-and-chop."`
	Course       lengthFlag `placeholder:"HEIGHT" help:"Height of a tank's courses for --need."`
}

// Help is shown under the command's flags.
func (wallCommand) Help() string {
	return `Stiffness of the structure and what the part and service ask of it: line loads, strains, and each criterion with what is required, what is allowable and whether it governs by the part's design basis.

    veilwright wall header.toml
    veilwright wall --need mat-and-woven header.toml
    veilwright wall --need mat --course "4 ft" tank.toml
    veilwright wall --json header.toml | jq '.criteria[] | select(.governs)'

It ends with 1 when a governing criterion fails, 3 when one cannot be told, 2 when the schedule could not be read.`
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
type needFlag struct{ unit wall.RepeatUnit }

// UnmarshalText reads the word of a repeat unit.
func (f *needFlag) UnmarshalText(text []byte) error {
	var word needWord
	if err := oneOf(&word, text, needWords()...); err != nil {
		return err
	}
	f.unit, _ = wall.Units.Parse(string(word))
	return nil
}

// Words lists the repeat units.
func (needFlag) Words() []string {
	var words []string
	for _, u := range wall.Units.All() {
		words = append(words, u.String())
	}
	return words
}

type needWord string

func needWords() []needWord {
	var words []needWord
	for _, u := range wall.Units.All() {
		words = append(words, needWord(u.String()))
	}
	return words
}

// Run evaluates one schedule.
func (k wallCommand) Run(c *call) error {
	found := c.inputs([]string{k.File})
	if len(found) != 1 || found[0].searched {
		return k.unusable(c, &document{input: input{name: k.File}}, errors.New("wall takes one schedule, not a folder"))
	}
	d := c.open(found[0])
	l, books, err := k.load(c, &d)
	if err != nil || len(d.problems) > 0 {
		return k.unusable(c, &d, err)
	}
	units := c.units(l.schedule)
	o := wall.Options{CountBarrier: k.CountBarrier, Depth: k.Depth.SI(), Units: laminate.Some(units)}
	if k.Depth.Given() && l.schedule.Part.Form != laminate.Tank {
		return k.unusable(c, &d, errors.New("--depth is for tanks"))
	}
	r := wall.Evaluate(l.schedule, l.library, laminate.Analyze(l.schedule, l.library), o)
	switch r.Answer() {
	case wall.Fails:
		c.ends(Broken)
	case wall.Incomplete:
		c.ends(Incomplete)
	case wall.Holds, wall.NotApplicable:
	}
	needed, err := k.needs(l, o)
	if err != nil {
		c.say.Say("%s: %s: %v", d.name, k.Need.unit.String(), err)
		c.ends(Incomplete)
	}
	if c.JSON {
		return c.out.JSON(report.WallOf(d.name, books, l.schedule, r, needed))
	}
	c.print(append(paper.Wall(d.name, books, l.schedule, r, needed, units), paper.Aid(r.NotChecked)))
	return nil
}

func (k wallCommand) load(c *call, d *document) (l loaded, books []string, err error) {
	switch {
	case d.err != nil:
		return l, nil, d.err
	case d.kind != schedules.Schedule && len(d.problems) == 0:
		return l, nil, fmt.Errorf("is of kind %s; wall takes a schedule", d.kind)
	case len(d.problems) > 0:
		return l, nil, nil
	}
	if l, err = newShelf(c).load(d); err == nil && len(d.problems) == 0 {
		books = l.library.Books
	}
	return l, books, err
}

func (k wallCommand) unusable(c *call, d *document, err error) error {
	c.ends(Unusable)
	s := c.sayUnread(d, err)
	if c.JSON {
		return c.out.JSON(report.UnreadWall(s))
	}
	c.printUnread(s)
	return nil
}

// needs tells what the wall wants of the unit asked for; of a tank, course by
// course.
func (k wallCommand) needs(l loaded, o wall.Options) ([]wall.Course, error) {
	if k.Need.unit == wall.NoUnit {
		return nil, nil
	}
	if l.schedule.Part.Form == laminate.Tank {
		return wall.Courses(l.schedule, l.library, k.Need.unit, o, k.Course.SI())
	}
	n, err := wall.Need(l.schedule, l.library, k.Need.unit, o)
	if err != nil {
		return nil, err
	}
	return []wall.Course{{Needed: n}}, nil
}
