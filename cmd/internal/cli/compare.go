package cli

import (
	"fmt"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/store"
)

type compareCommand struct {
	Schedule      string `arg:"" help:"The schedule." complete:"documents"`
	Specification string `arg:"" help:"What the buyer demands." complete:"documents"`
	Record        string `arg:"" optional:"" help:"What was laid and measured." complete:"documents"`
	To            toFlag `placeholder:"md|csv" help:"Print a Markdown table or CSV instead of text."`
}

// toFlag is another form of the same report.
type toFlag string

// The words of --to.
const (
	toMarkdown toFlag = "md"
	toCSV      toFlag = "csv"
)

// UnmarshalText reads a word of --to.
func (f *toFlag) UnmarshalText(text []byte) error { return oneOf(f, text, toMarkdown, toCSV) }

// Words lists them.
func (toFlag) Words() []string { return []string{string(toMarkdown), string(toCSV)} }

// Help is shown under the command's flags.
func (compareCommand) Help() string {
	return `Every demand of a specification, what was found, and whether it meets it; with a record, the readings, the lay-up and the defects too. Broken rules of the schedule itself stand beside the verdict.

    veilwright compare header.toml demands.toml
    veilwright compare header.toml demands.toml header-17.toml --to md > header-17.md
    veilwright compare header.toml demands.toml --json | jq '.lines[] | select(.verdict == "fails")'

veilwright new --kind specification and veilwright new --kind record make the other two documents, with every key commented out.

It ends with 0 to accept, 1 to reject, 3 when a demand cannot be told, 2 when a document cannot be read.`
}

// Run holds one schedule against one specification.
func (k compareCommand) Run(c *call) error {
	if c.JSON && k.To != "" {
		return fmt.Errorf("--json and --to %s ask for two forms at once", k.To)
	}
	names := []string{k.Schedule, k.Specification}
	if k.Record != "" {
		names = append(names, k.Record)
	}
	docs, err := c.named("compare", names)
	if err != nil {
		return err
	}
	l, ok := k.schedule(c, &docs[0])
	var demand *spec.Specification
	if docs[1].err == nil {
		demand, docs[1].problems = schedules.DecodeSpecification(docs[1].text)
	}
	ok = k.usable(c, &docs[1]) && ok
	var r *record.Record
	if k.Record != "" {
		var torn string
		if docs[2].err == nil {
			r, torn, docs[2].problems = schedules.DecodeRecord(docs[2].text)
		}
		ok = k.usable(c, &docs[2]) && ok
		if torn != "" {
			c.say.Say("%s: %s", k.Record, torn)
		}
	}
	if !ok {
		return k.unusable(c, docs)
	}
	units := c.units(l.schedule)
	judged := rules.Judge(all.Rules(), l.schedule, l.library, rules.Options{Units: units})
	result := acceptance.Compare(acceptance.Input{Schedule: l.schedule, Library: l.library, Analysis: judged.Analysis,
		SHA256: store.SumOf(docs[0].text).String(), Specification: demand, Record: r, Units: units})
	switch result.Verdict {
	case acceptance.Fails:
		c.ends(Broken)
	case acceptance.Incomplete:
		c.ends(Incomplete)
	case acceptance.Meets:
	}
	if c.JSON {
		return c.out.JSON(report.Compared(k.Schedule, k.Specification, k.Record, l.library.Books, result, judged, l.source.Line))
	}
	sheet := append(paper.Compare(paper.Compared{Schedule: k.Schedule, Specification: k.Specification, Record: k.Record}, result, judged), paper.Aid(nil))
	switch k.To {
	case toMarkdown:
		return paper.Markdown(c.out, sheet)
	case toCSV:
		return paper.CSV(c.out, sheet)
	default: // text
	}
	c.print(sheet)
	return nil
}

func (k compareCommand) schedule(c *call, d *document) (l loaded, ok bool) {
	if d.err == nil {
		var err error
		if l, err = newShelf(c).load(d); err != nil {
			d.err = err
		}
	}
	return l, k.usable(c, d)
}

