package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func timeOf(seconds int64) time.Time { return time.Unix(seconds, 0) }
func timeNano(ns int64) time.Time    { return time.Unix(0, ns) }

func TestWrite_conflicts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "old")
	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	expectConflict := func(expect *Fingerprint, how Change, sentence string) {
		t.Helper()
		_, err := write(path, []byte("mine"), expect)
		var conflict *ConflictError
		if !errors.As(err, &conflict) || conflict.How != how || err.Error() != path+": "+sentence+"; it was left as it is" {
			t.Errorf("write = %v", err)
		}
	}
	put(t, path, "theirs")
	expectConflict(&f.Fingerprint, Edited, "was changed by another program")
	expectConflict(&Fingerprint{}, Created, "exists already")
	if got := get(t, path); got != "theirs" {
		t.Errorf("the file is %q", got)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	expectConflict(&f.Fingerprint, Removed, "was removed by another program")
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the removed file is back: %v", err)
	}
	if _, err := write(path, []byte("mine"), nil); err != nil || get(t, path) != "mine" {
		t.Errorf("without expectation: %v", err)
	}
}

// The other program may strike while the new bytes are being written.
func TestWrite_looksAgainBeforeItReplaces(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "old")
	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = replace(path, []byte("mine"), &f.Fingerprint, func(w io.Writer, b []byte) error {
		put(t, path, "theirs")
		return writeAll(w, b)
	})
	var conflict *ConflictError
	if !errors.As(err, &conflict) || get(t, path) != "theirs" || len(names(t, dir)) != 1 {
		t.Errorf("%v; the folder holds %q", err, names(t, dir))
	}
}

// fullDisk takes half and then fails as a full disk does (write(2), ENOSPC).
func fullDisk(w io.Writer, b []byte) error {
	if _, err := w.Write(b[:len(b)/2]); err != nil {
		return err
	}
	return &fs.PathError{Op: "write", Path: "whatever", Err: syscall.ENOSPC}
}

func TestWrite_fullDiskLeavesTheOldFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "old")
	print, err := replace(path, bigText(1), nil, fullDisk)
	if !errors.Is(err, syscall.ENOSPC) || err.Error() != path+": not saved, and the file is as it was: the disk is full" || !print.IsZero() {
		t.Errorf("a full disk: %v", err)
	}
	if got := get(t, path); got != "old" || len(names(t, dir)) != 1 {
		t.Errorf("the file is %q, the folder holds %q", got, names(t, dir))
	}
	// Where there was none, none is left, and it does not speak of one.
	path = filepath.Join(dir, "new.toml")
	if _, err = replace(path, bigText(1), nil, fullDisk); err == nil || err.Error() != path+": not saved, and there is no such file: the disk is full" || len(names(t, dir)) != 1 {
		t.Errorf("%v; the folder holds %q", err, names(t, dir))
	}
}

func TestWrite_killedAtAnyTimeIsOldOrNew(t *testing.T) {
	for round := range 6 {
		dir := t.TempDir()
		path := filepath.Join(dir, "a.toml")
		last := start(t, "save for ever", path).killAfter(t, round)
		got := get(t, path)
		// One more save may be in place than was told of.
		if got != string(bigText(last)) && got != string(bigText(last+1)) {
			t.Fatalf("killed after save %d: the file has %d bytes, from %.40q", last, len(got), got)
		}
		paths, err := List(dir)
		if err != nil || !slices.Equal(paths, []string{path}) {
			t.Errorf("listed %q, %v", paths, err)
		}
	}
}

// Whatever other programs do in between, a write that is told what to expect
// goes through exactly when the content is still that.
func TestWrite_conflictExactlyWhenContentDiffers(t *testing.T) {
	dir := t.TempDir()
	round := 0
	rapid.Check(t, func(t *rapid.T) {
		round++
		path := filepath.Join(dir, fmt.Sprint(round))
		var seen Fingerprint
		var seenText, text string // "" is no file
		step := func(err error) {
			if err != nil {
				t.Fatal(err)
			}
		}
		t.Repeat(map[string]func(*rapid.T){
			"edit": func(t *rapid.T) {
				text = rapid.SampledFrom([]string{"aa", "bb", "ccc"}).Draw(t, "text")
				step(os.WriteFile(path, []byte(text), 0o644))
			},
			"touch": func(*rapid.T) {
				if text != "" {
					step(os.Chtimes(path, timeOf(3e9), timeOf(3e9)))
				}
			},
			"replace": func(t *rapid.T) {
				text = rapid.SampledFrom([]string{"aa", "bb"}).Draw(t, "text")
				step(os.WriteFile(path+".x", []byte(text), 0o644))
				step(os.Rename(path+".x", path))
			},
			"remove": func(*rapid.T) {
				text = ""
				step(os.RemoveAll(path))
			},
			"look": func(*rapid.T) {
				seen, seenText = Fingerprint{}, ""
				if text != "" {
					f, err := Read(path)
					step(err)
					seen, seenText = f.Fingerprint, string(f.Bytes)
				}
			},
			"write": func(t *rapid.T) {
				mine := rapid.SampledFrom([]string{"aa", "mine"}).Draw(t, "mine")
				print, err := write(path, []byte(mine), &seen)
				var conflict *ConflictError
				switch {
				case seenText == text && err != nil, seenText != text && !errors.As(err, &conflict):
					t.Fatalf("seen %q, there %q: %v", seenText, text, err)
				case err == nil:
					seen, seenText, text = print, mine, mine
				}
			},
			"": func(t *rapid.T) {
				now, err := os.ReadFile(path)
				if err != nil && !errors.Is(err, fs.ErrNotExist) || string(now) != text {
					t.Fatalf("there is %q, want %q, %v", now, text, err)
				}
			},
		})
	})
}

func TestExplain_knowsWhatPeopleMeet(t *testing.T) {
	for errno, want := range map[syscall.Errno]string{
		syscall.ENOENT: "does not exist", syscall.EACCES: "permission denied", syscall.EPERM: "permission denied",
		syscall.ENOSPC: "disk is full", syscall.EDQUOT: "quota", syscall.EROFS: "read-only",
		syscall.EINVAL: "does not allow", syscall.EIO: "input/output error",
	} {
		err := failure("a.toml", "not saved", &fs.PathError{Op: "write", Path: "/secret/.a.toml123", Err: errno})
		if !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "secret") || !errors.Is(err, errno) {
			t.Errorf("%v: %v", errno, err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	path := filepath.Join(b.TempDir(), "a.toml")
	for b.Loop() {
		if _, err := write(path, make([]byte, 4000), nil); err != nil {
			b.Fatal(err)
		}
	}
}
