package overlay_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
)

// shared is a job whose laminates are named by parts, a joint and nozzles, one of
// them by both and one by nothing.
func shared() *laminate.Job {
	j := job()
	j.Title = "a line"
	j.Service = laminate.Service{Fluid: "brine", Pressure: quantity.New(5, quantity.PSI)}
	j.Vessel.LiquidHeight = quantity.New(9, quantity.Foot)
	j.Parts[0].Pressure = quantity.New(8, quantity.PSI)
	j.Laminates = append(j.Laminates, laminate.Laminate{ID: "seal", Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 5}, {Material: catalog.VeilC15, Resin: "r", Count: 1}}}, laminate.Laminate{ID: "spare"})
	j.Joints[0].Inside = "seal"
	j.Nozzles[0].Neck = "wall"
	return j
}

// lendable draws something of a job that is worked at by itself.
func lendable(t *rapid.T, j *laminate.Job) overlay.Overlay {
	list := append(overlay.All(j), overlay.Named(j, "spare"))
	return rapid.SampledFrom(list).Draw(t, "overlay")
}

// With what it has itself the job is itself; with other plies that laminate alone is
// another, and parts, joints and nozzles are untouched whatever changes.
func TestWith_changesTheLaminateAloneAndWhatIsShared(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := shared()
		before := j.Clone()
		o := lendable(t, j)
		if n, err := o.With(j, o.Wall(j)); err != nil || n != j {
			t.Fatalf("%s: another job with what it has itself: %v", o.Name(), err)
		}
		s := o.Wall(j).Clone()
		what := rapid.IntRange(0, 4).Draw(t, "what")
		switch what {
		case 0:
			s.Plies = append(s.Plies, laminate.Ply{Material: catalog.Woven24, Resin: "r", Count: 2})
		case 1:
			s.Resins = append(s.Resins, laminate.Resin{ID: "new", Family: laminate.VinylEster})
		case 2:
			s.Resins[0].ID = "x"
			for i := range s.Plies {
				s.Plies[i].Resin = "x"
			}
		case 3:
			s.Service.Fluid = "acid"
		case 4:
			s.Title = "another line"
		}
		n, err := o.With(j, s)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(j.Clone(), before) {
			t.Fatal("the job it was made of changed")
		}
		if got := o.Wall(n); !reflect.DeepEqual(got.Clone(), s) {
			t.Fatalf("came out as\n%+v\nnot\n%+v", got, s)
		}
		if !reflect.DeepEqual(n.Parts, j.Parts) || !reflect.DeepEqual(n.Joints, j.Joints) || !reflect.DeepEqual(n.Nozzles, j.Nozzles) || len(n.Laminates) != len(j.Laminates) {
			t.Fatalf("%s changed what stands beside it: %+v", o.Name(), n)
		}
		for i := range n.Laminates {
			was, is := slices.Clone(j.Laminates[i].Plies), n.Laminates[i].Plies
			if what == 2 {
				for k := range was {
					was[k].Resin = "x" // plies of all follow a new id
				}
			}
			if n.Laminates[i].ID != o.Laminate && !slices.Equal(was, is) {
				t.Fatalf("%s changed laminate %s: %+v", o.Name(), n.Laminates[i].ID, is)
			}
		}
	})
}

func TestWith_refusesWhatIsOfAPart(t *testing.T) {
	j := shared()
	strap := overlay.Named(j, "strap")
	s := strap.Wall(j)
	s.Part.Form = laminate.Pipe
	if n, err := strap.With(j, s); err == nil || n != nil {
		t.Errorf("%+v, %v", n, err)
	}
	gone := overlay.Overlay{Kind: overlay.Strap, Of: "X", Laminate: "gone"}
	if _, err := gone.With(j, gone.Wall(j)); err == nil {
		t.Error("plies went into a laminate that is not there")
	}
}

// What is lent states nothing of a part: neither what presses on one, nor how deep
// it stands, nor a form.
func TestWall_isOfNoPart(t *testing.T) {
	j := shared()
	for _, o := range overlay.All(j) {
		s := o.Wall(j)
		var want laminate.Part
		want.Place.Lined = o.Kind.Inside()
		if s.Part != want || s.Service != j.Service || s.Title != j.Title {
			t.Errorf("%s: %+v %+v", o.Name(), s.Part, s.Service)
		}
	}
}

