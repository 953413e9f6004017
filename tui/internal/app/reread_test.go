package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

const lineWall = `document = "schedule"
format = 1
title = "Line"
[part]
form = "pipe"
process = "contact"
inside_diameter = "12 in"
length = "20 ft"
flanged = false
ends = "closed"
[service]
fluid = "brine"
concentration = 0.20
temperature = "110 degF"
ph = [6, 8]
contact = "immersed"
contains = ["brine"]
pressure = "30 psi"
vacuum = "0 psi"
[[resin]]
id = "r"
family = "vinyl-ester"
[[ply]]
material = "veil-c-15"
resin = "r"
[[ply]]
material = "mat-1.5"
resin = "r"
count = 2
gel_after = true
[[ply]]
material = "mat-1.5"
resin = "r"
count = 5
[[ply]]
material = "topcoat"
resin = "r"
`

// filed opens a job of one part whose wall is a schedule beside it.
func filed(t testing.TB, s *shop.Shop) (g *rig, put func(name, text string)) {
	t.Helper()
	dir := state(t)
	put = func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	put("sh.toml", lineWall)
	put("tank.toml", "document = \"job\"\nformat = 1\ntitle = \"Brine line\"\n[service]\nfluid = \"brine\"\n[[part]]\nid = \"line\"\nschedule = \"sh.toml\"\n")
	d, err := editor.Open(filepath.Join(dir, "tank.toml"), s)
	if err != nil {
		t.Fatal(err)
	}
	r := New(d, options(draw.Mono))
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, 80, 24)
	return &rig{t, r}, put
}

// stronger is the wall with a load that breaks it.
var stronger = strings.Replace(lineWall, `"30 psi"`, `"900 psi"`, 1)

// printedOf is the fingerprint that papers of what is open print, and as check has it.
func printedOf(t *testing.T, g *rig) (open, disk string) {
	t.Helper()
	o := shop.New(shop.Options{NoBook: true}).Read(g.r.desk.Doc.Path())
	if !o.Usable() {
		t.Fatal(o.Why())
	}
	return g.r.subject().Fingerprint, schedules.JobFingerprint(o.Job, o.Library)
}

// The schedule of a part is read again where it changed on disk: the watch that looks
// after the job's file notices it, so do saving, a paper and an entry, and what was
// edited meanwhile stays and can be undone.
func TestReread_thePartsScheduleThatChangedOnDisk(t *testing.T) {
	verdict := func(g *rig) string { return g.r.verdict().String() }
	for name, notice := range map[string]func(*rig){
		"watch": func(g *rig) {
			tuitest.Send(t, g.r, watchMsg{})
			g.shows("sh.toml changed on disk: read again", "is break")
		},
		"save":  func(g *rig) { g.press("s").shows("saved ", "sh.toml changed on disk: read again") },
		"paper": func(g *rig) { g.press("k").shows("wrote tank-route-sheet.pdf; sh.toml changed on disk: read again") },
	} {
		t.Run(name, func(t *testing.T) {
			g, put := filed(t, none)
			if v := verdict(g); v == "break" {
				t.Fatal(v)
			}
			title := g.r.desk.Doc.Job().Title
			edited(t, g, "Brine line, north")
			put("sh.toml", stronger)
			notice(g)
			if v := verdict(g); v != "break" {
				t.Errorf("still %s", v)
			}
			if g.r.desk.Doc.Job().Title == title {
				t.Error("what was edited is gone")
			}
			g.press("s")
			if open, disk := printedOf(t, g); open != disk {
				t.Errorf("papers have the fingerprint %s, check has %s", open, disk)
			}
			g.press("u")
			if v := verdict(g); v != "break" || g.r.desk.Doc.Job().Title != title {
				t.Errorf("undone, the wall is that of before: %s, %q", v, g.r.desk.Doc.Job().Title)
			}
			g.press("y")
			if g.r.desk.Doc.Dirty() || verdict(g) != "break" {
				t.Error("done again")
			}
		})
	}
}

// A schedule that is gone, or cannot be used, keeps papers and records from being
// written of plies that are not on disk, and stands in the title until it is back.
func TestReread_thePartsScheduleThatIsGone(t *testing.T) {
	for name, breaks := range map[string]func(g *rig, put func(string, string)){
		"gone": func(g *rig, _ func(string, string)) {
			if err := os.Remove(filepath.Join(filepath.Dir(g.r.desk.Doc.Path()), "sh.toml")); err != nil {
				t.Fatal(err)
			}
		},
		"broken": func(_ *rig, put func(string, string)) {
			put("sh.toml", "document = \"schedule\"\nformat = 1\nthickness = 3\n")
		},
	} {
		t.Run(name, func(t *testing.T) {
			g, put := filed(t, none)
			breaks(g, put)
			g.press("k").shows("sh.toml", "cannot be used", "no paper is", "of what is not on disk", "not as on disk")
			if _, err := os.Stat(filepath.Join(filepath.Dir(g.r.desk.Doc.Path()), "tank-route-sheet.pdf")); err == nil {
				t.Error("a paper of it")
			}
			edited(t, g, "Brine line, south")
			g.press("s").shows("NOT AS ON DISK", "do not save yet").press("enter").shows("not saved")
			g.press("s 2").shows("saved ", "not as on disk")
			g.press("tab 5 3 1").shows("start a record")
			tuitest.Press(t, g.r, "L-1", "enter", "enter")
			g.shows("nothing is", "until that is put right").press("esc esc")
			if g.r.records.Record() != nil {
				t.Error("a record of it")
			}
			put("sh.toml", lineWall)
			tuitest.Send(t, g.r, watchMsg{})
			g.shows("sh.toml changed on disk: read again").hides("not as on disk")
			g.press("k").shows("wrote ")
		})
	}
}

