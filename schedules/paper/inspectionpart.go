package paper

import (
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
)

// covers is how many entries a decision weighed.
func covers(d *record.Decision) string {
	if !d.Covers.Given {
		return ""
	}
	return strconv.Itoa(d.Covers.Value)
}

func (of *Inspected) dimensions() Table {
	t := Table{Columns: columns("entry", "measure", "place", "value", "instrument", "measured", "who", "witness")}
	for i := range of.Built.Dimensions {
		d := &of.Built.Dimensions[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(d.Entry), strings.ReplaceAll(d.What.String(), "-", " "), d.Place, d.Value.Text(), d.Instrument, clock(d.At), d.Who, d.Witness}})
	}
	return t
}

func (of *Inspected) hydrotests() Table {
	t := Table{Columns: columns("entry", "medium", "pressure", "held", "leaks", "gauge", "tested", "who", "witness", "remark")}
	for i := range of.Built.Hydrotests {
		h := &of.Built.Hydrotests[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(h.Entry), h.Medium, h.Pressure.Text(), h.Held, strconv.Itoa(h.Leaks.Value), h.Instrument, clock(h.At), h.Who, h.Witness, h.Remark}})
	}
	return t
}

func (of *Inspected) postCures() Table {
	t := Table{Columns: columns("entry", "temperature", "held", "instrument", "logged", "who", "remark")}
	for i := range of.Built.PostCures {
		c := &of.Built.PostCures[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(c.Entry), c.Temperature.Text(), c.Held, c.Instrument, clock(c.At), c.Who, c.Remark}})
	}
	return t
}

func (of *Inspected) holds() Table {
	t := Table{Columns: columns("entry", "point", "passed", "when", "who", "role", "witness", "remark")}
	for i := range of.Built.Holds {
		h := &of.Built.Holds[i]
		passed := "no"
		if h.Passed.Value {
			passed = "yes"
		}
		t.Rows = append(t.Rows, Row{Cells: []string{number(h.Entry), h.Point, passed, clock(h.At), h.Who, h.Role, h.Witness, h.Remark}})
	}
	return t
}

// specimens are pieces that are kept.
func (of *Inspected) specimens() Table {
	t := Table{Columns: columns("entry", "mark", "taken from", "zone", "kept", "until", "who", "remark")}
	for i := range of.Built.Specimens {
		s := &of.Built.Specimens[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(s.Entry), s.Mark, s.Place, s.Group.String(), s.Kept, day(s.Until), s.Who, s.Remark}})
	}
	return t
}

// photographs are named: whoever wants to see them asks for the file.
func (of *Inspected) photographs() Table {
	t := Table{Columns: columns("entry", "file", "shows", "place", "taken", "who", "remark")}
	for i := range of.Built.Photographs {
		p := &of.Built.Photographs[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(p.Entry), p.File, p.Shows, p.Place, clock(p.At), p.Who, p.Remark}})
	}
	return t
}

// bonds are faces that were prepared, and what was laid onto them.
func (of *Inspected) bonds() Table {
	t := Table{Columns: columns("entry", "onto", "what", "when", "face gelled", "bonder", "qualification", "who", "remark")}
	for i := range of.Built.Preparations {
		p := &of.Built.Preparations[i]
		what := "prepared, not abraded"
		if p.Abraded.Value {
			what = "abraded"
		}
		if p.Finish != "" {
			what += ", " + p.Finish
		}
		t.Rows = append(t.Rows, Row{Cells: []string{number(p.Entry), p.Onto, what, clock(p.At), clock(p.Gelled), p.Bonder, p.Qualification, p.Who, p.Remark}})
	}
	for i := range of.Built.Bonds {
		b := &of.Built.Bonds[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(b.Entry), b.Onto, "bonded", clock(b.At), clock(b.Gelled), b.Bonder, b.Qualification, b.Who, b.Remark}})
	}
	return t
}

func day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

func (of *Inspected) instruments() Table {
	t := Table{Columns: columns("entry", "instrument", "what", "calibrated", "due", "who")}
	for i := range of.Built.Instruments {
		x := &of.Built.Instruments[i]
		t.Rows = append(t.Rows, Row{Cells: []string{number(x.Entry), x.Instrument, x.What, day(x.Calibrated), day(x.Due), x.Who}})
	}
	return t
}

// history is what happened to the record itself.
func (of *Inspected) history() Table {
	t := Table{Columns: columns("entry", "what", "when", "who", "role", "why")}
	add := func(e record.Entry, what, why string) {
		t.Rows = append(t.Rows, Row{Cells: []string{number(e), what, clock(e.At), e.Who, e.Role, why}})
	}
	for i := range of.Built.Revisions {
		x := &of.Built.Revisions[i]
		add(x.Entry, "schedule taken up from ply "+strconv.Itoa(x.From)+" on: "+x.Schedule+revisionOf(x.Number), x.Why)
	}
	for i := range of.Built.Marked {
		if x := &of.Built.Marked[i]; !x.Struck {
			add(x.Entry, "serial number "+x.Serial+", where there was none", x.Remark)
		}
	}
	for i := range of.Built.Adopted {
		add(of.Built.Adopted[i].Entry, "entries without a seal adopted", of.Built.Adopted[i].Why)
	}
	for i := range of.Built.Joined {
		add(of.Built.Joined[i].Entry, "copies of the record joined", of.Built.Joined[i].Why)
	}
	for i := range of.Built.Cuts {
		x := &of.Built.Cuts[i]
		add(x.Entry, "half-written entry put aside in "+x.Aside+", SHA-256 "+x.SHA256, "")
	}
	return t
}
