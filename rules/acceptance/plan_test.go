package acceptance

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/conformance"

	"github.com/google/go-cmp/cmp"
)

// ordered is the good record with its entries counted, as a file has them.
func ordered() *record.Record {
	r := laidPly()
	numbered(r, false)
	return r
}

func hardness(r *record.Record, place string, value float64, n int) {
	for range n {
		r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.Barcol, Place: place, Value: value})
	}
}

func next(r *record.Record) int {
	return 1 + len(r.Entries())
}

func dispose(r *record.Record, d record.Disposition) {
	d.Number, d.Who = next(r), "N. N."
	r.Dispositions = append(r.Dispositions, d)
}

func keyed(t *testing.T, r *Result, key string) (lines []Line) {
	t.Helper()
	for _, l := range r.Lines {
		if l.Key == key {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		t.Errorf("no line %s", key)
	}
	return lines
}

// Hard places do not make a soft one hard: 20 points at C are an uncured nozzle,
// whatever the average over the part is.
func TestBarcol_isJudgedAtEachPlace(t *testing.T) {
	r := ordered()
	hardness(r, "B", 38, 10)
	hardness(r, "C", 20, 10)
	got := compare(header(), inspected(), r)
	lines := keyed(t, got, "inspection.barcol")
	if len(lines) != 3 || lines[0].Verdict != Meets || lines[1].Verdict != Meets || lines[2].Verdict != Fails || got.Answer != Reject {
		t.Errorf("%s: %+v", got.Answer, lines)
	}
	if !strings.Contains(lines[2].Found, "average 20.0 of 10 at C") {
		t.Errorf("it says %q", lines[2].Found)
	}
	short := ordered()
	hardness(short, "B", 38, 9)
	if got := not(compare(header(), inspected(), short)); len(got) != 1 || got["inspection.barcol"] != Incomplete {
		t.Errorf("nine readings at B: %v", got)
	}
	sides := ordered()
	for i := range sides.Readings {
		if r := &sides.Readings[i]; r.Kind == inspection.Barcol && i%4 == 1 {
			r.Side = spec.OutsideFace
		}
	}
	if got := not(compare(header(), inspected(), sides)); got["inspection.barcol"] != Incomplete {
		t.Errorf("five a side: %v", got)
	}
}

func thick(r *record.Record, g inspection.Group, place string, mil float64) {
	r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.WallThickness, Group: g, Place: place, Thickness: quantity.New(mil, quantity.Mil)})
}

// 60 and 160 mil are no barrier of 100 to 140, though their mean is 110.
func TestThickness_ofEachPlace(t *testing.T) {
	d := inspected()
	d.Barrier.Thickness = buyer().Barrier.Thickness
	for _, c := range []struct {
		places [2]string
		judge  spec.Judge
		spot   float64
		want   Verdict
	}{
		{[2]string{"cutout 1", "cutout 2"}, spec.NoJudge, 0, Fails},
		{[2]string{"cutout 1", "cutout 1"}, spec.Mean, 0, Meets},
		{[2]string{"cutout 1", "cutout 1"}, spec.Each, 0, Fails},
	} {
		r, d := ordered(), *d
		thick(r, inspection.Barrier, c.places[0], 60)
		thick(r, inspection.Barrier, c.places[1], 160)
		if c.judge != spec.NoJudge {
			d.Inspection.Plans = []spec.Plan{{Of: inspection.WallThickness, Group: inspection.Barrier, Judge: c.judge}}
		}
		if l := keyed(t, compare(header(), &d, r), "barrier.thickness measured")[0]; l.Verdict != c.want {
			t.Errorf("%v %s: %s: %s", c.places, c.judge, l.Verdict, l.Found)
		}
	}
}

func TestSpotMinimum_withoutALowestThicknessIsNotForgotten(t *testing.T) {
	d := inspected()
	d.Total = spec.Thickness{}
	if got := not(compare(header(), d, ordered())); len(got) != 1 || got[keySpot] != Incomplete {
		t.Errorf("%v", got)
	}
}

