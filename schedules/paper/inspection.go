package paper

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
)

// Inspected is one part with all that a report of its inspection rests on.
type Inspected struct {
	Compared
	Demands *spec.Specification
	Built   *record.Record
	Books   []string
	Sums    Compared // SHA-256 of the three files
	Result  *acceptance.Result
	Judged  *rules.Report
	Units   quantity.System
}

// notInspected is what an inspection of a part usually goes into and this record
// has no entry for.
func (of *Inspected) notInspected() string {
	r := of.Built
	var none []string
	for _, c := range []struct {
		n    int
		what string
	}{{len(r.Laid), "lay-up"}, {len(r.Readings), "readings"}, {len(r.Dimensions), "dimensions"}, {len(r.Hydrotests), "hydrostatic test"},
		{len(r.Instruments), "calibration of the instruments"}, {len(r.PostCures), "post-cure"}, {len(r.Holds), "hold points"},
		{len(r.Photographs), "photographs"}, {len(r.Specimens), "retained specimens"}} {
		if c.n == 0 {
			none = append(none, c.what)
		}
	}
	return strings.Join(none, ", ")
}

// InspectionReport is the sheet that is filed with the part: what was asked,
// what was found, by whom, and what was not looked at.
func InspectionReport(of *Inspected) Sheet {
	sheet := Sheet{of.facts()}
	sheet = append(sheet, Heading{Level: 2, Text: "Requirements"})
	sheet = append(sheet, Compare(of.Compared, of.Result, of.Judged)[1:]...)
	for _, part := range []struct {
		title string
		table Table
	}{
		{"Lay-up", of.layup()}, {"Readings", of.readings()}, {"By place", of.places()}, {"Defects", of.defects()},
		{"Dimensions", of.dimensions()}, {"Hydrotests", of.hydrotests()}, {"Post-cure", of.postCures()}, {"Hold and witness points", of.holds()},
		{"Bonds onto cured faces", of.bonds()},
		{"Retained specimens", of.specimens()}, {"Photographs", of.photographs()},
		{"Instruments", of.instruments()}, {"How the record came about", of.history()},
		{"Dispositions", of.dispositions()}, {"Struck entries", of.struck()}, {"Decisions", of.decisions()},
	} {
		sheet = append(sheet, Heading{Level: 2, Text: part.title})
		if len(part.table.Rows) == 0 {
			sheet = append(sheet, Note{Text: "None recorded."})
			continue
		}
		sheet = append(sheet, part.table)
	}
	return append(sheet, Heading{Level: 2, Text: "Signatures"},
		Note{Text: "This report is about the one part named above. Not inspected, or not recorded here: " + of.notInspected() + "."},
		Signature{"fabricator's quality control"}, Signature{"purchaser's inspector"})
}

// Named is a text that somebody should have stated.
func Named(s string) string {
	if strings.TrimSpace(s) == "" {
		return "not stated"
	}
	return s
}

func (of *Inspected) facts() Facts {
	s, d := of.Judged.Schedule, of.Demands
	f := Facts{
		{"report number", of.Number()},
		{"part", titled(s)},
		{"serial", Named(of.Built.SerialNumber())},
		{"schedule", of.Schedule + ", SHA-256 " + of.Sums.Schedule},
		{"laid to", Named(of.Built.Schedule) + revisionOf(of.Built.ScheduleRevision)},
		{"specification", of.Specification + ": " + Named(strings.TrimSpace(d.Number+" "+d.Title)) + ", SHA-256 " + of.Sums.Specification},
		{"record", of.Record + ", SHA-256 " + of.Sums.Record},
	}
	if p := of.Built.ScheduleFingerprint; p != "" {
		f = append(f, Fact{"content laid to", "fingerprint " + p})
	}
	entries := of.Built.Entries()
	seals := quantity.Counted(len(entries), "entry", "entries") + ", " + strconv.Itoa(of.Built.Trail.Sealed) + " sealed"
	if of.Built.Trail.Sealed > 0 {
		seals += ", last seal " + of.Built.Trail.Last.String()
	}
	f = append(f, Fact{"entries", seals})
	if first, last, ok := span(entries); ok {
		f = append(f, Fact{"entered", clock(first) + " to " + clock(last)})
	}
	for _, b := range of.Books {
		f = append(f, Fact{"shop book", b})
	}
	if of.Built.Torn != "" {
		f = append(f, Fact{"record, cut off", of.Built.Torn})
	}
	return append(f, Fact{"verdict", of.Result.Part.String()})
}

