package acceptance

import (
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
)

func psi(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI).Spelled(quantity.PSI) }

func inches(v float64) quantity.Length {
	return quantity.New(v, quantity.Inch).Spelled(quantity.Inch)
}

// whole is a part of which everything that can be demanded is demanded and recorded.
func whole() (*record.Record, *spec.Specification) {
	r, d := ordered(), inspected()
	at := time.Date(2026, 3, 9, 8, 0, 0, 0, time.UTC)
	entry := func() record.Entry { return record.Entry{Number: next(r), At: at, Who: "Q. One", Role: "inspector"} }
	d.Inspection.Calibrated = laminate.Some(true)
	d.Inspection.Dimensions = []spec.Dimension{{What: spec.InsideDiameter, Value: spec.Bounds{Lowest: inches(23.9), Highest: inches(24.1)}, Places: "end A, end B"}}
	d.Inspection.Hydrotest = spec.Hydrotest{Pressure: psi(75), Held: "30 min", Witness: "purchaser"}
	d.Inspection.PostCure = spec.PostCure{Temperature: quantity.New(180, quantity.Fahrenheit), Held: "4 h"}
	d.Inspection.Holds = []spec.Hold{{Point: "ready to ship", Witness: "purchaser"}}
	for _, name := range []string{"T-7", "G-12"} {
		r.Instruments = append(r.Instruments, record.Instrument{Entry: entry(), Instrument: name, Calibrated: at.AddDate(0, -1, 0), Due: at.AddDate(0, 11, 0)})
	}
	for i := range r.Readings {
		r.Readings[i].Instrument, r.Readings[i].At = "T-7", at
	}
	for _, place := range []string{"end A", "End B"} {
		r.Dimensions = append(r.Dimensions, record.Dimension{Entry: entry(), What: spec.InsideDiameter, Place: place, Value: inches(24.02), Instrument: "T-7"})
	}
	r.PostCures = []record.PostCure{{Entry: entry(), Temperature: quantity.New(185, quantity.Fahrenheit), Held: "250 min", Instrument: "T-7"}}
	r.Hydrotests = []record.Hydrotest{{Entry: entry(), Medium: record.Water, Pressure: psi(75), Held: "0.5 h", Leaks: laminate.Some(0), Instrument: "G-12", Witness: "Purchaser's inspector"}}
	r.Holds = []record.Hold{{Entry: entry(), Point: "Ready to ship", Passed: laminate.Some(true), Witness: "purchaser"}}
	return r, d
}

func TestFinished_everythingDemandedAndRecordedIsAccepted(t *testing.T) {
	r, d := whole()
	if res := compare(header(), d, r); res.Part != Accept {
		t.Fatalf("%s: %v", res.Part, not(res))
	}
}

// Each thing that can be wrong with the rest of the part, alone.
func TestFinished_eachFailsAlone(t *testing.T) {
	for what, c := range map[string]struct {
		key  string
		want Verdict
		do   func(r *record.Record, d *spec.Specification)
	}{
		"diameter out":          {"inspection.dimension", Fails, func(r *record.Record, _ *spec.Specification) { r.Dimensions[1].Value = inches(24.11) }},
		"diameter not measured": {"inspection.dimension", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Dimensions[1].Place = "end C" }},
		"no test":               {"inspection.hydrotest", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Hydrotests = nil }},
		"too low":               {"inspection.hydrotest", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Hydrotests[0].Pressure = psi(74) }},
		"too short":             {"inspection.hydrotest", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Hydrotests[0].Held = "29 min" }},
		"nobody there":          {"inspection.hydrotest", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Hydrotests[0].Witness = "" }},
		"it leaks":              {"inspection.hydrotest", Fails, func(r *record.Record, _ *spec.Specification) { r.Hydrotests[0].Leaks = laminate.Some(1) }},
		"not cured enough":      {"inspection.post_cure", Incomplete, func(r *record.Record, _ *spec.Specification) { r.PostCures[0].Held = "3 h" }},
		"not cured hot enough": {"inspection.post_cure", Incomplete, func(r *record.Record, _ *spec.Specification) {
			r.PostCures[0].Temperature = quantity.New(170, quantity.Fahrenheit)
		}},
		"not passed":             {"inspection.hold", Fails, func(r *record.Record, _ *spec.Specification) { r.Holds[0].Passed = laminate.Some(false) }},
		"not come to":            {"inspection.hold", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Holds[0].Struck = true }},
		"passed without witness": {"inspection.hold", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Holds[0].Witness = "" }},
		"passed by nobody":       {"inspection.hold", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Holds[0].Who = "" }},
		"laid past it":           {"inspection.hold", Fails, func(_ *record.Record, d *spec.Specification) { d.Inspection.Holds[0].BeforePly = laminate.Some(4) }},
		"calibration ran out": {"inspection.calibrated", Incomplete, func(r *record.Record, _ *spec.Specification) {
			r.Instruments[0].Due = r.Instruments[0].Calibrated.AddDate(0, 0, 7)
		}},
		"no calibration":  {"inspection.calibrated", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Instruments = r.Instruments[:1] }},
		"gauge not named": {"inspection.calibrated", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Readings[0].Instrument = "" }},
		"no serial":       {"record.serial", Incomplete, func(r *record.Record, _ *spec.Specification) { r.Serial = " " }},
	} {
		r, d := whole()
		c.do(r, d)
		res := compare(header(), d, r)
		if got := not(res); got[c.key] != c.want || c.want == Incomplete && len(got) != 1 {
			t.Errorf("%s: %v", what, got)
		}
	}
	r, d := whole()
	in := Input{Report: report(header()), Library: nil, SHA256: "ab12", Fingerprint: "cd34", Specification: d, Record: r, SameSerial: []string{"h-2.toml"}}
	if got := not(Compare(in)); got["record.serial"] != Incomplete {
		t.Errorf("another part's serial: %v", got)
	}
}

