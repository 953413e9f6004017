package layup

import (
	"math"
	"os"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
)

// openJob is the example job on the desk, with what is laid at joint J2.
func openJob(t *testing.T, kind overlay.Kind) *rig {
	t.Helper()
	g := openTank(t)
	o, err := overlay.Find(g.Desk.Doc.Job(), "", "J2", kind)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.Records.Turn(o); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	return g
}

// openTank is the example job on the desk.
func openTank(t *testing.T) *rig {
	t.Helper()
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	if err := os.WriteFile(g.Path("tank.toml"), schedules.ExampleJob(), 0o600); err != nil {
		t.Fatal(err)
	}
	d, err := editor.Open(g.Path("tank.toml"), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	g.Desk.Doc = d
	t.Cleanup(func() {
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	})
	return g
}

// The strap of the example: its plies, what they take of its own ground, and a
// record that says of which joint it is.
func TestOverlay_isLaidUpAndRecordedByItself(t *testing.T) {
	g := openJob(t, overlay.Strap)
	if n := g.Page.total(); n != 8 {
		t.Fatalf("%d plies", n)
	}
	// By hand: a ply 2 in wide round shell-1, the thicker of the two, in its own
	// middle.
	j, lib := g.Desk.Doc.Job(), g.Desk.Doc.Library()
	wall := laminate.Analyze(j.Wall(j.Part("shell-1")), lib).Total.Thickness
	own := g.Records.Analysis().Rows[0].Thickness
	if got, want := g.Page.takes(1).Area, math.Pi*(120*0.0254+2*wall+own)*2*0.0254; math.Abs(got/want-1) > 1e-9 {
		t.Errorf("the first ply covers %v m², by hand %v", got, want)
	}
	screen := strings.Join(g.Page.Lines(), "\n")
	for _, want := range []string{"joint J2, strap", "2.00 in wide", "abrade", "window", "PLY 1 of 8"} {
		if !strings.Contains(strings.ReplaceAll(screen, " 2 in wide", " 2.00 in wide"), want) {
			t.Errorf("%q is not on\n%s", want, screen)
		}
	}
	g.Press("3", "1")
	g.Typed("T-1", "")
	r := g.Records.Record()
	if r == nil || r.Now().Part != "shell-1" || r.Now().Joint != "J2" || r.Now().Overlay != overlay.Strap || !strings.HasSuffix(r.Path(), "tank-shell-1-J2-strap-record-1.toml") {
		t.Fatalf("%+v %q", r, g.Desk.Notice.Text)
	}
	// The bond is asked before the first ply, and recorded with it.
	g.Press("enter", "1", "enter")
	g.Typed("36 grit", "30")
	g.Shows("gelled        30 h ago", "bonder        ▏  → Q. Two", "qualification not stated") // offered, and not filled in
	g.Press("enter", "right", "enter")
	if n := len(r.Now().Preparations); n != 1 || !r.Now().Preparations[0].Abraded.Value || r.Now().Preparations[0].Onto != "J2" || len(r.Now().Bonds) != 0 {
		t.Fatalf("%+v %+v %q", r.Now().Preparations, r.Now().Bonds, g.Desk.Notice.Text)
	}
	g.Typed("", "", "")
	now := r.Now()
	if len(now.Laid) != 1 || len(now.Bonds) != 1 || now.Bonds[0].Onto != "J2" || now.Bonds[0].Qualification != "bonding procedure 4, bonders by list" || now.Bonds[0].At.Sub(now.Bonds[0].Gelled).Hours() < 30 {
		t.Fatalf("%+v %+v %q", now.Laid, now.Bonds, g.Desk.Notice.Text)
	}
	if prints := g.Records.Fingerprints().Plies; len(prints) != 8 || now.Laid[0].Fingerprint != prints[0] {
		t.Errorf("the tick is of %q, the plies are %q", now.Laid[0].Fingerprint, prints)
	}
	if led := g.Press("g"); !led || g.Desk.Row != 1 || g.Desk.Doc.Lent() == nil || g.Desk.Doc.Lent().Of != "J2" {
		t.Errorf("g: %v, row %d of %+v", led, g.Desk.Row, g.Desk.Doc.Lent())
	}
	g.Desk.Doc.Turn(0)
	if g.Press("g"); !g.Desk.Notice.Refusal || !strings.Contains(g.Desk.Notice.Text, "the bench is on the wall of part") {
		t.Errorf("g: %q", g.Desk.Notice.Text)
	}
	// Of the wall, and of the same strap of another joint, the record is none.
	if err := g.Records.TurnBack(); err != nil || g.Records.Record() != nil {
		t.Errorf("the record of the strap stays open with the wall: %v", err)
	}
	if err := g.Records.Open(r.Path()); err != nil || g.Records.Overlay() == nil || g.Records.Foreign() != "" || g.Records.OnBench() != "" {
		t.Errorf("opened again: %v, %q, %q", err, g.Records.Foreign(), g.Records.OnBench())
	}
	// With a record of the wall the bench is on the wall again.
	strap := g.Records.Overlay().Overlay
	if err := g.Records.TurnBack(); err != nil {
		t.Fatal(err)
	}
	g.Press("3", "1")
	g.Typed("T-2", "")
	of := g.Records.Record().Path()
	if err := g.Records.Turn(strap); err != nil || g.Desk.Doc.Lent() == nil {
		t.Fatal(err)
	}
	if err := g.Records.Open(of); err != nil || g.Records.Overlay() != nil || g.Desk.Doc.Lent() != nil || g.Records.OnBench() != "" {
		t.Errorf("%v, %+v, %q", err, g.Desk.Doc.Lent(), g.Records.OnBench())
	}
}

// What is not abraded, and of which the window is not stated, is asked about: nothing is recorded by itself.
func TestOverlay_aFaceThatIsNotAbradedIsAskedAbout(t *testing.T) {
	g := openJob(t, overlay.Seal)
	g.Press("3", "1")
	g.Typed("T-1", "")
	g.Press("enter", "2", "enter")
	g.Typed("", "30", "", "", "", "", "")
	if g.Page.Over() == nil || !strings.Contains(strings.Join(g.Page.Lines(), "\n"), "NOT abraded, as the last entry says") || len(g.Records.Record().Now().Laid) > 0 {
		t.Fatalf("%s", strings.Join(g.Page.Lines(), "\n"))
	}
	g.Press("1")
	if now := g.Records.Record().Now(); len(now.Laid)+len(now.Bonds) > 0 {
		t.Errorf("%+v %+v", now.Laid, now.Bonds)
	}
	g.Shows("STOP", "bond onto J2: NOT abraded") // the answer "no" settles nothing
	g.Page.forget()
	g.Shows("STOP", "bond onto J2: NOT abraded") // nor does leaving
	// Inside a shell somebody may have to go in.
	if screen := strings.Join(g.Page.Lines(), "\n"); !strings.Contains(screen, "entry") {
		t.Error(screen)
	}
}

// Who leaves between the questions and the ply finds the answers again, after a kill
// too, and the face is recorded as prepared once, unless it is another then.
func TestOverlay_answersOfTheFaceAreKeptUntilThePly(t *testing.T) {
	g := openJob(t, overlay.Strap)
	g.Press("3", "1")
	g.Typed("T-1", "")
	g.Records.Enters("I. One", "inspector")
	g.Press("enter", "1", "enter")
	g.Typed("36 grit", "30", "")
	g.Press("right", "enter")
	r := g.Records.Record()
	if n := r.Now(); len(n.Preparations) != 1 || len(n.Laid) != 0 {
		t.Fatalf("%+v", n.Preparations)
	}
	// Nothing but the record is left.
	path := r.Path()
	if err := g.Records.Close(); err != nil {
		t.Fatal(err)
	}
	g.Page = New(g.Desk, g.Records)
	g.Size(80, 24)
	if err := g.Records.Open(path); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	r = g.Records.Record()
	g.Press("enter")
	g.Says("as entered 2026-03-0", "Enter takes it as it stands")
	g.Shows("36 grit", "gelled        20", "bonding procedure 4", "dull, fiber-roughened", "A bond that lets go under load hurts people")
	g.Press("enter")
	if n := r.Now(); len(n.Preparations) != 1 || g.Page.bond == nil || g.Page.bond.Gelled.IsZero() {
		t.Fatalf("%+v %+v", n.Preparations, g.Page.bond)
	}
	g.Press("esc", "esc", "enter", "down", "down", "down")
	g.Typed("B. Two")
	g.Press("right", "enter") // what stood there is offered
	g.Typed("", "", "")
	n := r.Now()
	if len(n.Preparations) != 2 || !n.Preparations[0].Struck || n.Preparations[1].Struck || len(n.Bonds) != 1 || n.Bonds[0].Bonder != "B. Two" || n.Bonds[0].Gelled.IsZero() || len(n.Laid) != 1 {
		t.Fatalf("%+v %+v %q", n.Preparations, n.Bonds, g.Desk.Notice.Text)
	}

	// A face that is another is another preparation, and has no finish where it was not abraded.
	g = openJob(t, overlay.Seal)
	g.Press("3", "1")
	g.Typed("T-2", "")
	g.Press("enter", "1", "enter")
	g.Typed("36 grit", "30", "", "")
	g.Press("esc", "esc", "enter", "2")
	g.Shows("finish        not stated", "gelled        not stated", "A bond that lets go under load hurts people")
	g.Press("enter")
	g.Typed("36 grit")
	g.Says("finish: a face that was not abraded has none")
	if n := g.Records.Record().Now().Preparations; len(n) != 1 {
		t.Errorf("%+v", n)
	}
	g.Press("delete", "enter", "right", "enter", "enter", "enter")
	if n := g.Records.Record().Now().Preparations; len(n) != 2 || n[0].Struck || n[1].Abraded.Value || n[1].Finish != "" || n[1].Gelled.IsZero() {
		t.Errorf("denied: %+v", n)
	}
}

// A face that was not abraded, and is said to be by the next key, is asked about line
// by line: as entered stands only what nobody changed.
func TestOverlay_whatIsChangedDoesNotStandAsEntered(t *testing.T) {
	g := openJob(t, overlay.Seal)
	g.Press("3", "1")
	g.Typed("T-1", "")
	g.Press("enter", "2", "enter")
	g.Typed("", "30", "", "", "", "", "")
	g.Press("1", "enter")
	g.Says("as entered", "Enter takes it as it stands")
	g.Press("1")
	if s := g.Desk.Notice.Text; strings.Contains(s, "as it stands") || !strings.Contains(s, "asked anew") {
		t.Errorf("the notice says %q", s)
	}
	r := g.Records.Record()
	g.Press("enter", "enter") // past abraded, not past finish
	g.Says("finish:", "the face was not abraded")
	if n := r.Now(); len(n.Preparations) != 1 || len(n.Bonds)+len(n.Laid) > 0 {
		t.Fatalf("%+v %+v %+v", n.Preparations, n.Bonds, n.Laid)
	}
	g.Typed("36 grit", "30", "B. One", "list 4")
	if n := r.Now(); len(n.Preparations) != 2 || len(n.Bonds)+len(n.Laid) > 0 || g.Page.Over() != nil {
		t.Fatalf("%+v %+v %+v", n.Preparations, n.Bonds, n.Laid)
	}
	g.Says("recorded: abraded now", "then Enter for the ply")
	g.Press("enter", "enter")
	if n := r.Now(); len(n.Bonds) != 1 || len(n.Laid) != 1 || !n.Bonds[0].At.After(n.Preparations[1].At) || n.Bonds[0].Bonder != "B. One" {
		t.Fatalf("%+v %+v %q", n.Bonds, n.Laid, g.Desk.Notice.Text)
	}
}

// A joint that the job has no more leaves nothing to lay.
func TestOverlay_ofAJointThatIsGone(t *testing.T) {
	g := openJob(t, overlay.Strap)
	j := g.Desk.Doc.Job().Clone()
	j.Joints = nil
	o := overlay.Overlay{Kind: overlay.Strap, At: laminate.Ref{Kind: laminate.RefJoint}, Of: "J2", Part: "shell-1"}
	if _, err := overlay.Find(j, o.Part, o.Of, o.Kind); err == nil {
		t.Error("it is found")
	}
	o.Of = "J9"
	if err := g.Records.Turn(o); err != nil {
		t.Fatal(err)
	}
	if why := g.Page.needPlies(); !strings.Contains(why, `"J9"`) || g.Page.takes(1).Missing == "" || len(g.Records.Fingerprints().Plies) > 0 {
		t.Errorf("%q", why)
	}
	if _ = strings.Join(g.Page.Lines(), "\n"); g.Records.Report().Analysis.Total.Plies != 0 {
		t.Error("something is laid")
	}
}

// Inside a vessel most things can hurt at once: what has no line is named.
func TestOverlay_noCautionGoesWithoutAWord(t *testing.T) {
	g := openJob(t, overlay.Seal)
	for h := 20; h < 50; h++ {
		g.Page.SetSize(80, h)
		g.Page.Settle()
		screen := strings.Join(g.Page.Lines(), "\n")
		for _, c := range g.Page.cautions() {
			if !strings.Contains(screen, c.Label) {
				t.Errorf("at 80×%d nothing says %s\n%s", h, c.Label, screen)
			}
		}
	}
}
