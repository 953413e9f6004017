package layup

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/tuitest"
)

const spool = "schedules/pipe-wound-acid-spool.toml"

// begun is the page with a new record.
func begun(t testing.TB, w, h int, schedule string) *rig {
	t.Helper()
	g := open(t, w, h, schedule)
	g.Press("3", "1")
	g.Typed("K-402-8", "")
	if g.Records.Record() == nil {
		t.Fatalf("no record was begun: %s", g.Desk.Notice.Text)
	}
	return g
}

// A name is never taken out of a record: it is asked once a sitting, and goes
// with each entry.
func TestTick_asksOnceWhoEnters(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Records.Enters("", "")
	g.Page.skipped = true
	g.Press(keys.Enter)
	g.Shows("who enters?")
	g.Press(keys.Enter)
	g.Says("a name is needed")
	g.Typed("A. First")
	g.Press("1", keys.Enter)
	if l := g.Records.Record().Now().Laid; len(l) != 1 || l[0].Who != "A. First" || l[0].Role != "laminator" || l[0].Seal == "" {
		t.Fatalf("recorded %+v", l)
	}
	g.Press("0")
	if l := g.Records.Record().Now().Laid; len(l) != 2 || l[1].Who != "A. First" {
		t.Errorf("recorded %+v", l)
	}
}

func TestScreens(t *testing.T) {
	tuitest.Golden(t, "no record 80x24", open(t, 80, 24, spool).Screen())
	tuitest.Golden(t, "first 120x36", begun(t, 120, 36, spool).Screen())
	g := begun(t, 80, 24, spool)
	tuitest.Golden(t, "first 80x24", g.Screen())
	g.Press(keys.Enter)
	g.Typed("68", "82")
	for _, c := range "66" {
		g.Press(string(c))
	}
	tuitest.Golden(t, "ambient 80x24", g.Screen())
	g.Press(keys.Enter, keys.Enter)
	tuitest.Golden(t, "nevertheless 80x24", g.Screen())
	g.Press("2", keys.Enter)
	tuitest.Golden(t, "gel stop 80x24", g.Screen())
}

