//go:build unix

package e2e

import (
	"os"
	"strings"
	"syscall"
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

// The strap of a joint is laid up and inspected by keys, the program killed in the
// middle: the bond is asked first, what was ticked stays, and compare names it.
func TestJob_theStrapOfAJointIsLaidUpAndInspected(t *testing.T) {
	h := newHome(t)
	stdout, _, _ := h.run(t, "new", "--example", "job")
	h.write(t, "tank.toml", stdout)
	h.write(t, "demands.toml", "document = \"specification\"\nformat = 1\ntitle = \"Tanks\"\n[inspection]\nlayup_record = true\n")
	s := h.open(t, "tank.toml")
	s.see("JOB")
	s.to("J2")
	s.press("5").see("J2: lay up which?", "laminate strap, 8 plies")
	s.press("2").see("LAY PLY 1 of 8", "joint J2, strap", "abrade")
	s.press("3").see("start a new record", "of joint J2, strap")
	s.press("1").see("serial number", "tank-shell-1-J2-strap-record-1.toml")
	s.press("T-1", "enter", "enter").see("begun tank-shell-1-J2-strap-record-1.toml")
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "M-8", "enter", "R-9", "enter", "enter", "enter").see("lot M-8")
	s.press("1").see("humidity")
	s.press("20 degC", "enter", "50", "enter", "18 degC", "enter").see(": dry")
	time.Sleep(aPlyLater)
	s.press("0").see("before the first ply onto the cured face")
	s.press("1", "enter", "36 grit", "enter", "30", "enter", "enter", "enter").see("LAY PLY 2 of 8")
	s.signal(syscall.SIGKILL)
	s.end()

	s = h.open(t, "tank.toml")
	s.see("JOB")
	s.to("J2")
	s.press("5").see("J2: lay up which?")
	s.press("2").see("LAY-UP WAS BEGUN", "1 of 8 plies laid")
	s.press("3").see("tank-shell-1-J2-strap-record-1", "joint J2, strap")
	s.press("tank-sh", "enter").see("LAY PLY 2 of 8")
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "M-8", "enter", "R-9", "enter", "enter", "enter").see("lot M-8")
	time.Sleep(aPlyLater)
	s.press("0").see("recorded a moment ago")
	time.Sleep(aPlyLater)
	s.press("1").see("LAY PLY 3 of 8")
	s.press("tab").see("inspect")
	s.press("6").see("INSPECT", "serial T-1")
	s.press("5").see("against Tanks", "INCOMPLETE")
	s.press("q")
	s.end()
	stdout, _, code := h.run(t, "compare", "tank.toml", "demands.toml", "tank-shell-1-J2-strap-record-1.toml")
	if code != 3 || !strings.Contains(stdout, "of the job joint J2, strap, is compared") || !strings.Contains(stdout, "1 bond onto an abraded face") {
		t.Errorf("%d\n%s", code, stdout)
	}
}

// to leads to a row of the job page: they are listed from the top part down, nozzles
// and joints under them.
func (s *terminal) to(row string) {
	s.t.Helper()
	for range 40 {
		at := s.pointed()
		if strings.HasPrefix(at, row) {
			return
		}
		s.press("down")
		for range 100 { // until the screen has followed, on however busy a machine
			if s.pointed() != at {
				break
			}
			time.Sleep(50 * time.Millisecond)
		}
	}
	s.t.Fatalf("no row of %s", row)
}

// pointed is what stands behind the pointer, "" where nothing is pointed at.
func (s *terminal) pointed() string {
	_, rest, _ := strings.Cut(s.text(), "▸ ")
	line, _, _ := strings.Cut(rest, "\n")
	return line
}

// The strap of a joint is opened on the bench and changed there; what is saved has
// one count more, and every comment it had.
func TestJob_theStrapOfAJointIsChangedOnTheBench(t *testing.T) {
	h := newHome(t)
	stdout, _, _ := h.run(t, "new", "--example", "job")
	h.write(t, "tank.toml", stdout)
	s := h.open(t, "tank.toml")
	s.see("JOB")
	s.to("J2")
	s.press("enter").see("J2: open which?", "strap  laminate strap, 8 plies")
	s.press("2").see("BENCH", "strap: joint J2, strap,", "the bench is on joint J2, strap")
	time.Sleep(time.Second) // what is typed ahead for another page changes nothing
	s.press("up", "+").see("added 1 ply to ply 7 mat-1.5", "u undoes it", "not saved")
	time.Sleep(time.Second)
	s.signal(syscall.SIGKILL) // what is not saved is there at the next start
	s.end()

	s = h.open(t, "tank.toml")
	s.see("UNSAVED WORK", "changes to tank.toml")
	s.press("enter").see("took up the unsaved work", "JOB")
	s.press("s").see("saved tank.toml")
	s.press("q")
	s.end()
	b, err := os.ReadFile(h.path("tank.toml"))
	if err != nil {
		t.Fatal(err)
	}
	// One line is new, in the strap, and nothing else is another.
	begin := strings.Index(stdout, "id = \"strap\"")
	row := begin + strings.LastIndex(stdout[begin:strings.Index(stdout, "id = \"pad\"")], "material = \"mat-1.5\"")
	end := row + strings.Index(stdout[row:], "\n\n")
	if want := stdout[:end] + "\ncount    = 2" + stdout[end:]; string(b) != want {
		t.Errorf("%s", b)
	}
	if out, _, code := h.run(t, "check", "tank.toml"); code != 0 && code != 3 && strings.Contains(out, "break") {
		t.Errorf("%d\n%s", code, out)
	}
}
