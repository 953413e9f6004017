package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/schedules/internal/system"
)

// wholeEntries takes an entry to end in an empty line.
func wholeEntries(b []byte) int {
	b, _, _ = bytes.Cut(b, []byte{0})
	if last := bytes.LastIndex(b, []byte("\n\n")); last >= 0 {
		return last + 2
	}
	return 0
}

const logStart = "record\n\n"

func newLog(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.toml")
	if _, err := write(path, []byte(logStart), &Fingerprint{}); err != nil {
		t.Fatal(err)
	}
	return path
}

func openLog(t *testing.T, path string) *AppendLog {
	t.Helper()
	l, torn, err := OpenAppendLog(path, wholeEntries)
	if err != nil || torn != nil {
		t.Fatalf("opening a whole log: %v, %v", torn, err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

func TestAppendLog_grows(t *testing.T) {
	home(t)
	path := newLog(t)
	l := openLog(t, path)
	want := logStart
	for n := range 3 {
		entry := fmt.Sprintf("tick %d\n\n", n)
		want += entry
		if err := l.Append([]byte(entry)); err != nil {
			t.Fatal(err)
		}
		if got := get(t, path); got != want || l.Size() != int64(len(want)) {
			t.Fatalf("the log is %q, size %d", got, l.Size())
		}
	}
	for _, bad := range []string{"", "no newline", "zero\x00\n"} {
		if err := l.Append([]byte(bad)); err == nil {
			t.Errorf("%q was added", bad)
		}
	}
	if err := errors.Join(l.Close(), l.Close()); err != nil {
		t.Fatal(err)
	}
	if err := l.Append([]byte("late\n\n")); !errors.Is(err, fs.ErrClosed) {
		t.Errorf("added after the end: %v", err)
	}
	openLog(t, path)
	if got := get(t, path); got != want {
		t.Errorf("the log is %q", got)
	}
}

func TestOpenAppendLog_refuses(t *testing.T) {
	home(t)
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	put(t, in("foreign.toml"), "one line\n")
	put(t, in("marked.toml"), logStart)
	put(t, in("big.toml"), "")
	if err := errors.Join(os.Chmod(in("marked.toml"), 0o444), os.Truncate(in("big.toml"), MaxSize+1)); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		in("missing.toml"): "it does not exist",
		in("foreign.toml"): "holds no whole entry",
		in("marked.toml"):  "is marked read-only",
		in("big.toml"):     "at most",
		dir:                "is a folder",
		aDevice:            "is a device",
	} {
		l, torn, err := OpenAppendLog(path, wholeEntries)
		if l != nil || torn != nil || err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v, %v", path, torn, err)
		}
		// The refusal keeps no lock.
		if lock, err := TryLock(path); err != nil {
			t.Errorf("%s: %v", path, err)
		} else if err := lock.Unlock(); err != nil {
			t.Error(err)
		}
	}
	if got := get(t, in("foreign.toml")); got != "one line\n" || len(names(t, dir)) != 3 {
		t.Errorf("the foreign file is %q, the folder holds %q", got, names(t, dir))
	}
}

func TestOpenAppendLog_oneOfTwoProcesses(t *testing.T) {
	root := home(t)
	path := newLog(t)
	other := start(t, "hold a log", path)
	if said := other.line(t); said != "held" {
		t.Fatal(said)
	}
	_, _, err := OpenAppendLog(path, wholeEntries)
	var locked *LockedError
	if !errors.As(err, &locked) || locked.Holder.PID != other.Process.Pid {
		t.Errorf("opened twice: %v", err)
	}
	// Another user has another state folder, and meets the lock of the file.
	setHome(t, filepath.Join(root, "other"))
	if _, _, err := OpenAppendLog(path, wholeEntries); !errors.As(err, &locked) {
		t.Errorf("opened twice by two users: %v", err)
	}
	// A program without state folder too.
	setHome(t, "")
	if _, _, err := OpenAppendLog(path, wholeEntries); !errors.As(err, &locked) {
		t.Errorf("opened twice, without a home: %v", err)
	}
	other.kill()
	openLog(t, path)
}

func TestAppendLog_noticesOthers(t *testing.T) {
	home(t)
	for name, c := range map[string]struct {
		do  func(path string) error
		how Change
	}{
		"another appends": {func(path string) error {
			f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
			if err != nil {
				return err
			}
			_, err = f.WriteString("by hand\n")
			return errors.Join(err, f.Close())
		}, Edited},
		"another cuts":     {func(path string) error { return os.Truncate(path, 3) }, Edited},
		"another replaces": {func(path string) error { _, err := write(path, []byte(logStart), nil); return err }, Edited},
		"another removes":  {os.Remove, Removed},
	} {
		t.Run(name, func(t *testing.T) {
			path := newLog(t)
			l := openLog(t, path)
			err := c.do(path)
			if system.Passes(err) {
				// Not on every system may a file be replaced that is open: then nothing happened.
				if err := l.Append([]byte("tick\n\n")); err != nil || get(t, path) != logStart+"tick\n\n" {
					t.Errorf("Append = %v, the file is %q", err, get(t, path))
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if _, err := os.Stat(path); c.how == Removed && err == nil && namesStay {
				return // until it is closed: nobody can notice
			}
			before, _ := os.ReadFile(path)
			for range 2 {
				var conflict *ConflictError
				if err := l.Append([]byte("tick\n\n")); !errors.As(err, &conflict) || conflict.How != c.how {
					t.Errorf("Append = %v", err)
				}
			}
			if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
				t.Errorf("the file was %q and is %q", before, after)
			}
		})
	}
}

func TestAppendLog_fullDiskAddsNothing(t *testing.T) {
	home(t)
	path := newLog(t)
	l := openLog(t, path)
	err := l.append([]byte("a long entry\n\n"), fullDisk)
	if !errors.Is(err, syscall.ENOSPC) || err.Error() != path+": the entry was not added: the disk is full" {
		t.Errorf("a full disk: %v", err)
	}
	if got := get(t, path); got != logStart {
		t.Errorf("the log is %q", got)
	}
	if err := l.Append([]byte("fits\n\n")); err != nil || get(t, path) != logStart+"fits\n\n" {
		t.Errorf("with room again: %v, %q", err, get(t, path))
	}
}

func TestAppendLog_saysWhenAPartMayBeThere(t *testing.T) {
	home(t)
	path := newLog(t)
	l := openLog(t, path)
	err := l.append([]byte("a long entry\n\n"), func(w io.Writer, b []byte) error {
		err := fullDisk(w, b)
		l.file.Close() // so that nothing can be taken back
		return err
	})
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "a part of it may be there") {
		t.Errorf("a full disk: %v", err)
	}
	if again := l.Append([]byte("next\n\n")); !errors.Is(again, err) {
		t.Errorf("the next entry: %v", again)
	}
	if err := l.sidecar.Unlock(); err != nil {
		t.Fatal(err)
	}
	again, torn, err := OpenAppendLog(path, wholeEntries)
	if err == nil {
		defer again.Close()
	}
	if err != nil || torn == nil || torn.String() != "the last entry was cut short; its 7 bytes were moved to "+path+".torn-1" {
		t.Errorf("opened: %v, %v", torn, err)
	}
	if got := get(t, path); got != logStart {
		t.Errorf("the log is %q", got)
	}
}

func TestAppendLog_stopsAtTheLimit(t *testing.T) {
	home(t)
	path := newLog(t)
	l := openLog(t, path)
	room := MaxSize - len(logStart)
	if err := l.Append(bytes.Repeat([]byte("\n"), room+1)); err == nil {
		t.Error("it grew past what can be read")
	}
	if err := l.Append(bytes.Repeat([]byte("\n"), room)); err != nil {
		t.Error(err)
	}
}

func TestAppendLog_killedKeepsEveryEntryTold(t *testing.T) {
	home(t)
	for round := range 4 {
		path := newLog(t)
		last := start(t, "append for ever", path).killAfter(t, 2*round)
		l := openLog(t, path)
		for n := 0; n <= last; n++ {
			if entry := fmt.Sprintf("tick %d\n\n", n); strings.Count(get(t, path), entry) != 1 {
				t.Errorf("killed after %d: %q is not there once", last, entry)
			}
		}
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	}
}

// Wherever the last entry is cut, and whatever a power cut put in its place,
// opening keeps the whole ones, puts the rest aside, and loses no byte.
func TestOpenAppendLog_putsTornTailAside(t *testing.T) {
	home(t)
	dir := t.TempDir()
	round := 0
	rapid.Check(t, func(t *rapid.T) {
		round++
		path := filepath.Join(dir, fmt.Sprint(round))
		whole := logStart + rapid.StringMatching(`([a-z]{1,9}\n[a-z]{1,9}\n\n){0,4}`).Draw(t, "whole")
		entry := "laid\nby hand\n\n"
		tail := entry[:rapid.IntRange(1, len(entry)-1).Draw(t, "cut")] +
			strings.Repeat("\x00", rapid.IntRange(0, 20).Draw(t, "zeros"))
		taken := rapid.IntRange(0, 2).Draw(t, "earlier tails")
		for n := range taken {
			if err := os.WriteFile(fmt.Sprintf("%s.torn-%d", path, n+1), []byte("earlier"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(path, []byte(whole+tail), 0o644); err != nil {
			t.Fatal(err)
		}
		l, torn, err := OpenAppendLog(path, wholeEntries)
		if err != nil || torn == nil {
			t.Fatalf("opened: %v, %v", torn, err)
		}
		defer l.Close()
		aside, err := os.ReadFile(torn.Aside)
		if err != nil || string(aside) != tail || torn.Bytes != len(tail) || !strings.HasSuffix(torn.Aside, fmt.Sprintf(".torn-%d", taken+1)) {
			t.Fatalf("%v: %q, %v", torn, aside, err)
		}
		if err := l.Append([]byte(entry)); err != nil {
			t.Fatal(err)
		}
		kept, err := os.ReadFile(path)
		if err != nil || string(kept) != whole+entry {
			t.Fatalf("the log is %q, %v", kept, err)
		}
	})
}
