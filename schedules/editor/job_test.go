package editor

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

func openJob(t testing.TB) (*Document, string) {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "tank.toml")
	if err := os.WriteFile(path, schedules.ExampleJob(), 0o600); err != nil {
		t.Fatal(err)
	}
	d, err := Open(path, shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	return d, path
}

// The bench has of a part what check, lay-up and acceptance have: its wall and what
// the whole job says of it. It had that of the wall alone, and said that what the
// job judges was not checked.
func TestJob_reportOfAPartIsThatOfTheWholeJob(t *testing.T) {
	d, _ := openJob(t)
	more := false
	for i := range d.Job().Parts {
		d.Turn(i)
		got, want := d.Report(), d.JobReport().PartReport(i)
		if got.Verdict != want.Verdict || len(got.Findings) != len(want.Findings) || got.Schedule.Title != d.Now().Title {
			t.Errorf("part %d: %s and %d findings, the job has %s and %d", i, got.Verdict, len(got.Findings), want.Verdict, len(want.Findings))
		}
		if !slices.Equal(got.Wall.NotChecked, want.Wall.NotChecked) {
			t.Errorf("part %d: not checked are %v and %v", i, got.Wall.NotChecked, want.Wall.NotChecked)
		}
		more = more || len(got.Findings) > len(d.JobReport().Parts[i].Findings)
	}
	if !more {
		t.Error("the job says nothing of any part, and this test nothing")
	}
}

func count(n int) edit.Edit {
	return edit.Edit{Label: "count", At: laminate.PlyRef(0, "count"), Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		c := s.Clone()
		c.Plies[0].Count = n
		return c, nil
	}}
}

func TestJob_isEditedPartByPartUndoneAsAWholeAndSaved(t *testing.T) {
	d, path := openJob(t)
	loaded := bytes.Clone(d.Bytes())
	if d.Job() == nil || d.Part() != 0 || d.Dirty() || d.Report().Verdict != d.JobReport().PartVerdict(0) {
		t.Fatalf("part %d, dirty %v", d.Part(), d.Dirty())
	}
	for _, part := range []int{1, 3} {
		d.Turn(part)
		if err := d.Apply(count(2)); err != nil {
			t.Fatal(err)
		}
	}
	if d.Now().Plies[0].Count != 2 || d.Job().Wall(1).Plies[0].Count != 2 || d.Job().Wall(0).Plies[0].Count != 1 || !d.Dirty() {
		t.Fatal("an edit went elsewhere")
	}
	if line := d.Line(laminate.PlyRef(0, "count")); !strings.HasPrefix(strings.Split(string(d.Bytes()), "\n")[line-1], "count") {
		t.Errorf("line %d", line)
	}
	d.Turn(0)
	if _, _, ok := d.Undo(); !ok || d.Part() != 3 || d.Now().Plies[0].Count != 1 {
		t.Errorf("undo stands at part %d", d.Part())
	}
	if _, _, ok := d.Redo(); !ok || d.Now().Plies[0].Count != 2 {
		t.Error("not done again")
	}
	if err := d.Save(); err != nil || d.Dirty() {
		t.Fatal(err, d.Dirty())
	}
	again, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(again, d.Bytes()) {
		t.Fatal(err)
	}
	d.Undo()
	d.Undo()
	if !bytes.Equal(d.Bytes(), loaded) || !d.Dirty() {
		t.Error("undone to the start it is other bytes")
	}
}

func TestJob_unsavedWorkIsFoundAgain(t *testing.T) {
	d, path := openJob(t)
	d.Turn(2)
	if err := d.Apply(count(3)); err != nil {
		t.Fatal(err)
	}
	want := bytes.Clone(d.Bytes())
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(path, shop.New(shop.Options{NoBook: true}))
	if err != nil || again.Pending() == nil {
		t.Fatal(err, again)
	}
	t.Cleanup(func() { _ = again.Discard(); _ = again.Close() })
	again, err = again.TakeRecovered()
	if err != nil || !bytes.Equal(again.Bytes(), want) || !again.Dirty() {
		t.Fatal(err)
	}
	if _, _, ok := again.Undo(); !ok || !bytes.Equal(again.Bytes(), schedules.ExampleJob()) || again.Dirty() {
		t.Error("undo does not go back past it")
	}
}

func TestJob_aPartOfAFileIsChangedThere(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	for name, text := range map[string]string{"line.toml": string(schedules.Example()), "job.toml": "document = \"job\"\nformat = 1\n[[part]]\nid = \"line\"\nschedule = \"line.toml\"\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	d, err := Open(filepath.Join(dir, "job.toml"), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if err := d.Apply(count(4)); err == nil || !strings.Contains(err.Error(), "open line.toml") || d.Dirty() {
		t.Errorf("%v", err)
	}
}

// Whatever is done to whichever part, undone it is the bytes that were opened.
func TestJob_anyEditsUndoToTheSameBytes(t *testing.T) {
	d, _ := openJob(t)
	loaded := bytes.Clone(d.Bytes())
	rapid.Check(t, func(t *rapid.T) {
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			d.Turn(rapid.IntRange(0, len(d.Job().Parts)-1).Draw(t, "part"))
			if err := d.Apply(count(rapid.IntRange(1, 5).Draw(t, "count"))); err != nil {
				t.Fatal(err)
			}
			if err := d.equipment.readsBack("x", d.Bytes(), d.library); err != nil {
				t.Fatal(err)
			}
		}
		for d.CanUndo() {
			d.Undo()
		}
		if !bytes.Equal(d.Bytes(), loaded) {
			t.Fatal("other bytes")
		}
	})
}

// Read again, work goes on at the part of the same name, wherever that stands by now.
func TestReload_staysAtThePartByItsName(t *testing.T) {
	d, path := openJob(t)
	d.Turn(d.Job().Part("shell-2"))
	text := string(d.Bytes())
	text = strings.Replace(text, "[[part]]", "[[part]]\nid = \"sump\"\nform = \"pipe\"\n\n[[part]]", 1)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil || d.WorkedAt() != "shell-2" {
		t.Errorf("%v, at %s", err, d.WorkedAt())
	}
}
