package inspect

import (
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/record"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/tuitest"
)

const (
	spool   = "schedules/pipe-wound-acid-spool.toml"
	brine   = "schedules/pipe-wound-brine.toml"
	demands = "specifications/acid-drain.toml"
	returns = "specifications/brine-return.toml"
)

// compared opens a scenario with its specification and record chosen.
func compared(t testing.TB, w, h int, what string) *rig {
	t.Helper()
	file := "acid-spool-" + what + ".toml"
	g := open(t, w, h, spool, demands, "records/"+file)
	if err := g.binder.OpenSpecification(g.path("acid-drain.toml")); err != nil {
		t.Fatal(err)
	}
	if err := g.binder.Open(g.path(file)); err != nil {
		t.Fatal(err)
	}
	return g
}

func verdict(g *rig) string {
	g.p.settle()
	return g.p.result.Verdict.Outcome()
}

// What the scenarios of testdata are there for; the outcomes follow from what
// each file says it holds, by hand.
func TestScenarios_comeOutAsTheyAreMeantTo(t *testing.T) {
	for what, want := range map[string]string{"accept": "accept", "reject": "reject", "open": "open", "torn": "reject"} {
		if got := verdict(compared(t, 80, 24, what)); got != want {
			t.Errorf("%s: %s", what, got)
		}
	}
	g := open(t, 80, 24, brine, returns)
	if err := g.binder.OpenSpecification(g.path("brine-return.toml")); err != nil {
		t.Fatal(err)
	}
	if got := verdict(g); got != "reject" {
		t.Errorf("brine: %s", got)
	}
	var failing []string
	for _, r := range g.p.rows {
		if !r.note && r.Verdict != acceptance.Meets {
			failing = append(failing, r.Key)
		}
	}
	if got := strings.Join(failing, " "); got != "barrier.veil_fiber outer_surface.required" {
		t.Errorf("not met: %s", got)
	}
}

func TestScreens(t *testing.T) {
	for _, size := range []struct {
		name string
		w, h int
	}{{"80x24", 80, 24}, {"120x36", 120, 36}, {"60x16", 60, 16}} {
		t.Run(size.name, func(t *testing.T) {
			tuitest.Golden(t, "empty", open(t, size.w, size.h, spool).screen())
			g := compared(t, size.w, size.h, "reject")
			g.press("n")
			tuitest.Golden(t, "reject", g.screen())
			g = compared(t, size.w, size.h, "open")
			g.press("7")
			g.typed("8", "2")
			g.press("1", "1")
			g.typed("238", "0.231 in")
			tuitest.Golden(t, "readings", g.screen())
		})
	}
}

func TestLines_failFirstAndTheCursorTellsThePlies(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.screen()
	last := acceptance.Fails
	for _, r := range g.p.rows {
		if !r.note && r.Verdict > last {
			t.Fatalf("%s stands below a better one", r.Key)
		}
		if !r.note {
			last = r.Verdict
		}
	}
	g.press("down", "up")
	g.says("FAILS", "1 ply, 4")
	if wish := g.press(keyin.Enter); wish != page.Back || g.desk.Row != 2 {
		t.Errorf("to the bench: wish %d, row %d", wish, g.desk.Row)
	}
	g.press("down")
	if g.press("g"); !g.desk.Notice.Refusal {
		t.Error("a line about no ply led to one")
	}
}

