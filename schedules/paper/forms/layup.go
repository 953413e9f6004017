package forms

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/picture"
)

// LayUpSheet is what lies beside the mold: each ply in the order of laying, what
// it takes, and what is written down about it.
func LayUpSheet(of *Subject) paper.Sheet {
	u := of.Units
	sheet := of.each(func(p *Part) paper.Sheet {
		s, a := p.Report.Schedule, p.Report.Analysis
		part := warned(p)
		part = append(part, paper.Facts{{Name: "part", Value: partLine(s, u)}, {Name: "order of laying", Value: orderLine(p)}})
		if len(s.Plies) == 0 {
			return append(part, paper.Note{Text: "No plies."})
		}
		part = append(part, beforeLaying(of, s, a, "mold or mandrel", "release film or agent")...)
		part = append(part, paper.Heading{Level: 2, Text: "Section"}, section(p, u))
		if list := anglesOf(s, a); list != nil {
			part = append(part, paper.Heading{Level: 2, Text: "Angles"}, paper.Figure{Picture: picture.Angles(list, p.Laid == laminate.OutsideIn), Text: []string{turned(p.Laid)}})
		}
		part = append(part, paper.Heading{Level: 2, Text: "Cut list"})
		if hoops(s, a) {
			part = append(part, paper.Note{Text: "Woven roving goes round the part, in long lengths, and its laps are offset from ply to ply: no row of laps lies across the load round it."})
		}
		if said := ground.RingsSaid(&s.Part, u); said != "" {
			part = append(part, paper.Note{Text: "Held round by " + said + ", and no sheet has them."})
		}
		if said := ground.SeamsSaid(&s.Part, a.Total.Thickness, u); said != "" {
			part = append(part, paper.Note{Text: "Mitered: " + said + ". What closes them, an overlay outside and a seal inside, the document does not state, and no sheet has it."})
		}
		part = append(part, cuts(of, p), paper.Heading{Level: 2, Text: "Plies, in the order of laying"})
		return append(append(part, of.held(a)...), laidTable(of, p, a, u))
	})
	list := laidOn(of, true)
	if alone := of.overlaysAt(of.Only); list != nil && of.Shown() == nil { // no part's pages stand before it
		sheet = append(sheet, beforeBonding(of, alone)...)
	}
	sheet = append(append(sheet, list...), of.whole()...)
	if list != nil {
		sheet = append(sheet, paper.Note{Mark: "HOLD before each overlay: ", Text: "faces abraded to a dull, fiber-roughened surface past the last ply, clean and dry; no wax under a later ply; time since the face gelled within the resin manufacturer's limit (" +
			inspection.ByPractice + ").", Framed: true}, paper.Boxes{Titles: []string{"faces passed by", "at", "time since gel"}, Across: 3})
	}
	return append(sheet, paper.Heading{Level: 2, Text: "Deviations"}, paper.Boxes{Titles: []string{"what was done otherwise, why, and who said so"}, Across: 1, High: 30},
		paper.Signature{Role: "laid up by"}, paper.Signature{Role: "foreman"})
}

// held says whose hold points are on the sheet, and those that come before no ply of it.
func (of *Subject) held(a *laminate.Analysis) paper.Sheet {
	if of.Specification == "" {
		why := "no specification was given for this sheet"
		if of.Unheld != "" {
			why = of.Unheld
		}
		return paper.Sheet{paper.Note{Mark: "HOLD POINTS: ", Text: why + "; those of one are not on it."}}
	}
	sheet := paper.Sheet{paper.Note{Mark: "HOLD POINTS: ", Text: "those of " + of.Specification + "."}}
	for i := range of.Holds {
		if h := &of.Holds[i]; !h.BeforePly.Given || laid.RowOf(a, h.BeforePly.Value) < 0 {
			sheet = append(sheet, paper.Note{Mark: "HOLD, ", Text: h.Text() + ". Passed by ______________ at ________", Framed: true})
		}
	}
	return sheet
}

// anglesOf are the angles of the plies that have one, each once, in the order in
// which they come.
func anglesOf(s *laminate.Schedule, a *laminate.Analysis) (list []picture.Angle) {
	for i := range s.Plies {
		if p := &s.Plies[i]; p.Angle.Given {
			m := a.Rows[i].Material
			x := picture.Angle{Degrees: p.Angle.Value, Both: m != nil && m.Form == laminate.RovingBand}
			if !slices.Contains(list, x) {
				list = append(list, x)
			}
		}
	}
	return list
}

// turned says what becomes of angles for whoever lays the plies.
func turned(from laminate.LaidOrder) string {
	if from == laminate.OutsideIn {
		return "angles are those of the part, seen from outside; from inside, where it is laid, the sign is the other"
	}
	return "angles are those of the part, seen from outside, from its axis"
}

