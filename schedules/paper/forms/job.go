package forms

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/picture"
)

// equipment is a job as a whole: seen from outside, and where its nozzles stand.
func equipment(of *Subject) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	if p, left, ok := picture.Elevation(of.Job, of.Units); ok {
		sheet = append(sheet, paper.Heading{Level: 2, Text: "Elevation"}, paper.Figure{Picture: p, Text: partNames(of)})
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
	return append(sheet, nozzles(of))
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
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []string{n.ID, n.On, size("", n.Size, quantity.Size, u), size("", n.Height, quantity.Distance, u), size("", n.Offset, quantity.Distance, u), bearing,
			n.Kind.String(), pad, n.InstallationOutside, n.InstallationInside, n.Neck, gussets}})
	}
	return t
}

// overlay is a laminate laid over a joint or a nozzle, ply by ply.
type overlay struct {
	schedule *laminate.Schedule
	analysis *laminate.Analysis
	widths   []float64 // m, by single ply in the order of laying; 0 where not known
}

// overlayOf is a laminate of the job by its id; nil where there is none.
func (of *Subject) overlayOf(id string, first, last quantity.Length, order laminate.WidthOrder) *overlay {
	i := of.Job.Laminate(id)
	if i < 0 {
		return nil
	}
	s := of.Job.Schedule(i)
	o := &overlay{schedule: s, analysis: laminate.Analyze(s, of.Library)}
	n := s.NumberOfPlies()
	o.widths = make([]float64, n)
	if !last.Given() {
		return o
	}
	from := last.SI()
	if first.Given() {
		from = first.SI()
	}
	for k := range n {
		o.widths[k] = last.SI()
		if n > 1 {
			o.widths[k] = from + float64(k)*(last.SI()-from)/float64(n-1)
		}
	}
	if order == laminate.WideFirst {
		for a, b := 0, n-1; a < b; a, b = a+1, b-1 {
			o.widths[a], o.widths[b] = o.widths[b], o.widths[a]
		}
	}
	return o
}

// bands are the plies of an overlay as they are drawn.
func (o *overlay) bands() (list []picture.Band) {
	if o == nil {
		return nil
	}
	k := 0
	for i := range o.schedule.Plies {
		for range o.schedule.Plies[i].Count {
			list = append(list, picture.Band{Width: o.widths[k], Thickness: o.analysis.Rows[i].Thickness, Hatch: hatch(o.analysis.Rows[i].Material, &o.schedule.Plies[i])})
			k++
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
		j := &of.Job.Joints[i]
		sheet = append(sheet, paper.Heading{Level: 1, Text: "Joint " + j.ID + ", " + j.Between[0] + " to " + j.Between[1]})
		outside, inside := of.overlayOf(j.Outside, j.FirstWidth, j.Width, j.Widths), of.overlayOf(j.Inside, j.InsideWidth, j.InsideWidth, laminate.NarrowFirst)
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
		for _, o := range []struct {
			where, id string
			over      *overlay
		}{{"Outside", j.Outside, outside}, {"Inside", j.Inside, inside}} {
			if o.id == "" {
				continue
			}
			sheet = append(sheet, paper.Heading{Level: 2, Text: o.where + ": " + o.id + ", in the order of laying"}, o.over.table(of.Units, pen))
		}
	}
	return sheet
}

// openings are what is laid round the nozzles of a job, ply by ply, in the order
// in which it is done.
func openings(of *Subject) (sheet paper.Sheet) {
	if of.Job == nil {
		return nil
	}
	for i := range of.Job.Nozzles {
		n := &of.Job.Nozzles[i]
		for _, o := range []struct{ what, id string }{{"neck", n.Neck}, {"overlay inside, veil last", n.InstallationInside}, {"pad", n.Pad}, {"overlay outside", n.InstallationOutside}} {
			if over := of.overlayOf(o.id, quantity.Length{}, quantity.Length{}, laminate.NoWidthOrder); over != nil {
				sheet = append(sheet, paper.Heading{Level: 2, Text: "Nozzle " + n.ID + " on " + n.On + ", " + o.what + ": " + o.id}, over.table(of.Units, true))
			}
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

// table is an overlay ply by ply.
func (o *overlay) table(u quantity.System, pen bool) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "ply"}, {Title: "material"}, {Title: "resin"}, {Title: "width or diameter", Right: true}, {Title: "thickness", Right: true}, {Title: "total", Right: true}}}
	var blank []string
	if pen {
		more := pens("batch no.", "start", "gel", "remarks", "by")
		t.Columns, blank = append(t.Columns, more...), make([]string, len(more))
	}
	if o == nil {
		return t
	}
	k, total := 0, 0.0
	for i := range o.schedule.Plies {
		ply, r := &o.schedule.Plies[i], &o.analysis.Rows[i]
		for range ply.Count {
			width, thick := "not stated", "not known"
			if o.widths[k] > 0 {
				width = u.Figure(o.widths[k], quantity.Size)
			}
			sum := thick
			if r.ThicknessKnown {
				total += r.Thickness
				thick, sum = u.Thickness(r.Thickness), u.Thickness(total)
			}
			k++
			t.Rows = append(t.Rows, paper.Row{Cells: append([]string{strconv.Itoa(k), ply.Material, ply.Resin, width, thick, sum}, blank...)})
		}
		if ply.GelAfter {
			t.Rows = append(t.Rows, paper.Row{Band: "GEL STOP: let it gel and cool before going on"})
		}
	}
	return t
}
