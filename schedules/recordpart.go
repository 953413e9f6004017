package schedules

import (
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/tables"
)

// Entries about the finished part.
var (
	dimensionFields = entryFields(func(x *record.Dimension) *record.Entry { return &x.Entry }, "",
		tables.WordField("what", func(d *record.Dimension) *spec.Measure { return &d.What }, spec.Measures),
		tables.TextField("place", func(d *record.Dimension) *string { return &d.Place }),
		tables.SizeField("value", func(d *record.Dimension) *quantity.Length { return &d.Value }),
		tables.TextField("instrument", func(d *record.Dimension) *string { return &d.Instrument }),
		tables.TextField("witness", func(d *record.Dimension) *string { return &d.Witness }),
	)
	hydrotestFields = entryFields(func(x *record.Hydrotest) *record.Entry { return &x.Entry }, "",
		tables.TextField("medium", func(h *record.Hydrotest) *string { return &h.Medium }),
		tables.SizeField("pressure", func(h *record.Hydrotest) *quantity.Pressure { return &h.Pressure }),
		tables.TextField("held", func(h *record.Hydrotest) *string { return &h.Held }),
		tables.WholeField("leaks", func(h *record.Hydrotest) *laminate.Optional[int] { return &h.Leaks }),
		tables.TextField("instrument", func(h *record.Hydrotest) *string { return &h.Instrument }),
		tables.SizeField("temperature", func(h *record.Hydrotest) *quantity.Temperature { return &h.Temperature }),
		tables.TextField("witness", func(h *record.Hydrotest) *string { return &h.Witness }),
		tables.NotesField("remark", func(h *record.Hydrotest) *string { return &h.Remark }),
	)
	instrumentFields = entryFields(func(x *record.Instrument) *record.Entry { return &x.Entry }, "",
		tables.TextField("instrument", func(i *record.Instrument) *string { return &i.Instrument }),
		tables.TextField("what", func(i *record.Instrument) *string { return &i.What }),
		timeField("calibrated", func(i *record.Instrument) *time.Time { return &i.Calibrated }),
		timeField("due", func(i *record.Instrument) *time.Time { return &i.Due }),
	)
	postCureFields = entryFields(func(x *record.PostCure) *record.Entry { return &x.Entry }, "",
		tables.SizeField("temperature", func(p *record.PostCure) *quantity.Temperature { return &p.Temperature }),
		tables.TextField("held", func(p *record.PostCure) *string { return &p.Held }),
		tables.TextField("instrument", func(p *record.PostCure) *string { return &p.Instrument }),
		tables.NotesField("remark", func(p *record.PostCure) *string { return &p.Remark }),
	)
	holdFields = entryFields(func(x *record.Hold) *record.Entry { return &x.Entry }, "",
		tables.TextField("point", func(h *record.Hold) *string { return &h.Point }),
		tables.AnswerField("passed", func(h *record.Hold) *laminate.Optional[bool] { return &h.Passed }),
		tables.TextField("witness", func(h *record.Hold) *string { return &h.Witness }),
		tables.NotesField("remark", func(h *record.Hold) *string { return &h.Remark }),
	)
	keptFields = entryFields(func(x *record.Specimen) *record.Entry { return &x.Entry }, "",
		tables.TextField("mark", func(s *record.Specimen) *string { return &s.Mark }),
		tables.TextField("place", func(s *record.Specimen) *string { return &s.Place }),
		groupField("zone", "total (the whole wall), barrier, or a zone: what it holds", func(s *record.Specimen) *inspection.Group { return &s.Group }),
		tables.TextField("kept", func(s *record.Specimen) *string { return &s.Kept }),
		timeField("until", func(s *record.Specimen) *time.Time { return &s.Until }),
		tables.NotesField("remark", func(s *record.Specimen) *string { return &s.Remark }),
	)
	photographFields = entryFields(func(x *record.Photograph) *record.Entry { return &x.Entry }, "",
		tables.TextField("file", func(p *record.Photograph) *string { return &p.File }),
		tables.TextField("shows", func(p *record.Photograph) *string { return &p.Shows }),
		tables.TextField("place", func(p *record.Photograph) *string { return &p.Place }),
		tables.NotesField("remark", func(p *record.Photograph) *string { return &p.Remark }),
	)
	preparationFields = entryFields(func(x *record.Preparation) *record.Entry { return &x.Entry }, "",
		tables.TextField("onto", func(p *record.Preparation) *string { return &p.Onto }),
		tables.AnswerField("abraded", func(p *record.Preparation) *laminate.Optional[bool] { return &p.Abraded }),
		tables.TextField("finish", func(p *record.Preparation) *string { return &p.Finish }),
		tables.NotesField("remark", func(p *record.Preparation) *string { return &p.Remark }),
	)
	bondEntryFields = entryFields(func(x *record.Bond) *record.Entry { return &x.Entry }, "",
		tables.TextField("onto", func(b *record.Bond) *string { return &b.Onto }),
		timeField("gelled", func(b *record.Bond) *time.Time { return &b.Gelled }),
		tables.TextField("bonder", func(b *record.Bond) *string { return &b.Bonder }),
		tables.TextField("qualification", func(b *record.Bond) *string { return &b.Qualification }),
		tables.NotesField("remark", func(b *record.Bond) *string { return &b.Remark }),
	)
)

