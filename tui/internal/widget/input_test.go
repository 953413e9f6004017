package widget

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

func TestLine_edits(t *testing.T) {
	for _, tc := range []struct {
		name string
		keys []string
		want string
	}{
		{"typed", []string{"3/16 in"}, "3/16 in▏"},
		{"backspace", []string{"abc", "backspace"}, "ab▏"},
		{"backspace at the start", []string{"ab", "home", "backspace"}, "▏ab"},
		{"delete", []string{"abc", "home", "delete"}, "▏bc"},
		{"delete at the end", []string{"ab", "delete"}, "ab▏"},
		{"inside", []string{"ac", "left", "b"}, "ab▏c"},
		{"letters of several bytes", []string{"aé管", "left", "left", "backspace", "x"}, "x▏é管"},
		{"an accent goes with its letter", []string{"e\u0301", "left", "x"}, "x▏e\u0301"},
		{"and is removed with it", []string{"ae\u0301", "backspace"}, "a▏"},
		{"a word", []string{"two mats ", "ctrl+w"}, "two ▏"},
		{"all before", []string{"two mats", "left", "ctrl+u"}, "▏s"},
		{"all behind", []string{"two mats", "home", "right", "ctrl+k"}, "t▏"},
		{"ends", []string{"ab", "home", "x", "end", "y"}, "xaby▏"},
		{"an accent is deleted with its letter", []string{"e\u0301b", "home", "delete"}, "▏b"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var l Input
			for _, e := range tuitest.Events(tc.keys...) {
				l.Handle(e)
			}
			got := strings.TrimRight(l.View(draw.New(draw.Mono), 40), " ")
			if got != tc.want {
				t.Errorf("got %q, want %q", got, tc.want)
			}
		})
	}
	var l Input
	for _, k := range []string{"up", "enter", "esc", "tab", "f1", "ctrl+s"} {
		if l.Handle(keys.Key(k)) {
			t.Errorf("%s is taken", k)
		}
	}
}

func TestLine_pasteIsCleanAndBounded(t *testing.T) {
	var l Input
	l.Handle(keys.Event{Paste: "a\nb\x1b[31m\u202e"})
	if got := l.Text(); got != "a b[31m" {
		t.Errorf("got %q", got)
	}
	l.Handle(keys.Event{Paste: strings.Repeat("1", 600)})
	if got := len(l.Text()); got != MostTyped {
		t.Errorf("past the most: %d", got)
	}
	l.Set("new\r\ntext")
	if got := l.Text(); got != "new text" {
		t.Errorf("set: %q", got)
	}
}

func TestLine_anyKeysAnyWidth(t *testing.T) {
	names := []string{"a", "é", "管", "\u0301", "space", "left", "right", "home", "end", "backspace", "delete", "ctrl+w", "ctrl+u", "ctrl+k"}
	rapid.Check(t, func(t *rapid.T) {
		var l Input
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(names), 0, 60).Draw(t, "keys") {
			l.Handle(keys.Key(k))
		}
		if !utf8.ValidString(l.Text()) {
			t.Fatalf("%q is not UTF-8", l.Text())
		}
		w := rapid.IntRange(1, 40).Draw(t, "w")
		for _, kind := range draw.Kinds() {
			tuitest.Box(t, []string{l.View(draw.New(kind), w)}, w, 1)
		}
	})
}

func TestView_cursorStaysInSight(t *testing.T) {
	mono := draw.New(draw.Mono)
	var l Input
	l.Set("scrubber drain header")
	for _, tc := range []struct {
		key, want string
	}{
		{"end", "…header▏"},
		{"home", "▏scrubb…"},
	} {
		l.Handle(keys.Key(tc.key))
		if got := l.View(mono, 8); got != tc.want {
			t.Errorf("%s: %q, want %q", tc.key, got, tc.want)
		}
	}
	if got, want := tuitest.Visible(l.View(draw.New(draw.Any), 8)), "␛[7ms␛[m␛[4;4mcrubbe…␛[m"; got != want {
		t.Errorf("colored: %q, want %q", got, want)
	}
}
