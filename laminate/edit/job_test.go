package edit_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
)

func twoParts() *laminate.Job {
	plies := func() []laminate.Ply { return []laminate.Ply{{Material: "m", Resin: "r", Count: 1}} }
	return &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}, {ID: "s", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "a", Plies: plies()}, {ID: "b", Plies: plies()}},
		Parts:     []laminate.JobPart{{ID: "p", Laminate: "a"}, {ID: "q", Laminate: "b"}},
	}
}

func TestIn_editsOnePartAndWhatItShares(t *testing.T) {
	j := twoParts()
	e := edit.In(1, edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = "x" }))
	n, err := e.Do(j)
	if err != nil || n.Title != "x" || j.Title != "" || e.At.Part != 1 {
		t.Errorf("%v %+v %+v", err, n, e.At)
	}
	same, err := edit.In(0, edit.SetHeader("title", "title", func(*laminate.Schedule) {})).Do(j)
	if err != nil || same != j {
		t.Errorf("an edit that changes nothing makes another job: %v", err)
	}
	if _, err := edit.In(2, edit.Edit{}).Do(j); err == nil {
		t.Error("a part that is not there was edited")
	}
}

func TestIn_refusesWhatLeavesAnotherPartWithoutItsResin(t *testing.T) {
	j := twoParts()
	other := edit.Edit{Label: "took resin r out", Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		c := s.Clone()
		c.Resins = c.Resins[1:]
		c.Plies[0].Resin = "s"
		return c, nil
	}}
	if _, err := edit.In(0, other).Do(j); err == nil || !strings.Contains(err.Error(), `"r"`) {
		t.Errorf("%v", err)
	}
	// The same is fine where nobody else lies in it.
	j.Laminates[1].Plies[0].Resin = "s"
	if _, err := edit.In(0, other).Do(j); err != nil {
		t.Error(err)
	}
}

// Every edit of the bench works on a laminate that is laid by itself: it changes the
// plies as it does of a wall, and nothing else of the job.
func TestInLaminate_doesWhatItDoesOfAWall(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		j := &laminate.Job{Resins: s.Resins, Materials: s.Materials,
			Laminates: []laminate.Laminate{{ID: "wall", Plies: s.Clone().Plies}, {ID: "lap", Plies: s.Plies}},
			Parts:     []laminate.JobPart{{ID: "p", Laminate: "wall"}, {ID: "q", Laminate: "wall"}},
			Joints:    []laminate.Joint{{ID: "J", Between: [2]string{"p", "q"}}}}
		kind := rapid.SampledFrom([]overlay.Kind{overlay.Strap, overlay.Seal, overlay.None}).Draw(t, "kind")
		switch kind {
		case overlay.Strap:
			j.Joints[0].Outside = "lap"
		case overlay.Seal:
			j.Joints[0].Inside = "lap"
		default:
		}
		o := overlay.Named(j, "lap")
		if o.Kind != kind {
			t.Fatal(o.Kind)
		}
		before := j.Clone()
		for range 4 {
			wall := o.Wall(j)
			e := anyEdit(t, wall, l)
			want, wrong := e.Do(wall)
			next, err := edit.InLaminate(o, e).Do(j)
			if (err != nil) != (wrong != nil) {
				t.Fatalf("%s: %v, of a wall %v", e.Label, err, wrong)
			}
			if err != nil {
				continue
			}
			if d := cmp.Diff(want.Plies, next.Laminates[1].Plies, exact...); d != "" {
				t.Fatalf("%s: %s", e.Label, d)
			}
			if !slices.Equal(next.Laminates[0].Plies, before.Laminates[0].Plies) || !slices.Equal(next.Parts, before.Parts) || !slices.Equal(next.Joints, before.Joints) {
				t.Fatalf("%s changed more than the laminate", e.Label)
			}
			// No edit moves a ply to another zone but the one it is about.
			if a, b := laminate.Analyze(o.Wall(next), l), laminate.Analyze(want, l); a.Barrier.Plies != b.Barrier.Plies || a.Total.Plies != b.Total.Plies {
				t.Fatalf("%s: %+v, %+v", e.Label, a.Barrier, b.Barrier)
			}
			j = next
		}
	})
}