// A gauge over the whole wall under the word structure shows by its sum.
func TestThickness_partsThickerThanTheWhole(t *testing.T) {
	r := ordered()
	thick(r, inspection.Barrier, "cutout", 110)
	thick(r, inspection.StructuralLayer, "cutout", 318)
	if got := not(compare(header(), inspected(), r)); len(got) != 1 || got["record.agreement"] != Incomplete {
		t.Errorf("%v", got)
	}
}

func TestPlan_asksForItsPlacesSideMethodAndWitness(t *testing.T) {
	d := inspected()
	d.Inspection.Plans = []spec.Plan{{Of: inspection.WallThickness, Places: "A1, A2", Side: spec.OutsideFace, Method: "ultrasonic",
		Number: laminate.Some(2), Witness: "purchaser"}}
	r := ordered()
	good := record.Reading{Kind: inspection.WallThickness, Place: "a1", Side: spec.OutsideFace, Method: "Ultrasonic", Witness: "Purchaser's inspector",
		Thickness: quantity.New(0.22, quantity.Inch)}
	inside, gauge, alone := good, good, good
	inside.Side, gauge.Method, alone.Witness = spec.ProcessSide, "caliper", ""
	r.Readings = append(r.Readings, good, inside, gauge, alone)
	lines := keyed(t, compare(header(), d, r), "plan.thickness")
	if len(lines) != 2 || lines[0].Verdict != Incomplete || lines[0].Found != "1 of 2; 1 of another side; 1 by another method; 1 without that witness" ||
		lines[1].Verdict != Incomplete || lines[1].Found != "0 of 2" {
		t.Errorf("%+v", lines)
	}
	two := good
	two.Place = "A2"
	r.Readings = append(r.Readings, good, two, two)
	if got := compare(header(), d, r); got.Answer != Accept {
		t.Errorf("all that is planned is there: %s %v", got.Answer, not(got))
	}
}

// Readings without a place, specimens of another part of the wall, of another
// weight: not what was asked for.
func TestReadings_thatAreNotWhatWasAskedFor(t *testing.T) {
	for _, c := range []struct {
		key    string
		change func(*record.Record)
	}{
		{"record.places", func(r *record.Record) { r.Readings[0].Place, r.Readings[2].Place = "", "" }},
		{"inspection.ignition_specimens", func(r *record.Record) { r.Readings[20].Group = inspection.StructuralLayer }},
		{"inspection.ignition_specimens", func(r *record.Record) {
			r.Readings[20].Before, r.Readings[20].After = quantity.New(50, quantity.Gram), quantity.New(13, quantity.Gram)
		}},
		{"inspection.visual", func(r *record.Record) { r.Readings[25].Struck = true }},
		{"inspection.visual", func(r *record.Record) { r.Readings[25].Side = spec.OutsideFace }},
	} {
		r := ordered()
		c.change(r)
		got := not(compare(header(), inspected(), r))
		want := 1
		if c.key == "inspection.visual" { // and the limit of what is seen there
			want = 2
		}
		if len(got) != want || got[c.key] != Incomplete || want == 2 && got[keyDefect] != Incomplete {
			t.Errorf("%s: %v", c.key, got)
		}
	}
}

