package job

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/pagetest"
	"frp/veilwright/tui/internal/page/records"
	"frp/veilwright/tui/internal/tuitest"
)

func open(t testing.TB, text []byte, w, h int) *Job {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	d, err := editor.FromBytes("tank", text, shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	desk := &page.Desk{Doc: d, Theme: draw.New(draw.Mono), Row: -1}
	p := New(desk, records.New(desk, nil))
	p.SetSize(w, h)
	p.Settle()
	return p
}

func press(p *Job, names ...string) {
	for _, e := range tuitest.Events(names...) {
		if _, why := pagetest.Press(p, e); why != "" {
			p.Desk.Refuse(why)
		}
	}
}

func typed(p *Job, text string) {
	for _, c := range text {
		press(p, string(c))
	}
	press(p, keys.Enter)
}

func screen(t testing.TB, p *Job) string {
	t.Helper()
	f := p.Frame
	return tuitest.Box(t, draw.FitLines(p.Lines(), f.Body.W, f.Body.H), f.Body.W, f.Body.H) + "\n" + p.Desk.Notice.Line(p.Desk.Theme, f.Body.W)
}

// Whatever check says of a job is said at a row of it; an empty one says how to begin.
func TestPage_saysEveryFindingOfTheJob(t *testing.T) {
	example := string(schedules.ExampleJob())
	for name, text := range map[string]string{
		"blank": string(schedules.BlankJob("duct")), "example": example,
		"not tested": strings.Replace(example, "[test]", "[test]\nvacuum = \"2 psi\"", 1),
		"no bond":    example + "\n[bond]\nshear_strength = \"20 psi\"\nfactor = 10\n",
	} {
		p := open(t, []byte(text), 120, 60)
		r := p.Desk.Doc.JobReport()
		var said strings.Builder
		for i := range p.table.Len() {
			said.WriteString(strings.Join(strings.Fields(tuitest.Plain(strings.Join(p.about(r, 100), " "))), " ") + "\n")
			if i+1 < p.table.Len() {
				press(p, keys.Down)
			}
		}
		for i := range r.Findings {
			if f := &r.Findings[i]; f.Severity > rules.Note && !strings.Contains(said.String(), strings.Join(strings.Fields(f.Message), " ")) {
				t.Errorf("%s: %s is said nowhere: %s", name, f.Rule.ID, f.Message)
			}
		}
		if name == "blank" {
			for _, want := range []string{"the job has no part", "a adds the first part"} {
				if !strings.Contains(screen(t, p), want) {
					t.Errorf("no %q on\n%s", want, screen(t, p))
				}
			}
		}
	}
}

func TestPage_showsTheEquipmentFromTheSide(t *testing.T) {
	tuitest.Golden(t, "80x24", screen(t, open(t, schedules.ExampleJob(), 80, 24)))
	tuitest.Golden(t, "120x36", screen(t, open(t, schedules.ExampleJob(), 120, 36)))
	tuitest.Golden(t, "60x16", screen(t, open(t, schedules.ExampleJob(), 60, 16)))
}

func TestPage_EnterOpensTheBenchOnThePart(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	back := 0
	p.Desk.Back = func() { back++ }
	p.table.Select(laminate.Ref{Kind: laminate.RefJobPart, Index: 2})
	press(p, keys.Enter)
	if back != 1 || p.Desk.Doc.Part() != 2 || !strings.Contains(p.Desk.Notice.Text, "shell-2") || p.Desk.Row != p.Desk.LastRow() {
		t.Errorf("back %d, part %d, %q", back, p.Desk.Doc.Part(), p.Desk.Notice.Text)
	}
}

func TestPage_formsStateKeysAndUndoTakesThemBack(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	before := string(p.Desk.Doc.Bytes())
	p.table.Select(laminate.Ref{Kind: laminate.RefJobPart, Index: 1})
	press(p, "e")
	tuitest.Golden(t, "form", screen(t, p))
	f := p.Over().(*page.Form)
	for f.Field().Label != "length" {
		press(p, keys.Down)
	}
	typed(p, "6")
	if !strings.Contains(p.Desk.Notice.Text, "unit is missing") {
		t.Errorf("%q", p.Desk.Notice.Text)
	}
	typed(p, " ft")
	if got := p.Desk.Doc.Job().Parts[1].Length.Text(); got != "6 ft" {
		t.Fatalf("length %q, %q", got, p.Desk.Notice.Text)
	}
	press(p, keys.Esc)
	// The course above stands a foot higher, and so does what is on it.
	if m, _ := p.Desk.Doc.Job().Assemble().Elevation(2); m < 6*0.3048-1e-9 {
		t.Errorf("shell-2 stands at %v m", m)
	}
	p.Desk.Undo()
	if string(p.Desk.Doc.Bytes()) != before {
		t.Error("undone it is another text")
	}
}

func TestPage_addsAndTakesOut(t *testing.T) {
	p := open(t, schedules.BlankJob("new"), 80, 24)
	if !strings.Contains(screen(t, p), "new") {
		t.Error(screen(t, p))
	}
	press(p, "a", "2")
	if !strings.Contains(p.Desk.Notice.Text, "none yet") {
		t.Errorf("%q", p.Desk.Notice.Text)
	}
	press(p, keys.Esc, "a", "1", keys.Esc, "a", "1", keys.Esc, "a", "2", keys.Esc, "a", "3", keys.Esc)
	j := p.Desk.Doc.Job()
	if len(j.Parts) != 2 || len(j.Nozzles) != 1 || len(j.Joints) != 1 || j.Parts[0].ID == j.Parts[1].ID {
		t.Fatalf("%+v %+v %+v", j.Parts, j.Nozzles, j.Joints)
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJobPart})
	press(p, "x")
	if len(p.Desk.Doc.Job().Parts) != 2 || !p.Desk.Notice.Refusal {
		t.Error("a part went from under its nozzle and joint")
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint})
	press(p, "x")
	if len(p.Desk.Doc.Job().Joints) != 0 {
		t.Error("the joint stays")
	}
	for p.Desk.Doc.CanUndo() {
		p.Desk.Undo()
	}
	if p.Desk.Doc.Dirty() {
		t.Error("undone to the start it is not as it was")
	}
}