// partLine is a part in a line.
func partLine(s *laminate.Schedule, u quantity.System) string {
	facts := partFacts(s, u)
	if len(facts) > 0 && facts[0].Name == "part" {
		return facts[0].Value
	}
	return "not stated"
}

func orderLine(p *Part) string {
	switch p.Laid {
	case laminate.OutsideIn:
		return "OUTSIDE FIRST: the process side is laid last, the reverse of the schedule. Ply numbers stay those of the schedule."
	case laminate.InsideOut:
		return "process side first, on the mold or mandrel"
	case laminate.NoLaidOrder:
	}
	return "process side first, on the mold or mandrel, as the schedule is written. On a mold that shapes the outside the order is the reverse: this sheet is not for it."
}

// beforeLaying is what is read and written down before the first ply: cautions, the
// conditions, when to stop, and the resin mix. on are boxes for what it is laid on.
func beforeLaying(of *Subject, s *laminate.Schedule, a *laminate.Analysis, on ...string) paper.Sheet {
	var work []safety.Trigger
	if on == nil {
		work = append(work, safety.Bonding)
	}
	if safety.Encloses(s.Part.Form) {
		work = append(work, safety.Entering)
	}
	sheet := append(safetyNotes(a, work...), paper.Boxes{Titles: append(append([]string{"serial"}, on...), "date and shift", "air temperature", "humidity", "surface temperature", "dew point")},
		paper.Heading{Level: 2, Text: "Stop, and call the foreman, if"})
	for _, text := range stops(of.Units) {
		sheet = append(sheet, paper.Note{Mark: "- ", Text: text})
	}
	return append(sheet, mixes(of, s)...)
}

// beforeBonding is the same of all that is laid at one joint or nozzle.
func beforeBonding(of *Subject, list []*laidOver) paper.Sheet {
	whole := laminate.Schedule{Resins: of.Job.Resins, Materials: of.Job.Materials}
	for _, o := range list {
		whole.Plies = append(whole.Plies, o.schedule.Plies...)
		for _, i := range o.Faces(of.Job) {
			if form := of.Parts[i].Report.Schedule.Part.Form; safety.Encloses(form) {
				whole.Part.Form = form
			}
		}
	}
	return beforeLaying(of, &whole, laminate.Analyze(&whole, of.Library))
}

// safetyNotes are the cautions that plies call for, and the work beside them.
func safetyNotes(a *laminate.Analysis, work ...safety.Trigger) (sheet paper.Sheet) {
	seen := map[string]bool{}
	add := func(list []safety.Caution) {
		for _, c := range list {
			if !seen[c.ID] {
				seen[c.ID] = true
				sheet = append(sheet, paper.Note{Mark: "Safety: ", Text: c.Text, Framed: len(sheet) == 0})
			}
		}
	}
	for i := range a.Rows {
		add(safety.ForPly(&a.Rows[i]))
	}
	add(safety.For(append(work, safety.Cutting)...))
	return sheet
}

// stops are the limits past which work stops. What a shop or a resin
// manufacturer says goes before.
func stops(u quantity.System) []string {
	return []string{
		"the surface is less than " + u.Figure(inspection.DewPointMargin, quantity.Rise) + " above the dew point (" + inspection.ByDewPoint + ")",
		"the air is below " + u.Figure(inspection.LowestAir+273.15, quantity.Point) + " or its humidity above " + quantity.Share(inspection.HighestHumidity) + " (" + inspection.ByPractice + ")",
		"a mix gels in the pot or on the part before it is wetted out: discard it, and do not lay over it",
		fmt.Sprintf("more than %d mats or %s would be laid without a gel stop, or the laminate smokes, boils or cracks from heat (%s)", catalog.MatsInOneGo, u.Figure(catalog.ThickestInOneGo.SI(), quantity.Build), inspection.ByPractice),
		"a ply is dry, wrinkled, dirty or out of its place and cannot be put right before it gels",
		"the face to be laid on is waxed, wet, greasy, or older than the resin manufacturer allows: it is abraded first",
	}
}

