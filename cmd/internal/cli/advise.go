package cli

import (
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
)

type adviseCommand struct {
	File    string `arg:"" help:"A schedule with its part and service, or - for standard input; plies are not needed." complete:"documents"`
	Brief   bool   `help:"Print the answers without their reasons."`
	Ratings string `placeholder:"FILE" help:"Rows of ratings in CSV to use beside those of the shop books."`
}

// Help is shown under the command's flags.
func (adviseCommand) Help() string {
	return `What suits the part and service of a schedule: every veil, resin family and barrier build, yes, with care, no, or unknown, with the reasons and on whose word each stands. What is called suitable raises no break and no warning in check.

    veilwright advise header.toml
    veilwright advise --brief header.toml
    veilwright advise --json header.toml | jq -r '.veils[] | select(.suits == "suitable") | .id'
    veilwright advise --ratings coupons.csv header.toml

A table of ratings names its columns in the first line: fluid, concentration, temperature, family, build, grade, source, date. Rows that cannot be used are told one by one.

It ends with 1 when no veil, no resin or no build suits, 3 when that cannot be told, 2 when the schedule or a table could not be read.`
}

// Run advises on one schedule.
func (k adviseCommand) Run(c *call) error {
	d, l, err := c.one(k.File, "advise")
	if err != nil {
		return err
	}
	if l.schedule == nil {
		s := unread(&d, d.sentence())
		explainUnread(c.say, s)
		if c.JSON {
			a := report.AdviceOf(d.name, "", &advice.Advice{})
			a.Error, a.Problems = s.Error, s.Problems
			return c.out.JSON(a)
		}
		c.printUnread(s)
		return nil
	}
	if k.Ratings != "" {
		k.rate(c, l.library)
	}
	a := advice.Advise(l.schedule, l.library, c.units(l.schedule))
	switch a.Worst() {
	case advice.Unsuitable:
		c.ends(Broken)
	case advice.Unknown:
		c.ends(Incomplete)
	case advice.Suitable, advice.Conditional:
	}
	if c.JSON {
		return c.out.JSON(report.AdviceOf(d.name, l.schedule.Title, a))
	}
	c.print(append(paper.Advise(d.name, l.schedule, a, k.Brief), paper.Aid(nil)))
	return nil
}

// one reads the one schedule that a command takes. Where it cannot be used
// there is no schedule, d says why, and the call ends as unusable.
func (c *call) one(file, command string) (d document, l loaded, err error) {
	found := c.inputs([]string{file})
	if len(found) != 1 || found[0].searched {
		return d, l, fmt.Errorf("%s: %s takes one schedule, not a folder", file, command)
	}
	d = c.open(found[0])
	if d.err == nil && len(d.problems) == 0 && d.kind != schedules.Schedule {
		d.err = fmt.Errorf("is of kind %s; %s takes a schedule", d.kind, command)
	}
	if d.err == nil && len(d.problems) == 0 {
		l, d.err = newShelf(c).load(&d)
	}
	if d.err != nil || len(d.problems) > 0 {
		c.ends(Unusable)
		l.schedule = nil
	}
	return d, l, nil
}

// sentence is why a document cannot be used, empty where its problems say so.
func (d *document) sentence() string {
	if d.err == nil {
		return ""
	}
	return d.err.Error()
}

// rate adds the rows of a table to the library. Rows that are refused are told
// one by one, and the call ends as unusable: advice on half a table is told, and
// told to be that.
func (k adviseCommand) rate(c *call, lib *laminate.Library) {
	text, err := c.read(input{name: k.Ratings})
	if err != nil {
		c.say.Say("%s: %v", k.Ratings, err)
		c.ends(Unusable)
		return
	}
	rows, refused := schedules.ImportRatings(strings.NewReader(string(text)))
	for _, r := range refused {
		c.say.Say("%s:%d: row refused: %s", k.Ratings, r.Line, r.Why)
		c.ends(Unusable)
	}
	for i := range rows {
		rows[i].Book = k.Ratings
	}
	lib.Ratings = append(rows, lib.Ratings...)
	lib.Books = append([]string{k.Ratings}, lib.Books...)
}
