package editor_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
)

// A document left by Close without Discard is what a killed program leaves.
func TestJournal_isFoundByTheNextStart(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	if err := d.Journal(); err != nil {
		t.Fatal(err)
	}
	unsaved := string(d.Bytes())
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	next := open(t, path)
	left := next.Pending()
	if left == nil || left.When.IsZero() || left.Path != path || left.Overtaken || next.Dirty() {
		t.Fatalf("pending %+v", left)
	}
	if taken, err := next.TakeRecovered(); err != nil || taken != next {
		t.Fatal(err)
	}
	if string(next.Bytes()) != unsaved || !next.Dirty() {
		t.Errorf("recovered\n%s", next.Bytes())
	}
	if next.Pending() != nil {
		t.Error("still pending")
	}
	if err := next.Save(); err != nil || read(t, path) != unsaved || next.Dirty() {
		t.Errorf("saved: %v", err)
	}
	if left, err := store.Pending(); len(left) != 0 || err != nil {
		t.Errorf("left behind: %d, %v", len(left), err)
	}
}

func TestJournal_ofAFileThatChangedSinceIsAConflictOnSave(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.Close()
	write(t, path, document+"# later\n")
	next := open(t, path)
	if left := next.Pending(); left == nil || !left.Overtaken {
		t.Errorf("the file was saved since: %+v", left)
	}
	if taken, err := next.TakeRecovered(); err != nil || taken != next {
		t.Fatal(err)
	}
	var conflict *editor.ConflictError
	if err := next.Save(); !errors.As(err, &conflict) || !strings.HasSuffix(read(t, path), "# later\n") {
		t.Errorf("saved over: %v", err)
	}
	next.Discard()
}

func TestJournal_isGoneWhenNothingIsUnsaved(t *testing.T) {
	for name, end := range map[string]func(*editor.Document) error{
		"saved":     (*editor.Document).Save,
		"undone":    func(d *editor.Document) error { d.Undo(); return d.Journal() },
		"discarded": (*editor.Document).Discard,
		"reloaded":  (*editor.Document).Reload,
	} {
		t.Run(name, func(t *testing.T) {
			d, _ := onDisk(t)
			do(t, d, layMat(d))
			if err := d.Journal(); err != nil {
				t.Fatal(err)
			}
			if err := end(d); err != nil {
				t.Fatal(err)
			}
			if err := d.Close(); err != nil {
				t.Fatal(err)
			}
			if left, err := store.Pending(); len(left) != 0 || err != nil {
				t.Errorf("left behind: %d, %v", len(left), err)
			}
		})
	}
}

func TestDropRecovered_removesItForGood(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.Close()
	next := open(t, path)
	if err := next.DropRecovered(); err != nil {
		t.Fatal(err)
	}
	if _, err := next.TakeRecovered(); next.Pending() != nil || err == nil {
		t.Error("still there")
	}
	if left, _ := store.Pending(); len(left) != 0 {
		t.Errorf("left behind: %d", len(left))
	}
}

