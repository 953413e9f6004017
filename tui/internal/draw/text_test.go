package draw

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

// The reference measure is x/ansi's, by grapheme clusters (UAX #29) and by
// single characters (wcwidth); both must agree on what is drawn here.

func TestOneCell_agreesWithReference(t *testing.T) {
	for r := rune(0x80); r < 0x30000; r++ {
		if !oneCell(r) {
			continue
		}
		s := string(r)
		if g, c := ansi.StringWidth(s), ansi.StringWidthWc(s); g != 1 || c != 1 {
			t.Errorf("%U %q: %d cells by cluster, %d by character, want 1", r, s, g, c)
		}
		if !drawable(r) {
			t.Errorf("%U counts as one cell but is not drawable", r)
		}
	}
}

func anyText() *rapid.Generator[string] {
	pieces := []string{
		"ply", " ", "  ", "mat-1.5", "░", "▓▓▓", "─", "°F", "é", "e\u0301", "管道", "한글", "⚠\ufe0f", "👩\u200d🔧", "👍🏽",
		"\u202e", "\u200b", "\ufeff", "\x1b[31m", "\x1b[m", "\x1b", "\x1b]0;x\a", "\x9b31m", "\t", "\r", "\n", "\x00", "\x7f",
		"\xff", "\xe2\x96", "\u0301\u0301\u0301\u0301", "🇩🇪", "🇩", "नि", "\u1100\u1161", "\u3000", "\u00a0", "\u2028", "\ue0b0", "\u00ad", "x\u034fy",
	}
	return rapid.Custom(func(t *rapid.T) string {
		if rapid.Bool().Draw(t, "wild") {
			return rapid.String().Draw(t, "s")
		}
		return strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 12).Draw(t, "pieces"), "")
	})
}

func TestClean_isSafeAndSettled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyText().Draw(t, "s")
		c := Clean(s)
		if !utf8.ValidString(c) {
			t.Fatalf("%q is not UTF-8", c)
		}
		for _, r := range c {
			if unicode.Is(unicode.C, r) || r != ' ' && unicode.Is(unicode.Z, r) {
				t.Fatalf("Clean(%q) = %q still has %U", s, c, r)
			}
		}
		if again := Clean(c); again != c {
			t.Fatalf("Clean(%q) = %q, cleaned again %q", s, c, again)
		}
		if a, b := ansi.StringWidth(c), ansi.StringWidthWc(c); a != b {
			t.Fatalf("Clean(%q) = %q is %d cells by cluster and %d by character", s, c, a, b)
		}
		if Width(c) != ansi.StringWidth(c) {
			t.Fatalf("Width(%q) = %d, reference says %d", c, Width(c), ansi.StringWidth(c))
		}
	})
}

func TestClean_cases(t *testing.T) {
	// The direction controls are those of UAX #9 (table "Directional Formatting Characters").
	for _, tc := range []struct{ name, in, want string }{
		{"plain", "Scrubber drain header", "Scrubber drain header"},
		{"escape", "a\x1b[2Jb", "a�[2Jb"},
		{"C1 control", "a\u009bb", "a�b"},
		{"overrides", "\u202aa\u202bb\u202dc\u202ed\u202c", "�a�b�c�d�"},
		{"isolates", "\u2066a\u2067b\u2068c\u2069", "�a�b�c�"},
		{"marks of direction", "a\u200eb\u200fc\u061cd", "a�b�c�d"},
		{"zero width", "a\u200bb\u2060c\ufeffd", "a�b�c�d"},
		{"invalid UTF-8", "a\xffb", "a�b"},
		{"cut off UTF-8", "a\xe2\x96", "a��"},
		{"spaces", "a\u00a0b\u2003c\td\ne", "a b c d e"},
		{"line separator", "a\u2028b", "a�b"},
		{"accent of its own", "cafe\u0301", "cafe\u0301"},
		{"piled accents", "e\u0301\u0301\u0301", "e��" + "�"},
		{"wide letters", "管道", "管道"},
		{"joined picture", "👩\u200d🔧", "���"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if got := Clean(tc.in); got != tc.want {
				t.Errorf("Clean(%q) = %q, want %q", tc.in, got, tc.want)
			}
		})
	}
	if got := CleanText("a\r\nb\rc\n"); got != "a\nb\nc\n" {
		t.Errorf("CleanText kept %q", got)
	}
}