func TestPage_onOneWallSaysWhatItIsFor(t *testing.T) {
	p := open(t, schedules.Example(), 80, 24)
	if !strings.Contains(screen(t, p), "this document is one wall") {
		t.Error(screen(t, p))
	}
	press(p, "a")
	if p.Over() != nil {
		t.Error("something opened")
	}
}

// Whatever stands in a job, the picture keeps to its room.
func TestElevation_keepsToItsRoom(t *testing.T) {
	_, example, _ := schedules.DecodeJob(schedules.ExampleJob(), nil, nil)
	rapid.Check(t, func(t *rapid.T) {
		j := example.Clone()
		for i := range j.Parts {
			p := &j.Parts[i]
			p.InsideDiameter = quantity.New(rapid.Float64Range(0.01, 100).Draw(t, "diameter"), quantity.Meter)
			p.Length = quantity.New(rapid.Float64Range(0.001, 1000).Draw(t, "length"), quantity.Meter)
		}
		j.Vessel.LiquidHeight = quantity.New(rapid.Float64Range(0, 100).Draw(t, "level"), quantity.Meter)
		for i := range j.Nozzles {
			j.Nozzles[i].Height = quantity.New(rapid.Float64Range(-10, 100).Draw(t, "height"), quantity.Meter)
		}
		name := rapid.SampledFrom([]string{"low", "漏斗", "🛢🛢🛢🛢🛢🛢🛢🛢🛢", "ü̈bergröße", "a much longer name than there is room for", "溢流管口溢流管口溢流管口溢流管口"})
		for i := range j.Parts {
			j.Parts[i].ID += name.Draw(t, "part")
		}
		for i := range j.Nozzles {
			n := &j.Nozzles[i]
			n.ID, n.On = name.Draw(t, "id"), j.Parts[rapid.IntRange(0, len(j.Parts)-1).Draw(t, "on")].ID
			n.Offset = quantity.New(rapid.Float64Range(0, 100).Draw(t, "offset"), quantity.Meter)
			n.Bearing = laminate.Some(rapid.Float64Range(0, 360).Draw(t, "bearing"))
		}
		w, h := rapid.IntRange(0, 100).Draw(t, "w"), rapid.IntRange(0, 60).Draw(t, "h")
		lines := elevation(j, w, h)
		if len(lines) > h+1 {
			t.Fatalf("%d lines in %d", len(lines), h)
		}
		for _, l := range lines {
			if draw.Width(l) != w {
				t.Fatalf("a line of %d in %d", draw.Width(l), w)
			}
		}
	})
}

