package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"pgregory.net/rapid"
)

func journalFolder(t *testing.T) string {
	t.Helper()
	state, err := StateFolder()
	if err != nil {
		t.Fatal(err)
	}
	return filepath.Join(state, "journals")
}

func pendingTexts(t *testing.T, path string) []string {
	t.Helper()
	found, err := PendingFor(path)
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, u := range found {
		texts = append(texts, string(u.Bytes))
	}
	return texts
}

func expectPending(t *testing.T, path string, want ...string) {
	t.Helper()
	if got := pendingTexts(t, path); !slices.Equal(got, want) {
		t.Errorf("pending for %q: %q, want %q", path, got, want)
	}
}

func saved(t *testing.T, j *Journal, text string, m Meta) {
	t.Helper()
	if err := j.Save([]byte(text), m); err != nil {
		t.Fatal(err)
	}
}

func closed(t *testing.T, j *Journal) {
	t.Helper()
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestJournal_offersWhatADeadProgramLeft(t *testing.T) {
	home(t)
	dir := t.TempDir()
	t.Chdir(dir)
	path := filepath.Join(dir, "a.toml")
	put(t, path, "on disk")
	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	meta := Meta{Base: f.Fingerprint, Label: "drain header", Rev: 7}
	j := NewJournal("a.toml")
	saved(t, j, "edited", meta)
	expectPending(t, path) // its program runs
	closed(t, j)           // a hang-up: it ends without having saved

	t.Chdir(t.TempDir())
	found, err := PendingFor(path)
	if err != nil || len(found) != 1 {
		t.Fatalf("found %+v, %v", found, err)
	}
	u := found[0]
	if u.Path != path || u.Meta != meta || string(u.Bytes) != "edited" || u.PID != os.Getpid() || time.Since(u.Time) > time.Hour {
		t.Errorf("found %+v", u)
	}
	expectPending(t, filepath.Join(dir, "other.toml"))
	expectPending(t, "")
	if all, err := Pending(); err != nil || len(all) != 1 {
		t.Errorf("all: %+v, %v", all, err)
	}
	if err := u.Drop(); err != nil {
		t.Fatal(err)
	}
	expectPending(t, path)
	if left := names(t, journalFolder(t)); len(left) != 0 {
		t.Errorf("left behind: %q", left)
	}
}

func TestJournal_killedBetweenSaves(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "on disk")
	for round := 1; round <= 5; round++ {
		last := start(t, "keep a journal for ever", path).killAfter(t, 10*round)
		found, err := PendingFor(path)
		if err != nil || len(found) != 1 {
			t.Fatalf("found %d, %v", len(found), err)
		}
		u := found[0]
		// One more may be kept than was told of, and none less.
		if n := int(u.Rev); n != last && n != last+1 || !bytes.Equal(u.Bytes, bigText(n)) {
			t.Fatalf("killed after %d: kept revision %d, %.40q", last, n, u.Bytes)
		}
		if err := u.Drop(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestJournal_neverOverwritesAnother(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	for _, text := range []string{"first", "second"} {
		j := NewJournal(path)
		saved(t, j, text, Meta{})
		closed(t, j)
		time.Sleep(time.Millisecond) // times that differ, to be sorted by
	}
	j := NewJournal(path)
	saved(t, j, "third, still open", Meta{})
	expectPending(t, path, "second", "first")
	if err := j.Drop(0); err != nil {
		t.Fatal(err)
	}
	closed(t, j)
	expectPending(t, path, "second", "first")
}

func TestJournal_untitled(t *testing.T) {
	home(t)
	one, two := NewJournal(""), NewJournal("")
	saved(t, one, "one", Meta{Label: "one"})
	time.Sleep(time.Millisecond)
	saved(t, two, "two", Meta{Label: "two"})
	closed(t, one)
	expectPending(t, "", "one")
	closed(t, two)
	expectPending(t, "", "two", "one")
}

func TestJournal_isNotOfferedOnceTheFileHasIt(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "old")
	j := NewJournal(path)
	saved(t, j, "edited", Meta{})
	if _, err := write(path, []byte("edited"), nil); err != nil {
		t.Fatal(err)
	}
	closed(t, j) // ends before it dropped
	expectPending(t, path)
	if left := names(t, journalFolder(t)); len(left) != 0 {
		t.Errorf("left behind: %q", left)
	}
}

func TestJournal_dropAndSaveOvertakeEachOther(t *testing.T) {
	home(t)
	kept := func(j *Journal, path string) []string {
		closed(t, j)
		return pendingTexts(t, path)
	}
	step := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		name string
		do   func(j *Journal, m func(uint64) Meta)
		want []string
	}{
		{"older save after a newer", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "2", m(2))
			saved(t, j, "1", m(1))
		}, []string{"2"}},
		{"late save of what was dropped", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "1", m(1))
			step(j.Drop(2))
			saved(t, j, "2", m(2))
		}, nil},
		{"drop of less than was kept", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "3", m(3))
			step(j.Drop(2))
		}, []string{"3"}},
		{"save after a drop", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "1", m(1))
			step(j.Drop(1))
			saved(t, j, "2", m(2))
		}, []string{"2"}},
		{"not counted", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "a", m(0))
			step(j.Drop(0))
			saved(t, j, "b", m(0))
		}, []string{"b"}},
		{"nothing to drop", func(j *Journal, _ func(uint64) Meta) { step(j.Drop(0)) }, nil},
		{"dropped after the end", func(j *Journal, m func(uint64) Meta) {
			saved(t, j, "1", m(1))
			closed(t, j)
			step(j.Drop(1))
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.toml")
			j := NewJournal(path)
			c.do(j, func(rev uint64) Meta { return Meta{Rev: rev} })
			if got := kept(j, path); !slices.Equal(got, c.want) {
				t.Errorf("kept %q, want %q", got, c.want)
			}
			if err := j.Save(nil, Meta{Rev: 99}); !errors.Is(err, fs.ErrClosed) {
				t.Errorf("Save after Close: %v", err)
			}
		})
	}
}

