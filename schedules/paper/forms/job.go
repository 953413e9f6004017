package forms

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/picture"
)

// drawn is a job as a whole: seen from outside, and where its nozzles stand.
func drawn(of *Subject) (sheet paper.Sheet) {
	if of.Job == nil || of.Only != (laminate.Ref{}) {
		return nil
	}
	if p, left, ok := picture.Elevation(of.Job, of.Units); ok {
		sheet = append(sheet, paper.Heading{Level: 2, Text: "Elevation"}, paper.Figure{Picture: p, Text: partNames(of)})
		for _, l := range left {
			sheet = append(sheet, paper.Note{Mark: "- ", Text: l})
		}
	}
	if rows, left := picture.Pieces(of.Job, of.Units); len(rows)+len(left) > 0 {
		title := "Parts, each to its own scale"
		if sheet != nil {
			title = "Other parts, each to its own scale"
		}
		sheet = append(sheet, paper.Heading{Level: 2, Text: title})
		for i := range rows {
			sheet = append(sheet, paper.Figure{Picture: rows[i]})
		}
		for _, l := range left {
			sheet = append(sheet, paper.Note{Mark: "- ", Text: l})
		}
	}
	if len(of.Job.Nozzles) == 0 {
		return sheet
	}
	sheet = append(sheet, paper.Heading{Level: 2, Text: "Nozzles"})
	if p, left, ok := picture.Plan(of.Job); ok {
		sheet = append(sheet, paper.Figure{Picture: p, Caption: "Plan, seen from above; bearings clockwise from the top.", Text: nil})
		for _, l := range left {
			sheet = append(sheet, paper.Note{Mark: "- ", Text: l})
		}
	}
	return append(sheet, nozzles(of), nozzleEnds(of))
}

// nozzleEnds are what the nozzles of a job end in: neck, flange and cover.
func nozzleEnds(of *Subject) paper.Table {
	t := paper.Table{Columns: columns("nozzle", "neck and end")}
	for i := range of.Job.Nozzles {
		n := &of.Job.Nozzles[i]
		t.Rows = append(t.Rows, paper.Row{Cells: []string{n.ID, strings.Join(of.end(n), ", ")}})
	}
	return t
}

// end is what is stated of a nozzle's neck and of what it ends in.
func (of *Subject) end(n *laminate.Nozzle) []string {
	u := of.Units
	return filled(size("size ", n.Size, quantity.Size, u), words(n.Kind.String()), size("opening ", n.Opening, quantity.Size, u), size("projection ", n.Projection, quantity.Size, u), labeled("flange ", n.Flange), labeled("cover ", n.Cover),
		size("class ", n.PressureClass, quantity.Stress, u), size("bonded ", n.NeckBond, quantity.Size, u))
}

func partNames(of *Subject) (names []string) {
	for i := range of.Job.Parts {
		p := &of.Job.Parts[i]
		names = append(names, p.ID+": "+p.Form.String())
	}
	return names
}

func nozzles(of *Subject) paper.Table {
	u := of.Units
	t := paper.Table{Columns: columns("nozzle", "on", "size", "height", "offset", "bearing", "kind", "pad", "overlay outside", "overlay inside", "neck", "gussets")}
	for i := range of.Job.Nozzles {
		n := &of.Job.Nozzles[i]
		bearing, gussets := "", ""
		if n.Bearing.Given {
			bearing = strconv.FormatFloat(n.Bearing.Value, 'g', 4, 64) + "°"
		}
		if n.Gussets.Given {
			gussets = strconv.Itoa(n.Gussets.Value)
		}
		pad := n.Pad
		if n.PadDiameter.Given() {
			pad += ", " + size("", n.PadDiameter, quantity.Size, u)
			if laid := of.padLaid(n); quantity.Above(laid, n.PadDiameter.SI()) {
				pad += ", laid to " + u.Figure(laid, quantity.Size)
			}
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []string{n.ID, n.On, size("", n.Size, quantity.Size, u), size("", n.Height, quantity.Distance, u), size("", n.Offset, quantity.Distance, u), bearing,
			n.Kind.String(), pad, n.InstallationOutside, n.InstallationInside, n.Neck, gussets}})
	}
	return t
}

