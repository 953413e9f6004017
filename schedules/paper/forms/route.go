package forms

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/parts"
	"frp/veilwright/schedules/paper"
)

// Points of a route or a plan.
const (
	hold    = "H"
	witness = "W"
	review  = "R"
)

const legend = "H hold: work stops until it is signed. W witness: somebody is called and may look on. R review: the record is looked through. Who signs for the purchaser is written in where the purchaser asks for it."

// operation is a step on the way of a part through the shop.
type operation struct{ what, point, paper string }

// RouteSheet goes with the part through the shop: each operation in order, who
// did it, who looked, and where work stops.
func RouteSheet(of *Subject) paper.Sheet {
	var sheet paper.Sheet
	for _, p := range of.Shown() {
		sheet = append(sheet, warned(p)...)
	}
	sheet = append(sheet, paper.Boxes{Titles: []string{"serial", "order", "quantity", "wanted by"}}, paper.Note{Text: legend})
	t := paper.Table{Columns: []paper.Column{{Title: "no.", Right: true}, {Title: "operation"}, {Title: "point"}, {Title: "paper"}, {Title: "planned", Write: true}, {Title: "done, date", Write: true},
		{Title: "by", Write: true}, {Title: "inspected by", Write: true}}}
	for i, o := range operations(of) {
		t.Rows = append(t.Rows, paper.Row{Cells: []string{strconv.Itoa(i + 1), o.what, o.point, o.paper, "", "", "", ""}, Strong: o.point == hold})
	}
	sheet = append(sheet, paper.Heading{Level: 2, Text: "Operations"}, t)
	sheet = append(sheet, paper.Heading{Level: 2, Text: "Safety on the way"})
	work := []safety.Trigger{safety.Cutting, safety.Wiping, safety.PressureTest}
	if of.enclosed() {
		work = append(work, safety.Entering)
	}
	for _, c := range safety.For(work...) {
		sheet = append(sheet, paper.Note{Mark: "Safety: ", Text: c.Text})
	}
	released := "released to be joined"
	if of.Only == (laminate.Ref{}) {
		released = "released for shipment"
		sheet = append(sheet, paper.Heading{Level: 2, Text: "Text for the plate"}, of.plate(), paper.Boxes{Titles: []string{"year", "serial", "capacity", "built to"}})
	}
	return append(sheet, paper.Heading{Level: 2, Text: "Deviations"}, paper.Boxes{Titles: []string{"operation, what was done otherwise, disposition, who said so"}, Across: 1, High: 24},
		paper.Signature{Role: released})
}

// enclosed tells whether somebody might have to go in.
func (of *Subject) enclosed() bool {
	for i := range of.Parts {
		if safety.Encloses(of.Parts[i].Report.Schedule.Part.Form) {
			return true
		}
	}
	return false
}

// operations are those of the whole, in the order in which they come.
func operations(of *Subject) []operation {
	list := []operation{
		{"drawings, laminate schedule and inspection plan released, this revision", review, "laminate schedule"},
		{"materials received and identified: lots, shelf life, certificates", review, ""},
	}
	list = append(list, of.proofOperations()...)
	for _, p := range of.Shown() {
		list = append(list, partOperations(p, of.Units)...)
	}
	if of.Job != nil {
		list = append(list, of.nozzleOperations()...)
		list = append(list, of.jointOperations()...)
	}
	for _, p := range of.Shown() {
		list = append(list, of.knuckleOperations(p)...)
	}
	if of.Job != nil {
		for i := range of.Job.Joints {
			x := &of.Job.Joints[i]
			list = append(list, of.coatsOver("joint "+x.ID+", "+x.Between[0]+" to "+x.Between[1]+": ", of.overlaysAt(laminate.Ref{Kind: laminate.RefJoint, Index: i}))...)
		}
	}
	for _, p := range of.Shown() {
		list = append(list, of.coatOperations(p)...)
	}
	list = append(list,
		operation{"cure to handling, post-cure where it is called for", review, "inspection plan"},
		operation{"final inspection: visual on both sides, thickness, Barcol, acetone", hold, "inspection plan"})
	if of.Only != (laminate.Ref{}) { // what is tested, marked and shipped is the whole
		return append(list, operation{"records complete, released to be joined", hold, "inspection report"})
	}
	list = append(list, of.anchorOperations()...)
	return append(list, operation{of.testing(), witness, "inspection plan"},
		operation{"marking: plate and match marks", "", ""},
		operation{"cleaned, openings closed, records complete, released", hold, "inspection report"})
}

