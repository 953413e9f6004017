package draw

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Pointer marks the selected row or field. It is one cell wide.
const Pointer = "▸"

// Style is the look of a span: what lipgloss makes of it, asked for once and not
// at every span. A lipgloss style costs 1.3 µs and five allocations a span, 150
// spans a frame; a whole frame of the bench may cost 500 µs. The zero value
// leaves the text as it is.
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

// styles makes styles for one kind of terminal.
type styles struct{ r *lipgloss.Renderer }

// style is a style from a lipgloss one.
func (p styles) style(s lipgloss.Style) Style {
	const text = "x"
	on, off, _ := strings.Cut(s.Render(text), text)
	return Style{on, strings.Replace(off, "[0m", "[m", 1)} // the same in a byte less
}

// colored is a style of a foreground color, and a background where it has one.
func (p styles) colored(fg string, more ...func(lipgloss.Style) lipgloss.Style) Style {
	s := p.r.NewStyle()
	if fg != "" {
		s = s.Foreground(lipgloss.Color(fg))
	}
	for _, f := range more {
		s = f(s)
	}
	return p.style(s)
}

func bold(s lipgloss.Style) lipgloss.Style      { return s.Bold(true) }
func faint(s lipgloss.Style) lipgloss.Style     { return s.Faint(true) }
func underline(s lipgloss.Style) lipgloss.Style { return s.Underline(true) }
func reverse(s lipgloss.Style) lipgloss.Style   { return s.Reverse(true) }

func on(bg string) func(lipgloss.Style) lipgloss.Style {
	return func(s lipgloss.Style) lipgloss.Style { return s.Background(lipgloss.Color(bg)) }
}

// The sixteen colors that every terminal with colors knows, by their numbers.
const (
	black, red, blue, magenta, cyan       = "0", "1", "4", "5", "6"
	brightRed, brightGreen, brightYellow  = "9", "10", "11"
	brightBlue, brightMagenta, brightCyan = "12", "13", "14"
	green, yellow, white                  = "2", "3", "15"
)

// New builds a theme. A kind that is none of Kinds gives Any.
func New(k Kind) *Theme {
	if k == Mono {
		return &Theme{Kind: Mono}
	}
	if k != Dark && k != Light {
		k = Any
	}
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.ANSI)
	p := styles{r}
	t := &Theme{
		Kind:  k,
		Title: p.colored("", bold), Rule: p.colored("", faint), Dim: p.colored("", faint), Strong: p.colored("", bold), Mark: p.colored("", bold),
		Selected: p.colored("", reverse), Cursor: p.colored("", reverse), Input: p.colored("", underline), New: p.colored("", bold, underline),
		GaugeOver: p.colored(white, on(red)),
		// Where the background may be any, or light.
		Barrier: p.colored(brightBlue), Outer: p.colored(magenta), Break: p.colored(red, bold), Incomplete: p.colored(magenta), Warning: p.colored(black, on(yellow)),
		Note: p.colored(brightBlue), Good: p.colored(black, on(green)), Key: p.colored("", bold), Label: p.colored(brightBlue), Gauge: p.colored(brightBlue), Changed: p.colored(magenta, bold),
	}
	switch k {
	case Dark:
		t.Barrier, t.Break, t.Incomplete, t.Warning = p.colored(cyan), p.colored(brightRed, bold), p.colored(brightMagenta), p.colored(brightYellow)
		t.Note, t.Good, t.Key, t.Label = p.colored(brightCyan), p.colored(brightGreen), p.colored(brightYellow), p.colored(cyan)
		t.Gauge, t.Changed = p.colored(brightCyan), p.colored(brightYellow)
	case Light:
		t.Barrier, t.Note, t.Label, t.Gauge = p.colored(blue), p.colored(blue), p.colored(blue), p.colored(blue)
		t.Key = p.colored(blue, bold)
	case Any, Mono:
	}
	t.Error = t.Break
	return t
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
