package editor

import (
	"bytes"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// laidAt finds something of the job by its name.
func laidAt(t testing.TB, d *Document, name string) overlay.Overlay {
	t.Helper()
	for _, o := range overlay.All(d.Job()) {
		if o.Name() == name {
			return o
		}
	}
	t.Fatalf("no %s", name)
	return overlay.Overlay{}
}

func plies(j *laminate.Job, id string) []laminate.Ply { return j.Laminates[j.Laminate(id)].Plies }

// A strap is edited by itself, undone as one with the parts, and saved with every
// comment of the file.
func TestLend_aStrapIsEditedUndoneAndSaved(t *testing.T) {
	d, path := openJob(t)
	loaded := bytes.Clone(d.Bytes())
	d.Turn(3)
	if err := d.Apply(count(2)); err != nil {
		t.Fatal(err)
	}
	d.Lend(laidAt(t, d, "joint J2, strap"))
	if o := d.Lent(); o == nil || o.Laminate != "strap" || d.Part() != d.Job().Part("shell-1") || len(d.Now().Plies) != 8 {
		t.Fatalf("%+v, part %d", d.Lent(), d.Part())
	}
	if err := d.Apply(count(3)); err != nil {
		t.Fatal(err)
	}
	if d.Now().Plies[0].Count != 3 || plies(d.Job(), "strap")[0].Count != 3 || len(d.Job().Parts) != 8 {
		t.Fatal("the edit went elsewhere")
	}
	text := strings.Split(string(d.Bytes()), "\n")
	if line := d.Line(laminate.PlyRef(0, "count")); text[line-1] != "count    = 3" {
		t.Errorf("line %d: %s", line, text[line-1])
	}
	if line := d.Line(laminate.ResinRef(1, "id")); text[line-1] != `id     = "structure"` {
		t.Errorf("line %d: %s", line, text[line-1])
	}
	// Undo leads to where the edit was made.
	d.Turn(0)
	if label, at, ok := d.Undo(); !ok || label != "count" || d.Lent() == nil || at.Index != 0 || d.Now().Plies[0].Count != 1 || plies(d.Job(), "strap")[0].Count != 1 {
		t.Fatalf("%+v, %+v", d.Lent(), at)
	}
	if _, _, ok := d.Undo(); !ok || d.Lent() != nil || d.Part() != 3 || !bytes.Equal(d.Bytes(), loaded) {
		t.Fatalf("%+v, part %d", d.Lent(), d.Part())
	}
	d.Redo()
	if _, _, ok := d.Redo(); !ok || d.Lent() == nil || plies(d.Job(), "strap")[0].Count != 3 {
		t.Fatal("not done again")
	}
	if err := d.Save(); err != nil || d.Dirty() {
		t.Fatal(err)
	}
	saved, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(saved, d.Bytes()) || bytes.Count(saved, []byte("#")) != bytes.Count(loaded, []byte("#")) {
		t.Fatalf("%v", err)
	}
	if d.Lent() == nil || d.Now().Plies[0].Count != 3 {
		t.Error("saving turns to something else")
	}
	if err := d.Reload(); err != nil || d.Lent() == nil || d.Lent().Name() != "joint J2, strap" || d.Now().Plies[0].Count != 3 {
		t.Errorf("read again it is elsewhere: %v, %+v", err, d.Lent())
	}
}

// What is said of a laminate is what the rules of jobs say of whatever it is laid as,
// each once; of one that nothing names that this cannot be told.
func TestLend_reportIsThatOfTheJob(t *testing.T) {
	d, _ := openJob(t)
	d.Lend(laidAt(t, d, "joint J2, strap"))
	if err := d.Apply(edit.RemoveRows(d.Now(), d.Library(), 1, 7)); err != nil {
		t.Fatal(err)
	}
	r := d.Report()
	var want []string
	for i := range d.JobReport().Findings {
		f := &d.JobReport().Findings[i]
		if slices.ContainsFunc(append([]laminate.Ref{f.At}, f.Also...), func(at laminate.Ref) bool {
			return at.Kind == laminate.RefJoint && slices.Contains([]string{"", "outside", "width", "first_width"}, at.Key)
		}) {
			want = append(want, f.Message)
		}
	}
	var got []string
	for i := range r.Findings {
		got = append(got, r.Findings[i].Message)
		if strings.Contains(r.Findings[i].Rule.ID, "barrier") || r.Findings[i].Rule.Family == "veil" || r.Fix(i) != nil {
			t.Errorf("a wall's rule: %s", r.Findings[i].Message)
		}
	}
	if slices.Sort(want); len(want) < 4 || r.Verdict < rules.Break {
		t.Fatalf("%q %v", want, r.Verdict)
	}
	if slices.Sort(got); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if !reflect.DeepEqual(r.Schedule, d.Now()) {
		t.Error("the report is of other plies")
	}
	if err := d.ApplyJob(edit.AddLaminate("spare", "strap")); err != nil {
		t.Fatal(err)
	}
	d.Lend(overlay.Named(d.Job(), "spare"))
	if after, err := d.Preview(edit.RemoveRows(d.Now(), d.Library(), 0, 0)); err != nil || len(after.Findings) != 1 || !strings.Contains(after.Findings[0].Message, "nothing names") {
		t.Errorf("%v %+v", err, after)
	}
	if r := d.Report(); r.Verdict != rules.Incomplete || len(r.Findings) != 1 || !strings.Contains(r.Findings[0].Message, "nothing names laminate spare") {
		t.Errorf("%+v", r.Findings)
	}
	// Named for what no rule looks into, and empty, it is not clear either.
	bare := edit.JobEdit{Label: "named", Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		n.Nozzles[0].InstallationOutside = "spare"
		n.Laminates[n.Laminate("spare")].Plies = nil
		return n, nil
	}}
	if err := d.ApplyJob(bare); err != nil {
		t.Fatal(err)
	}
	if r := d.Report(); d.Lent().Name() != "nozzle N1, laid outside" || r.Verdict != rules.Incomplete || !strings.Contains(r.Findings[0].Message, "laminate spare has no ply") {
		t.Errorf("%s: %+v", d.Lent().Name(), r.Findings)
	}
	// Worse is shown before it is made.
	d.Lend(laidAt(t, d, "joint J2, seal"))
	before := d.Report()
	after, err := d.Preview(edit.Remove(d.Now(), d.Library(), 1))
	if err != nil || before.Verdict != rules.Clear || after.Verdict != rules.Break ||
		!slices.ContainsFunc(after.Findings, func(f rules.Finding) bool {
			return strings.Contains(f.Message, "joint J2: the last ply of its seal, laminate seal, is no veil")
		}) || d.Report() != before {
		t.Errorf("%v %v %v", err, before.Verdict, after.Verdict)
	}
}