// ofPart tells what is wrong with the entries about the finished part.
func (d *recordDocument) ofPart(fail func(table, row int, key, message string)) {
	for i := range d.Dimensions {
		switch x := &d.Dimensions[i]; {
		case x.What == spec.NoMeasure:
			fail(dimensionEntryTable, i, "what", "it is missing")
		case !x.Value.Given():
			fail(dimensionEntryTable, i, "value", "it is missing")
		case x.Value.SI() < 0 || x.Value.SI() > 1000:
			fail(dimensionEntryTable, i, "value", "it is not from 0 to 1000 m")
		}
	}
	for i := range d.Hydrotests {
		switch x := &d.Hydrotests[i]; {
		case x.Medium != record.Water && x.Medium != "":
			fail(hydrotestEntryTable, i, "medium", record.GasRefused)
		case x.Medium == "":
			fail(hydrotestEntryTable, i, "medium", "it is missing: "+record.GasRefused)
		case !x.Pressure.Given() || x.Pressure.SI() <= 0:
			fail(hydrotestEntryTable, i, "pressure", "a pressure above 0 is expected")
		case x.Held == "" || notASpan(x.Held) != "":
			fail(hydrotestEntryTable, i, "held", `a time above 0 such as "30 min" or "1.5 h" is expected`)
		case !x.Leaks.Given:
			fail(hydrotestEntryTable, i, "leaks", "it is missing: how many were seen, 0 for none")
		case x.Leaks.Value < 0:
			fail(hydrotestEntryTable, i, "leaks", "it is below 0")
		}
	}
	for i := range d.Instruments {
		switch x := &d.Instruments[i]; {
		case strings.TrimSpace(x.Instrument) == "":
			fail(instrumentEntryTable, i, "instrument", "it is missing: what readings call it")
		case x.Calibrated.IsZero():
			fail(instrumentEntryTable, i, "calibrated", "it is missing")
		case !x.Due.IsZero() && x.Due.Before(x.Calibrated):
			fail(instrumentEntryTable, i, "due", "it is before the calibration")
		}
	}
	for i := range d.PostCures {
		switch x := &d.PostCures[i]; {
		case !x.Temperature.Given():
			fail(postCureEntryTable, i, "temperature", "it is missing")
		case x.Held == "" || notASpan(x.Held) != "":
			fail(postCureEntryTable, i, "held", `a time above 0 such as "4 h" is expected`)
		}
	}
	for i := range d.Holds {
		switch x := &d.Holds[i]; {
		case strings.TrimSpace(x.Point) == "":
			fail(holdEntryTable, i, "point", "it is missing: what the point is called")
		case !x.Passed.Given:
			fail(holdEntryTable, i, "passed", "it is missing: true or false")
		}
	}
	for i := range d.Specimens {
		if strings.TrimSpace(d.Specimens[i].Mark) == "" {
			fail(specimenTable, i, "mark", "it is missing: what is written on the specimen")
		}
	}
	for i := range d.Photographs {
		switch file := strings.TrimSpace(d.Photographs[i].File); {
		case file == "":
			fail(photographTable, i, "file", "it is missing: the name of the photograph's file")
		case strings.ContainsAny(file, `/\`):
			fail(photographTable, i, "file", "the name of a file is expected, without its folder")
		}
	}
	for i := range d.Preparations {
		if !d.Preparations[i].Abraded.Given {
			fail(preparationTable, i, "abraded", "it is missing: true or false")
		}
	}
	for i := range d.Bonds {
		if x := &d.Bonds[i]; !x.At.IsZero() && x.Gelled.After(x.At) {
			fail(bondTable, i, "gelled", "it is after the bond itself")
		}
	}
}