// The first ply of a strap is in the resin of the structure, where one is called so,
// and not in the first one of the job.
func TestInLaminate_firstPlyIsInTheResinOfItsZone(t *testing.T) {
	j := twoParts()
	j.Resins = []laminate.Resin{{ID: edit.BarrierResin, Family: laminate.VinylEster}, {ID: edit.StructureResin, Family: laminate.Isophthalic}}
	j.Laminates = []laminate.Laminate{{ID: "lap"}}
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"p", "q"}, Outside: "lap"}}
	for _, o := range []overlay.Overlay{{Kind: overlay.Strap, Laminate: "lap"}, {Kind: overlay.Seal, Laminate: "lap"}} {
		n, err := o.With(j, must(edit.AddPly(o.Wall(j), catalog.Library(), -1, catalog.Mat15).Do(o.Wall(j))))
		want := edit.StructureResin
		if o.Kind.Inside() {
			want = edit.BarrierResin
		}
		if err != nil || n.Laminates[0].Plies[0].Resin != want {
			t.Errorf("%s: %v, %+v", o.Kind, err, n.Laminates[0].Plies)
		}
	}
}

func must(s *laminate.Schedule, err error) *laminate.Schedule {
	if err != nil {
		panic(err)
	}
	return s
}

// Into a seal a veil goes as inner surface and a mat behind it, wherever they are
// added, in the resin of the barrier.
func TestInLaminate_addsToASealWhatIsOfTheBarrier(t *testing.T) {
	j := twoParts()
	j.Laminates = append(j.Laminates, laminate.Laminate{ID: "seal"})
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"p", "q"}, Inside: "seal"}}
	o := overlay.Named(j, "seal")
	l := catalog.Library()
	for i, id := range []string{catalog.Mat15, catalog.VeilC15, catalog.VeilC15, catalog.Mat15} {
		var err error
		if j, err = edit.InLaminate(o, edit.AddPly(o.Wall(j), l, i-1, id)).Do(j); err != nil {
			t.Fatal(err)
		}
	}
	if e := edit.Move(o.Wall(j), l, 0, 1); e.Label != "moved ply 1 mat-1.5 toward the fluid" {
		t.Error(e.Label)
	}
	a := laminate.Analyze(o.Wall(j), l)
	for i, want := range []laminate.Zone{laminate.InteriorLayer, laminate.InnerSurface, laminate.InnerSurface, laminate.InteriorLayer} {
		if a.Rows[i].Zone != want || j.Laminates[2].Plies[i].Resin != "r" {
			t.Errorf("row %d: %v in %q", i, a.Rows[i].Zone, j.Laminates[2].Plies[i].Resin)
		}
	}
}

func TestInLaminate_refusesWhatIsOfAPartAndWhatBreaksAnother(t *testing.T) {
	j := twoParts()
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"p", "q"}, Outside: "lap"}}
	j.Laminates = append(j.Laminates, laminate.Laminate{ID: "lap", Plies: []laminate.Ply{{Material: "m", Resin: "s", Count: 1}}})
	o := overlay.Named(j, "lap")
	form := edit.SetPart("form", "form pipe", func(p *laminate.Part) { p.Form = laminate.Pipe })
	if _, err := edit.InLaminate(o, form).Do(j); err == nil || !strings.Contains(err.Error(), "joint J, strap: this is no part") {
		t.Errorf("%v", err)
	}
	without := edit.Edit{Label: "took resin r out", Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		c := s.Clone()
		c.Resins = c.Resins[1:]
		return c, nil
	}}
	if _, err := edit.InLaminate(o, without).Do(j); err == nil || !strings.Contains(err.Error(), `"r"`) {
		t.Errorf("%v", err)
	}
	if e := edit.InLaminate(o, edit.Edit{Merge: "k"}); e.Merge == edit.In(0, edit.Edit{Merge: "k"}).Merge || e.Merge == "k" {
		t.Errorf("%q", e.Merge)
	}
}