// padLaid is how wide a nozzle's pad is laid, with its taper, m.
func (of *Subject) padLaid(n *laminate.Nozzle) float64 {
	i := of.Job.Laminate(n.Pad)
	if n.Pad == "" || i < 0 {
		return 0
	}
	return ground.PadLaid(n, laminate.Analyze(of.Job.Schedule(i), of.Library))
}

// laidOver is a laminate laid over a joint or round a nozzle, ply by ply.
type laidOver struct {
	overlay.Overlay
	schedule *laminate.Schedule
	analysis *laminate.Analysis
	on       ground.Ground
	missing  error         // why areas are not known
	coat     *overlay.Coat // what of it is laid last; nil where nothing waits
}

// overlaysAt are the laminates laid at a joint, a nozzle or a part beside its wall,
// in the order in which it is done; none that no laminate is named for.
func (of *Subject) overlaysAt(at laminate.Ref) (list []*laidOver) {
	if !of.covers(at) {
		return nil
	}
	for _, x := range overlay.At(of.Job, at) {
		if x.Laminate == "" {
			continue
		}
		s := x.Schedule(of.Job)
		o := &laidOver{Overlay: x, schedule: s, analysis: laminate.Analyze(s, of.Library)}
		o.coat = x.LastCoat(of.Job, o.analysis)
		o.on, o.missing = x.Ground(of.Job, of.Library)
		list = append(list, o)
	}
	return list
}

// take is what a single ply takes, by its number from 1.
func (o *laidOver) take(ply int, u quantity.System) laid.Ply {
	return laid.On(&o.on, o.missing, o.analysis, ply, u)
}

// bands are the plies of an overlay as they are drawn.
func (o *laidOver) bands() (list []picture.Band) {
	if o == nil {
		return nil
	}
	for i := range o.schedule.Plies {
		r := &o.analysis.Rows[i]
		for ply := r.First; ply <= r.Last; ply++ {
			take := o.take(ply, quantity.US)
			list = append(list, picture.Band{Width: take.Across, Thickness: r.Thickness, Hatch: hatch(r.Material, &o.schedule.Plies[i])})
		}
	}
	return list
}

// joints are the joints of a job: drawn draped, and ply by ply, to be written in
// where pen is true.
func joints(of *Subject, pen bool) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	for i := range of.Job.Joints {
		if !of.covers(laminate.Ref{Kind: laminate.RefJoint, Index: i}) {
			continue
		}
		j := &of.Job.Joints[i]
		sheet = append(sheet, paper.Heading{Level: 1, Text: jointTitle(j), Page: true})
		var inside, outside *laidOver
		for _, o := range of.overlaysAt(laminate.Ref{Kind: laminate.RefJoint, Index: i}) {
			if o.Kind.Inside() {
				inside = o
			} else {
				outside = o
			}
		}
		drawn := picture.Joint{Left: of.joined(j.Between[0]), Right: of.joined(j.Between[1]), Gap: j.Gap.SI(), Outside: outside.bands(), Inside: inside.bands(),
			Widths: size("", j.FirstWidth, quantity.Size, of.Units) + " to " + size("", j.Width, quantity.Size, of.Units)}
		if !j.FirstWidth.Given() {
			drawn.Widths = size("", j.Width, quantity.Size, of.Units)
		}
		if p, ok := drawn.Draped(); ok {
			sheet = append(sheet, paper.Figure{Picture: p, Text: []string{"overlay " + j.Outside + " outside, " + drawn.Widths}})
		}
		var facts stated
		facts.add("order of widths", words(j.Widths.String()))
		facts.add("gap", size("", j.Gap, quantity.Size, of.Units))
		facts.add("bonding procedure", j.Qualification)
		if facts.facts != nil {
			sheet = append(sheet, facts.facts)
		}
		for _, o := range []*laidOver{inside, outside} {
			if o != nil {
				sheet = append(sheet, paper.Heading{Level: 2, Text: o.title()}, of.overlaid(o, pen))
			}
		}
	}
	return sheet
}

// title says of what an overlay is, as records of it do.
func (o *laidOver) title() string {
	t := o.Name()
	if o.Kind == overlay.Knuckle {
		t += ", " + o.Kind.Face()
	}
	t += ": " + o.Laminate + ", in the order of laying"
	if o.Kind.Inside() {
		t += ", veil last"
	}
	return strings.ToUpper(t[:1]) + t[1:]
}

