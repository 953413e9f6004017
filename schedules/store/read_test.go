package store

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"unicode"

	"pgregory.net/rapid"
)

func TestRead_wholeFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "abc")
	link := otherName(t, path)
	f, err := Read(link)
	if err != nil {
		t.Fatal(err)
	}
	resolved, err := filepath.EvalSymlinks(path)
	if err != nil {
		t.Fatal(err)
	}
	if f.Path != link || f.Resolved != resolved || string(f.Bytes) != "abc" || f.Mode.Perm() != usualMode || f.ReadOnly {
		t.Errorf("Read = %+v", f)
	}
	// FIPS 180-4 example 1: SHA-256 of "abc" (NIST, "Cryptographic Standards
	// and Guidelines: Examples with Intermediate Values").
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if got := f.Fingerprint.Sum.String(); got != abc {
		t.Errorf("sum %s", got)
	}
	var back Sum
	if err := back.UnmarshalText([]byte(strings.ToUpper(abc))); err != nil || back != f.Fingerprint.Sum {
		t.Errorf("sum read back as %v, %v", back, err)
	}
	for _, bad := range []string{"", abc[1:], "x" + abc[1:]} {
		if back.UnmarshalText([]byte(bad)) == nil {
			t.Errorf("%q is taken for a SHA-256", bad)
		}
	}
}

func TestRead_tellsWhatMayNotBeWritten(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	put(t, path, "")
	for _, c := range []struct {
		file, folder fs.FileMode
		want         bool
	}{{0o644, 0o755, false}, {0o444, 0o755, true}, {0o644, 0o555, foldersAreMarked}} {
		if err := errors.Join(os.Chmod(path, c.file), os.Chmod(dir, c.folder)); err != nil {
			t.Fatal(err)
		}
		f, err := Read(path)
		if err != nil || f.ReadOnly != c.want {
			t.Errorf("file %v in folder %v: read-only is %v, %v", c.file, c.folder, f.ReadOnly, err)
		}
		_, err = write(path, nil, nil)
		if (err != nil) != f.ReadOnly {
			t.Errorf("file %v in folder %v: told %v, but writing says %v", c.file, c.folder, f.ReadOnly, err)
		}
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
}

func TestRead_limitIsInclusive(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "")
	for size, ok := range map[int64]bool{MaxSize: true, MaxSize + 1: false} {
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
		f, err := Read(path)
		if (err == nil) != ok || ok && len(f.Bytes) != MaxSize {
			t.Errorf("%d bytes: read %d, %v", size, len(f.Bytes), err)
		}
		f, err = ReadFrom(bytes.NewReader(make([]byte, size)), "-")
		if (err == nil) != ok || ok && len(f.Bytes) != MaxSize {
			t.Errorf("%d bytes from a stream: read %d, %v", size, len(f.Bytes), err)
		}
	}
}

// endless counts what is taken of it.
type endless struct{ taken int64 }

func (e *endless) Read(p []byte) (int, error) {
	e.taken += int64(len(p))
	return len(p), nil
}

func TestReadFrom_stopsAtTheLimit(t *testing.T) {
	var e endless
	_, err := ReadFrom(&e, "standard input")
	if err == nil || err.Error() != "standard input: is over 64 MiB, the most that a document may have" {
		t.Errorf("an endless stream: %v", err)
	}
	if e.taken > MaxSize+1 {
		t.Errorf("took %d bytes of it", e.taken)
	}
}

func TestReadFrom_keepsWhatItRead(t *testing.T) {
	f, err := ReadFrom(strings.NewReader("text"), "-")
	if err != nil || f.Path != "-" || f.Resolved != "" || string(f.Bytes) != "text" || !f.ReadOnly || f.Fingerprint.Sum != SumOf([]byte("text")) {
		t.Errorf("ReadFrom = %+v, %v", f, err)
	}
	_, err = ReadFrom(iotest.ErrReader(io.ErrUnexpectedEOF), "-")
	if !errors.Is(err, io.ErrUnexpectedEOF) || !strings.HasPrefix(err.Error(), "-: cannot be read: ") {
		t.Errorf("a broken stream: %v", err)
	}
}

func TestResolve_followsWhatTheKernelFollows(t *testing.T) {
	if !hasLinks(t) {
		return
	}
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []string{"jobs/deep", "shelf"} {
		if err := os.MkdirAll(filepath.Join(dir, d), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	put(t, filepath.Join(dir, "jobs/a.toml"), "a")
	for from, to := range map[string]string{
		"in":            "jobs/deep",
		"shelf/a.toml":  "../jobs/a.toml",
		"shelf/new":     "newer",
		"shelf/newer":   dir + "/jobs/new.toml",
		"shelf/through": "../in/../new.toml", // the kernel's: jobs/new.toml
	} {
		if err := os.Symlink(to, filepath.Join(dir, from)); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
	for path, want := range map[string]string{
		"jobs/a.toml":     "jobs/a.toml",
		"in/../a.toml":    "jobs/a.toml",
		"shelf/a.toml":    "jobs/a.toml",
		"./shelf//a.toml": "jobs/a.toml",
		"new.toml":        "new.toml",
		"in/new.toml":     "jobs/deep/new.toml",
		"in/../new.toml":  "jobs/new.toml",
		"shelf/new":       "jobs/new.toml",
		"shelf/through":   "jobs/new.toml",
	} {
		for _, p := range []string{path, dir + "/" + path} {
			if got, err := Resolve(p); err != nil || got != filepath.Join(dir, want) {
				t.Errorf("Resolve(%s) = %s, %v", p, got, err)
			}
		}
	}
	for _, path := range []string{"missing/a.toml", "jobs/a.toml/b", "missing/"} {
		if got, err := Resolve(path); err == nil {
			t.Errorf("Resolve(%s) = %s", path, got)
		}
	}
}

func TestErrors_printNoControlCharacter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) })).Draw(t, "path")
		for _, err := range []error{
			&Error{Path: path, Why: "is a folder"},
			&ConflictError{Path: path, How: Edited},
			&LockedError{Path: path, Holder: Holder{PID: 1, Host: path, Terminal: path}},
			failure("a", "cannot be read", errors.New(path)),
		} {
			for _, r := range err.Error() {
				if !unicode.IsPrint(r) {
					t.Fatalf("%q holds %U", err.Error(), r)
				}
			}
		}
	})
	if got := (&Error{Path: "plain name é.toml", Why: "x"}).Error(); got != "plain name é.toml: x" {
		t.Errorf("a plain name is printed as %s", got)
	}
}

