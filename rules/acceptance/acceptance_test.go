package acceptance

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
)

// header is a wound header of an invented acid drain.
func header() *laminate.Schedule {
	return &laminate.Schedule{
		Head: laminate.Head{Title: "Acid drain header"},
		Part: laminate.Part{Form: laminate.Pipe, Process: laminate.Wound},
		Resins: []laminate.Resin{
			{ID: "liner", Family: laminate.NovolacVinylEster},
			{ID: "wall", Family: laminate.VinylEster},
		},
		Plies: []laminate.Ply{
			{Material: "veil-c-15", Resin: "liner", Count: 1},
			{Material: "mat-1.5", Resin: "liner", Count: 2, GelAfter: true},
			{Material: "mat-1.5", Resin: "wall", Count: 1},
			{Material: "band-helical", Resin: "wall", Count: 4, Angle: laminate.Some(55.0)},
			{Material: "topcoat", Resin: "wall", Count: 1},
		},
	}
}

func buyer() *spec.Specification {
	return &spec.Specification{
		Barrier: spec.Barrier{
			VeilFiber: []laminate.Fiber{laminate.CGlass, laminate.Polyester}, VeilPlies: laminate.Some(1), MatPlies: laminate.Some(2),
			MatArealMass: quantity.New(1.5, quantity.OuncePerSquareFoot),
			Thickness:    spec.Thickness{Lowest: quantity.New(100, quantity.Mil), Highest: quantity.New(140, quantity.Mil)},
			GlassContent: spec.Range{Lowest: 0.22, Highest: 0.32, Given: true},
			Resin:        []laminate.Family{laminate.NovolacVinylEster}, Conductive: laminate.Some(false),
		},
		Structure: spec.Structure{
			Process: laminate.Wound, Resin: []laminate.Family{laminate.VinylEster},
			Thickness:    spec.Thickness{Lowest: quantity.New(0.05, quantity.Inch)},
			GlassContent: spec.Range{Lowest: 0.40, Highest: 0.75, Given: true},
			Forms:        []laminate.Form{laminate.RovingBand, laminate.ChoppedMat},
			Angle:        spec.Range{Lowest: 53, Highest: 57, Given: true},
		},
		OuterSurface: laminate.Some(true),
		Total:        spec.Thickness{Lowest: quantity.New(0.15, quantity.Inch)},
		Sequence:     []spec.Step{{Form: laminate.Veil, Plies: 1}, {Form: laminate.ChoppedMat, Plies: 2}, {Any: true}},
	}
}

func compare(s *laminate.Schedule, d *spec.Specification, r *record.Record) *Result {
	lib := catalog.Library()
	return Compare(Input{Report: report(s), Library: lib, SHA256: "ab12", Fingerprint: "cd34", SpecificationFingerprint: "5678",
		PlyFingerprints: []string{"f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9"}, Specification: d, Record: r})
}

// not lists the keys of lines that do not meet their demand, with the verdict.
func not(r *Result) map[string]Verdict {
	keys := map[string]Verdict{}
	for _, l := range r.Lines {
		if l.Verdict != Meets {
			keys[l.Key] = l.Verdict
		}
	}
	return keys
}

func TestCompare_conformsToWhatWasDemanded(t *testing.T) {
	r := compare(header(), buyer(), nil)
	for _, l := range r.Lines {
		if l.Verdict != Meets {
			t.Errorf("%s: %s: %s", l.Key, l.Found, l.Verdict)
		}
		if l.Demand == "" || l.Found == "" || l.Basis == "" {
			t.Errorf("line without a word: %+v", l)
		}
	}
	if r.Answer != Conforms || r.Part != NotInspected {
		t.Errorf("answer %s, part %s", r.Answer, r.Part)
	}
}