func TestTypable_leavesOutWhatCannotBeSeen(t *testing.T) {
	got := Typable("1\u200b2\u202e in\r\n\x1b[31m\tmat\xff")
	if want := "12 in\n[31m mat"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	rapid.Check(t, func(t *rapid.T) {
		for _, r := range Typable(anyText().Draw(t, "s")) {
			if r != '\n' && r != ' ' && !unicode.IsGraphic(r) {
				t.Fatalf("%U may not enter a field", r)
			}
		}
	})
}

func TestCut_keepsWidthAndSequences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Clean(anyText().Draw(t, "s"))
		if rapid.Bool().Draw(t, "styled") {
			s = "\x1b[1m" + s + "\x1b[m" + s
		}
		w := rapid.IntRange(0, 30).Draw(t, "w")
		for name, got := range map[string]string{"Clip": Clip(s, w), "Cut": Cut(s, w)} {
			if ansi.StringWidth(got) > w {
				t.Fatalf("%s(%q, %d) = %q is too wide", name, s, w, got)
			}
			if Width(s) <= w && w > 0 && got != s {
				t.Fatalf("%s(%q, %d) = %q changed what fits", name, s, w, got)
			}
			if w > 0 && strings.Count(got, "\x1b") != strings.Count(s, "\x1b") {
				t.Fatalf("%s(%q, %d) = %q lost a sequence", name, s, w, got)
			}
		}
		if tail := Tail(Clean(ansi.Strip(s)), w); ansi.StringWidth(tail) > w {
			t.Fatalf("Tail(%q, %d) = %q is too wide", s, w, tail)
		}
		for name, got := range map[string]string{"Left": Left(s, w), "Right": Right(s, w), "Ends": Ends(s, "ply 8", w)} {
			if ansi.StringWidth(got) != w {
				t.Fatalf("%s(%q, %d) = %q is %d cells", name, s, w, got, ansi.StringWidth(got))
			}
		}
	})
}

func TestCut_cases(t *testing.T) {
	for _, tc := range []struct {
		in   string
		w    int
		want string
	}{
		{"structural", 10, "structural"},
		{"structural", 6, "struc…"},
		{"structural", 1, "…"},
		{"structural", 0, ""},
		{"\x1b[31mBREAK\x1b[m here", 4, "\x1b[31mBRE…\x1b[m"},
		{"管道管", 4, "管…"},
		{"管道", 4, "管道"},
	} {
		if got := Cut(tc.in, tc.w); got != tc.want {
			t.Errorf("Cut(%q, %d) = %q, want %q", tc.in, tc.w, got, tc.want)
		}
	}
	if got := Tail("structural", 6); got != "…tural" {
		t.Errorf("Tail = %q", got)
	}
	if got := Ends("left side", "end", 8); got != "lef… end" {
		t.Errorf("Ends = %q", got)
	}
}

func TestFit_exactSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyText().Draw(t, "s")
		if rapid.Bool().Draw(t, "long") {
			s = strings.Repeat(s+"\n", 5)
		}
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		got := Fit(s, w, h)
		lines := strings.Split(got, "\n")
		if len(lines) != h {
			t.Fatalf("%d lines, want %d", len(lines), h)
		}
		for _, l := range lines {
			if ansi.StringWidth(l) != w {
				t.Fatalf("line %q of Fit(%q) is %d cells, want %d", l, s, ansi.StringWidth(l), w)
			}
			for _, r := range ansi.Strip(l) {
				if unicode.IsControl(r) {
					t.Fatalf("control character %U in %q", r, l)
				}
			}
		}
		if again := Fit(got, w, h); again != got {
			t.Fatalf("fitted twice differs: %q, %q", got, again)
		}
		if !slices.Equal(FitLines(strings.Split(s, "\n"), w, h), lines) {
			t.Fatalf("FitLines differs from Fit for %q", s)
		}
		if a := ASCII(got); !ascii(a) {
			t.Fatalf("ASCII left %q", a)
		} else {
			for i, l := range strings.Split(a, "\n") {
				if ansi.StringWidth(l) != w {
					t.Fatalf("ASCII line %d %q is %d cells, want %d", i, l, ansi.StringWidth(l), w)
				}
			}
		}
	})
	if Fit("x", 0, 3) != "" || Fit("x", 3, -1) != "" {
		t.Error("a size below 1 draws something")
	}
}

