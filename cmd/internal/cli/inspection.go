package cli

import (
	"slices"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
)

type printCommand struct {
	LaminateSchedule formOf                  `cmd:"" name:"laminate-schedule" help:"The drawing table: section to scale, plies, zones."`
	LayUpSheet       specifiedCommand        `cmd:"" name:"lay-up-sheet" help:"Ply by ply in the order of laying, with fields to write in."`
	RouteSheet       formOf                  `cmd:"" name:"route-sheet" help:"Operations, hold and witness points, sign-offs."`
	InspectionPlan   specifiedCommand        `cmd:"" name:"inspection-plan" help:"What is inspected, how, to which limit."`
	Calculation      formOf                  `cmd:"" name:"calculation" help:"The structure worked out step by step, for a reviewer."`
	Takeoff          takeoffPaperCommand     `cmd:"" name:"takeoff" help:"Areas, glass, resin, strips and rolls, cost."`
	InspectionReport inspectionReportCommand `cmd:"" name:"inspection-report" help:"What was asked of a part, what was found, by whom, and what was not looked at."`
}

type inspectionReportCommand struct {
	Schedule      string `arg:"" help:"The schedule." complete:"documents"`
	Specification string `arg:"" help:"The purchaser's specification." complete:"documents"`
	Record        string `arg:"" help:"The record of what was laid and measured." complete:"documents"`
	paperFlags
}

// Help is shown under the command's flags.
func (inspectionReportCommand) Help() string {
	return `The report that is filed with a part: requirements and what was found, the lay-up, each reading with its place, who took and who witnessed it, what was lowest and what the averages leave out, defects and what became of them, struck entries, decisions, lines to sign on. With --json what compare prints.

    veilwright print inspection-report header.toml spec.toml header-17.toml
    veilwright print inspection-report header.toml spec.toml header-17.toml -o header-17.pdf
    veilwright print inspection-report header.toml spec.toml header-17.toml --to md > header-17.md

Exit code: that of compare: 0 accept, 1 reject, 3 incomplete or not inspected, 2 when a document cannot be read.`
}

// Run prints the report.
func (k inspectionReportCommand) Run(c *call) error {
	if err := k.check(c); err != nil {
		return err
	}
	h, err := c.hold("print", k.Schedule, k.Specification, k.Record)
	if h == nil {
		return err
	}
	if c.JSON {
		return c.out.JSON(h.report())
	}
	return k.put(c, forms.InspectionReport(h.Held), h.Options.Units)
}

// held is what lies between three documents, and how they were named.
type held struct {
	*recorder.Held
	files paper.Compared
}

// hold reads the documents and compares them; nil where one cannot be used, which
// is said by then. It notes the exit code.
func (c *call) hold(command, schedule, specification, recorded string) (*held, error) {
	scheduled, asked := c.named(schedule, command, schedules.Schedule, schedules.Job), c.named(specification, command, schedules.Specification)
	docs := []*shop.Opened{scheduled, asked}
	var built *shop.Opened
	if recorded != "" {
		built = c.named(recorded, command, schedules.Record)
		if built.Torn != "" {
			c.say.Say("%s: %s", recorded, built.Torn)
		}
		docs = append(docs, built)
	}
	if built == nil {
		scheduled = scheduled.Of(&record.Record{})
	} else if built.Usable() {
		scheduled = scheduled.Of(built.Record)
	}
	docs[0] = scheduled
	if slices.ContainsFunc(docs, func(o *shop.Opened) bool { return !o.Usable() }) {
		return nil, c.unusable(false, func(s report.Schedule) any {
			return report.Uncompared(schedule, specification, recorded, s)
		}, docs...)
	}
	h := &held{recorder.Hold(scheduled, asked, built, rules.Options{Units: c.units(scheduled.Schedule)}), paper.Compared{Schedule: schedule, Specification: specification, Record: recorded}}
	switch h.Result.Answer {
	case acceptance.DoesNotConform, acceptance.Reject:
		c.ends(Broken)
	case acceptance.Undetermined, acceptance.NotInspected:
		c.ends(Incomplete)
	case acceptance.Conforms, acceptance.Accept:
	}
	return h, nil
}

func (h *held) report() report.Comparison {
	return report.Compared(h.files.Schedule, h.files.Specification, h.files.Record, h.Schedule.Library.Books, h.Result, h.Judged, h.Schedule.Line)
}

// as prints a sheet in the form asked for.
func (c *call) as(to flag.To, sheet paper.Sheet) error {
	switch to {
	case flag.Markdown:
		return paper.Markdown(c.out, sheet)
	case flag.CSV:
		return paper.CSV(c.out, sheet)
	default: // text
	}
	c.print(sheet)
	return nil
}
