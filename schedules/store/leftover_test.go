package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// allUnder lists every file under a folder, and every empty folder.
func allUnder(t *testing.T, top string) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !d.IsDir() || len(names(t, path)) == 0 {
			rel, _ := filepath.Rel(top, path)
			list = append(list, filepath.ToSlash(rel))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestSweep_leavesNothingOfAKilledProgram(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "old")
	seen := map[string]bool{}
	for round := range 12 {
		c := start(t, "save and begin journals for ever", path)
		c.line(t)
		time.Sleep(time.Duration(round*137) * time.Microsecond) // anywhere in a save
		c.kill()
		for _, left := range append(names(t, dir), allUnder(t, filepath.Dir(journalFolder(t)))...) {
			seen[left] = true
		}
		found, err := PendingFor(path)
		if err != nil || len(found) > 1 {
			t.Fatalf("left behind: %+v, %v", found, err)
		}
		for _, u := range found {
			if err := u.Drop(); err != nil {
				t.Fatal(err)
			}
		}
		Sweep(dir)
		if left := names(t, dir); !slices.Equal(left, []string{"a.toml"}) {
			t.Errorf("beside the document: %q", left)
		}
		if left := allUnder(t, filepath.Dir(journalFolder(t))); !slices.Equal(left, []string{"journals", "locks"}) {
			t.Errorf("in the state folder: %q", left)
		}
	}
	if len(seen) < 3 {
		t.Logf("no round left anything: only %d names seen", len(seen))
	}
}

// plant makes what killed programs left, of this version's and of names that
// only look alike.
func plant(t *testing.T, top string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(top, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		put(t, path, text)
	}
}

const someKey = "0123456789abcdef0123456789abcdef"

func TestSweep_takesEachKindOfLeftover(t *testing.T) {
	home(t)
	dir := t.TempDir()
	state, err := StateFolder()
	if err != nil {
		t.Fatal(err)
	}
	plant(t, dir, map[string]string{"a.toml": "document", ".a.toml.veilwright-new": "docum", ".b.toml.veilwright-new3": ""})
	plant(t, state, map[string]string{
		"locks/" + someKey + ".lock":              `{"pid":1,"host":"elsewhere","terminal":"","since":"2020-01-01T00:00:00Z"}`,
		"locks/f" + someKey[1:] + ".lock":         "",
		"journals/.gone-" + someKey + "-1/text-1": "somebody's text",
		"journals/.gone-untitled-2/lock":          "",
		".recent.json.veilwright-new":             "[",
		"journals/untitled-3/lock":                "",
		"journals/untitled-3/text-1":              "",
		"journals/untitled-3/text-2":              "",
		"journals/" + someKey + "-4/text-1":       journalMark + "cut sh", // no lock: a maker always had one, so it stays
	})
	if err := os.Mkdir(filepath.Join(state, "journals", someKey+"-5"), 0o700); err != nil {
		t.Fatal(err)
	}
	Sweep(dir)
	if left := names(t, dir); !slices.Equal(left, []string{"a.toml"}) {
		t.Errorf("beside the document: %q", left)
	}
	if left := allUnder(t, state); !slices.Equal(left, []string{"journals/" + someKey + "-4/text-1", "locks"}) {
		t.Errorf("in the state folder: %q", left)
	}
}

func TestSweep_touchesNothingOfOthers(t *testing.T) {
	home(t)
	dir := t.TempDir()
	state, err := StateFolder()
	if err != nil {
		t.Fatal(err)
	}
	plant(t, dir, map[string]string{
		"a.toml": "document", ".a.toml.swp": "x", ".a.toml123456789": "x", "a.toml.veilwright-new": "x", ".veilwright-new": "x",
		".a.toml.veilwright-new12": "x",
	})
	plant(t, state, map[string]string{
		"locks/notes.txt":                        "",
		"locks/a.lock":                           "",
		"locks/" + someKey + ".lock":             "not the text of a lock",
		"journals/readme":                        "",
		"journals/.gone-fishing/text-1":          "",
		"journals/.gone-" + someKey + "-1/photo": "",
		"journals/untitled-3/lock":               "",
		"journals/untitled-3/notes":              "",
		"practice/ada.txt":                       "",
	})
	if err := os.Symlink("a.toml", filepath.Join(dir, ".link.toml.veilwright-new")); err != nil {
		t.Fatal(err)
	}
	before := append(allUnder(t, dir), allUnder(t, state)...)
	Sweep(dir)
	if after := append(allUnder(t, dir), allUnder(t, state)...); !slices.Equal(after, before) {
		t.Errorf("there were %q, there are %q", before, after)
	}
}

func TestSweep_touchesNothingOfTheLiving(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "document")
	next, err := createNew(path, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer next.Close()
	lock, err := TryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	j := NewJournal(path)
	saved(t, j, "edited", Meta{})
	state := filepath.Dir(journalFolder(t))
	there := func() []string {
		all := append(allUnder(t, dir), allUnder(t, state)...)
		// The journal makes its copy for a power cut meanwhile.
		return slices.DeleteFunc(all, func(name string) bool { return strings.Contains(name, durableName) })
	}
	before := there()
	Sweep(dir)
	if after := there(); !slices.Equal(before, after) {
		t.Errorf("there were %q, there are %q", before, after)
	}
	// What waits for its next start is not swept either.
	closed(t, j)
	if err := lock.Unlock(); err != nil {
		t.Fatal(err)
	}
	Sweep(dir)
	expectPending(t, path, "edited")
}

