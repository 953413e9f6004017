package page

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

// opened is a page with something open over it.
type opened struct {
	Base
	desk *Desk
}

func (*opened) Lines() []string { return nil }

func over(o Overlay) *opened {
	d := &Desk{Theme: draw.New(draw.Mono)}
	p := &opened{NewBase("page", d), d}
	p.SetSize(62, 18)
	p.Open(o)
	return p
}

// press types keys into what is open and tells whether something still is.
func (p *opened) press(names ...string) bool {
	for _, e := range tuitest.Events(names...) {
		if p.Over() == nil {
			return false
		}
		_, why := keys.Press(e, p.Over().Table())
		p.Settle()
		if why != "" {
			p.desk.Refuse(why)
		}
	}
	return p.Over() != nil
}

// log is a form of two needed lines and one that is kept.
func log() (*Form, *[]string) {
	var taken []string
	a, b, kept := &Field{Label: "a"}, &Field{Label: "b"}, &Field{Label: "kept"}
	f := &Form{Fields: []*Field{a, b, kept}, Needs: 2, EmptyEnds: true, Again: true}
	f.Check = func(i int) error {
		if f.Fields[i].Text == "bad" {
			return errors.New(f.Fields[i].Label + " is bad")
		}
		return nil
	}
	f.Take = func() error {
		if b.Text == "full" {
			return errors.New("no room")
		}
		taken = append(taken, a.Text+" "+b.Text+" "+kept.Text)
		return nil
	}
	return f, &taken
}

func TestForm_valueEnterValueEnter(t *testing.T) {
	f, taken := log()
	p := over(f)
	p.press("1", keys.Enter, "2", keys.Enter, keys.Down, keys.Down, "k", keys.Enter, "3", keys.Enter, "4", keys.Enter)
	if got := strings.Join(*taken, ", "); got != "1 2 , 3 4 k" {
		t.Errorf("taken: %s", got)
	}
	if p.press(keys.Enter) {
		t.Error("Enter in an empty first line goes on")
	}
}

func TestForm_staysWhereSomethingIsWrong(t *testing.T) {
	f, taken := log()
	p := over(f)
	p.press("bad", keys.Enter)
	if f.At != 0 || p.desk.Notice.Text != "a is bad" {
		t.Errorf("at line %d: %q", f.At, p.desk.Notice.Text)
	}
	// Gone past by the arrows it is found when the form is taken.
	p.press(keys.Down, "2", keys.Enter)
	if f.At != 0 || len(*taken) != 0 {
		t.Errorf("at line %d, taken %q", f.At, *taken)
	}
	p.press("1", keys.Enter, "full", keys.Enter)
	if f.At != 1 || f.Fields[1].Text != "full" || p.desk.Notice.Text != "no room" {
		t.Errorf("at line %d: %q", f.At, p.desk.Notice.Text)
	}
}

func TestForm_escDropsWhatIsTypedOnlyTheSecondTime(t *testing.T) {
	f, _ := log()
	if !over(f).press("1", keys.Esc) {
		t.Error("dropped at once")
	}
	f, _ = log()
	// The second in a row drops the line alone, and what was filled in before it stands.
	p := over(f)
	p.press("1", keys.Enter)
	if !p.press("2", keys.Esc, "2", keys.Esc, keys.Esc) || f.At != 1 || f.Fields[1].Text != "" || f.Fields[0].Text != "1" {
		t.Errorf("at line %d, %q and %q", f.At, f.Fields[0].Text, f.Fields[1].Text)
	}
	if !strings.Contains(p.desk.Notice.Text, "Esc leaves, and drops the lines that are filled in") {
		t.Errorf("it says %q", p.desk.Notice.Text)
	}
	// A key between asks anew, of the others too.
	if !p.press(keys.Up, keys.Down, keys.Esc) || !strings.Contains(p.desk.Notice.Text, "Esc once more leaves, and drops all of it") || p.press(keys.Esc) {
		t.Errorf("it says %q", p.desk.Notice.Text)
	}
	f, _ = log()
	if over(f).press(keys.Esc) {
		t.Error("nothing was typed and it stays")
	}
}