// mixes is the shop's own table for the resins that the plies lie in, and fields for
// what was mixed. Where the table has nothing, nothing is said.
func mixes(of *Subject, s *laminate.Schedule) paper.Sheet {
	u := of.Units
	sheet := paper.Sheet{paper.Heading{Level: 2, Text: "Resin mix"}}
	table := paper.Table{Columns: append(columns("resin", "at"), paper.Column{Title: "initiator", Right: true}, paper.Column{Title: "promoter", Right: true}, paper.Column{Title: "gels in", Right: true},
		paper.Column{Title: "initiator for a pot", Right: true}, paper.Column{Title: "source"})}
	written := paper.Table{Columns: append(columns("resin", "family"), pens("initiator", "promoter", "resin lot", "initiator lot", "gel time, tested")...)}
	var without []string
	for i := range s.Resins {
		r := &s.Resins[i]
		if !slices.ContainsFunc(s.Plies, func(p laminate.Ply) bool { return p.Resin == r.ID }) {
			continue
		}
		found := false
		for k := range of.Stock.Initiators {
			x := &of.Stock.Initiators[k]
			if x.Family != r.Family || x.Cure != laminate.NoCure && x.Cure != r.Cure || !x.Initiator.Given {
				continue
			}
			found = true
			at, promoter, gels, pot := "any temperature", "—", "—", "—"
			if x.Temperature.Given() {
				at = u.Figure(x.Temperature.SI(), quantity.Point)
			}
			if x.Promoter.Given {
				promoter = quantity.Percent(x.Promoter.Value)
			}
			if x.GelMinutes.Given {
				gels = quantity.Number(x.GelMinutes.Value, 0) + " min"
			}
			if batch := of.Stock.Takeoff.Batch; batch.Given() && (r.Filler == laminate.NoFiller || r.FillerContent.Given) {
				bare := batch.SI() * (1 - r.FillerContent.Value) // initiator goes by the resin alone
				pot = quantity.Number(bare*x.Initiator.Value*1000, 0) + " g in " + u.Figure(batch.SI(), quantity.Weight)
			}
			odd := catalog.OddShares(x, r.Cure)
			if slices.ContainsFunc(odd, func(o catalog.OddShare) bool { return o.Far }) {
				pot = "not weighed by this" // a slip of ten times burns in the pot
			}
			table.Rows = append(table.Rows, paper.Row{Cells: []string{r.ID, at, quantity.Percent(x.Initiator.Value), promoter, gels, pot, x.Source}})
			for _, o := range odd {
				table.Rows = append(table.Rows, paper.Row{Band: "WARNING, row above: " + o.Says + " (" + inspection.ByPractice + "): mix nothing by it until the resin manufacturer's table says so"})
			}
		}
		if !found {
			without = append(without, r.ID)
		}
		written.Rows = append(written.Rows, paper.Row{Cells: []string{r.ID, strings.Join(filled(r.Family.String(), r.Product, r.Cure.String()), ", "), "", "", "", "", ""}})
	}
	if len(table.Rows) > 0 {
		sheet = append(sheet, paper.Note{Text: "From the shop book; shares of the mass of the resin. The row for the temperature of shop and resin counts, and between two rows nobody guesses."}, table)
	}
	if without != nil {
		sheet = append(sheet, paper.Note{Text: "The shop book has no table of initiators for " + strings.Join(without, ", ") +
			": amounts and gel time are those of the resin manufacturer's data sheet, written in by whoever is responsible."})
	}
	return append(sheet, written)
}

func filled(list ...string) (kept []string) {
	for _, s := range list {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return kept
}

// cuts is what is cut for each row before anything gels: strips where the shop
// book names rolls, else what has to be covered.
func cuts(of *Subject, p *Part) paper.Table {
	u := of.Units
	s, a := p.Report.Schedule, p.Report.Analysis
	t := paper.Table{Columns: []paper.Column{{Title: "ply"}, {Title: "material"}, {Title: "pieces, each ply"}, {Title: "area, each ply", Right: true}, {Title: "fabric, each ply", Right: true},
		{Title: "roll or lot", Write: true}, {Title: "cut", Write: true}}}
	for i := range s.Plies {
		r := &a.Rows[i]
		if m := r.Material; m == nil || m.Form == laminate.ResinCoat || m.Form == laminate.RovingBand || m.Form == laminate.SprayedChop {
			continue
		}
		outer := laid.Of(s, a, r.Last, u)
		pieces, area, fabric := "", "", ""
		switch {
		case outer.Area == 0:
			pieces = "not known: " + outer.Missing
		case outer.Circumference > 0 || outer.Disc > 0:
			pieces = of.strips(r.Material, &s.Plies[i], &outer)
		default:
			pieces = "cut to fit: " + strings.TrimSuffix(outer.How, " at this ply")
		}
		if outer.Area > 0 {
			area = u.Figure(outer.Area, quantity.Surface)
		}
		if outer.Fabric > 0 {
			fabric = u.Figure(outer.Fabric, quantity.Weight)
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []string{paper.Span(r.First, r.Last), rowText(&s.Plies[i]), pieces, area, fabric, "", ""}})
	}
	return t
}

