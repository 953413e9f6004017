package overlay_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
)

func job() *laminate.Job {
	in := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	return &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "wall", Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 4}}}, {ID: "strap", Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 3}}}, {ID: "bare"}},
		Parts: []laminate.JobPart{{ID: "a", Laminate: "wall", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: in(24)}},
			{ID: "b", Laminate: "wall", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: in(24)}}},
		Joints:  []laminate.Joint{{ID: "X", Between: [2]string{"a", "b"}, Outside: "strap", FirstWidth: in(2), Width: in(8)}},
		Nozzles: []laminate.Nozzle{{ID: "X", On: "b", Pad: "bare", Neck: "strap"}},
	}
}

// Each that is named is found by what a record says of it, whatever else has the
// same id, and stands on the ground of its own.
func TestFind_isTheOneThatIsNamed(t *testing.T) {
	j, lib := job(), catalog.Library()
	for _, o := range overlay.All(j) {
		got, err := overlay.Find(j, o.Part, o.Of, o.Kind)
		if why := o.Lacks(j); why != "" {
			if err == nil || !strings.Contains(err.Error(), why) {
				t.Errorf("%s: %v, want %q", o.Name(), err, why)
			}
			continue
		}
		if err != nil || got != o {
			t.Errorf("%s: %+v, %v", o.Name(), got, err)
		}
	}
	strap, err := overlay.Find(j, "b", "X", overlay.Strap)
	if err != nil || strap.Name() != "joint X, strap" || strap.Schedule(j).NumberOfPlies() != 3 || len(strap.Faces(j)) != 2 {
		t.Fatalf("%+v, %v", strap, err)
	}
	got, err := strap.Ground(j, lib)
	want, _ := ground.OfStrap(j, &j.Joints[0], laminate.Analyze(strap.Schedule(j), lib), lib)
	if err != nil || got.Across(1, 0) != want.Across(1, 0) {
		t.Errorf("%v", err)
	}
	if neck, err := overlay.Find(j, "", "X", overlay.Neck); err != nil || len(neck.Faces(j)) != 0 || neck.Name() != "nozzle X, neck" {
		t.Errorf("%+v, %v", neck, err)
	}
}

func TestFind_saysInOneSentenceWhyNot(t *testing.T) {
	j := job()
	for _, c := range []struct {
		part, of string
		kind     overlay.Kind
		says     string
	}{
		{"", "Y", overlay.Strap, `neither a joint nor a nozzle with the id "Y"`},
		{"", "X", overlay.None, "several laminates at X"},
		{"", "X", overlay.Seal, "joint X names no laminate for its seal (inside)"},
		{"", "X", overlay.Pad, "laminate bare of nozzle X, pad, has no ply"},
		{"a", "X", overlay.Neck, "nozzle X on part b, and not on a"},
		{"a", "", overlay.Knuckle, "has no overlay knuckle at a"},
	} {
		if _, err := overlay.Find(j, c.part, c.of, c.kind); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