// What is typed after a refusal replaces what was refused, and is not added to it.
func TestForm_whatIsTypedReplacesWhatWasRefused(t *testing.T) {
	f, taken := log()
	p := over(f)
	p.press("bad", keys.Enter, "1", keys.Enter, "full", keys.Enter, keys.Esc, "2", keys.Enter)
	if got := strings.Join(*taken, ", "); got != "1 2 " {
		t.Errorf("taken %q, %q", got, p.desk.Notice.Text)
	}
}

func TestForm_eachLineIsTakenWhenItIsLeft(t *testing.T) {
	var said []string
	f := &Form{Fields: []*Field{{Section: "one", Label: "name"}, {Label: "kind", Choices: []string{"pipe", "duct"}}, {Section: "two", Label: "size"}}}
	f.Each = func(i int) error {
		if f.Fields[i].Text == "bad" {
			return errors.New("bad")
		}
		said = append(said, f.Fields[i].Label+" "+f.Fields[i].Text)
		return nil
	}
	p := over(f)
	p.press("bad", keys.Enter)
	if f.At != 0 || p.desk.Notice.Text != "bad" {
		t.Errorf("at line %d: %q", f.At, p.desk.Notice.Text)
	}
	p.press(keys.Delete, "x", keys.Enter, "2", keys.PgDown, "3", keys.PgUp)
	if got := strings.Join(said, ", "); got != "name x, kind duct, size 3" || f.At != 0 {
		t.Errorf("taken %s, at line %d", got, f.At)
	}
}

// Who was warned that Enter takes what is typed has not taken it by an arrow.
func TestForm_afterTheWarningOnlyEnterTakes(t *testing.T) {
	for _, key := range []string{keys.Down, keys.Up, keys.Tab, keys.PgDown, keys.PgUp} {
		taken := 0
		f := &Form{Fields: []*Field{{Section: "one", Label: "name"}, {Section: "two", Label: "size"}}}
		f.Each = func(int) error { taken++; return nil }
		p := over(f)
		if !p.press("x", keys.Esc, key) || taken != 0 || f.At != 0 || !p.desk.Notice.Refusal {
			t.Errorf("%s after the warning: %d taken, at line %d, %+v", key, taken, f.At, p.desk.Notice)
		}
		if !p.press(keys.Esc) || taken != 0 || f.Fields[0].Text != "" || p.press(keys.Esc) {
			t.Errorf("%s: Esc once more does not drop it", key)
		}
		p = over(f)
		if p.press("y", keys.Esc, keys.Enter); taken != 1 {
			t.Errorf("Enter after the warning takes %d", taken)
		}
	}
}

func TestForm_everyLineCanBeSeen(t *testing.T) {
	f := &Form{}
	for _, c := range "abcdefgh" {
		f.Fields = append(f.Fields, &Field{Label: "line " + string(c)})
	}
	p := over(f)
	for i := range f.Fields {
		for _, h := range []int{1, 2, 5, 20} {
			f.SetSize(40, h)
			f.Settle()
			lines := f.Lines()
			tuitest.Box(t, lines, 40, h)
			if !strings.Contains(draw.Join(lines), f.Fields[i].Label) {
				t.Errorf("%s is not on %d lines", f.Fields[i].Label, h)
			}
		}
		p.press(keys.Down)
	}
}

func some() []Item {
	return []Item{{Name: "veil-c-10"}, {Name: "veil-c-15"}, {Name: "mat-0.75"}, {Name: "mat-1.0"}, {Name: "mat-1.5"}, {Name: "woven-24", Why: "none in the shop"}}
}