func TestCompare_failsEachDemandOnce(t *testing.T) {
	cases := []struct {
		key    string
		want   Verdict
		change func(*laminate.Schedule, *spec.Specification)
	}{
		{"barrier.veil_fiber", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Barrier.VeilFiber = []laminate.Fiber{laminate.Polyester}
		}},
		{"barrier.veil_plies", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Barrier.VeilPlies = laminate.Some(2) }},
		{"barrier.veil_plies", Fails, func(s *laminate.Schedule, d *spec.Specification) {
			s.Plies[0].Count, d.Barrier.VeilExact, d.Sequence = 2, true, nil
		}},
		{"barrier.mat_plies", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Barrier.MatPlies = laminate.Some(3) }},
		{"barrier.mat_areal_mass", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Barrier.MatArealMass = quantity.New(1.55, quantity.OuncePerSquareFoot)
		}},
		{"barrier.thickness", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Barrier.Thickness.Highest = quantity.New(100, quantity.Mil)
		}},
		{"barrier.glass_content", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Barrier.GlassContent.Lowest = 0.29 }},
		{"barrier.resin", Fails, func(s *laminate.Schedule, _ *spec.Specification) { s.Resins[0].Family = laminate.Isophthalic }},
		{"barrier.filler", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Barrier.Filler = laminate.SiliconCarbide }},
		{"barrier.conductive", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Barrier.Conductive = laminate.Some(true) }},
		{"structure.process", Fails, func(s *laminate.Schedule, _ *spec.Specification) { s.Part.Process = laminate.ContactMolded }},
		{"structure.process", Incomplete, func(s *laminate.Schedule, _ *spec.Specification) { s.Part.Process = laminate.NoProcess }},
		{"structure.resin", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Structure.Resin = []laminate.Family{laminate.Chlorendic}
		}},
		{"structure.thickness", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Structure.Thickness.Lowest = quantity.New(2, quantity.Inch)
		}},
		{"structure.glass_content", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Structure.GlassContent.Lowest = 0.74 }},
		{"structure.forms", Fails, func(_ *laminate.Schedule, d *spec.Specification) {
			d.Structure.Forms = []laminate.Form{laminate.RovingBand}
		}},
		{"structure.angle", Fails, func(s *laminate.Schedule, _ *spec.Specification) { s.Plies[3].Angle = laminate.Some(57.5) }},
		{"outer_surface.required", Fails, func(s *laminate.Schedule, _ *spec.Specification) { s.Plies = s.Plies[:4] }},
		{"total.thickness", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Total.Lowest = quantity.New(2, quantity.Inch) }},
		{"sequence", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Sequence = d.Sequence[:2] }},
		{"sequence", Fails, func(_ *laminate.Schedule, d *spec.Specification) { d.Sequence[0].Form = laminate.ChoppedMat }},
	}
	for _, c := range cases {
		s, d := header(), buyer()
		c.change(s, d)
		r := compare(s, d, nil)
		if got := not(r); len(got) != 1 || got[c.key] != c.want {
			t.Errorf("%s: lines not met %v, want only it, %s", c.key, got, c.want)
		}
	}
}

// A ply without resin has no thickness to compute: nothing that rests on it is told.
func TestCompare_plyWithoutResinCannotTell(t *testing.T) {
	s := header()
	s.Plies[1].Resin = ""
	s.Plies[0].Zone, s.Plies[1].Zone = laminate.InnerSurface, laminate.InteriorLayer
	got := not(compare(s, buyer(), nil))
	for _, key := range []string{"barrier.resin", "barrier.thickness", "barrier.glass_content", "total.thickness"} {
		if got[key] != Incomplete {
			t.Errorf("%s: %s, want incomplete", key, got[key])
		}
	}
	for key, v := range got {
		if v == Fails {
			t.Errorf("%s fails for want of a fact", key)
		}
	}
}

func ends(low, high float64) spec.Range { return spec.Range{Lowest: low, Highest: high, Given: true} }

func TestCompare_fillerContent(t *testing.T) {
	s, d := header(), buyer()
	d.Barrier.Filler, d.Barrier.FillerContent = laminate.SiliconCarbide, ends(0.30, 0.40)
	d.Barrier.Thickness, d.Barrier.GlassContent = spec.Thickness{}, spec.Range{}
	s.Resins[0].Filler = laminate.SiliconCarbide
	if got := not(compare(s, d, nil)); got["barrier.filler_content"] != Incomplete || len(got) != 1 {
		t.Errorf("share not stated: %v", got)
	}
	for share, want := range map[float64]Verdict{0.30: Meets, 0.40: Meets, 0.29: Fails, 0.41: Fails} {
		s.Resins[0].FillerContent = laminate.Some(share)
		if got := not(compare(s, d, nil))["barrier.filler_content"]; got != want {
			t.Errorf("share %v: %s, want %s", share, got, want)
		}
	}
}

