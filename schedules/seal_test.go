package schedules

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// sealsFile holds entries of each kind as they were sealed when the kind came to be.
const sealsFile = "../testdata/records/seals.toml"

// sample is a value of each type that entries have, other than zero.
func sample(t *testing.T, of reflect.Type) reflect.Value {
	t.Helper()
	for _, v := range []any{"sealed", 3, true, time.Date(2026, 3, 2, 7, 15, 0, 0, time.UTC), laminate.Some(3), laminate.Some(0.25), laminate.Some(true),
		quantity.New(12, quantity.Mil).Spelled(quantity.Mil), quantity.New(68, quantity.Fahrenheit).Spelled(quantity.Fahrenheit),
		quantity.New(4, quantity.Megohm).Spelled(quantity.Megohm), quantity.New(5, quantity.Gram).Spelled(quantity.Gram),
		quantity.New(2, quantity.SquareFoot).Spelled(quantity.SquareFoot), quantity.New(75, quantity.PSI).Spelled(quantity.PSI),
		inspection.Barrier, spec.ProcessSide, spec.Pit, spec.Length, record.Repair, record.Accept, 34.5, inspection.Barcol} {
		if reflect.TypeOf(v) == of {
			return reflect.ValueOf(v)
		}
	}
	t.Fatalf("no sample of %s: a field of a new type wants one", of)
	return reflect.Value{}
}

// notSaid are fields that an entry has from where it stands, or that its id says.
var notSaid = []string{"Entry", "Of"}

// kindsOfEntries in the order of their tables.
func kindsOfEntries() []reflect.Type {
	kinds := make([]reflect.Type, len(tableOf))
	for of, table := range tableOf {
		kinds[table-1] = of
	}
	return kinds
}

// A field that is added to a kind of entry is left out where nothing was entered, so
// that an entry of earlier, which has none, says and seals the same as it did.
func TestSeal_whatIsNotEnteredIsNotWritten(t *testing.T) {
	// Before anything is entered these say something all the same, since ever.
	always := map[string]string{"laid": "ply = 0\n", "cut": "bytes = 0\n", "revision": "from_ply = 0\n"}
	for _, of := range kindsOfEntries() {
		empty := string(RecordEntry(reflect.New(of.Elem()).Interface().(record.Any)))
		title, _, _ := kindOfEntry(reflect.New(of.Elem()).Interface().(record.Any))
		if want := "[[" + title + "]]\n" + always[title] + "\n"; empty != want {
			t.Errorf("an empty %s is written\n%s\nso that entries of earlier are sealed otherwise", title, empty)
		}
	}
}

// What an entry says is sealed, all of it: each field of each kind, set alone,
// changes what the seal is over.
func TestSeal_coversEveryFieldOfEveryKind(t *testing.T) {
	// The value of a reading is one of these, by its kind.
	kinds := map[string]inspection.Kind{"Thickness": inspection.WallThickness, "Value": inspection.Barcol, "Clean": inspection.Acetone, "Softened": inspection.Acetone,
		"Resistance": inspection.ResistanceToGround}
	for _, of := range kindsOfEntries() {
		for i := range of.Elem().NumField() {
			f := of.Elem().Field(i)
			if slices.Contains(notSaid, f.Name) {
				continue
			}
			set := reflect.New(of.Elem())
			bare := reflect.New(of.Elem())
			if r, ok := set.Interface().(*record.Reading); ok {
				r.Kind = kinds[f.Name]
				bare.Interface().(*record.Reading).Kind = kinds[f.Name]
			}
			set.Elem().Field(i).Set(sample(t, f.Type))
			if content(set.Interface().(record.Any)) == content(bare.Interface().(record.Any)) {
				t.Errorf("%s.%s is not sealed", of, f.Name)
			}
		}
		for name, change := range map[string]func(*record.Entry){
			"At": func(e *record.Entry) { e.At = time.Unix(1, 0).UTC() }, "Who": func(e *record.Entry) { e.Who = "Q. One" }, "Role": func(e *record.Entry) { e.Role = "inspector" },
		} {
			set := reflect.New(of.Elem()).Interface().(record.Any)
			change(set.Head())
			if content(set) == content(reflect.New(of.Elem()).Interface().(record.Any)) {
				t.Errorf("%s.%s is not sealed", of, name)
			}
		}
	}
}

