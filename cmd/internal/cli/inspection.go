package cli

import (
	"strings"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

type printCommand struct {
	LaminateSchedule laminateScheduleCommand `cmd:"" name:"laminate-schedule" help:"The drawing table: section to scale, plies, zones."`
	LayUpSheet       layUpSheetCommand       `cmd:"" name:"lay-up-sheet" help:"Ply by ply in the order of laying, with fields to write in."`
	RouteSheet       routeSheetCommand       `cmd:"" name:"route-sheet" help:"Operations, hold and witness points, sign-offs."`
	InspectionPlan   inspectionPlanCommand   `cmd:"" name:"inspection-plan" help:"What is inspected, how, to which limit."`
	Calculation      calculationCommand      `cmd:"" name:"calculation" help:"The structure worked out step by step, for a reviewer."`
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
	frame := c.paperOf(h.scheduled, h.scheduled.Schedule.Head, h.options.Units).Frame("Inspection report")
	frame.State = "PART: " + strings.ToUpper(h.result.Part.String())
	frame.Part = "serial " + paper.Named(h.asBuilt.Serial)
	return k.put(c, &paper.Form{Frame: frame, Sheet: paper.InspectionReport(h.inspected())}, h.options.Units)
}

// held is a schedule held against a specification, with a record or without.
type held struct {
	files     paper.Compared
	docs      []*shop.Opened // schedule, specification, and the record where there is one
	judged    *rules.Report
	result    *acceptance.Result
	options   rules.Options
	asBuilt   *record.Record
	scheduled *shop.Opened
}

// hold reads the documents and compares them; nil where one cannot be used, which
// is said by then. It notes the exit code.
func (c *call) hold(command, schedule, specification, recorded string) (*held, error) {
	h := &held{files: paper.Compared{Schedule: schedule, Specification: specification, Record: recorded}}
	h.scheduled = c.named(schedule, command, schedules.Schedule)
	h.docs = []*shop.Opened{h.scheduled, c.named(specification, command, schedules.Specification)}
	if recorded != "" {
		laid := c.named(recorded, command, schedules.Record)
		if h.asBuilt = laid.Record; laid.Torn != "" {
			c.say.Say("%s: %s", recorded, laid.Torn)
		}
		h.docs = append(h.docs, laid)
	}
	if !usable(h.docs) {
		return nil, c.unusable(false, func(s report.Schedule) any {
			return report.Uncompared(schedule, specification, recorded, s)
		}, h.docs...)
	}
	h.options.Units = c.units(h.scheduled.Schedule)
	h.judged = h.scheduled.Judge(h.options)
	prints := schedules.Fingerprint(h.scheduled.Schedule, h.judged.Analysis, h.scheduled.Library)
	h.result = acceptance.Compare(acceptance.Input{Report: h.judged, Library: h.scheduled.Library, SHA256: h.sum(0), Fingerprint: prints.Schedule,
		PlyFingerprints: prints.Plies, SpecificationFingerprint: schedules.SpecificationFingerprint(h.docs[1].Specification),
		Specification: h.docs[1].Specification, Record: h.asBuilt, SameSerial: h.sameSerial(), Units: h.options.Units})
	switch h.result.Answer {
	case acceptance.DoesNotConform, acceptance.Reject:
		c.ends(Broken)
	case acceptance.Undetermined, acceptance.NotInspected:
		c.ends(Incomplete)
	case acceptance.Conforms, acceptance.Accept:
	}
	return h, nil
}

func (h *held) sum(i int) string { return store.SumOf(h.docs[i].Text).String() }

// sameSerial names the other records beside the record that have its serial.
func (h *held) sameSerial() []string {
	if h.asBuilt == nil || h.files.Record == stdinName {
		return nil
	}
	return recorder.SameSerial(h.files.Record, h.asBuilt.Serial)
}

func (h *held) report() report.Comparison {
	return report.Compared(h.files.Schedule, h.files.Specification, h.files.Record, h.scheduled.Library.Books, h.result, h.judged, h.scheduled.Source.Line)
}

func (h *held) inspected() *paper.Inspected {
	return &paper.Inspected{Compared: h.files, Demands: h.docs[1].Specification, Built: h.asBuilt, Books: h.scheduled.Library.Books,
		Sums: paper.Compared{Schedule: h.sum(0), Specification: h.sum(1), Record: h.sum(2)}, Result: h.result, Judged: h.judged, Units: h.options.Units}
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