// laid ticks every ply of the header, a quarter of an hour apart.
func laidPly() *record.Record {
	r := &record.Record{Schedule: "header.toml", ScheduleSHA256: "AB12", Serial: "H-1"}
	at := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	for n := 1; n <= 9; n++ {
		r.Laid = append(r.Laid, record.Laid{Ply: n, Entry: record.Entry{At: at.Add(time.Duration(n) * 15 * time.Minute), Who: "second shift"},
			MaterialLot: "m1", ResinLot: "r1", GelTime: "20 min", AirTemperature: quantity.New(20, quantity.Celsius),
			Humidity: laminate.Some(0.50), SurfaceTemperature: quantity.New(18, quantity.Celsius)})
	}
	for i := range 10 {
		r.Readings = append(r.Readings,
			record.Reading{Kind: inspection.WallThickness, Place: "ring", Thickness: quantity.New(0.21+0.001*float64(i), quantity.Inch)},
			record.Reading{Kind: inspection.Barcol, Place: "A1", Value: 30 + float64(i%3)})
	}
	for range 3 {
		r.Readings = append(r.Readings, record.Reading{Kind: inspection.IgnitionLoss, Group: inspection.Barrier,
			Before: quantity.New(5, quantity.Gram), After: quantity.New(1.3, quantity.Gram)})
	}
	r.Readings = append(r.Readings, record.Reading{Kind: inspection.Acetone, Clean: true},
		record.Reading{Kind: inspection.ResistanceToGround, Resistance: quantity.New(4, quantity.Megohm)},
		record.Reading{Kind: inspection.Visual, Side: spec.ProcessSide, Entry: record.Entry{Who: "inspector"}})
	r.Defects = []record.Defect{{Kind: spec.Pit, Side: spec.ProcessSide, Size: quantity.New(0.1, quantity.Inch),
		Depth: quantity.New(0.02, quantity.Inch), Count: 3, Place: "north"}}
	return r
}

func inspected() *spec.Specification {
	d := buyer()
	d.Inspection = spec.Inspection{
		ThicknessReadings: laminate.Some(10), SpotMinimum: laminate.Some(0.8), Barcol: laminate.Some(32.0), BarcolReadings: laminate.Some(10),
		IgnitionSpecimens: laminate.Some(3), Acetone: laminate.Some(true), LayupRecord: laminate.Some(true),
		ResistanceToGroundMax: quantity.New(10, quantity.Megohm),
		Defects: []spec.DefectLimit{{Kind: spec.Pit, Side: spec.ProcessSide, SizeMax: quantity.New(0.125, quantity.Inch),
			DepthMax: quantity.New(1.0/32, quantity.Inch), PerAreaMax: laminate.Some(3)}},
	}
	// What the readings of these tests do not cover.
	d.Barrier.Thickness, d.Structure.Thickness, d.Structure.GlassContent = spec.Thickness{}, spec.Thickness{}, spec.Range{}
	return d
}

func TestCompare_acceptsAGoodRecord(t *testing.T) {
	r := compare(header(), inspected(), laidPly())
	for _, l := range r.Lines {
		if l.Verdict != Meets {
			t.Errorf("%s: %s: %s", l.Key, l.Found, l.Verdict)
		}
	}
	if r.Answer != Accept || r.Schedule != Conforms {
		t.Errorf("answer %s, schedule %s", r.Answer, r.Schedule)
	}
}