func TestWrap_losesNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := CleanText(anyText().Draw(t, "s"))
		w := rapid.IntRange(2, 40).Draw(t, "w")
		lines := Wrap(s, w)
		for _, l := range lines {
			if Width(l) > w {
				t.Fatalf("%q is wider than %d", l, w)
			}
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got := squeeze(strings.Join(lines, "")); got != squeeze(s) {
			t.Fatalf("Wrap(%q, %d) = %q", s, w, lines)
		}
	})
	want := []string{"fluorides eat", "the glass of", "the veil", "", "then wick"}
	if got := Wrap("fluorides eat the glass of the veil\n\nthen wick", 13); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := Wrap("管a", 1); !slices.Equal(got, []string{"�", "a"}) {
		t.Errorf("one column: %q", got)
	}
}

func TestASCII_drawing(t *testing.T) {
	in := "fluid :::░░░┃▓▓▓≡╱─ air ▲ 150 °F ×2 … Ölé 管"
	want := "fluid :::...|###=/- air ^ 150 oF x2 ~ Ole ? "
	if got := ASCII(in); got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	shades := ASCII("░▒▓█:≡╱─")
	for i := range shades {
		if strings.Count(shades, shades[i:i+1]) != 1 {
			t.Errorf("stand-ins %q cannot be told apart", shades)
		}
	}
}

// POSIX.1-2017 8.2: LC_ALL outranks LC_CTYPE, which outranks LANG.
func TestNeedsASCII(t *testing.T) {
	for _, tc := range []struct {
		env  map[string]string
		want bool
	}{
		{nil, false},
		{map[string]string{"LANG": "C"}, true},
		{map[string]string{"LANG": "en_US.UTF-8"}, false},
		{map[string]string{"LANG": "en_US.UTF-8", "LC_CTYPE": "POSIX"}, true},
		{map[string]string{"LANG": "C", "LC_CTYPE": "C", "LC_ALL": "C.utf8"}, false},
		{map[string]string{"LANG": "de_DE.ISO-8859-1"}, true},
	} {
		if got := NeedsASCII(func(k string) string { return tc.env[k] }); got != tc.want {
			t.Errorf("%v: got %v", tc.env, got)
		}
	}
}

func TestBesideAndLine(t *testing.T) {
	got := Beside(2, "│", Block{4, []string{"ab", "cdefgh"}}, Block{3, []string{"x"}})
	if want := []string{"ab  │x  ", "cdef│   "}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	var l Line
	l.Add("ply").To(6).Add("\x1b[1m8\x1b[m").To(3).Add("x")
	if l.Width() != 9 || l.String() != "ply   \x1b[1m8\x1b[m x" {
		t.Errorf("%d %q", l.Width(), l.String())
	}
	if got := l.Fit(5); ansi.StringWidth(got) != 5 || !strings.Contains(got, Ellipsis) {
		t.Errorf("cut to %q", got)
	}
}

func BenchmarkFit(b *testing.B) {
	line := "\x1b[1m" + strings.Repeat("ply ░▓ 43.4 ", 10) + "\x1b[m"
	right := strings.Repeat(line+"\n", 35) + line
	for name, s := range map[string]string{"already right 120x36": right, "short lines 120x36": strings.Repeat("ply ░▓ 43.4\n", 35)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Fit(s, 120, 36)
			}
		})
	}
}
