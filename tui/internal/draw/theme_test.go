package draw_test

import (
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

type rgb [3]float64

// The default palettes of two terminals that differ much: xterm
// (XTerm-col.ad) and the VGA text mode, as tabled under "ANSI escape code,
// 3-bit and 4-bit" in Wikipedia.
var palettes = map[string][16]rgb{
	"xterm": {{0, 0, 0}, {205, 0, 0}, {0, 205, 0}, {205, 205, 0}, {0, 0, 238}, {205, 0, 205}, {0, 205, 205}, {229, 229, 229},
		{127, 127, 127}, {255, 0, 0}, {0, 255, 0}, {255, 255, 0}, {92, 92, 255}, {255, 0, 255}, {0, 255, 255}, {255, 255, 255}},
	"VGA": {{0, 0, 0}, {170, 0, 0}, {0, 170, 0}, {170, 85, 0}, {0, 0, 170}, {170, 0, 170}, {0, 170, 170}, {170, 170, 170},
		{85, 85, 85}, {255, 85, 85}, {85, 255, 85}, {255, 255, 85}, {85, 85, 255}, {255, 85, 255}, {85, 255, 255}, {255, 255, 255}},
}

// luminance and contrast are WCAG 2.1's "relative luminance" and "contrast ratio".
func luminance(c rgb) float64 {
	sum := 0.0
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		v := c[i] / 255
		if v <= 0.03928 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

func contrast(a, b rgb) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func TestContrast_referencePair(t *testing.T) {
	// WCAG 2.1 defines the ratio of black on white as 21:1.
	if got := contrast(rgb{0, 0, 0}, rgb{255, 255, 255}); math.Abs(got-21) > 1e-9 {
		t.Fatalf("black on white is %g:1, want 21:1", got)
	}
}

// styles lists the roles by name.
func styles(th *draw.Theme) map[string]draw.Style {
	out := map[string]draw.Style{}
	v := reflect.ValueOf(*th)
	for i := range v.NumField() {
		if s, ok := v.Field(i).Interface().(draw.Style); ok {
			out[v.Type().Field(i).Name] = s
		}
	}
	return out
}

// cube is a color of xterm's 256 (256colres.h).
func cube(n int, p [16]rgb) rgb {
	level := [6]float64{0, 95, 135, 175, 215, 255}
	switch {
	case n < 16:
		return p[n]
	case n < 232:
		n -= 16
		return rgb{level[n/36], level[n/6%6], level[n%6]}
	}
	v := float64(8 + 10*(n-232))
	return rgb{v, v, v}
}

// colorOf resolves the SGR parameters of a style over a background.
func colorOf(t *testing.T, s draw.Style, p [16]rgb, fg, bg rgb) (rgb, rgb) {
	t.Helper()
	on, _, _ := strings.Cut(s.Render("x"), "x")
	body := strings.TrimSuffix(strings.TrimPrefix(on, "\x1b["), "m")
	if body == "" {
		return fg, bg
	}
	var params []int
	for param := range strings.SplitSeq(body, ";") {
		n, err := strconv.Atoi(param)
		if err != nil {
			t.Fatalf("%q is no SGR parameter", param)
		}
		params = append(params, n)
	}
	for i := 0; i < len(params); i++ {
		switch n := params[i]; {
		case n == 38 && params[i+1] == 5:
			fg = cube(params[i+2], p)
			i += 2
		case n == 38 && params[i+1] == 2:
			fg = rgb{float64(params[i+2]), float64(params[i+3]), float64(params[i+4])}
			i += 4
		case n >= 30 && n <= 37:
			fg = p[n-30]
		case n >= 90 && n <= 97:
			fg = p[n-90+8]
		case n == 7:
			fg, bg = bg, fg
		case n == 1, n == 2, n == 4:
		default:
			t.Fatalf("parameter %d is neither a color of the text nor a plain attribute: a slab of background shouts", n)
		}
	}
	return fg, bg
}

// WCAG 2.1, 1.4.3: 4.5:1 is the least for text that is read. What is faint is no
// text: the lines between panes.
func TestThemes_contrastOfWhatIsRead(t *testing.T) {
	black, white := rgb{0, 0, 0}, rgb{255, 255, 255}
	grounds := map[draw.Kind][]rgb{draw.Any: {black, white}, draw.Plain: {black, white}, draw.Dark: {black}, draw.Light: {white}}
	for kind, backs := range grounds {
		for _, depth := range []draw.Depth{draw.Sixteen, draw.Cube, draw.Full24} {
			for name, s := range styles(draw.NewAt(kind, depth)) {
				for pname, p := range palettes {
					for _, back := range backs {
						front := white
						if back == white {
							front = black
						}
						fg, bg := colorOf(t, s, p, front, back)
						if c := contrast(fg, bg); c < 4.5 {
							t.Errorf("%s at depth %d on %v, %s palette: %s has contrast %.2f, want at least 4.5", kind, depth, back, pname, name, c)
						}
						if faint := strings.Contains(s.Render("x"), "[2m"); faint && name != "Rule" {
							t.Errorf("%s at depth %d: %s is faint, and read", kind, depth, name)
						}
					}
				}
			}
		}
	}
}

func TestMono_sendsNothing(t *testing.T) {
	for name, s := range styles(draw.New(draw.Mono)) {
		if got := s.Render("x"); got != "x" || !s.Plain() {
			t.Errorf("%s sends %q", name, got)
		}
	}
}

func TestRender_closesWhatItOpens(t *testing.T) {
	for _, k := range draw.Kinds() {
		for name, s := range styles(draw.New(k)) {
			got := s.Render("x")
			if opened, closed := strings.Count(got, "\x1b[") > 0, strings.HasSuffix(got, "\x1b[m"); opened != closed {
				t.Errorf("%s %s: %q", k, name, got)
			}
			if s.Render("") != "" {
				t.Errorf("%s %s: an empty span sends something", k, name)
			}
		}
	}
}

// What is wrong is told apart by color, and where there is none by weight.
func TestSeverities_differ(t *testing.T) {
	for _, k := range []draw.Kind{draw.Any, draw.Dark, draw.Light, draw.Plain} {
		for _, depth := range []draw.Depth{draw.Sixteen, draw.Cube, draw.Full24} {
			th := draw.NewAt(k, depth)
			seen := map[draw.Style]string{}
			for name, s := range map[string]draw.Style{"break": th.Break, "incomplete": th.Incomplete, "warning": th.Warning, "note": th.Note} {
				if other, ok := seen[s]; ok {
					t.Errorf("%s at depth %d: %s looks like %s", k, depth, name, other)
				}
				seen[s] = name
			}
			if th.Good == th.Break || th.Good == th.Incomplete || th.Good == th.Warning {
				t.Errorf("%s at depth %d: what is good looks like what is not", k, depth)
			}
		}
	}
}

func TestDepthOf(t *testing.T) {
	for _, tc := range []struct {
		term, color string
		want        draw.Depth
	}{{"xterm", "", draw.Sixteen}, {"linux", "", draw.Sixteen}, {"xterm-256color", "", draw.Cube}, {"screen-256color", "", draw.Cube}, {"xterm-256color", "truecolor", draw.Full24}, {"tmux", "24bit", draw.Full24}} {
		if got := draw.DepthOf(func(k string) string { return map[string]string{"TERM": tc.term, "COLORTERM": tc.color}[k] }); got != tc.want {
			t.Errorf("TERM=%s COLORTERM=%s: depth %d, want %d", tc.term, tc.color, got, tc.want)
		}
	}
}

func TestChoose(t *testing.T) {
	for _, tc := range []struct {
		name string
		env  map[string]string
		want draw.Kind
	}{
		{"", nil, draw.Any},
		{"", map[string]string{"NO_COLOR": "1"}, draw.Plain},
		{"", map[string]string{"NO_COLOR": ""}, draw.Any},
		{"", map[string]string{"TERM": "dumb"}, draw.Mono},
		{"", map[string]string{"COLORFGBG": "15;0"}, draw.Dark},
		{"", map[string]string{"COLORFGBG": "0;default;15"}, draw.Light},
		{"", map[string]string{"COLORFGBG": "default;default"}, draw.Any},
		// no-color.org: what a person sets for the one program outranks the variable.
		{"light", map[string]string{"NO_COLOR": "1"}, draw.Light},
		{"mono", nil, draw.Mono},
	} {
		th, err := draw.Choose(tc.name, func(k string) string { return tc.env[k] })
		if err != nil || th.Kind != tc.want {
			t.Errorf("Choose(%q, %v) = %v, %v, want %s", tc.name, tc.env, th, err, tc.want)
		}
	}
	if _, err := draw.Choose("solar", func(string) string { return "" }); err == nil {
		t.Error("an unknown theme is taken")
	}
}

func TestThemes_swatch(t *testing.T) {
	for _, k := range draw.Kinds() {
		var b strings.Builder
		all := styles(draw.New(k))
		for _, name := range slices.Sorted(maps.Keys(all)) {
			b.WriteString(all[name].Render(name) + "\n")
		}
		tuitest.Golden(t, string(k), tuitest.Visible(b.String()))
	}
}