// The question is the one that was asked, and nothing is accepted that nobody looked at.
func TestCompare_answersWhatWasAsked(t *testing.T) {
	none := &record.Record{ScheduleSHA256: "ab12"}
	struck := laidPly()
	struck.Defects = nil
	for i := range struck.Laid {
		struck.Laid[i].Struck = true
	}
	for i := range struck.Readings {
		struck.Readings[i].Struck = true
	}
	signed := func(o record.Outcome) *record.Record {
		return &record.Record{ScheduleSHA256: "ab12", Decisions: []record.Decision{{Outcome: o, Entry: record.Entry{Who: "inspector"}}}}
	}
	only := &record.Record{ScheduleSHA256: "ab12", Laid: laidPly().Laid[:1]}
	onlySurface := &spec.Specification{OuterSurface: laminate.Some(true)}
	strict := inspected()
	strict.Barrier.VeilPlies = laminate.Some(2)
	noProcess := header()
	noProcess.Part.Process = laminate.NoProcess
	foreign := &record.Record{ScheduleSHA256: "ff"}
	cases := []struct {
		name                   string
		schedule               *laminate.Schedule
		demands                *spec.Specification
		record                 *record.Record
		answer, ofSchedule, of Answer
	}{
		{"a schedule that conforms", header(), inspected(), nil, Conforms, Conforms, NotInspected},
		{"one that does not", header(), strict, nil, DoesNotConform, DoesNotConform, NotInspected},
		{"one that cannot be determined", noProcess, inspected(), nil, Undetermined, Undetermined, NotInspected},
		{"a specification that requires nothing", header(), &spec.Specification{}, nil, Undetermined, Undetermined, NotInspected},
		{"no specification", header(), nil, nil, Undetermined, Undetermined, NotInspected},
		{"a record just begun", header(), onlySurface, none, NotInspected, Conforms, NotInspected},
		{"the same, the schedule failing", header(), strict, none, NotInspected, DoesNotConform, NotInspected},
		{"the same, of another schedule", header(), onlySurface, foreign, NotInspected, Conforms, NotInspected},
		{"every entry struck", header(), inspected(), struck, NotInspected, Conforms, NotInspected},
		{"accepted with a signature alone", header(), onlySurface, signed(record.Accept), NotInspected, Conforms, NotInspected},
		{"rejected with a signature alone", header(), onlySurface, signed(record.Reject), Reject, Conforms, Reject},
		{"a crack that nobody else measured", header(), inspected(), &record.Record{ScheduleSHA256: "ab12",
			Defects: []record.Defect{{Kind: spec.Pit, Side: spec.ProcessSide, Size: quantity.New(1, quantity.Inch)}}}, Reject, Conforms, Reject},
		{"one ply checked off, the others seen by nobody", header(), onlySurface, only, Undetermined, Conforms, Undetermined},
		{"a good record", header(), inspected(), laidPly(), Accept, Conforms, Accept},
		{"a good record of a schedule that does not conform", header(), strict, laidPly(), Reject, DoesNotConform, Reject},
		{"a good record without a specification", header(), nil, laidPly(), Undetermined, Undetermined, Undetermined},
		{"a good record, and nothing is required", header(), &spec.Specification{}, laidPly(), Undetermined, Undetermined, Undetermined},
	}
	for _, c := range cases {
		r := compare(c.schedule, c.demands, c.record)
		if r.Answer != c.answer || r.Schedule != c.ofSchedule || r.Part != c.of {
			t.Errorf("%s: answer %s, schedule %s, part %s; want %s, %s, %s", c.name, r.Answer, r.Schedule, r.Part, c.answer, c.ofSchedule, c.of)
		}
	}
}