// oneOfEach are entries of each kind, with much and with little; each of them can be
// read, so that what the file has is a record.
func oneOfEach() []record.Any {
	mil := func(v float64) quantity.Length { return quantity.New(v, quantity.Mil).Spelled(quantity.Mil) }
	heat := func(v float64) quantity.Temperature {
		return quantity.New(v, quantity.Fahrenheit).Spelled(quantity.Fahrenheit)
	}
	gram := func(v float64) quantity.Mass { return quantity.New(v, quantity.Gram).Spelled(quantity.Gram) }
	load := quantity.New(75, quantity.PSI).Spelled(quantity.PSI)
	area := quantity.New(2, quantity.SquareFoot).Spelled(quantity.SquareFoot)
	day := time.Date(2026, 1, 15, 0, 0, 0, 0, time.UTC)
	struck := thick(4, 3031)
	return []record.Any{
		&record.Laid{Entry: by(1), Ply: 1},
		&record.Laid{Entry: by(2), Ply: 2, Fingerprint: "0123456789ab", MaterialLot: "M-118", ResinLot: "R-40", Initiator: laminate.Some(0.015), Promoter: laminate.Some(0.002),
			GelTime: "24 min", AirTemperature: heat(68), Humidity: laminate.Some(0.55), SurfaceTemperature: heat(66), Material: "mat-1.0", Plies: laminate.Some(2), Lap: mil(500),
			Remark: "two lines\nand a \"quote\""},
		thick(3, 236), struck,
		&record.Reading{Entry: by(5), Kind: inspection.WallThickness, Place: "cutout 1", Group: inspection.Barrier, Thickness: mil(112), Side: spec.ProcessSide, Method: "magnet", Instrument: "T-7", Witness: "P. One"},
		&record.Reading{Entry: by(6), Kind: inspection.Barcol, Value: 34.5, Side: spec.OutsideFace},
		&record.Reading{Entry: by(7), Kind: inspection.IgnitionLoss, Group: inspection.StructuralLayer, Before: gram(5.02), After: gram(1.31)},
		&record.Reading{Entry: by(8), Kind: inspection.Acetone, Clean: true},
		&record.Reading{Entry: by(9), Kind: inspection.Acetone, Softened: true},
		&record.Reading{Entry: by(10), Kind: inspection.Acetone},
		&record.Reading{Entry: by(11), Kind: inspection.ResistanceToGround, Resistance: quantity.New(4, quantity.Megohm).Spelled(quantity.Megohm)},
		&record.Reading{Entry: by(12), Kind: inspection.Visual, Area: area},
		&record.Defect{Entry: by(13), Kind: spec.Pit},
		&record.Defect{Entry: by(14), Kind: spec.Blister, Side: spec.ProcessSide, Size: mil(94), Depth: mil(12), Count: 3, Area: area, Place: "ring 1", Repaired: true},
		&record.Disposition{Entry: by(15), Requirement: "inspection.barcol", Action: record.UseAsIs, Why: "letter"},
		&record.Disposition{Entry: by(16), OfID: "pit", Action: record.Repair, Procedure: "RP-4", Why: "ground out"},
		&record.Decision{Entry: by(17), Outcome: record.Reject},
		&record.Decision{Entry: by(18), Outcome: record.AcceptAfterRepair, Covers: laminate.Some(17), Verdict: "accept", Specification: strings.Repeat("a1", 32), Schedule: strings.Repeat("b2", 32), Why: "all met"},
		&record.Struck{Entry: by(19), OfID: "struck", Why: "77 mm was 7.7"},
		&record.Adopted{Entry: by(20)},
		&record.Adopted{Entry: by(21), Why: "held against the notes"},
		&record.Joined{Entry: by(22), Why: "nothing was joined"},
		&record.Cut{Entry: by(23), Bytes: 48, Aside: "a.toml.torn-1", SHA256: strings.Repeat("c3", 32)},
		&record.Revision{Entry: by(24), Schedule: "drain.toml", Number: laminate.Some(3), Fingerprint: strings.Repeat("d4", 32), From: 3, Why: "thicker barrier"},
		&record.Dimension{Entry: by(25), What: spec.Length, Value: mil(240_000)},
		&record.Dimension{Entry: by(26), What: spec.InsideDiameter, Place: "end A", Value: mil(24_020), Instrument: "T-7", Witness: "P. One"},
		&record.Hydrotest{Entry: by(27), Medium: record.Water, Pressure: load, Held: "30 min", Leaks: laminate.Some(0)},
		&record.Hydrotest{Entry: by(28), Medium: record.Water, Pressure: load, Held: "0.5 h", Leaks: laminate.Some(1), Instrument: "P-12", Temperature: heat(68), Witness: "P. One", Remark: "at the strap"},
		&record.Instrument{Entry: by(29), Instrument: "T-7", Calibrated: day},
		&record.Instrument{Entry: by(30), Instrument: "T-7", What: "thickness gauge", Calibrated: day, Due: day.AddDate(1, 0, 0)},
		&record.PostCure{Entry: by(31), Temperature: heat(180), Held: "4 h"},
		&record.PostCure{Entry: by(32), Temperature: heat(180), Held: "4 h", Instrument: "L-3", Remark: "logged"},
		&record.Hold{Entry: by(33), Point: "barrier gelled", Passed: laminate.Some(false)},
		&record.Hold{Entry: by(34), Point: "barrier gelled", Passed: laminate.Some(true), Witness: "P. One", Remark: "the second time"},
		&record.Specimen{Entry: by(39), Mark: "D-17/A"},
		&record.Specimen{Entry: by(40), Mark: "D-17/B", Place: "N2", Group: inspection.Barrier, Kept: "shelf 4", Until: day.AddDate(10, 0, 0), Remark: "sealed in a bag"},
		&record.Photograph{Entry: by(41), File: "d-17.jpg"},
		&record.Photograph{Entry: by(42), File: "d-17-inside.jpg", Shows: "inner surface", Place: "ring 1", Remark: "before the repair"},
		&record.Preparation{Entry: by(35), Abraded: laminate.Some(false)},
		&record.Preparation{Entry: by(36), Onto: "J1", Abraded: laminate.Some(true), Finish: "36 grit, dull", Remark: "dust taken off"},
		&record.Marked{Entry: by(43), Serial: "D-17"},
		&record.Marked{Entry: by(44), Serial: "D-17", Remark: "the plate came later"},
		&record.Bond{Entry: by(37)},
		&record.Bond{Entry: by(38), Onto: "J1", Gelled: day, Bonder: "B. One", Qualification: "list 4", Remark: "strap"},
	}
}

