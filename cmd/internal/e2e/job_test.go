//go:build unix

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

// A job without laminates is filled in by two keys, its assumptions first; what is
// saved reads back, u takes it back.
func TestJob_proposedByKeys(t *testing.T) {
	h := newHome(t)
	h.write(t, "bare.toml", `document = "job"
format = 1
title = "Rinse tank"
[service]
fluid = "rinse"
concentration = 0.02
temperature = "90 degF"
ph = [5, 8]
contains = []
pressure = "0 psi"
vacuum = "0 psi"
specific_gravity = 1.0
conductive = false
abrasive = false
[vessel]
liquid_height = "4 ft"
rim = "angle ring"
[[part]]
id = "bottom"
form = "flat-bottom"
process = "contact"
inside_diameter = "6 ft"
supported = true
[[part]]
id = "shell"
form = "shell-course"
process = "contact"
inside_diameter = "6 ft"
length = "5 ft"
`)
	s := h.open(t, "bare.toml")
	s.see("has no wall yet", "p fill in")
	s.press("p").see("assumed", "laid apart and joined", "Enter take it")
	time.Sleep(time.Second) // what is typed ahead takes nothing
	s.press("enter").see("filled in", "u undoes it", "not saved")
	time.Sleep(time.Second)
	s.press("u").see("undid: filled in")
	s.press("y").see("filled in")
	s.press("s").see("saved bare.toml")
	s.press("q")
	s.end()
	stdout, _, code := h.run(t, "check", "bare.toml")
	if code != 3 || strings.Contains(stdout, "break") || !strings.Contains(stdout, "part shell: ") {
		t.Errorf("%d\n%s", code, stdout)
	}
}
