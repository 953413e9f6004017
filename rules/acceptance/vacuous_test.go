package acceptance

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// An empty record meets nothing that the specification requires of what is measured:
// there is nothing there that it could be true of.
func TestCompare_anEmptyRecordMeetsNoRequirement(t *testing.T) {
	_, d := whole()
	d.Inspection.Plans = []spec.Plan{{Of: inspection.Barcol, Places: "A, B"}}
	d.Inspection.AcceptanceLevel = "II"
	got := compare(header(), d, &record.Record{ScheduleSHA256: "ab12", Serial: "H-1"})
	for _, l := range got.Lines {
		if l.Verdict == Meets && !strings.HasSuffix(l.Key, " scheduled") && (strings.HasPrefix(l.Key, "inspection.") || strings.HasPrefix(l.Key, "plan.") || strings.HasSuffix(l.Key, " measured")) {
			t.Errorf("%s: %s: %s, with nothing recorded", l.Key, l.Demand, l.Found)
		}
	}
	for _, l := range keyed(t, got, "inspection.calibrated") {
		if l.Verdict != Incomplete || l.Found != "nothing measured with an instrument is recorded" {
			t.Errorf("%s: %s", l.Verdict, l.Found)
		}
	}
}

// A wipe and a look need no instrument; nor is any of them calibrated by that.
func TestCalibrated_needsSomethingThatWasMeasured(t *testing.T) {
	r := laidPly()
	for i := range r.Readings {
		r.Readings[i].Struck = r.Readings[i].Kind != inspection.Acetone && r.Readings[i].Kind != inspection.Visual
	}
	d := &spec.Specification{Inspection: spec.Inspection{Calibrated: laminate.Some(true)}}
	if got := not(compare(header(), d, r)); got["inspection.calibrated"] != Incomplete {
		t.Errorf("no instrument was used: %v", got)
	}
}

// What is said of all plies of a part of the wall is not met where it has none.
func TestCompare_ofPliesThatAreNotThere(t *testing.T) {
	for key, d := range map[string]*spec.Specification{
		"barrier.conductive":  {Barrier: spec.Barrier{Conductive: laminate.Some(false)}},
		"barrier.thickness":   {Barrier: spec.Barrier{Thickness: spec.Thickness{Highest: quantity.New(140, quantity.Mil)}}},
		"structure.forms":     {Structure: spec.Structure{Forms: []laminate.Form{laminate.RovingBand}}},
		"structure.thickness": {Structure: spec.Structure{Thickness: spec.Thickness{Highest: quantity.New(1, quantity.Inch)}}},
		"total.thickness":     {Total: spec.Thickness{Highest: quantity.New(1, quantity.Inch)}},
	} {
		s := header()
		if s.Plies = nil; strings.HasPrefix(key, "structure") {
			s.Plies = header().Plies[:1]
		}
		if got := not(compare(s, d, nil)); got[key] != Fails {
			t.Errorf("%s of plies that are not there: %v", key, got)
		}
	}
	none := header()
	none.Plies = nil
	d := &spec.Specification{Inspection: spec.Inspection{LayupRecord: laminate.Some(true)}}
	if got := not(compare(none, d, &record.Record{ScheduleSHA256: "ab12"})); got["inspection.layup_record"] != Incomplete {
		t.Errorf("every one of no plies checked off: %v", got)
	}
	unknown := header()
	unknown.Plies[1].Material, unknown.Plies[1].Zone = "no-such-mat", laminate.InteriorLayer
	if got := not(compare(unknown, &spec.Specification{Barrier: spec.Barrier{Conductive: laminate.Some(false)}}, nil)); got["barrier.conductive"] != Incomplete {
		t.Errorf("no carbon in what nobody knows: %v", got)
	}
}

// Whoever enters a hold point, a test or a reading is not its witness, unless that is
// the role that is required; the witness is named in what was found.
func TestWitness_isSomebodyElseThanWhoEnters(t *testing.T) {
	for _, c := range []struct {
		who, role, witness string
		want               Verdict
	}{
		{"5", "laminator", "5, purchaser", Incomplete},
		{"5", "laminator", "Purchaser 5", Incomplete},
		{"A. Fox", "inspector", "fox, purchaser", Incomplete},
		{"5", "laminator", "15, purchaser", Meets},
		{"A. Fox", "inspector", "B. Fox, purchaser", Meets},
		{"P. Buyer", "purchaser", "P. Buyer, purchaser", Meets},
	} {
		r, d := whole()
		d.Inspection.Plans = []spec.Plan{{Of: inspection.Acetone, Witness: "purchaser"}}
		by := func(e *record.Entry) { e.Who, e.Role = c.who, c.role }
		by(&r.Holds[0].Entry)
		by(&r.Hydrotests[0].Entry)
		r.Holds[0].Witness, r.Hydrotests[0].Witness = c.witness, c.witness
		for i := range r.Readings {
			if x := &r.Readings[i]; x.Kind == inspection.Acetone {
				by(&x.Entry)
				x.Witness = c.witness
			}
		}
		got := compare(header(), d, r)
		for _, key := range []string{"inspection.hold", "inspection.hydrotest", "plan.acetone"} {
			for _, l := range keyed(t, got, key) {
				if l.Verdict != c.want {
					t.Errorf("%s by %s (%s), witness %q: %s, %s", key, c.who, c.role, c.witness, l.Verdict, l.Found)
				}
			}
		}
		if l := keyed(t, got, "inspection.hold")[0]; c.want == Meets && !strings.Contains(l.Found, "witnessed by "+c.witness) {
			t.Errorf("found says %q", l.Found)
		}
	}
}

// A ply that was laid of something else is not what the schedule has: the lines about
// it go by what was laid, and the schedule is still answered for by itself.
func TestCompare_goesByWhatWasLaid(t *testing.T) {
	r := laidPly()
	r.Laid[0].Material = "chop-1.5"
	got := compare(header(), inspected(), r)
	for key, found := range map[string]string{
		"barrier.veil_fiber": "as laid no veil in the inner surface; as scheduled c-glass",
		"barrier.veil_plies": "as laid 0 veil plies; as scheduled 1 veil ply",
	} {
		if l := keyed(t, got, key)[0]; l.Verdict != Fails || l.Found != found || len(l.Plies) != 1 || l.Plies[0] != 1 {
			t.Errorf("%s: %s, %q, plies %v", key, l.Verdict, l.Found, l.Plies)
		}
	}
	if got.Schedule != Conforms || got.Part != Reject {
		t.Errorf("schedule %s, part %s", got.Schedule, got.Part)
	}
	r.Laid[0].Struck = true
	again := r.Laid[0]
	again.Struck, again.Material, again.Number = false, "", 50
	r.Laid = append(r.Laid, again)
	if l := keyed(t, compare(header(), inspected(), r), "barrier.veil_fiber")[0]; l.Verdict != Meets || l.Found != "c-glass" {
		t.Errorf("struck and laid again: %s, %q", l.Verdict, l.Found)
	}
	left := laidPly()
	left.Laid[2].Plies = laminate.Some(0)
	if l := keyed(t, compare(header(), inspected(), left), "barrier.mat_plies")[0]; l.Verdict != Fails {
		t.Errorf("a mat left out: %s, %q", l.Verdict, l.Found)
	}
	for _, l := range compare(header(), inspected(), laidPly()).Lines {
		if strings.Contains(l.Found, "as laid") {
			t.Errorf("nothing was laid otherwise: %s: %s", l.Key, l.Found)
		}
	}
}
