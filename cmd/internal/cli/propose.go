package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

type proposeCommand struct {
	File        string    `arg:"" help:"A schedule with its part and service and no plies yet, a job, or - for standard input." complete:"documents"`
	All         string    `placeholder:"FOLDER" help:"Write every candidate into this folder instead of printing the best one; existing files are not changed."`
	Veil        string    `placeholder:"ID" help:"Build with this veil instead of the best one."`
	Resin       string    `placeholder:"FAMILY" help:"Build with this resin family."`
	Build       string    `placeholder:"ID" help:"Build this barrier: 100-mil or 200-mil, with -filled and -conductive as advise lists them."`
	Unit        flag.Need `placeholder:"UNIT" help:"Build the structure up by this unit: mat, mat-and-woven, wound-cover or hoop-and-chop; left to the search if left out."`
	VeilOutside bool      `help:"Add a veil under the topcoat, where the surroundings are corrosive."`
	Replace     bool      `help:"Replace the plies that the schedule has; propose all laminates of a job anew."`
}

// Help is shown under the command's flags.
func (proposeCommand) Help() string {
	return `A whole schedule for a part and service: the barrier as advise has it, the structure as the loads require, gel stops and an outer surface. The best candidate is printed; its trade-offs, what was assumed and what was not checked are in its notes. Labels such as leanest are used only when there were several candidates, one of them alone earned it, and service and load are stated. A fact that the structure needs and nobody stated is assumed: the notes say what, and the schedule stays incomplete until it is stated. Against outside pressure rings are weighed against glass.

Of a job what is missing is filled in: the laminate of each part that names none, or one without plies, all with one barrier and each course for its own head; the knuckle of a flat bottom, tapers; joints where parts of the shell meet, with straps, seals and their widths; pads, necks and what is laid at them. What stands in the document stays, comments and order too; --replace proposes all laminates anew. The whole job is printed. Standard error says line by line what was filled in, what was assumed for it, what could not be filled in and why, and which facts are asked for: none is made up.

    veilwright propose header.toml > proposed.toml
    veilwright propose header.toml | veilwright check -
    veilwright propose --all candidates header.toml
    veilwright propose tank.toml > whole-tank.toml
    veilwright propose --json header.toml | jq '.candidates[] | {titles, trade_offs}'

Exit code: 1 when nothing is suitable or the proposal breaks a rule, 3 when a fact that matters is missing, 2 when the document cannot be read, else 0.`
}

// Run proposes for one schedule.
func (k proposeCommand) Run(c *call) error {
	d := c.named(k.File, "propose", schedules.Schedule, schedules.Job)
	if d.Usable() && d.Job != nil {
		return k.job(c, d)
	}
	if !d.Usable() {
		return c.unusable(false, func(s report.Schedule) any {
			return report.Proposal{File: s.File, Books: []string{}, Error: s.Error, Problems: s.Problems, Candidates: []report.Candidate{}}
		}, d)
	}
	units := c.units(d.Schedule)
	list, err := advice.Propose(d.Schedule, d.Library, k.options(units))
	if nothing, ok := errors.AsType[*advice.NothingSuitsError](err); ok {
		c.say.Say("%s: %s", d.Name, nothing.Why)
		c.ends(Broken)
		if c.JSON {
			return c.out.JSON(report.Proposal{
				File: d.Name, Title: d.Schedule.Title, Books: append([]string{}, d.Library.Books...), Error: &nothing.Why,
				Problems: []report.Problem{}, Candidates: []report.Candidate{},
			})
		}
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s: %w", d.Name, err)
	}
	c.proposed(d.Name, &list[0])
	texts := make([][]byte, len(list))
	for i := range list {
		text := d.Source.Render(list[i].Noted())
		if tidy, problems := schedules.Tidy(text, nil); len(problems) == 0 {
			text = tidy
		}
		texts[i] = text
	}
	files, err := k.write(list, texts)
	if err != nil {
		return err
	}
	switch {
	case c.JSON:
		return c.out.JSON(report.ProposalOf(d.Name, d.Schedule, d.Library.Books, list, texts, files))
	case k.All != "":
		c.print(append(paper.Candidates(list, files, units), paper.Aid(nil)))
		return nil
	}
	_, err = c.out.Write(texts[0])
	return err
}

