package acceptance

import (
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
)

// numbered counts the entries of a part anew, measurements first or last.
func numbered(r *record.Record, measuredFirst bool) {
	n := 0
	count := func(e *record.Entry) { n++; e.Number = n }
	ticks := func() {
		for i := range r.Laid {
			count(&r.Laid[i].Entry)
		}
	}
	if !measuredFirst {
		ticks()
	}
	for i := range r.Instruments {
		count(&r.Instruments[i].Entry)
	}
	for i := range r.Readings {
		count(&r.Readings[i].Entry)
	}
	for i := range r.Defects {
		count(&r.Defects[i].Entry)
	}
	for i := range r.Dimensions {
		count(&r.Dimensions[i].Entry)
	}
	for i := range r.PostCures {
		count(&r.PostCures[i].Entry)
	}
	for i := range r.Hydrotests {
		count(&r.Hydrotests[i].Entry)
	}
	for i := range r.Holds {
		count(&r.Holds[i].Entry)
	}
	if measuredFirst {
		ticks()
	}
}

// Everything measured before the first ply: nothing of it says anything of the part.
func TestSequence_whatIsMeasuredWasLaid(t *testing.T) {
	r, d := whole()
	numbered(r, false)
	if got := not(compare(header(), d, r)); got["record.sequence"] != Meets {
		t.Errorf("measured after: %v", got)
	}
	numbered(r, true)
	for _, l := range keyed(t, compare(header(), d, r), "record.sequence") {
		if l.Verdict != Incomplete || !strings.Contains(l.Found, "before ply 9 in entry") {
			t.Errorf("%s: %s", l.Verdict, l.Found)
		}
	}
	// The barrier measured when it was there, before the structure, is as good as ever.
	r, d = whole()
	numbered(r, false)
	late := r.Laid[len(r.Laid)-1].Number
	for i := range r.Readings {
		if x := &r.Readings[i]; x.Kind == inspection.IgnitionLoss {
			x.Number = 3 // as the third ply, the last of the barrier, was
		}
	}
	if got := not(compare(header(), d, r)); got["record.sequence"] != Meets {
		t.Errorf("a barrier measured before entry %d: %v", late, got)
	}
}

// A point is passed when what lies before it is there, and again when that was laid anew.
func TestHold_isPassedWhenWhatItHoldsIsThere(t *testing.T) {
	point := spec.Hold{Point: "barrier complete", BeforePly: laminate.Some(4)}
	for name, c := range map[string]struct {
		change func(r *record.Record, h *record.Hold)
		found  string
	}{
		"in time":   {func(*record.Record, *record.Hold) {}, ""},
		"too early": {func(_ *record.Record, h *record.Hold) { h.Number = 1 }, "was laid in entry"},
		"laid anew": {func(r *record.Record, h *record.Hold) {
			again := r.Laid[2]
			r.Laid[2].Struck, again.Number = true, h.Number+1
			for i := 3; i < len(r.Laid); i++ {
				r.Laid[i].Number += 5
			}
			r.Laid = append(r.Laid[:3:3], append([]record.Laid{again}, r.Laid[3:]...)...)
		}, "ply 3, which lies before it, was laid in entry"},
		"not checked off": {func(r *record.Record, _ *record.Hold) { r.Laid[1].Struck = true }, "with 2 of 3 plies before it checked off"},
		"laid at once":    {func(_ *record.Record, h *record.Hold) { h.At = h.At.Add(15*time.Minute - 12*time.Second) }, "checked off 12s later: it was laid before"},
	} {
		r := ordered()
		for i := 3; i < len(r.Laid); i++ {
			r.Laid[i].Number += 10
		}
		h := record.Hold{Entry: record.Entry{Number: 5, At: r.Laid[2].At, Who: "Q. One"}, Point: point.Point, Passed: laminate.Some(true)}
		c.change(r, &h)
		r.Holds = []record.Hold{h}
		d := &spec.Specification{Inspection: spec.Inspection{Holds: []spec.Hold{point}}}
		l := keyed(t, compare(header(), d, r), "inspection.hold")[0]
		if want := map[bool]Verdict{true: Meets, false: Incomplete}[c.found == ""]; l.Verdict != want || !strings.Contains(l.Found, c.found) {
			t.Errorf("%s: %s, %s", name, l.Verdict, l.Found)
		}
		if held := len(holdpoint.Holding(d, report(header()), r, 4)) > 0; held != (c.found != "" && name != "laid at once") {
			t.Errorf("%s: held %v before ply 4", name, held)
		}
	}
}

