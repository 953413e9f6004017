package schedules

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// documents gives every example document by name: those of the project's
// testdata and the ones this package carries.
func documents(t testing.TB) map[string][]byte {
	t.Helper()
	all := map[string][]byte{"example": Example(), "blank": Blank("An empty one")}
	files, err := filepath.Glob("../testdata/schedules/*.toml")
	if err != nil || len(files) < 8 {
		t.Fatalf("only %d example documents: %v", len(files), err)
	}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(f)] = b
	}
	return all
}

func decoded(t testing.TB, b []byte) (*Source, *laminate.Schedule) {
	t.Helper()
	src, s, problems := Decode(b, nil)
	if len(problems) > 0 {
		t.Fatalf("%v in\n%s", problems, b)
	}
	return src, s
}

func TestDecode_everyExampleIsUsableAndComesBackByteForByte(t *testing.T) {
	lib := catalog.Library()
	for name, b := range documents(t) {
		for variant, b := range map[string][]byte{"": b, " with CRLF": crlf(b), " with a mark": append([]byte("\ufeff"), b...), " without a last line end": bytes.TrimRight(b, "\n")} {
			src, s, problems := Decode(b, lib)
			if len(problems) > 0 {
				t.Errorf("%s%s: %v", name, variant, problems)
				continue
			}
			if got := src.Render(s); !bytes.Equal(got, b) {
				t.Errorf("%s%s came back as\n%s", name, variant, got)
			}
		}
	}
}

func crlf(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) }

func TestDecode_valuesOfTheExample(t *testing.T) {
	src, s := decoded(t, Example())
	switch {
	case s.Title != "Scrubber drain header, north stack", s.Revision != laminate.Some(3), !s.UnitsSet, s.Units != quantity.US:
		t.Errorf("top: %+v", s)
	case s.Notes != "Condensate from the quench contains fluorides after the spring change of feed.\nSpools come flanged at both ends; the header drains by gravity.":
		t.Errorf("notes %q", s.Notes)
	case s.Part.Form != laminate.Pipe, s.Part.InsideDiameter.Cmp(quantity.New(24, quantity.Inch)) != 0, s.Part.Flanged != laminate.Some(true):
		t.Errorf("part: %+v", s.Part)
	case s.Service.PH != laminate.PHRange{Lowest: 3.5, Highest: 6, Given: true}, !s.Service.Contains.Has(laminate.Fluorides):
		t.Errorf("service: %+v", s.Service)
	case s.NumberOfPlies() != 10, s.Plies[1].Count != 2, !s.Plies[1].GelAfter, s.Plies[0].Count != 1:
		t.Errorf("plies: %+v", s.Plies)
	}
	for ref, text := range map[laminate.Ref]string{
		laminate.PlyRef(0, ""):             "[[ply]]",
		laminate.PlyRef(1, "count"):        "count     = 2",
		laminate.PlyRef(1, "angle"):        "[[ply]]",
		laminate.PartRef("ends"):           `ends            = "closed"`,
		laminate.ServiceRef("ph"):          "ph               = [3.5, 6.0]",
		laminate.ResinRef(1, "id"):         `id     = "structure"`,
		{Kind: laminate.RefSchedule}:       `document = "schedule"`,
		{Kind: laminate.RefPart, Key: "x"}: "[part]",
	} {
		line := src.Line(ref)
		if got := strings.Split(string(Example()), "\n")[max(0, line-1)]; got != text {
			t.Errorf("%+v is on line %d, %q, want %q", ref, line, got, text)
		}
	}
	if n := src.Line(laminate.PlyRef(99, "")); n != 0 {
		t.Errorf("a ply that is not there is on line %d", n)
	}
}

func TestDecode_linesInsideInlineTables(t *testing.T) {
	src, _ := decoded(t, documents(t)["inline-tables.toml"])
	for ref, want := range map[laminate.Ref]int{laminate.PartRef("area"): 5, laminate.ServiceRef("ph"): 8, laminate.PlyRef(0, ""): 11,
		laminate.PlyRef(2, "resin"): 13, laminate.ResinRef(0, "family"): 9} {
		if got := src.Line(ref); got != want {
			t.Errorf("%+v is on line %d, want %d", ref, got, want)
		}
	}
}

// head is a usable beginning of six lines.
const head = "document = \"schedule\"\nformat = 1\n\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n"

