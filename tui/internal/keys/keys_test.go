package keys

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
)

func sample() Table {
	const build, find, everywhere = "Building", "Findings", "Everywhere"
	nothing := func(Event) {}
	return Table{
		{Keys: Digits(3), Show: "1-3", Short: "add", Long: "add the numbered material outward of the row", Group: build, Rank: 1, Do: nothing},
		{Keys: []string{"+", "=", "-"}, Show: "+-", Short: "count", Long: "one ply more or less in the row", Group: build, Rank: 2, Do: nothing},
		{Keys: []string{"f"}, Short: "fix", Long: "do what the finding says would fix it", Group: find, Rank: 3, Do: nothing},
		{Keys: []string{"n"}, Short: "next", Long: "go to the next finding and its ply", Group: find, Rank: 4, Do: nothing},
		{Keys: []string{"up"}, Long: "the row before", Group: build, Rank: 9, Do: nothing},
		{Keys: []string{"?"}, Short: "all", Long: "all keys", Group: everywhere, Do: nothing},
		{Keys: []string{"ctrl+z"}, Long: "back to the shell for a while", Group: everywhere, Rank: 9, Rare: true, Do: nothing},
	}
}

func TestCheck_findsEachMistake(t *testing.T) {
	if err := sample().Check(); err != nil {
		t.Fatalf("the sample: %v", err)
	}
	nothing := func(Event) {}
	for _, tc := range []struct {
		name string
		bad  Row
		want string
	}{
		{"same key twice", Row{Keys: []string{"f"}, Long: "x", Group: "x", Do: nothing}, `key "f" already does "do what the finding`},
		{"chord alone", Row{Keys: []string{"ctrl+s"}, Long: "x", Group: "x", Do: nothing}, "only chords"},
		{"capital alone", Row{Keys: []string{"G"}, Long: "x", Group: "x", Do: nothing}, "only chords"},
		{"no text", Row{Keys: []string{"x"}, Group: "x", Do: nothing}, "all needed"},
		{"no keys", Row{Long: "x", Group: "x", Do: nothing}, "all needed"},
		{"no handler", Row{Keys: []string{"x"}, Long: "x", Group: "x"}, "all needed"},
		{"negative rank", Row{Keys: []string{"x"}, Long: "x", Group: "x", Do: nothing, Rank: -1}, "below 0"},
		{"impossible", Row{Keys: []string{"x", "ctrl+m"}, Long: "x", Group: "x", Do: nothing}, "arrives as enter"},
		{"misspelt", Row{Keys: []string{"pageup"}, Long: "x", Group: "x", Do: nothing}, "name of no key"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			err := append(sample(), tc.bad).Check()
			if err == nil || !strings.Contains(err.Error(), tc.want) {
				t.Errorf("got %v, want %q in it", err, tc.want)
			}
		})
	}
}

// In ASCII (ECMA-6) Ctrl with a letter is the letter's code less 0x40, so
// Ctrl-I is TAB, Ctrl-M CR, Ctrl-[ ESC, Ctrl-H BS, Ctrl-J LF; there is no code
// for Ctrl-Enter or Shift-Enter, nor for Ctrl with a digit.
func TestImpossible_keysOfNoTerminal(t *testing.T) {
	for _, k := range []string{"ctrl+i", "ctrl+m", "ctrl+[", "ctrl+h", "ctrl+j", "ctrl+enter", "shift+enter", "ctrl+1", "shift+space", "ctrl+shift+a", "alt+x", "alt+enter", "cmd+s", "", " ", "\x01", "\u200b", "jj"} {
		if Impossible(k) == "" {
			t.Errorf("%q passes as a key", k)
		}
	}
	for _, k := range []string{"a", "A", "+", "*", ".", "?", "0", "é", "space", "enter", "esc", "tab", "shift+tab", "ctrl+c", "ctrl+z", "up", "pgdown", "home", "f1", "delete"} {
		if why := Impossible(k); why != "" {
			t.Errorf("%q %s", k, why)
		}
	}
}

