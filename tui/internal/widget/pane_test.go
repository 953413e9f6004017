package widget

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

func TestRule_drawings(t *testing.T) {
	mono := draw.New(draw.Mono)
	for _, tc := range []struct {
		w     int
		title []Piece
		want  string
	}{
		{30, []Piece{{Text: "1 break"}, {Text: " · "}, {Text: "1 warning"}}, "── 1 break · 1 warning ───────"},
		{12, []Piece{{Text: "1 break · 1 warning"}}, "── 1 bre… ──"},
		{7, []Piece{{Text: "1 break"}}, "───────"},
		{5, nil, "─────"},
		{20, []Piece{{Text: "a\x1b[31mb"}}, "── a�[31mb ─────────"},
	} {
		if got := Rule(mono, tc.w, tc.title...); got != tc.want {
			t.Errorf("%d cells: %q, want %q", tc.w, got, tc.want)
		}
	}
	dark := draw.New(draw.Dark)
	got := tuitest.Visible(Rule(dark, 16, Piece{"1 break", dark.Break}))
	if want := "␛[2m──␛[m ␛[1;91m1 break␛[m ␛[2m─────␛[m"; got != want {
		t.Errorf("colored %q, want %q", got, want)
	}
}

func TestNotice_drawings(t *testing.T) {
	mono := draw.New(draw.Mono)
	for _, tc := range []struct {
		n    Notice
		w    int
		want string
	}{
		{Notice{Text: "added ply 8 mat-1.5: +43.4 mil", Tail: "u undoes it"}, 50, " added ply 8 mat-1.5: +43.4 mil       u undoes it "},
		{Notice{Text: "added ply 8 mat-1.5: +43.4 mil", Tail: "u undoes it"}, 36, " added ply 8 mat-1.5: … u undoes it "},
		{Notice{Text: "nothing to fix here", Refusal: true}, 24, " nothing to fix here    "},
		{Notice{}, 4, "    "},
	} {
		if got := tc.n.Line(mono, tc.w); got != tc.want {
			t.Errorf("%q, want %q", got, tc.want)
		}
	}
}

// A notice is said to its end, in as many rows as that takes, but for a change that says
// how it is undone: there is one with every key.
func TestNotice_linesSayItWhole(t *testing.T) {
	n := Notice{Text: "length: \"12 b\" is no length: write a number and one of m, mm, in or ft", Refusal: true}
	got := strings.Join(n.Lines(draw.New(draw.Mono), 30), "\n")
	want := " length: \"12 b\" is no length: \n" +
		" write a number and one of m, \n" +
		" mm, in or ft                 "
	if got != want || n.Covers(30) != 2 {
		t.Errorf("got, covering %d\n%s\nwant\n%s", n.Covers(30), got, want)
	}
	n.Refusal = false
	if l := n.Lines(draw.New(draw.Mono), 30); strings.Join(l, "\n") != want || n.Covers(30) != 2 {
		t.Errorf("what was done takes %q", l)
	}
	n.Tail = "u undoes it"
	if l := n.Lines(draw.New(draw.Mono), 30); len(l) != 1 || n.Covers(30) != 0 {
		t.Errorf("a change takes %q", l)
	}
	n.Whole = true
	if l := n.Lines(draw.New(draw.Mono), 30); len(l) != 3 || l[2] != " mm, in or ft     u undoes it " || n.Covers(30) != 2 {
		t.Errorf("what is said to its end takes %q", l)
	}
	if l := n.Lines(draw.New(draw.Mono), 40); len(l) != 3 || !strings.HasSuffix(l[2], "u undoes it ") || strings.TrimSpace(l[2]) != "u undoes it" || n.Covers(40) != 2 {
		t.Errorf("with a row for its tail it takes %q", l)
	}
}

func TestTitle_keepsTheState(t *testing.T) {
	mono := draw.New(draw.Mono)
	if got, want := Title(mono, "BENCH", "Scrubber drain header  R-2214 rev 3", "not saved  inch", 40), " BENCH  Scrubber drain … not saved  inch"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestLines_anyWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme"))
		s, u := rapid.String().Draw(t, "text"), rapid.String().Draw(t, "tail")
		w := rapid.IntRange(1, 250).Draw(t, "w")
		tuitest.Box(t, []string{
			Rule(th, w, Piece{s, th.Break}, Piece{u, th.Note}),
			Title(th, s, u, s, w),
			Notice{Text: s, Tail: u, Refusal: rapid.Bool().Draw(t, "refusal")}.Line(th, w),
		}, w, 3)
		n := Notice{Text: s, Refusal: true}
		tuitest.Box(t, n.Lines(th, w), w, n.Covers(w)+1)
		tuitest.Box(t, Edge(th, 3), 1, 3)
	})
}
