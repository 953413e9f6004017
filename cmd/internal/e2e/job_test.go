package e2e

import (
	"os"
	"strings"
	"testing"
	"time"
)

// A tank opens on its own page; Enter leads to the bench on a part, what is done
// there is undone and saved as one document, and check reads what was saved.
func TestJob_isOpenedEditedPartByPartAndSaved(t *testing.T) {
	h := newHome(t)
	stdout, _, _ := h.run(t, "new", "--example", "job")
	h.write(t, "tank.toml", stdout)
	s := h.open(t, "tank.toml")
	s.see("JOB", "shell-3", "~~~~", "N2", "warning")
	s.press("down", "down", "down", "down", "enter")
	s.see("BENCH", "the bench is on shell-3")
	time.Sleep(time.Second) // what is typed ahead for another page changes nothing
	s.press("3").see("u undoes it")
	s.press("s").see("saved tank.toml")
	s.press("tab").see("Which page?", "job")
	s.press("esc", "q")
	s.end()
	b, err := os.ReadFile(h.path("tank.toml"))
	if err != nil || len(b) <= len(stdout) || strings.Count(string(b), "[[laminate.ply]]") != strings.Count(stdout, "[[laminate.ply]]")+1 {
		t.Fatalf("%v\n%s", err, b)
	}
}
