package job

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/tuitest"
)

func ids(p *Job) (list []string) {
	for i := range p.Desk.Doc.Job().Parts {
		list = append(list, p.Desk.Doc.Job().Parts[i].ID)
	}
	return list
}

func part(i int) laminate.Ref { return laminate.Ref{Kind: laminate.RefJobPart, Index: i} }

// Courses stand from the bottom up: what is added stands above the row that is
// selected, a nozzle on it, a joint between it and the one above.
func TestPage_addsWhereTheRowIs(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	p.table.Select(part(1))
	press(p, "a")
	if got := strings.Join(p.Over().Lines(), "\n"); !strings.Contains(got, "above shell-1") || !strings.Contains(got, "on shell-1") || !strings.Contains(got, "of shell-1 and shell-2") {
		t.Errorf("it does not say where:\n%s", got)
	}
	press(p, "1", keys.Esc)
	if got := ids(p)[:4]; !slices.Equal(got, []string{"bottom", "shell-1", "part-1", "shell-2"}) || p.Selects() != part(2) {
		t.Errorf("%q, at %+v", got, p.Selects())
	}
	if got := p.Desk.Doc.Job().Parts[2].Laminate; got != "" {
		t.Errorf("it begins in laminate %q of another part", got)
	}
	p.table.Select(part(3))
	press(p, "a", "2", keys.Esc)
	if n := p.Desk.Doc.Job().Nozzles; n[len(n)-1].On != "shell-2" {
		t.Errorf("a nozzle on %q", n[len(n)-1].On)
	}
	// Beside a nozzle: another on the same part.
	p.table.Select(laminate.Ref{Kind: laminate.RefNozzle, Index: 3})
	press(p, "a", "2", keys.Esc)
	if n := p.Desk.Doc.Job().Nozzles; n[len(n)-1].On != "head" {
		t.Errorf("beside one on the head a nozzle on %q", n[len(n)-1].On)
	}
	p.table.Select(part(3))
	press(p, "a", "3", keys.Esc)
	// That of the new part is the one of its two that no joint joins yet.
	if n := p.Desk.Doc.Job().Joints; n[len(n)-1].Between != [2]string{"part-1", "shell-2"} {
		t.Errorf("a joint of %q", n[len(n)-1].Between)
	}
	// A cover is bolted and the flanges are those of nozzles: none is offered a joint.
	p.table.Select(part(len(p.Desk.Doc.Job().Parts) - 1))
	press(p, "a", "3", keys.Esc)
	if n := p.Desk.Doc.Job().Joints; n[len(n)-1].Between != [2]string{"shell-1", "part-1"} {
		t.Errorf("at the last part a joint of %q", n[len(n)-1].Between)
	}
	if got, want := p.neighbors(), []string{"bottom, shell-1", "shell-1, part-1", "part-1, shell-2", "shell-2, shell-3", "shell-3, head"}; !slices.Equal(got, want) {
		t.Errorf("a joint may be between %q", got)
	}
}

