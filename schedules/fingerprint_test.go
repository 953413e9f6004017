package schedules

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
)

const printed = `document = "schedule"
format = 1
title = "Drain"
revision = 2

[part]
form = "pipe"
process = "contact"
inside_diameter = "12 in"

[service]
fluid = "brine"
temperature = "110 degF"

[[resin]]
id = "ve"
family = "vinyl-ester"

[[ply]]
material = "veil-c-15"
resin = "ve"

[[ply]]
material = "mat-1.5"
resin = "ve"
count = 2
gel_after = true

[[ply]]
material = "woven-24"
resin = "ve"
count = 3
`

func printOf(t *testing.T, text string, lib *laminate.Library) Fingerprints {
	t.Helper()
	_, s, problems := Decode([]byte(text), lib)
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, text)
	}
	return Fingerprint(s, laminate.Analyze(s, lib), lib)
}

func TestFingerprint_spellingCountsForNothing(t *testing.T) {
	lib := catalog.Library()
	want := printOf(t, printed, lib)
	if len(want.Plies) != 6 || len(want.Schedule) != 64 {
		t.Fatalf("%+v", want)
	}
	tidied, problems := Tidy([]byte(printed), lib)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for what, text := range map[string]string{
		"tidied":            string(tidied),
		"CRLF":              strings.ReplaceAll(printed, "\n", "\r\n"),
		"comments":          strings.ReplaceAll(printed, "\n\n", "\n# as agreed\n\n"),
		"another unit":      strings.Replace(printed, `"12 in"`, `"1 ft"`, 1),
		"title, revision":   strings.Replace(strings.Replace(printed, "Drain", "Drain header", 1), "revision = 2", "revision = 3", 1),
		"two rows for one":  strings.Replace(printed, "count = 3\n", "count = 1\n\n[[ply]]\nmaterial = \"woven-24\"\nresin = \"ve\"\ncount = 2\n", 1),
		"price of a resin":  strings.Replace(printed, "family = \"vinyl-ester\"\n", "family = \"vinyl-ester\"\nprice = \"4.20 per kg\"\n", 1),
		"unused resin kept": strings.Replace(printed, "[[ply]]", "[[resin]]\nid = \"other\"\nfamily = \"vinyl-ester\"\n\n[[ply]]", 1),
	} {
		if got := printOf(t, text, lib); got.Schedule != want.Schedule {
			t.Errorf("%s: another fingerprint", what)
		}
	}
}