func TestDecode_badInput(t *testing.T) {
	ply := head + "[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\n"
	for _, c := range []struct {
		name, text string
		line       int
		key        string
		says       string
	}{
		{"empty", "", 1, "document", "missing"},
		{"no document", "title = \"x\"\n", 1, "document", "missing"},
		{"unknown kind", "document = \"plan\"\nformat = 1\n", 1, "document", `"plan" is no kind`},
		{"another kind", "document = \"record\"\nformat = 1\n", 1, "document", "this is a record, not a schedule"},
		{"another kind with its article", "document = \"exercise\"\nformat = 1\n", 1, "document", "this is an exercise, not a schedule"},
		{"no format", "document = \"schedule\"\n", 1, "format", "missing"},
		{"higher format", "document = \"schedule\"\nformat = 7\nnew = 1\n", 2, "format", "format 7, this program reads up to format 1"},
		{"format zero", "document = \"schedule\"\nformat = 0\n", 2, "format", "format 0 is not known"},
		{"syntax", head + "[part\n", 7, "", "not TOML"},
		{"unclosed text", head + "[part]\nform = \"pipe\n", 8, "", "not TOML"},
		{"unknown key", ply + "cuont = 2\n", 10, "ply.cuont", `nearest is "count"`},
		{"key in wrong case", ply + "Count = 2\n", 10, "ply.Count", `nearest is "count"`},
		{"key of another table", ply + "flame_spread = 2\n", 10, "ply.flame_spread", "belongs in [service]"},
		{"unknown table", ply + "[srevice]\ntemperature = \"1 degF\"\n", 10, "srevice", `nearest is "service"`},
		{"unknown dotted key", ply + "a.b = 1\na.c = 2\n", 10, "ply.a", "not known"},
		{"table below a ply", ply + "[ply.zone]\nx = 1\n", 10, "ply.zone", "a word is expected"},
		{"one table for many", head + "[ply]\nmaterial = \"x\"\n", 7, "ply", "write [[ply]]"},
		{"many tables for one", head + "[[part]]\nform = \"pipe\"\n", 7, "part", "write [part]"},
		{"no table", "part = 3\n" + head, 1, "part", "write [part]"},
		{"no tables", "ply = [1, 2]\n" + head, 1, "ply", "[[ply]] table is expected"},
		{"key twice", ply + "count = 2\ncount = 3\n", 11, "ply.count", "given twice, first on line 10"},
		{"format in text", "document = \"schedule\"\nformat = \"1\"\n", 2, "format", "\"1\" is text"},
		{"format with decimals", "document = \"schedule\"\nformat = 1.0\n", 2, "format", "1.0 is no whole number"},
		{"document in figures", "# first\ndocument = 3\nformat = 1\n", 2, "document", "3 is no text"},
		{"a table twice", head + "[part]\nlength = \"2 m\"\n[part]\nlength = \"3 m\"\n", 9, "part", "first on line 7"},
		{"key twice in a first of many", head + "[[ply]]\nmaterial = \"a\"\nmaterial = \"b\"\nresin = \"r\"\n[[ply]]\nmaterial = \"c\"\n", 9, "ply.material", "first on line 8"},
		{"table twice", head + "[part]\nform = \"pipe\"\n[part]\nprocess = \"wound\"\n", 9, "part", "first on line 7"},
		{"bare number", head + "[part]\ninside_diameter = 24\n", 8, "part.inside_diameter", "units: m, mm, cm, um, mil, in, ft"},
		{"unit missing", head + "[part]\ninside_diameter = \"24\"\n", 8, "part.inside_diameter", "unit is missing"},
		{"unit of another kind", head + "[part]\ninside_diameter = \"24 psi\"\n", 8, "part.inside_diameter", `"psi" is not a unit of it`},
		{"bananas", head + "[part]\ninside_diameter = \"12 bananas\"\n", 8, "part.inside_diameter", "mil, in or ft"},
		{"negative", head + "[part]\ninside_diameter = \"-3 mil\"\n", 8, "part.inside_diameter", "below zero"},
		{"zero", head + "[part]\ninside_diameter = \"0 in\"\n", 8, "part.inside_diameter", "not above zero"},
		{"overflow", head + "[part]\ninside_diameter = \"1e400 mm\"\n", 8, "part.inside_diameter", "beyond reason"},
		{"beyond reason", head + "[part]\ninside_diameter = \"24 ft\"\nlength = \"1e9 ft\"\n", 9, "part.length", "at most 10000 m"},
		{"negative pressure", head + "[service]\npressure = \"-1 psi\"\n", 8, "service.pressure", "below zero"},
		{"below absolute zero", head + "[service]\ntemperature = \"-500 degF\"\n", 8, "service.temperature", "absolute zero"},
		{"NaN", head + "[service]\nconcentration = nan\n", 8, "service.concentration", "nan is no number"},
		{"infinity", head + "[service]\nspecific_gravity = -inf\n", 8, "service.specific_gravity", "no number"},
		{"share above one", head + "[service]\nconcentration = 12\n", 8, "service.concentration", "from 0 to 1"},
		{"pH descends", head + "[service]\nph = [9, 3]\n", 8, "service.ph", "descends"},
		{"pH of one", head + "[service]\nph = [9]\n", 8, "service.ph", "a list of 2 numbers"},
		{"pH NaN", head + "[service]\nph = [nan, 3]\n", 8, "service.ph", "no number"},
		{"pH no list", head + "[service]\nph = 7\n", 8, "service.ph", "a list of 2 numbers"},
		{"k factors", head + "[part]\nk_factors = [1, 2, 3]\n", 8, "part.k_factors", "5 numbers"},
		{"word", head + "[part]\nform = \"pip\"\n", 8, "part.form", `pipe, duct, tank, panel; "pipe" is the nearest`},
		{"trait", head + "[service]\ncontains = [\"flourides\"]\n", 8, "service.contains", `"fluorides" is the nearest`},
		{"another chemical", head + "[service]\ncontains = [\"chlorine\"]\n", 8, "service.contains", `chlorine, wet, as gas or in brine, is not chlorine dioxide: state "oxidizer"`},
		{"a letter of it", head + "[service]\ncontains = [\"chlorine-dioxid\"]\n", 8, "service.contains", `"chlorine-dioxide" is the nearest`},
		{"trait no word", head + "[service]\ncontains = [1]\n", 8, "service.contains", "a list of words"},
		{"number for text", "document = \"schedule\"\nformat = 1\ntitle = 3\n", 3, "title", "text is expected"},
		{"text for a choice", head + "[part]\nflanged = \"yes\"\n", 8, "part.flanged", "true or false"},
		{"date", head + "[part]\nflanged = 2024-01-01\n", 8, "part.flanged", "a date"},
		{"units", "document = \"schedule\"\nformat = 1\nunits = \"metric\"\n", 3, "units", "us or si"},
		{"count of zero", ply + "count = 0\n", 10, "ply.count", "at least 1"},
		{"count below zero", ply + "count = -1\n", 10, "ply.count", "at least 1"},
		{"count of a billion", ply + "count = 1_000_000_000\n", 10, "ply.count", "beyond reason"},
		{"count 1e9", ply + "count = 1e9\n", 10, "ply.count", "whole number"},
		{"count overflow", ply + "count = 99999999999999999999\n", 10, "ply.count", "out of range"},
		{"no material", head + "[[ply]]\nresin = \"r\"\n", 7, "ply.material", "missing"},
		{"resin not defined", head + "[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"q\"\n", 9, "ply.resin", `no [[resin]] has the id "q"`},
		{"resin twice", head + "[[resin]]\nid = \"r\"\nfamily = \"chlorendic-polyester\"\n", 8, "resin.id", "already"},
		{"material without a form", head + "[[material]]\nid = \"m\"\n", 7, "material.form", "missing"},
		{"mat without a mass", head + "[[material]]\nid = \"m\"\nform = \"chopped-mat\"\nfiber = \"e-glass\"\n", 7, "material.areal_mass", "a chopped-mat needs it"},
		{"coat without thickness", head + "[[material]]\nid = \"m\"\nform = \"resin-coat\"\n", 7, "material.thickness", "a resin-coat needs it"},
		{"price", head + "[[material]]\nid = \"m\"\nform = \"veil\"\nfiber = \"c-glass\"\nareal_mass = \"30 g/m2\"\nprice = \"4.20\"\n", 12, "material.price", `"4.20 per kg"`},
		{"control character", "document = \"schedule\"\nformat = 1\ntitle = \"a\\u001b[2Jb\"\n", 3, "title", "control character U+001B"},
		{"raw control character", "document = \"schedule\"\nformat = 1\ntitle = \"a\x1b[2Jb\"\n", 3, "", "not TOML"},
		{"newline in a title", "document = \"schedule\"\nformat = 1\ntitle = \"a\\nb\"\n", 3, "title", "control character U+000A"},
		{"turned text", "document = \"schedule\"\nformat = 1\nauthor = \"a\\u202eb\"\n", 3, "author", "U+202E"},
		{"invalid UTF-8", "document = \"schedule\"\nformat = 1\ntitle = \"a\xffb\"\n", 3, "", "UTF-8"},
		{"binary", "\x7fELF\x02\x01\x01\x00\x00\xfe\xed", 1, "", "UTF-8"},
		{"NUL bytes", "\x00\x00\x00\x00", 1, "", "not TOML"},
		{"deep list", head + "x = " + strings.Repeat("[", 200) + strings.Repeat("]", 200) + "\n", 7, "", "nested"},
		{"deep table", head + "x = " + strings.Repeat("{a=", 200) + "1" + strings.Repeat("}", 200) + "\n", 7, "", "nested"},
		{"long dotted key", head + strings.Repeat("a.", 200) + "b = 1\n", 7, "", "more than 16 parts"},
		{"long dotted header", head + "[" + strings.Repeat("a.", 200) + "b]\n", 7, "", "more than 16 parts"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, problems := Decode([]byte(c.text), nil)
			if len(problems) == 0 {
				t.Fatal("it was taken")
			}
			for _, p := range problems {
				if p.Line == c.line && p.Key == c.key && strings.Contains(p.Message, c.says) {
					if len(problems) > 1 {
						t.Errorf("more than one is told: %v", problems)
					}
					return
				}
			}
			t.Errorf("want line %d, key %q, %q; got %+v", c.line, c.key, c.says, problems)
		})
	}
}