// Number is the report's own: the part's serial, how many entries it is about,
// and the last one's id. The same record has the same number, and no other has.
func (of *Inspected) Number() string {
	return fmt.Sprintf("%s-%d-%s", Named(of.Built.SerialNumber()), len(of.Built.Entries()), of.Built.Trail.Last.ID())
}

// span is when the first and the last entry were made.
func span(entries []record.Any) (first, last time.Time, ok bool) {
	for _, e := range entries {
		t := e.Head().At
		if t.IsZero() {
			continue
		}
		if !ok || t.Before(first) {
			first = t
		}
		if !ok || t.After(last) {
			last = t
		}
		ok = true
	}
	return first, last, ok
}

func revisionOf(n laminate.Optional[int]) string {
	if !n.Given {
		return ""
	}
	return ", revision " + strconv.Itoa(n.Value)
}

func columns(titles ...string) []Column {
	list := make([]Column, len(titles))
	for i, t := range titles {
		list[i].Title = t
	}
	return list
}

func clock(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}

// number is an entry's number; a struck one is marked.
func number(e record.Entry) string {
	if e.Struck {
		return strconv.Itoa(e.Number) + " struck"
	}
	return strconv.Itoa(e.Number)
}

// scheduled is the material that the schedule has for a single ply.
func (of *Inspected) scheduled(ply int) string {
	if i := laid.RowOf(of.Judged.Analysis, ply); i >= 0 {
		return of.Judged.Schedule.Plies[i].Material
	}
	return "none"
}

func (of *Inspected) layup() Table {
	t := Table{Columns: columns("entry", "ply", "laid", "who", "material lot", "resin lot", "initiator", "promoter", "gel time", "ambient", "otherwise than scheduled", "remark")}
	for i := range of.Built.Laid {
		l := &of.Built.Laid[i]
		share := func(o laminate.Optional[float64]) string {
			if !o.Given {
				return ""
			}
			return quantity.Percent(o.Value)
		}
		var air []string
		if l.AirTemperature.Given() {
			air = append(air, "air "+of.Units.Temperature(l.AirTemperature.SI()))
		}
		if l.Humidity.Given {
			air = append(air, "humidity "+quantity.Share(l.Humidity.Value))
		}
		if l.SurfaceTemperature.Given() {
			air = append(air, "surface "+of.Units.Temperature(l.SurfaceTemperature.SI()))
		}
		t.Rows = append(t.Rows, Row{Cells: []string{number(l.Entry), strconv.Itoa(l.Ply), clock(l.At), l.Who, l.MaterialLot, l.ResinLot, share(l.Initiator), share(l.Promoter), l.GelTime,
			strings.Join(air, ", "), strings.Join(l.Deviations(of.scheduled(l.Ply), of.Units), ", "), l.Remark}})
	}
	return t
}

func reading(r *record.Reading) string {
	switch r.Kind {
	case inspection.WallThickness:
		return r.Thickness.Text()
	case inspection.Barcol:
		return quantity.Number(r.Value, 1)
	case inspection.IgnitionLoss:
		text := r.Before.Text() + " before, " + r.After.Text() + " after"
		if r.Plies.Given {
			text += ", " + quantity.Counted(r.Plies.Value, "ply", "plies") + " counted"
		}
		return text
	case inspection.Acetone:
		if r.Clean {
			return "clean"
		}
		if r.Softened {
			return "softened"
		}
		return "tacky"
	case inspection.ResistanceToGround:
		return r.Resistance.Text()
	case inspection.Visual:
		if r.Area.Given() {
			return "examined, " + r.Area.Text()
		}
		return "examined"
	case inspection.NoKind:
	}
	return ""
}

// part is what of the wall was read.
func part(r *record.Reading) string {
	if r.Group == inspection.WholeWall {
		return r.Kind.String()
	}
	return r.Kind.String() + ", " + r.Group.String()
}