// hoops tells whether a ply of a straight part is cut to go round it.
func hoops(s *laminate.Schedule, a *laminate.Analysis) bool {
	for i := range s.Plies {
		if m := a.Rows[i].Material; m != nil && m.Form == laminate.WovenRoving && takeoff.Hoops(m, s.Plies[i].Angle) && laid.Of(s, a, a.Rows[i].Last, quantity.Metric).Circumference > 0 {
			return true
		}
	}
	return false
}

// strips are those of one ply, from the roll that takes the least.
func (of *Subject) strips(m *laminate.Material, ply *laminate.Ply, take *laid.Ply) string {
	u := of.Units
	whole := u.Figure(take.Circumference, quantity.Size) + " around and the lap, " + u.Figure(take.Length, quantity.Distance) + " along"
	if take.Disc > 0 {
		whole = "a disc of " + u.Figure(take.Disc, quantity.Size)
	}
	var widths []float64
	for _, roll := range of.Stock.RollsOf(m) {
		widths = append(widths, roll.Width.SI())
	}
	lap, typical := of.Stock.Takeoff.Lap, ""
	if !lap.Given() {
		lap, typical = catalog.StripLap, ", a typical value"
	}
	width, x, ok := takeoff.Cut(take, m, ply.Angle, widths, lap.SI())
	if !ok {
		return whole
	}
	if take.Disc > 0 {
		return strconv.Itoa(x.Number) + " strips across a disc of " + u.Figure(take.Disc, quantity.Size) + ", " + u.Figure(width, quantity.Size) + " wide, the longest " + u.Figure(x.Longest, quantity.Size) + ", lap " + u.Stated(lap.SI(), quantity.Size) + typical
	}
	return strconv.Itoa(x.Number) + " strips " + x.Direction.String() + ", " + u.Figure(width, quantity.Size) + " × " + u.Figure(x.Longest, quantity.Size) + ", lap " + u.Stated(lap.SI(), quantity.Size) + typical
}

// mixed is the resin mix that a ply takes, net, and the pots that it is mixed in
// by the shop book.
func (of *Subject) mixed(take *laid.Ply, m *laminate.Material) (mix, pots string) {
	if take.Mix <= 0 {
		return "—", "—"
	}
	pots = "—"
	if n := takeoff.Pots(m, take.Mix, &of.Stock); n > 0 {
		pots = strconv.Itoa(n)
	}
	return of.Units.Figure(take.Mix, quantity.Weight), pots
}

// waits stops the laying before a waxed coat.
func waits(c *overlay.Coat) paper.Row {
	return paper.Row{Band: "HOLD: the waxed coat comes after " + c.Before() + ", since nothing bonds to wax. All of that is laid: ______________ at ________"}
}

// laidTable has a line for each single ply, and a band where work stops.
func laidTable(of *Subject, p *Part, a *laminate.Analysis, u quantity.System) paper.Table {
	s := p.Report.Schedule
	t := paper.Table{Columns: []paper.Column{{Title: "ply"}, {Title: "material"}, {Title: "resin"}, {Title: "resin mix", Right: true}, {Title: "pots", Right: true},
		{Title: "batch no.", Write: true}, {Title: "start", Write: true}, {Title: "gel", Write: true}, {Title: "air, RH", Write: true}, {Title: "remarks", Write: true}, {Title: "by", Write: true}}}
	for _, l := range order(s, a, p.Laid) {
		take := laid.Of(s, a, l.ply, u)
		ply := &s.Plies[take.Row]
		mix, pots := of.mixed(&take, a.Rows[take.Row].Material)
		if p.Coat != nil && l.ply == p.Coat.First {
			t.Rows = append(t.Rows, waits(p.Coat))
		}
		for i := range of.Holds {
			if h := &of.Holds[i]; h.BeforePly.Given && h.BeforePly.Value == l.ply {
				t.Rows = append(t.Rows, paper.Row{Band: "HOLD, " + h.Text() + ". Passed by ______________ at ________"})
			}
		}
		material := ply.Material
		if g := angle(ply); g != "" {
			material += " " + g
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []string{strconv.Itoa(l.ply), material, ply.Resin, mix, pots, "", "", "", "", "", ""}})
		switch {
		case l.barrier:
			text := "HOLD: barrier inspected before anything goes over it: whole, no dry spots, no air, no wrinkles; thickness ________"
			if l.stop {
				text = "GEL STOP and " + text + "; gelled at ________, peak ________"
			}
			t.Rows = append(t.Rows, paper.Row{Band: text + ". Passed by ______________ at ________"})
		case l.stop:
			t.Rows = append(t.Rows, paper.Row{Band: "GEL STOP: let it gel and cool. Gelled at ________, peak ________, cool at ________. Go on: ______________"})
		}
	}
	return t
}
