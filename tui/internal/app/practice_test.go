package app

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/progress"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// learning opens the program on the practice page, for a person with a name.
func learning(t testing.TB, w, h int, own ...*exercise.Exercise) *rig {
	t.Helper()
	text := strings.Replace(empty, "[[resin]]", "[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"barrier\"\n[[resin]]", 1)
	d, err := editor.FromBytes("new schedule", []byte(text), none)
	if err != nil {
		t.Fatal(err)
	}
	o := options(draw.Mono)
	o.Page, o.Person, o.Exercises = "practice", "Ada", own
	r := New(d, o)
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, w, h)
	return &rig{t, r}
}

func builtIn(t testing.TB, id string) *exercise.Exercise {
	t.Helper()
	list, problems := schedules.Exercises()
	i := slices.IndexFunc(list, func(e *exercise.Exercise) bool { return e.ID == id })
	if i < 0 {
		t.Fatal(id, problems)
	}
	return list[i]
}

// written is everything a schedule says of its plies and resins.
func written(s *laminate.Schedule) string {
	var out []string
	for _, p := range s.Plies {
		p.Origin = 0
		out = append(out, fmt.Sprint(p))
	}
	for _, r := range s.Resins {
		r.Origin = 0
		out = append(out, fmt.Sprint(r))
	}
	return strings.Join(out, "\n")
}

// The keys of README, and every other key that builds, do the same in an
// exercise as on the bench, from the same wall.
func TestPractice_sameKeysSameWall(t *testing.T) {
	e := builtIn(t, "a1-cool-brine")
	for _, keys := range []string{
		"1 3 + .",
		"1 3 + . 3 5 3 5 3",
		"1 3 + . * 3 + enter u y u",
		"1 3 = t 2 right enter",
		"1 3 + . home r 2 enter r 3 . x d - delete",
		"1 3 g down down enter home g end g end",
		"0 c a r b o n enter down 0 esc 9 8 7 6 5 4 2",
		"1 enter down down 9 enter enter up 2 1 enter",
		"3 up up 1 down + + + - pgdown pgup end . . u u u u u y y",
		"1 3 + . j up 2 esc home enter down down 2 enter",
	} {
		t.Run(keys, func(t *testing.T) {
			state(t)
			walls := map[string]string{}
			for _, size := range [][2]int{{80, 24}, {120, 36}} {
				g := learning(t, size[0], size[1]).press("1 1 home up")
				g.press(keys)
				walls["practice"] = written(g.r.here().Doc.Now())
				g.wants("mat-1.5").esc()
				b := fresh(t, string(schedules.New(&e.Given).Render(&e.Given)), size[0], size[1]).press("home up")
				b.press(keys)
				walls["bench"] = written(b.r.Document().Now())
				if walls["practice"] != walls["bench"] {
					t.Errorf("in the exercise\n%s\non the bench\n%s", walls["practice"], walls["bench"])
				}
			}
		})
	}
}

// Barriers that need more than plies are built in an exercise as anywhere: the
// facts add a resin, the open row takes it. Carbon veil and powder where vapors
// burn; hard grain against wear; amine cure and a double barrier for
// hypochlorite (common practice, no source).
func TestPractice_barriersWithAResinOfTheirOwn(t *testing.T) {
	// The last line of the facts adds a resin; its family, cure, filler and share follow.
	for id, keys := range map[string]string{
		"e1-solvent-drain": "0 c a r b o n enter 3 + . j up 5 down down 3 down 5 enter esc",
		"e2-grit-line":     "1 3 + . j up 5 down down 1 down 3 5 enter esc",
		"e3-bleach-header": "1 + 3 + + + . j up 5 down 2 esc",
	} {
		t.Run(id, func(t *testing.T) {
			state(t)
			e := builtIn(t, id)
			n := string(e.ID[1])
			g := learning(t, 80, 24).press(fmt.Sprint(e.Step) + " " + n + " " + keys)
			own := g.r.here()
			for row := range own.Doc.Now().Plies {
				if zone := own.Report().Analysis.Rows[row].Zone; zone.InBarrier() {
					own.Go(row)
					g.press(fmt.Sprintf("enter down down %d enter", len(own.Doc.Now().Resins)))
				}
			}
			g.press("c").shows("mastered")
		})
	}
}