// Saves, drops and the goroutine at once: what was dropped last stays dropped,
// and what was kept last stays kept.
func TestJournal_dropWhileTheDurableCopyIsMade(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	for round := range uint64(40) {
		j := NewJournal(path)
		saved(t, j, "dropped", Meta{Rev: 1})
		time.Sleep(time.Duration(round) * 20 * time.Microsecond)
		if err := j.Drop(1); err != nil {
			t.Fatal(err)
		}
		if round%2 == 1 {
			saved(t, j, "kept", Meta{Rev: 2})
		}
		closed(t, j)
		found, err := PendingFor(path)
		if err != nil || len(found) != int(round%2) {
			t.Fatalf("found %+v, %v", found, err)
		}
		for _, u := range found {
			if string(u.Bytes) != "kept" {
				t.Errorf("found %q", u.Bytes)
			}
			if err := u.Drop(); err != nil {
				t.Fatal(err)
			}
		}
		if left := names(t, journalFolder(t)); len(left) != 0 {
			t.Fatalf("left behind: %q", left)
		}
	}
}

func TestJournal_tornCopyFallsBackToTheDurableOne(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	j := NewJournal(path)
	saved(t, j, "kept", Meta{})
	closed(t, j) // makes the durable copy
	entries := names(t, journalFolder(t))
	if len(entries) != 1 {
		t.Fatalf("journals: %q", entries)
	}
	latest := filepath.Join(journalFolder(t), entries[0], textOneName)
	for _, torn := range []string{"", get(t, latest)[:50], strings.Repeat("\x00", 300)} {
		put(t, latest, torn)
		expectPending(t, path, "kept")
	}
	put(t, filepath.Join(journalFolder(t), entries[0], durableName), "")
	expectPending(t, path)
}

func TestJournal_durableCopyFollowsWithinASecond(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	durable := func(j *Journal) string {
		image, err := os.ReadFile(filepath.Join(j.dir, durableName))
		if err != nil {
			t.Fatal(err)
		}
		u, whole := decodeJournal(image)
		if !whole {
			t.Fatalf("the durable copy is torn: %q", image)
		}
		return string(u.Bytes)
	}
	// The bubble's clock moves only when everything in it waits.
	synctest.Test(t, func(t *testing.T) {
		j := NewJournal(path)
		saved(t, j, "1", Meta{Rev: 1})
		synctest.Wait()
		if got := durable(j); got != "1" {
			t.Errorf("the first copy is %q", got)
		}
		saved(t, j, "2", Meta{Rev: 2})
		saved(t, j, "3", Meta{Rev: 3})
		synctest.Wait()
		if got := durable(j); got != "1" {
			t.Errorf("the copy was made again at once: %q", got)
		}
		time.Sleep(hardenEvery)
		synctest.Wait()
		if got := durable(j); got != "3" {
			t.Errorf("a second later the copy is %q", got)
		}
		saved(t, j, "4", Meta{Rev: 4})
		closed(t, j)
		if got := durable(j); got != "4" {
			t.Errorf("at the end the copy is %q", got)
		}
	})
}

func TestJournal_saysThatNoDurableCopyCanBeMade(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	synctest.Test(t, func(t *testing.T) {
		j := NewJournal(path)
		saved(t, j, "1", Meta{Rev: 1})
		synctest.Wait()
		// A folder that is not empty can be replaced by no file (rename(2)).
		durable := filepath.Join(j.dir, durableName)
		if err := errors.Join(os.Remove(durable), os.MkdirAll(filepath.Join(durable, "x"), 0o700)); err != nil {
			t.Fatal(err)
		}
		saved(t, j, "2", Meta{Rev: 2})
		time.Sleep(hardenEvery + time.Second) // Windows tries for half a second
		synctest.Wait()
		first, second := j.Save([]byte("3"), Meta{Rev: 3}), j.Save([]byte("4"), Meta{Rev: 4})
		if first == nil || second == nil || !errors.Is(j.Trouble(), second) {
			t.Errorf("first %v, second %v, trouble %v", first, second, j.Trouble())
		}
		if err := os.RemoveAll(durable); err != nil {
			t.Fatal(err)
		}
		time.Sleep(hardenEvery)
		synctest.Wait()
		if err := j.Trouble(); err != nil {
			t.Errorf("when it works again: %v", err)
		}
		closed(t, j)
	})
	expectPending(t, path, "4")
}

