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
	// Plain has no color: bold, underlined and reversed text tells things apart.
	Plain Kind = "plain"
	// Mono sends no SGR sequence at all.
	Mono Kind = "mono"
)

// Kinds lists the themes in the order they are offered.
func Kinds() []Kind { return []Kind{Any, Dark, Light, Plain, Mono} }

// Depth is how many colors a terminal shows.
type Depth int

// The depths.
const (
	Sixteen Depth = iota
	Cube          // the 256 of xterm
	Full24        // 24 bit
)

// DepthOf tells the depth from what a terminal says of itself: COLORTERM, then
// the name in TERM (common practice, no source).
func DepthOf(env func(string) string) Depth {
	switch c := env("COLORTERM"); {
	case c == "truecolor" || c == "24bit":
		return Full24
	case strings.Contains(env("TERM"), "256"), c != "":
		return Cube
	}
	return Sixteen
}

// Theme holds the look of each role.
type Theme struct {
	Kind  Kind
	Depth Depth

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

// roles are the colors of a theme: what a palette gives for each.
type roles struct {
	barrier, outer, breaks, incomplete, warning, note, good, key, label, gauge, changed, dim string
}

// palette is the colors of a kind at a depth. Whatever is read has at least 4.5:1
// on black for Dark, on white for Light and on both for Any, which a test
// measures. Among sixteen colors, which every terminal has of its own, none does
// so on both: there Any has no color.
func palette(k Kind, d Depth) (c roles, ok bool) {
	switch {
	case k == Any && d == Full24:
		return roles{"#2972e0", "#9059d6", "#e12b2b", "#cd24bd", "#a86604", "#088192", "#07891c", "", "#088192", "#2972e0", "#cd24bd", "#757575"}, true
	case k == Any && d == Cube:
		return roles{"63", "98", "131", "163", "98", "63", "29", "", "63", "63", "163", "243"}, true
	case k == Dark && d == Full24:
		return roles{"#56c7d6", "#c792ea", "#ff7b7b", "#f48fe0", "#ffd75f", "#8ab4f8", "#7ddc7d", "#ffd75f", "#7fb8c8", "#8ab4f8", "#ffd75f", "#a8a8a8"}, true
	case k == Dark && d == Cube:
		return roles{"80", "176", "210", "213", "221", "111", "114", "221", "110", "111", "221", "248"}, true
	case k == Dark:
		return roles{"6", "13", "9", "13", "11", "14", "10", "11", "6", "14", "11", "7"}, true
	case k == Light && d == Full24:
		return roles{"#0b5cad", "#8a1f8a", "#b00020", "#a01090", "#7d5200", "#0f6674", "#0a6b1d", "#0b5cad", "#0f6674", "#0b5cad", "#a01090", "#5f5f5f"}, true
	case k == Light && d == Cube:
		return roles{"25", "90", "124", "127", "94", "24", "22", "25", "24", "25", "127", "241"}, true
	case k == Light:
		return roles{"4", "5", "1", "5", "1", "4", "4", "4", "4", "4", "5", ""}, true
	}
	return roles{}, false
}

// New builds a theme for a terminal of sixteen colors. A kind that is none of
// Kinds gives Any.
func New(k Kind) *Theme { return NewAt(k, Sixteen) }

// NewAt builds a theme for a terminal of some depth.
func NewAt(k Kind, d Depth) *Theme {
	if k == Mono {
		return &Theme{Kind: Mono, Depth: d}
	}
	if k != Dark && k != Light && k != Plain {
		k = Any
	}
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(map[Depth]termenv.Profile{Sixteen: termenv.ANSI, Cube: termenv.ANSI256, Full24: termenv.TrueColor}[d])
	p := styles{r}
	strong, lined, both, turned := p.colored("", bold), p.colored("", underline), p.colored("", bold, underline), p.colored("", reverse)
	t := &Theme{
		Kind: k, Depth: d,
		Title: strong, Rule: p.colored("", faint), Strong: strong, Mark: strong, Key: strong,
		Selected: turned, Cursor: turned, Input: lined, New: both,
		// Without a color: the worse, the more it stands out.
		Break: both, Incomplete: strong, Warning: lined, Changed: strong,
	}
	if c, ok := palette(k, d); ok {
		t.Barrier, t.Outer, t.Dim, t.Label, t.Gauge = p.colored(c.barrier), p.colored(c.outer), p.colored(c.dim), p.colored(c.label), p.colored(c.gauge)
		t.Break, t.Incomplete, t.Warning = p.colored(c.breaks, bold), p.colored(c.incomplete), p.colored(c.warning)
		t.Note, t.Good, t.Changed, t.Key = p.colored(c.note), p.colored(c.good, bold), p.colored(c.changed, bold), p.colored(c.key, bold)
	}
	t.Error, t.GaugeOver = t.Break, t.Break
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
				return NewAt(k, DepthOf(env)), nil
			}
		}
		return nil, fmt.Errorf("theme %q is none of any, dark, light, plain, mono", name)
	}
	switch {
	case env("TERM") == "dumb":
		return New(Mono), nil
	case env("NO_COLOR") != "":
		return New(Plain), nil
	}
	v := env("COLORFGBG")
	switch v[strings.LastIndexByte(v, ';')+1:] {
	case "0", "1", "2", "3", "4", "5", "6", "8":
		return NewAt(Dark, DepthOf(env)), nil
	case "7", "15":
		return NewAt(Light, DepthOf(env)), nil
	}
	return NewAt(Any, DepthOf(env)), nil
}
