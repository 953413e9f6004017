package cli

import (
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/ratings"
	"frp/veilwright/schedules"
)

type adviseCommand struct {
	File    string `arg:"" help:"A schedule with its part and service, or - for standard input; plies are not needed." complete:"documents"`
	Brief   bool   `help:"Print the answers without their reasons."`
	Ratings string `placeholder:"FILE" help:"Rows of ratings in CSV to use beside those of the shop books."`
}

// Help is shown under the command's flags.
func (adviseCommand) Help() string {
	return `What suits the part and service of a schedule: every veil, resin family and barrier build, yes, with care, no, or unknown, with the reasons and on whose word each stands. What is called yes raises no break and no caution in check.

    veilwright advise header.toml
    veilwright advise --brief header.toml
    veilwright advise --json header.toml | jq -r '.veils[] | select(.suits == "yes") | .id'
    veilwright advise --ratings coupons.csv header.toml

A table of ratings names its columns in the first line: contents, concentration, temperature, family, build, grade, source, date. Rows that cannot be used are told one by one.

It ends with 1 when no veil, no resin or no build suits, 3 when that cannot be told, 2 when the schedule or a table could not be read.`
}

// adviceJSON is what advise prints as JSON.
type adviceJSON struct {
	File      string           `json:"file"`
	Title     string           `json:"title"`
	Books     []string         `json:"books"`
	Error     *string          `json:"error"`
	Problems  []report.Problem `json:"problems"`
	Veils     []optionJSON     `json:"veils"`
	Resins    []optionJSON     `json:"resins"`
	Builds    []optionJSON     `json:"builds"`
	Conflicts []reasonJSON     `json:"conflicts"`
	Notes     []reasonJSON     `json:"notes"`
	Ratings   []ratingJSON     `json:"ratings"`
}

type optionJSON struct {
	ID      string       `json:"id"`
	Suits   string       `json:"suits"`
	Reasons []reasonJSON `json:"reasons"`
}

type reasonJSON struct {
	Text  string `json:"text"`
	Basis string `json:"basis"`
}

// ratingJSON is a row that matched the service.
type ratingJSON struct {
	Book            string     `json:"book"`
	Line            int        `json:"line"`
	Contents        string     `json:"contents"`
	Concentration   [2]float64 `json:"concentration"`
	MaxTemperatureK float64    `json:"max_temperature_k"`
	Family          string     `json:"family"`
	Build           string     `json:"build"`
	Grade           string     `json:"grade"`
	Source          string     `json:"source"`
	Date            string     `json:"date"`
}

// Run advises on one schedule.
func (k adviseCommand) Run(c *call) error {
	d, l, err := c.one(k.File, "advise")
	if err != nil {
		return err
	}
	if l.schedule == nil {
		s := unread(&d, d.sentence())
		report.SayUnread(c.say, s)
		if c.JSON {
			a := adviceOf(d.name, "", &advice.Advice{})
			a.Error, a.Problems = s.Error, s.Problems
			return c.out.JSON(a)
		}
		report.PrintUnread(c.out, s)
		return nil
	}
	if k.Ratings != "" {
		k.rate(c, l.library)
	}
	a := advice.Advise(l.schedule, l.library, c.units(l.schedule))
	switch a.Worst() {
	case advice.No:
		c.ends(Broken)
	case advice.Unknown:
		c.ends(CannotTell)
	case advice.Yes, advice.Care:
	}
	if c.JSON {
		return c.out.JSON(adviceOf(d.name, l.schedule.Title, a))
	}
	k.print(c, d.name, l.schedule, a)
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
	rows, refused := ratings.Import(strings.NewReader(string(text)))
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

func adviceOf(file, title string, a *advice.Advice) adviceJSON {
	j := adviceJSON{
		File: file, Title: title, Books: append([]string{}, a.Books...), Problems: []report.Problem{},
		Veils: optionsOf(a.Veils), Resins: optionsOf(a.Resins), Builds: optionsOf(a.Builds),
		Conflicts: reasonsOf(a.Conflicts), Notes: reasonsOf(a.Notes), Ratings: []ratingJSON{},
	}
	for _, r := range a.Ratings {
		j.Ratings = append(j.Ratings, ratingJSON{
			r.Book, r.Line, r.Contents, r.Concentration, r.MaxTemperature.SI(), r.Family.String(), r.Build, r.Grade, r.Source, r.Date,
		})
	}
	return j
}

func optionsOf(list []advice.Option) []optionJSON {
	all := []optionJSON{}
	for _, o := range list {
		all = append(all, optionJSON{o.ID, o.Suits.String(), reasonsOf(o.Reasons)})
	}
	return all
}

func reasonsOf(list []advice.Reason) []reasonJSON {
	all := []reasonJSON{}
	for _, r := range list {
		all = append(all, reasonJSON{r.Text, r.Basis})
	}
	return all
}

// pageWidth is how wide text is that people read on a terminal.
const pageWidth = 80

// print prints the answers as a table and, unless asked not to, the reasons
// under each option.
func (k adviseCommand) print(c *call, file string, s *laminate.Schedule, a *advice.Advice) {
	title := s.Title
	if title == "" {
		title = "no title"
	}
	c.out.Line("%s: %s", file, title)
	for _, b := range a.Books {
		c.out.Line("  shop book %s", b)
	}
	for _, axis := range []struct {
		name    string
		options []advice.Option
	}{{"veils", a.Veils}, {"resins", a.Resins}, {"builds", a.Builds}} {
		c.out.Line("%s", axis.name)
		for _, o := range axis.options {
			c.out.Line("  %-8s %s", o.Suits.String(), o.ID)
			if k.Brief {
				continue
			}
			for _, r := range o.Reasons {
				c.reason("           ", r)
			}
		}
	}
	for _, part := range []struct {
		name    string
		reasons []advice.Reason
	}{{"conflicts", a.Conflicts}, {"whatever is chosen", a.Notes}} {
		if len(part.reasons) == 0 {
			continue
		}
		c.out.Line("%s", part.name)
		for _, r := range part.reasons {
			c.reason("  ", r)
		}
	}
	c.designAid(nil)
}

// reason prints a reason with its basis, the first line marked.
func (c *call) reason(indent string, r advice.Reason) {
	for i, line := range output.Wrap(r.Text+" ["+r.Basis+"]", pageWidth-len(indent)-2) {
		mark := "  "
		if i == 0 {
			mark = "- "
		}
		c.out.Line("%s%s%s", indent, mark, line)
	}
}
