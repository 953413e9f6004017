//go:build unix

package store

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// limitFileSize makes the kernel refuse to let any file grow past 8 KiB. Unlike
// a small file system that is full, anybody may ask for it anywhere, and it too
// strikes in the middle of a write.
func limitFileSize() error {
	// Unix asks first by a signal, then by EFBIG (setrlimit(2)).
	signal.Ignore(syscall.SIGXFSZ)
	return unix.Setrlimit(unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: 8 << 10, Max: 8 << 10})
}

const (
	aDevice          = "/dev/null"
	usualMode        = 0o644 // of a file that put made
	foldersAreMarked = true  // read-only, and then take no new file
	namesStay        = false // of files that are removed while they are open
)

// hasLinks tells whether this user can make symbolic links.
func hasLinks(*testing.T) bool { return true }

// otherName is another name of a file.
func otherName(t *testing.T, path string) string {
	t.Helper()
	link := filepath.Join(filepath.Dir(path), "link.toml")
	if err := os.Symlink(filepath.Base(path), link); err != nil {
		t.Fatal(err)
	}
	return link
}

func ExampleError() {
	_, err := Read("tower\x1b[2J.toml")
	fmt.Println(err)
	// Output: tower\u001b[2J.toml: cannot be read: it does not exist
}

func TestOpenAppendLog_keepsTheTailWhereItCannotBePutAside(t *testing.T) {
	home(t)
	path := newLog(t)
	put(t, path, logStart+"torn")
	if err := os.Chmod(filepath.Dir(path), 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(filepath.Dir(path), 0o755)
	if _, torn, err := OpenAppendLog(path, wholeEntries); torn != nil || err == nil || !strings.Contains(err.Error(), "cut short") {
		t.Errorf("opened: %v, %v", torn, err)
	}
	if got := get(t, path); got != logStart+"torn" {
		t.Errorf("the log is %q", got)
	}
}

// mkfifo makes a named pipe.
func mkfifo(t *testing.T, path string) {
	t.Helper()
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Fatal(err)
	}
}

// ownerOf is a file's owner and group.
func ownerOf(info fs.FileInfo) (uid, gid int) {
	st := info.Sys().(*syscall.Stat_t)
	return int(st.Uid), int(st.Gid)
}

func TestAppendLog_kernelRefusesHalfway(t *testing.T) {
	home(t)
	path := newLog(t)
	run(t, "append without room", path)
	if got := get(t, path); got != logStart+"small\n\n" {
		t.Errorf("the log has %d bytes: %.60q", len(got), got)
	}
}