// round names on route sheets what is laid at a nozzle.
var round = map[overlay.Kind]string{overlay.Neck: "neck", overlay.LaidInside: "inside overlay", overlay.Pad: "pad", overlay.LaidOutside: "outside overlay"}

// leftOff says of a waxed coat that waits that it is not laid with the rest.
func (o *laidOver) leftOff() string {
	if o.coat == nil {
		return ""
	}
	return "; its waxed coat, " + coated(o.coat, o.analysis) + ", is left off: it comes after " + o.coat.Before()
}

// coatsOver are the operations of the coats of overlays that waited.
func (of *Subject) coatsOver(at string, laid []*laidOver) (list []operation) {
	for _, o := range laid {
		if o.coat == nil {
			continue
		}
		what := at + "waxed coat of the " + cmp.Or(round[o.Kind], o.Kind.Said()) + ", " + coated(o.coat, o.analysis)
		if o.Kind == overlay.Strap && of.Only != (laminate.Ref{}) {
			list = append(list, operation{what + ": NOT YET. It comes after " + o.coat.Before(), hold, "route sheet of the job"})
			continue
		}
		list = append(list, operation{what + ", after " + o.coat.Before() + abraded, hold, "lay-up sheet"})
	}
	return list
}

// nozzleOperations are those of the nozzles of a job.
func (of *Subject) nozzleOperations() (list []operation) {
	for i := range of.Job.Nozzles {
		if !of.covers(laminate.Ref{Kind: laminate.RefNozzle, Index: i}) {
			continue
		}
		n := &of.Job.Nozzles[i]
		on := "nozzle " + n.ID + " on " + n.On + ": "
		laid := of.overlaysAt(laminate.Ref{Kind: laminate.RefNozzle, Index: i})
		if len(laid) > 0 && laid[0].Kind == overlay.Neck {
			list = append(list, operation{on + "neck, laminate " + laid[0].Laminate + size(", ", n.Size, quantity.Size, of.Units) + size(", projection ", n.Projection, quantity.Size, of.Units) + laid[0].leftOff(), "", "lay-up sheet"},
				operation{on + "neck: barrier whole, no dry spots, no air; cured", hold, "lay-up sheet"})
		}
		if n.Flange != "" {
			list = append(list, operation{on + "flange " + n.Flange + " and neck joined, face square, bolt holes astride the axis, barrier through bore and face; how, no key states: ________", witness, ""})
		}
		list = append(list, operation{on + "mark, cut, seal the cut edge, dry-fit, tack", "", ""})
		list = append(list, operation{on + "surfaces abraded, clean and dry", hold, ""})
		for _, o := range laid {
			if o.Kind == overlay.Neck {
				continue // it was laid before
			}
			then := o.leftOff()
			if o.Kind.Inside() {
				then = of.endsIn(o.Laminate)
			}
			list = append(list, operation{on + round[o.Kind] + ", laminate " + o.Laminate + then, "", "lay-up sheet"})
		}
		if n.Gussets.Given && n.Gussets.Value > 0 {
			list = append(list, operation{on + quantity.Counted(n.Gussets.Value, "gusset", "gussets"), "", ""})
		}
		list = append(list, of.coatsOver(on, laid)...)
		list = append(list, operation{on + "inspected inside and outside before closing", hold, "inspection plan"})
	}
	return list
}

