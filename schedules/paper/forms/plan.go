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
	for _, p := range of.Shown() {
		sheet = append(sheet, warned(p)...)
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
		list := checks(p, of.Units)
		if of.Job == nil {
			list = append(list, of.testCheck())
		}
		return paper.Sheet{paper.Heading{Level: 2, Text: "In the shop"}, checkTable(list)}
	})...)
	sheet = append(sheet, bonds(of)...)
	if whole := of.whole(); whole != nil {
		sheet = append(append(sheet, whole...), checkTable(append(append(of.proofChecks(), of.anchorChecks()...), of.testCheck())))
	}
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

func checkTable(list []check) paper.Table {
	t := paper.Table{Columns: append(columns("characteristic", "method", "extent", "acceptance", "source", "when", "point"), pens("agreed", "record no.", "sign")...)}
	for _, c := range list {
		t.Rows = append(t.Rows, paper.Row{Cells: []string{c.what, c.method, c.extent, c.limit, c.source, c.when, c.point, "", "", ""}, Strong: c.point == hold})
	}
	return t
}

// bonds is what is inspected of all that is laid at nozzles, at joints and in the
// corners of bottoms, in the order of the route sheet.
func bonds(of *Subject) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	add := func(at laminate.Ref, title string, first ...check) {
		list := of.overlaysAt(at)
		if list == nil {
			return
		}
		sheet = append(sheet, paper.Heading{Level: 1, Text: title, Page: true}, checkTable(append(first, bondChecks(of, list)...)))
	}
	for i := range of.Job.Nozzles {
		n := &of.Job.Nozzles[i]
		add(laminate.Ref{Kind: laminate.RefNozzle, Index: i}, nozzleTitle(n),
			check{"place and projection", "tape, template", "each nozzle", "drawing", "drawing", "before lay-up", witness},
			check{"cut edge", "by eye", "all around", "sealed with resin", inspection.ByPractice, "before lay-up", hold})
	}
	for i := range of.Job.Joints {
		j := &of.Job.Joints[i]
		add(laminate.Ref{Kind: laminate.RefJoint, Index: i}, jointTitle(j),
			check{"fit-up", "tape, straightedge", "all around", labeled("gap at most ", orAgreed(size("", j.Gap, quantity.Size, of.Units))) + ", offset " + agreed, bySchedule, "before lay-up", witness})
	}
	for i := range of.Job.Parts {
		add(laminate.Ref{Kind: laminate.RefJobPart, Index: i}, "Part "+of.Job.Parts[i].ID+", knuckle, outside")
	}
	return sheet
}

func orAgreed(text string) string {
	if text == "" {
		return agreed
	}
	return text
}

// bondChecks are those of the laminates of one joint or nozzle, or of a knuckle.
func bondChecks(of *Subject, list []*laidOver) []check {
	rows := []check{
		{"faces", "by eye, wiped", "whole width of the bond", "abraded to a dull, fiber-roughened surface past the last ply; clean, dry, no wax", inspection.ByPractice, "before lay-up", hold},
		{"time since the face gelled", "record of the part", "each face", "within the resin manufacturer's limit " + agreed, "resin manufacturer", "before lay-up", hold},
	}
	for _, o := range list {
		name := o.Kind.Said()
		rows = append(rows, check{name + ": plies", "by eye, count", "each ply", quantity.Counted(o.schedule.NumberOfPlies(), "ply", "plies") + " in the order of laying", bySchedule, "during lay-up", review})
		if o.on.Across != nil {
			widest := 0.0
			for ply := range o.schedule.NumberOfPlies() {
				widest = max(widest, o.take(ply+1, of.Units).Across)
			}
			rows = append(rows, check{name + ": width or diameter", "tape", "all around", "at least " + of.Units.Figure(widest, quantity.Size) + " at the widest ply", bySchedule, "after cure", hold})
		}
		thick := agreed
		if t := o.analysis.Total; t.ThicknessKnown {
			thick = "computed " + of.Units.Thickness(t.Thickness) + ", range as agreed"
		}
		rows = append(rows, check{name + ": thickness", "gauge, step at the edge", agreed, thick, bySchedule, "after cure", hold})
		if o.Kind.Wets() {
			rows = append(rows, check{name + ": surface cure", "acetone wipe", "each place of hardness", "neither softened nor tacky", inspection.ByPractice, "after cure", hold})
		}
	}
	return append(rows,
		check{"hardness", "Barcol, ASTM D2583", "10 readings at each place", "at least 90 % of the resin manufacturer's figure", "from memory, to be agreed", "after cure", hold},
		check{"visual", "by eye, tapped", "whole overlay", "no lifted edge, no void under it; limits of defects as agreed", "to be agreed", "after cure", hold})
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
	return list
}

// testCheck is that of the whole: the parts of a job are not tested each by itself.
func (of *Subject) testCheck() check {
	extent, how := "the whole", of.test()
	if of.Job == nil {
		extent = "each part"
	}
	if how == "" {
		return check{"pressure or fill test", "with water", extent, agreed, bySchedule, "last", witness}
	}
	return check{"pressure or fill test", "filled, gauge", extent, how + ", no leak", bySchedule, "last", witness}
}
