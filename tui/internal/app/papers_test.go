package app

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	sheets "frp/veilwright/schedules/paper/forms"
)

func TestPapers_areWrittenBesideTheDocumentAndNeverOverOneUnasked(t *testing.T) {
	g := header(t, 80, 24)
	path := g.r.Document().Path()
	sheet := strings.TrimSuffix(path, ".toml") + "-lay-up-sheet.pdf"
	g.press("k").shows("wrote header-laminate-schedule.pdf", "k lists the other papers")
	g.press("k").shows("Which paper?", "1 Laminate schedule", "2 Lay-up sheet", "Calculation")
	g.press("2").shows("wrote header-lay-up-sheet.pdf")
	if !contains(t, sheet, "%PDF-1") {
		t.Error("no PDF")
	}
	if err := os.WriteFile(sheet, []byte("another"), 0o600); err != nil {
		t.Fatal(err)
	}
	g.press("k 2").shows("already", "1 write this one over it", "2 leave it as it is", "3 another paper")
	g.press("enter").shows("left ")
	if !contains(t, sheet, "another") {
		t.Error("it was written over by Enter")
	}
	g.press("k 2 1").shows("wrote ")
	if !contains(t, sheet, "%PDF-1") {
		t.Error("it was not written over when that was said")
	}
}

// The paper that belongs to a page is one key away on it.
func TestPapers_belongToPages(t *testing.T) {
	g := header(t, 80, 24)
	for page, paper := range map[string]string{"tab 2": "calculation", "tab 5": "lay-up-sheet", "tab 6": "inspection-plan"} {
		g.press(page).press("k").shows("wrote header-" + paper + ".pdf")
		g.press("k").shows("Which paper?").press("esc")
	}
	g.press("tab 4").press("k").shows("Which paper?").press("esc") // to the service page none belongs
}

func TestPapers_thatCannotBeWrittenSayWhy(t *testing.T) {
	g := header(t, 80, 24)
	path := strings.TrimSuffix(g.r.Document().Path(), ".toml") + "-calculation.pdf"
	if err := os.Mkdir(path, 0o755); err != nil {
		t.Fatal(err)
	}
	g.press("k k 5")
	if !g.r.desk.Notice.Refusal || !strings.Contains(g.r.desk.Notice.Text, "-calculation.pdf") {
		t.Errorf("said %+v", g.r.desk.Notice)
	}
}

// Of a job the papers are of the whole of it, as the command prints them.
func TestPapers_ofAJobAreOfTheWholeJob(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	r := g.r
	got := r.form(sheets.Named("route-sheet"), laminate.Ref{})
	o := r.o.Shop.Read(r.Document().Path())
	want := sheets.Named("route-sheet").Form(sheets.SubjectOf(o, stock.Stock{}, rules.Options{Units: o.Job.Units}))
	if !reflect.DeepEqual(got.Sheet, want.Sheet) || got.Fingerprint != want.Fingerprint || got.State != want.State {
		t.Errorf("the route sheet in the terminal is %+v and %d blocks, the command's %+v and %d", got.Frame, len(got.Sheet), want.Frame, len(want.Sheet))
	}
	g.press("k").shows("wrote tank-route-sheet.pdf")
	g.press("k").shows("1 Laminate schedule, part manway-cover", "Lay-up sheet, whole job").press("end enter").press("enter enter").shows("revision 1 released").press("s")
	if f := r.form(sheets.Named("route-sheet"), laminate.Ref{}); f.State != paper.Released || f.Date == "" {
		t.Errorf("released it is %+v", f.Frame)
	}
}