// In a seal whose zones nobody states the mats are behind the veil that comes last,
// and none of it is structure; the strap over the same joint is nothing else.
func TestSchedule_ofASealHasItsBarrierTheOtherWay(t *testing.T) {
	j, lib := shared(), catalog.Library()
	seal, strap := overlay.Named(j, "seal"), overlay.Named(j, "strap")
	for _, s := range []*laminate.Schedule{seal.Wall(j), seal.Schedule(j)} {
		a := laminate.Analyze(s, lib)
		if a.Zones[laminate.InteriorLayer].Plies != 5 || a.Zones[laminate.InnerSurface].Plies != 1 || a.Total.Plies != a.Barrier.Plies {
			t.Errorf("%+v", a.Zones)
		}
		if laminate.SplitRow(s, lib)[0].Count != 5 {
			t.Error("a row of a seal is taken apart")
		}
	}
	if a := laminate.Analyze(strap.Wall(j), lib); a.Barrier.Plies != 0 || a.Zones[laminate.StructuralLayer].Plies != 3 {
		t.Errorf("%+v", a.Zones)
	}
	s := seal.Wall(j)
	s.Plies = slices.Clone(s.Plies)
	s.Plies[0].Zone = laminate.StructuralLayer
	if laminate.InferZones(s, lib)[0] != laminate.StructuralLayer {
		t.Error("what is stated does not count")
	}
}

func TestStill_followsTheJob(t *testing.T) {
	j := shared()
	strap := overlay.Named(j, "strap")
	if strap.Kind != overlay.Strap || strap.Name() != "joint X, strap" {
		t.Fatalf("%+v", strap)
	}
	spare := overlay.Named(j, "spare")
	if spare.Kind != overlay.None || spare.Name() != "laminate spare" {
		t.Fatalf("%+v", spare)
	}
	n := j.Clone()
	n.Laminates[1].ID, n.Joints[0].Outside = "band", "band" // renamed
	n.Joints = append([]laminate.Joint{{ID: "W", Between: [2]string{"a", "b"}, Outside: "wall"}}, n.Joints...)
	if o, ok := strap.Still(n); !ok || o.Laminate != "band" || o.At.Index != 1 {
		t.Errorf("%+v %v", o, ok)
	}
	n = j.Clone()
	n.Joints[0].Outside = "" // it is left without a name, or with another
	if o, ok := strap.Still(n); !ok || o.Kind != overlay.None || o.Laminate != "strap" {
		t.Errorf("%+v %v", o, ok)
	}
	n.Nozzles[0].Pad = "strap"
	if o, ok := strap.Still(n); !ok || o.Kind != overlay.Pad {
		t.Errorf("%+v %v", o, ok)
	}
	n.Laminates, n.Nozzles = n.Laminates[:1], nil
	if o, ok := strap.Still(n); ok {
		t.Errorf("%+v", o)
	}
}

// The rows of a wall that were taken apart are one in the document.
func TestPlace_countsRowsOfTheDocument(t *testing.T) {
	j, lib := shared(), catalog.Library()
	j.Laminates[0].Plies = append([]laminate.Ply{{Material: catalog.VeilC15, Resin: "r", Count: 1}}, j.Laminates[0].Plies...)
	j.Laminates[0].Plies = laminate.SplitRow(j.Schedule(0), lib)
	if len(j.Laminates[0].Plies) != 3 {
		t.Fatalf("%+v", j.Laminates[0].Plies)
	}
	strap, neck := overlay.Named(j, "strap"), overlay.Named(j, "wall")
	if at := strap.Place(j, laminate.PlyRef(0, "count")); at != (laminate.Ref{Kind: laminate.RefLaminatePly, Index: 2, Key: "count"}) {
		t.Errorf("%+v", at)
	}
	if at := neck.Place(j, laminate.PlyRef(2, "count")); at.Index != 1 {
		t.Errorf("%+v", at)
	}
}