// What no specification requires rejects nothing: it is a note with its basis.
func TestCompare_limitsThatNobodyRequiredAreNotes(t *testing.T) {
	for _, c := range []struct {
		note   string
		change func(*record.Record, *spec.Specification)
	}{
		{"surface at least 5.4 °F above the dew point: not met at ply 1; not required (ISO 8502-4, ISO 12944-7, second-hand)", func(r *record.Record, _ *spec.Specification) {
			r.Laid[0].SurfaceTemperature = quantity.New(12.2, quantity.Celsius) // dew point 9.26 °C, 12.26 usual
		}},
		{"air at least 59 °F: not met at ply 1; not required (common practice, no source)", func(r *record.Record, _ *spec.Specification) {
			r.Laid[0].AirTemperature = quantity.New(14.9, quantity.Celsius)
		}},
		{"relative humidity at most 80 %: not met at ply 1; not required (common practice, no source)", func(r *record.Record, _ *spec.Specification) {
			r.Laid[0].Humidity, r.Laid[0].SurfaceTemperature = laminate.Some(0.82), quantity.New(25, quantity.Celsius)
		}},
		{"relative humidity at most 80 %: met at 9 plies; not required (common practice, no source)", func(*record.Record, *spec.Specification) {}},
		{"whole laminate: a spot of 820.0 mil is more than 1/8 in below the required thickness; not required (from memory)", func(r *record.Record, d *spec.Specification) {
			d.Total.Lowest = quantity.New(1, quantity.Inch) // 0.8 of it is 0.8 in, 1/8 in below it 0.875 in
			r.Readings[0].Thickness = quantity.New(0.82, quantity.Inch)
			for i := range r.Readings[1:] {
				if r := &r.Readings[i+1]; r.Kind == inspection.WallThickness {
					r.Thickness = quantity.New(1.1, quantity.Inch)
				}
			}
		}},
	} {
		d, r := inspected(), laidPly()
		c.change(r, d)
		got := compare(header(), d, r)
		v := not(got)
		delete(v, "total.thickness")  // the computed figure of a thin header
		delete(v, "record.agreement") // and that it is read as four times as thick
		if len(v) > 0 || !slices.Contains(got.Notes, c.note) {
			t.Errorf("not met %v, notes\n%s\nwant %s", v, strings.Join(got.Notes, "\n"), c.note)
		}
	}
}

// Nobody accepts a part of which it is not known whether it holds.
func TestCompare_neverAcceptsAScheduleWithABreakOrAMissingFact(t *testing.T) {
	broken := report(header())
	rule := &rules.Rule{ID: "veil-missing"}
	broken.Findings = []rules.Finding{{Rule: rule, Severity: rules.Break}, {Rule: rule, Severity: rules.Break}, {Rule: &rules.Rule{ID: "other"}, Severity: rules.Incomplete}}
	in := Input{Report: broken, Library: catalog.Library(), SHA256: "ab12", Specification: inspected(), Record: laidPly()}
	r := Compare(in)
	if got := not(r); r.Answer != Undetermined || len(got) != 2 || got["schedule.breaks"] != Incomplete || got["schedule.incomplete"] != Incomplete {
		t.Errorf("%s, not met %v", r.Answer, got)
	}
	if l := r.Lines[slices.IndexFunc(r.Lines, func(l Line) bool { return l.Key == "schedule.breaks" })]; !strings.HasPrefix(l.Found, "2 breaks: veil-missing;") {
		t.Errorf("it says %q", l.Found)
	}
	dispose(in.Record, record.Disposition{Entry: record.Entry{Role: "purchaser"}, Requirement: "veil-missing", Action: record.UseAsIs, Why: "as agreed"})
	if r := Compare(in); r.Answer != Undetermined || len(not(r)) != 1 {
		t.Errorf("only the break was conceded: %s, not met %v", r.Answer, not(r))
	}
	dispose(in.Record, record.Disposition{Entry: record.Entry{Role: "purchaser"}, Requirement: "other", Action: record.UseAsIs, Why: "as agreed"})
	if r := Compare(in); r.Answer != Accept || !slices.ContainsFunc(r.Notes, func(n string) bool {
		return strings.HasPrefix(n, "cannot be determined of the schedule: other, conceded in entry")
	}) {
		t.Errorf("both conceded: %s, not met %v\n%v", r.Answer, not(r), r.Notes)
	}
	if in.Record = nil; Compare(in).Answer != Conforms {
		t.Error("a break of the schedule answers for the specification")
	}
}