// of is the picture of a tank of two courses, 80 by 24 cells of a terminal.
func of(change func(j *laminate.Job)) string {
	foot := func(v float64) quantity.Length { return quantity.New(v, quantity.Foot) }
	j := &laminate.Job{Parts: []laminate.JobPart{
		{ID: "bottom", Part: laminate.Part{Form: laminate.HeadPart, InsideDiameter: foot(8), Shape: laminate.Shape{Head: laminate.Hemispherical}}},
		{ID: "lower", Part: laminate.Part{Form: laminate.ShellCourse, InsideDiameter: foot(8), Length: foot(6)}},
		{ID: "upper", Part: laminate.Part{Form: laminate.ShellCourse, InsideDiameter: foot(8), Length: foot(6)}},
		{ID: "top", Part: laminate.Part{Form: laminate.HeadPart, InsideDiameter: foot(8), Shape: laminate.Shape{Head: laminate.Hemispherical}}},
	}}
	change(j)
	return strings.Join(elevation(j, 28, 16), "\n") + "\n"
}

func nozzle(id, on string, height, offset, bearing float64) laminate.Nozzle {
	return laminate.Nozzle{ID: id, On: on, Height: quantity.New(height, quantity.Foot), Offset: quantity.New(offset, quantity.Foot), Bearing: laminate.Some(bearing)}
}

// Characters that take two cells or none move nothing beside them.
func TestElevation_measuresNamesInCells(t *testing.T) {
	tuitest.Golden(t, "wide", of(func(j *laminate.Job) {
		j.Parts[1].ID, j.Parts[2].ID = "下部筒体下部筒体下部筒体", "obere Zarge ü̈"
		j.Nozzles = []laminate.Nozzle{nozzle("出口管", "下部筒体下部筒体下部筒体", 1, 0, 90), nozzle("🛢🛢🛢🛢", "下部筒体下部筒体下部筒体", 3, 0, 270), nozzle("人孔", "top", 0, 0, 0)}
	}))
}

// Nozzles of a bottom stand below it and those of a head above it, at the side on
// which the papers have them; what is not named is counted.
func TestElevation_nozzlesStandWhereTheyAre(t *testing.T) {
	nozzles := []laminate.Nozzle{nozzle("D1", "bottom", 0, 0, 0), nozzle("D2", "bottom", 0, 3, 270), nozzle("V1", "top", 0, 0, 0), nozzle("V2", "top", 0, 3, 90),
		nozzle("E", "lower", 2, 0, 45), nozzle("E2", "lower", 2, 0, 100), nozzle("W", "lower", 2, 0, 315), nozzle("M", "upper", 2, 0, 180)}
	tuitest.Golden(t, "heads", of(func(j *laminate.Job) { j.Nozzles = nozzles }))
	tuitest.Golden(t, "cone", of(func(j *laminate.Job) {
		j.Nozzles = nozzles
		j.Parts[0].Part = laminate.Part{Form: laminate.Cone, InsideDiameter: quantity.New(8, quantity.Foot), Shape: laminate.Shape{HalfAngle: laminate.Some(45.0), SmallDiameter: quantity.New(1, quantity.Foot)}}
		j.Parts[3].Part = laminate.Part{Form: laminate.FlatBottom, InsideDiameter: quantity.New(8, quantity.Foot)}
	}))
	tuitest.Golden(t, "flat and crowded", of(func(j *laminate.Job) {
		j.Parts[0].Part = laminate.Part{Form: laminate.FlatBottom, InsideDiameter: quantity.New(8, quantity.Foot)}
		j.Nozzles = append(nozzles[:6:6], nozzle("D3", "bottom", 0, 3, 260), nozzle("D4", "bottom", 0, 2.5, 260), nozzle("D5", "bottom", 0, 2, 260), nozzle("E3", "lower", 2, 0, 80), laminate.Nozzle{ID: "X", On: "lower"}, laminate.Nozzle{ID: "Y", On: "top"})
	}))
}
