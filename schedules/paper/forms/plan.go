package forms

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/schedules/paper"
)

// check is a row of an inspection plan.
type check struct{ what, method, extent, limit, source, when, point string }

// InspectionPlan is what is inspected, how, how often, to which limit and by
// whose word. Where nobody has stated a limit there is room to write it in.
func InspectionPlan(of *Subject) paper.Sheet {
	var sheet paper.Sheet
	for i := range of.Parts {
		sheet = append(sheet, warned(&of.Parts[i])...)
	}
	specification := of.Specification
	if specification == "" {
		specification = "none was named: what nobody requires is only proposed here, and rejects nothing until a limit is agreed"
	}
	sheet = append(sheet, paper.Facts{{Name: "specification", Value: specification}}, paper.Note{Text: legend})
	if len(of.Required) > 0 {
		t := paper.Table{Columns: append(columns("requirement", "key", "basis"), pens("place or extent", "point", "record no.", "result", "sign")...)}
		for i := range of.Required {
			l := &of.Required[i]
			t.Rows = append(t.Rows, paper.Row{Cells: []string{l.Demand, l.Key, l.Basis, "", "", "", "", ""}})
		}
		sheet = append(sheet, paper.Heading{Level: 2, Text: "Required by the specification"}, t)
	}
	sheet = append(sheet, of.each(func(p *Part) paper.Sheet {
		t := paper.Table{Columns: append(columns("characteristic", "method", "extent", "acceptance", "source", "when", "point"), pens("agreed", "record no.", "sign")...)}
		for _, c := range checks(p, of.Units) {
			t.Rows = append(t.Rows, paper.Row{Cells: []string{c.what, c.method, c.extent, c.limit, c.source, c.when, c.point, "", "", ""}, Strong: c.point == hold})
		}
		return paper.Sheet{paper.Heading{Level: 2, Text: "In the shop"}, t}
	})...)
	sheet = append(sheet, of.whole()...)
	sheet = append(sheet, paper.Heading{Level: 2, Text: "Instruments"},
		paper.Boxes{Titles: []string{"thickness gauge, number and calibration", "Barcol gauge, number and check plates", "pressure gauge, number and range", "thermometer and hygrometer"}, Across: 2})
	work := []safety.Trigger{safety.Wiping, safety.Igniting, safety.PressureTest}
	if of.enclosed() {
		work = append(work, safety.Entering)
	}
	for _, c := range safety.For(work...) {
		sheet = append(sheet, paper.Note{Mark: "Safety: ", Text: c.Text})
	}
	return append(sheet, paper.Heading{Level: 2, Text: "Agreed"}, paper.Signature{Role: "fabricator's quality control"}, paper.Signature{Role: "purchaser's inspector"})
}

func columns(titles ...string) []paper.Column {
	list := make([]paper.Column, len(titles))
	for i, t := range titles {
		list[i].Title = t
	}
	return list
}

func pens(titles ...string) []paper.Column {
	list := columns(titles...)
	for i := range list {
		list[i].Write = true
	}
	return list
}

const (
	bySchedule = "the schedule"
	agreed     = "________"
)

// checks are the usual ones of a part, the figures those of its schedule.
func checks(p *Part, u quantity.System) []check {
	s, a := p.Report.Schedule, p.Report.Analysis
	thick := func(sum laminate.Sum) string {
		if !sum.ThicknessKnown {
			return agreed
		}
		return "computed " + u.Thickness(sum.Thickness) + ", range as agreed"
	}
	glass := func(sum laminate.Sum) string {
		text := paper.Share(sum.GlassMassFraction())
		if text == "—" {
			return agreed
		}
		return "computed " + text + ", range as agreed"
	}
	list := []check{
		{"materials and lots", "certificate, label", "each lot", "as the schedule names them; within shelf life", bySchedule, "before lay-up", review},
		{"air, humidity, surface", "thermometer, hygrometer", "start of shift, each gel stop", "surface " + u.Figure(inspection.DewPointMargin, quantity.Rise) + " above the dew point", inspection.ByDewPoint, "during lay-up", ""},
		{"plies", "by eye, count", "each ply", quantity.Counted(s.NumberOfPlies(), "ply", "plies") + " in the order of the schedule", bySchedule, "during lay-up", review},
		{"resin mix and gel time", "weighed, clock", "each batch", "by the resin manufacturer's table", "resin manufacturer", "during lay-up", review},
		{"barrier", "by eye, wet and gelled", "whole face", "no dry spot, no air, no exposed fiber; " + thick(a.Barrier), bySchedule, "before the structure", hold},
		{"total thickness", "gauge, cutouts", agreed, thick(a.Total), bySchedule, "after cure", hold},
		{"structure thickness", "cutouts", "each cutout", thick(a.Zones[laminate.StructuralLayer]), bySchedule, "after cure", ""},
		{"hardness", "Barcol, ASTM D2583", "10 readings at each place", "at least 90 % of the resin manufacturer's figure", "from memory, to be agreed", "after cure", hold},
		{"surface cure", "acetone wipe", "each place of hardness", "neither softened nor tacky", inspection.ByPractice, "after cure", hold},
		{"visual, process side", "by eye", "whole face", "limits of defects as agreed", "to be agreed", "after cure", hold},
		{"visual, outside", "by eye", "whole face", "limits of defects as agreed", "to be agreed", "after cure", ""},
		{"glass content, barrier", "ignition loss, ASTM D2584", "cutouts as agreed", glass(a.Barrier), bySchedule, "after cure", ""},
		{"glass content, structure", "ignition loss, ASTM D2584", "cutouts as agreed", glass(a.Zones[laminate.StructuralLayer]), bySchedule, "after cure", ""},
		{"dimensions", "tape, template", "each part", "drawing", "drawing", "after demolding", ""},
		{"cut edges", "by eye", "each edge", "sealed with resin", inspection.ByPractice, "after trimming", ""},
	}
	if s.Service.Conductive.Given && s.Service.Conductive.Value {
		list = append(list, check{"resistance to ground", "resistance meter", agreed, agreed, "to be agreed", "after cure", witness})
	}
	test := agreed
	if q := s.Service.TestPressure; q.Given() {
		test = u.Figure(q.SI(), quantity.Stress) + ", held as long as agreed, no leak"
	}
	return append(list, check{"pressure or fill test", "with water", "each part", test, bySchedule, "last", witness})
}