// Plies are recorded of what is on disk: where the schedule changed under a record,
// the key looks, and the record then is of another revision.
func TestReread_noPlyIsRecordedOfAScheduleThatChanged(t *testing.T) {
	g, put := filed(t, none)
	g.press("tab 5 3 1")
	tuitest.Press(t, g.r, "L-1", "enter", "enter")
	g.shows("begun ")
	put("sh.toml", strings.Replace(lineWall, "count = 5", "count = 6", 1))
	g.press("enter").shows("sh.toml changed on disk: read again; look at it, then press again")
	g.press("enter").shows("the record is of another revision")
	if n := len(g.r.records.Record().Now().Laid); n != 0 {
		t.Errorf("%d plies recorded", n)
	}
	// Behind a form that stands open, too.
	g.r.records.Enters("Q. Two", "inspector")
	g.press("tab 6 1").shows("is this the record?").press("2 1 4 4 0")
	put("sh.toml", stronger)
	g.press("enter").shows("sh.toml changed on disk: read again", "look at it, then press again")
	if n := len(g.r.records.Record().Now().Readings); n != 0 {
		t.Errorf("%d readings", n)
	}
	g.press("enter").shows("recorded as entry 1").press("esc esc esc")
	// So it is with the job's own file.
	put("tank.toml", "document = \"job\"\nformat = 1\n")
	g.press("tab 6 1").shows("tank.toml was changed by another program: s asks what to do, and nothing is", "recorded until then")
}

// A schedule that a part came to name while the job was open is read too: the part was
// not determined, and could not be saved.
func TestReread_aScheduleThatAPartCameToName(t *testing.T) {
	g, put := filed(t, none)
	put("other.toml", stronger)
	if err := g.r.desk.ApplyJob(edit.JobEdit{Label: "named", Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		n.Parts = append(n.Parts, laminate.JobPart{Part: n.Parts[0].Part, ID: "drain", Schedule: "other.toml"})
		return n, nil
	}}); err != nil {
		t.Fatal(err)
	}
	g.press("s").shows("saved ", "other.toml")
	if open, disk := printedOf(t, g); open != disk || g.r.verdict().String() != "break" {
		t.Errorf("%s, %s on disk; %s", open, disk, g.r.verdict())
	}
	g.press("u s").shows("saved ")
}

// So are shop books, that begin to hold too, and the specification.
func TestReread_shopBookAndSpecification(t *testing.T) {
	g, put := filed(t, shop.New(shop.Options{}))
	above := len(g.r.desk.Doc.Library().Books)
	put("shop-book.toml", "document = \"shop-book\"\nformat = 1\nshop = \"North shop\"\n")
	tuitest.Send(t, g.r, watchMsg{})
	if n := len(g.r.desk.Doc.Library().Books); n != above+1 {
		t.Errorf("%d books: %q", n, g.r.desk.Notice.Text)
	}
	g.shows("shop-book.toml changed on disk: read again")
	put("shop-book.toml", "document = \"shop-book\"\nformat = 1\nx = 1\n")
	tuitest.Send(t, g.r, watchMsg{})
	g.shows("nothing is printed or recorded", "not as on disk")
	if err := os.Remove(filepath.Join(filepath.Dir(g.r.desk.Doc.Path()), store.BookName)); err != nil {
		t.Fatal(err)
	}
	tuitest.Send(t, g.r, watchMsg{})
	if n := len(g.r.desk.Doc.Library().Books); n != above {
		t.Errorf("%d books", n)
	}
	put("spec.toml", "document = \"specification\"\nformat = 1\ntitle = \"One\"\n")
	g.press("tab 6 5").shows("against One")
	put("spec.toml", "document = \"specification\"\nformat = 1\ntitle = \"Two\"\n")
	tuitest.Send(t, g.r, watchMsg{})
	g.shows("against Two", "spec.toml changed on disk: read again")
}

// edited gives the job another title.
func edited(t testing.TB, g *rig, title string) {
	t.Helper()
	if err := g.r.desk.ApplyJob(edit.JobEdit{Label: "titled", Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := *j
		n.Title = title
		return &n, nil
	}}); err != nil {
		t.Fatal(err)
	}
	g.press("end").shows("not saved")
}
