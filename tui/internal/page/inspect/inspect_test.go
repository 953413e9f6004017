package inspect

import (
	"os"
	"strings"
	"testing"

	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/inspection"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/record"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
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
	if err := g.Records.OpenSpecification(g.Path("acid-drain.toml")); err != nil {
		t.Fatal(err)
	}
	if err := g.Records.Open(g.Path(file)); err != nil {
		t.Fatal(err)
	}
	return g
}

func verdict(g *rig) string {
	g.Page.Settle()
	return g.Page.result.Answer.String()
}

// What the scenarios of testdata are there for; the outcomes follow from what
// each file says it holds, by hand.
func TestScenarios_comeOutAsTheyAreMeantTo(t *testing.T) {
	for what, want := range map[string]string{"accept": "accept", "reject": "reject", "incomplete": "incomplete", "torn": "incomplete"} {
		if got := verdict(compared(t, 80, 24, what)); got != want {
			t.Errorf("%s: %s", what, got)
		}
	}
	g := open(t, 80, 24, brine, returns)
	if err := g.Records.OpenSpecification(g.Path("brine-return.toml")); err != nil {
		t.Fatal(err)
	}
	if got := verdict(g); got != "does not conform" {
		t.Errorf("brine: %s", got)
	}
	var failing []string
	for _, r := range g.Page.rows {
		if !r.note && r.Verdict != acceptance.Meets {
			failing = append(failing, r.Key)
		}
	}
	if got := strings.Join(failing, " "); got != "barrier.veil_fiber outer_surface.required" {
		t.Errorf("not met: %s", got)
	}
}

// Without a record nothing is accepted, and without a specification neither.
func TestHead_neverAcceptsWhatWasNotInspectedOrNotSpecified(t *testing.T) {
	g := open(t, 80, 24, spool, demands, "records/acid-spool-accept.toml")
	head := func(want ...string) {
		t.Helper()
		g.Screen()
		got := tuitest.Plain(g.Page.head(80)[0])
		for _, s := range want {
			if !strings.Contains(got, s) || strings.Contains(got, "ACCEPT") {
				t.Errorf("%q: want %q, and no ACCEPT", got, s)
			}
		}
	}
	head("RECORD NOT OPEN", "no specification chosen")
	if err := g.Records.OpenSpecification(g.Path("acid-drain.toml")); err != nil {
		t.Fatal(err)
	}
	head("RECORD NOT OPEN", "schedule conforms", "16 met", "rules: none broken")
	g = open(t, 80, 24, spool, "records/acid-spool-accept.toml")
	if err := g.Records.Open(g.Path("acid-spool-accept.toml")); err != nil {
		t.Fatal(err)
	}
	head("INCOMPLETE", "no specification chosen", "rules: none broken")
	g = open(t, 80, 24, brine, returns)
	if err := g.Records.OpenSpecification(g.Path("brine-return.toml")); err != nil {
		t.Fatal(err)
	}
	head("NOT INSPECTED", "schedule does not conform", "2 fail", "rules: ")
}

func TestScreens(t *testing.T) {
	tuitest.Golden(t, "empty 80x24", open(t, 80, 24, spool).Screen())
	reject := func(w, h int) string {
		g := compared(t, w, h, "reject")
		g.Press("n")
		return g.Screen()
	}
	tuitest.Golden(t, "reject 80x24", reject(80, 24))
	tuitest.Golden(t, "reject 120x36", reject(120, 36))
	g := compared(t, 80, 24, "incomplete")
	g.Press("7")
	g.Typed("8", "2")
	g.Press("1", "1")
	g.Typed("238", "0.231 in")
	tuitest.Golden(t, "readings 80x24", g.Screen())
}

func TestLines_failFirstAndTheCursorTellsThePlies(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.Screen()
	last := acceptance.Fails
	for _, r := range g.Page.rows {
		if !r.note && r.Verdict > last {
			t.Fatalf("%s stands below a better one", r.Key)
		}
		if !r.note {
			last = r.Verdict
		}
	}
	g.Press("down", "up")
	g.Says("FAILS", "no ply in particular")
	if g.Press("g"); !g.Desk.Notice.Refusal {
		t.Error("a line about no ply led to one")
	}
	g.Page.table.Select("barrier.mat_plies#1")
	g.Press("down", "up")
	g.Says("meets", "plies, 2-3")
	// Enter stays here, with the line whole; g goes to look, and changes nothing there.
	if back := g.Press(keys.Enter); back || g.Page.Over() == nil || g.Desk.Row != -1 {
		t.Errorf("the whole line: %v, %v, row %d", back, g.Page.Over(), g.Desk.Row)
	}
	g.Shows("at least 2 chopped plies in the interior layer", "(g shows them on the bench)")
	g.Press(keys.Esc)
	if back := g.Press("g"); !back || g.Desk.Row != 1 || g.Desk.Visiting != "inspect" {
		t.Errorf("to the bench: %v, row %d, from %q", back, g.Desk.Row, g.Desk.Visiting)
	}
}