func TestDecode_tellsEverythingAtOnceInOrder(t *testing.T) {
	text := head + "titel = \"x\"\n[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"q\"\ncount = 0\ncount = 2\nzone = \"inside\"\n[service]\nph = [4, 1]\ntemperature = 80\n"
	_, _, problems := Decode([]byte(text), nil)
	var got []string
	for _, p := range problems {
		got = append(got, fmt.Sprintf("%d %s", p.Line, p.Key))
	}
	if want := "7 resin.titel, 10 ply.resin, 11 ply.count, 12 ply.count, 13 ply.zone, 15 service.ph, 16 service.temperature"; strings.Join(got, ", ") != want {
		t.Errorf("told %q, want %q", strings.Join(got, ", "), want)
	}
}

func TestDecode_refusesWhatIsTooLarge(t *testing.T) {
	many := func(n int, count string) []byte {
		return []byte(head + strings.Repeat("[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\n"+count, n))
	}
	for name, c := range map[string]struct {
		text []byte
		says string
	}{
		"five million brackets":  {bytes.Repeat([]byte("["), 5_000_000), "not TOML"},
		"a value of brackets":    {append([]byte("a = "), bytes.Repeat([]byte("["), 5_000_000)...), "not TOML"},
		"inline tables for ever": {append([]byte("a = "), bytes.Repeat([]byte("{a="), 4_000_000)...), "values"},
		"17 MiB":                 {bytes.Repeat([]byte("#"), 17<<20), "larger than 16 MiB"},
		"100,000 plies":          {many(100_000, ""), "more than 20000 [[ply]] tables"},
		"counts multiplied out":  {many(21, "count = 1000\n"), "21000 plies"},
		"millions of values":     {append([]byte("a = ["), bytes.Repeat([]byte("1,"), 2_000_000)...), "more than 1000000 values"},
	} {
		_, s, problems := Decode(c.text, nil)
		found := false
		for _, p := range problems {
			found = found || strings.Contains(p.Message, c.says)
		}
		if s != nil || !found {
			t.Errorf("%s: %v", name, problems[:min(len(problems), 3)])
		}
	}
}

