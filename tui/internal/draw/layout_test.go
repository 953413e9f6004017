package draw

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawing puts a letter into each cell a part covers; a cell covered twice
// shows '!', one that is not covered '.'.
func drawing(s Size, b Bench) string {
	grid := make([][]byte, max(0, s.H))
	for y := range grid {
		grid[y] = []byte(strings.Repeat(".", max(0, s.W)))
	}
	fill := func(r Rect, c byte) {
		for y := r.Y; y < r.Y+r.H; y++ {
			for x := r.X; x < r.X+r.W; x++ {
				if grid[y][x] != '.' {
					c = '!'
				}
				grid[y][x] = c
			}
		}
	}
	if b.Form == TooSmall {
		fill(b.Body, 'B')
	}
	for c, r := range map[byte]Rect{
		'T': b.Title, 'N': b.Notice, 'H': b.Help, 'S': b.Strip, 't': b.Totals, 'p': b.Plies,
		'|': b.Edge, 'R': b.Rack, 'g': b.Figures, 'F': b.Findings, 'i': b.Side,
	} {
		if !r.Empty() {
			fill(r, c)
		}
	}
	lines := make([]string, len(grid))
	for y := range grid {
		lines[y] = string(grid[y])
	}
	return strings.Join(lines, "\n")
}

// brief squeezes a drawing: runs of a letter to letter and number, equal lines
// to one with a count.
func brief(d string) string {
	var out []string
	count := 0
	flush := func() {
		if count > 1 {
			out[len(out)-1] += "  ×" + itoa(count)
		}
	}
	last := ""
	for line := range strings.SplitSeq(d, "\n") {
		if line == last {
			count++
			continue
		}
		flush()
		count, last = 1, line
		short := ""
		for i := 0; i < len(line); {
			j := i
			for j < len(line) && line[j] == line[i] {
				j++
			}
			if short != "" {
				short += " "
			}
			short += string(line[i]) + itoa(j-i)
			i = j
		}
		out = append(out, short)
	}
	flush()
	return strings.Join(out, "\n")
}

func itoa(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return itoa(n/10) + itoa(n%10)
}

func TestBenchPage_drawings(t *testing.T) {
	for _, tc := range []struct {
		size Size
		form Form
		want string
	}{
		{Size{59, 16}, TooSmall, `
B59  ×16`},
		{Size{60, 16}, Reduced, `
T60
S60  ×2
t60
p60  ×4
R60  ×2
F60  ×4
N60
H60`},
		{Size{79, 23}, Reduced, `
T79
S79  ×2
t79
p79  ×11
R79  ×2
F79  ×4
N79
H79`},
		{Size{80, 24}, Full, `
T80
S80  ×2
t80
p62 |1 R17  ×11
F80  ×7
N80
H80`},
		{Size{119, 60}, Full, `
T119
S119  ×2
t119
p101 |1 R17  ×35
F119  ×19
N119
H119`},
		{Size{200, 24}, Full, `
T200
S200  ×2
t200
p182 |1 R17  ×11
F200  ×7
N200
H200`},
		{Size{120, 36}, Wide, `
T120
S120  ×4
t120
p81 |1 R38  ×11
p81 |1 g38  ×5
F81 |1 g38  ×12
N120
H120`},
		{Size{200, 60}, Huge, `
T200
S200  ×4
t200
p88 i1 F72 |1 R38  ×11
p88 i1 F72 |1 g38  ×41
N200
H200`},
	} {
		b := BenchPage(tc.size)
		if b.Form != tc.form {
			t.Errorf("%v is form %d, want %d", tc.size, b.Form, tc.form)
		}
		if got := "\n" + brief(drawing(tc.size, b)); got != tc.want {
			t.Errorf("%v:%s\nwant:%s", tc.size, got, tc.want)
		}
	}
}

func TestBenchPage_coversEveryCellOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Size{rapid.IntRange(-5, 260).Draw(t, "w"), rapid.IntRange(-5, 90).Draw(t, "h")}
		if d := drawing(s, BenchPage(s)); strings.ContainsAny(d, "!.") {
			t.Fatalf("%v:\n%s", s, brief(d))
		}
	})
}

func TestSided_coversTheBodyOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Size{rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")}
		f := PageFrame(s)
		main, edge, side := Sided(f, rapid.IntRange(0, 300).Draw(t, "side"), rapid.IntRange(0, 100).Draw(t, "below"))
		sum := 0
		for _, r := range []Rect{main, edge, side} {
			if r.W < 0 || r.H < 0 || r.X < f.Body.X || r.Y < f.Body.Y || r.X+r.W > f.Body.X+f.Body.W || r.Y+r.H > f.Body.Y+f.Body.H {
				t.Fatalf("%+v sticks out of %+v", r, f.Body)
			}
			sum += r.W * r.H
		}
		if sum != f.Body.W*f.Body.H {
			t.Fatalf("%+v %+v %+v do not fill %+v", main, edge, side, f.Body)
		}
	})
}

func TestSmallSentence_fitsWhereItIsSaid(t *testing.T) {
	if got, want := SmallSentence(Size{59, 16}), "too small: 59×16, needs 60×16 (nothing is lost)"; got != want {
		t.Errorf("got %q", got)
	}
}