func TestSince_tellsTouchFromEdit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	long := func(text string) { // a file as it lies there for years
		put(t, path, text)
		old := timeOf(1e9)
		if err := os.Chtimes(path, old, old); err != nil {
			t.Fatal(err)
		}
	}
	read := func() Fingerprint {
		f, err := Read(path)
		if err != nil {
			t.Fatal(err)
		}
		return f.Fingerprint
	}
	for _, c := range []struct {
		name string
		do   func() error
		want Change
	}{
		{"nothing", func() error { return nil }, Unchanged},
		{"touch", func() error { return os.Chtimes(path, timeOf(2e9), timeOf(2e9)) }, Unchanged},
		{"the same bytes in a new file", func() error { return os.Rename(twin(t, path, "same"), path) }, Unchanged},
		{"other bytes of the same size", func() error { return os.WriteFile(path, []byte("else"), 0o644) }, Edited},
		{"longer", func() error { return os.WriteFile(path, []byte("same and more"), 0o644) }, Edited},
		{"grown past the limit", func() error { return os.Truncate(path, MaxSize+1) }, Edited},
		{"removed", func() error { return os.Remove(path) }, Removed},
	} {
		t.Run(c.name, func(t *testing.T) {
			long("same")
			f := read()
			if err := c.do(); err != nil {
				t.Fatal(err)
			}
			got, err := Since(path, f)
			if err != nil || got != c.want {
				t.Errorf("Since = %v, %v", got, err)
			}
			if now, err := Read(path); err == nil && now.Fingerprint.SameBytes(f) != (c.want == Unchanged) {
				t.Errorf("Since = %v, but the same bytes: %v", got, c.want != Unchanged)
			}
			changed, err := changed(path, f)
			if err != nil || changed != (c.want != Unchanged) {
				t.Errorf("Changed = %v, %v", changed, err)
			}
		})
	}
	if got, err := Since(path, Fingerprint{}); got != Unchanged || err != nil {
		t.Errorf("a file that was and is not there: %v, %v", got, err)
	}
	long("same")
	if got, err := Since(path, Fingerprint{}); got != Created || err != nil {
		t.Errorf("a new file: %v, %v", got, err)
	}
	f := read()
	if err := errors.Join(os.Remove(path), os.Mkdir(path, 0o755)); err != nil {
		t.Fatal(err)
	}
	if got, err := Since(path, f); err == nil {
		t.Errorf("a folder in its place: %v", got)
	}
}

// A fingerprint taken within a step of the file system's clock after a change
// must not trust the time: here it is put back as a coarse clock would have it.
func TestSince_seesTwoChangesInOneClockStep(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	put(t, path, "same")
	f, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	put(t, path, "else")
	if err := os.Chtimes(path, timeOf(0), timeNano(f.Fingerprint.MTime)); err != nil {
		t.Fatal(err)
	}
	if got, err := Since(path, f.Fingerprint); got != Edited || err != nil {
		t.Errorf("Since = %v, %v", got, err)
	}
}

func TestRead_readsAgainWhatChangedMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	for changes := range readTries + 1 {
		put(t, path, "")
		reads := 0
		data, info, err := readSettled(path, func(path string) ([]byte, fs.FileInfo, fs.FileInfo, error) {
			data, before, after, err := readOnce(path)
			if reads++; reads > changes || err != nil {
				return data, before, after, err
			}
			put(t, path, strings.Repeat("x", reads))
			after, err = os.Stat(path)
			return data, before, after, err
		})
		switch {
		case changes == readTries:
			if err == nil || err.Error() != path+": another program is writing it just now" {
				t.Errorf("%d changes: %q, %v", changes, data, err)
			}
		case err != nil || len(data) != changes || info.Size() != int64(changes):
			t.Errorf("%d changes: %q, %v", changes, data, err)
		}
	}
}

func twin(t *testing.T, path, text string) string {
	t.Helper()
	put(t, path+".twin", text)
	return path + ".twin"
}

func BenchmarkRead(b *testing.B) {
	path := filepath.Join(b.TempDir(), "a.toml")
	if err := os.WriteFile(path, bytes.Repeat([]byte("key = 1\n"), 500), 0o644); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Read(path); err != nil {
			b.Fatal(err)
		}
	}
}