// A sheet laid up by stops at the hold points that the page stops at: those of the
// specification beside the document, chosen or not.
func TestPapers_stopAtHoldPoints(t *testing.T) {
	for specifications, want := range map[int]string{0: "no specification was given", 1: "half the structure", 2: "2 specifications lie here"} {
		g := header(t, 80, 24)
		for i := range specifications {
			text := fmt.Sprintf("document = \"specification\"\nformat = 1\ntitle = \"invented %d\"\n[[inspection.hold]]\npoint = \"half the structure\"\nbefore_ply = 4\n", i)
			if err := os.WriteFile(filepath.Join(filepath.Dir(g.r.Document().Path()), fmt.Sprintf("spec-%d.toml", i)), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if f := g.r.form(sheets.Named("lay-up-sheet"), laminate.Ref{}); !strings.Contains(fmt.Sprintf("%+v", f.Sheet), want) {
			t.Errorf("with %d specifications the sheet does not say %q", specifications, want)
		}
	}
}

// A paper is of what the page is about: on the bench of a part of the part, where a
// joint is laid up of the joint.
func TestPapers_ofAJobAreOfWhatThePageIsAbout(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	r, d := g.r, g.r.Document()
	g.press("tab 1").press("k").shows("wrote tank-bottom-laminate-schedule.pdf")
	g.press("tab 5").press("k").shows("wrote tank-bottom-lay-up-sheet.pdf")
	g.press("tab 8 end")
	if at := r.about(); at != (laminate.Ref{}) {
		t.Errorf("on the row of a laminate the papers are of %+v", at)
	}
	for range 40 {
		if r.about().Kind != laminate.RefJoint {
			g.press("up")
		}
	}
	if r.about().Kind != laminate.RefJoint {
		t.Fatal("no joint was selected")
	}
	id := d.Job().Joints[r.about().Index].ID
	g.press("k").shows("wrote tank-route-sheet.pdf")
	g.press("k").shows("Laminate schedule, joint "+id, "Lay-up sheet, joint "+id).press("2").shows("wrote tank-" + id + "-lay-up-sheet.pdf")
	// The strap is laid up: the sheet there is of its joint.
	g.press("5").shows("lay up which?").press("1")
	if o := g.r.records.Overlay(); o == nil || o.Of != id {
		t.Fatalf("what is laid up is %+v", o)
	}
	if at := r.about(); at.Kind != laminate.RefJoint {
		t.Errorf("where a joint is laid up the papers are of %+v", at)
	}
}

// Released is the content as it stands, with the revision and its day, and here with
// the rule that it breaks; changed it
// is a draft again, changed back it is not.
func TestPapers_sayReleasedUntilSomethingChanges(t *testing.T) {
	g := header(t, 80, 24)
	state := func() string { return g.r.form(sheets.Named("route-sheet"), laminate.Ref{}).State }
	g.press("k k 7").shows("release", "revision", "date").press("backspace 4 enter").press("enter").shows("revision 4 released")
	h := g.r.Document().Now().Head
	if h.Revision.Value != 4 || h.Date == "" || len(h.Released) != 12 {
		t.Errorf("the head is %+v", h)
	}
	if got := state(); got != paper.Unsaved {
		t.Errorf("before it is saved a paper says %q", got)
	}
	g.press("s")
	if got := state(); got != paper.Disputed {
		t.Errorf("saved it says %q", got)
	}
	g.press("1 s")
	if got := state(); got != paper.Changed {
		t.Errorf("with a ply more it says %q", got)
	}
	g.press("u s")
	if got := state(); got != paper.Disputed {
		t.Errorf("without it it says %q", got)
	}
	g.press("k 3 7").press("backspace x enter").shows("release", "▸ revision", "which revision is released?")
}

// Where u has a meaning of its own it is not said to undo a change of the document.
func TestPapers_onLayUpUndoesAPlyAndNoRelease(t *testing.T) {
	g := header(t, 80, 24)
	g.press("k k end enter").press("backspace 4 enter").press("enter").shows("revision 4 released", " u undoes it").hides("bench")
	g.press("u").press("tab 5").press("k k end enter").press("backspace 4 enter").press("enter").shows("revision 4 released", "on the bench, u undoes it")
	g.press("j").press("home").press("2 enter").shows("after Esc, on the bench, u undoes it").esc()
	g.press("tab 1").press("u").shows("undid: ")
}