func TestPage_movesRowsAmongTheirLike(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	before, was := string(p.Desk.Doc.Bytes()), ids(p)
	p.Desk.Doc.Turn(2) // the bench is on shell-2
	p.table.Select(part(1))
	press(p, "g", keys.Up)
	tuitest.Golden(t, "moving", screen(t, p))
	if got := ids(p)[:3]; !slices.Equal(got, []string{"bottom", "shell-2", "shell-1"}) || p.Selects() != part(2) {
		t.Errorf("moved: %q at %+v", got, p.Selects())
	}
	if d := p.Desk.Doc; d.Job().Parts[d.Part()].ID != "shell-2" {
		t.Errorf("the bench went over to %s", d.Job().Parts[d.Part()].ID)
	}
	press(p, keys.Up, keys.Enter)
	if got := ids(p)[:4]; !slices.Equal(got, []string{"bottom", "shell-2", "shell-3", "shell-1"}) || p.Over() != nil {
		t.Errorf("dropped: %q", got)
	}
	for _, l := range strings.Split(before, "\n") { // every remark stays
		if strings.Contains(l, "#") && !strings.Contains(string(p.Desk.Doc.Bytes()), l) {
			t.Errorf("lost %q", l)
		}
	}
	p.Desk.Undo()
	if string(p.Desk.Doc.Bytes()) != before {
		t.Errorf("one undo leaves %q", ids(p))
	}
	if d := p.Desk.Doc; d.Job().Parts[d.Part()].ID != "shell-2" {
		t.Errorf("undone the bench is on %s", d.Job().Parts[d.Part()].ID)
	}
	if p.Settle(); p.Selects() != part(1) {
		t.Errorf("undone another part is selected: %+v", p.Selects())
	}
	p.Desk.Redo()
	if p.Settle(); p.Selects() != part(3) {
		t.Errorf("done again another part is selected: %+v", p.Selects())
	}
	if d := p.Desk.Doc; d.Job().Parts[d.Part()].ID != "shell-2" {
		t.Errorf("done again the bench is on %s", d.Job().Parts[d.Part()].ID)
	}
	p.Desk.Undo()

	// Put back, nothing has changed, and nothing is there to undo.
	p.Settle()
	p.table.Select(part(1))
	press(p, "g", keys.Home)
	if got := ids(p); got[len(got)-1] != "shell-1" {
		t.Errorf("at the top: %q", got)
	}
	press(p, keys.Up)
	if !p.Desk.Notice.Refusal {
		t.Error("it went above the top")
	}
	press(p, keys.Esc)
	if got := ids(p); !slices.Equal(got, was) || p.Desk.Doc.CanUndo() {
		t.Errorf("put back: %q, undo %v", got, p.Desk.Doc.CanUndo())
	}
	// Two moves of one row are two steps.
	press(p, "g", keys.Up, keys.Enter, "g", keys.Up, keys.Enter)
	if p.Desk.Undo(); !slices.Equal(ids(p)[:3], []string{"bottom", "shell-2", "shell-1"}) {
		t.Errorf("undone the second: %q", ids(p))
	}

	// The others of a job move the way they are drawn; what is of the whole does not.
	p.Settle()
	p.table.Select(laminate.Ref{Kind: laminate.RefNozzle})
	press(p, "g", keys.Down, keys.Enter)
	if n := p.Desk.Doc.Job().Nozzles; n[0].ID != "N2" || n[1].ID != "N1" {
		t.Errorf("%s %s", n[0].ID, n[1].ID)
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefVessel})
	if press(p, "g"); p.Over() != nil || !p.Desk.Notice.Refusal {
		t.Error("the vessel is being moved")
	}
}

// What gives a part of its form its size comes before what every wall may state.
func TestPage_formsAskFirstWhatTheFormIs(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	for id, want := range map[string]string{
		"bottom":       "id form laminate schedule process inside_diameter length knuckle knuckle_radius supported hold_down knuckle_height",
		"shell-1":      "id form laminate schedule process inside_diameter length taper",
		"head":         "id form laminate schedule process inside_diameter length shape crown_radius knuckle_radius depth",
		"flange-3":     "id form laminate schedule process bolt_circle size drilling bolts bolt_size outside_diameter thickness pressure_class torque mate_face washers",
		"manway-cover": "id form laminate schedule process width edge bolt_circle deflection_limit size drilling bolts bolt_size outside_diameter pressure_class",
	} {
		var names []string
		for _, k := range p.keys(part(p.Desk.Doc.Job().Part(id))) {
			names = append(names, k.Name)
		}
		if got := strings.Join(names, " "); !strings.HasPrefix(got, want+" ") {
			t.Errorf("%s asks %s", id, got)
		}
	}
	// A form goes by the name that was given in it.
	p.table.Select(part(2))
	press(p, "e")
	typed(p, "middle")
	if got := p.Over().Title(); got != "middle" {
		t.Errorf("the form of middle is headed %q", got)
	}
	press(p, keys.Esc)
	p.Desk.Undo()
	// In a form a letter takes a choice.
	p.table.Select(part(1))
	press(p, "e", keys.Down, keys.Down, "h")
	if got := p.Desk.Doc.Job().Parts[1].Laminate; got != "head" || p.Over().(*page.Form).At != 2 {
		t.Errorf("laminate %q", got)
	}
	// → takes the next two parts of the list that a joint may join.
	press(p, keys.Esc)
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint})
	press(p, "e", keys.Down, keys.Right, keys.Enter)
	if got := p.Desk.Doc.Job().Joints[0].Between; got != [2]string{"shell-1", "shell-2"} {
		t.Errorf("between %q", got)
	}
}

