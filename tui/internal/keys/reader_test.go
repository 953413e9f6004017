package keys

import (
	"bytes"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"
)

// wire feeds messages to a Reader whose waits end only where a test says so.
type wire struct {
	r    Reader
	last TimeoutMsg
	held time.Duration
	got  []string
}

func newWire() *wire {
	w := &wire{}
	w.r.After = func(d time.Duration, m TimeoutMsg) tea.Cmd {
		w.held, w.last = d, m
		return nil
	}
	return w
}

func (w *wire) send(msgs ...tea.Msg) *wire {
	for _, m := range msgs {
		events, _, ours := w.r.Read(m)
		if !ours {
			w.got = append(w.got, "not ours")
		}
		for _, e := range events {
			if e.Key == "" {
				w.got = append(w.got, "paste:"+e.Paste)
			} else {
				w.got = append(w.got, e.Key)
			}
		}
	}
	return w
}

func (w *wire) timeout() *wire { return w.send(w.last) }

func runes(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
func alt(s string) tea.KeyMsg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Alt: true}
}

func TestReader_splitsAndRejoins(t *testing.T) {
	esc := tea.KeyMsg{Type: tea.KeyEscape}
	type step = any
	const wait = "wait"
	for _, tc := range []struct {
		name string
		in   []step
		want string
	}{
		{"glued", []step{runes("jjj")}, "j j j"},
		{"glued, many bytes a character", []step{runes("é管+")}, "é 管 +"},
		{"space", []step{tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}}, "space"},
		{"named", []step{tea.KeyMsg{Type: tea.KeyUp}, tea.KeyMsg{Type: tea.KeyEnter}, tea.KeyMsg{Type: tea.KeyCtrlC}, tea.KeyMsg{Type: tea.KeyShiftTab}}, "up enter ctrl+c shift+tab"},
		{"line feed and control-h", []step{tea.KeyMsg{Type: tea.KeyCtrlJ}, tea.KeyMsg{Type: tea.KeyCtrlH}}, "enter backspace"},
		{"esc alone", []step{esc, wait}, "esc"},
		{"esc held", []step{esc}, ""},
		{"esc twice", []step{esc, esc, wait}, "esc esc"},
		{"esc, then a key of its own read", []step{esc, runes("j")}, "esc j"},
		{"esc, then a named key", []step{esc, tea.KeyMsg{Type: tea.KeyDown}}, "esc down"},
		{"esc and key in one read", []step{alt("j")}, "esc j"},
		{"esc and enter in one read", []step{tea.KeyMsg{Type: tea.KeyEnter, Alt: true}}, "esc enter"},
		{"two esc in one read", []step{tea.KeyMsg{Type: tea.KeyEscape, Alt: true}, wait}, "esc esc"},
		{"arrow split after ESC", []step{esc, runes("[A")}, "up"},
		{"arrow split after ESC, keys behind it", []step{esc, runes("[Bjj")}, "down j j"},
		{"arrow split after [", []step{alt("["), runes("A")}, "up"},
		{"arrow split twice", []step{esc, runes("["), runes("C")}, "right"},
		{"SS3 arrow split", []step{alt("O"), runes("D")}, "left"},
		{"control arrow split in its parameters", []step{alt("["), runes("1;"), runes("5A")}, "ctrl+up"},
		{"page down split", []step{esc, runes("[6"), runes("~")}, "pgdown"},
		{"shift-tab split", []step{esc, runes("[Z")}, "shift+tab"},
		{"console function key split", []step{esc, runes("[[B")}, "f2"},
		{"keypad in application mode", []step{alt("O"), runes("q"), alt("O"), runes("k"), alt("O"), runes("j"), alt("O"), runes("n"), alt("O"), runes("M")}, "1 + * . enter"},
		{"unknown sequence", []step{esc, runes("[<35;10;20M"), runes("x")}, "x"},
		{"unfinished sequence drops its digits", []step{esc, runes("[1;5"), wait, runes("x")}, "x"},
		{"unfinished sequence and another key", []step{alt("["), tea.KeyMsg{Type: tea.KeyDown}}, "down"},
		{"what cannot belong to a sequence", []step{alt("["), runes("é")}, "é"},
		{"rest of an arrow after the wait", []step{esc, wait, runes("[A"), runes("[")}, "esc up ["},
		{"brackets typed later", []step{esc, wait, runes("["), runes("A")}, "esc [ A"},
		{"brackets with no esc before", []step{runes("[A")}, "[ A"},
		{"old wait counts no more", []step{esc, runes("j"), wait}, "esc j"},
		{"paste", []step{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("3 in\r\n\x1b[31mx\u200b"), Paste: true}}, "paste:3 in\n[31mx"},
		{"esc, then a paste", []step{esc, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("x"), Paste: true}}, "esc paste:x"},
		{"invisible character", []step{runes("\u202ea")}, "unprintable a"},
		{"split paste that never ends", []step{esc, runes("[200~13"), tea.KeyMsg{Type: tea.KeyEnter}, runes("5"), wait, runes("x")}, "paste:13\n5 x"},
		{"a message of others", []step{tea.WindowSizeMsg{}}, "not ours"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			w := newWire()
			for _, s := range tc.in {
				if s == wait {
					w.timeout()
				} else {
					w.send(s)
				}
			}
			if got := strings.Join(w.got, " "); got != tc.want {
				t.Errorf("got %q, want %q", got, tc.want)
			}
		})
	}
}

