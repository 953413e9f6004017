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

// flat is a text without looks and line breaks.
func flat(lines []string) string {
	return strings.Join(strings.Fields(tuitest.Plain(strings.Join(lines, " "))), " ")
}

// Whatever check says of a job, w says of a row, notes too, with why and on what
// basis; an empty one says how to begin.
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
			press(p, "w")
			text := flat(p.Over().(*page.Text).Body(100))
			said.WriteString(text + "\n")
			if at := p.Selects(); at.Kind == laminate.RefJobPart {
				of := r.Part(at.Index)
				for k := range of.Findings {
					if f := &of.Findings[k]; !strings.Contains(text, flat([]string{f.Message})) || !strings.Contains(text, flat([]string{f.Rule.Why})) || !strings.Contains(text, flat([]string{f.Basis})) {
						t.Errorf("%s: part %s does not say %s: %s", name, r.Job.Parts[at.Index].ID, f.Rule.ID, f.Message)
					}
				}
				for _, x := range of.PassedOver {
					if !strings.Contains(text, x.At.Key+": "+x.Reason) {
						t.Errorf("%s: part %s does not say that nothing weighs %s", name, r.Job.Parts[at.Index].ID, x.At.Key)
					}
				}
				if c, ok := of.Wall.Governing(); ok && !strings.Contains(text, flat([]string{c.Basis})) {
					t.Errorf("%s: part %s does not say by what basis %s governs", name, r.Job.Parts[at.Index].ID, c.Name)
				}
			}
			press(p, keys.Esc)
			if i+1 < p.table.Len() {
				press(p, keys.Down)
			}
		}
		for i := range r.Findings {
			if f := &r.Findings[i]; !strings.Contains(said.String(), flat([]string{f.Message})) {
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

// A row says that there is more of it than its lines hold, and how much; w shows it.
func TestPage_saysHowMuchMoreThereIs(t *testing.T) {
	p := open(t, append(schedules.ExampleJob(), "\n[[nozzle]]\nid = \"N9\"\non = \"shell-1\"\nsize = \"2 in\"\nkind = \"penetrating\"\n"...), 80, 24)
	p.table.Select(laminate.Ref{Kind: laminate.RefNozzle, Index: 5})
	p.Settle()
	x, _ := p.table.Selected()
	found := p.found(p.Desk.Doc.JobReport(), x)
	if len(found) < 5 {
		t.Fatalf("%d findings do for no test", len(found))
	}
	text := screen(t, p)
	tuitest.Golden(t, "cut", text)
	begun := 0
	for i := range found {
		if strings.Contains(text, strings.Join(strings.Fields(found[i].Message)[:4], " ")) {
			begun++
		}
	}
	if want := page.Count(len(found)-begun, "finding") + " more  w all"; !strings.Contains(text, want) {
		t.Errorf("no %q in\n%s", want, text)
	}
	press(p, "w")
	tuitest.Golden(t, "whole", screen(t, p))
	press(p, "n")
	if p.Selects().Kind == laminate.RefNozzle || p.Over() == nil {
		t.Errorf("n leads to %+v", p.Selects())
	}
	press(p, "p", keys.Esc)
	if p.Selects().Index != 5 {
		t.Errorf("p leads to %+v", p.Selects())
	}
}

// What the verdict of a row is the row says, a note too.
func TestPage_saysTheNoteOfARow(t *testing.T) {
	p := open(t, []byte(strings.Replace(string(schedules.ExampleJob()), "liquid_height = \"15 ft\"", "liquid_height = \"18 ft\"", 1)), 80, 24)
	r := p.Desk.Doc.JobReport()
	for _, x := range p.rows {
		if !x.judged || x.verdict == rules.Clear {
			continue
		}
		p.table.Select(x.at)
		if text := flat(p.about(r, 80, 40)); !strings.Contains(text, page.SeverityWord(x.verdict)) || strings.Contains(text, "nothing found") {
			t.Errorf("%s is %s, and says %s", x.name, x.verdict, text)
		}
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint, Index: 0})
	if text := flat(p.about(r, 80, 40)); !strings.Contains(text, "note: laminate seal of joint J1") {
		t.Error(text)
	}
}

// A column is one quantity: thickness that of the whole wall, and what governs stands
// by its name with what it asks and bears, in the line of the row where no column has room.
func TestPage_columnsSayWhatTheyShow(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 160, 50)
	r := p.Desk.Doc.JobReport()
	for _, x := range p.rows {
		if x.at.Kind != laminate.RefJobPart {
			if x.governs+x.asks+x.bears+x.limit != "" {
				t.Errorf("%s: %+v", x.name, x)
			}
			continue
		}
		w := r.Parts[x.at.Index].Wall
		c, _ := w.Governing()
		if want := quantity.US.Thickness(w.Whole); x.thickness != want {
			t.Errorf("%s is %s, want %s", x.name, x.thickness, want)
		}
		p.table.Select(x.at)
		if text := flat(p.about(r, 78, 5)); x.governs != c.Title() || !strings.Contains(text, x.governs+": required "+x.asks) || !strings.Contains(text, x.bears) {
			t.Errorf("%s: %+v, %s", x.name, x, text)
		}
	}
	for _, want := range []string{"thickness", "governs", "asks", "bears", "hoop strength"} {
		if !strings.Contains(screen(t, p), want) {
			t.Errorf("no %q in\n%s", want, screen(t, p))
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
	typed(p, "6 ft") // what is typed replaces what was refused
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

// The picture closes what is closed: without a bottom or a head that end stands open,
// and of several at one end it says that they are drawn as one.
func TestElevation_showsWhatCloses(t *testing.T) {
	for name, c := range map[string]struct {
		change   func(*laminate.Job)
		has, not string
	}{
		"whole":     {func(*laminate.Job) {}, "╰", "drawn as one"},
		"no bottom": {func(j *laminate.Job) { j.Parts = j.Parts[1:] }, "╭", "╰"},
		"open top":  {func(j *laminate.Job) { j.Parts = j.Parts[:3] }, "╰", "╭"},
		"flat bottom": {func(j *laminate.Job) {
			j.Parts[0].Part = laminate.Part{Form: laminate.FlatBottom, InsideDiameter: j.Parts[1].InsideDiameter}
		}, "╰", "drawn as one"},
		"two bottoms": {func(j *laminate.Job) {
			b := j.Parts[0]
			b.ID = "second"
			j.Parts = append([]laminate.JobPart{b}, j.Parts...)
		}, "2 parts below drawn as one", "on top"},
		"two heads up": {func(j *laminate.Job) { b := j.Parts[3]; b.ID = "second"; j.Parts = append(j.Parts, b) }, "2 parts on top drawn as one", "below"},
	} {
		s := of(c.change)
		if !strings.Contains(s, c.has) || strings.Contains(s, c.not) {
			t.Errorf("%s: %q, and no %q, in\n%s", name, c.has, c.not, s)
		}
	}
}

// No row is out of sight beside lines that say nothing: what explains the row takes no
// more than it needs as long as rows wait, and that is the same for every row.
func TestPage_rowsTakeTheRoomThatIsFree(t *testing.T) {
	for _, w := range []int{60, 80, 120, 140} {
		for h := 16; h <= 60; h++ {
			p := open(t, schedules.ExampleJob(), w, h)
			if hidden := p.table.Len() + 1 - p.tall(); hidden > 0 && p.pane() > enough {
				t.Errorf("%dx%d: %d rows are out of sight, and %d lines explain one", w, h, hidden, p.pane())
			}
		}
	}
	p := open(t, schedules.ExampleJob(), 140, 45)
	if s := screen(t, p); strings.Contains(s, "▼") || !strings.Contains(s, "knuckle") {
		t.Errorf("a row is out of sight:\n%s", s)
	}
}