// Entries that were sealed once verify in every later version of the program: the
// file was written when each kind came to be, and is only ever added to. With
// UPDATE_SEALS=1 what came to be since is added.
func TestSeal_ofEntriesThatWereKeptStaysWhatItWas(t *testing.T) {
	kept, err := os.ReadFile(sealsFile)
	if err != nil {
		kept = RecordHead(&record.Record{Schedule: "drain.toml", ScheduleRevision: laminate.Some(2), ScheduleFingerprint: strings.Repeat("5f", 32), Serial: "D-17"})
	}
	r, torn, problems := DecodeRecord(kept)
	if len(problems) > 0 || torn != "" || !r.Trail.Sound() {
		t.Fatalf("%s does not verify any more: %v %q %+v", sealsFile, problems, torn, r)
	}
	there := map[reflect.Type]bool{}
	for _, e := range r.Entries() {
		there[reflect.TypeOf(e)] = true
	}
	var added []byte
	last := r.Trail.Last
	ids := map[string]string{}
	for n, e := range oneOfEach() {
		if there[reflect.TypeOf(e)] {
			continue
		}
		switch x := e.(type) {
		case *record.Struck:
			x.OfID = ids[x.OfID]
		case *record.Disposition:
			x.OfID = ids[x.OfID]
		}
		added = append(added, SealEntry(e, last)...)
		last = record.Next(last, e.Head().Content)
		switch n {
		case 3:
			ids["struck"] = e.Head().ID
		case 12:
			ids["pit"] = e.Head().ID
		}
	}
	switch {
	case added == nil:
	case os.Getenv("UPDATE_SEALS") == "":
		t.Errorf("kinds of entries are not in %s; UPDATE_SEALS=1 adds\n%s", sealsFile, added)
	default:
		if err := os.WriteFile(sealsFile, append(kept, added...), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