func TestList_digitsPickUntilSomethingIsTyped(t *testing.T) {
	for _, tc := range []struct {
		keys []string
		want string
	}{
		{[]string{"2"}, "veil-c-15"},
		{[]string{keys.Enter}, "veil-c-10"},
		{[]string{keys.Down, keys.Down, keys.Enter}, "mat-0.75"},
		{[]string{keys.Up, keys.Up, keys.Enter}, "mat-1.5"}, // round and round
		{[]string{"veil-c-15", keys.Enter}, "veil-c-15"},
		{[]string{"mat-0.75", keys.Enter}, "mat-0.75"},
		{[]string{"m1", keys.Enter}, "mat-1.0"},
		{[]string{"m1", keys.Esc, "1"}, "veil-c-10"}, // the letters are forgotten
		{[]string{"6"}, "refused: none in the shop"},
		{[]string{"9"}, "refused: no row has the number 9"},
		{[]string{"zz", keys.Enter}, "refused: nothing matches"},
		{[]string{keys.Esc}, "left"},
		{[]string{"mat", keys.Esc, keys.Esc}, "left"},
	} {
		got := ""
		l := &List{Find: "name", Items: some(), Leave: func() { got = "left" }}
		l.Take = func(i int) error { got = l.Items[i].Name; return nil }
		p := over(l)
		if p.press(tc.keys...) {
			got = "refused: " + p.desk.Notice.Text
		}
		if !strings.HasPrefix(got, tc.want) {
			t.Errorf("%q: %s, want %s", tc.keys, got, tc.want)
		}
	}
}

func TestList_aDigitThatBeginsANameNarrowsToIt(t *testing.T) {
	l := &List{Find: "open", Items: []Item{{Name: ".."}, {Name: "24-inch.toml"}, {Name: "drain.toml"}, {Name: "header.toml"}}}
	taken := ""
	l.Take = func(i int) error { taken = l.Items[i].Name; return nil }
	p := over(l)
	screen := tuitest.Box(t, l.Lines(), l.w, l.h)
	if strings.Contains(screen, "2 24-inch") || !strings.Contains(screen, "3 drain") {
		t.Errorf("numbers are drawn beside rows that they do not take, or not beside those that they do:\n%s", screen)
	}
	if !p.press("24") || l.Pointed() != 1 {
		t.Fatalf("24 points at %d, with %q taken", l.Pointed(), taken)
	}
	if p.press(keys.Esc, keys.Home, "4"); taken != "header.toml" {
		t.Errorf("4 takes %q", taken)
	}
}

// Any name can be typed from the beginning, and a digit that is drawn beside a
// row takes that row, whatever was pressed before.
func TestList_anyNameCanBeTypedAndAnyNumberDrawnTakesItsRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var items []Item
		for _, name := range rapid.SliceOfNDistinct(rapid.StringMatching(`[0-9a-c][0-9a-c.-]{0,4}`), 1, 12, rapid.ID[string]).Draw(t, "names") {
			items = append(items, Item{Name: name})
		}
		taken := -1
		l := &List{Find: "open", Items: items, Take: func(i int) error { taken = i; return nil }}
		p := over(l)
		l.SetSize(62, rapid.IntRange(2, 18).Draw(t, "height"))
		for _, k := range rapid.SliceOfN(rapid.SampledFrom([]string{keys.Up, keys.Down, keys.PgDown, "a", "-", keys.Backspace}), 0, 12).Draw(t, "keys") {
			p.press(k)
		}
		for n, line := range strings.Split(tuitest.Box(t, l.Lines(), l.w, l.h), "\n")[1:] {
			fields := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), draw.Pointer))
			if len(fields) < 2 || fields[0] != strconv.Itoa(n+1) {
				continue
			}
			if rapid.Bool().Draw(t, "try") {
				if p.press(fields[0]); taken < 0 || items[taken].Name != fields[1] {
					t.Fatalf("%s stands beside %s and takes %d of %v", fields[0], fields[1], taken, items)
				}
				return
			}
		}
		if !l.query.Empty() {
			p.press(keys.Esc)
		}
		name := rapid.SampledFrom(items).Draw(t, "typed").Name
		if p.press(name); taken >= 0 || l.query.Text() != name {
			t.Fatalf("typing %s takes %d, with %q typed", name, taken, l.query.Text())
		}
		if p.press(keys.Enter); taken < 0 || items[taken].Name != name {
			t.Fatalf("typing %s and Enter takes %d of %v", name, taken, items)
		}
	})
}