func (k proposeCommand) options(units quantity.System) advice.Options {
	return advice.Options{Units: units, Veil: k.Veil, Resin: k.Resin, Build: k.Build, Unit: k.Unit.Unit, VeilOutside: k.VeilOutside, Replace: k.Replace}
}

// job fills in what is missing of a job.
func (k proposeCommand) job(c *call, d *shop.Opened) error {
	if k.All != "" {
		return fmt.Errorf("%s: a job has one proposal; --all is of schedules", d.Name)
	}
	p, err := equipment.Propose(d.Job, d.Library, equipment.Options{Options: k.options(c.unitsOr(d.Job.Units))})
	if err != nil {
		return fmt.Errorf("%s: %w", d.Name, err)
	}
	text := d.Source.RenderJob(p.Noted())
	again := d.With(text)
	if !again.Usable() {
		return fmt.Errorf("%s: what was proposed cannot be read back, so that nothing is written: %s", d.Name, again.Why())
	}
	for _, said := range p.Said() {
		for _, l := range said.Lines {
			c.say.Say("%s:%d: %s: %s", d.Name, again.Line(l.At), said.Word, l.Text)
		}
	}
	if c.judged(p.Report.Verdict); p.Unsuited {
		c.ends(Broken)
	}
	if c.JSON {
		return c.out.JSON(report.JobProposalOf(d.Name, d.Library.Books, p, text, again.Line))
	}
	_, err = c.out.Write(text)
	return err
}

// proposed notes the exit code of the best candidate, and says on standard
// error what of it is not finished.
func (c *call) proposed(name string, best *advice.Candidate) {
	if best.Unfinished != "" {
		c.say.Say("%s: the structure is not figured: %s", name, best.Unfinished)
		c.ends(Incomplete)
		return
	}
	for _, f := range best.Report.Findings {
		if f.Severity == rules.Break || f.Severity == rules.Incomplete {
			c.say.Say("%s: %s %s: %s", name, f.Severity.String(), f.Rule.ID, f.Message)
		}
	}
	c.judged(best.Report.Verdict)
}

// judged notes the exit code of a verdict.
func (c *call) judged(v rules.Severity) {
	switch v {
	case rules.Break:
		c.ends(Broken)
	case rules.Incomplete:
		c.ends(Incomplete)
	case rules.Clear, rules.Note, rules.Warning, rules.Unusable:
	}
}

// write puts the candidates into the folder, if one was named, and gives their
// names.
func (k proposeCommand) write(list []advice.Candidate, texts [][]byte) ([]string, error) {
	if k.All == "" {
		return nil, nil
	}
	if err := os.MkdirAll(k.All, 0o755); err != nil {
		return nil, fmt.Errorf("%s: cannot make the folder: %w", k.All, reason(err))
	}
	var files []string
	for i := range list {
		title := "other"
		if len(list[i].Titles) > 0 {
			title, _, _ = strings.Cut(list[i].Titles[0], ":")
			title, _, _ = strings.Cut(title, ",")
			title = strings.ReplaceAll(title, " ", "-")
		}
		file := filepath.Join(k.All, fmt.Sprintf("%02d-%s%s", i+1, title, store.Extension))
		_, err := store.Replace(file, texts[i], store.Terms{})
		var conflict *store.ConflictError
		if errors.As(err, &conflict) {
			return files, fmt.Errorf("%s: already exists; not changed", file)
		}
		if err != nil {
			return files, err
		}
		files = append(files, file)
	}
	return files, nil
}
