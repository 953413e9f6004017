package prompt

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/tuitest"
	"frp/veilwright/tui/internal/widget"
)

func ask(offered string) *Prompt {
	p := New(theme.New(theme.Mono), "save as", offered)
	p.Hint = "a name; .toml is added"
	p.Check = func(s string) string {
		if s == "" {
			return "a file needs a name"
		}
		return ""
	}
	return p
}

func TestPrompt_answers(t *testing.T) {
	for _, tc := range []struct {
		name, offered string
		keys          []string
		result        widget.Result
		answer        string
	}{
		{"typed", "", []string{"drain", "enter"}, widget.Taken, "drain"},
		{"offered", "drain.toml", []string{"enter"}, widget.Taken, "drain.toml"},
		{"digits are text here", "", []string{"24", "enter"}, widget.Taken, "24"},
		{"wrong", "", []string{"enter"}, widget.Refused, ""},
		{"left with nothing typed", "drain", []string{"esc"}, widget.Left, "drain"},
		{"not left with something typed", "", []string{"dra", "esc"}, widget.Going, "dra"},
		{"but on the second", "", []string{"dra", "esc", "esc"}, widget.Left, "dra"},
		{"a key between starts over", "", []string{"dra", "esc", "i", "esc"}, widget.Going, "drai"},
		{"wiped", "drain", []string{"ctrl+u", "esc"}, widget.Left, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p := ask(tc.offered)
			var got widget.Result
			for _, e := range tuitest.Events(tc.keys...) {
				got = p.Handle(e)
			}
			if got != tc.result || p.Answer() != tc.answer {
				t.Errorf("got %d %q, want %d %q", got, p.Answer(), tc.result, tc.answer)
			}
		})
	}
}

func TestView_golden(t *testing.T) {
	p := ask("")
	tuitest.Golden(t, "hint 50x2", tuitest.Box(t, p.View(50, 2), 50, 2))
	p.Handle(keyin.Key("enter"))
	tuitest.Golden(t, "wrong 50x2", tuitest.Box(t, p.View(50, 2), 50, 2))
	p.Handle(keyin.Key("d"))
	p.Handle(keyin.Key("esc"))
	tuitest.Golden(t, "unfinished 66x2", tuitest.Box(t, p.View(66, 2), 66, 2))
	p.Refuse("the folder cannot be written: permission denied")
	tuitest.Golden(t, "refused later 66x2", tuitest.Box(t, p.View(66, 2), 66, 2))
}

func TestView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := New(theme.New(rapid.SampledFrom(theme.Kinds()).Draw(t, "theme")), rapid.String().Draw(t, "question"), rapid.String().Draw(t, "offered"))
		p.Hint = rapid.String().Draw(t, "hint")
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOf(rapid.SampledFrom([]string{"a", "left", "esc", "backspace", "home"})).Draw(t, "keys") {
			p.Handle(keyin.Key(k))
		}
		tuitest.Box(t, p.View(w, h), w, h)
	})
}