// The keypad's way: 1 the readings, 4 Barcol, value Enter value Enter. By hand:
// of 28 30 31 33 34 35 36 37 39 52 the two at each end go, the rest average 34⅓.
func TestReadings_moveMeanAndVerdictAfterEach(t *testing.T) {
	g := compared(t, 80, 24, "open")
	g.press("1", "4")
	g.typed("28", "30", "31", "33", "34", "35", "36", "37", "39")
	g.shows("9 readings", "? cannot tell")
	g.typed("52")
	g.shows("10 readings", "34.3", "✓ meets")
	g.typed("abc")
	g.says("0 to 100")
	g.press(keyin.Esc)
	g.says("Esc once more")
	g.press(keyin.Esc, keyin.Esc)
	text, err := os.ReadFile(g.path("acid-spool-open.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, torn, problems := schedules.DecodeRecord(text)
	if torn != "" || len(problems) > 0 || len(r.Readings) != 10 {
		t.Fatalf("on disk: %q %v", torn, problems)
	}
}

func TestReadings_everyKindReachesTheRecordInAnyUnit(t *testing.T) {
	g := compared(t, 100, 30, "open")
	g.press("1", "2") // the barrier
	g.typed("2,8 mm", "110")
	g.press(keyin.Enter, "5", "2") // ignition, of the barrier
	g.typed("5.02", "1.31", "0.005 kg", "1.3 g")
	g.typed("5", "6")
	g.says("above the mass before")
	g.press(keyin.Esc, keyin.Esc, "6", "2", keyin.Enter) // acetone: tacky
	g.press(keyin.Enter, "7")
	g.typed("2 Gohm")
	g.press("down")
	g.typed("flange", "3")
	list := g.binder.Record().Now().Readings
	want := []struct {
		kind  record.Kind
		group record.Group
		text  string
	}{
		{record.WallThickness, record.Barrier, "2.8 mm"}, {record.WallThickness, record.Barrier, "110 mil"},
		{record.IgnitionLoss, record.Barrier, "5.02 g → 1.31 g, loss 73.9 %"}, {record.IgnitionLoss, record.Barrier, "0.005 kg → 1.3 g, loss 74.0 %"},
		{record.Acetone, record.WholeWall, "acetone softened or tacky"},
		{record.ResistanceToEarth, record.WholeWall, "2 Gohm"}, {record.ResistanceToEarth, record.WholeWall, "3 Mohm"},
	}
	if len(list) != len(want) {
		t.Fatalf("%d readings, want %d", len(list), len(want))
	}
	for i, w := range want {
		r := &list[i]
		if r.Kind != w.kind || r.Group != w.group || g.p.value(r) != w.text {
			t.Errorf("reading %d: %s %s %q", i+1, r.Kind, r.Group, g.p.value(r))
		}
	}
	if list[6].Place != "flange" || list[5].Place != "" {
		t.Errorf("places %q, %q", list[5].Place, list[6].Place)
	}
	if verdict(g) != "reject" {
		t.Error("a tacky surface passes")
	}
}

func TestReadings_sayWhatIsOddAgainstTheStatedTolerances(t *testing.T) {
	g := compared(t, 80, 24, "open")
	g.press("1", "1")
	g.shows("7 states how far plies stray")
	g.press(keyin.Esc, keyin.Esc, "7")
	g.typed("x")
	g.says("per cent")
	g.press(keyin.Delete)
	g.typed("8", "2")
	g.press("1", "1")
	g.shows("236.2 ± 10.7 mil: 95 of 100, independent plies, as stated")
	g.press(keyin.Esc, keyin.Esc, "down")
	g.shows("independently", "±8.0 %", "±2.0 points")
	g.press("1", "1")
	g.typed("236")
	if strings.Contains(g.desk.Notice.Text, "ODD") {
		t.Errorf("the computed thickness is odd: %s", g.desk.Notice.Text)
	}
	g.typed("310")
	g.says("ODD")
}

func TestDefect_isJudgedAtOnce(t *testing.T) {
	g := compared(t, 80, 24, "accept")
	g.press("2", keyin.Enter)
	g.says("kind")
	g.press("1")
	g.shows("at most 1/8 in")
	g.press(keyin.Enter, "1", keyin.Enter)
	g.typed("0.3", "", "0")
	g.says("count")
	g.press(keyin.Delete)
	g.typed("2", "", "ring 2", "")
	g.says("pit 0.3 in ×2 at ring 2", "reject")
	if d := g.binder.Record().Now().Defects; len(d) != 2 || d[1].Repaired || d[1].Depth.Given() {
		t.Errorf("defects: %+v", d)
	}
}

func TestSign_needsAReasonAgainstTheVerdict(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.press("3")
	g.shows("REJECT")
	g.press(keyin.Enter)
	g.says("somebody decides")
	g.press("1", keyin.Enter, keyin.Enter)
	g.says("who?")
	g.typed("inspector two", "")
	g.says("needs a reason")
	g.typed("pit ground out")
	g.says("signed", "accept")
	d := g.binder.Record().Now().Decisions
	if n := len(d); n != 2 || d[1].Outcome != record.Accept || d[1].Why != "pit ground out" || d[1].When.IsZero() {
		t.Errorf("decisions: %+v", d)
	}
}

func TestEntries_areStruckNotEdited(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	n := len(g.binder.Record().Entries())
	g.press("4")
	g.shows("none can be changed")
	for _, c := range "pit" {
		g.press(string(c))
	}
	g.press("1", keyin.Enter)
	g.says("reason")
	g.typed("ground out, laid over", "inspector two")
	g.says("struck entry", "reject")
	now := g.binder.Record()
	if len(now.Entries()) != n+1 || !now.Now().Defects[0].Struck || now.Now().Defects[0].Size.Text() != "1/4 in" {
		t.Errorf("after the strike: %d entries, %+v", len(now.Entries()), now.Now().Defects[0])
	}
	g.press("4", "1")
	if !g.desk.Notice.Refusal || len(g.binder.Record().Entries()) != n+1 {
		t.Errorf("a strike was struck: %s", g.desk.Notice.Text)
	}
}

func TestFiles_chooseAndBegin(t *testing.T) {
	g := open(t, 110, 24, spool, demands, "records/acid-spool-torn.toml", "records/acid-spool-accept.toml")
	if g.press("1"); !strings.Contains(g.desk.Notice.Text, "no record") {
		t.Errorf("readings without a record: %q", g.desk.Notice.Text)
	}
	g.press("5")
	g.shows("acid-drain.toml", "S-204 B")
	g.press("1")
	g.shows("against S-204 B Acid drain headers")
	g.press("6")
	g.shows("begin a new record", "this schedule", "half-written")
	g.press("3")
	g.says("recovered", "cut short")
	g.press("6", "1")
	g.typed("K-402-8")
	g.shows("pipe-wound-acid-spool-record-1.toml")
	g.press(keyin.Enter)
	g.says("begun")
	if r := g.binder.Record(); r == nil || r.Now().Serial != "K-402-8" || r.Now().ScheduleSHA256 != g.binder.Sum() {
		t.Errorf("begun: %+v", g.binder.Record())
	}
	g.press("6", "1")
	g.shows("record-2.toml")
	g.press(keyin.Esc)
	if g.press(keyin.Esc) != page.Back {
		t.Error("Esc does not lead back")
	}
}

func TestRecord_ofAnotherScheduleIsSaid(t *testing.T) {
	g := open(t, 80, 24, brine, demands, "records/acid-spool-accept.toml")
	g.press("6")
	g.shows("another schedule")
	g.press("2")
	if !g.desk.Notice.Refusal {
		t.Errorf("opened silently: %s", g.desk.Notice.Text)
	}
	g.shows("✗ the record is of another schedule", "FAILS")
}

// Whatever is typed on whatever screen, nothing panics and no line is too long.
func TestPage_standsAnyKeyAtAnySize(t *testing.T) {
	g := compared(t, 80, 24, "open")
	names := []string{"1", "2", "3", "4", "5", "6", "7", "8", "0", "n", "k", "j", "x", ".", "-", "é", keyin.Enter, keyin.Esc, keyin.Up, keyin.Down,
		keyin.Left, keyin.Right, keyin.PgUp, keyin.PgDown, keyin.Home, keyin.End, keyin.Tab, keyin.Backspace, keyin.Delete, keyin.Space}
	rapid.Check(t, func(rt *rapid.T) {
		g.w, g.h = rapid.IntRange(1, 220).Draw(rt, "w"), rapid.IntRange(1, 70).Draw(rt, "h")
		g.p.SetSize(g.w, g.h)
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(names), 1, 12).Draw(rt, "keys") {
			g.press(k)
			if w, h := g.p.frame.Body.W, g.p.frame.Body.H; g.p.frame.Title.H > 0 {
				tuitest.Box(rt, text.FitLines(g.p.Lines(), w, h), w, h)
			} else if g.p.Lines() != nil {
				rt.Fatalf("a page is drawn on %d×%d", w, h)
			}
			if g.p.Can("take") != "" && g.p.Busy() {
				rt.Fatal("a task's key cannot act")
			}
		}
	})
}

func TestBindings_makeATable(t *testing.T) {
	g := open(t, 80, 24, spool)
	if _, err := keys.New(g.p.Bindings()...); err != nil {
		t.Error(err)
	}
}