// usable tells whether a document could be read, and says why not.
func (compareCommand) usable(c *call, d *document) bool {
	switch {
	case d.err != nil:
		explainUnread(c.say, unread(d, d.err.Error()))
		return false
	case len(d.problems) > 0:
		explainUnread(c.say, unread(d, ""))
		return false
	}
	return true
}

// unusable ends a comparison that could not be made.
func (k compareCommand) unusable(c *call, docs []document) error {
	c.ends(Unusable)
	if !c.JSON {
		return nil
	}
	for i := range docs {
		d := &docs[i]
		if d.err == nil && len(d.problems) == 0 {
			continue
		}
		s := unread(d, reasonOf(d))
		sentence := d.name + ": " + *s.Error
		s.Error = &sentence
		return c.out.JSON(report.Uncompared(k.Schedule, k.Specification, k.Record, s))
	}
	return nil
}

// named opens documents that are named themselves, each but once from standard
// input; a folder is refused.
func (c *call) named(command string, names []string) ([]document, error) {
	var docs []document
	stdin := false
	for _, name := range names {
		found := c.inputs([]string{name})
		if len(found) != 1 || found[0].searched {
			return nil, fmt.Errorf("%s: %s takes single documents, not a folder", name, command)
		}
		if name == stdinName {
			if stdin {
				return nil, fmt.Errorf("%s: standard input can be one document, not two", command)
			}
			stdin = true
		}
		d := c.open(found[0])
		d.problems = nil // the reader of the kind that is wanted tells all of them
		docs = append(docs, d)
	}
	return docs, nil
}

type diffCommand struct {
	Old string `arg:"" help:"The older revision." complete:"documents"`
	New string `arg:"" help:"The newer revision." complete:"documents"`
}

// Help is shown under the command's flags.
func (diffCommand) Help() string {
	return `Two revisions of a schedule, ply by ply, rows aligned by what they are: what changed in plies, thickness, glass content, mass and findings.

    veilwright diff header-2.toml header-3.toml
    git show HEAD:header.toml | veilwright diff - header.toml --json

It ends with 0, or with 2 when a schedule could not be read.`
}

// Run tells two revisions apart.
func (k diffCommand) Run(c *call) error {
	docs, err := c.named("diff", []string{k.Old, k.New})
	if err != nil {
		return err
	}
	var both [2]loaded
	ok := true
	for i := range docs {
		var read bool
		both[i], read = compareCommand{}.schedule(c, &docs[i])
		ok = ok && read
	}
	if !ok {
		c.ends(Unusable)
		if !c.JSON {
			return nil
		}
		for i := range docs {
			if s := unread(&docs[i], reasonOf(&docs[i])); *s.Error != "" {
				sentence := docs[i].name + ": " + *s.Error
				s.Error = &sentence
				return c.out.JSON(report.Difference{Old: k.Old, New: k.New, Error: s.Error, Problems: s.Problems,
					Facts: []report.FactChange{}, Rows: []report.RowChange{}, Figures: []report.FigureChange{}, Gone: []report.Finding{}, Come: []report.Finding{}})
			}
		}
		return nil
	}
	units := c.units(both[1].schedule)
	judge := func(l loaded) *rules.Report {
		return rules.Judge(all.Rules(), l.schedule, l.library, rules.Options{Units: units})
	}
	older, newer := judge(both[0]), judge(both[1])
	facts, d := schedules.FactChanges(both[0].schedule, both[1].schedule), acceptance.Differ(older, newer)
	if c.JSON {
		return c.out.JSON(report.Differing(k.Old, k.New, facts, d, older, newer))
	}
	c.print(paper.Diff(k.Old, k.New, facts, d, older, newer, units))
	return nil
}

func reasonOf(d *document) string {
	if d.err != nil {
		return d.err.Error()
	}
	return ""
}