// A limit is met by a look at its side, not by a record that says nothing.
func TestDefects_noLimitIsMetWhereNobodyLooked(t *testing.T) {
	look := func(side spec.Side) record.Reading { return record.Reading{Kind: inspection.Visual, Side: side} }
	small, large := pit("A", 1, 0), pit("A", 1, 0)
	large.Size = quantity.New(1, quantity.Inch)
	for _, c := range []struct {
		limit   spec.Side
		looks   []record.Reading
		seen    []record.Defect
		verdict Verdict
		found   string
	}{
		{spec.OutsideFace, nil, nil, Incomplete, "no examination by eye recorded on the outside"},
		{spec.OutsideFace, []record.Reading{look(spec.ProcessSide)}, nil, Incomplete, "no examination by eye recorded on the outside"},
		{spec.OutsideFace, []record.Reading{look(spec.OutsideFace)}, nil, Meets, "none over the limit"},
		{spec.OutsideFace, []record.Reading{look(spec.EitherSide)}, nil, Meets, "none over the limit"},
		{spec.EitherSide, nil, nil, Incomplete, "no examination by eye recorded on the process side and on the outside"},
		{spec.EitherSide, []record.Reading{look(spec.ProcessSide)}, nil, Incomplete, "no examination by eye recorded on the outside"},
		{spec.ProcessSide, nil, []record.Defect{small}, Incomplete, "of those recorded none over the limit, and no examination by eye recorded on the process side"},
		{spec.ProcessSide, nil, []record.Defect{large}, Fails, "1 in at A"},
	} {
		d := &spec.Specification{Inspection: spec.Inspection{Defects: []spec.DefectLimit{{Kind: spec.Pit, Side: c.limit, SizeMax: quantity.New(0.125, quantity.Inch)}}}}
		r := &record.Record{Serial: "H-1", Readings: c.looks, Defects: c.seen}
		if l := keyed(t, compare(header(), d, r), keyDefect); len(l) != 1 || l[0].Verdict != c.verdict || l[0].Found != c.found {
			t.Errorf("%v %v %v: %+v", c.limit, c.looks, c.seen, l)
		}
	}
}

func pit(place string, count int, area float64) record.Defect {
	d := record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: quantity.New(0.05, quantity.Inch), Depth: quantity.New(0.01, quantity.Inch), Count: count, Place: place}
	if area > 0 {
		d.Area = quantity.New(area, quantity.SquareMeter)
	}
	return d
}

// The limit is three pits on a square foot (0.093 m²).
func TestDefects_areAddedUpAndJudgedOnTheAreaExamined(t *testing.T) {
	for what, c := range map[string]struct {
		list []record.Defect
		want Verdict
	}{
		"two and two at one place":                 {[]record.Defect{pit("A", 2, 0), pit("a ", 2, 0)}, Fails},
		"two and two at different places":          {[]record.Defect{pit("A", 2, 0), pit("B", 2, 0)}, Meets},
		"one on a small area is one":               {[]record.Defect{pit("A", 1, 0.01)}, Meets},
		"twenty on ten square meters, who knows":   {[]record.Defect{pit("A", 20, 10)}, Incomplete},
		"twenty on a tenth: too many somewhere":    {[]record.Defect{pit("A", 20, 0.1)}, Fails},
		"the largest counts, whichever comes last": {[]record.Defect{{Kind: spec.Pit, Place: "A", Size: quantity.New(1, quantity.Inch)}, pit("A", 1, 0)}, Fails},
	} {
		r := ordered()
		r.Defects = c.list
		if l := keyed(t, compare(header(), inspected(), r), keyDefect)[0]; l.Verdict != c.want {
			t.Errorf("%s: %s: %s", what, l.Verdict, l.Found)
		}
	}
}

