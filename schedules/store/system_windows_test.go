package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"frp/veilwright/schedules/internal/system"
)

const (
	aDevice          = "NUL"
	usualMode        = 0o666 // there is only a mark that says read-only
	foldersAreMarked = false // the mark of a folder says something else
	namesStay        = true  // of files that are removed while they are open, on file systems that know no better
)

// hasLinks tells whether this user can make symbolic links, which takes a right
// that not everybody has here, and follow them.
func hasLinks(t *testing.T) bool {
	t.Helper()
	dir := t.TempDir()
	put(t, filepath.Join(dir, "a"), "a")
	if os.Symlink("a", filepath.Join(dir, "link")) != nil {
		t.Log("symbolic links cannot be made here: without them")
		return false
	}
	text, err := os.ReadFile(filepath.Join(dir, "link"))
	if err != nil || string(text) != "a" {
		t.Log("symbolic links cannot be followed here: without them")
		return false
	}
	return true
}

// otherName is another name of a file: capitals count for nothing.
func otherName(_ *testing.T, path string) string {
	return filepath.Join(filepath.Dir(path), strings.ToUpper(filepath.Base(path)))
}

func ExampleError() {
	_, err := Read("tower\x1b[2J.toml")
	fmt.Println(err)
	// Output: tower\u001b[2J.toml: cannot be read: its name has characters that are not allowed here
}

// Somebody who looks into a folder, as a program against viruses does, keeps its
// files there for a moment after they are removed.
func TestDrop_waitsForWhoeverHasAFileOpen(t *testing.T) {
	home(t)
	j := NewJournal(filepath.Join(t.TempDir(), "a.toml"))
	saved(t, j, "text", Meta{Rev: 1})
	names := textNames(j.dir)
	if len(names) == 0 {
		t.Fatal("nothing is kept")
	}
	f, err := system.Open(names[0], os.O_RDONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	closed := make(chan error)
	time.AfterFunc(20*time.Millisecond, func() { closed <- f.Close() })
	if err := errors.Join(j.Drop(1), j.Close(), <-closed); err != nil {
		t.Error(err)
	}
}

// limitFileSize has no counterpart here, and nobody asks for it.
func limitFileSize() error { return errors.ErrUnsupported }

func TestFolders_areTheSystems(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", "")
	t.Setenv("XDG_CONFIG_HOME", "")
	t.Setenv("LOCALAPPDATA", `C:\Users\u\AppData\Local`)
	t.Setenv("APPDATA", `C:\Users\u\AppData\Roaming`)
	if got, err := StateFolder(); err != nil || got != `C:\Users\u\AppData\Local\veilwright` {
		t.Errorf("state %q, %v", got, err)
	}
	if got, err := ConfigFolder(); err != nil || got != `C:\Users\u\AppData\Roaming\veilwright` {
		t.Errorf("configuration %q, %v", got, err)
	}
}