func TestJournal_fullDiskKeepsTheLastThatFitted(t *testing.T) {
	home(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	run(t, "keep a journal without room", path)
	expectPending(t, path, "small")
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
	if u, g := ownerOf(info); u != uid || g != gid {
		t.Errorf("owner %d:%d, want %d:%d", u, g, uid, gid)
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
	mkfifo(t, in("pipe.toml"))
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

func TestRead_refusesInOneSentence(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	mkfifo(t, in("pipe.toml"))
	socket, err := net.Listen("unix", in("s.toml"))
	if err != nil {
		t.Fatal(err)
	}
	defer socket.Close()
	put(t, in("sparse.toml"), "")
	if err := os.Truncate(in("sparse.toml"), 100e6); err != nil {
		t.Fatal(err)
	}
	for from, to := range map[string]string{"round.toml": "round.toml", "nowhere.toml": "missing"} {
		if err := os.Symlink(to, in(from)); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ path, want string }{
		{in("missing.toml"), "cannot be read: it does not exist"},
		{in("nowhere.toml"), "cannot be read: it does not exist"},
		{in("round.toml"), "cannot be read: its symbolic links run in a circle"},
		{in("sparse.toml/x"), "cannot be read: a part of its path is no folder"},
		{in(strings.Repeat("n", 300)), "cannot be read: its name is too long"},
		{dir, "is a folder, not a file"},
		{in("pipe.toml"), "is a pipe, not a file (standard input is read with -)"},
		{in("s.toml"), "is a socket, not a file"},
		{"/dev/null", "is a device, not a file"},
		{"/dev/zero", "is a device, not a file"},
		{in("sparse.toml"), "has 95.4 MiB, and a document may have 64 MiB at most"},
	} {
		f, err := Read(c.path)
		var own *Error
		if !errors.As(err, &own) || err.Error() != c.path+": "+c.want {
			t.Errorf("Read(%s) = %d bytes, %v", c.path, len(f.Bytes), err)
		}
	}
	if _, err := Read(in("missing.toml")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing file is not fs.ErrNotExist: %v", err)
	}
}

func TestRead_doesNotWaitForAPipeThatTookTheFilesPlace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	mkfifo(t, path)
	if _, _, err := openLooked(path, os.O_RDONLY); err == nil || !strings.Contains(err.Error(), "is a pipe") {
		t.Errorf("opened a pipe: %v", err)
	}
}

// A regular file of the kernel's can wait for more as a pipe does: its log
// (/proc/kmsg), a trace. What it has comes first, and then nothing for hours.
func TestRead_doesNotWaitForMore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	mkfifo(t, path)
	f, err := os.OpenFile(path, os.O_RDWR|unix.O_NONBLOCK, 0) // for writing too: it has no end
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, has := range []string{"", "document"} {
		if _, err := f.WriteString(has); err != nil {
			t.Fatal(err)
		}
		read := make(chan error, 1)
		go func() {
			_, err := readOpened("log.toml", f, 0)
			read <- err
		}()
		select {
		case err := <-read:
			if err == nil || err.Error() != "log.toml: cannot be read: it holds no text with an end, but gives more when there is more" {
				t.Errorf("with %q in it: %v", has, err)
			}
		case <-time.After(10 * time.Second):
			t.Fatalf("with %q in it reading it waits", has)
		}
	}
}

// The same by a link, in files of this system that are read to their end or
// refused: whichever, it is over soon.
func TestRead_endsWithFilesOfTheKernel(t *testing.T) {
	for _, of := range []string{"/proc/kmsg", "/proc/self/mem", "/proc/self/pagemap", "/proc/self/status", "/sys/kernel/tracing/trace_pipe", "/sys/kernel/debug/tracing/trace_pipe"} {
		link := filepath.Join(t.TempDir(), "a.toml")
		if err := os.Symlink(of, link); err != nil {
			t.Fatal(err)
		}
		over := make(chan error, 1)
		go func() {
			_, err := Read(link)
			over <- err
		}()
		select {
		case err := <-over:
			var own *Error
			if err != nil && !errors.As(err, &own) {
				t.Errorf("%s: %v", of, err)
			}
		case <-time.After(10 * time.Second):
			t.Errorf("reading %s does not end", of)
		}
	}
}

func TestList(t *testing.T) {
	root := t.TempDir()
	tree(t, root, "b.toml", "a.toml", "a/z.toml", "a/deep/er/x.toml", "a.toml.bak", ".hidden.toml", ".git/c.toml",
		"folder.toml/in.toml", "up -> ..", "self.toml -> .", "link.toml -> b.toml", "nowhere.toml -> missing", "UP.TOML")
	mkfifo(t, filepath.Join(root, "pipe.toml"))
	want := []string{"a.toml", "a/deep/er/x.toml", "a/z.toml", "b.toml", "folder.toml/in.toml", "link.toml", "nowhere.toml", "pipe.toml"}
	t.Chdir(root)
	got, err := List(".")
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("List(.) = %q, %v", got, err)
	}
	for i := range want {
		want[i] = filepath.Join(root, want[i])
	}
	got, err = List(root)
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("List = %q, %v", got, err)
	}
	// A link that is asked for by name is followed, and a dot-folder searched.
	tree(t, t.TempDir(), "x")
	link := filepath.Join(t.TempDir(), ".link")
	if err := os.Symlink(root, link); err != nil {
		t.Fatal(err)
	}
	if got, err := List(link); err != nil || len(got) != len(want) {
		t.Errorf("List of a link = %q, %v", got, err)
	}
	for path, why := range map[string]string{"b.toml": "is not a folder", "missing": "cannot be searched: it does not exist"} {
		if got, err := List(path); len(got) != 0 || err == nil || err.Error() != path+": "+why {
			t.Errorf("List(%s) = %q, %v", path, got, err)
		}
	}
}

func TestFolders_followTheSpecification(t *testing.T) {
	// XDG Base Directory Specification 0.8: defaults, and relative paths are
	// ignored.
	for _, c := range []struct{ home, variable, state, config string }{
		{"/home/u", "", "/home/u/.local/state/veilwright", "/home/u/.config/veilwright"},
		{"/home/u", "/x", "/x/veilwright", "/x/veilwright"},
		{"/home/u", "x", "/home/u/.local/state/veilwright", "/home/u/.config/veilwright"},
		{"", "/x", "/x/veilwright", "/x/veilwright"},
		{"", "", "", ""},
		{"relative", "", "", ""},
	} {
		setHome(t, c.home)
		t.Setenv("XDG_STATE_HOME", c.variable)
		t.Setenv("XDG_CONFIG_HOME", c.variable)
		state, err := StateFolder()
		if state != c.state || (err == nil) != (c.state != "") {
			t.Errorf("%+v: state %q, %v", c, state, err)
		}
		config, err := ConfigFolder()
		if config != c.config || (err == nil) != (c.config != "") {
			t.Errorf("%+v: configuration %q, %v", c, config, err)
		}
	}
}