// A neck may be built as the wall of a part: what breaks the wall is said of the
// neck too.
func TestLend_saysWhatTheWallBreaks(t *testing.T) {
	d, _ := openJob(t)
	d.Lend(laidAt(t, d, "nozzle N1, neck"))
	if err := d.Apply(edit.Remove(d.Now(), d.Library(), 0)); err != nil {
		t.Fatal(err)
	}
	r := d.Report()
	part := r.Findings[slices.IndexFunc(r.Findings, func(f rules.Finding) bool { return strings.HasPrefix(f.Message, "part head, whose wall it is: ") })]
	neck := slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return strings.HasPrefix(f.Message, "nozzle N1: the barrier of its neck") })
	if part.Severity < rules.Warning || !neck || r.Verdict != rules.Break {
		t.Errorf("%v %v %v", part, neck, r.Verdict)
	}
}

// Renamed, the laminate stays on the bench; taken out, the wall of the part is there.
func TestLend_followsEditsOfTheJob(t *testing.T) {
	d, _ := openJob(t)
	d.Lend(laidAt(t, d, "joint J2, strap"))
	at := laminate.Ref{Kind: laminate.RefLaminate, Index: d.Job().Laminate("strap")}
	if err := d.ApplyJob(edit.Rename(at, "band")); err != nil || d.Lent() == nil || d.Lent().Laminate != "band" {
		t.Fatalf("%v %+v", err, d.Lent())
	}
	d.Undo()
	if d.Lent() == nil || d.Lent().Laminate != "strap" {
		t.Fatalf("%+v", d.Lent())
	}
	if err := d.ApplyJob(edit.AddLaminate("spare", "")); err != nil {
		t.Fatal(err)
	}
	d.Lend(overlay.Named(d.Job(), "spare"))
	if err := d.Apply(edit.AddPly(d.Now(), d.Library(), -1, catalog.Mat15)); err != nil {
		t.Fatal(err)
	}
	d.Undo()
	d.Undo()
	if d.Lent() == nil || d.Lent().Laminate != "strap" { // where the laminate was added from
		t.Errorf("%+v", d.Lent())
	}
	d.Turn(2)
	d.Lend(overlay.Overlay{Laminate: "gone"})
	if d.Lent() != nil || d.Part() != 2 {
		t.Errorf("%+v, part %d", d.Lent(), d.Part())
	}
}

