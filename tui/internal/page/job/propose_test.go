package job

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/entry"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

const bareTank = `document = "job"
format   = 1
title    = "Rinse tank"
units    = "us"

[service]
fluid            = "rinse"
concentration    = 0.02
temperature      = "90 degF"
ph               = [5, 8]
contains         = []
pressure         = "0 psi"
vacuum           = "0 psi"
specific_gravity = 1.0
conductive       = false
abrasive         = false

[vessel]
liquid_height = "4 ft"
rim           = "angle ring"

[[part]]
id              = "bottom" # on sand
form            = "flat-bottom"
process         = "contact"
inside_diameter = "6 ft"

[[part]]
id              = "shell"
form            = "shell-course"
process         = "contact"
inside_diameter = "6 ft"
length          = "5 ft"
`

func TestPropose_showsWhatItAssumesBeforeItIsTakenAndUndoTakesItBack(t *testing.T) {
	p := open(t, []byte(bareTank), 80, 24)
	press(p, "p")
	tuitest.Golden(t, "propose", screen(t, p))
	if p.Desk.Doc.Dirty() {
		t.Error("looking at it changed the document")
	}
	press(p, keys.Esc)
	if p.Over() != nil || string(p.Desk.Doc.Bytes()) != bareTank {
		t.Error("left, and something is there")
	}
	press(p, "p", keys.Enter)
	j := p.Desk.Doc.Job()
	if p.Over() != nil || j.Laminate(j.Parts[1].Laminate) < 0 || len(j.Joints) != 1 || !strings.Contains(j.Notes, "Assumed: ") {
		t.Errorf("taken: %+v", j.Parts)
	}
	if !strings.Contains(p.Desk.Notice.Text, "filled in") || p.Desk.Notice.Tail != "u undoes it" {
		t.Errorf("notice %+v", p.Desk.Notice)
	}
	p.Desk.Undo()
	if string(p.Desk.Doc.Bytes()) != bareTank {
		t.Errorf("undone it is\n%s", p.Desk.Doc.Bytes())
	}
}

func TestPropose_saysThatNothingIsMissingAndProposesAnew(t *testing.T) {
	p := open(t, []byte(strings.Replace(bareTank, "# on sand", "\nsupported = true", 1)), 80, 24)
	press(p, "p", keys.Enter)
	done := string(p.Desk.Doc.Bytes())
	if v := p.Desk.Doc.JobReport().Parts[1].Verdict; v > rules.Warning {
		t.Errorf("the shell is %s", v)
	}
	press(p, "p", keys.Enter)
	if !strings.Contains(p.Desk.Notice.Text, "nothing to fill in") || string(p.Desk.Doc.Bytes()) != done {
		t.Errorf("a second time: %q", p.Desk.Notice.Text)
	}
	p.Close()
	// A heavier fluid, and all anew.
	if err := p.Desk.ApplyJob(entry.State(laminate.Ref{Kind: laminate.RefVessel}, "liquid_height", "5 ft")); err != nil {
		t.Fatal(err)
	}
	press(p, "p", "r")
	if !strings.Contains(screen(t, p), "filled in") {
		t.Error(screen(t, p))
	}
	press(p, keys.Enter)
	if p.Over() != nil || !strings.Contains(p.Desk.Notice.Text, "filled in") {
		t.Errorf("anew: %q", p.Desk.Notice.Text)
	}
}

func TestLaminates_areAddedNamedAndTakenOutByKeys(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	before := string(p.Desk.Doc.Bytes())
	strap := laminate.Ref{Kind: laminate.RefLaminate, Index: p.Desk.Doc.Job().Laminate("strap")}
	p.table.Select(strap)
	if text := screen(t, p); !strings.Contains(text, "named by joint J1, joint J2, joint J3, joint J4") {
		t.Error(text)
	}
	press(p, "x")
	if !strings.Contains(p.Desk.Notice.Text, "laminate strap stays: joint J1, joint J2, joint J3, joint J4 name it") {
		t.Errorf("taken out: %+v", p.Desk.Notice)
	}
	// Renamed, wherever it is named.
	press(p, "e")
	typed(p, "overlay")
	j := p.Desk.Doc.Job()
	if j.Laminates[strap.Index].ID != "overlay" || j.Joints[0].Outside != "overlay" || j.Laminate("strap") >= 0 {
		t.Errorf("renamed: %+v %q", j.Joints[0], p.Desk.Notice.Text)
	}
	press(p, keys.Esc)
	p.Desk.Undo()
	if string(p.Desk.Doc.Bytes()) != before {
		t.Error("undone it is another document")
	}
	// Added with the plies of another one.
	p.Settle()
	press(p, "a", "4", "2")
	typed(p, "spare")
	press(p, keys.Esc)
	j = p.Desk.Doc.Job()
	if at := j.Laminate("spare"); at < 0 || len(j.Laminates[at].Plies) != len(j.Laminates[0].Plies) {
		t.Errorf("added: %+v", j.Laminates[len(j.Laminates)-1])
	}
	press(p, "x")
	if p.Desk.Doc.Job().Laminate("spare") >= 0 {
		t.Errorf("still there: %+v", p.Desk.Notice)
	}
	// Enter leads to the bench of a part that has it.
	p.Desk.Back = func() {}
	p.table.Select(laminate.Ref{Kind: laminate.RefLaminate, Index: p.Desk.Doc.Job().Laminate("shell-mid")})
	press(p, keys.Enter)
	if p.Desk.Doc.Part() != 2 {
		t.Errorf("part %d, %q", p.Desk.Doc.Part(), p.Desk.Notice.Text)
	}
}
