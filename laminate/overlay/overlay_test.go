package overlay_test

import (
	"slices"
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

// The reinforcement of a corner lies on the bottom and on the wall beside it, and a waxed
// coat of either comes after it.
func TestLastCoat_comesAfterTheKnuckle(t *testing.T) {
	j, lib := job(), catalog.Library()
	j.Laminates[0].Plies = append(j.Laminates[0].Plies, laminate.Ply{Material: catalog.Topcoat, Resin: "r", Count: 1})
	bottom := laminate.JobPart{ID: "bottom", Laminate: "wall", Knuckle: "strap", Part: laminate.Part{Form: laminate.FlatBottom}}
	j.Parts[0].Form, j.Parts[1].Form = laminate.ShellCourse, laminate.ShellCourse
	for name, c := range map[string]struct {
		at   int
		want [3]string
	}{
		"below": {0, [3]string{"the knuckle of bottom", "X, the knuckle of bottom", "X"}},
		"above": {2, [3]string{"X", "X, the knuckle of bottom", "the knuckle of bottom"}},
	} {
		n := j.Clone()
		n.Parts = slices.Insert(n.Parts, c.at, bottom)
		for i := range n.Parts {
			got := ""
			if coat := overlay.LastCoat(n, i, laminate.Analyze(n.Wall(i), lib)); coat != nil {
				got = coat.Before()
			}
			if got != c.want[i] {
				t.Errorf("%s: part %s: after %q, want %q", name, n.Parts[i].ID, got, c.want[i])
			}
		}
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

// The coat of an overlay waits for what is bonded onto it, and for nothing else.
func TestOverlayLastCoat_comesAfterWhatIsBondedOntoIt(t *testing.T) {
	j, lib := job(), catalog.Library()
	j.Laminates[1].Plies = append(j.Laminates[1].Plies, laminate.Ply{Material: catalog.Topcoat, Resin: "r", Count: 1})
	n := &j.Nozzles[0]
	n.Pad, n.InstallationOutside, n.InstallationInside, n.Gussets = "strap", "strap", "strap", laminate.Some(4)
	said := func(kind overlay.Kind) string {
		o, err := overlay.Find(j, "", "X", kind)
		if err != nil {
			t.Fatal(err)
		}
		if c := o.LastCoat(j, laminate.Analyze(o.Schedule(j), lib)); c != nil {
			return c.Before()
		}
		return ""
	}
	for kind, want := range map[overlay.Kind]string{overlay.Strap: "", overlay.Neck: "its pad, its overlay outside, its gussets", overlay.LaidOutside: "its gussets", overlay.Pad: "", overlay.LaidInside: ""} {
		if got := said(kind); got != want {
			t.Errorf("%s: after %q, want %q", kind, got, want)
		}
	}
	n.InstallationOutside = ""
	j.Parts[0].Form, j.Parts[0].Knuckle = laminate.FlatBottom, "strap"
	for kind, want := range map[overlay.Kind]string{overlay.Strap: "the knuckle of a", overlay.Pad: "its gussets"} {
		if got := said(kind); got != want {
			t.Errorf("%s under a knuckle or gussets: after %q, want %q", kind, got, want)
		}
	}
	j.Laminates[1].Plies = j.Laminates[1].Plies[:1]
	if got := said(overlay.Strap); got != "" {
		t.Errorf("no coat waits for %q", got)
	}
}
