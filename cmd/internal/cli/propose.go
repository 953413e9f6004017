package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/store"
)

type proposeCommand struct {
	File        string `arg:"" help:"A schedule with its part and service and no plies yet, or - for standard input." complete:"documents"`
	All         string `placeholder:"FOLDER" help:"Write every candidate into this folder instead of printing the best one; files that are there are left as they are."`
	Veil        string `placeholder:"ID" help:"Build with this veil instead of the one that suits best."`
	Resin       string `placeholder:"FAMILY" help:"Build with this resin family."`
	Build       string `placeholder:"ID" help:"Build this barrier: 100-mil or 200-mil, with -filled and -conductive as advise lists them."`
	VeilOutside bool   `help:"Lay a veil under the coat too, where the surroundings are corrosive."`
	Replace     bool   `help:"Leave out the plies that the schedule has already."`
}

// Help is shown under the command's flags.
func (proposeCommand) Help() string {
	return `A whole schedule for a part and service: the barrier from what advise says, the structure from what the wall needs, gel stops and an outer surface. Exactly one is printed, the best; what it gives up, what was taken for granted and what could not be judged, and why, stand in its notes. It is called best, leanest and the like only where several competed and service and load are stated. Where a fact is missing without which the wall cannot be figured, the structure is left out, and that is said.

    veilwright propose header.toml > proposed.toml
    veilwright propose header.toml | veilwright check -
    veilwright propose --all candidates header.toml
    veilwright propose --json header.toml | jq '.candidates[] | {titles, gives_up}'

It ends with 1 when nothing suits or what is proposed breaks a rule, 3 when something that matters cannot be told, 2 when the schedule could not be read.`
}

// Run proposes for one schedule.
func (k proposeCommand) Run(c *call) error {
	d := c.named(k.File, "propose", schedules.Schedule)
	if !d.Usable() {
		return c.unusable(false, func(s report.Schedule) any {
			return report.Proposal{File: s.File, Books: []string{}, Error: s.Error, Problems: s.Problems, Candidates: []report.Candidate{}}
		}, d)
	}
	units := c.units(d.Schedule)
	list, err := advice.Propose(d.Schedule, d.Library, advice.Options{
		Units: units, Veil: k.Veil, Resin: k.Resin, Build: k.Build, VeilOutside: k.VeilOutside, Replace: k.Replace,
	})
	var nothing *advice.NothingSuitsError
	if errors.As(err, &nothing) {
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
		texts[i] = d.Source.Render(noted(&list[i]))
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

// proposed notes the exit code of the best candidate, and says on standard
// error what of it is not finished.
func (c *call) proposed(name string, best *advice.Candidate) {
	if best.Unfinished != "" {
		c.say.Say("%s: the structure is left out: %s", name, best.Unfinished)
		c.ends(Incomplete)
		return
	}
	for _, f := range best.Report.Findings {
		if f.Severity == rules.Break || f.Severity == rules.Incomplete {
			c.say.Say("%s: %s %s: %s", name, f.Severity.String(), f.Rule.ID, f.Message)
		}
	}
	switch best.Report.Verdict {
	case rules.Break:
		c.ends(Broken)
	case rules.Incomplete:
		c.ends(Incomplete)
	case rules.Clear, rules.Note, rules.Warning, rules.Unusable:
	}
}

// noted gives the schedule with what has to be known of it in its notes.
func noted(p *advice.Candidate) *laminate.Schedule {
	s := p.Schedule.Clone()
	lines := []string{"Proposed: " + strings.Join(p.Titles, ", ") + "."}
	if len(p.GivesUp) > 0 {
		lines = append(lines, "Gives up: "+strings.Join(p.GivesUp, "; ")+".")
	}
	for _, n := range p.Notes {
		if slices.Contains(p.Titles, n) {
			continue // said above
		}
		lines = append(lines, strings.ToUpper(n[:1])+n[1:]+".")
	}
	lines = append(lines, wall.DesignAid)
	if s.Notes != "" {
		lines = append([]string{strings.TrimRight(s.Notes, "\n")}, lines...)
	}
	s.Notes = strings.Join(lines, "\n") + "\n"
	return s
}

// write puts the candidates into the folder, if one was named, and gives their
// names.
func (k proposeCommand) write(list []advice.Candidate, texts [][]byte) ([]string, error) {
	if k.All == "" {
		return nil, nil
	}
	if err := os.MkdirAll(k.All, 0o755); err != nil {
		return nil, fmt.Errorf("%s: the folder cannot be made: %w", k.All, reason(err))
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
			return files, fmt.Errorf("%s: is there already and was left as it is", file)
		}
		if err != nil {
			return files, err
		}
		files = append(files, file)
	}
	return files, nil
}