// jointOperations are those of the joints of a job.
func (of *Subject) jointOperations() (list []operation) {
	for i := range of.Job.Joints {
		if !of.covers(laminate.Ref{Kind: laminate.RefJoint, Index: i}) {
			continue
		}
		x := &of.Job.Joints[i]
		at := "joint " + x.ID + ", " + x.Between[0] + " to " + x.Between[1] + ": "
		list = append(list, operation{at + "fit up, gap and offset", witness, ""}, operation{at + "surfaces abraded, clean and dry, time since the face gelled", hold, ""})
		if of.shutIn(i) {
			list = append(list, operation{at + "NOT YET. It closes the vessel, and no opening is wide enough to get in and out by: how its seal is laid and looked at is settled first", hold, ""})
		}
		if x.Inside != "" {
			list = append(list, operation{at + "inside seal, laminate " + x.Inside + of.endsIn(x.Inside), "", "lay-up sheet"})
		}
		for _, o := range of.overlaysAt(laminate.Ref{Kind: laminate.RefJoint, Index: i}) {
			if o.Kind == overlay.Strap {
				list = append(list, operation{at + "outside overlay, laminate " + x.Outside + "; bond ply a mat" + o.leftOff(), "", "lay-up sheet"})
			}
		}
	}
	return list
}

// shutIn tells of a joint whose seal nobody can lay, since it closes the vessel.
func (of *Subject) shutIn(joint int) bool {
	return slices.ContainsFunc(of.Whole, func(f rules.Finding) bool {
		return f.Rule == parts.SealShutIn && f.At.Kind == laminate.RefJoint && f.At.Index == joint
	})
}

// knuckleOperations are those of the reinforcement round the corner of a flat bottom: it
// runs up the wall, and comes when that stands on the bottom.
func (of *Subject) knuckleOperations(p *Part) (list []operation) {
	if of.Job == nil {
		return nil
	}
	i := of.Job.Part(p.ID)
	for _, o := range of.overlaysAt(laminate.Ref{Kind: laminate.RefJobPart, Index: i}) {
		what := p.ID + ": " + o.Kind.Said() + " reinforced " + o.Kind.Face() + ", laminate " + o.Laminate
		if j := slices.IndexFunc(of.Job.Joints, func(x laminate.Joint) bool { return slices.Contains(x.Between[:], p.ID) }); j >= 0 && of.Only != (laminate.Ref{}) {
			list = append(list, operation{what + ": NOT YET. It comes after " + of.Job.Joints[j].ID, hold, "route sheet of the job"})
			continue
		}
		list = append(list, operation{p.ID + ": " + o.Kind.Said() + ", surfaces " + o.Kind.Face() + " abraded up the wall and under the bottom, clean and dry, no wax, time since the face gelled", hold, ""},
			operation{what + size(", up the wall ", of.Job.Parts[i].KnuckleHeight, quantity.Size, of.Units) + "; bond ply a mat", "", "lay-up sheet"})
	}
	return list
}

// coatOperations are those of the waxed coat of a part that is bonded onto: it comes
// when that is laid, so that of a part by itself it is not to be laid yet.
func (of *Subject) coatOperations(p *Part) []operation {
	if p.Coat == nil {
		return nil
	}
	what := p.ID + ": waxed coat, " + p.coat()
	if of.Only != (laminate.Ref{}) {
		return []operation{{what + ": NOT YET. It comes after " + p.Coat.Before(), hold, "route sheet of the job"}}
	}
	return []operation{{what + ", after " + p.Coat.Before() + abraded, hold, "lay-up sheet"}}
}

// abraded is what a coat that waited is laid on.
const abraded = ": face clean and dry, abraded where the time since it gelled is over"

// coat are the plies of a coat that waits.
func (p *Part) coat() string { return coated(p.Coat, p.Report.Analysis) }

func coated(c *overlay.Coat, a *laminate.Analysis) string {
	last := a.Rows[len(a.Rows)-1].Last
	if last == c.First {
		return "ply " + strconv.Itoa(last)
	}
	return "plies " + paper.Span(c.First, last)
}

