package editor_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

func TestSave_writesWhatChangedAndNothingElse(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, edit.SetCount(d.Now(), d.Library(), 3, 2))
	if err := d.Save(); err != nil {
		t.Fatal(err)
	}
	want := strings.TrimSuffix(document, "\n") + "\ncount    = 2\n"
	if got := read(t, path); got != want || d.Dirty() {
		t.Errorf("dirty %v, saved\n%s", d.Dirty(), got)
	}
	// What is saved is what counts, wherever in the history it is.
	d.Undo()
	if !d.Dirty() {
		t.Error("undone past the save, yet clean")
	}
	if err := d.Save(); err != nil || read(t, path) != document {
		t.Errorf("saved again: %v", err)
	}
	if d.Redo(); !d.Dirty() || string(d.Bytes()) != want {
		t.Error("redone after the save")
	}
}

func TestSave_refusesOverAChangedFile(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	write(t, path, document+"# by somebody else\n")
	if how, err := d.Since(); how != store.Edited || err != nil {
		t.Errorf("changed on disk: %v, %v", how, err)
	}
	var conflict *editor.ConflictError
	if err := d.Save(); !errors.As(err, &conflict) || !d.Dirty() {
		t.Fatalf("saved over another's work: %v", err)
	}
	if !strings.HasSuffix(read(t, path), "# by somebody else\n") {
		t.Error("the file was touched")
	}
	if err := d.SaveAs(path); !errors.As(err, &conflict) {
		t.Errorf("save as, without overwriting: %v", err)
	}
	if err := overwrite(d, path); err != nil || d.Dirty() || strings.Contains(read(t, path), "somebody") {
		t.Errorf("overwritten: %v", err)
	}
	if how, _ := d.Since(); how != store.Unchanged {
		t.Error("changed after a save")
	}
}

// overwrite replaces whatever is there, as somebody does who was asked.
func overwrite(d *editor.Document, path string) error {
	target, err := d.Look(path)
	if err != nil {
		return err
	}
	return d.Overwrite(target)
}