// A level that a specification names means what the shop's book says it means, and
// nothing where no book does: nobody accepts a part by the name of a table.
func TestLevel_isWhatTheShopsBookStates(t *testing.T) {
	level := func(name string, kind spec.Defect, size float64) spec.LevelLimit {
		return spec.LevelLimit{Level: name, Source: "agreed with the purchaser", DefectLimit: spec.DefectLimit{Kind: kind, Side: spec.ProcessSide, SizeMax: quantity.New(size, quantity.Inch)}}
	}
	book := []spec.LevelLimit{level("II", spec.Blister, 0.25), level("II", spec.Pit, 1), level("I", spec.Blister, 0)}
	for what, c := range map[string]struct {
		level  string
		levels []spec.LevelLimit
		size   float64 // of a blister
		want   map[string]Verdict
	}{
		"no book states it":           {"II", nil, 0, map[string]Verdict{"inspection.acceptance_level": Incomplete}},
		"a book states another":       {"III", book, 0, map[string]Verdict{"inspection.acceptance_level": Incomplete}},
		"met":                         {" ii", book, 0.2, map[string]Verdict{}},
		"not met":                     {"II", book, 0.3, map[string]Verdict{keyDefect: Fails}},
		"not met of a stricter level": {"I", book, 0.2, map[string]Verdict{keyDefect: Fails}},
		"not named":                   {"", book, 0.3, map[string]Verdict{keyNonconformance: Incomplete}},
	} {
		d, r := inspected(), ordered()
		d.Inspection.AcceptanceLevel = c.level
		if c.size > 0 {
			r.Defects = append(r.Defects, record.Defect{Entry: record.Entry{Number: next(r)}, Kind: spec.Blister, Side: spec.ProcessSide, Place: "A", Size: quantity.New(c.size, quantity.Inch)})
		}
		got := Compare(Input{Report: report(header()), SHA256: "ab12", Fingerprint: "cd34", Specification: d, Record: r, Levels: c.levels})
		if diff := cmp.Diff(c.want, not(got)); diff != "" {
			t.Errorf("%s: %s", what, diff)
		}
		// What the specification limits itself, the level does not: of pits it allows 1/8 in.
		for _, l := range got.Lines {
			if l.Key == keyDefect && strings.HasPrefix(l.Demand, "pit") && l.Basis != conformance.BySpecification {
				t.Errorf("%s: %s: %s", what, l.Demand, l.Basis)
			}
			if l.Key == keyDefect && strings.HasPrefix(l.Demand, "blister") && !strings.HasPrefix(l.Basis, "acceptance level "+strings.ToUpper(strings.TrimSpace(c.level))) && c.level != " ii" {
				t.Errorf("%s: %s: %s", what, l.Demand, l.Basis)
			}
		}
	}
}

// What no limit was agreed for does not reject, but somebody has to say what
// becomes of it.
func TestDefects_withoutALimitNeedADisposition(t *testing.T) {
	for what, d := range map[string]record.Defect{
		"a delamination":       {Kind: spec.Delamination, Place: "N2", Size: quantity.New(6, quantity.Inch)},
		"a pit, other side":    {Kind: spec.Pit, Side: spec.OutsideFace, Place: "N2", Size: quantity.New(1.2, quantity.Inch)},
		"repaired, by nobody":  {Kind: spec.Crack, Place: "N2", Repaired: true},
		"repaired, not looked": {Kind: spec.Pit, Side: spec.ProcessSide, Place: "N2", Size: quantity.New(1, quantity.Inch), Repaired: true},
	} {
		r := ordered()
		d.Number = next(r)
		r.Defects = append(r.Defects, d)
		got := compare(header(), inspected(), r)
		if not(got)[keyNonconformance] != Incomplete || got.Answer == Accept {
			t.Errorf("%s: %s %v", what, got.Answer, not(got))
		}
		taken := *r
		dispose(&taken, record.Disposition{Entry: record.Entry{Role: "purchaser"}, Of: d.Number, Action: record.UseAsIs, Why: "cosmetic"})
		if got := compare(header(), inspected(), &taken); got.Answer != Accept {
			t.Errorf("%s, conceded: %s %v", what, got.Answer, not(got))
		}
		foreman := *r
		dispose(&foreman, record.Disposition{Entry: record.Entry{Role: "foreman"}, Of: d.Number, Action: record.UseAsIs, Why: "cosmetic"})
		if got := compare(header(), inspected(), &foreman); got.Answer == Accept {
			t.Errorf("%s, taken as it is by the foreman", what)
		}
		dispose(r, record.Disposition{Of: d.Number, Action: record.Repair, Procedure: "RP-4", Why: "ground out and patched"})
		if got := compare(header(), inspected(), r); got.Answer == Accept {
			t.Errorf("%s, repaired and not examined again: %s", what, got.Answer)
		}
		r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.Visual, Place: "N2", Side: spec.ProcessSide})
		if got := compare(header(), inspected(), r); got.Answer != Accept || !strings.Contains(strings.Join(got.Notes, "\n"), "at N2: repair by N. N., procedure RP-4: ground out and patched") {
			t.Errorf("%s, repaired and examined: %s %v %v", what, got.Answer, not(got), got.Notes)
		}
	}
}