// Whatever is done wherever, undone it is the bytes that were opened, and at every
// step what is shown is what the job has there.
func TestLend_anyEditsUndoToTheSameBytes(t *testing.T) {
	d, _ := openJob(t)
	loaded := bytes.Clone(d.Bytes())
	holds := func(t *rapid.T) {
		want := d.Job().Wall(d.Part())
		if d.Lent() != nil {
			want = d.Lent().Wall(d.Job())
		}
		if !reflect.DeepEqual(d.Now(), want) || len(d.Job().Parts) != 8 {
			t.Fatal("shown is something else")
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			if list := overlay.All(d.Job()); rapid.Bool().Draw(t, "lent") {
				d.Lend(rapid.SampledFrom(list).Draw(t, "overlay"))
			} else {
				d.Turn(rapid.IntRange(0, len(d.Job().Parts)-1).Draw(t, "part"))
			}
			if err := d.Apply(count(rapid.IntRange(1, 5).Draw(t, "count"))); err != nil {
				t.Fatal(err)
			}
			holds(t)
			if err := d.equipment.readsBack("x", d.Bytes(), d.library); err != nil {
				t.Fatal(err)
			}
		}
		for d.CanUndo() {
			d.Undo()
			holds(t)
		}
		if !bytes.Equal(d.Bytes(), loaded) {
			t.Fatal("other bytes")
		}
	})
}

// Work on a strap that was not saved is found again, and taken up it is worked at
// where it was before and after undo.
func TestLend_unsavedWorkIsFoundAgain(t *testing.T) {
	d, path := openJob(t)
	d.Lend(laidAt(t, d, "joint J1, strap"))
	if err := d.Apply(count(3)); err != nil {
		t.Fatal(err)
	}
	want := bytes.Clone(d.Bytes())
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(path, shop.New(shop.Options{NoBook: true}))
	if err != nil || again.Pending() == nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = again.Discard(); _ = again.Close() })
	again.Lend(laidAt(t, again, "joint J1, strap"))
	again, err = again.TakeRecovered()
	if err != nil || !bytes.Equal(again.Bytes(), want) || again.Lent() == nil || again.Now().Plies[0].Count != 3 {
		t.Fatalf("%v %+v", err, again.Lent())
	}
	again.Turn(4)
	if _, _, ok := again.Undo(); !ok || !bytes.Equal(again.Bytes(), schedules.ExampleJob()) || again.Lent() == nil || again.Now().Plies[0].Count != 1 {
		t.Errorf("%+v", again.Lent())
	}
	if _, _, ok := again.Redo(); !ok || again.Lent() != nil || again.Part() != 4 || !reflect.DeepEqual(again.Now(), again.Job().Wall(4)) {
		t.Errorf("part %d, %+v", again.Part(), again.Lent())
	}
}