// What the fluid is stands on the job page before there is a part, and is of all
// parts: what stands on one stays there.
func TestPage_statesTheServiceOfTheWhole(t *testing.T) {
	p := open(t, schedules.BlankJob("new"), 80, 24)
	if x, _ := p.table.Selected(); x.name != "service" {
		t.Errorf("an empty job begins with %q", x.name)
	}
	press(p, "e")
	typed(p, "sulfuric acid")
	typed(p, "0.3")
	typed(p, "120 degF")
	press(p, keys.Enter)
	typed(p, "0, 2")
	press(p, "i", keys.Enter, "5", keys.Esc)
	v := p.Desk.Doc.Job().Service
	if v.Fluid != "sulfuric acid" || v.Temperature.Text() != "120 degF" || v.PH.Highest != 2 || v.Contact != laminate.Immersed || !v.Contains.Has(laminate.StrongAcid) {
		t.Errorf("%+v", v)
	}
	p.Desk.Undo()
	p.Desk.Undo()
	if v := p.Desk.Doc.Job().Service; v.Contains.Has(laminate.StrongAcid) || v.Contact != laminate.NoContact {
		t.Errorf("undone: %+v", v)
	}

	p = open(t, schedules.ExampleJob(), 80, 24)
	p.Desk.Doc.Turn(3)
	p.table.Select(laminate.Ref{Kind: laminate.RefService, Part: -1})
	press(p, "e", keys.Up, keys.Down)
	typed(p, "water")
	press(p, keys.Esc)
	p.Desk.Undo()
	if p.Desk.Doc.Part() != 3 || p.Desk.Doc.Job().Service.Fluid != "sodium chloride brine" {
		t.Errorf("undone at part %d with %q", p.Desk.Doc.Part(), p.Desk.Doc.Job().Service.Fluid)
	}
}

// A part of an empty job brings nothing but itself; what it lacks is found, and the
// first ply on its bench is its laminate's, which stays where the part is taken out.
func TestPage_firstPartOfAJob(t *testing.T) {
	p := open(t, []byte("document = \"job\"\nformat = 1\ntitle = \"empty\"\n"), 80, 24)
	press(p, "a", "1", keys.Esc)
	if text := string(p.Desk.Doc.Bytes()); strings.Contains(text, "laminate") || !strings.Contains(text, "part-1") {
		t.Errorf("it wrote\n%s", text)
	}
	if got := screen(t, p); !strings.Contains(got, "part part-1 has no wall yet: it names no laminate") {
		t.Errorf("nothing says what is missing:\n%s", got)
	}
	p.Desk.Apply(edit.AddPly(p.Desk.Doc.Now(), p.Desk.Doc.Library(), -1, catalog.Mat15))
	if j := p.Desk.Doc.Job(); len(j.Laminates) != 1 || j.Parts[0].Laminate != j.Laminates[0].ID {
		t.Fatalf("%+v", j)
	}
	p.Settle()
	p.table.Select(part(0))
	press(p, "x")
	if got := p.Desk.Notice.Text; got != "took out part-1; laminate part-1 stays, nothing names it" {
		t.Errorf("it says %q", got)
	}
}