func TestRecover_opensWorkWithAndWithoutAFile(t *testing.T) {
	home(t)
	path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
	gone := write(t, filepath.Join(t.TempDir(), "gone.toml"), document)
	nameless, err := editor.FromBytes("new schedule", []byte(document), none)
	if err != nil {
		t.Fatal(err)
	}
	var want string
	for _, d := range []*editor.Document{nameless, open(t, path), open(t, gone)} {
		do(t, d, layMat(d))
		want = string(d.Bytes())
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(gone); err != nil {
		t.Fatal(err)
	}
	left, err := store.Pending()
	if err != nil || len(left) != 3 {
		t.Fatalf("%d left behind, %v", len(left), err)
	}
	paths := map[string]bool{}
	for _, u := range left {
		d, err := editor.Recover(u, none)
		if err != nil {
			t.Fatal(err)
		}
		paths[d.Path()] = true
		if !d.Dirty() || string(d.Bytes()) != want {
			t.Errorf("%s: dirty %v", d.Name(), d.Dirty())
		}
		var conflict *editor.ConflictError
		err = d.Save()
		if d.Path() == path && err != nil || d.Path() == "" && !errors.Is(err, editor.ErrNoName) || d.Path() == gone && !errors.As(err, &conflict) {
			t.Errorf("saving %q: %v", d.Path(), err)
		}
		if err := errors.Join(d.Discard(), d.Close()); err != nil {
			t.Error(err)
		}
	}
	if !paths[""] || !paths[path] || !paths[gone] {
		t.Errorf("recovered %v", paths)
	}
	if left, err := store.Pending(); err != nil || len(left) != 0 {
		t.Errorf("%d still left behind, %v", len(left), err)
	}
}

// A document that has a name but no file yet is found by that name alone, and
// one without a name by a start without one.
func TestPending_ofNewDocumentsIsKnownByItsName(t *testing.T) {
	home(t)
	dir := t.TempDir()
	t.Chdir(dir)
	blank := func(name string) *editor.Document {
		d, err := editor.FromBytes(name, []byte(document), none)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	texts := map[string]string{}
	for _, name := range []string{"first.toml", "second.toml", "new schedule"} {
		d := blank(name)
		do(t, d, edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = "the " + name }))
		texts[name] = string(d.Bytes())
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if left := blank("third.toml").Pending(); left != nil {
		t.Errorf("a third name is offered %+v", left)
	}
	second := blank("second.toml")
	left := second.Pending()
	if left == nil || left.Path != filepath.Join(dir, "second.toml") || left.Title != "the second.toml" {
		t.Fatalf("the second is offered %+v", left)
	}
	if taken, err := second.TakeRecovered(); err != nil || taken != second || string(taken.Bytes()) != texts["second.toml"] || taken.Name() != "second.toml" {
		t.Fatalf("taken up: %v", err)
	}
	if err := second.SaveAs("second.toml"); err != nil || read(t, "second.toml") != texts["second.toml"] {
		t.Errorf("saved: %v", err)
	}
	second.Close()

	nameless := blank("example")
	before := string(nameless.Bytes())
	for _, name := range []string{"new schedule", "first.toml"} {
		left := nameless.Pending()
		if left == nil || left.Title != "the "+name || filepath.Base(left.Path) != filepath.Base(name) && left.Path != "" {
			t.Fatalf("%s: a start without a name is offered %+v", name, left)
		}
		taken, err := nameless.TakeRecovered()
		if err != nil || taken == nameless || string(taken.Bytes()) != texts[name] || !taken.Dirty() {
			t.Fatalf("%s taken up: %v", name, err)
		}
		if name == "first.toml" {
			if err := taken.Save(); err != nil || read(t, "first.toml") != texts[name] {
				t.Errorf("saved under its name: %v", err)
			}
		}
		if err := errors.Join(taken.Discard(), taken.Close()); err != nil {
			t.Error(err)
		}
	}
	if string(nameless.Bytes()) != before || nameless.Dirty() || nameless.Pending() != nil {
		t.Error("what was offered changed the document that was open")
	}
	if left, err := store.Pending(); err != nil || len(left) != 0 {
		t.Errorf("%d still left behind, %v", len(left), err)
	}
}

// Keeping goes on beside the document: what comes late never undoes a save.
func TestWork_keptLateIsPassedOver(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	old := d.Work()
	do(t, d, layMat(d))
	if err := errors.Join(d.Work().Keep(), old.Keep()); err != nil {
		t.Fatal(err)
	}
	if err := d.Save(); err != nil {
		t.Fatal(err)
	}
	elsewhere := d.Work()
	do(t, d, layMat(d))
	unsaved := d.Work()
	if err := errors.Join(old.Keep(), d.SaveAs(filepath.Join(filepath.Dir(path), "b.toml")), elsewhere.Keep(), unsaved.Keep()); err != nil {
		t.Fatal(err)
	}
	if left, err := store.Pending(); err != nil || len(left) != 0 {
		t.Errorf("left behind: %d, %v", len(left), err)
	}
}

func TestWork_saysThatItIsNotKeptAsLongAsItIsSo(t *testing.T) {
	d, path := onDisk(t)
	file := write(t, filepath.Join(filepath.Dir(path), "file"), "")
	t.Setenv("XDG_STATE_HOME", file) // cannot hold a folder, not even for root
	for range 2 {
		do(t, d, layMat(d))
		if d.Work().Keep() == nil || d.NotKept() == nil {
			t.Error("kept where nothing can be kept")
		}
	}
	if err := d.Save(); err != nil || d.NotKept() != nil {
		t.Errorf("saved: %v, %v", err, d.NotKept())
	}
	do(t, d, layMat(d))
	home(t)
	if err := d.Work().Keep(); err != nil || d.NotKept() != nil {
		t.Errorf("kept again: %v, %v", err, d.NotKept())
	}
}

// Work that no longer can be read whole, as that of an older program, is taken
// up as far as it goes; the rest waits where it was left, and is told.
func TestTakeRecovered_opensWhatItCan(t *testing.T) {
	for name, change := range map[string]struct {
		old, now string
		unread   bool
	}{
		"a value that cannot be": {"count     = 2", "count     = 2\nglass_content = 0.97", false},
		"a key nobody knows":     {"process = \"contact\"", "process = \"contact\"\nearthing = \"strap\"", true},
	} {
		t.Run(name, func(t *testing.T) {
			home(t)
			path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
			j := store.NewJournal(path)
			file, err := store.Read(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := j.Save([]byte(strings.Replace(document, change.old, change.now, 1)), store.Meta{Base: file.Fingerprint, Label: "Drain", Rev: 1}); err != nil {
				t.Fatal(err)
			}
			if err := j.Close(); err != nil {
				t.Fatal(err)
			}
			d := open(t, path)
			now, err := d.TakeRecovered()
			if err != nil {
				t.Fatal(err)
			}
			if got := now.Now().Plies[1]; got.Material != "mat-1.5" || got.Count != 2 || !now.Dirty() {
				t.Errorf("taken up: %+v, dirty %v", got, now.Dirty())
			}
			if got := now.Unread(); (len(got) > 0) != change.unread {
				t.Errorf("unread: %v", got)
			}
			if got := now.Problems(); (len(got) > 0) == change.unread {
				t.Errorf("problems: %v", got)
			}
			if err := now.Close(); err != nil {
				t.Fatal(err)
			}
			left, err := store.PendingFor(path)
			if found := len(left) > 0; err != nil || !found {
				t.Errorf("left %d, %v", len(left), err)
			}
		})
	}
}
