package schedules

import (
	"sync"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/tables"
)

// The tables of a record; [table] indices are used below.
const (
	laidTable = 1 + iota
	readingTable
	defectTable
	dispositionTable
	decisionTable
	struckTable
	adoptedTable
	joinedTable
	cutTable
	revisionTable
	dimensionEntryTable
	hydrotestEntryTable
	instrumentEntryTable
	postCureEntryTable
	holdEntryTable
	preparationTable
	bondTable
	specimenTable
	photographTable
	markedTable
)

// recordTables, as the tables of every document but a schedule, are made when the
// first such document is read: no start waits for them.
var recordTables = sync.OnceValue(func() []tables.Table {
	return []tables.Table{
		tables.One("", declared(Record,
			tables.TextField("schedule", func(r *record.Record) *string { return &r.Schedule }),
			tables.WholeField("schedule_revision", func(r *record.Record) *laminate.Optional[int] { return &r.ScheduleRevision }),
			tables.TextField("schedule_sha256", func(r *record.Record) *string { return &r.ScheduleSHA256 }),
			tables.TextField("schedule_fingerprint", func(r *record.Record) *string { return &r.ScheduleFingerprint }),
			tables.TextField("serial", func(r *record.Record) *string { return &r.Serial }),
			tables.TextField("part", func(r *record.Record) *string { return &r.Part }),
			tables.TextField("joint", func(r *record.Record) *string { return &r.Joint }),
			tables.WordField("overlay", func(r *record.Record) *overlay.Kind { return &r.Overlay }, overlay.Kinds),
		), func(d *recordDocument) *record.Record { return &d.Record }),
		tables.Many("laid", MostEntries, entryFields(func(x *record.Laid) *record.Entry { return &x.Entry }, "time",
			tables.OrdinalField("ply", "the ply's number in the schedule, from 1", laminate.MostPlies, func(l *record.Laid) *int { return &l.Ply }),
			tables.TextField("fingerprint", func(l *record.Laid) *string { return &l.Fingerprint }),
			tables.TextField("material_lot", func(l *record.Laid) *string { return &l.MaterialLot }),
			tables.TextField("resin_lot", func(l *record.Laid) *string { return &l.ResinLot }),
			tables.ShareField("initiator", func(l *record.Laid) *laminate.Optional[float64] { return &l.Initiator }),
			tables.ShareField("promoter", func(l *record.Laid) *laminate.Optional[float64] { return &l.Promoter }),
			tables.TextField("gel_time", func(l *record.Laid) *string { return &l.GelTime }),
			tables.SizeField("air_temperature", func(l *record.Laid) *quantity.Temperature { return &l.AirTemperature }),
			tables.ShareField("humidity", func(l *record.Laid) *laminate.Optional[float64] { return &l.Humidity }),
			tables.SizeField("surface_temperature", func(l *record.Laid) *quantity.Temperature { return &l.SurfaceTemperature }),
			tables.TextField("material", func(l *record.Laid) *string { return &l.Material }),
			tables.WholeField("plies", func(l *record.Laid) *laminate.Optional[int] { return &l.Plies }),
			tables.SizeField("lap", func(l *record.Laid) *quantity.Length { return &l.Lap }),
			tables.NotesField("remark", func(l *record.Laid) *string { return &l.Remark }),
		), func(d *recordDocument) *[]record.Laid { return &d.Laid }),
		tables.Many("reading", MostEntries, entryFields(func(x *reading) *record.Entry { return &x.Entry }, "time",
			tables.WordField("kind", func(r *reading) *inspection.Kind { return &r.Kind }, inspection.Kinds),
			tables.TextField("place", func(r *reading) *string { return &r.Place }),
			groupField("zone", "total (the whole wall), barrier, or a zone: what a cutout or specimen holds", func(r *reading) *inspection.Group { return &r.Group }),
			tables.Field{Key: "value", What: `a length, a Barcol number, "clean", "softened" or "tacky", or a resistance, as the kind asks`,
				Set: func(row, value any) string { row.(*reading).value = value; return "" },
				Get: func(row any) (string, bool) { return readingValue(&row.(*reading).Reading) }},
			tables.SizeField("before", func(r *reading) *quantity.Mass { return &r.Before }),
			tables.SizeField("after", func(r *reading) *quantity.Mass { return &r.After }),
			tables.WholeField("plies", func(r *reading) *laminate.Optional[int] { return &r.Plies }),
			tables.WordField("side", func(r *reading) *spec.Side { return &r.Side }, spec.Sides),
			tables.SizeField("area", func(r *reading) *quantity.Area { return &r.Area }),
			tables.TextField("method", func(r *reading) *string { return &r.Method }),
			tables.TextField("instrument", func(r *reading) *string { return &r.Instrument }),
			tables.TextField("witness", func(r *reading) *string { return &r.Witness }),
		), func(d *recordDocument) *[]reading { return &d.readings }),
		tables.Many("defect", MostEntries, entryFields(func(x *record.Defect) *record.Entry { return &x.Entry }, "",
			tables.WordField("kind", func(f *record.Defect) *spec.Defect { return &f.Kind }, spec.Defects),
			tables.WordField("side", func(f *record.Defect) *spec.Side { return &f.Side }, spec.Sides),
			tables.SizeField("size", func(f *record.Defect) *quantity.Length { return &f.Size }),
			tables.SizeField("depth", func(f *record.Defect) *quantity.Length { return &f.Depth }),
			tables.CountField("count", func(f *record.Defect) *int { return &f.Count }),
			tables.SizeField("area", func(f *record.Defect) *quantity.Area { return &f.Area }),
			tables.TextField("place", func(f *record.Defect) *string { return &f.Place }),
			tables.FlagField("repaired", func(f *record.Defect) *bool { return &f.Repaired }),
		), func(d *recordDocument) *[]record.Defect { return &d.Defects }),
		tables.Many("disposition", MostEntries, entryFields(func(x *record.Disposition) *record.Entry { return &x.Entry }, "when",
			ofField(func(d *record.Disposition) (*int, *string) { return &d.Of, &d.OfID }),
			tables.TextField("requirement", func(d *record.Disposition) *string { return &d.Requirement }),
			tables.WordField("action", func(d *record.Disposition) *record.Action { return &d.Action }, record.Actions),
			tables.TextField("procedure", func(d *record.Disposition) *string { return &d.Procedure }),
			tables.NotesField("why", func(d *record.Disposition) *string { return &d.Why }),
		), func(d *recordDocument) *[]record.Disposition { return &d.Dispositions }),
		tables.Many("decision", MostEntries, entryFields(func(x *record.Decision) *record.Entry { return &x.Entry }, "when",
			tables.WordField("outcome", func(d *record.Decision) *record.Outcome { return &d.Outcome }, record.Outcomes),
			tables.WholeField("covers", func(d *record.Decision) *laminate.Optional[int] { return &d.Covers }),
			tables.TextField("verdict", func(d *record.Decision) *string { return &d.Verdict }),
			tables.TextField("specification", func(d *record.Decision) *string { return &d.Specification }),
			tables.TextField("schedule", func(d *record.Decision) *string { return &d.Schedule }),
			tables.NotesField("why", func(d *record.Decision) *string { return &d.Why }),
		), func(d *recordDocument) *[]record.Decision { return &d.Decisions }),
		tables.Many("struck", MostEntries, entryFields(func(x *record.Struck) *record.Entry { return &x.Entry }, "",
			ofField(func(s *record.Struck) (*int, *string) { return &s.Of, &s.OfID }),
			tables.NotesField("why", func(s *record.Struck) *string { return &s.Why }),
		), func(d *recordDocument) *[]record.Struck { return &d.Struck }),
		tables.Many("adopted", MostEntries, entryFields(func(x *record.Adopted) *record.Entry { return &x.Entry }, "",
			tables.NotesField("why", func(a *record.Adopted) *string { return &a.Why }),
		), func(d *recordDocument) *[]record.Adopted { return &d.Adopted }),
		tables.Many("joined", MostEntries, entryFields(func(x *record.Joined) *record.Entry { return &x.Entry }, "",
			tables.TextField("heads", func(j *record.Joined) *string { return &j.Heads }),
			tables.NotesField("why", func(j *record.Joined) *string { return &j.Why }),
		), func(d *recordDocument) *[]record.Joined { return &d.Joined }),
		tables.Many("cut", MostEntries, entryFields(func(x *record.Cut) *record.Entry { return &x.Entry }, "",
			tables.CountField("bytes", func(c *record.Cut) *int { return &c.Bytes }),
			tables.TextField("aside", func(c *record.Cut) *string { return &c.Aside }),
			tables.TextField("sha256", func(c *record.Cut) *string { return &c.SHA256 }),
		), func(d *recordDocument) *[]record.Cut { return &d.Cuts }),
		tables.Many("revision", MostEntries, entryFields(func(x *record.Revision) *record.Entry { return &x.Entry }, "",
			tables.TextField("schedule", func(r *record.Revision) *string { return &r.Schedule }),
			tables.WholeField("number", func(r *record.Revision) *laminate.Optional[int] { return &r.Number }),
			tables.TextField("fingerprint", func(r *record.Revision) *string { return &r.Fingerprint }),
			tables.OrdinalField("from_ply", "the first ply laid to it", laminate.MostPlies, func(r *record.Revision) *int { return &r.From }),
			tables.NotesField("why", func(r *record.Revision) *string { return &r.Why }),
		), func(d *recordDocument) *[]record.Revision { return &d.Revisions }),
		tables.Many("dimension", MostEntries, entryFields(func(x *record.Dimension) *record.Entry { return &x.Entry }, "",
			tables.WordField("what", func(d *record.Dimension) *spec.Measure { return &d.What }, spec.Measures),
			tables.TextField("place", func(d *record.Dimension) *string { return &d.Place }),
			tables.SizeField("value", func(d *record.Dimension) *quantity.Length { return &d.Value }),
			tables.TextField("instrument", func(d *record.Dimension) *string { return &d.Instrument }),
			tables.TextField("witness", func(d *record.Dimension) *string { return &d.Witness }),
		), func(d *recordDocument) *[]record.Dimension { return &d.Dimensions }),
		tables.Many("hydrotest", MostEntries, entryFields(func(x *record.Hydrotest) *record.Entry { return &x.Entry }, "",
			tables.TextField("medium", func(h *record.Hydrotest) *string { return &h.Medium }),
			tables.SizeField("pressure", func(h *record.Hydrotest) *quantity.Pressure { return &h.Pressure }),
			tables.TextField("held", func(h *record.Hydrotest) *string { return &h.Held }),
			tables.WholeField("leaks", func(h *record.Hydrotest) *laminate.Optional[int] { return &h.Leaks }),
			tables.TextField("instrument", func(h *record.Hydrotest) *string { return &h.Instrument }),
			tables.SizeField("temperature", func(h *record.Hydrotest) *quantity.Temperature { return &h.Temperature }),
			tables.TextField("witness", func(h *record.Hydrotest) *string { return &h.Witness }),
			tables.NotesField("remark", func(h *record.Hydrotest) *string { return &h.Remark }),
		), func(d *recordDocument) *[]record.Hydrotest { return &d.Hydrotests }),
		tables.Many("instrument", MostEntries, entryFields(func(x *record.Instrument) *record.Entry { return &x.Entry }, "",
			tables.TextField("instrument", func(i *record.Instrument) *string { return &i.Instrument }),
			tables.TextField("what", func(i *record.Instrument) *string { return &i.What }),
			timeField("calibrated", func(i *record.Instrument) *time.Time { return &i.Calibrated }),
			timeField("due", func(i *record.Instrument) *time.Time { return &i.Due }),
		), func(d *recordDocument) *[]record.Instrument { return &d.Instruments }),
		tables.Many("post_cure", MostEntries, entryFields(func(x *record.PostCure) *record.Entry { return &x.Entry }, "",
			tables.SizeField("temperature", func(p *record.PostCure) *quantity.Temperature { return &p.Temperature }),
			tables.TextField("held", func(p *record.PostCure) *string { return &p.Held }),
			tables.TextField("instrument", func(p *record.PostCure) *string { return &p.Instrument }),
			tables.NotesField("remark", func(p *record.PostCure) *string { return &p.Remark }),
		), func(d *recordDocument) *[]record.PostCure { return &d.PostCures }),
		tables.Many("hold", MostEntries, entryFields(func(x *record.Hold) *record.Entry { return &x.Entry }, "",
			tables.TextField("point", func(h *record.Hold) *string { return &h.Point }),
			tables.AnswerField("passed", func(h *record.Hold) *laminate.Optional[bool] { return &h.Passed }),
			tables.TextField("witness", func(h *record.Hold) *string { return &h.Witness }),
			tables.NotesField("remark", func(h *record.Hold) *string { return &h.Remark }),
		), func(d *recordDocument) *[]record.Hold { return &d.Holds }),
		tables.Many("preparation", MostEntries, entryFields(func(x *record.Preparation) *record.Entry { return &x.Entry }, "",
			tables.TextField("onto", func(p *record.Preparation) *string { return &p.Onto }),
			tables.AnswerField("abraded", func(p *record.Preparation) *laminate.Optional[bool] { return &p.Abraded }),
			tables.TextField("finish", func(p *record.Preparation) *string { return &p.Finish }),
			timeField("gelled", func(p *record.Preparation) *time.Time { return &p.Gelled }),
			tables.TextField("bonder", func(p *record.Preparation) *string { return &p.Bonder }),
			tables.TextField("qualification", func(p *record.Preparation) *string { return &p.Qualification }),
			tables.NotesField("remark", func(p *record.Preparation) *string { return &p.Remark }),
		), func(d *recordDocument) *[]record.Preparation { return &d.Preparations }),
		tables.Many("bond", MostEntries, entryFields(func(x *record.Bond) *record.Entry { return &x.Entry }, "",
			tables.TextField("onto", func(b *record.Bond) *string { return &b.Onto }),
			timeField("gelled", func(b *record.Bond) *time.Time { return &b.Gelled }),
			tables.TextField("bonder", func(b *record.Bond) *string { return &b.Bonder }),
			tables.TextField("qualification", func(b *record.Bond) *string { return &b.Qualification }),
			tables.NotesField("remark", func(b *record.Bond) *string { return &b.Remark }),
		), func(d *recordDocument) *[]record.Bond { return &d.Bonds }),
		tables.Many("specimen", MostEntries, entryFields(func(x *record.Specimen) *record.Entry { return &x.Entry }, "",
			tables.TextField("mark", func(s *record.Specimen) *string { return &s.Mark }),
			tables.TextField("place", func(s *record.Specimen) *string { return &s.Place }),
			groupField("zone", "total (the whole wall), barrier, or a zone: what it holds", func(s *record.Specimen) *inspection.Group { return &s.Group }),
			tables.TextField("kept", func(s *record.Specimen) *string { return &s.Kept }),
			timeField("until", func(s *record.Specimen) *time.Time { return &s.Until }),
			tables.NotesField("remark", func(s *record.Specimen) *string { return &s.Remark }),
		), func(d *recordDocument) *[]record.Specimen { return &d.Specimens }),
		tables.Many("photograph", MostEntries, entryFields(func(x *record.Photograph) *record.Entry { return &x.Entry }, "",
			tables.TextField("file", func(p *record.Photograph) *string { return &p.File }),
			tables.TextField("shows", func(p *record.Photograph) *string { return &p.Shows }),
			tables.TextField("place", func(p *record.Photograph) *string { return &p.Place }),
			tables.NotesField("remark", func(p *record.Photograph) *string { return &p.Remark }),
		), func(d *recordDocument) *[]record.Photograph { return &d.Photographs }),
		tables.Many("marked", MostEntries, entryFields(func(x *record.Marked) *record.Entry { return &x.Entry }, "",
			tables.TextField("serial", func(m *record.Marked) *string { return &m.Serial }),
			tables.NotesField("remark", func(m *record.Marked) *string { return &m.Remark }),
		), func(d *recordDocument) *[]record.Marked { return &d.Marked }),
	}
})