// The whole lay-up by keys: what is on disk afterwards has every ply once, in
// order, with lots kept and the gel time where the schedule stops.
func TestTick_oneKeyAPlyUntilAllAreLaid(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("2")
	for range "Q. Two" {
		g.Press(keys.Backspace)
	}
	g.Typed("first shift")
	g.Press("*") // from now on
	g.Typed("", "V-1", "N-40", "1.5", "")
	g.Press("1")
	g.Typed("20 degC", "50", "18 degC")
	g.Says("dew point 48.7 °F: dry")
	g.Press("0", keys.Enter)
	g.Says("ply 2 recorded")
	g.Press(keys.Enter)
	g.Shows("ply 3 is a gel stop")
	g.Typed("24")
	g.Says("ply 3 recorded")
	g.Press(".", "3")
	g.Says("ply 4", "lap moved")
	g.Press(".", "8")
	g.Typed("short roll")
	for range 4 {
		g.Press("0")
	}
	g.Says("the last one, all plies are laid")
	if g.Press("0"); !g.Desk.Notice.Refusal {
		t.Error("a tenth ply was recorded")
	}
	b, err := os.ReadFile(g.Path("pipe-wound-acid-spool-record-1.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, torn, problems := schedules.DecodeRecord(b)
	if torn != "" || len(problems) > 0 || len(r.Laid) != 9 {
		t.Fatalf("on disk: %d plies, %q %v", len(r.Laid), torn, problems)
	}
	for i, l := range r.Laid {
		gel, note, lot, resin := "", "", "", ""
		switch i + 1 {
		case 1:
			lot = "V-1"
		case 3:
			gel = "24 min"
		case 4:
			note = "lap moved"
		case 5:
			note = "short roll"
		}
		if i < 3 {
			resin = "N-40"
		}
		if l.Ply != i+1 || l.Who != "first shift" || l.GelTime != gel || l.Remark != note || l.MaterialLot != lot || l.ResinLot != resin ||
			l.Initiator.Given != (i < 3) || l.At.IsZero() || !l.AirTemperature.Given() {
			t.Errorf("ply %d: %+v", i+1, l)
		}
	}
}

// A lot belongs to a material: what was typed for the veil is not the mat's.
func TestKept_goesWithMaterialAndResin(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Press("2")
	g.Typed("", "", "V-1", "N-40", "", "")
	g.Press("0")
	if k := g.Page.kept(2); k.materialLot != "" || k.resinLot != "N-40" {
		t.Errorf("the mat gets %+v", k)
	}
	g.Press("2")
	g.Typed("", "", "M-7", "", "", "")
	g.Press("0")
	if k := g.Page.kept(3); k.materialLot != "M-7" || k.resinLot != "N-40" {
		t.Errorf("the next mat gets %+v", k)
	}
	if k := g.Page.kept(4); k.materialLot != "M-7" || k.resinLot != "" {
		t.Errorf("the same mat in another resin gets %+v", k)
	}
}

// A key that a glove rests on ticks one ply, not all of them.
func TestTick_aHeldKeyTicksOnce(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Step = 30 * time.Millisecond
	g.Now = g.Now.Add(time.Hour)
	for range 200 {
		g.Press("0")
	}
	if n := len(g.Records.Record().Now().Laid); n != 1 {
		t.Errorf("%d plies recorded", n)
	}
	g.Step = time.Minute
	g.Press("0")
	if n := len(g.Records.Record().Now().Laid); n != 2 {
		t.Errorf("%d plies ticked after a pause", n)
	}
}

// Two plies within seconds are asked about, and the answer stays in the record.
func TestTick_asksHowTwoPliesCameWithinSeconds(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Press("0")
	g.Step = 2 * time.Second
	g.Press("0")
	g.Shows("ply 1 was recorded a moment ago; is ply 2 laid?", "▸3 not laid yet: record nothing")
	for range 5 { // Enter alone lays nothing
		g.Press(keys.Enter)
	}
	if n := len(g.Records.Record().Now().Laid); n != 1 || g.Page.Over() != nil {
		t.Fatalf("%d plies recorded by Enter alone", n)
	}
	g.Press("0", "3", "0")
	if n := len(g.Records.Record().Now().Laid); n != 1 {
		t.Fatalf("%d plies recorded, and the second was not laid", n)
	}
	g.Press("1")
	if l := g.Records.Record().Now().Laid; len(l) != 2 || l[1].Remark != "laid earlier, recorded together" {
		t.Errorf("recorded %+v", l)
	}
}

// A gel time of nothing is not a gel stop observed: key 0 twice and Enter record none.
func TestTick_aGelTimeOfZeroIsRefused(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Press("0", "0", "0")
	g.Shows("ply 3 is a gel stop")
	g.Press("0", keys.Enter)
	g.Says("minutes above 0")
	if n := len(g.Records.Record().Now().Laid); n != 2 {
		t.Errorf("%d plies recorded", n)
	}
}

// ISO 8502-4: 3 °C above the dew point. By the WMO's Magnus coefficients the dew
// point of 20 °C and 50 % is 9.3 °C, so that 12 °C is too cold and 13 °C is not.
func TestClimate_warnsBeforeTheFirstPly(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press(keys.Enter)
	g.Says("before the first ply")
	g.Typed("20 degC", "50", "12 degC")
	g.Says("DO NOT LAY", "DEW")
	if n := len(g.Records.Record().Now().Laid); n != 0 {
		t.Fatalf("%d plies were ticked in the wet", n)
	}
	g.Shows("DO NOT LAY")
	g.Press("1")
	g.Typed("", "", "13 degC")
	g.Says("dew point 48.7 °F: dry")
	g.Press(keys.Enter)
	l := g.Records.Record().Now().Laid
	if len(l) != 1 || l[0].SurfaceTemperature.Text() != "13 degC" || l[0].Humidity.Value != 0.5 {
		t.Errorf("recorded: %+v", l)
	}
	g.Press("1")
	g.Typed("12 degC", "85", "")
	g.Says("below 59 °F", "above 80 %")
	g.Press("1")
	g.Typed("500", "")
	g.Says("not a shop temperature")
}

func TestStrike_leavesTheTickAndGoesBackToThePly(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	before := g.Desk.Doc.Now()
	g.Press("0", "0", "u", "4", keys.Enter)
	g.Says("reason")
	g.Typed("torn off again")
	g.Says("struck ply 2")
	if g.Desk.Doc.Now() != before {
		t.Error("undo on this page takes an edit of the schedule back")
	}
	if g.Page.next() != 2 || len(g.Records.Record().Now().Laid) != 2 {
		t.Errorf("next is ply %d", g.Page.next())
	}
}

func TestLook_ticksNothingOutOfOrderUnasked(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Press("down", "down", "0")
	g.Says("ply 3 is shown, ply 1 is next")
	g.Press("*")
	g.Typed("20")
	g.Says("ply 3 recorded")
	if g.Page.ply() != 1 || g.Records.Record().Now().Laid[0].Ply != 3 {
		t.Errorf("shown is ply %d", g.Page.ply())
	}
	g.Press("n", "down")
	if back := g.Press("g"); !back || g.Desk.Row != 1 {
		t.Errorf("to the bench: %v, row %d", back, g.Desk.Row)
	}
}

// By hand, on a 12 in pipe of 10 ft: a ply of 1.5 oz/ft² mat in the middle of
// its own thickness covers π × d × 10 ft, and the fabric weighs 1.5 oz on each
// square foot of that.
func TestAmounts_ofAMatOnAPipe(t *testing.T) {
	g := open(t, 80, 24, spool)
	rows := g.Page.analysis().Rows
	mid := rows[0].Thickness + rows[1].Thickness/2
	feet := math.Pi * (1 + 2*mid/0.3048) * 10
	a := g.Page.takes(2)
	if a.Missing != "" {
		t.Fatal(a.Missing)
	}
	if want := feet * 1.5 * 0.45359237 / 16; math.Abs(a.Fabric/want-1) > 1e-9 {
		t.Errorf("fabric %.6f kg, want %.6f", a.Fabric, want)
	}
	share := rows[1].FiberMass / rows[1].Mass
	if want := a.Fabric * (1 - share) / share; math.Abs(a.Mix/want-1) > 1e-9 {
		t.Errorf("mix %.6f kg, want %.6f", a.Mix, want)
	}
	if last, kg, ok := g.Page.batch(2); !ok || last != 3 || kg <= a.Mix || kg > 2.1*a.Mix {
		t.Errorf("up to the gel stop: ply %d, %.3f kg, %v", last, kg, ok)
	}
	if a.Filler != 0 {
		t.Errorf("filler %v without any", a.Filler)
	}
}

// 35 % of a mix is 35 % of its mass, whatever it is laid into.
func TestAmounts_partTheMixIntoResinAndFiller(t *testing.T) {
	g := open(t, 80, 24, spool)
	path := g.Desk.Doc.Path()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	filled := strings.Replace(string(b), "family = \"novolac-vinyl-ester\"", "family = \"novolac-vinyl-ester\"\nfiller = \"silicon-carbide\"\nfiller_content = 0.35", 1)
	if err := os.WriteFile(path, []byte(filled), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := g.Desk.Doc.Reload(); err != nil {
		t.Fatal(err)
	}
	a := g.Page.takes(2)
	if a.Missing != "" || math.Abs(a.Filler-0.35*a.Mix) > 1e-9*a.Mix || math.Abs(a.Resin()-0.65*a.Mix) > 1e-9*a.Mix {
		t.Errorf("mix %.4f kg: filler %.4f, resin %.4f; %s", a.Mix, a.Filler, a.Resin(), a.Missing)
	}
	g.Press("down")
	g.Shows("of resin and", "of filler", "silicon-carbide 35 %")
}

func TestArea_ofOtherParts(t *testing.T) {
	for _, c := range []struct {
		part, how string
		m2        float64
	}{
		{"form = \"panel\"\narea = \"4 m2\"", "panel", 4},
		// 2 m × 3 m: 6π m², a little more at the ply itself
		{"form = \"tank\"\ninside_diameter = \"2 m\"\nlength = \"3 m\"", "without its ends", 6 * math.Pi},
	} {
		g := open(t, 80, 24, spool)
		replace(g, c.part)
		a := g.Page.takes(1)
		if math.Abs(a.Area/c.m2-1) > 0.001 || !strings.Contains(a.How, c.how) {
			t.Errorf("%s: %+v", c.part, a)
		}
	}
	for part, key := range map[string]string{
		"form = \"panel\"": "(area, ", "form = \"pipe\"\nlength = \"3 m\"": "(inside_diameter)",
		"form = \"duct\"\ninside_diameter = \"2 m\"": "(length)", "process = \"wound\"": "(form)",
	} {
		g := open(t, 80, 24, spool)
		replace(g, part)
		g.Shows("cannot be determined", key)
	}
}

// replace gives the schedule another part.
func replace(g *rig, part string) {
	g.T.Helper()
	path := g.Desk.Doc.Path()
	b, err := os.ReadFile(path)
	if err != nil {
		g.T.Fatal(err)
	}
	before, rest, _ := strings.Cut(string(b), "[part]")
	_, after, _ := strings.Cut(rest, "\n[service]")
	if err := os.WriteFile(path, []byte(before+"[part]\n"+part+"\n\n[service]"+after), 0o644); err != nil {
		g.T.Fatal(err)
	}
	if err := g.Desk.Doc.Reload(); err != nil {
		g.T.Fatal(err)
	}
}

func TestScreen_saysTheCautionsAtEveryMix(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Shows("NEVER mix", "cobalt promoter", "fire or", "explosion", "can catch fire", "ventilate", "manufacturer")
	g.Desk.Doc.SetUnits(quantity.Metric)
	g.Shows(" kg", " m²")
}

func TestPage_withoutARecordSaysHowToGetOne(t *testing.T) {
	g := open(t, 80, 24, spool)
	g.Press("0")
	g.Says("3 opens or starts one")
	g.Shows("LAY PLY 1 of 9")
	if !g.Press(keys.Esc) {
		t.Error("Esc does not lead back")
	}
}

func TestPage_standsAnyKeyAtAnySize(t *testing.T) {
	g := begun(t, 80, 24, spool)
	names := []string{"1", "2", "3", "7", "0", "*", "n", "k", "j", "x", ".", "-", "é", keys.Enter, keys.Esc, keys.Up, keys.Down,
		keys.Left, keys.Right, keys.PgUp, keys.PgDown, keys.Home, keys.End, keys.Tab, keys.Backspace, keys.Delete, keys.Space}
	rapid.Check(t, func(rt *rapid.T) {
		g.W, g.H = rapid.IntRange(1, 220).Draw(rt, "w"), rapid.IntRange(1, 70).Draw(rt, "h")
		g.Size(g.W, g.H)
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(names), 1, 12).Draw(rt, "keys") {
			g.Press(k)
			if w, h := g.Page.Frame.Body.W, g.Page.Frame.Body.H; g.Page.Frame.Title.H > 0 {
				tuitest.Box(rt, draw.FitLines(g.Page.Lines(), w, h), w, h)
			} else if g.Page.Lines() != nil {
				rt.Fatalf("a page is drawn on %d×%d", w, h)
			}
		}
	})
}

func TestTable_isWhole(t *testing.T) {
	g := open(t, 80, 24, spool)
	if err := g.Page.Table().Check(); err != nil {
		t.Error(err)
	}
}

// 0.85 in a line of percent is 85 % of an inspector's share, until somebody says
// otherwise: 20 °C and 85 % is too wet, 1 % would be dry enough.
func TestAmbient_aHumidityThatReadsAsAShareIsAskedAbout(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("20 degC", "0.85")
	g.Says("humidity 0.85 % is hardly meant? + 0.85 %, as typed   * 85 %")
	g.Press(keys.Enter, "*")
	g.Typed("18 degC")
	g.Says("DO NOT LAY", "humidity 85 %")
	g.Press("1")
	g.Typed("20 degC", "0.85 %")
	g.Typed("18 degC")
	g.Shows("humidity 0.85 %")
}

// DO NOT LAY and then the tick key: somebody answers for it, and the record says so.
func TestTick_asksBeforeAPlyIsLaidThoughSomethingSpeaksAgainst(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("20 degC", "85", "18 degC")
	g.Press("0")
	g.Shows("lay up nevertheless?")
	g.Press("1")
	if n := len(g.Records.Record().Now().Laid); n != 0 {
		t.Fatalf("%d plies recorded", n)
	}
	g.Press("0", "3")
	g.Typed("N. Foreman")
	l := g.Records.Record().Now().Laid
	if len(l) != 1 || !strings.HasPrefix(l[0].Remark, "laid by order of N. Foreman: DEW: ") || !strings.Contains(l[0].Remark, "humidity 85 %") {
		t.Errorf("%+v", l)
	}
	if g.Press("0"); len(g.Records.Record().Now().Laid) != 2 {
		t.Error("the same reasons are asked again")
	}
	g.Step = 5 * time.Hour
	g.Press("n")
	if g.Page.measured().given() {
		t.Error("the morning's conditions are still recorded in the afternoon")
	}
}

// What the schedule breaks stands on the floor's page, and is asked about.
func TestTick_asksAboutABrokenSchedule(t *testing.T) {
	g := begun(t, 80, 24, "schedules/tank-contact-acid.toml")
	g.Page.skipped = true
	g.Shows("STOP        the schedule breaks ")
	g.Press("0")
	g.Shows("lay up nevertheless?", "the schedule breaks ")
	g.Press("2")
	if l := g.Records.Record().Now().Laid; len(l) != 1 || !strings.Contains(l[0].Remark, "the schedule breaks ") {
		t.Errorf("%+v", l)
	}
}

// Enter keeps each line of who and lots: leaving half-way loses none of it.
func TestDetails_enterKeepsEachLine(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("2")
	for range "Q. Two" {
		g.Press(keys.Backspace)
	}
	g.Typed("first shift")
	g.Press("*")
	g.Typed("", "V-1")
	g.Press(keys.Esc, keys.Esc)
	if k := g.Page.kept(1); g.Records.By().Who != "first shift" || k.materialLot != "V-1" {
		t.Errorf("kept %+v", k)
	}
}

// What can blind is read on the smallest screen too.
func TestCautions_eyesAreNotDroppedOnASmallScreen(t *testing.T) {
	g := begun(t, 60, 16, spool)
	g.Shows("NEVER directly with promoter", "peroxide can blind")
	// Nor where something stops work besides.
	begun(t, 60, 16, "schedules/tank-contact-acid.toml").Shows("STOP        the schedule breaks structure-fails", "NEVER directly with promoter", "peroxide can blind")
}

// Number and material are in block letters at every size, the larger the larger
// the screen, and all that stands on the page stays in it.
func TestScreen_isInLargeLettersAtEverySize(t *testing.T) {
	before := 0
	for _, size := range [][2]int{{60, 16}, {80, 24}, {120, 36}, {200, 60}} {
		g := begun(t, size[0], size[1], spool)
		lines := 0
		for _, l := range strings.Split(g.Screen(), "\n") {
			if strings.ContainsAny(l, "█▀") {
				lines++
			}
		}
		if lines < 3 || lines < before {
			t.Errorf("%v: %d lines of large letters:\n%s", size, lines, g.Screen())
		}
		before = lines
		g.Shows("LAY PLY 1 of 9", "NEVER", "ambient")
	}
	if before < 10 {
		t.Errorf("the largest screen has %d lines of large letters", before)
	}
	begun(t, 80, 24, spool).Shows("next ", "2-3 mat-1.5", "GEL STOP", "band-helical")
}

// What was laid otherwise is in the record as data, seen by whoever inspects.
func TestOtherwise_isRecordedAsData(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Page.skipped = true
	g.Press("4", "1")
	g.Typed("veil-polyester-15")
	g.Says("ply 1 recorded", "veil-polyester-15 in place of veil-c-15")
	g.Press("4", "2")
	g.Typed("1")
	g.Says("that is not 1")
	g.Press(keys.Backspace)
	g.Typed("2")
	g.Says("2 plies in place of 1")
	g.Press("4", "3")
	g.Typed("3/4 in")
	g.Typed("22")
	g.Says("lap 3/4 in")
	b, err := os.ReadFile(g.Path("pipe-wound-acid-spool-record-1.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, torn, problems := schedules.DecodeRecord(b)
	if torn != "" || len(problems) > 0 || len(r.Laid) != 3 {
		t.Fatalf("on disk: %d plies, %q %v", len(r.Laid), torn, problems)
	}
	if l := r.Laid; l[0].Material != "veil-polyester-15" || l[1].Plies.Value != 2 || l[2].Lap.Text() != "3/4 in" || l[2].GelTime != "22 min" {
		t.Errorf("on disk: %+v", l)
	}
}

// A digit in the line of the name signs nothing in another's name by Enter alone.
func TestDetails_anotherSignerIsAskedAbout(t *testing.T) {
	g := begun(t, 80, 24, spool)
	by := g.Records.By().Who
	g.Press("2", "5", keys.Enter)
	g.Says("does 5 enter from now on, and no longer "+by, "+ "+by+", as before   * 5 from now on")
	g.Press(keys.Enter, keys.Enter)
	if now := g.Records.By().Who; now != by {
		t.Fatalf("entries are by %q", now)
	}
	g.Press("+")
	if now := g.Records.By().Who; now != by || g.Page.Over().(*page.Form).At != 1 {
		t.Fatalf("entries are by %q\n%s", now, g.Screen())
	}
	g.Press(keys.Up, "6", keys.Enter, "*")
	if now := g.Records.By().Who; now != "6" {
		t.Errorf("entries are by %q", now)
	}
}

// A share typed as a part of 1 is asked about, and so is one that nobody mixes.
func TestDetails_anUnusualShareIsAskedAbout(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("2")
	g.Typed("", "", "V-1", "R-1", "0.0125")
	g.Says("initiator 0.0125 % is hardly meant? + 0.0125 %, as typed   * 1.25 %")
	g.Press(keys.Enter, "2", "*")
	g.Typed("25")
	g.Says("promoter 25 %: usual are 0.1 % to 0.5 %? + 25 %, as typed   * 0.25 %")
	g.Press(keys.Enter)
	if k := g.Page.kept(1); k.promoter.Given {
		t.Errorf("Enter took %+v", k)
	}
	g.Press("+")
	if k := g.Page.kept(1); k.catalyst.Value != 0.0125 || k.promoter.Value != 0.25 {
		t.Errorf("kept %+v", k)
	}
	g.Shows("initiator 1.25 %, promoter 25 %")
	// Ten times the peroxide is asked about, percent sign or not; ten times the cobalt too.
	g.Press("2")
	g.Typed("", "", "", "", "15 %")
	g.Says("initiator 15 %: usual are 1 % to 3 %? + 15 %, as typed   * 1.5 %")
	g.Press("*")
	g.Typed("3")
	g.Says("promoter 3 %: usual are 0.1 % to 0.5 %? + 3 %, as typed   * 0.3 %")
	g.Press("*")
	if k := g.Page.kept(1); k.catalyst.Value != 0.015 || k.promoter.Value != 0.003 {
		t.Errorf("kept %+v", k)
	}
}

// What keeps a part from being accepted stands on the floor's page before it is laid.
func TestAgainst_saysWhatKeepsAPartFromBeingAccepted(t *testing.T) {
	files, err := filepath.Glob("../../../../testdata/schedules/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	files = append(files, "../../../../testdata/acceptance/tank-shell.toml", "../../../../testdata/acceptance/tank-shell-unstated.toml")
	said := map[bool]int{}
	for _, file := range files {
		name, err := filepath.Rel("../../../../testdata", file)
		if err != nil {
			t.Fatal(err)
		}
		g := open(t, 80, 24, name, "acceptance/shop-book.toml")
		findings := g.Desk.Report().Findings
		unsettled := slices.ContainsFunc(findings, func(f rules.Finding) bool { return f.Unsettled() })
		if got := g.Page.breaks() != "" || g.Page.unjudged() != ""; got != unsettled {
			t.Errorf("%s: something is said: %v; something keeps it from acceptance: %v", name, got, unsettled)
		}
		said[unsettled]++
	}
	if said[true] == 0 || said[false] == 0 {
		t.Errorf("all of one kind: %v", said)
	}
}

// A gel time is watched in minutes; 1.5 was typed in hours.
func TestGelled_asksOnceAboutWhatIsHardlyWatched(t *testing.T) {
	for typed, want := range map[string]struct {
		span  string // as read
		asks  bool
		other string // likely meant
	}{
		"24": {"24 min", false, ""}, "1.5": {"1.5 min", true, "1.5 h"}, "1.5 min": {"1.5 min", true, ""}, "1.5 h": {"1.5 h", false, ""},
		"300": {"300 min", true, ""}, "": {"", false, ""},
	} {
		f, asked := &page.Field{Label: "gel time", Text: typed}, ""
		err := gelled(f, want.span, &asked)
		if (err != nil) != want.asks || f.Text != typed {
			t.Errorf("%q: %v, and in the line %q", typed, err, f.Text)
		}
		if doubt := (*page.Doubt)(nil); errors.As(err, &doubt) != want.asks {
			t.Errorf("%q: %v", typed, err)
		} else if doubt != nil {
			if want.other != "" && (doubt.Answers[0].Text != typed+" min" || doubt.Answers[1].Text != want.other) {
				t.Errorf("%q: %v", typed, err)
			}
			if f.Text = doubt.Answers[0].Text; doubt.Told != nil {
				doubt.Told(doubt.Answers[0])
			}
		}
		if err := gelled(f, want.span, &asked); err != nil {
			t.Errorf("%q: asked a second time: %v", typed, err)
		}
	}
}

// A warning about one figure stands while another cannot be read yet.
func TestAmbient_aWarningStandsBesideWhatCannotBeRead(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press(keys.Enter)
	g.Typed("40")
	g.Shows("air 40 °F is below")
	g.Press("x")
	g.Shows("air 40 °F is below")
	g.Press(keys.Backspace)
	for _, c := range "95x" {
		g.Press(string(c))
	}
	g.Shows("air 40 °F is below")
	g.Press(keys.Backspace, keys.Enter, "x")
	g.Shows("air 40 °F is below", "humidity 95 % is above")
}
