package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
)

func TestTryLock_oneOfTwoProcesses(t *testing.T) {
	state := home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "")
	link := otherName(t, path)
	if err := os.Chmod(dir, 0o555); err != nil { // the lock needs nothing there
		t.Fatal(err)
	}
	other := start(t, "hold a lock", path)
	if said := other.line(t); said != "held" {
		t.Fatal(said)
	}
	_, err := TryLock(link)
	var locked *LockedError
	if !errors.As(err, &locked) {
		t.Fatalf("TryLock of what another holds: %v", err)
	}
	if h := locked.Holder; h.PID != other.Process.Pid || h.Since.IsZero() || locked.Path != link {
		t.Errorf("the holder is said to be %+v", locked)
	}
	want := fmt.Sprintf("%s: is open in another program, process %d, since %s", link, other.Process.Pid,
		locked.Holder.Since.Local().Format("15:04 on 2 January 2006"))
	if err.Error() != want {
		t.Errorf("it says %q, want %q", err, want)
	}

	other.kill()
	lock, err := TryLock(link)
	if err != nil {
		t.Fatalf("TryLock after its holder died: %v", err)
	}
	if err := lock.Unlock(); err != nil {
		t.Error(err)
	}
	if err := lock.Unlock(); err != nil {
		t.Errorf("a second Unlock: %v", err)
	}
	if left := names(t, filepath.Join(state, ".local/state/veilwright/locks")); len(left) != 0 {
		t.Errorf("left behind: %q", left)
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
}

func TestTryLock_twiceInOneProcess(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "new.toml") // need not exist
	first, err := TryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	other, err := TryLock(filepath.Join(dir, "other.toml"))
	if err != nil {
		t.Fatalf("another document: %v", err)
	}
	defer other.Unlock()
	var locked *LockedError
	if _, err := TryLock(path); !errors.As(err, &locked) || locked.Holder.PID != os.Getpid() {
		t.Errorf("a second lock: %v", err)
	}
	if err := first.Unlock(); err != nil {
		t.Fatal(err)
	}
	again, err := TryLock(path)
	if err != nil {
		t.Fatalf("after Unlock: %v", err)
	}
	defer again.Unlock()
}

// The lock file is removed by its holder and made again by the next, which is
// where two could come to hold two files of one name.
func TestTryLock_neverTwoHolders(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	var inside, got atomic.Int32
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 200 {
				lock, err := TryLock(path)
				var locked *LockedError
				if errors.As(err, &locked) {
					continue
				}
				if err != nil {
					t.Error(err)
					return
				}
				if inside.Add(1) != 1 {
					t.Error("two hold the lock")
				}
				got.Add(1)
				runtime.Gosched() // the others' turn to do wrong
				inside.Add(-1)
				if err := lock.Unlock(); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	if got.Load() == 0 {
		t.Error("nobody ever got it")
	}
}

func TestTryLock_withoutStateFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	t.Setenv("XDG_STATE_HOME", "")
	setHome(t, "")
	_, err := TryLock(path)
	var locked *LockedError
	if err == nil || errors.As(err, &locked) || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "HOME") {
		t.Errorf("no home: %v", err)
	}
	file := filepath.Join(t.TempDir(), "file")
	put(t, file, "")
	t.Setenv("XDG_STATE_HOME", file) // cannot hold a folder, not even for root
	if _, err = TryLock(path); err == nil || errors.As(err, &locked) {
		t.Errorf("a file for a state folder: %v", err)
	}
}

func TestReadHolder_takesNoRubbish(t *testing.T) {
	home(t)
	dir := t.TempDir()
	for name, text := range map[string]string{
		"empty": "", "cut": `{"pid": 1`, "rubbish": "\x00\x01", "negative": `{"pid": -1}`,
		"zero": `{}`,
	} {
		path := filepath.Join(dir, name)
		put(t, path, text)
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if h := readHolder(f); h != (Holder{}) {
			t.Errorf("%s: %+v", name, h)
		}
		f.Close()
	}
	if got := (&LockedError{Path: "a.toml"}).Error(); got != "a.toml: is open in another program" {
		t.Errorf("an unknown holder: %s", got)
	}
}