// A leak is repaired and the part tested again: the first test stays in sight.
func TestHydrotest_aLeakIsAnsweredByALaterTest(t *testing.T) {
	r, d := whole()
	first := &r.Hydrotests[0]
	first.Leaks = laminate.Some(2)
	dispose(r, record.Disposition{Of: first.Number, Action: record.Repair, Procedure: "RP-4", Why: "strap ground out"})
	if got := not(compare(header(), d, r)); got["inspection.hydrotest"] != Fails || got[keyNonconformance] != Incomplete {
		t.Errorf("not tested again: %v", got)
	}
	again := *first
	again.Number, again.Leaks = next(r), laminate.Some(0)
	r.Hydrotests = append(r.Hydrotests, again)
	res := compare(header(), d, r)
	if got := not(res); len(got) > 0 || !strings.Contains(strings.Join(res.Notes, "\n"), "2 leaks at 75 psi: repair") {
		t.Errorf("tested again: %v\n%s", got, strings.Join(res.Notes, "\n"))
	}
}

// What nobody demanded never rejects.
func TestFinished_whatIsNotDemandedIsANote(t *testing.T) {
	r, _ := whole()
	d := inspected()
	r.PostCures[0].Held, r.Hydrotests[0].Pressure = "1 h", psi(5)
	r.Dimensions[0].Value = inches(1)
	r.Instruments = nil
	res := compare(header(), d, r)
	if res.Part != Accept || !strings.Contains(strings.Join(res.Notes, "\n"), "calibration: T-7") {
		t.Errorf("%s: %v\n%s", res.Part, not(res), strings.Join(res.Notes, "\n"))
	}
}

// Before ply 4 of the header, 9 single plies: what the record says, by how far it is
// laid and from which side, and whether the next ply stops.
func TestHold_isDueWhenThePlyBeforeItIsLaid(t *testing.T) {
	d := &spec.Specification{Inspection: spec.Inspection{Holds: []spec.Hold{{Point: "barrier complete", BeforePly: laminate.Some(4), Witness: "purchaser"}}}}
	at := time.Date(2026, 3, 9, 8, 0, 0, 0, time.UTC)
	built := func(plies ...int) *record.Record {
		r := &record.Record{Serial: "H-1"}
		for _, n := range plies {
			r.Laid = append(r.Laid, record.Laid{Entry: record.Entry{Number: next(r), At: at, Who: "Q. One"}, Ply: n})
		}
		return r
	}
	passed := func(r *record.Record, who, witness string) *record.Record {
		r.Holds = append(r.Holds, record.Hold{Entry: record.Entry{Number: next(r), At: at, Who: who}, Point: " Barrier complete", Passed: laminate.Some(true), Witness: witness})
		return r
	}
	for _, c := range []struct {
		from  laminate.LaidOrder
		r     *record.Record
		found string
		stops []int // plies that stop
	}{
		{laminate.NoLaidOrder, built(), "not come to", []int{4, 9}},
		{laminate.NoLaidOrder, built(1, 3), "not come to", []int{4, 9}},
		{laminate.NoLaidOrder, built(1, 2, 3), "due: the next ply", []int{4, 9}},
		{laminate.NoLaidOrder, built(1, 2, 3, 4), "laid past it in entry 4", []int{4, 9}},
		{laminate.NoLaidOrder, passed(built(1, 2, 3), "Q. One", "A. Two, Purchaser"), "passed in entry 4", nil},
		{laminate.NoLaidOrder, passed(built(1, 2, 3), "", "A. Two, purchaser"), "by nobody named", []int{4, 9}},
		{laminate.NoLaidOrder, passed(built(1, 2, 3), "Q. One", ""), "without that witness", []int{4, 9}},
		{laminate.OutsideIn, built(9, 8, 7, 6), "not come to", []int{4, 1}},
		{laminate.OutsideIn, built(9, 8, 7, 6, 5), "due: the next ply", []int{4, 1}},
		{laminate.OutsideIn, built(9, 8, 7, 6, 5, 4), "laid past it in entry 6", []int{4, 1}},
	} {
		j := report(header())
		j.Laid = c.from
		var stops []int
		for _, n := range []int{3, 4, 5, 9, 1} {
			if len(holdpoint.Holding(d, j, c.r, n)) > 0 {
				stops = append(stops, n)
			}
		}
		if c.stops != nil && (!slices.Contains(stops, c.stops[0]) || !slices.Contains(stops, c.stops[1]) || len(stops) != 3) || c.stops == nil && stops != nil {
			t.Errorf("%v, %d laid: plies %v stop", c.from, len(c.r.Laid), stops)
		}
		for _, l := range Compare(Input{Report: j, Specification: d, Record: c.r}).Lines {
			if l.Key == "inspection.hold" && !strings.HasPrefix(l.Found, c.found) && !strings.Contains(l.Found, c.found) {
				t.Errorf("%v, %d laid: %s", c.from, len(c.r.Laid), l.Found)
			}
		}
	}
	d.Inspection.Holds[0].BeforePly.Value = 10
	for _, l := range Compare(Input{Report: report(header()), Specification: d, Record: built(1)}).Lines {
		if l.Key == "inspection.hold" && l.Found != "the schedule has no ply 10: when it is due cannot be determined" {
			t.Error(l.Found)
		}
	}
}