func TestJournal_saysThatItCannotKeepAsLongAsItIsSo(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	put(t, file, "")
	for name, env := range map[string][2]string{"no home": {"", ""}, "a file for a folder": {file, ""}} {
		t.Run(name, func(t *testing.T) {
			t.Setenv("XDG_STATE_HOME", env[0])
			setHome(t, env[1])
			j := NewJournal("a.toml")
			first := j.Save([]byte("1"), Meta{Rev: 1})
			if first == nil || !strings.HasPrefix(first.Error(), "recovery journal: cannot be written: ") && !strings.Contains(first.Error(), "cannot be made") {
				t.Errorf("first: %v", first)
			}
			if err := j.Save([]byte("2"), Meta{Rev: 2}); err == nil || err.Error() != first.Error() {
				t.Errorf("second: %v", err)
			}
			if j.Trouble() == nil {
				t.Error("no trouble is told of")
			}
			home(t) // a folder can be had after all
			if err := j.Save([]byte("3"), Meta{Rev: 3}); err != nil || j.Trouble() != nil {
				t.Errorf("with a home: %v, %v", err, j.Trouble())
			}
			closed(t, j)
			expectPending(t, "a.toml", "3")
			if all, err := Pending(); err != nil || len(all) != 1 || string(all[0].Bytes) != "3" {
				t.Errorf("kept %+v, %v", all, err)
			}
		})
	}
}

func TestJournal_beginsAgainWhenItsFolderIsCleared(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	synctest.Test(t, func(t *testing.T) {
		j := NewJournal(path)
		saved(t, j, "1", Meta{})
		synctest.Wait()
		saved(t, j, "2", Meta{})
		if err := os.Rename(journalFolder(t), filepath.Join(t.TempDir(), "away")); err != nil {
			t.Fatal(err)
		}
		// The durable copy cannot be made meanwhile, which is over with the folder.
		time.Sleep(hardenEvery + time.Second)
		synctest.Wait()
		if j.Trouble() == nil {
			t.Error("no trouble while the folder is gone")
		}
		saved(t, j, "3", Meta{})
		closed(t, j)
	})
	expectPending(t, path, "3")
}

func TestPending_withoutStateFolder(t *testing.T) {
	home(t)
	if found, err := Pending(); found != nil || err != nil {
		t.Errorf("a new user: %v, %v", found, err)
	}
	setHome(t, "")
	if _, err := Pending(); err == nil {
		t.Error("no home: no error")
	}
}

func TestJournalFile_wholeOrNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := rapid.SliceOf(rapid.Byte()).Draw(t, "data")
		path := "/" + string(rapid.SliceOf(rapid.ByteRange(1, 255)).Draw(t, "path"))
		meta := Meta{
			Label: rapid.String().Draw(t, "label"), Rev: rapid.Uint64().Draw(t, "rev"),
			Base: Fingerprint{Size: rapid.Int64().Draw(t, "size"), Inode: rapid.Uint64().Draw(t, "inode"), Sum: SumOf(data)},
		}
		image, err := encodeJournal(data, path, meta, 1, Holder{PID: 5})
		if err != nil {
			t.Fatal(err)
		}
		u, whole := decodeJournal(image)
		if !whole || u.Path != path || u.Meta != meta || !bytes.Equal(u.Bytes, data) || u.PID != 5 {
			t.Fatalf("%+v read back as %+v", meta, u)
		}
		u, whole = decodeJournal(append(slices.Clip(image), rapid.SliceOf(rapid.Byte()).Draw(t, "rest of the text before")...))
		if !whole || !bytes.Equal(u.Bytes, data) {
			t.Error("with the rest of a longer text behind it does not pass")
		}
		cut := rapid.IntRange(0, len(image)-1).Draw(t, "cut")
		if _, whole := decodeJournal(image[:cut]); whole {
			t.Errorf("cut at %d of %d it passes", cut, len(image))
		}
		if len(data) > 0 {
			at := len(image) - 1 - rapid.IntRange(0, len(data)-1).Draw(t, "at")
			image[at] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
			if _, whole := decodeJournal(image); whole {
				t.Error("with a bit turned it passes")
			}
		}
	})
}

func BenchmarkJournalSave(b *testing.B) {
	b.Setenv("XDG_STATE_HOME", b.TempDir())
	j := NewJournal("")
	text := make([]byte, 8000)
	for b.Loop() {
		if err := j.Save(text, Meta{}); err != nil {
			b.Fatal(err)
		}
	}
	if err := errors.Join(j.Drop(0), j.Close()); err != nil {
		b.Fatal(err)
	}
}
