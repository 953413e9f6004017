package app

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/tuitest"
)

// keptOnDisk waits until the state folder keeps a text.
func keptOnDisk(t *testing.T, text string) {
	t.Helper()
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	for limit := time.Now().Add(20 * time.Second); time.Now().Before(limit); <-tick.C {
		found := false
		_ = filepath.WalkDir(os.Getenv("XDG_STATE_HOME"), func(path string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() {
				b, _ := os.ReadFile(path) // it may be gone again
				found = found || strings.Contains(string(b), text)
			}
			return nil
		})
		if found {
			return
		}
	}
	t.Fatalf("nothing keeps %q", text)
}

// The messages come to nothing any more once a key was pressed: what it did is
// kept all the same.
func TestKeep_goesOnWhereTheLoopHangs(t *testing.T) {
	g := header(t, 80, 24)
	g.r.o.After = nil // the real time
	var begin func(cmd tea.Cmd)
	begin = func(cmd tea.Cmd) {
		if cmd == nil {
			return
		}
		go func() {
			if more, ok := cmd().(tea.BatchMsg); ok {
				for _, c := range more {
					begin(c)
				}
			}
		}()
	}
	_, cmd := g.r.Update(tuitest.Raw(t, "9"))
	begin(cmd)
	keptOnDisk(t, "topcoat")
	// The next edit is kept by the same one, or another, though nobody was told.
	_, cmd = g.r.Update(tuitest.Raw(t, "5"))
	begin(cmd)
	keptOnDisk(t, fmt.Sprintf(`"rev":%d,`, g.r.Document().Revision()))
}

func TestRescue_keepsWhatTheLastKeyDid(t *testing.T) {
	g := header(t, 80, 24).press("9")
	if err := g.r.Rescue(); err != nil {
		t.Fatal(err)
	}
	keptOnDisk(t, "topcoat")
}