func TestCompare_recordFailsEachOnce(t *testing.T) {
	cases := []struct {
		key    string
		want   Verdict
		change func(*record.Record, *spec.Specification)
	}{
		{"record.schedule", Fails, func(r *record.Record, _ *spec.Specification) { r.ScheduleFingerprint = "ff" }},
		{"record.schedule", Incomplete, func(r *record.Record, _ *spec.Specification) { r.ScheduleSHA256 = "ff" }},
		{"record.plies", Fails, func(r *record.Record, _ *spec.Specification) { r.Laid[2].Fingerprint = "f000" }},
		{"record.seals", Incomplete, func(r *record.Record, _ *spec.Specification) {
			r.Trail.Breaks = []record.Break{{Number: 2, Line: 9, Why: "it does not follow"}}
		}},
		{"record.seals", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Trail.Unsealed = []int{1, 2, 3} }},
		{"record.seals", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Trail.Loose = []int{4, 7} }},
		{"record.dates", Incomplete, func(r *record.Record, _ *spec.Specification) {
			r.Decisions = []record.Decision{{Outcome: record.Accept, Entry: record.Entry{Number: 99, At: time.Date(1999, 3, 2, 7, 0, 0, 0, time.UTC)}}}
		}},
		{"record.agreement", Incomplete, func(r *record.Record, _ *spec.Specification) {
			for i := range r.Readings {
				if r.Readings[i].Kind == inspection.WallThickness {
					r.Readings[i].Thickness = quantity.New(0.4, quantity.Inch)
				}
			}
		}},
		{"record.signed", Incomplete, func(r *record.Record, _ *spec.Specification) {
			r.Decisions = []record.Decision{{Outcome: record.Accept, Specification: "0000"}}
		}},
		{"record.schedule", Incomplete, func(r *record.Record, _ *spec.Specification) { r.ScheduleSHA256 = "" }},
		{"record.order", Fails, func(r *record.Record, _ *spec.Specification) { r.Laid[4].Ply, r.Laid[5].Ply = 6, 5 }},
		{"record.order", Fails, func(r *record.Record, _ *spec.Specification) {
			again := r.Laid[8]
			again.Ply = 8
			r.Laid = append(r.Laid, again)
		}},
		{"record.order", Fails, func(r *record.Record, _ *spec.Specification) {
			again := r.Laid[8]
			again.Ply = 12
			r.Laid = append(r.Laid, again)
		}},
		{"inspection.layup_record", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid = r.Laid[:8] }},
		{"record.pace", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[7].At = r.Laid[6].At.Add(2 * time.Second) }},
		{"record.time", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[7].At = r.Laid[5].At }},
		{"record.gel", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[2].GelTime = "" }},
		{"record.gel", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[2].GelTime = "0 min" }},
		{"record.gel", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[2].GelTime = "31 min" }}, // ply 2 to ply 4 took 30
		{"record.gel", Fails, func(r *record.Record, _ *spec.Specification) { r.Laid[3].At = r.Laid[2].At }},
		{"record.lots", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[0].ResinLot = "" }},
		{"record.deviation", Fails, func(r *record.Record, _ *spec.Specification) { r.Laid[1].Material = "mat-0.75" }},
		{"record.deviation", Fails, func(r *record.Record, _ *spec.Specification) { r.Laid[1].Plies = laminate.Some(2) }},
		{"record.deviation", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Laid[1].Lap = quantity.New(1, quantity.Inch) }},
		{"total.thickness measured", Fails, func(_ *record.Record, d *spec.Specification) { d.Total.Highest = quantity.New(0.2144, quantity.Inch) }},
		{"inspection.thickness_readings", Incomplete, func(_ *record.Record, d *spec.Specification) { d.Inspection.ThicknessReadings = laminate.Some(11) }},
		{"inspection.spot_minimum", Fails, func(r *record.Record, _ *spec.Specification) {
			r.Readings[0].Thickness = quantity.New(0.119, quantity.Inch) // 0.8 of 0.15 in is 0.12 in
		}},
		{"inspection.barcol", Fails, func(_ *record.Record, d *spec.Specification) { d.Inspection.Barcol = laminate.Some(35.0) }},
		{"inspection.barcol", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Readings[1].Struck = true }},
		{"inspection.ignition_specimens", Incomplete, func(_ *record.Record, d *spec.Specification) { d.Inspection.IgnitionSpecimens = laminate.Some(4) }},
		{"barrier.glass_content measured", Fails, func(r *record.Record, _ *spec.Specification) {
			for i := range r.Readings {
				if r.Readings[i].Kind == inspection.IgnitionLoss {
					r.Readings[i].After = quantity.New(1.7, quantity.Gram)
				}
			}
		}},
		{"inspection.acetone", Fails, func(r *record.Record, _ *spec.Specification) { r.Readings[23].Clean = false }},
		{"inspection.acetone", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Readings[23].Struck = true }},
		{"inspection.resistance_to_ground_max", Fails, func(r *record.Record, _ *spec.Specification) {
			r.Readings[24].Resistance = quantity.New(11, quantity.Megohm)
		}},
		{"inspection.defect", Fails, func(r *record.Record, _ *spec.Specification) { r.Defects[0].Count = 4 }},
		{"inspection.defect", Fails, func(r *record.Record, _ *spec.Specification) { r.Defects[0].Size = quantity.New(0.13, quantity.Inch) }},
		{"inspection.defect", Fails, func(r *record.Record, _ *spec.Specification) { r.Defects[0].Depth = quantity.New(0.04, quantity.Inch) }},
		{"record.whole", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Torn = "the last entry was left out" }},
		{"record.decision", Fails, func(r *record.Record, _ *spec.Specification) {
			r.Decisions = []record.Decision{{Outcome: record.Accept}, {Outcome: record.Reject, Why: "cracked"}}
		}},
		{"inspection.defect", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Defects[0].Depth = quantity.Length{} }},
	}
	for _, c := range cases {
		d, r := inspected(), laidPly()
		c.change(r, d)
		got := not(compare(header(), d, r))
		if c.key == "record.gel" && c.want == Fails || c.key == "total.thickness measured" {
			delete(got, "total.thickness") // the computed figure moves with the demand
		}
		if c.want == Fails && (c.key == "record.gel" || c.key == "record.order") {
			delete(got, "record.pace") // the same stamp twice
		}
		if c.key == "inspection.layup_record" {
			delete(got, "record.order") // plies that are missing may still come out of order
		}
		if c.key == "record.deviation" && got["barrier.mat_areal_mass"] == Fails {
			delete(got, "barrier.mat_areal_mass") // of the mat as laid
		}
		if len(got) != 1 || got[c.key] != c.want {
			t.Errorf("%s %s: lines not met %v", c.key, c.want, got)
		}
	}
}