// A retest after post-cure counts instead, and the first readings stay in the report.
func TestRetest_supersedesWithoutAStrike(t *testing.T) {
	r := ordered()
	hardness(r, "C", 20, 10)
	first := r.Readings[len(r.Readings)-1].Number
	r.Decisions = append(r.Decisions, record.Decision{Entry: record.Entry{Number: next(r), Who: "Q"}, Outcome: record.Reject, Why: "uncured"})
	if got := compare(header(), inspected(), r); got.Answer != Reject {
		t.Fatalf("uncured: %s", got.Answer)
	}
	dispose(r, record.Disposition{Of: first, Action: record.Retest, Why: "after post-cure"})
	got := compare(header(), inspected(), r)
	if l := keyed(t, got, keyDecision)[0]; l.Verdict != Meets || !strings.Contains(l.Found, "rejected by Q: uncured; answered in entry") {
		t.Errorf("the rejection: %+v", l)
	}
	if got.Answer == Accept {
		t.Error("accepted before the retest")
	}
	hardness(r, "C", 33, 10)
	got = compare(header(), inspected(), r)
	if got.Answer != Accept || !strings.Contains(strings.Join(got.Notes, "\n"), "10 earlier readings of barcol at C superseded") {
		t.Errorf("%s %v\n%v", got.Answer, not(got), got.Notes)
	}
}

func TestConcession_ofARequirementAndOfARule(t *testing.T) {
	r := ordered()
	hardness(r, "C", 20, 10)
	dispose(r, record.Disposition{Entry: record.Entry{Role: "Purchaser"}, Requirement: "inspection.barcol", Action: record.UseAsIs, Why: "covered"})
	got := compare(header(), inspected(), r)
	if i := slices.IndexFunc(got.Lines, func(l Line) bool { return strings.Contains(l.Found, "conceded in entry") }); got.Answer != Accept || i < 0 {
		t.Errorf("%s %v", got.Answer, not(got))
	}
	hardness(r, "D", 10, 10)
	if got := compare(header(), inspected(), r); got.Answer != Reject {
		t.Errorf("worse readings after the concession: %s", got.Answer)
	}

	broken := report(header())
	broken.Findings = []rules.Finding{{Rule: &rules.Rule{ID: "veil-missing"}, Severity: rules.Break}}
	in := Input{Report: broken, SHA256: "ab12", Specification: inspected(), Record: ordered()}
	if got := Compare(in); got.Answer != Undetermined {
		t.Errorf("a break: %s", got.Answer)
	}
	dispose(in.Record, record.Disposition{Entry: record.Entry{Role: "purchaser"}, Requirement: "veil-missing", Action: record.UseAsIs, Why: "as agreed"})
	if got := Compare(in); got.Answer != Accept || !strings.Contains(got.Notes[0], "the schedule breaks veil-missing, conceded in entry") {
		t.Errorf("a break conceded: %s %v %v", got.Answer, not(got), got.Notes)
	}
}

func TestScrap_rejects(t *testing.T) {
	r := ordered()
	dispose(r, record.Disposition{Of: 12, Action: record.Scrap, Why: "dropped"})
	if got := compare(header(), inspected(), r); got.Answer != Reject {
		t.Errorf("%s", got.Answer)
	}
}
