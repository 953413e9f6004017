package cli

import (
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/ratings"
)

type adviseCommand struct {
	File    string `arg:"" help:"A schedule with its part and service, or - for standard input; plies are not needed." complete:"documents"`
	Brief   bool   `help:"Print the answers without their reasons."`
	Ratings string `placeholder:"FILE" help:"Rows of ratings in CSV to use beside those of the shop books."`
}

// Help is shown under the command's flags.
func (adviseCommand) Help() string {
	return `What suits the part and service of a schedule: every veil, resin family and barrier build is usual, suitable, conditional, unsuitable or unknown, with the reasons and their sources. Usual is what practice takes for this service; suitable means that nothing speaks against it. For both, check finds no break, nothing incomplete and no warning.

    veilwright advise header.toml
    veilwright advise --brief header.toml
    veilwright advise --json header.toml | jq -r '.veils[] | select(.suits == "usual" or .suits == "suitable") | .id'
    veilwright advise --ratings coupons.csv header.toml

A table of ratings names its columns in the first line: fluid, concentration, temperature, family, build, grade, source, date. Rejected rows are listed, of many the first twenty and the last.

Exit code: 1 when no veil, resin or build is suitable, 3 when that cannot be determined, 2 when the schedule or a table cannot be read, else 0.`
}

// Run advises on one schedule.
func (k adviseCommand) Run(c *call) error {
	d := c.named(k.File, "advise", schedules.Schedule)
	if !d.Usable() {
		return c.unusable(true, func(s report.Schedule) any {
			a := report.AdviceOf(s.File, "", &advice.Advice{})
			a.Error, a.Problems = s.Error, s.Problems
			return a
		}, d)
	}
	if k.Ratings != "" {
		k.rate(c, d.Library)
	}
	a := advice.Advise(d.Schedule, d.Library, c.units(d.Schedule))
	switch a.Worst() {
	case advice.Unsuitable:
		c.ends(Broken)
	case advice.Unknown:
		c.ends(Incomplete)
	case advice.Usual, advice.Suitable, advice.Conditional:
	}
	return c.either(report.AdviceOf(d.Name, d.Schedule.Title, a), append(paper.Advise(d.Name, d.Schedule, a, k.Brief), paper.Aid(nil)))
}

// rate adds the rows of a table to the library. Of the rows that are refused the
// first and the last are told one by one and the others counted, and the call ends as
// unusable: advice on half a table is told, and told to be that.
func (k adviseCommand) rate(c *call, lib *laminate.Library) {
	text, err := c.read(input{name: k.Ratings})
	if err != nil {
		c.say.Say("%s: %v", k.Ratings, err)
		c.ends(Unusable)
		return
	}
	rows, refused := ratings.Import(strings.NewReader(string(text)), lib.Builds)
	for _, line := range ratings.Rejections(k.Ratings, len(rows), refused) {
		c.say.Say("%s", line)
		c.ends(Unusable)
	}
	for i := range rows {
		rows[i].Book = k.Ratings
	}
	lib.Ratings, lib.Books = append(rows, lib.Ratings...), append([]string{k.Ratings}, lib.Books...)
}