// The document that was open is not touched by anything typed in an exercise,
// and what is typed while leaving lands on no rack.
func TestPractice_neverTouchesTheOpenDocument(t *testing.T) {
	state(t)
	g := learning(t, 80, 24)
	if err := g.r.Document().Apply(edit.AddCount(g.r.Document().Now(), g.r.Document().Library(), 0, 1)); err != nil {
		t.Fatal(err)
	}
	before := written(g.r.Document().Now())
	for _, keys := range []string{
		"1 1 1 3 + . u y j up 5 esc s a o tab i x c esc esc esc 1 3 + . 5 5",
		"esc esc esc esc esc 1 esc esc 1 esc 3 5 7 9 + - x d",
		"1 4 1 3 enter 1 c n 1 2 3 esc esc esc esc 5 3",
		"1 1 c u u esc u esc u u y",
	} {
		g.press(keys)
		if now := written(g.r.Document().Now()); now != before || !g.r.Document().CanUndo() {
			t.Fatalf("after %s the document is\n%s", keys, now)
		}
		for range 6 {
			g.esc()
		}
		if g.r.pages[g.r.at].Name() != "practice" {
			t.Fatalf("after %s and Esc the page is %s", keys, g.r.pages[g.r.at].Name())
		}
	}
}

// What is about files says in an exercise why it does not act.
func TestPractice_filesWaitUntilTheExerciseIsLeft(t *testing.T) {
	state(t)
	g := learning(t, 80, 24).press("1 1 3")
	for _, key := range []string{"s", "a", "o", "tab"} {
		g.press(key).shows("an exercise is open: c hands it in")
	}
	g.press("?").shows("hand the answer in", "add a ply from the rack").press("end").shows("back to the shell")
}

// There is a way out of every state: Esc, pressed often enough, ends on the
// steps of the course, whatever was typed before, a percentage that is none too.
func TestPractice_escLeadsOutOfEverything(t *testing.T) {
	for _, keys := range []string{
		"1 1 j up 5 up x x esc", "1 1 1 enter down x x", "1 1 0 q q q", "1 1 1 r 0 z z", "1 1 1 *", "1 1 1 g down", "1 1 w", "1 1 c v",
		"1 6 1 x x", "1 6 2 x x enter", "1 2", "1 4 1 enter 3", "1 5 4 6", "g", "w z z",
	} {
		state(t)
		g := learning(t, 80, 24).press(keys)
		for range 6 {
			g.esc()
		}
		if name := g.r.name(); name != "PRACTICE" || g.r.over() != nil || g.r.here() != g.r.desk {
			t.Errorf("after %s: %s\n%s", keys, name, g.screen())
		}
	}
}

// What was said on one screen of the page is gone on another.
func TestPractice_noticesStayOnTheirScreen(t *testing.T) {
	state(t)
	g := learning(t, 80, 24).press("1 1 3").esc()
	g.shows("left the exercise").esc()
	if strings.Contains(g.screen(), "left the exercise") {
		t.Errorf("it is said on the list of steps too:\n%s", g.screen())
	}
}

// Repeating the last rows begins with as many as there are up to the row.
func TestTimes_onPlyOneTheLastRowIsOne(t *testing.T) {
	header(t, 80, 24).press("home down up *").shows("the last 1 row up to")
}

// Typed ahead in one read is the same as typed one by one.
func TestPractice_gluedKeysAreSingleKeys(t *testing.T) {
	walls := map[bool]string{}
	for _, glued := range []bool{true, false} {
		state(t)
		g := learning(t, 80, 24)
		keys := "1113+.35*3u"
		if glued {
			tuitest.Press(t, g.r, keys)
		} else {
			g.press(strings.Join(strings.Split(keys, ""), " "))
		}
		walls[glued] = written(g.r.here().Doc.Now())
	}
	if walls[true] != walls[false] {
		t.Errorf("in one read\n%s\none by one\n%s", walls[true], walls[false])
	}
}

// When the program ends it lets go of an answer that is not marked: it is on the disk,
// nothing writes any more, and the next start has it.
func TestEnd_letsGoOfTheAnswerThatIsNotMarked(t *testing.T) {
	state(t)
	g := learning(t, 80, 24)
	g.press("1 1 1 3")
	if err := g.r.Close(); err != nil {
		t.Fatal(err)
	}
	d, err := progress.OpenDraft("Ada", "a1-cool-brine")
	if err != nil {
		t.Fatal(err)
	}
	if a, _, ok := d.Left(); !ok || a.Schedule == nil {
		t.Errorf("%+v", a)
	}
}