func TestReader_holdsEscShortly(t *testing.T) {
	w := newWire().send(tea.KeyMsg{Type: tea.KeyEscape})
	if w.held != Hold {
		t.Errorf("waits %v, want %v", w.held, Hold)
	}
	var r Reader
	if _, cmd, _ := r.Read(tea.KeyMsg{Type: tea.KeyEscape}); cmd == nil {
		t.Error("no command ends the wait")
	} else if msg, ok := cmd().(TimeoutMsg); !ok {
		t.Errorf("the wait ends with %T", msg)
	} else if events, _, _ := r.Read(msg); len(events) != 1 || events[0].Key != Esc {
		t.Errorf("after the wait: %v", events)
	}
}

type listener struct {
	r   Reader
	got []string
}

func (l *listener) Init() tea.Cmd { return nil }
func (l *listener) View() string  { return "" }
func (l *listener) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if k, ok := msg.(tea.KeyMsg); ok && k.Type == tea.KeyCtrlD {
		return l, tea.Quit // the end of the input; what is still held back is missed by the test
	}
	events, cmd, _ := l.r.Read(msg)
	for _, e := range events {
		if e.Key == "" {
			l.got = append(l.got, "paste:"+e.Paste)
		} else {
			l.got = append(l.got, e.Key)
		}
	}
	return l, cmd
}

type reads struct{ parts [][]byte }

func (r *reads) Read(p []byte) (int, error) {
	if len(r.parts) == 0 {
		return 0, io.EOF
	}
	n := copy(p, r.parts[0])
	if n == len(r.parts[0]) {
		r.parts = r.parts[1:]
	} else {
		r.parts[0] = r.parts[0][n:]
	}
	return n, nil
}

// through sends bytes through the terminal library's own input reader, in the
// given reads, and returns the keys that come out.
func through(t interface{ Fatalf(string, ...any) }, parts ...[]byte) []string {
	l := &listener{}
	// No wait ends by itself: what is split here is split by reads, not by time.
	l.r.After = func(time.Duration, TimeoutMsg) tea.Cmd { return nil }
	p := tea.NewProgram(l, tea.WithInput(&reads{parts: append(parts, []byte{4})}), tea.WithOutput(io.Discard), tea.WithoutRenderer(), tea.WithoutSignalHandler())
	if _, err := p.Run(); err != nil {
		t.Fatalf("running: %v", err)
	}
	return l.got
}

func TestReader_behindTheLibrary(t *testing.T) {
	long := strings.Repeat("é管+1", 200) // 1,400 bytes: characters lie across the ends of 256-byte reads
	var want []string
	for range 200 {
		want = append(want, "é", "管", "+", "1")
	}
	if got := through(t, []byte(long)); !slices.Equal(got, want) {
		t.Errorf("a burst of %d keys came out as %d", len(want), len(got))
	}
	if got, want := through(t, []byte("\x1b[20"), []byte("0~1 3"), []byte("\r5\x1b[201~j")), []string{"paste:1 3\n5", "j"}; !slices.Equal(got, want) {
		t.Errorf("split paste: %q, want %q", got, want)
	}
	if got, want := through(t, []byte("\x1bOq\x1bOk\x1bOAj")), []string{"1", "+", "up", "j"}; !slices.Equal(got, want) {
		t.Errorf("application keypad: %q, want %q", got, want)
	}
}

// However a typed stream is cut into reads, the same keys come out.
func TestReader_anyCutGivesTheSameKeys(t *testing.T) {
	keys := []struct{ bytes, name string }{
		{"1", "1"}, {"+", "+"}, {"é", "é"}, {"管", "管"}, {" ", "space"}, {"\r", "enter"}, {"\t", "tab"},
		{"\x1b[A", "up"}, {"\x1b[B", "down"}, {"\x1bOC", "right"}, {"\x1b[6~", "pgdown"}, {"\x1b[1;5D", "ctrl+left"}, {"\x1b[H", "home"},
		{"\x1b[200~2 in\x1b[201~", "paste:2 in"},
	}
	rapid.Check(t, func(t *rapid.T) {
		var stream bytes.Buffer
		var want []string
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(keys)-1), 1, 20).Draw(t, "keys") {
			stream.WriteString(keys[i].bytes)
			want = append(want, keys[i].name)
		}
		var parts [][]byte
		for rest := stream.Bytes(); len(rest) > 0; {
			n := rapid.IntRange(1, len(rest)).Draw(t, "cut")
			parts = append(parts, rest[:n])
			rest = rest[n:]
		}
		if got := through(t, parts...); !slices.Equal(got, want) {
			t.Fatalf("%q read as %q, want %q", parts, got, want)
		}
	})
}

func TestKey_names(t *testing.T) {
	for name, want := range map[string]Event{
		"a": {Key: "a", Rune: 'a'}, " ": {Key: Space, Rune: ' '}, Space: {Key: Space, Rune: ' '}, "é": {Key: "é", Rune: 'é'}, "up": {Key: Up}, "f1": {Key: "f1"},
	} {
		if got := Key(name); got != want {
			t.Errorf("Key(%q) = %+v, want %+v", name, got, want)
		}
	}
	if n, ok := Key("7").Digit(); !ok || n != 7 {
		t.Errorf("digit 7 read as %d, %v", n, ok)
	}
	if _, ok := Key("x").Digit(); ok {
		t.Error("x is a digit")
	}
}