// What is bad stays in sight though nobody asked for it, until somebody disposes of it.
func TestCompare_badResultsThatNobodyAskedForStayOpen(t *testing.T) {
	for name, bad := range map[string]func(r *record.Record) int{
		"tacky": func(r *record.Record) int {
			r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.Acetone, Place: "A1"})
			return next(r) - 1
		},
		"not passed": func(r *record.Record) int {
			r.Holds = append(r.Holds, record.Hold{Entry: record.Entry{Number: next(r)}, Point: "dry spots", Passed: laminate.Some(false)})
			return next(r) - 1
		},
		"coat first": func(r *record.Record) int {
			r.Laid[8].Remark = record.CoatedFirst + "J1: to be ground off where they bond"
			return 9
		},
	} {
		r := ordered()
		r.Defects = nil
		d := &spec.Specification{Total: spec.Thickness{Lowest: quantity.New(0.1, quantity.Inch)}}
		if got := compare(header(), d, r); got.Answer != Accept {
			t.Fatalf("%s: %s before, %v", name, got.Answer, not(got))
		}
		number := bad(r)
		got := compare(header(), d, r)
		if l := keyed(t, got, keyNonconformance); got.Answer != Undetermined || len(l) != 1 {
			t.Errorf("%s: %s, %v", name, got.Answer, l)
		}
		dispose(r, record.Disposition{Of: number, Action: record.Repair})
		if name == "tacky" { // and wiped again
			r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.Acetone, Place: "A1", Clean: true})
		}
		if got := compare(header(), d, r); got.Answer != Accept {
			t.Errorf("%s, disposed of: %s, %v", name, got.Answer, not(got))
		}
	}
	r := ordered()
	r.Defects = nil
	for i := range r.Readings {
		if x := &r.Readings[i]; x.Kind == inspection.WallThickness {
			x.Thickness = quantity.New(20, quantity.Mil)
		}
	}
	if got := not(compare(header(), nil, r)); got[keyNonconformance] != Incomplete {
		t.Errorf("20 mil of a wall: %v", got)
	}
}

// What schedule and specification both state is one figure.
func TestCompare_holdsWhatBothState(t *testing.T) {
	for name, c := range map[string]struct {
		state func(s *laminate.Schedule, d *spec.Inspection)
		key   string
		want  Verdict
	}{
		"the test": {func(s *laminate.Schedule, d *spec.Inspection) {
			s.Service.TestPressure, d.Hydrotest.Pressure = psi(45), psi(45)
		}, "inspection.hydrotest scheduled", Meets},
		"a tenth of it": {func(s *laminate.Schedule, d *spec.Inspection) {
			s.Service.TestPressure, d.Hydrotest.Pressure = psi(45), psi(450)
		}, "inspection.hydrotest scheduled", Fails},
		"ten times": {func(s *laminate.Schedule, d *spec.Inspection) {
			s.Service.TestPressure, d.Hydrotest.Pressure = psi(45), psi(4.5)
		}, "inspection.hydrotest scheduled", Incomplete},
		"a diameter": {func(s *laminate.Schedule, d *spec.Inspection) {
			s.Part.InsideDiameter = inches(24)
			d.Dimensions = []spec.Dimension{{What: spec.InsideDiameter, Value: spec.Bounds{Lowest: inches(2.39), Highest: inches(2.41)}}}
		}, "inspection.dimension scheduled", Fails},
		"a hold that is never reached": {func(_ *laminate.Schedule, d *spec.Inspection) {
			d.Holds = []spec.Hold{{Point: "barrier complete", BeforePly: laminate.Some(40)}}
		}, "inspection.hold scheduled", Fails},
		"degrees C for F": {func(_ *laminate.Schedule, d *spec.Inspection) {
			d.PostCure.Temperature = quantity.New(180, quantity.Celsius)
		}, "inspection.post_cure scheduled", Incomplete},
		"a usual post-cure": {func(_ *laminate.Schedule, d *spec.Inspection) {
			d.PostCure.Temperature = quantity.New(180, quantity.Fahrenheit)
		}, "inspection.post_cure scheduled", Meets},
	} {
		s, d := header(), &spec.Specification{}
		c.state(s, &d.Inspection)
		if l := keyed(t, compare(s, d, nil), c.key); len(l) != 1 || l[0].Verdict != c.want {
			t.Errorf("%s: %+v", name, l)
		}
	}
	r, d := whole()
	r.Hydrotests[0].Pressure = psi(150)
	if l := keyed(t, compare(header(), d, r), "inspection.hydrotest")[0]; l.Verdict != Incomplete || !strings.Contains(l.Found, "far above") {
		t.Errorf("tested at twice: %s, %s", l.Verdict, l.Found)
	}
}

// What was taken back stays in sight; what was bad is measured again.
func TestStruck_isToldAndMeasuredAgain(t *testing.T) {
	r, d := whole()
	wrong := record.Reading{Entry: record.Entry{Number: next(r), Struck: true}, Kind: inspection.Barcol, Place: "A1", Value: 5}
	r.Readings = append(r.Readings, wrong)
	r.Struck = append(r.Struck, record.Struck{Entry: record.Entry{Number: next(r), Who: "Q. One", Role: "inspector"}, Of: wrong.Number, Why: "x"})
	if l := keyed(t, compare(header(), d, r), "record.struck"); len(l) != 1 || l[0].Verdict != Incomplete || !strings.Contains(l[0].Found, "by Q. One (inspector): x") {
		t.Errorf("%+v", l)
	}
	r.Readings = append(r.Readings, record.Reading{Entry: record.Entry{Number: next(r)}, Kind: inspection.Barcol, Place: "a1 ", Value: 33})
	got := compare(header(), d, r)
	if lines := not(got); lines["record.struck"] != Meets || !strings.Contains(strings.Join(got.Notes, "\n"), "barcol at A1, 5.0, struck in entry") {
		t.Errorf("measured again: %v\n%s", lines, strings.Join(got.Notes, "\n"))
	}
}