// A program that starts looks at locks and journals at the very moment when
// another makes them: nobody is told that the document is open elsewhere, and
// nothing kept is lost.
func TestSweep_whileOthersBegin(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "document")
	stop := make(chan struct{})
	swept := make(chan struct{})
	go func() {
		defer close(swept)
		for {
			select {
			case <-stop:
				return
			default:
				Sweep(dir)
			}
		}
	}()
	defer func() {
		close(stop)
		<-swept
	}()
	for range 60 {
		j := NewJournal(path)
		saved(t, j, "edited", Meta{Rev: 1})
		f, err := Read(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Replace(path, []byte("edited"), Terms{Expect: f.Fingerprint}); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(j.Drop(1), j.Close()); err != nil {
			t.Fatal(err)
		}
	}
}

func TestReplace_takesTheNameThatAKilledProgramLeft(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	plant(t, dir, map[string]string{".a.toml.veilwright-new": "half of it"})
	if _, err := Replace(path, []byte("whole"), Terms{}); err != nil {
		t.Fatal(err)
	}
	if left := names(t, dir); !slices.Equal(left, []string{"a.toml"}) || get(t, path) != "whole" {
		t.Errorf("the folder holds %q", left)
	}
}

func TestReplace_longestNames(t *testing.T) {
	home(t)
	dir := t.TempDir()
	for _, length := range []int{longestName - len(newEnding), longestName} {
		path := filepath.Join(dir, strings.Repeat("n", length-len(Extension))+Extension)
		if _, err := Replace(path, []byte("text"), Terms{}); err != nil {
			t.Errorf("%d bytes: %v", length, err)
		}
	}
}

func TestReplace_goesByTheLock(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	other := start(t, "hold a lock", path)
	other.line(t)
	var locked *LockedError
	if _, err := Replace(path, []byte("mine"), Terms{}); !errors.As(err, &locked) || locked.Holder.PID != other.Process.Pid {
		t.Errorf("another program has it open: %v", err)
	}
	other.kill()
	if _, err := Replace(path, []byte("mine"), Terms{}); err != nil || get(t, path) != "mine" {
		t.Errorf("its holder is gone: %v", err)
	}
	if left := allUnder(t, filepath.Dir(journalFolder(t))); !slices.Equal(left, []string{"locks"}) {
		t.Errorf("left behind: %q", left)
	}
}

func TestReplace_keepsTheBytesBeforeItTouchesTheFile(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "theirs")
	j := NewJournal(path)
	var conflict *ConflictError
	if _, err := Replace(path, []byte("mine"), Terms{Journal: j, Meta: Meta{Rev: 1}}); !errors.As(err, &conflict) {
		t.Errorf("a file that should not be there: %v", err)
	}
	closed(t, j)
	expectPending(t, path, "mine")

	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	j = NewJournal(path)
	if _, err := Replace(path, []byte("mine too"), Terms{Expect: f.Fingerprint, Journal: j, Meta: Meta{Rev: 1}}); err != nil {
		t.Fatal(err)
	}
	if err := j.Save([]byte("late"), Meta{Rev: 1}); err != nil {
		t.Fatal(err)
	}
	closed(t, j)
	expectPending(t, path, "mine")
}

func TestReplace_keepsOtherNamesInTheFolder(t *testing.T) {
	home(t)
	dir, elsewhere := t.TempDir(), t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	put(t, in("a.toml"), "old")
	backup := filepath.Join(elsewhere, "a.toml")
	if err := errors.Join(os.Link(in("a.toml"), in("b.toml")), os.Link(in("a.toml"), in("c")), os.Link(in("a.toml"), backup)); err != nil {
		t.Fatal(err)
	}
	f, err := Read(in("b.toml"))
	if err != nil {
		t.Fatal(err)
	}
	print, err := Replace(in("b.toml"), []byte("new"), Terms{Expect: f.Fingerprint})
	if err != nil {
		t.Fatal(err)
	}
	first, err := os.Stat(in("a.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"b.toml", "c"} {
		if info, err := os.Stat(in(name)); err != nil || !os.SameFile(first, info) || get(t, in(name)) != "new" {
			t.Errorf("%s: %v, %q", name, err, get(t, in(name)))
		}
	}
	if changed, err := changed(in("b.toml"), print); changed || err != nil {
		t.Errorf("changed since it was written: %v, %v", changed, err)
	}
	if got := get(t, backup); got != "old" {
		t.Errorf("a copy of another folder is %q", got)
	}
	if got := names(t, dir); !slices.Equal(got, []string{"a.toml", "b.toml", "c"}) {
		t.Errorf("left in the folder: %q", got)
	}
}