// What fails names the key that says what becomes of it.
func TestLines_whatFailsSaysWhatComesNext(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.Shows("8 disposition", "8 says what becomes of it: repair or retest")
	g.Press(keys.Enter)
	g.Shows("8 says what becomes of it: repair or retest", "concession", "scrap")
	g.Press(keys.Esc)
	if got := compared(t, 80, 24, "accept").Screen(); strings.Contains(got, "8 disposition  1 readings") {
		t.Error(got)
	}
}

// A specification is made by a command, which is said where none lies.
func TestFiles_whereNoSpecificationLiesItIsSaidHowOneIsMade(t *testing.T) {
	g := open(t, 80, 24, spool)
	g.Press("5")
	g.Says("no specification lies here: veilwright new --kind specification spec.toml makes one")
	g.Press(keys.Esc)
	// One that cannot be used is read again once it is put right.
	g.Write("spec.toml", "document = \"specification\"\nformat = 1\nnonsense = 2\n")
	g.Press("5", "1")
	g.Says("nonsense")
	g.Write("spec.toml", "document = \"specification\"\nformat = 1\ntitle = \"day tank\"\n")
	g.Press(keys.Enter)
	g.Says("compared with spec.toml")
}

// The keypad's way: 1 the readings, 4 Barcol, value Enter value Enter. By hand:
// of 28 30 31 33 34 35 36 37 39 52 the two at each end go, the rest average 34⅓.
func TestReadings_moveMeanAndVerdictAfterEach(t *testing.T) {
	g := compared(t, 80, 24, "incomplete")
	g.Press("1", "4")
	g.Typed("28", "30", "31", "33", "34", "35", "36", "37", "39")
	g.Shows("9 readings", "? incomplete")
	g.Typed("52")
	g.Shows("10 readings", "34.3", "✓ meets")
	g.Typed("abc")
	g.Says("0 to 100")
	g.Press(keys.Esc)
	g.Says("Esc once more")
	g.Press(keys.Esc, keys.Esc)
	text, err := os.ReadFile(g.Path("acid-spool-incomplete.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, torn, problems := schedules.DecodeRecord(text)
	if torn != "" || len(problems) > 0 || len(r.Readings) != 10 {
		t.Fatalf("on disk: %q %v", torn, problems)
	}
}

func TestReadings_everyKindReachesTheRecordInAnyUnit(t *testing.T) {
	g := compared(t, 100, 30, "incomplete")
	g.Press("1", "2") // the barrier
	g.Typed("2,8 mm", "110")
	g.Press(keys.Enter, "5", "2") // ignition, of the barrier
	g.Typed("5.02", "1.31", "0.005 kg", "1.3 g")
	g.Typed("5", "6")
	g.Says("above the mass before")
	g.Press(keys.Esc, keys.Esc, keys.Esc, "6", "2", keys.Enter) // acetone: tacky
	g.Press(keys.Enter, "7")
	g.Typed("2 Gohm")
	g.Press("down")
	g.Typed("flange", "3")
	list := g.Records.Record().Now().Readings
	want := []struct {
		kind  inspection.Kind
		group inspection.Group
		text  string
	}{
		{inspection.WallThickness, inspection.Barrier, "2.8 mm"}, {inspection.WallThickness, inspection.Barrier, "110 mil"},
		{inspection.IgnitionLoss, inspection.Barrier, "5.02 g → 1.31 g, loss 73.9 %"}, {inspection.IgnitionLoss, inspection.Barrier, "0.005 kg → 1.3 g, loss 74 %"},
		{inspection.Acetone, inspection.WholeWall, "acetone softened"},
		{inspection.ResistanceToGround, inspection.WholeWall, "2 Gohm"}, {inspection.ResistanceToGround, inspection.WholeWall, "3 Mohm"},
	}
	if len(list) != len(want) {
		t.Fatalf("%d readings, want %d", len(list), len(want))
	}
	for i, w := range want {
		r := &list[i]
		if r.Kind != w.kind || r.Group != w.group || g.Page.value(r) != w.text {
			t.Errorf("reading %d: %s %s %q", i+1, r.Kind, r.Group, g.Page.value(r))
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
	g := compared(t, 80, 24, "incomplete")
	g.Press("1", "1")
	g.Shows("7 states the ply-to-ply scatter")
	g.Press(keys.Esc, keys.Esc, "7")
	g.Typed("x")
	g.Says("percent")
	g.Press(keys.Delete)
	g.Typed("8", "2")
	g.Press("1", "1")
	g.Shows("236.2 ± 10.7 mil: 95 of 100, independent plies, as stated")
	g.Press(keys.Esc, keys.Esc, "down")
	g.Shows("independently", "±8 %", "±2 points")
	g.Press("1", "1")
	g.Typed("236")
	if strings.Contains(g.Desk.Notice.Text, "OUTSIDE THE EXPECTED RANGE") {
		t.Errorf("the computed thickness is odd: %s", g.Desk.Notice.Text)
	}
	g.Typed("310")
	g.Says("OUTSIDE THE EXPECTED RANGE")
}

func TestDefect_isJudgedAtOnce(t *testing.T) {
	g := compared(t, 80, 24, "accept")
	g.Press("2", keys.Enter)
	g.Says("kind")
	g.Press("1")
	g.Shows("at most 1/8 in")
	g.Press(keys.Enter, "1", keys.Enter)
	g.Typed("0.3", "", "0")
	g.Says("count")
	g.Press(keys.Delete)
	g.Typed("2", "", "ring 2", "")
	g.Says("pit 0.3 in ×2 at ring 2", "reject")
	if d := g.Records.Record().Now().Defects; len(d) != 2 || d[1].Repaired || d[1].Depth.Given() {
		t.Errorf("defects: %+v", d)
	}
}

func TestSign_needsAReasonAgainstTheVerdict(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.Press("3")
	g.Shows("REJECT")
	g.Press(keys.Enter)
	g.Says("somebody decides")
	g.Press("1", keys.Enter)
	for range "Q. Two" {
		g.Press(keys.Backspace)
	}
	g.Press(keys.Enter)
	g.Says("who?")
	g.Typed("inspector two", "", "")
	g.Says("needs a reason")
	g.Typed("pit ground out")
	g.Says("signed", "accept")
	d := g.Records.Record().Now().Decisions
	if n := len(d); n != 2 || d[1].Outcome != record.Accept || d[1].Why != "pit ground out" || d[1].At.IsZero() {
		t.Errorf("decisions: %+v", d)
	}
}

func TestEntries_areStruckNotEdited(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	n := len(g.Records.Record().Entries())
	g.Press("4")
	g.Shows("none can be changed")
	for _, c := range "pit" {
		g.Press(string(c))
	}
	g.Press(keys.Enter, keys.Enter)
	g.Says("reason")
	g.Typed("ground out, laid over")
	g.Says("struck entry", "reject")
	now := g.Records.Record()
	if len(now.Entries()) != n+1 || !now.Now().Defects[0].Struck || now.Now().Defects[0].Size.Text() != "1/4 in" {
		t.Errorf("after the strike: %d entries, %+v", len(now.Entries()), now.Now().Defects[0])
	}
	g.Press("4", "1")
	if !g.Desk.Notice.Refusal || len(g.Records.Record().Entries()) != n+1 {
		t.Errorf("a strike was struck: %s", g.Desk.Notice.Text)
	}
}

func TestFiles_chooseAndBegin(t *testing.T) {
	g := open(t, 110, 24, spool, demands, "records/acid-spool-torn.toml", "records/acid-spool-accept.toml")
	if g.Press("1"); !strings.Contains(g.Desk.Notice.Text, "no record") {
		t.Errorf("readings without a record: %q", g.Desk.Notice.Text)
	}
	g.Press("5") // there is one beside the schedule
	g.Shows("against S-204 B Acid drain headers")
	g.Press("5") // taken already: another one may be meant
	g.Shows("acid-drain.toml", "S-204 B")
	g.Press("1")
	g.Shows("against S-204 B Acid drain headers")
	g.Press("6")
	g.Shows("start a new record", "accepted", "half-written")
	g.Press("1") // it is not finished, and first
	g.Says("recovered", "cut short")
	g.Press("6", "2")
	g.Typed("K-402-8")
	g.Shows("pipe-wound-acid-spool-record-1.toml")
	g.Press(keys.Enter)
	g.Says("begun")
	if r := g.Records.Record(); r == nil || r.Now().Serial != "K-402-8" || r.Now().ScheduleSHA256 != g.Records.Sum() {
		t.Errorf("begun: %+v", g.Records.Record())
	}
	g.Press("6", "3")
	g.Shows("record-2.toml")
	g.Press(keys.Esc)
	if !g.Press(keys.Esc) {
		t.Error("Esc does not lead back")
	}
}

func TestRecord_ofAnotherScheduleIsSaid(t *testing.T) {
	g := open(t, 80, 24, brine, demands, "records/acid-spool-accept.toml")
	g.Press("6")
	g.Shows("another schedule")
	g.Press("2")
	if !g.Desk.Notice.Refusal {
		t.Errorf("opened silently: %s", g.Desk.Notice.Text)
	}
	g.Shows("✗ the record is of another schedule", "FAILS")
}

// Whatever is typed on whatever screen, nothing panics and no line is too long.
func TestPage_standsAnyKeyAtAnySize(t *testing.T) {
	g := compared(t, 80, 24, "incomplete")
	names := []string{"1", "2", "3", "4", "5", "6", "7", "8", "0", "n", "k", "j", "x", ".", "-", "é", keys.Enter, keys.Esc, keys.Up, keys.Down,
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

// A line of the page is a row of the sheet that compare prints, cell by cell.
func TestTable_showsTheCellsOfTheSheet(t *testing.T) {
	for _, what := range []string{"accept", "reject", "incomplete"} {
		g := compared(t, 400, 160, what)
		screen := strings.Join(strings.Fields(g.Screen()), " ")
		rows := 0
		for _, b := range paper.Compare(paper.Compared{}, g.Page.result, g.Desk.Report()) {
			table, ok := b.(paper.Table)
			if !ok {
				continue
			}
			for _, r := range table.Rows {
				rows++
				verdict := r.Cells[0]
				if verdict == acceptance.Fails.String() {
					verdict = strings.ToUpper(verdict)
				}
				want := strings.Join(strings.Fields(strings.Join([]string{verdict, r.Cells[2], r.Cells[3], r.Cells[4]}, " ")), " ")
				if !strings.Contains(screen, want) {
					t.Errorf("%s: the page does not show %q:\n%s", what, want, g.Screen())
				}
			}
		}
		if rows == 0 {
			t.Errorf("%s: the sheet has no lines", what)
		}
	}
}

// A rejected part is retested: the first readings and the rejection stay, and
// what comes later is judged.
func TestDisposition_retestAndConcessionByKeys(t *testing.T) {
	g := compared(t, 80, 24, "reject")
	g.Press("8")
	g.Shows("which nonconformance?", "requirement inspection.barcol")
	g.Press("1")
	for range "Q. Two" {
		g.Press(keys.Backspace)
	}
	g.Typed("B. Lee")
	for range "inspector" {
		g.Press(keys.Backspace)
	}
	g.Typed("foreman")
	g.Says("only the purchaser")
	for range "foreman" {
		g.Press(keys.Backspace)
	}
	g.Typed("purchaser", "covered by the saddle")
	g.Says("recorded as entry", "use-as-is")
	g.Page.Settle()
	for _, r := range g.Page.rows {
		if r.Key == "inspection.barcol" && (r.Verdict != acceptance.Meets || !strings.Contains(r.Found, "conceded in entry")) {
			t.Errorf("%s: %s", r.Verdict, r.Found)
		}
	}
	g.Press("1", "8")
	g.Shows("examination by eye")
	g.Typed("ring 1", "", "", "", "")
	g.Says("recorded as entry", "examined")
}

// What a reading brings with it stands where the reading is entered.
func TestReadings_sayWhatCanHurt(t *testing.T) {
	for digit, label := range map[string]string{"6": "no flame, no spark", "8": "gas test", "2": "dust extraction"} {
		g := compared(t, 80, 24, "accept")
		g.Press("1", digit)
		if !strings.Contains(strings.ToLower(g.Screen()), label) {
			t.Errorf("%s: no caution with %q:\n%s", digit, label, g.Screen())
		}
	}
}

// 0.24 among mils is 0.24 in, as the schedule's 236 mil have it, until a unit says otherwise.
func TestReadings_aThicknessInTheWrongUnitIsAskedAbout(t *testing.T) {
	g := compared(t, 80, 24, "accept")
	n := len(g.Records.Record().Now().Readings)
	g.Press("1", "1")
	g.Typed("0.24")
	g.Says("0.24 mil, where the schedule computes 236.2 mil? + 0.24 mil, as typed   * 0.24 in")
	g.Press(keys.Enter)
	if len(g.Records.Record().Now().Readings) != n {
		t.Fatal("recorded before it was answered")
	}
	g.Press("*")
	if l := g.Records.Record().Now().Readings; len(l) != n+1 || l[n].Thickness.Text() != "0.24 in" {
		t.Errorf("%d readings, the last %+v", len(l)-n, l[len(l)-1])
	}
}

// A revision in mid-job is an entry by somebody named, not a trick.
func TestRevision_isTakenUpByEntryWithAReason(t *testing.T) {
	g := open(t, 100, 30, spool)
	g.Press("6", "1")
	g.Typed("K-402-9", "")
	if g.Press("0"); !g.Desk.Notice.Refusal {
		t.Fatal("the record's own schedule was taken up")
	}
	path := g.Desk.Doc.Path()
	g.Desk.Row = 1
	if !g.Desk.Apply(edit.Duplicate(g.Desk.Doc.Now(), g.Desk.Doc.Library(), 1)) {
		t.Fatal(g.Desk.Notice.Text)
	}
	if g.Press("0"); !strings.Contains(g.Desk.Notice.Text, "saved") {
		t.Errorf("what is not saved was taken up: %s", g.Desk.Notice.Text)
	}
	if err := g.Desk.Doc.Save(); err != nil {
		t.Fatal(err)
	}
	g.Shows("✗ the record is of another schedule")
	g.Press("0", keys.Enter)
	g.Says("answered for")
	g.Typed("one more mat, drawing 7")
	g.Says("taken up from ply 1 on")
	if r := g.Records.Record().Now(); len(r.Revisions) != 1 || r.Revisions[0].Fingerprint != g.Records.Fingerprints().Schedule || r.Revisions[0].Who == "" || g.Records.Foreign() != "" {
		t.Errorf("%s: %+v", path, r.Revisions)
	}
}

// The rest of the part by keys: a test with gas is refused with the reason, and
// what can hurt stands where it is entered.
func TestPart_theRestIsEnteredByKeys(t *testing.T) {
	g := compared(t, 100, 36, "incomplete")
	pick := func(further int) {
		g.Press("1")
		for range 8 + further {
			g.Press(keys.Down)
		}
		g.Press(keys.Enter)
	}
	pick(0)
	g.Press("1", keys.Enter)
	g.Typed("24.02", "end A", "T-7", "")
	g.Says("inside diameter: 24.02 in at end A")
	pick(1)
	if !strings.Contains(strings.ToLower(g.Screen()), "water") {
		t.Errorf("no caution:\n%s", g.Screen())
	}
	for range "water" {
		g.Press(keys.Backspace)
	}
	g.Typed("air")
	g.Says("never with gas")
	for range "air" {
		g.Press(keys.Backspace)
	}
	g.Typed("water", "75", "30", "0", "G-12", "P. One")
	g.Says("hydrotest: 75 psi held 30 min, 0 leaks")
	pick(3)
	g.Typed("180", "4 h", "", "")
	g.Says("post-cure: 180 degF held 4 h")
	pick(2)
	g.Typed("barrier complete")
	g.Press("1", keys.Enter)
	g.Typed("", "", "")
	g.Says("hold point barrier complete: passed")
	pick(4)
	g.Typed("G-12", "pressure gauge", "2026-01-15", "2026-01-14")
	g.Says("before the calibration")
	for range "2026-01-14" {
		g.Press(keys.Backspace)
	}
	g.Typed("2027-01-15")
	g.Says("instrument G-12, calibrated 2026-01-15")
	pick(5)
	g.Typed("J1")
	g.Press("1", keys.Enter)
	g.Typed("36 grit", "")
	g.Says("face of J1: abraded, 36 grit")
	pick(6)
	g.Typed("J1", "2126-01-01 08:00")
	g.Says("later than now")
	for range "2126-01-01 08:00" {
		g.Press(keys.Backspace)
	}
	g.Typed("2020-01-01 08:00", "B. One", "list 4", "")
	g.Says("bond onto J1, B. One")
	now := g.Records.Record().Now()
	if len(now.Preparations) != 1 || len(now.Bonds) != 1 || now.Bonds[0].Qualification != "list 4" {
		t.Errorf("bonds: %+v", now.Bonds)
	}
	if len(now.Dimensions) != 1 || len(now.Hydrotests) != 1 || len(now.PostCures) != 1 || len(now.Holds) != 1 || len(now.Instruments) != 1 || len(now.Trail.Breaks) > 0 {
		t.Errorf("%+v", now.Trail)
	}
}
