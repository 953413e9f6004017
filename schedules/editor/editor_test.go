package editor_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
)

const document = `# Scrubber drain, as the shop writes it.
document = "schedule"
format   = 1
title    = "Drain header"     # short
units    = "us"

[part]
form    = "pipe"
process = "contact"

[[resin]]
id     = "liner"
family = "novolac-vinyl-ester"

[[resin]]
id     = "wall"
family = "vinyl-ester"

# the barrier
[[ply]]
material = "veil-c-15"
resin    = "liner"

[[ply]]
material  = "mat-1.5"   # two, rolled one by one
resin     = "liner"
count     = 2
gel_after = true

# the wall
[[ply]]
material = "mat-1.5"
resin    = "wall"

[[ply]]
material = "woven-24"
resin    = "wall"
`

var none = shop.New(shop.Options{NoBook: true})

// home gives the test a state folder of its own.
func home(t *testing.T) {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func open(t *testing.T, path string) *editor.Document {
	t.Helper()
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

func onDisk(t *testing.T) (*editor.Document, string) {
	t.Helper()
	home(t)
	path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
	return open(t, path), path
}

func do(t *testing.T, d *editor.Document, e edit.Edit) {
	t.Helper()
	if err := d.Apply(e); err != nil {
		t.Fatalf("%s: %v", e.Label, err)
	}
}

func layMat(d *editor.Document) edit.Edit {
	return edit.AddPly(d.Now(), d.Library(), len(d.Now().Plies)-1, "mat-1.5")
}

func TestOpen_showsTheFileAsItIs(t *testing.T) {
	d, path := onDisk(t)
	if d.Path() != path || d.Name() != "drain.toml" || d.Dirty() || string(d.Bytes()) != document || d.Units() != quantity.US {
		t.Errorf("path %q, name %q, dirty %v", d.Path(), d.Name(), d.Dirty())
	}
	if locked, why := d.ReadOnly(); locked {
		t.Errorf("read-only: %s", why)
	}
	if line := d.Line(laminate.PlyRef(1, "count")); line != 27 {
		t.Errorf("count of the second ply in line %d", line)
	}
}

func TestOpen_tellsProblemsAndMissingFiles(t *testing.T) {
	home(t)
	dir := t.TempDir()
	_, err := editor.Open(write(t, filepath.Join(dir, "bad.toml"), strings.Replace(document, "count     = 2", "cuont = 2", 1)), none)
	var problems *editor.ProblemsError
	if !errors.As(err, &problems) || len(problems.Problems) != 1 || problems.Problems[0].Line != 27 || !strings.Contains(err.Error(), "cuont") {
		t.Errorf("a typo: %v", err)
	}
	if _, err := editor.Open(filepath.Join(dir, "none.toml"), none); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
	if _, err := editor.FromBytes("standard input", []byte("\x00"), none); !errors.As(err, &problems) || problems.Name != "standard input" {
		t.Errorf("rubbish: %v", err)
	}
}

func TestApply_andUndo(t *testing.T) {
	d, _ := onDisk(t)
	start := d.Revision()
	do(t, d, layMat(d))
	if !d.Dirty() || len(d.Now().Plies) != 5 || d.Revision() == start || !d.CanUndo() || d.CanRedo() {
		t.Fatalf("after an edit: dirty %v, %d rows", d.Dirty(), len(d.Now().Plies))
	}
	label, at, ok := d.Undo()
	if !ok || label != "added ply 6 mat-1.5" || at != laminate.PlyRef(3, "") {
		t.Errorf("undone %q at %+v", label, at)
	}
	if d.Dirty() || string(d.Bytes()) != document || d.Revision() != start+2 {
		t.Errorf("undone: dirty %v, revision %d from %d", d.Dirty(), d.Revision(), start)
	}
	if label, at, ok := d.Redo(); !ok || label != "added ply 6 mat-1.5" || at.Index != 4 || !d.Dirty() {
		t.Errorf("redone %q at %+v", label, at)
	}
	if _, _, ok := d.Redo(); ok {
		t.Error("redone once more than undone")
	}
}

func TestApply_thatIsRefusedOrChangesNothingLeavesNoTrace(t *testing.T) {
	d, _ := onDisk(t)
	rev := d.Revision()
	if err := d.Apply(edit.Remove(d.Now(), d.Library(), 9)); err == nil {
		t.Error("removed a row that is not there")
	}
	do(t, d, edit.SetCount(d.Now(), d.Library(), 1, 2))
	if err := d.Apply(edit.Edit{}); err == nil {
		t.Error("an edit without a deed was made")
	}
	if d.Revision() != rev || d.CanUndo() {
		t.Errorf("revision %d from %d, undo %v", d.Revision(), rev, d.CanUndo())
	}
}

func TestApply_joinsEditsOfOneMergeKey(t *testing.T) {
	d, _ := onDisk(t)
	title := func(s string) edit.Edit {
		e := edit.SetHeader("title", "title "+s, func(n *laminate.Schedule) { n.Title = s })
		e.Merge = "title"
		return e
	}
	do(t, d, layMat(d))
	for _, s := range []string{"D", "Du", "Duct"} {
		do(t, d, title(s))
	}
	d.Undo()
	if d.Now().Title != "Drain header" || len(d.Now().Plies) != 5 {
		t.Errorf("one undo leaves %q and %d rows", d.Now().Title, len(d.Now().Plies))
	}
	d.Redo()
	if d.Now().Title != "Duct" {
		t.Errorf("redone %q", d.Now().Title)
	}
	do(t, d, title("Duct 2"))
	do(t, d, title("Drain header"))
	if d.Undo(); d.Now().Title != "Duct" {
		t.Errorf("an edit after a redo was joined to what it redid: %q", d.Now().Title)
	}
}

func TestUnits_areAViewUntilAnEditWritesThem(t *testing.T) {
	d, _ := onDisk(t)
	us := d.Report()
	if d.Report() != us {
		t.Error("a report was made twice for one revision")
	}
	d.SetUnits(quantity.Metric)
	if d.Dirty() || d.Units() != quantity.Metric || d.Report() == us {
		t.Error("units of the view: dirty, or the report is the old one")
	}
	d.SetUnits(quantity.US)
	do(t, d, edit.SetHeader("units", "units si", func(s *laminate.Schedule) { s.Units = quantity.Metric }))
	if d.Units() != quantity.Metric || !strings.Contains(string(d.Bytes()), `units    = "si"`) {
		t.Errorf("units %v", d.Units())
	}
}

func TestPreview_judgesWithoutApplying(t *testing.T) {
	d, _ := onDisk(t)
	r, err := d.Preview(layMat(d))
	if err != nil || len(r.Schedule.Plies) != 5 || len(d.Now().Plies) != 4 || d.CanUndo() {
		t.Errorf("preview: %v", err)
	}
	if _, err := d.Preview(edit.Remove(d.Now(), d.Library(), 9)); err == nil {
		t.Error("a preview of what cannot be")
	}
}

func TestLine_followsTheTextThatASaveWrites(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, edit.AddPly(d.Now(), d.Library(), 0, "veil-c-10"))
	for _, when := range []string{"before the save", "after it"} {
		line := d.Line(laminate.PlyRef(3, "material"))
		lines := strings.Split(string(d.Bytes()), "\n")
		if line < 2 || line > len(lines) || lines[line-1] != `material = "mat-1.5"` || lines[line-2] != "[[ply]]" {
			t.Errorf("%s: line %d of\n%s", when, line, d.Bytes())
		}
		if err := d.Save(); err != nil || read(t, path) != string(d.Bytes()) {
			t.Fatal(err)
		}
		d.Undo()
		d.Redo()
	}
	if line := d.Line(laminate.PlyRef(99, "")); line != 0 {
		t.Errorf("a ply that is not there is in line %d", line)
	}
}
