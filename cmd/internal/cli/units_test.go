package cli

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What a figure of either system looks like. A digit after a hyphen belongs to
// an id.
var (
	usFigure     = regexp.MustCompile(`(^|[^-0-9.])[0-9][0-9./]* ?(mils?|in|ft|psi|ksi|Msi|°F|degF|oz|oz/ft²|oz/ft2|oz/yd²|oz/yd2|lb/ft²|lb/ft2|lb/in|lb/ft³|lb|inHg|inH2O)\b`)
	metricFigure = regexp.MustCompile(`(^|[^-0-9.])[0-9][0-9.]* ?(mm|cm|m|µm|kPa|MPa|GPa|Pa|bar|°C|degC|g/m²|g/m2|kg/m²|kg/m2|kN/m|N/mm|kg/m³|kg/m3|kg)\b`)
)

// Where the other system may stand: the text quotes a document, or a source in
// the units that it is written in.
var quotations = []struct {
	why  string
	text *regexp.Regexp
}{
	{"a basis quotes its standard", regexp.MustCompile(`(?s)\[[^\]]*\]`)},
	{"a basis quotes its standard", regexp.MustCompile(`(?m)^ +basis: .*$(\n( {6}| {11})[^ ].*$)*`)},
	{"a basis quotes its standard", regexp.MustCompile(`(?m)^ +"basis": .*$`)},
	{"diff quotes both documents as they are spelled", regexp.MustCompile(`(?m)^ +stated .*$(\n {20,}.*$)*`)},
	{"the catalog quotes the source of a figure", regexp.MustCompile(`(?m)^ +note: \S+( fiber)?: typical modulus .*$(\n {8}[^ ].*$)*`)},
	{"a material's own name", regexp.MustCompile(`(?m)(veil|coat|mat|chop|waxed|roving|unidirectional), [0-9./]+ (mil|oz/ft²|oz/yd²)`)},
	{"why an entry was struck is a person's own words", regexp.MustCompile(`(?m)struck in entry \d+[^:]*: .*$(\n {8}[^ ].*$)*`)},
	{"an exercise tells its scenario and task in its own words", regexp.MustCompile(`(?s)^.*?\n\n.*?\n\n.*?\n\n`)},
	{"a hint is the exercise's own text", regexp.MustCompile(`(?m)^hint .*$(\n {8}[^ ].*$)*`)},
}

func TestUnits_reachEverySentence(t *testing.T) {
	list := func(pattern string) []string {
		t.Helper()
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatalf("%s: %v", pattern, err)
		}
		return found
	}
	var calls [][]string
	schedules := list("../../../testdata/schedules/*.toml")
	for i, s := range schedules {
		calls = append(calls, []string{"check", "--plies", "--explain", s}, []string{"wall", s}, []string{"wall", "--need", "mat", s},
			[]string{"advise", s}, []string{"diff", s, schedules[(i+1)%len(schedules)]})
		for _, demands := range list("../../../testdata/specifications/*.toml") {
			calls = append(calls, []string{"compare", s, demands})
			for _, record := range list("../../../testdata/records/*.toml") {
				calls = append(calls, []string{"compare", s, demands, record}, []string{"compare", "--json", s, demands, record})
			}
		}
	}
	for _, e := range list("../../../schedules/exercises/*.toml") {
		calls = append(calls, []string{"practice", strings.TrimSuffix(filepath.Base(e), ".toml"), "--answer"})
	}
	for _, s := range list("../../../testdata/schedules/*contact*.toml") {
		calls = append(calls, []string{"propose", "--all", t.TempDir(), s})
	}
	calls = append(calls, []string{"catalog"})
	for _, system := range []struct {
		name  string
		other *regexp.Regexp
	}{{"si", usFigure}, {"us", metricFigure}} {
		for _, args := range calls {
			stdout, stderr, _ := run(append(args, "--units", system.name)...)
			text := stdout + stderr
			for _, q := range quotations {
				if args[0] == "practice" || !strings.HasPrefix(q.why, "an exercise") {
					text = q.text.ReplaceAllString(text, "")
				}
			}
			for _, line := range strings.Split(text, "\n") {
				if found := system.other.FindString(line); found != "" {
					t.Errorf("%s --units %s: %q in %q", strings.Join(args, " "), system.name, found, line)
				}
			}
		}
	}
}