// A neck is a wall: what of a row of mats is barrier and what is structure is told
// apart when the job is read, as of any wall.
func TestLend_aNeckThatNoPartHasIsReadAsAWall(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	text := string(schedules.ExampleJob())
	text = strings.ReplaceAll(text, `neck                 = "head"`, `neck                 = "neck"`)
	text = strings.Replace(text, "[[laminate]]\nid = \"seal\"", "[[laminate]]\nid = \"neck\"\n[[laminate.ply]]\nmaterial = \"veil-c-15\"\nresin = \"barrier\"\n[[laminate.ply]]\nmaterial = \"mat-1.5\"\nresin = \"barrier\"\ncount = 5\n\n[[laminate]]\nid = \"seal\"", 1)
	d, err := FromBytes("tank", []byte(text), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	d.Lend(laidAt(t, d, "nozzle N1, neck"))
	if a := d.Report().Analysis; a.Barrier.Plies != 3 || a.Zones[laminate.StructuralLayer].Plies != 3 {
		t.Errorf("%+v", a.Zones)
	}
	d.Lend(laidAt(t, d, "joint J1, seal"))
	if err := d.Apply(count(4)); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(d.Bytes()), "\n")
	if line := d.Line(laminate.PlyRef(0, "count")); lines[line-1] != "count    = 4" {
		t.Errorf("%d: %s", line, lines[line-1])
	}
	if err := d.equipment.readsBack("x", d.Bytes(), d.library); err != nil {
		t.Error(err)
	}
}

// The break of a ply's material has the fix that it has on a wall: on a seal too, where
// the whole job is better for it; what changes more than what plies are made of has none.
func TestLend_aPlyOfTheWrongMaterialIsFixed(t *testing.T) {
	d, _ := openJob(t)
	if err := d.ApplyJob(edit.JobEdit{Label: "caustic", Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		n.Service.Fluid, n.Service.Contains = "sodium hydroxide", laminate.TraitSet(laminate.StrongBase)
		n.Service.PH = laminate.PHRange{Lowest: 13, Highest: 14, Given: true}
		for i := range n.Laminates {
			for k := range n.Laminates[i].Plies {
				if q := &n.Laminates[i].Plies[k]; strings.HasPrefix(q.Material, "veil-") {
					q.Material = catalog.VeilPolyester15
				}
			}
		}
		seal := n.Laminates[n.Laminate("seal")].Plies
		for k := range seal {
			if seal[k].Material == catalog.VeilPolyester15 {
				seal[k].Material = catalog.VeilC15
			}
		}
		return n, nil
	}}); err != nil {
		t.Fatal(err)
	}
	d.Lend(laidAt(t, d, "joint J2, seal"))
	breaks := func() (of, job int) {
		of, _, _, _ = d.Report().Counts()
		for _, f := range d.JobReport().Findings {
			if f.Severity == rules.Break {
				job++
			}
		}
		return of, job
	}
	was, wasJob := breaks()
	r, fixed := d.Report(), 0
	for i := range r.Findings {
		fix := r.Fix(i)
		if fix == nil {
			continue
		}
		fixed++
		if !strings.HasPrefix(fix.Text, "use "+catalog.VeilPolyester15+" for ply ") {
			t.Errorf("the fix of %q is %q", r.Findings[i].Message, fix.Text)
		}
		after, err := d.Preview(fix.Edit)
		if now, _, _, _ := after.Counts(); err != nil || now >= was {
			t.Errorf("%q: %d breaks, then %d: %v", fix.Text, was, now, err)
		}
	}
	if fixed == 0 {
		t.Fatalf("no fix of %+v", r.Findings)
	}
	for i := range r.Findings {
		if fix := r.Fix(i); fix != nil {
			if err := d.Apply(fix.Edit); err != nil {
				t.Fatal(err)
			}
			break
		}
	}
	if now, nowJob := breaks(); now >= was || nowJob >= wasJob {
		t.Errorf("%d breaks of the seal and %d of the job, then %d and %d", was, wasJob, now, nowJob)
	}
}
