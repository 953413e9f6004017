package keys

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
)

func sample() []Binding {
	const build, find, everywhere = "Building", "Findings", "Everywhere"
	return []Binding{
		{ID: "lay", Scope: "bench", Keys: []string{"1", "2", "3"}, Show: "1-3", Short: "lay", Long: "lay the numbered material outward of the row", Group: build, Rank: 1},
		{ID: "count", Scope: "bench", Keys: []string{"+", "-"}, Show: "+-", Short: "count", Long: "one ply more or less in the row", Group: build, Rank: 2},
		{ID: "fix", Scope: "bench", Keys: []string{"m"}, Short: "fix", Long: "do what the finding says would fix it", Group: find, Rank: 3},
		{ID: "next", Scope: "bench", Keys: []string{"n"}, Short: "next", Long: "go to the next finding and its ply", Group: find, Rank: 4},
		{ID: "up", Scope: "bench", Keys: []string{"up"}, Long: "the row before", Group: build, Rank: 9},
		{ID: "help", Scope: Global, Keys: []string{"?"}, Short: "all", Long: "all keys", Group: everywhere},
		{ID: "suspend", Scope: Global, Keys: []string{"ctrl+z"}, Long: "back to the shell for a while", Group: everywhere, Rank: 9, Rare: true},
	}
}

func TestNew_findsEachMistake(t *testing.T) {
	if _, err := New(sample()...); err != nil {
		t.Fatalf("the sample: %v", err)
	}
	for _, tc := range []struct {
		name string
		bad  Binding
		want string
	}{
		{"same key twice", Binding{ID: "x", Scope: "bench", Keys: []string{"m"}, Long: "x", Group: "x", Rank: 1}, `key "m" already does "fix"`},
		{"key of everywhere", Binding{ID: "x", Scope: "bench", Keys: []string{"?"}, Long: "x", Group: "x", Rank: 1}, `key "?" does "help" everywhere`},
		{"same id twice", Binding{ID: "fix", Scope: "bench", Keys: []string{"x"}, Long: "x", Group: "x", Rank: 1}, "this id twice"},
		{"chord alone", Binding{ID: "x", Scope: "bench", Keys: []string{"ctrl+s"}, Long: "x", Group: "x", Rank: 1}, "only chords"},
		{"capital alone", Binding{ID: "x", Scope: "bench", Keys: []string{"G"}, Long: "x", Group: "x", Rank: 1}, "only chords"},
		{"no text", Binding{ID: "x", Scope: "bench", Keys: []string{"x"}, Group: "x", Rank: 1}, "all needed"},
		{"no keys", Binding{ID: "x", Scope: "bench", Long: "x", Group: "x", Rank: 1}, "all needed"},
		{"negative rank", Binding{ID: "x", Scope: "bench", Keys: []string{"x"}, Long: "x", Group: "x", Rank: -1}, "below 0"},
		{"impossible", Binding{ID: "x", Scope: "bench", Keys: []string{"x", "ctrl+m"}, Long: "x", Group: "x", Rank: 1}, "arrives as enter"},
		{"misspelt", Binding{ID: "x", Scope: "bench", Keys: []string{"pageup"}, Long: "x", Group: "x", Rank: 1}, "name of no key"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := New(append(sample(), tc.bad)...)
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

func TestFind_asksTheScopesInOrder(t *testing.T) {
	tab, err := New(sample()...)
	if err != nil {
		t.Fatal(err)
	}
	if b, ok := tab.Find("m", "bench", Global); !ok || b.ID != "fix" {
		t.Errorf("m finds %+v", b)
	}
	if b, ok := tab.Find("?", "bench", Global); !ok || b.ID != "help" {
		t.Errorf("? finds %+v", b)
	}
	if b, ok := tab.Find("?", "bench"); ok {
		t.Errorf("? finds %+v without the global scope", b)
	}
}

func TestHelpLine_dropsTheLeastImportant(t *testing.T) {
	tab, err := New(sample()...)
	if err != nil {
		t.Fatal(err)
	}
	noFix := func(id ID) string {
		if id == "fix" {
			return "nothing to fix here"
		}
		return ""
	}
	for _, tc := range []struct {
		can  Can
		w    int
		want string
	}{
		{nil, 60, " 1-3 lay  +- count  m fix  n next  ? all"},
		{noFix, 60, " 1-3 lay  +- count  n next  ? all"},
		{nil, 36, " 1-3 lay  +- count  m fix  ? all"},
		{nil, 12, " ? all"},
		{nil, 4, " ? …"},
	} {
		hints, fixed := tab.Hints(tc.can, "bench", Global)
		got := HelpLine(draw.New(draw.Mono), hints, fixed, tc.w)
		if strings.TrimRight(got, " ") != tc.want || ansi.StringWidth(got) != tc.w {
			t.Errorf("%d cells: %q, want %q", tc.w, got, tc.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		hints, fixed := tab.Hints(nil, "bench", Global)
		w := rapid.IntRange(1, 250).Draw(t, "w")
		if got := HelpLine(draw.New(draw.Any), hints, fixed, w); ansi.StringWidth(got) != w {
			t.Fatalf("%d cells, want %d: %q", ansi.StringWidth(got), w, got)
		}
	})
}

func TestSections_sayWhyNot(t *testing.T) {
	tab, err := New(sample()...)
	if err != nil {
		t.Fatal(err)
	}
	s := tab.Sections(func(id ID) string {
		if id == "fix" {
			return "this finding has no mechanical fix"
		}
		return ""
	}, "bench", Global)
	if len(s) != 3 || s[0].Title != "Building" || len(s[0].Entries) != 3 || s[2].Title != "Everywhere" {
		t.Fatalf("sections: %+v", s)
	}
	if e := s[1].Entries[0]; e.Keys != "m" || e.Why != "this finding has no mechanical fix" {
		t.Errorf("fix: %+v", e)
	}
	want := `Building
  1-3  lay the numbered material outward
       of the row
  +-   one ply more or less in the row
  ↑    the row before

Findings
  m  do what the finding says would fix
     it
  n  go to the next finding and its ply

Everywhere
  ?       all keys
  Ctrl-Z  back to the shell for a while
`
	if got := Manual(s, 41); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestName_asWritten(t *testing.T) {
	for key, want := range map[string]string{Up: "↑", Enter: "Enter", "ctrl+c": "Ctrl-C", "ctrl+home": "Ctrl-Home", "a": "a", "é": "é", PgDown: "PgDn", "f1": "F1"} {
		if got := Name(key); got != want {
			t.Errorf("%s is written %q, want %q", key, got, want)
		}
	}
}