func TestLook_saysWhatWouldBeLost(t *testing.T) {
	d, path := onDisk(t)
	dir := filepath.Dir(path)
	other, link := write(t, filepath.Join(dir, "other.toml"), "mine"), filepath.Join(dir, "link.toml")
	if runtime.GOOS == "windows" { // where capitals count for nothing, and not everybody may make links
		link = filepath.Join(dir, strings.ToUpper(filepath.Base(path)))
	} else if err := os.Symlink(filepath.Base(path), link); err != nil {
		t.Fatal(err)
	}
	look := func(at string, want store.Change) editor.Target {
		t.Helper()
		target, err := d.Look(at)
		if err != nil || target.Change != want {
			t.Errorf("%s: %v, %v; want %v", at, target.Change, err, want)
		}
		return target
	}
	look(path, store.Unchanged)
	look(link, store.Unchanged)
	look(dir+"/./"+filepath.Base(path), store.Unchanged)
	look(filepath.Join(dir, "free.toml"), store.Unchanged)
	seen := look(other, store.Created)
	write(t, path, document+"# by somebody else\n")
	look(path, store.Edited)
	edited := look(link, store.Edited)
	if _, err := d.Look(dir); err == nil {
		t.Error("a folder to save into")
	}
	// What changed once more after the question is not what the answer was about.
	write(t, path, document+"# by a third\n")
	write(t, other, "mine, changed")
	var conflict *editor.ConflictError
	for _, target := range []editor.Target{edited, seen} {
		if err := d.Overwrite(target); !errors.As(err, &conflict) {
			t.Errorf("%s: %v", target.Path, err)
		}
	}
	if read(t, other) != "mine, changed" || !strings.HasSuffix(read(t, path), "third\n") {
		t.Error("something was replaced that nobody had seen")
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := d.Save(); !errors.As(err, &conflict) || conflict.How != store.Removed {
		t.Errorf("saving what was removed: %v", err)
	}
	if err := d.Overwrite(look(path, store.Removed)); err != nil || read(t, path) != document {
		t.Errorf("saved again: %v", err)
	}
}

func TestRefresh_endsReadOnlyWhenItsReasonEnds(t *testing.T) {
	d, path := onDisk(t)
	other := open(t, path)
	other.Refresh()
	if only, _ := other.ReadOnly(); !only {
		t.Error("free while the first has it")
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	other.Refresh()
	if only, why := other.ReadOnly(); only {
		t.Errorf("the first is closed: %s", why)
	}
	for _, mode := range []os.FileMode{0o444, 0o644} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		other.Refresh()
		if only, _ := other.ReadOnly(); only != (mode == 0o444) {
			t.Errorf("mode %v: read only %v", mode, only)
		}
	}
}

// A file that is replaced while edits are not yet in the journal: killed before
// the journal is dropped, the program offered what is older than the file.
func TestSave_keepsTheTextBeforeItReplacesTheFile(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	if err := d.Journal(); err != nil {
		t.Fatal(err)
	}
	do(t, d, layMat(d))
	write(t, path, document+"# by somebody else\n")
	var conflict *editor.ConflictError
	target, err := d.Look(path)
	write(t, path, document+"# by a third\n")
	if err = errors.Join(err, d.Overwrite(target)); !errors.As(err, &conflict) {
		t.Fatal(err)
	}
	want := string(d.Bytes())
	d.Close()
	left, err := store.PendingFor(path)
	if err != nil || len(left) != 1 || string(left[0].Bytes) != want {
		t.Errorf("kept: %d texts, %v", len(left), err)
	}
}

func TestReload_takesTheFileAndGivesUpTheRest(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.SetUnits(quantity.Metric)
	write(t, path, strings.Replace(document, "Drain header", "Vent", 1))
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	if d.Now().Title != "Vent" || d.Dirty() || d.CanUndo() || d.Units() != quantity.Metric {
		t.Errorf("title %q, dirty %v", d.Now().Title, d.Dirty())
	}
	write(t, path, "rubbish")
	var problems *editor.ProblemsError
	if err := d.Reload(); !errors.As(err, &problems) || d.Now().Title != "Vent" {
		t.Errorf("a broken file: %v", err)
	}
}

func TestSaveAs_changesFileLockAndLibrary(t *testing.T) {
	home(t)
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	d, err := editor.FromBytes("example", []byte(document), shop.New(shop.Options{}))
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if err := d.Save(); !errors.Is(err, editor.ErrNoName) {
		t.Errorf("saved nowhere: %v", err)
	}
	if d.Dirty() || d.Path() != "" || d.Name() != "example" {
		t.Errorf("an example: dirty %v, path %q, name %q", d.Dirty(), d.Path(), d.Name())
	}
	do(t, d, layMat(d))
	dir := t.TempDir()
	write(t, filepath.Join(dir, store.BookName), "document = \"shop-book\"\nformat = 1\n")
	taken, first, second := write(t, filepath.Join(dir, "taken.toml"), "mine"), filepath.Join(dir, "first.toml"), filepath.Join(dir, "second.toml")
	var conflict *editor.ConflictError
	if err := d.SaveAs(taken); !errors.As(err, &conflict) || d.Path() != "" || read(t, taken) != "mine" || !d.Dirty() {
		t.Errorf("onto another file: %v", err)
	}
	if err := d.SaveAs(filepath.Join(dir, "no", "such", "folder.toml")); err == nil || d.Path() != "" {
		t.Errorf("into no folder: %v", err)
	}
	library := d.Library()
	if err := d.SaveAs(first); err != nil || d.Path() != first || d.Name() != "first.toml" || d.Dirty() {
		t.Fatalf("saved as: %v", err)
	}
	if books := d.Library().Books; d.Library() == library || len(books) != 1 || filepath.Dir(books[0]) != dir {
		t.Errorf("the library is still that of %q", books)
	}
	var locked *store.LockedError
	if _, err := store.TryLock(first); !errors.As(err, &locked) {
		t.Errorf("the new file is not locked: %v", err)
	}
	if err := d.SaveAs(second); err != nil {
		t.Fatal(err)
	}
	lock, err := store.TryLock(first)
	if err != nil {
		t.Errorf("the old file is still locked: %v", err)
	}
	lock.Unlock()
	if read(t, first) != read(t, second) {
		t.Error("the copies differ")
	}
}

func TestOpen_secondDocumentOfAFileCannotSaveIt(t *testing.T) {
	d, path := onDisk(t)
	other := open(t, path)
	if only, why := other.ReadOnly(); !only || !strings.Contains(why, "open in another program") {
		t.Errorf("the second is read-only: %v, %q", only, why)
	}
	do(t, other, layMat(other))
	var locked *store.LockedError
	if err := other.Save(); !errors.As(err, &locked) || read(t, path) != document {
		t.Errorf("saved beside the first: %v", err)
	}
	if err := overwrite(other, path); !errors.As(err, &locked) {
		t.Errorf("overwritten beside the first: %v", err)
	}
	do(t, d, edit.Remove(d.Now(), d.Library(), 3))
	if err := d.Save(); err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	var conflict *editor.ConflictError
	if err := other.Save(); !errors.As(err, &conflict) {
		t.Errorf("saved over what the first saved: %v", err)
	}
	if only, _ := other.ReadOnly(); only {
		t.Error("still read-only after the first is closed")
	}
}

func TestSave_inAReadOnlyFolderFailsAndLosesNothing(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := write(t, filepath.Join(dir, "drain.toml"), document)
	marked, mode := dir, os.FileMode(0o555)
	if runtime.GOOS == "windows" { // where the mark of a folder says something else
		marked, mode = path, 0o444
	}
	if err := os.Chmod(marked, mode); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(marked, 0o755) })
	d := open(t, path)
	if only, why := d.ReadOnly(); !only || why == "" {
		t.Error("not read-only")
	}
	do(t, d, layMat(d))
	if err := d.Save(); err == nil || !d.Dirty() || len(d.Now().Plies) != 5 {
		t.Errorf("saved into a read-only folder: %v", err)
	}
	if err := d.Journal(); err != nil {
		t.Errorf("journal: %v", err)
	}
	elsewhere := filepath.Join(t.TempDir(), "copy.toml")
	if err := d.SaveAs(elsewhere); err != nil || d.Dirty() {
		t.Errorf("saved elsewhere: %v", err)
	}
	if only, why := d.ReadOnly(); only {
		t.Errorf("the copy is read-only: %s", why)
	}
}
