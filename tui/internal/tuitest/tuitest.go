// Package tuitest is for tests of the terminal program: it types keys, runs the
// commands that come back until there are none, and compares screens with
// golden files. Only tests import it.
package tuitest

import (
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"frp/veilwright/tui/internal/keys"
)

var update = flag.Bool("update", false, "write the golden files anew")

// patience bounds a single command; a test that waits longer waits for ever, and not
// for a machine with other things to do.
const patience = time.Minute

// mostMessages bounds what one key may set off.
const mostMessages = 1000

// Press types keys by their names ("3", "+", "enter", "esc", "space", …), one
// message each, runs what they set off and returns the model that comes out. A
// name that is no key's is typed out as text, one glued message.
func Press(t testing.TB, m tea.Model, keys ...string) tea.Model {
	t.Helper()
	for _, k := range keys {
		m = Send(t, m, Raw(t, k))
	}
	return m
}

// Send gives messages to the model and runs what they set off.
func Send(t testing.TB, m tea.Model, msgs ...tea.Msg) tea.Model {
	t.Helper()
	for _, msg := range msgs {
		var cmd tea.Cmd
		m, cmd = m.Update(msg)
		m = Drain(t, m, cmd)
	}
	return m
}

// Start gives a model its Init and its size, the way the library does.
func Start(t testing.TB, m tea.Model, w, h int) tea.Model {
	t.Helper()
	m = Drain(t, m, m.Init())
	return Send(t, m, tea.WindowSizeMsg{Width: w, Height: h})
}

// Drain runs a command and all that follow from it, in order, until nothing is
// left. A quit ends it. Commands that wait for ever fail the test.
func Drain(t testing.TB, m tea.Model, cmd tea.Cmd) tea.Model {
	t.Helper()
	queue := []tea.Cmd{cmd}
	for n := 0; len(queue) > 0; n++ {
		if n > mostMessages {
			t.Fatalf("more than %d messages followed from one: the model talks to itself", mostMessages)
		}
		cmd, queue = queue[0], queue[1:]
		if cmd == nil {
			continue
		}
		msg := run(t, cmd)
		if more, ok := commands(msg); ok {
			queue = append(more, queue...)
			continue
		}
		if _, ok := msg.(tea.QuitMsg); ok {
			return m
		}
		if msg == nil {
			continue
		}
		var next tea.Cmd
		m, next = m.Update(msg)
		queue = append(queue, next)
	}
	return m
}

func run(t testing.TB, cmd tea.Cmd) tea.Msg {
	t.Helper()
	got := make(chan tea.Msg, 1)
	go func() { got <- cmd() }()
	timer := time.NewTimer(patience)
	defer timer.Stop()
	select {
	case msg := <-got:
		return msg
	case <-timer.C:
		t.Fatalf("a command did not end within %v", patience)
		return nil
	}
}

// commands takes a batch or a sequence apart; the latter's type is not exported.
func commands(msg tea.Msg) ([]tea.Cmd, bool) {
	v := reflect.ValueOf(msg)
	if !v.IsValid() || v.Kind() != reflect.Slice || v.Type().Elem() != reflect.TypeFor[tea.Cmd]() {
		return nil, false
	}
	out := make([]tea.Cmd, v.Len())
	for i := range out {
		out[i] = v.Index(i).Interface().(tea.Cmd)
	}
	return out, true
}

// Raw returns the message the terminal library gives for a key of this name. A
// name it has no key for becomes glued text.
func Raw(t testing.TB, name string) tea.KeyMsg {
	t.Helper()
	switch name {
	case keys.Space, " ":
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	case "":
		t.Fatal("no key has an empty name")
	}
	if len(name) > 1 {
		// The control keys and those with numbers below 0.
		for k := tea.KeyType(-100); k <= 127; k++ {
			if k != tea.KeyRunes && k.String() == name {
				return tea.KeyMsg{Type: k}
			}
		}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// Paste returns the message of a bracketed paste.
func Paste(text string) tea.KeyMsg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true}
}

// Events are presses of the named keys, for what takes events; text that is no
// key's name is typed out, one event a character.
func Events(names ...string) []keys.Event {
	var out []keys.Event
	for _, name := range names {
		if e := keys.Key(name); e.Rune != 0 || named(name) {
			out = append(out, e)
			continue
		}
		for _, r := range name {
			out = append(out, keys.Key(string(r)))
		}
	}
	return out
}

func named(name string) bool {
	for k := tea.KeyType(-100); k <= 127; k++ {
		if k != tea.KeyRunes && k.String() == name {
			return true
		}
	}
	return false
}

// Visible shows what a colored screen sends: each ESC as ␛.
func Visible(screen string) string { return strings.ReplaceAll(screen, "\x1b", "␛") }

// Plain is a screen without its colors.
func Plain(screen string) string { return ansi.Strip(screen) }

// Box fails the test unless lines are exactly h lines of w cells without any
// control character, and returns them as one string.
func Box(t interface {
	Helper()
	Errorf(string, ...any)
}, lines []string, w, h int,
) string {
	t.Helper()
	if len(lines) != h {
		t.Errorf("%d lines, want %d", len(lines), h)
	}
	for i, l := range lines {
		if got := ansi.StringWidth(l); got != w {
			t.Errorf("line %d is %d cells, want %d: %q", i+1, got, w, l)
		}
		for _, r := range ansi.Strip(l) {
			if unicode.IsControl(r) {
				t.Errorf("line %d has control character %U", i+1, r)
			}
		}
	}
	return strings.Join(lines, "\n")
}

// Golden compares a screen with testdata/<test>/<name>.golden, or writes that
// file under -update. Blanks at the ends of lines do not count.
func Golden(t testing.TB, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", filepath.FromSlash(strings.Map(tame, t.Name())), name+".golden")
	got = trimmed(got)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatalf("making the golden folder: %v", err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatalf("writing the golden file: %v", err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("reading the golden file (-update writes it): %v", err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s differs (-want +got):\n%s\nthe whole screen:\n%s", path, diff, got)
	}
}

func tame(r rune) rune {
	switch r {
	case ' ', ':', '*', '?', '"', '<', '>', '|', '\\':
		return '_'
	}
	return r
}

func trimmed(s string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimRight(s, "\n"), "\n") {
		b.WriteString(strings.TrimRight(line, " "))
		b.WriteByte('\n')
	}
	return b.String()
}