func TestDecode_problemsCarryNothingRawToAScreen(t *testing.T) {
	for _, text := range []string{"document = \"a\\u001b[2J\"\n", head + "\"\\u001b[2J\" = 1\n", head + "[part]\nform = \"\\u001b[2J\\u0007\"\n",
		head + "[part]\ninside_diameter = \"\\u001b[2J\"\n", head + "[[ply]]\nmaterial = \"m\"\nresin = \"\\u009b\"\n", "a = \"\x1b\n", "\x1b = 1\n"} {
		_, _, problems := Decode([]byte(text), nil)
		if len(problems) == 0 {
			t.Errorf("%q was taken", text)
		}
		for _, p := range problems {
			if r, bad := word.BadCharacter(p.String(), false); bad {
				t.Errorf("%q is answered with %U in %q", text, r, p.String())
			}
		}
	}
}

func TestSniff(t *testing.T) {
	for text, want := range map[string]Kind{
		string(Example()): Schedule,
		"format = 1\ndocument = \"record\"\n[[reading]]\nbroken =": Record,
		"document = 'shop-book'\nformat = 1\n":                     ShopBook,
		"document = \"specification\"\nformat = 1":                 Specification,
		"\ufeffdocument = \"exercise\"\nformat = 1":                Exercise,
		"[package]\ndocument = \"schedule\"\n":                     Undeclared,
		"":                                                         Undeclared,
		"a = 1":                                                    Undeclared,
		"just words":                                               Unreadable,
		"document = \"schedule\"\nformat = 2":                      Unreadable,
		"document = \"schedule\"\nformat = 'x'":                    Unreadable,
		"document = \"poem\"\nformat = 1":                          Unreadable,
		"\xff\xfed\x00":                                            Unreadable,
		strings.Repeat("[", 5_000_000):                             Unreadable,
		"document = 1\nformat = 1":                                 Unreadable,
		"document = \"schedule\"\n":                                Unreadable,
		"document = \"schedule\"\nformat = \n":                     Unreadable,
	} {
		got, problems := Sniff([]byte(text))
		if got != want || (len(problems) > 0) != (want == Undeclared || want == Unreadable) {
			t.Errorf("%.40q is %v %v, want %v", text, got, problems, want)
		}
	}
}