// Where nothing may be taken for granted Enter takes nothing before a row is
// pointed at.
func TestList_withNothingPointedAt(t *testing.T) {
	taken := -1
	l := &List{Items: some(), At: -1, Take: func(i int) error { taken = i; return nil }}
	p := over(l)
	if !p.press(keys.Enter) || taken != -1 || !p.desk.Notice.Refusal {
		t.Errorf("taken %d: %+v", taken, p.desk.Notice)
	}
	if p.press(keys.Down, keys.Enter) || taken != 0 {
		t.Errorf("taken %d", taken)
	}
}

func TestList_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &List{Items: some()[:rapid.IntRange(0, 6).Draw(t, "n")], Take: func(int) error { return ErrStay }}
		if rapid.Bool().Draw(t, "find") {
			l.Find = "name"
		} else {
			l.Text = "Which of them?"
		}
		p := over(l)
		w, h := rapid.IntRange(1, 200).Draw(t, "w"), rapid.IntRange(1, 60).Draw(t, "h")
		l.SetSize(w, h)
		for _, k := range rapid.SliceOfN(rapid.SampledFrom([]string{"v", "1", "5", "-", keys.Up, keys.Down, keys.PgDown, keys.Backspace, keys.End}), 0, 20).Draw(t, "keys") {
			p.press(k)
		}
		screen := tuitest.Box(t, l.Lines(), w, h)
		if l.Pointed() >= 0 && h > 4 && w > 40 && !strings.Contains(screen, draw.Pointer) {
			t.Fatalf("the row pointed at is not drawn:\n%s", screen)
		}
	})
}

