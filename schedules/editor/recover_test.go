package editor_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

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
	found, when := next.Pending()
	if !found || when.IsZero() || next.Dirty() {
		t.Fatalf("pending %v of %v", found, when)
	}
	if err := next.TakeRecovered(); err != nil {
		t.Fatal(err)
	}
	if string(next.Bytes()) != unsaved || !next.Dirty() {
		t.Errorf("recovered\n%s", next.Bytes())
	}
	if found, _ := next.Pending(); found {
		t.Error("still pending")
	}
	if err := next.Save(); err != nil || read(t, path) != unsaved || next.Dirty() {
		t.Errorf("saved: %v", err)
	}
	left, err := store.Pending()
	if len(left) != 0 || err != nil {
		t.Errorf("left behind: %d, %v", len(left), err)
	}
}

func TestJournal_ofAFileThatChangedSinceIsAConflictOnSave(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.Close()
	write(t, path, document+"# later\n")
	next := open(t, path)
	if err := next.TakeRecovered(); err != nil {
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
	if found, _ := next.Pending(); found || next.TakeRecovered() == nil {
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
	nameless, err := editor.FromBytes("new schedule", []byte(document), options())
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
		d, err := editor.Recover(u, options())
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