func TestCompare_withoutDemandsOnlyMissingTicksCount(t *testing.T) {
	r := laidPly()
	r.Laid, r.Defects = r.Laid[:5], nil
	got := compare(header(), nil, r)
	if v := not(got); len(v) != 2 || v["record.laid"] != Incomplete || v["record.order"] != Incomplete || got.Answer == Accept {
		t.Errorf("nothing was demanded, and plies 6-9 were not checked off: %v", v)
	}
}

// Three of nine plies in order are not the schedule's order.
func TestCompare_someOfThePliesAreNotTheOrder(t *testing.T) {
	r := laidPly()
	r.Laid = r.Laid[:3]
	got := compare(header(), inspected(), r)
	i := slices.IndexFunc(got.Lines, func(l Line) bool { return l.Key == "record.order" })
	if l := got.Lines[i]; l.Verdict != Incomplete || l.Found != "3 of 9 plies checked off, in order so far" {
		t.Errorf("%s: %s", l.Verdict, l.Found)
	}
}

// A part that is laid from the outside in begins with its last ply, and a gel stop
// comes after the ply over its face.
func TestCompare_laidFromTheOutside(t *testing.T) {
	from := func(laid laminate.LaidOrder, r *record.Record) map[string]Verdict {
		lib := catalog.Library()
		judged := report(header())
		judged.Laid = laid
		return not(Compare(Input{Report: judged, Library: lib, SHA256: "ab12", Fingerprint: "cd34", SpecificationFingerprint: "5678",
			PlyFingerprints: []string{"f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9"}, Specification: inspected(), Record: r}))
	}
	mirrored := func() *record.Record {
		r := laidPly()
		for i := range r.Laid {
			r.Laid[i].Ply = 10 - r.Laid[i].Ply
			r.Laid[i].Fingerprint = "f" + strconv.Itoa(r.Laid[i].Ply)
		}
		r.Laid[5].GelTime, r.Laid[2].GelTime = r.Laid[2].GelTime, ""
		return r
	}
	if got := from(laminate.OutsideIn, mirrored()); len(got) != 0 {
		t.Errorf("laid from the outside: %v", got)
	}
	if got := from(laminate.InsideOut, mirrored()); got["record.order"] != Fails {
		t.Errorf("laid in the wrong order: %v", got)
	}
	if got := from(laminate.OutsideIn, laidPly()); got["record.order"] != Fails {
		t.Errorf("laid in the wrong order: %v", got)
	}
	for name, c := range map[string]struct {
		key    string
		want   Verdict
		change func(*record.Record)
	}{
		"no gel time":  {"record.gel", Incomplete, func(r *record.Record) { r.Laid[5].GelTime = "" }},
		"not waited":   {"record.gel", Fails, func(r *record.Record) { r.Laid[6].At = r.Laid[5].At }},
		"one left out": {"record.order", Fails, func(r *record.Record) { r.Laid = slices.Delete(r.Laid, 3, 4) }},
		"begun":        {"record.order", Incomplete, func(r *record.Record) { r.Laid = r.Laid[:4] }},
	} {
		r := mirrored()
		c.change(r)
		if got := from(laminate.OutsideIn, r); got[c.key] != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// A remark answers why two plies bear the same minute.
func TestCompare_aRemarkAnswersForThePace(t *testing.T) {
	r := laidPly()
	r.Laid[7].At, r.Laid[7].Remark = r.Laid[6].At.Add(2*time.Second), "laid earlier, recorded together"
	got := compare(header(), inspected(), r)
	if got.Answer != Accept || !slices.Contains(got.Notes, "checked off within seconds of the ply before, with a remark: ply 8") {
		t.Errorf("%s %v, notes %v", got.Answer, not(got), got.Notes)
	}
}

// Carbon neither stays whole nor burns whole: the specimen tells no glass.
func TestCompare_carbonVeilHidesGlass(t *testing.T) {
	s, d := header(), inspected()
	s.Plies[0].Material = "veil-carbon-11"
	d.Barrier.VeilFiber, d.Barrier.Conductive = nil, laminate.Optional[bool]{}
	if got := not(compare(s, d, laidPly())); got["barrier.glass_content measured"] != Incomplete || got["inspection.ignition_specimens"] != Incomplete || len(got) != 2 {
		t.Errorf("not met: %v", got)
	}
}

func report(s *laminate.Schedule) *rules.Report {
	lib := catalog.Library()
	return &rules.Report{Schedule: s, Analysis: laminate.Analyze(s, lib)}
}

// Revisions are named and judged by content, and one in mid-job is an entry.
func TestCompare_revisionsAreNamedAndTakenUpByEntry(t *testing.T) {
	line := func(r *record.Record) Line {
		res := compare(header(), inspected(), r)
		for _, l := range res.Lines {
			if l.Key == "record.schedule" {
				return l
			}
		}
		t.Fatal("no line about the schedule")
		return Line{}
	}
	r := laidPly()
	r.ScheduleFingerprint, r.ScheduleRevision = "CD34", laminate.Some(2)
	if l := line(r); l.Verdict != Meets || !strings.Contains(l.Found, "the record is of revision 2, this is revision not stated") {
		t.Errorf("same content: %s %s", l.Verdict, l.Found)
	}
	r.ScheduleFingerprint = "0000"
	if l := line(r); l.Verdict != Fails || !strings.Contains(l.Found, "revision 2") {
		t.Errorf("another revision: %s %s", l.Verdict, l.Found)
	}
	r.Revisions = []record.Revision{{Entry: record.Entry{Number: 99, Who: "E. One", Role: "engineer"}, Number: laminate.Some(3), Fingerprint: "cd34", From: 5, Why: "drawing 7"}}
	if l := line(r); l.Verdict != Meets || !strings.Contains(l.Found, "the record is of revision 3") {
		t.Errorf("taken up: %s %s", l.Verdict, l.Found)
	}
	// What was laid before, and is something else now, was not laid to this revision.
	r.Laid[1].Fingerprint, r.Laid[2].Fingerprint = "f2", "e3"
	if got := not(compare(header(), inspected(), r)); got["record.plies"] != Fails {
		t.Errorf("a ply laid to the old revision alone: %v", got)
	}
}
