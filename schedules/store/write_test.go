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

func TestWrite_keepsModeOwnerAndLink(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	link := filepath.Join(dir, "link.toml")
	put(t, path, "old")
	if err := os.Symlink("a.toml", link); err != nil {
		t.Fatal(err)
	}
	uid, gid := os.Getuid(), os.Getgid()
	if uid == 0 { // nobody else may give files away
		uid, gid = 12345, 23456
	}
	if err := errors.Join(os.Chown(path, uid, gid), os.Chmod(path, 0o640)); err != nil {
		t.Fatal(err)
	}
	before, err := Read(link)
	if err != nil {
		t.Fatal(err)
	}
	print, err := write(link, []byte("new"), &before.Fingerprint)
	if err != nil {
		t.Fatal(err)
	}
	after, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(after.Bytes) != "new" || after.Mode.Perm() != 0o640 {
		t.Errorf("the file is %q with mode %v", after.Bytes, after.Mode)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if st := info.Sys().(*syscall.Stat_t); int(st.Uid) != uid || int(st.Gid) != gid {
		t.Errorf("owner %d:%d, want %d:%d", st.Uid, st.Gid, uid, gid)
	}
	print.Taken = after.Fingerprint.Taken
	if print != after.Fingerprint {
		t.Errorf("write says %+v, Read %+v", print, after.Fingerprint)
	}
	if to, err := os.Readlink(link); err != nil || to != "a.toml" {
		t.Errorf("the link is %q, %v", to, err)
	}
	if got := names(t, dir); !slices.Equal(got, []string{"a.toml", "link.toml"}) {
		t.Errorf("left in the folder: %q", got)
	}
}

func TestWrite_newFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "new.toml")
	link := filepath.Join(dir, "link.toml")
	if err := os.Symlink("new.toml", link); err != nil {
		t.Fatal(err)
	}
	umask := syscall.Umask(0o027)
	defer syscall.Umask(umask)
	print, err := write(link, []byte("new"), &Fingerprint{})
	if err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(path)
	if err != nil || info.Mode() != 0o640 || get(t, path) != "new" {
		t.Errorf("the file is %v, %v", info, err)
	}
	if changed, err := changed(path, print); changed || err != nil {
		t.Errorf("changed since it was written: %v, %v", changed, err)
	}
}

func TestWrite_refusesAndLeavesThings(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	for _, d := range []string{"folder.toml", "closed"} {
		if err := os.Mkdir(in(d), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := syscall.Mkfifo(in("pipe.toml"), 0o600); err != nil {
		t.Fatal(err)
	}
	put(t, in("marked.toml"), "old")
	put(t, in("closed/a.toml"), "old")
	if err := errors.Join(os.Chmod(in("marked.toml"), 0o444), os.Chmod(in("closed"), 0o555)); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(in("closed"), 0o755)
	before := names(t, dir)
	for _, c := range []struct{ path, want string }{
		{in("marked.toml"), "is marked read-only"},
		{in("closed/a.toml"), "its folder is marked read-only"},
		{in("closed/new.toml"), "its folder is marked read-only"},
		{in("folder.toml"), "is a folder, not a file"},
		{in("pipe.toml"), "is a pipe, not a file (standard input is read with -)"},
		{"/dev/null", "is a device, not a file"},
		{in("missing/a.toml"), "its folder cannot be found: it does not exist"},
		{in("marked.toml/a.toml"), "its folder cannot be found: a part of its path is no folder"},
	} {
		print, err := write(c.path, []byte("new"), nil)
		var own *Error
		if !errors.As(err, &own) || err.Error() != c.path+": "+c.want || !print.IsZero() {
			t.Errorf("write(%s) = %v, %v", c.path, print, err)
		}
	}
	if _, err := write(in("big.toml"), make([]byte, MaxSize+1), nil); err == nil {
		t.Error("a file is written that could not be read again")
	}
	if got := names(t, dir); !slices.Equal(got, before) {
		t.Errorf("the folder holds %q, held %q", got, before)
	}
	for _, name := range []string{"marked.toml", "closed/a.toml"} {
		if got := get(t, in(name)); got != "old" {
			t.Errorf("%s is %q", name, got)
		}
	}
	if got := names(t, in("closed")); len(got) != 1 {
		t.Errorf("the closed folder holds %q", got)
	}
}

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
}

func TestWrite_kernelRefusesHalfway(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "old")
	run(t, "save without room", path)
	if got := get(t, path); got != "old" || len(names(t, dir)) != 1 {
		t.Errorf("the file is %q, the folder holds %q", got, names(t, dir))
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
