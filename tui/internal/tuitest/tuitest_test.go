package tuitest

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/keys"
)

// echo writes down what it is told and answers "b" with a batch, "s" with a
// sequence.
type echo struct{ heard []string }

type said string

func say(s string) tea.Cmd { return func() tea.Msg { return said(s) } }

func (echo) Init() tea.Cmd { return say("begun") }
func (e echo) View() string {
	return strings.Join(e.heard, " ")
}

func (e echo) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch m := msg.(type) {
	case tea.KeyMsg:
		e.heard = append(e.heard, m.String())
		switch m.String() {
		case "b":
			return e, tea.Batch(say("one"), say("two"))
		case "s":
			return e, tea.Sequence(say("three"), say("four"))
		}
	case tea.WindowSizeMsg:
		e.heard = append(e.heard, "sized")
	case said:
		e.heard = append(e.heard, string(m))
	}
	return e, nil
}

func TestPress_runsWhatFollows(t *testing.T) {
	m := Start(t, echo{}, 80, 24)
	m = Press(t, m, "+", "enter", "b", "s", "space", "jjj", "ctrl+c", "f1")
	m = Send(t, m, Paste("x y"))
	want := "begun sized + enter b one two s three four   jjj ctrl+c f1 [x y]"
	if got := m.View(); got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

func TestEvents_typeText(t *testing.T) {
	var got []string
	for _, e := range Events("3", "enter", "mat", "space", "up", "1/4 in") {
		got = append(got, e.Key)
	}
	want := []string{"3", "enter", "m", "a", "t", "space", "up", "1", "/", "4", "space", "i", "n"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if e := Events(" ")[0]; e != keys.Key(keys.Space) {
		t.Errorf("a blank is %+v", e)
	}
}

type fails struct{ n int }

func (*fails) Helper()                 {}
func (f *fails) Errorf(string, ...any) { f.n++ }

func TestBox_seesWrongSizes(t *testing.T) {
	for _, tc := range []struct {
		lines []string
		bad   bool
	}{
		{[]string{"ab", "\x1b[1mcd\x1b[m"}, false},
		{[]string{"ab"}, true},
		{[]string{"ab", "abc"}, true},
		{[]string{"ab", "a\tb"}, true},
	} {
		var f fails
		Box(&f, tc.lines, 2, 2)
		if (f.n > 0) != tc.bad {
			t.Errorf("%q: %d complaints", tc.lines, f.n)
		}
	}
}

func TestGolden_readsItsFile(t *testing.T) {
	Golden(t, "two lines", "BENCH   \n 1-9 lay")
	if got := Visible("\x1b[1mx"); got != "␛[1mx" {
		t.Errorf("visible: %q", got)
	}
	if got := Plain("\x1b[1mx\x1b[m"); got != "x" {
		t.Errorf("plain: %q", got)
	}
}