// laidOn is all that is laid onto the parts of a job, ply by ply, in the order of the route
// sheet: nozzles, joints, corners. It is to be written in where pen is true.
func laidOn(of *Subject, pen bool) paper.Sheet {
	return append(append(openings(of, pen), joints(of, pen)...), corners(of, pen)...)
}

// corners are what reinforces those of bottoms, ply by ply.
func corners(of *Subject, pen bool) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	for i := range of.Job.Parts {
		for _, o := range of.overlaysAt(laminate.Ref{Kind: laminate.RefJobPart, Index: i}) {
			sheet = append(sheet, paper.Heading{Level: 1, Text: "Part " + o.Part + ", " + o.Kind.Said() + ", " + o.Kind.Face(), Page: true},
				paper.Heading{Level: 2, Text: o.title()}, of.overlaid(o, pen))
		}
	}
	return sheet
}

// openings are what is laid round the nozzles of a job, ply by ply.
func openings(of *Subject, pen bool) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	for i := range of.Job.Nozzles {
		n := &of.Job.Nozzles[i]
		list := of.overlaysAt(laminate.Ref{Kind: laminate.RefNozzle, Index: i})
		if list != nil {
			sheet = append(sheet, paper.Heading{Level: 1, Text: nozzleTitle(n), Page: true}, paper.Facts{{Name: "nozzle", Value: strings.Join(of.end(n), ", ")}})
		}
		for _, o := range list {
			sheet = append(sheet, paper.Heading{Level: 2, Text: o.title()}, of.overlaid(o, pen))
		}
	}
	return sheet
}

// joined is the wall of a part as a joint shows it.
func (of *Subject) joined(id string) picture.JoinedWall {
	for i := range of.Parts {
		if a := of.Parts[i].Report.Analysis; of.Parts[i].ID == id {
			return picture.JoinedWall{Name: id, Thickness: a.Total.Thickness, Barrier: a.Barrier.Thickness}
		}
	}
	return picture.JoinedWall{Name: id}
}

// overlaid is an overlay ply by ply: how wide it lies, and for a pen what it
// takes and boxes to write in, else how thick it grows.
func (of *Subject) overlaid(o *laidOver, pen bool) paper.Table {
	u := of.Units
	t := paper.Table{Columns: []paper.Column{{Title: "ply"}, {Title: "material"}, {Title: "resin"}, {Title: "width or diameter", Right: true}}}
	var blank []string
	if pen {
		more := pens("batch no.", "start", "gel", "remarks", "by")
		t.Columns, blank = append(append(t.Columns, paper.Column{Title: "area", Right: true}, paper.Column{Title: "resin mix", Right: true}, paper.Column{Title: "pots", Right: true}), more...), make([]string, len(more))
	} else {
		t.Columns = append(t.Columns, paper.Column{Title: "thickness", Right: true}, paper.Column{Title: "total", Right: true}, paper.Column{Title: "area", Right: true})
	}
	if o == nil {
		return t
	}
	total := 0.0
	for i := range o.schedule.Plies {
		row, r := &o.schedule.Plies[i], &o.analysis.Rows[i]
		for ply := r.First; ply <= r.Last; ply++ {
			take := o.take(ply, u)
			width, area := "—", "not known"
			if o.on.Across != nil {
				width = u.Figure(take.Across, quantity.Size)
			} else if o.on.Area == nil {
				width = "not stated"
			}
			if take.Area > 0 {
				area = u.Figure(take.Area, quantity.Surface)
			}
			cells := []string{strconv.Itoa(ply), row.Material, row.Resin, width}
			if pen && o.coat != nil && ply == o.coat.First {
				t.Rows = append(t.Rows, waits(o.coat))
			}
			if pen {
				mix, pots := of.mixed(&take, r.Material)
				cells = append(cells, area, mix, pots)
			} else {
				thick, sum := "not known", "not known"
				if r.ThicknessKnown {
					total += r.Thickness
					thick, sum = u.Thickness(r.Thickness), u.Thickness(total)
				}
				cells = append(cells, thick, sum, area)
			}
			t.Rows = append(t.Rows, paper.Row{Cells: append(cells, blank...)})
		}
		if row.GelAfter {
			t.Rows = append(t.Rows, paper.Row{Band: "GEL STOP: let it gel and cool before going on"})
		}
	}
	if o.missing != nil {
		t.Rows = append(t.Rows, paper.Row{Band: "areas and resin mix are not known: " + o.missing.Error()})
	}
	return t
}