func TestDecode_whatAPlyNeedsOfItsMaterial(t *testing.T) {
	lib := catalog.Library()
	own := head + "[[material]]\nid = \"woven-own\"\nform = \"woven-roving\"\nfiber = \"e-glass\"\nareal_mass = \"600 g/m2\"\n"
	for _, c := range []struct{ name, ply, want string }{
		{"well", "material = \"mat-1.5\"\nresin = \"r\"\n", ""},
		{"unknown", "material = \"mat-15\"\nresin = \"r\"\n", `line 13: ply.material: no material has the id "mat-15"; "mat-1.5" is the nearest`},
		{"nothing near", "material = \"zzzzzzz\"\nresin = \"r\"\n", `line 13: ply.material: no material has the id "zzzzzzz"`},
		{"no resin", "material = \"mat-1.5\"\n", `line 12: ply.resin: it is missing; a ply of "mat-1.5" (chopped-mat) needs it`},
		{"band without angle", "material = \"band-helical\"\nresin = \"r\"\n", `line 12: ply.angle: it is missing; a ply of "band-helical" (roving-band) needs it`},
		{"band backwards", "material = \"band-helical\"\nresin = \"r\"\nangle = -55\n", `line 15: ply.angle: -55 is not from 0 (along the axis) to 90 (round it), the angle of a roving band`},
		{"mat with an angle", "material = \"mat-1.5\"\nresin = \"r\"\nangle = 45\n", `line 15: ply.angle: "mat-1.5" (chopped-mat) has no direction, so no angle`},
		{"coat with glass", "material = \"topcoat\"\nresin = \"r\"\nglass_content = 0.3\n", `line 15: ply.glass_content: "topcoat" (resin-coat) has no fiber, so no glass content`},
		{"unidirectional", "material = \"uni-13\"\nresin = \"r\"\nangle = -90\n", ""},
		{"no glass content", "material = \"woven-own\"\nresin = \"r\"\n", `line 12: ply.glass_content: it is missing; a ply of "woven-own" (woven-roving) needs it`},
		{"glass content on the ply", "material = \"woven-own\"\nresin = \"r\"\nglass_content = 0.5\n", ""},
	} {
		var got []string
		_, _, problems := Decode([]byte(own+"[[ply]]\n"+c.ply), lib)
		for _, p := range problems {
			got = append(got, p.String())
		}
		if strings.Join(got, "; ") != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestBlank_titleOfAnyText(t *testing.T) {
	for title, want := range map[string]string{"": "", `say "so" \ so`: `say "so" \ so`, "a\x1b[2J\nb\xff": "a[2Jb"} {
		if _, s := decoded(t, Blank(title)); s.Title != want {
			t.Errorf("%q became %q", title, s.Title)
		}
	}
}

func TestDoc_namesEveryKey(t *testing.T) {
	b, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	text := string(b)
	check := func(tables []TableKeys) {
		for _, tk := range tables {
			var want strings.Builder
			for _, k := range tk.Keys {
				want.WriteString(" " + k.Name)
			}
			flat := strings.Join(strings.Fields(strings.ReplaceAll(text, "//", "")), " ")
			if !strings.Contains(flat, strings.TrimSpace(want.String())) {
				t.Errorf("doc.go does not list the keys of %q: %s", tk.Table, want.String())
			}
		}
	}
	check(Keys())
	check(BookKeys())
	check(JobKeys())
}