func (of *Subject) testing() string {
	if how := of.test(); how != "" {
		return "test " + how
	}
	return "test, where one is called for, with water at the agreed pressure"
}

// endsIn says what a laminate that is laid from inside ends in: "; veil last, waxed
// coat", as far as it does.
func (of *Subject) endsIn(id string) (said string) {
	i := of.Job.Laminate(id)
	if i < 0 {
		return ""
	}
	rows := laminate.Analyze(of.Job.Schedule(i), of.Library).Rows
	coat := ""
	for k := len(rows) - 1; k >= 0; k-- {
		switch m := rows[k].Material; {
		case m == nil:
			return said + coat
		case m.Form == laminate.ResinCoat:
			if m.Waxed {
				coat = "; waxed coat"
			}
		case m.Form == laminate.Veil && coat != "":
			return "; veil last, waxed coat"
		case m.Form == laminate.Veil:
			return "; veil last"
		default:
			return coat
		}
	}
	return coat
}

// test is how the whole is tested, as far as it is stated: "with water to 15 ft above
// the bottom, held 24 h"; "" where nothing is.
func (of *Subject) test() string {
	u := of.Units
	if of.Job != nil && of.Job.Test != (laminate.Test{}) {
		t := &of.Job.Test
		medium := "with ________"
		if t.Medium != laminate.NoTestMedium {
			medium = "with " + words(t.Medium.String())
		}
		if proof.Empty(of.judged) {
			return medium + " to ________, at ________: NO TEST BEFORE its fill or its pressure is stated: as the document has it, it fills nothing and presses nothing, and proves nothing"
		}
		list := filled(medium+size(" to ", t.LiquidHeight, quantity.Distance, u), size("at ", t.Pressure, quantity.Stress, u), size("vacuum ", t.Vacuum, quantity.Stress, u), size("at ", t.Temperature, quantity.Point, u))
		if t.LiquidHeight.Given() {
			list[0] += " above the bottom of the lowest course"
			switch {
			case t.Pressure.Given() && t.Pressure.SI() == 0:
				list[1] = "no pressure over the fill"
			case t.Pressure.Given():
				list[1] += " over the fill"
			}
		}
		held := "held as long as agreed"
		if t.Held.Given() {
			held = "held " + t.Held.Text()
		}
		return strings.Join(append(list, held), ", ") + of.collapse()
	}
	for i := range of.Parts {
		if q := of.Parts[i].Report.Schedule.Service.TestPressure; q.Given() && of.Job == nil { // a job's test is its own table, as it is judged
			return "with water at " + u.Figure(q.SI(), quantity.Stress) + ", held as long as agreed"
		}
	}
	return ""
}

// collapse is what every part bears of the vacuum that the test draws, "" where it
// draws none: no such test without these figures on its sheet.
func (of *Subject) collapse() string {
	vacuum := of.Job.Test.Vacuum
	if vacuum.SI() <= 0 {
		return ""
	}
	var list []string
	for i, part := range of.judged.Parts {
		c := proof.Collapse(part, vacuum.SI(), func(s *laminate.Schedule, a *laminate.Analysis) *wall.Result {
			return wall.Evaluate(s, of.Library, a, wall.Options{Units: laminate.Some(of.Units)})
		})
		said := "not known"
		switch {
		case c == nil:
			continue
		case c.Judged() && c.Name == wall.ExternalPressure:
			said = of.Units.AtMost(c.Capacity, quantity.Stress)
		case c.Judged() && c.Name == others.Vacuum:
			said = of.Units.AtMost(c.Capacity, quantity.Stress) + " as proved by others"
		case c.Judged():
			said = c.Title() + " " + quantity.Utilization(c.Ratio) + " of its limit"
		}
		list = append(list, of.Job.Parts[i].ID+" "+said)
	}
	return "; what the parts bear of a vacuum, cold, with their safety (5 against collapse): " + strings.Join(list, ", ") + "; above that nobody draws it, and nobody stands beside it"
}