func TestFiles_goThroughFoldersAndTakeOne(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "demands"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, b := range map[string]string{"other.toml": "no", "demands/rec-1.toml": "yes", "demands/rec-12.toml": "yes"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(b), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var taken []string
	f := &Files{Head: "which?", Look: func(_ string, b []byte) (Item, bool) { return Item{Note: "good"}, string(b) == "yes" }}
	f.Take = func(path string, _ int) error {
		if taken = append(taken, filepath.Base(path)); len(taken) == 1 {
			return errors.New("not that one")
		}
		return nil
	}
	d := &Desk{Theme: draw.New(draw.Mono)}
	l := f.List(d, dir)
	p := over(l)
	if screen := draw.Join(l.Lines()); strings.Contains(screen, "other") || !strings.Contains(screen, "demands") {
		t.Errorf("listed:\n%s", screen)
	}
	if !p.press("1", "1") || p.desk.Notice.Text != "not that one" {
		t.Errorf("taken %q: %q", taken, p.desk.Notice.Text)
	}
	// Its name has figures in it.
	if p.press("rec-12", keys.Enter) || taken[1] != "rec-12.toml" {
		t.Errorf("taken %q", taken)
	}
	l = f.List(d, filepath.Join(dir, "demands"))
	over(l).press(keys.Left)
	if f.folder != dir {
		t.Errorf("up leads to %s", f.folder)
	}
	l = f.List(d, t.TempDir())
	over(l)
	if s := draw.Join(l.Lines()); !strings.Contains(s, "folder above") {
		t.Errorf("an empty folder says:\n%s", s)
	}
}

// A note is said to its end while there is room below, and a row is where it is seen;
// in a room of as many lines as rows each row is one.
func TestList_saysNotesToTheirEndWhereThereIsRoom(t *testing.T) {
	l := &List{Items: []Item{
		{Name: "Route sheet", Note: "goes with the part from bench to bench until it is accepted"},
		{Name: "Release", Note: "as it stands now: papers say RELEASED until something is changed"},
		{Name: "Bill", Note: "glass and resin"},
	}, Take: func(int) error { return ErrStay }}
	over(l)
	l.SetSize(60, 9)
	if s := strings.Join(strings.Fields(draw.Join(l.Lines())), " "); strings.Contains(s, draw.Ellipsis) || !strings.Contains(s, "papers say RELEASED until something is changed") {
		t.Errorf("it says\n%s", draw.Join(l.Lines()))
	}
	for y, want := range []int{0, 0, 1, 1, 2} {
		if !l.Click(3, y) || l.Pointed() != want {
			t.Errorf("line %d points at row %d, want %d:\n%s", y, l.Pointed(), want, draw.Join(l.Lines()))
		}
	}
	if l.Click(3, 5) {
		t.Error("below the rows there is one")
	}
	l.SetSize(60, 3)
	if s := draw.Join(l.Lines()); !strings.Contains(s, "Bill") || !strings.Contains(s, draw.Ellipsis) {
		t.Errorf("in three lines:\n%s", s)
	}
	if !l.Click(3, 1) || l.Pointed() != 1 {
		t.Errorf("in three lines the second points at row %d", l.Pointed())
	}
}

// A text that goes on below says so.
func TestText_saysThatItGoesOn(t *testing.T) {
	x := &Text{Head: "text", Body: func(int) []string { return []string{"a", "b", "c"} }}
	p := over(x)
	x.SetSize(20, 2)
	if s := draw.Join(x.Lines()); !strings.HasSuffix(s, "▼") {
		t.Errorf("it says\n%s", s)
	}
	p.press(keys.End)
	if s := draw.Join(x.Lines()); strings.Contains(s, "▼") {
		t.Errorf("at its end\n%s", s)
	}
}

func TestText_isReadToItsEndAndNoFurther(t *testing.T) {
	var all []string
	for _, c := range "abcdefghijklmnopqrstuvwxyz" {
		all = append(all, "line "+string(c))
	}
	x := &Text{Head: "text", Body: func(int) []string { return all }}
	p := over(x)
	x.SetSize(20, 5)
	for range 9 {
		p.press(keys.PgDown)
	}
	if s := draw.Join(x.Lines()); !strings.Contains(s, "line z") || !strings.Contains(s, "line v") {
		t.Errorf("the end is\n%s", s)
	}
	p.press(keys.Up)
	if s := draw.Join(x.Lines()); !strings.Contains(s, "line u") || strings.Contains(s, "line z") {
		t.Errorf("a line back is\n%s", s)
	}
	all = all[:3] // what it says is less by now
	p.press(keys.Down)
	if s := draw.Join(x.Lines()); !strings.Contains(s, "line a") {
		t.Errorf("shorter it is\n%s", s)
	}
	if p.press(keys.Enter) {
		t.Error("Enter does not close it")
	}
}

// A letter that begins no choice is not passed over in silence.
func TestForm_saysThatNoChoiceBeginsSo(t *testing.T) {
	f := &Form{Fields: []*Field{{Label: "kind", Choices: []string{"pipe", "duct"}}, {Label: "size"}}}
	f.Each = func(int) error { return nil }
	p := over(f)
	if p.press("q"); !strings.Contains(p.desk.Notice.Text, `no choice begins with "q"`) {
		t.Errorf("%q", p.desk.Notice.Text)
	}
	if p.press(keys.Enter); f.At != 0 || !strings.Contains(p.desk.Notice.Text, `no choice begins with "q"`) {
		t.Errorf("Enter passes over it: line %d, %q", f.At, p.desk.Notice.Text)
	}
	if p.press("d", keys.Enter); f.Fields[0].Text != "duct" || f.At != 1 {
		t.Errorf("%q, at line %d", f.Fields[0].Text, f.At)
	}
}
