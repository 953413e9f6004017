package widget

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

func sections() []keys.Section {
	return []keys.Section{
		{Title: "Building", Entries: []keys.Entry{
			{Keys: "1-9", What: "lay from the rack, outward of the row"},
			{Keys: "+ -", What: "one ply more or less in the row"},
			{Keys: "*", What: "repeat: the row, the last rows, the barrier, the structure"},
			{Keys: ".", What: "gel stop after the row", Why: "the process face has no gel stop"},
		}},
		{Title: "Findings", Entries: []keys.Entry{
			{Keys: "n", What: "the next finding, and to its ply"},
			{Keys: "m", What: "fix what the finding says", Why: "this finding has no mechanical fix"},
		}},
		{Title: "Everywhere", Entries: []keys.Entry{{Keys: "u y", What: "undo, redo"}, {Keys: "Ctrl-Z", What: "back to the shell for a while"}}},
	}
}

func helpPress(p *Help, keys ...string) Result {
	r := Going
	for _, e := range tuitest.Events(keys...) {
		r = p.Handle(e)
	}
	return r
}

func TestHelp_leaves(t *testing.T) {
	for _, tc := range []struct {
		keys []string
		want Result
	}{
		{[]string{"esc"}, Left},
		{[]string{"?"}, Left},
		{[]string{"enter"}, Left},
		{[]string{"gel", "esc"}, Going},
		{[]string{"gel", "esc", "esc"}, Left},
		{[]string{"gel", "?"}, Going},
	} {
		if got := helpPress(NewHelp(draw.New(draw.Mono), "keys of the bench", sections()), tc.keys...); got != tc.want {
			t.Errorf("%q gives %d, want %d", tc.keys, got, tc.want)
		}
	}
}

func TestHelp_finds(t *testing.T) {
	for query, want := range map[string][]string{
		"gel":       {"gel stop after the row"},
		"row less":  {"one ply more or less in the row"},
		"FINDING":   {"the next finding", "fix what"},
		"fix":       {"fix what"},
		"ctrl":      {"back to the shell"},
		"no-such":   {"no key says that"},
		"every und": {"undo, redo"},
	} {
		p := NewHelp(draw.New(draw.Mono), "keys", sections())
		for _, r := range query {
			helpPress(p, string(r))
		}
		body := strings.Join(p.body(70), "\n")
		for _, w := range want {
			if !strings.Contains(body, w) {
				t.Errorf("%q does not find %q:\n%s", query, w, body)
			}
		}
		if rows := strings.Count(body, "\n   "); want[0] != "no key says that" && rows > 2*len(want)+1 {
			t.Errorf("%q finds too much:\n%s", query, body)
		}
	}
}

func TestHelpView_golden(t *testing.T) {
	p := NewHelp(draw.New(draw.Mono), "keys of the bench", sections())
	tuitest.Golden(t, "all 60x16", tuitest.Box(t, p.View(60, 16), 60, 16))
	tuitest.Golden(t, "low 60x8", tuitest.Box(t, p.View(60, 8), 60, 8))
	helpPress(p, "end")
	tuitest.Golden(t, "end 44x8", tuitest.Box(t, p.View(44, 8), 44, 8))
	helpPress(p, "ply")
	tuitest.Golden(t, "typed 60x8", tuitest.Box(t, p.View(60, 8), 60, 8))
}

func TestHelpView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := NewHelp(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), "keys of the bench", sections())
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOf(rapid.SampledFrom([]string{"a", "up", "down", "pgdown", "end", "home", "backspace"})).Draw(t, "keys") {
			helpPress(p, k)
			tuitest.Box(t, p.View(w, h), w, h)
		}
		tuitest.Box(t, p.View(w, h), w, h)
	})
}
