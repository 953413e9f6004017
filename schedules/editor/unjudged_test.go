package editor

import (
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
)

// The answer to an exercise has an undo of its own, says nothing of what the
// rules find, and writes nothing anywhere.
func TestUnjudged_hasItsOwnHistoryAndWritesNothing(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	_, s, problems := schedules.Decode(schedules.Example(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	d, err := Unjudged("an exercise", s, catalog.Library(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Apply(edit.Remove(d.Now(), d.Library(), 0)); err != nil {
		t.Fatal(err)
	}
	if n := len(d.Report().Findings); n > 0 || d.Report().Analysis == nil {
		t.Errorf("%d findings are told before the answer is marked", n)
	}
	if _, _, ok := d.Undo(); !ok || len(d.Now().Plies) != len(s.Plies) {
		t.Error("the edit is not taken back")
	}
	d.Redo()
	if err := d.SaveAs(filepath.Join(state, "a.toml")); err == nil {
		t.Error("it was saved")
	}
	if d.Save() == nil || d.Journal() != nil || d.Discard() != nil || d.Close() != nil {
		t.Error("it has a file or a journal")
	}
	if found, err := os.ReadDir(state); err != nil || len(found) > 0 {
		t.Errorf("written: %v, %v", found, err)
	}
}

// What is laid on a cured face is worked at as that: its last ply meets the fluid, and
// still nothing is said of what the rules find.
func TestUnjudged_knowsWhatItIsLaidAs(t *testing.T) {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "barrier", Family: laminate.VinylEster}}}
	for _, m := range []string{catalog.Mat15, catalog.VeilC15} {
		s.Plies = append(s.Plies, laminate.Ply{Material: m, Resin: "barrier", Count: 1})
	}
	laid := &rules.Overlaid{Overlay: overlay.Overlay{Kind: overlay.Seal}}
	d, err := Unjudged("a seal", s, catalog.Library(), laid)
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		r := d.Report()
		if r.Overlay != laid || len(r.Findings) > 0 || r.Analysis.Rows[len(r.Analysis.Rows)-1].Zone != laminate.InnerSurface {
			t.Errorf("%+v of %v", r.Overlay, r.Analysis.Rows)
		}
		if err := d.Apply(edit.Remove(d.Now(), d.Library(), 0)); err != nil {
			t.Fatal(err)
		}
	}
}