func TestFingerprint_contentCounts(t *testing.T) {
	lib := catalog.Library()
	want := printOf(t, printed, lib)
	for what, text := range map[string]string{
		"diameter":    strings.Replace(printed, `"12 in"`, `"13 in"`, 1),
		"temperature": strings.Replace(printed, "110", "111", 1),
		"resin":       strings.Replace(printed, `family = "vinyl-ester"`, `family = "novolac-vinyl-ester"`, 1),
		"material":    strings.Replace(printed, "woven-24", "woven-18", 1),
		"count":       strings.Replace(printed, "count = 3", "count = 4", 1),
		"gel stop":    strings.Replace(printed, "gel_after = true\n", "", 1),
		"glass":       strings.Replace(printed, "count = 3", "count = 3\nglass_content = 0.5", 1),
		"zone":        strings.Replace(printed, "count = 3", "count = 3\nzone = \"outer-surface\"", 1),
	} {
		if got := printOf(t, text, lib); got.Schedule == want.Schedule {
			t.Errorf("%s: the same fingerprint", what)
		}
	}
	// The shop book's mat of another areal mass is another ply, and no other ply is.
	book, problems := DecodeBook([]byte("document = \"shop-book\"\nformat = 1\n\n[[material]]\nid = \"mat-1.5\"\nform = \"chopped-mat\"\nfiber = \"e-glass\"\nareal_mass = \"300 g/m2\"\nfiber_density = \"2540 kg/m3\"\nglass_content = 0.3\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	shop := catalog.Merge(lib, *book)
	got := printOf(t, printed, shop)
	if got.Schedule == want.Schedule {
		t.Error("another areal mass in the shop book: the same fingerprint")
	}
	for i := range got.Plies {
		if same := got.Plies[i] == want.Plies[i]; same == (i == 1 || i == 2) {
			t.Errorf("ply %d alike: %v", i+1, same)
		}
	}
	if got.Plies[1] == got.Plies[2] {
		t.Error("a ply before a gel stop is the same as one without")
	}
}

func TestSpecificationFingerprint_goesByWhatIsRequired(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("../testdata/specifications", "acid-drain.toml"))
	if err != nil {
		t.Fatal(err)
	}
	levels := []spec.LevelLimit{{Level: "II", DefectLimit: spec.DefectLimit{Kind: spec.Pit, PerAreaMax: laminate.Some(3)}}}
	of := func(b string) string {
		d, problems := DecodeSpecification([]byte(b))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return SpecificationFingerprint(d, levels)
	}
	want := of(string(text))
	if of("# reviewed\n"+strings.ReplaceAll(string(text), "\n", "\r\n")) != want {
		t.Error("a comment is another requirement")
	}
	if of(strings.Replace(string(text), "= 32", "= 30", 1)) == want {
		t.Error("another hardness is the same requirement")
	}
	level := strings.Replace(string(text), "[inspection]\n", "[inspection]\nacceptance_level = \"ii\"\n", 1)
	want = of(level)
	levels[0].Source = "seen again"
	if of(level) != want {
		t.Error("the source of a level is another requirement")
	}
	levels[0].PerAreaMax = laminate.Some(4)
	if of(level) == want {
		t.Error("another limit of the level that is named is the same requirement")
	}
	levels[0].Level = "III"
	if of(level) == want {
		t.Error("a level that no book states is the same requirement as one that it states")
	}
}

// A job is what is built: its parts, joints and nozzles, their laminates and
// what these are made of, and not how it is written.
func TestJobFingerprint_goesByContent(t *testing.T) {
	lib := catalog.Library()
	of := func(text string, lib *laminate.Library, beside Beside) string {
		t.Helper()
		_, j, problems := DecodeJob([]byte(text), lib, beside)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return JobFingerprint(j, lib)
	}
	text := string(Examples(true))
	want := of(text, lib, nil)
	for what, same := range map[string]string{
		"spaces": strings.ReplaceAll(text, " = ", "="), "CRLF": strings.ReplaceAll(text, "\n", "\r\n"), "comments": strings.ReplaceAll(text, "\n\n", "\n# as agreed\n\n"),
		"another title": strings.Replace(text, "title    = \"", "title    = \"Another ", 1), "released": strings.Replace(text, "revision = 1\n", "revision = 1\nreleased = \"0123456789ab\"\n", 1),
	} {
		if same == text {
			t.Errorf("%s: nothing was changed", what)
		}
		if got := of(same, lib, nil); got != want {
			t.Errorf("%s makes another job of it", what)
		}
	}
	for what, other := range map[string][2]string{
		"a nozzle's size": {`size                 = "3 in"`, `size                 = "4 in"`}, "a ply of a laminate": {`material = "woven-24"`, `material = "woven-18"`},
		"a width of a joint": {"first_width   = \"2 in\"", "first_width   = \"3 in\""}, "the level": {"liquid_height = \"14 ft\"", "liquid_height = \"13 ft\""},
	} {
		changed := strings.Replace(text, other[0], other[1], 1)
		if changed == text {
			t.Errorf("%s: %q is not in the example", what, other[0])
			continue
		}
		if of(changed, lib, nil) == want {
			t.Errorf("%s does not count", what)
		}
	}
	heavier := catalog.Library()
	for i := range heavier.Materials {
		if m := &heavier.Materials[i]; m.ID == catalog.Woven24 {
			m.ArealMass = quantity.New(20, quantity.OuncePerSquareYard)
		}
	}
	if of(text, heavier, nil) == want {
		t.Error("another areal mass in the shop book does not count")
	}

	// What lies in a file beside the job counts as it stands there.
	line := "document = \"job\"\nformat = 1\n[[part]]\nid = \"line\"\nschedule = \"line.toml\"\n"
	beside := func(schedule string) Beside {
		return func(string) (*laminate.Schedule, error) {
			_, s, _ := Decode([]byte(schedule), lib)
			return s, nil
		}
	}
	first := of(line, lib, beside(printed))
	if of(line, lib, beside(strings.Replace(printed, "count = 3", "count = 4", 1))) == first || of(line, lib, beside(strings.Replace(printed, "Drain", "Vent", 1))) != first {
		t.Error("a schedule beside the job does not count by its content")
	}
}