// What the Reader gives out for each key the library knows is either possible
// here or a chord nobody should bind.
func TestImpossible_knowsTheReadersNames(t *testing.T) {
	for k := tea.KeyType(-100); k <= 127; k++ {
		name := k.String()
		if name == "" || name == "runes" || name == " " || strings.HasPrefix(name, "ctrl+") || strings.HasPrefix(name, "shift+") || strings.HasPrefix(name, "f") {
			continue
		}
		if why := Impossible(name); why != "" {
			t.Errorf("the terminal library's %q %s", name, why)
		}
	}
}

func TestPress_theFirstTableStandsBeforeTheOthers(t *testing.T) {
	did := ""
	row := func(name string, k ...string) Row {
		return Row{Keys: k, Do: func(e Event) { did += name + e.Key + e.Paste + " " }}
	}
	first := Table{row("first", "1", "enter")}
	text := Table{row("digit", "1"), {Text: true, Keys: []string{"backspace"}, Do: func(e Event) { did += "text" + e.Key + e.Paste + " " }}}
	below := Table{row("below", "1", "q", "tab"), {Keys: []string{"x"}, Can: func() string { return "not now" }, Do: func(Event) { did += "x " }}}
	for _, e := range []Event{Key("1"), Key("q"), {Paste: "p"}, Key("tab"), Key("backspace"), Key("space")} {
		Press(e, text, below)
	}
	Press(Key("1"), first, below)
	Press(Key("q"), first, below)
	if want := "digit1 textq textp belowtab textbackspace textspace first1 belowq "; did != want {
		t.Errorf("got %q, want %q", did, want)
	}
	if found, why := Press(Key("x"), first, below); !found || why != "not now" || strings.Contains(did, "x ") {
		t.Errorf("found %v, why %q", found, why)
	}
	if found, _ := Press(Key("z"), first, below); found {
		t.Error("a key of nothing is found")
	}
	if s := Sections(text, below); len(s[0].Entries) != 3 { // below: only Tab is left, x and q type
		t.Errorf("%+v", s)
	}
}

func TestHelpLine_dropsTheLeastImportant(t *testing.T) {
	noFix := sample()
	noFix[2].Can = func() string { return "nothing to fix here" }
	for _, tc := range []struct {
		table Table
		w     int
		want  string
	}{
		{sample(), 60, " 1-3 add  +- count  f fix  n next  ? all"},
		{noFix, 60, " 1-3 add  +- count  n next  ? all"},
		{sample(), 36, " 1-3 add  +- count  f fix  ? all"},
		{sample(), 12, " ? all"},
		{sample(), 4, " ? …"},
	} {
		hints, fixed := Hints(tc.table)
		got := HelpLine(draw.New(draw.Mono), hints, fixed, tc.w)
		if strings.TrimRight(got, " ") != tc.want || ansi.StringWidth(got) != tc.w {
			t.Errorf("%d cells: %q, want %q", tc.w, got, tc.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		hints, fixed := Hints(sample())
		w := rapid.IntRange(1, 250).Draw(t, "w")
		if got := HelpLine(draw.New(draw.Any), hints, fixed, w); ansi.StringWidth(got) != w {
			t.Fatalf("%d cells, want %d: %q", ansi.StringWidth(got), w, got)
		}
	})
}

// Every key is written, also one that the last line has no room for.
func TestSections_listEveryKeyAndSayWhyNot(t *testing.T) {
	tab := sample()
	tab[2].Can = func() string { return "this finding has no mechanical fix" }
	s := Sections(tab)
	if len(s) != 3 || s[0].Title != "Building" || len(s[0].Entries) != 3 || s[2].Title != "Everywhere" {
		t.Fatalf("sections: %+v", s)
	}
	if e := s[1].Entries[0]; e.Keys != "f" || e.Why != "this finding has no mechanical fix" {
		t.Errorf("fix: %+v", e)
	}
	if got := s[0].Entries[0].Keys + "|" + s[0].Entries[1].Keys; got != "1-3|+ = -" {
		t.Errorf("written %q", got)
	}
}

func TestName_asWritten(t *testing.T) {
	for key, want := range map[string]string{Up: "↑", Enter: "Enter", "ctrl+c": "Ctrl-C", "ctrl+home": "Ctrl-Home", "a": "a", "é": "é", PgDown: "PgDn", "f1": "F1"} {
		if got := Name(key); got != want {
			t.Errorf("%s is written %q, want %q", key, got, want)
		}
	}
}
