package widget

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
)

// font are the characters that names of materials and numbers are made of, in
// five rows of dots; '#' is a dot.
var font = map[rune]string{
	'0': "###,#.#,#.#,#.#,###", '1': ".#,##,.#,.#,.#", '2': "###,..#,###,#..,###", '3': "###,..#,.##,..#,###", '4': "#.#,#.#,###,..#,..#",
	'5': "###,#..,###,..#,###", '6': "###,#..,###,#.#,###", '7': "###,..#,..#,.#.,.#.", '8': "###,#.#,###,#.#,###", '9': "###,#.#,###,..#,###",
	'a': "###,#.#,###,#.#,#.#", 'b': "##.,#.#,##.,#.#,##.", 'c': "###,#..,#..,#..,###", 'd': "##.,#.#,#.#,#.#,##.", 'e': "###,#..,##.,#..,###",
	'f': "###,#..,##.,#..,#..", 'g': "###,#..,#.#,#.#,###", 'h': "#.#,#.#,###,#.#,#.#", 'i': "#,#,#,#,#", 'j': "..#,..#,..#,#.#,###",
	'k': "#.#,#.#,##.,#.#,#.#", 'l': "#..,#..,#..,#..,###", 'm': "#...#,##.##,#.#.#,#...#,#...#", 'n': "#..#,##.#,#.##,#..#,#..#", 'o': "###,#.#,#.#,#.#,###",
	'p': "###,#.#,###,#..,#..", 'q': "###,#.#,#.#,###,..#", 'r': "##.,#.#,##.,#.#,#.#", 's': "###,#..,###,..#,###", 't': "###,.#.,.#.,.#.,.#.",
	'u': "#.#,#.#,#.#,#.#,###", 'v': "#.#,#.#,#.#,#.#,.#.", 'w': "#...#,#...#,#.#.#,##.##,#...#", 'x': "#.#,#.#,.#.,#.#,#.#", 'y': "#.#,#.#,.#.,.#.,.#.",
	'z': "###,..#,.#.,#..,###", '-': "..,..,##,..,..", '_': "..,..,..,..,##", '.': ".,.,.,.,#", '/': "..#,..#,.#.,#..,#..", ' ': "..,..,..,..,..", '×': "...,#.#,.#.,#.#,...",
	'°': "###,#.#,###,...,...",
}

const dotRows = 5

// Letters writes a text in block letters as large as fit into w cells by h
// lines: a dot is up to four lines high, and at least half a line. Where not even that
// fits, or a character has no letter, it is nil.
func Letters(text string, w, h int) []string {
	dots := make([]string, dotRows)
	for i, c := range strings.ToLower(draw.Clean(text)) {
		letter, ok := font[c]
		if !ok {
			return nil
		}
		for y, row := range strings.Split(letter, ",") {
			if i > 0 {
				dots[y] += "."
			}
			dots[y] += row
		}
	}
	wide := len(dots[0])
	for _, size := range [...]struct{ across, down int }{{8, 4}, {6, 3}, {5, 3}, {4, 2}, {3, 2}, {2, 1}, {1, 1}} {
		if wide*size.across <= w && dotRows*size.down <= h {
			var lines []string
			for _, row := range dots {
				line := strings.NewReplacer("#", strings.Repeat("█", size.across), ".", draw.Spaces(size.across)).Replace(row)
				for range size.down {
					lines = append(lines, line)
				}
			}
			return lines
		}
	}
	if wide > w || h < (dotRows+1)/2 {
		return nil
	}
	var lines []string
	for y := 0; y < dotRows; y += 2 {
		var line strings.Builder
		for x := range wide {
			above, below := dots[y][x] == '#', y+1 < dotRows && dots[y+1][x] == '#'
			switch {
			case above && below:
				line.WriteString("█")
			case above:
				line.WriteString("▀")
			case below:
				line.WriteString("▄")
			default:
				line.WriteByte(' ')
			}
		}
		lines = append(lines, line.String())
	}
	return lines
}