func (of *Inspected) readings() Table {
	t := Table{Columns: columns("entry", "kind", "place", "side", "value", "method", "taken", "who", "witness")}
	superseding := acceptance.Superseding(of.Built)
	for i := range of.Built.Readings {
		r := &of.Built.Readings[i]
		entry := number(r.Entry)
		if d := superseding(r); d != nil {
			entry += " superseded by " + strconv.Itoa(d.Number)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{entry, part(r), r.Place, r.Side.String(), reading(r), r.Method, clock(r.At), r.Who, r.Witness}})
	}
	return t
}

// places says of hardness and thickness, place by place, what was lowest and
// which readings the average leaves out. It holds the readings that count.
func (of *Inspected) places() Table {
	t := Table{Columns: columns("kind", "place", "side", "readings", "lowest", "mean", "left out of the average")}
	var heads [][3]string
	values := map[[3]string][]float64{}
	superseding := acceptance.Superseding(of.Built)
	for i := range of.Built.Readings {
		r := &of.Built.Readings[i]
		if r.Struck || superseding(r) != nil || r.Kind != inspection.WallThickness && r.Kind != inspection.Barcol {
			continue
		}
		head := [3]string{part(r), r.Place, r.Side.String()}
		if values[head] == nil {
			heads = append(heads, head)
		}
		v := r.Value
		if r.Kind == inspection.WallThickness {
			v = r.Thickness.SI()
		}
		values[head] = append(values[head], v)
	}
	for _, head := range heads {
		list := values[head]
		s, err := inspection.Summarize(list)
		if err != nil {
			continue
		}
		cells := []string{head[0], head[1], head[2], strconv.Itoa(s.Count), of.Units.Thickness(s.Lowest), of.Units.Thickness(s.Mean), ""}
		if head[0] == inspection.Barcol.String() {
			cells[4], cells[5] = quantity.Number(s.Lowest, 1), quantity.Number(s.Mean, 1)+" of all"
			if average, err := inspection.BarcolAverage(list); err == nil {
				cells[5] = quantity.Number(average, 1)
				sorted := slices.Sorted(slices.Values(list))
				out := append(sorted[:2:2], sorted[len(sorted)-2:]...)
				cells[6] = fmt.Sprintf("%g, %g, %g, %g", out[0], out[1], out[2], out[3])
			}
		}
		t.Rows = append(t.Rows, Row{Cells: cells})
	}
	return t
}

func (of *Inspected) defects() Table {
	t := Table{Columns: columns("entry", "kind", "side", "size", "depth", "count", "area", "place", "repaired")}
	for i := range of.Built.Defects {
		d := &of.Built.Defects[i]
		repaired := ""
		if d.Repaired {
			repaired = "yes"
		}
		t.Rows = append(t.Rows, Row{Cells: []string{number(d.Entry), d.Kind.String(), d.Side.String(), d.Size.Text(), d.Depth.Text(), strconv.Itoa(max(1, d.Count)),
			d.Area.Text(), d.Place, repaired}})
	}
	return t
}

func (of *Inspected) dispositions() Table {
	t := Table{Columns: columns("entry", "of", "what", "procedure", "who", "role", "when", "why")}
	for i := range of.Built.Dispositions {
		d := &of.Built.Dispositions[i]
		what := d.Requirement
		if what == "" {
			what = "entry " + strconv.Itoa(d.Of)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{number(d.Entry), what, d.Action.String(), d.Procedure, d.Who, d.Role, clock(d.At), d.Why}})
	}
	return t
}

func (of *Inspected) struck() Table {
	t := Table{Columns: columns("entry", "strikes", "when", "who", "role", "why")}
	for i := range of.Built.Struck {
		s := &of.Built.Struck[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(s.Entry), "entry " + strconv.Itoa(s.Of), clock(s.At), Named(s.Who), s.Role, s.Why}})
	}
	return t
}

func (of *Inspected) decisions() Table {
	t := Table{Columns: columns("entry", "decision", "who", "role", "when", "verdict then", "entries then", "why")}
	for i := range of.Built.Decisions {
		d := &of.Built.Decisions[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(d.Entry), d.Outcome.String(), Named(d.Who), d.Role, clock(d.At), d.Verdict, covers(d), d.Why}})
	}
	return t
}