// partOperations are those of one part.
func partOperations(p *Part, u quantity.System) []operation {
	s, a := p.Report.Schedule, p.Report.Analysis
	at := ""
	if p.ID != "" {
		at = p.ID + ": "
		if n := s.Part.Count.Or(1); n > 1 {
			at = p.ID + ", each of " + strconv.Itoa(n) + ": "
		}
	}
	if len(s.Plies) == 0 {
		return []operation{{at + "no plies are stated", hold, ""}}
	}
	list := []operation{{at + "mold or mandrel prepared: size, finish, release", witness, ""}}
	stretch := func(what string, first, last int) {
		gels := 0
		for i := first; i <= last; i++ {
			if s.Plies[i].GelAfter {
				gels++
			}
		}
		text := at + what + ": plies " + paper.Span(a.Rows[first].First, a.Rows[last].Last)
		if gels > 0 {
			text += ", " + quantity.Counted(gels, "gel stop", "gel stops")
		}
		list = append(list, operation{text, "", "lay-up sheet"})
	}
	n := len(s.Plies)
	if p.Coat != nil { // it has an operation of its own
		n = laid.RowOf(a, p.Coat.First)
	}
	barrier := func() {
		if e := a.BarrierEnd; e > 0 {
			stretch("barrier", 0, e-1)
			list = append(list, operation{at + "barrier inspected: whole, no dry spots, no air, thickness, gelled and cool", hold, "lay-up sheet"})
		}
	}
	if p.Laid == laminate.OutsideIn {
		if a.BarrierEnd < n {
			stretch("outside and structure, outer ply first", a.BarrierEnd, n-1)
		}
		barrier()
	} else {
		barrier()
		if a.BarrierEnd < n {
			stretch("structure and outside", a.BarrierEnd, n-1)
		}
	}
	if p.Coat != nil {
		list = append(list, operation{at + "the waxed coat, " + p.coat() + ", is left off: it comes after " + p.Coat.Before(), hold, ""})
	}
	list = append(list, operation{at + "cure, demold", "", ""}, operation{at + "trim; cut edges sealed with resin", "", ""})
	if rings := ground.RingsSaid(&s.Part, u); rings != "" {
		list = append(list, operation{at + "stiffening rings: surfaces abraded where they stand, clean and dry, no wax, time since the face gelled", hold, ""},
			operation{at + rings + ": ________", "", ""})
	}
	seams, _ := ground.Seams(&s.Part, a.Total.Thickness)
	for i := range seams {
		seam := at + "miter seam " + strconv.Itoa(i+1) + " of " + strconv.Itoa(seams) + ": "
		list = append(list, operation{seam + "fit up, gap and offset", witness, ""}, operation{seam + "surfaces abraded, clean and dry, time since the face gelled", hold, ""},
			operation{seam + "inside seal and outside overlay, bond ply a mat; laminates and widths, which the document does not state: ________", "", ""})
	}
	return list
}

// plate is what a plate says, as far as the document does.
func (of *Subject) plate() paper.Facts {
	var f stated
	u := of.Units
	if of.Library != nil {
		f.add("fabricator", of.Library.Letterhead.Name)
	}
	f.add("job", of.Head.Job)
	f.add("title", of.Head.Title)
	if len(of.Parts) == 0 {
		return f.facts
	}
	s := of.Parts[0].Report.Schedule
	v := &s.Service
	for i := range s.Resins {
		f.add("resin "+s.Resins[i].ID, words(s.Resins[i].Family.String()))
	}
	f.add("fluid", v.Fluid)
	f.list("design", size("temperature ", v.Temperature, quantity.Point, u), size("pressure ", v.Pressure, quantity.Stress, u), size("vacuum ", v.Vacuum, quantity.Stress, u))
	if v.SpecificGravity.Given {
		f.add("specific gravity", strconv.FormatFloat(v.SpecificGravity.Value, 'g', -1, 64))
	}
	return f.facts
}
