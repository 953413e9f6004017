package draw

import (
	"fmt"
	"strings"
)

// Pointer marks the selected row or field. It is one cell wide.
const Pointer = "▸"

// Style is the look of a span. The zero value leaves the text as it is.
type Style struct{ on, off string }

// Render returns s in this look. s is one line without styles of its own.
func (s Style) Render(text string) string {
	if s.on == "" || text == "" {
		return text
	}
	return s.on + text + s.off
}

// Plain reports whether the style changes nothing.
func (s Style) Plain() bool { return s.on == "" }

// Kind names one of the themes.
type Kind string

const (
	// Any is legible on light and dark backgrounds alike: the default.
	Any Kind = "any"
	// Dark is for dark backgrounds.
	Dark Kind = "dark"
	// Light is for light backgrounds.
	Light Kind = "light"
	// Mono sends no SGR sequence at all.
	Mono Kind = "mono"
)

// Kinds lists the themes in the order they are offered.
func Kinds() []Kind { return []Kind{Any, Dark, Light, Mono} }

// Theme holds the look of each role.
type Theme struct {
	Kind Kind

	Title    Style // the page's name and other headings
	Rule     Style // lines between panes
	Dim      Style // what explains and may be overlooked
	Strong   Style // a figure or word that matters now
	Selected Style // the row the keys act on, after Pointer
	Changed  Style // what the last key changed

	Barrier   Style // plies of the corrosion barrier
	Structure Style // plies of the structural layer
	Outer     Style // the outer surface
	Mark      Style // marks on the picture: barrier's edge, gel stop, cursor

	Break      Style // severities
	Incomplete Style
	Warning    Style
	Note       Style
	Good       Style // holds, clear, accepted
	New        Style // a finding that was not there before

	Key    Style // keys in help texts
	Label  Style // field labels and column titles
	Input  Style // text being typed
	Cursor Style // the cell the next character goes to
	Error  Style // what is wrong with an entry

	Gauge     Style // the used part of a bar
	GaugeOver Style // the used part of a bar past its limit
}

// SGR parameters, ECMA-48 8.3.117. Bright colors 90 to 97 are the aixterm
// ones every terminal with sixteen colors knows.
const (
	bold      = "1"
	faint     = "2"
	underline = "4"
	reverse   = "7"

	red, blue, magenta, cyan              = "31", "34", "35", "36"
	brightRed, brightGreen, brightYellow  = "91", "92", "93"
	brightBlue, brightMagenta, brightCyan = "94", "95", "96"
	blackOnYellow, blackOnGreen           = "30;43", "30;42"
	whiteOnRed                            = "97;41"
)

// palette is where the themes with color differ.
type palette struct {
	barrier, structure, outer        string
	brk, open, warning, note, good   string
	key, label, gauge, changed, rule string
}

func colors(k Kind) palette {
	switch k {
	case Dark:
		return palette{
			barrier: cyan, structure: "", outer: magenta,
			brk: join(bold, brightRed), open: brightMagenta, warning: brightYellow, note: brightCyan, good: brightGreen,
			key: brightYellow, label: cyan, gauge: brightCyan, changed: brightYellow, rule: faint,
		}
	case Light:
		return palette{
			barrier: blue, structure: "", outer: magenta,
			brk: join(bold, red), open: magenta, warning: blackOnYellow, note: blue, good: blackOnGreen,
			key: join(bold, blue), label: blue, gauge: blue, changed: join(bold, magenta), rule: faint,
		}
	default:
		return palette{
			barrier: brightBlue, structure: "", outer: magenta,
			brk: join(bold, red), open: magenta, warning: blackOnYellow, note: brightBlue, good: blackOnGreen,
			key: bold, label: brightBlue, gauge: brightBlue, changed: join(bold, magenta), rule: faint,
		}
	}
}

func join(params ...string) string { return strings.Join(params, ";") }

func sgr(params string) Style {
	if params == "" {
		return Style{}
	}
	return Style{on: "\x1b[" + params + "m", off: "\x1b[m"}
}

// New builds a theme. A kind that is none of Kinds gives Any.
func New(k Kind) *Theme {
	if k == Mono {
		return &Theme{Kind: Mono}
	}
	if k != Dark && k != Light {
		k = Any
	}
	p := colors(k)
	return &Theme{
		Kind:  k,
		Title: sgr(bold), Rule: sgr(p.rule), Dim: sgr(faint), Strong: sgr(bold),
		Selected: sgr(reverse), Changed: sgr(p.changed),
		Barrier: sgr(p.barrier), Structure: sgr(p.structure), Outer: sgr(p.outer), Mark: sgr(bold),
		Break: sgr(p.brk), Incomplete: sgr(p.open), Warning: sgr(p.warning), Note: sgr(p.note), Good: sgr(p.good),
		New: sgr(join(bold, underline)),
		Key: sgr(p.key), Label: sgr(p.label), Input: sgr(underline), Cursor: sgr(reverse), Error: sgr(p.brk),
		Gauge: sgr(p.gauge), GaugeOver: sgr(whiteOnRed),
	}
}

// Choose builds the theme a person asked for by name, and without a name what
// the environment asks for: mono where NO_COLOR is not empty (no-color.org) or
// the terminal is dumb, light or dark where COLORFGBG tells the background
// (set by some terminals: "foreground;background" as ANSI color numbers), else
// Any. A name that is none of Kinds is an error.
func Choose(name string, env func(string) string) (*Theme, error) {
	if name != "" {
		for _, k := range Kinds() {
			if string(k) == name {
				return New(k), nil
			}
		}
		return nil, fmt.Errorf("theme %q is none of any, dark, light, mono", name)
	}
	if env("NO_COLOR") != "" || env("TERM") == "dumb" {
		return New(Mono), nil
	}
	v := env("COLORFGBG")
	switch v[strings.LastIndexByte(v, ';')+1:] {
	case "0", "1", "2", "3", "4", "5", "6", "8":
		return New(Dark), nil
	case "7", "15":
		return New(Light), nil
	}
	return New(Any), nil
}
