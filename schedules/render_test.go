package schedules

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file of testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; got\n%s", path, got)
	}
}

// bare is a schedule without origins, for comparing what it says.
func bare(s *laminate.Schedule) *laminate.Schedule {
	s = s.Clone()
	for i := range s.Plies {
		s.Plies[i].Origin = 0
	}
	for i := range s.Resins {
		s.Resins[i].Origin = 0
	}
	for i := range s.Materials {
		s.Materials[i].Origin = 0
	}
	return s
}

// says tells whether text says what s does.
func says(t testing.TB, text []byte, s *laminate.Schedule) bool {
	t.Helper()
	_, back, problems := Decode(text, nil)
	if len(problems) > 0 {
		t.Errorf("%v", problems)
		return false
	}
	if Same(back, s) != reflect.DeepEqual(bare(back), bare(s)) {
		t.Error("the two ways to compare differ")
	}
	return Same(back, s)
}

func TestSame(t *testing.T) {
	_, a := decoded(t, Example())
	b := bare(a)
	b.Part.InsideDiameter = quantity.New(24*25.4, quantity.Millimetre)
	if !Same(a, bare(a)) || Same(a, b) {
		t.Error("origins count, or the spelling does not")
	}
	unspelled := bare(b) // a figure made in the program reads back with a spelling
	if _, back, p := Decode(New(b).Render(b), nil); len(p) > 0 || !Same(back, unspelled) {
		t.Error("a figure without a spelling does not read back")
	}
	b.Plies = b.Plies[1:]
	if Same(a, b) {
		t.Error("a ply less is the same")
	}
}

const small = `document = "schedule"   # the kind
format = 1
title = 'Old title'     # a title
units = "us"

[part]
form            = "pipe"
inside_diameter = "24 in" # bore
flanged         = true
# the part ends

[[resin]]
id = "r"
family = "vinyl-ester"

# the veil
[[ply]] # first
material = "veil-c-10"
resin    = "r"

# --- barrier ---

# two mats
[[ply]]
material  = "mat-1.5"
resin     = "r"
count     = 2  # said twice
gel_after = true

[[ply]]
material = "woven-24"
resin    = "r"

# the end
`

func TestRender_anEditChangesItsOwnLinesAlone(t *testing.T) {
	for _, c := range []struct {
		name    string
		edit    func(s *laminate.Schedule)
		changes []string // pairs: text before, text after
	}{
		{"a value", func(s *laminate.Schedule) { s.Plies[1].Count = 3 }, []string{"count     = 2  # said twice", "count     = 3  # said twice"}},
		{"a value in other quotes", func(s *laminate.Schedule) { s.Title = `New "title"` }, []string{"'Old title' ", `"New \"title\"" `}},
		{"a size", func(s *laminate.Schedule) {
			s.Part.InsideDiameter = quantity.New(30, quantity.Inch).Spelled(quantity.Inch)
		}, []string{`"24 in" # bore`, `"30 in" # bore`}},
		{"a value taken back", func(s *laminate.Schedule) { s.Part.Flanged = laminate.Optional[bool]{} }, []string{"flanged         = true\n", ""}},
		{"a count back to one", func(s *laminate.Schedule) { s.Plies[1].Count = 1 }, []string{"count     = 2  # said twice", "count     = 1  # said twice"}},
		{"a gel stop taken back", func(s *laminate.Schedule) { s.Plies[1].GelAfter = false }, []string{"gel_after = true", "gel_after = false"}},
		{"a new key in an aligned table", func(s *laminate.Schedule) { s.Plies[2].Angle = laminate.Some(45.5) }, []string{"\"woven-24\"\nresin    = \"r\"\n", "\"woven-24\"\nresin    = \"r\"\nangle    = 45.5\n"}},
		{"a longer key than the table has", func(s *laminate.Schedule) { s.Plies[2].GlassContent = laminate.Some(0.55) }, []string{"\"woven-24\"\nresin    = \"r\"\n", "\"woven-24\"\nresin    = \"r\"\nglass_content = 0.55\n"}},
		{"a new key above the comment below", func(s *laminate.Schedule) { s.Part.Ends = laminate.ClosedEnds }, []string{"flanged         = true\n", "flanged         = true\nends            = \"closed\"\n"}},
		{"a new key in a table that is not aligned", func(s *laminate.Schedule) { s.Resins[0].Cure = laminate.PeroxideAmine }, []string{"family = \"vinyl-ester\"\n", "family = \"vinyl-ester\"\ncure = \"peroxide-amine\"\n"}},
		{"a key of the top", func(s *laminate.Schedule) { s.Job = "R-1" }, []string{"units = \"us\"\n", "units = \"us\"\njob = \"R-1\"\n"}},
		{"notes of two lines", func(s *laminate.Schedule) { s.Notes = "one\ntwo \"2\"" }, []string{"units = \"us\"\n", "units = \"us\"\nnotes = \"\"\"\none\ntwo \\\"2\\\"\"\"\"\n"}},
		{"a new table", func(s *laminate.Schedule) { s.Service.Fluid = "brine" }, []string{"# the part ends\n", "# the part ends\n\n[service]\nfluid = \"brine\"\n"}},
		{"a ply at the end", func(s *laminate.Schedule) {
			s.Plies = append(s.Plies, laminate.Ply{Material: "mat-1.5", Resin: "r", Count: 2})
		}, []string{"\"woven-24\"\nresin    = \"r\"\n", "\"woven-24\"\nresin    = \"r\"\n\n[[ply]]\nmaterial = \"mat-1.5\"\nresin    = \"r\"\ncount    = 2\n"}},
		{"a ply at the front", func(s *laminate.Schedule) {
			s.Plies = slices.Insert(s.Plies, 0, laminate.Ply{Material: "veil-carbon-11", Resin: "r", Count: 1})
		}, []string{"# the veil\n", "[[ply]]\nmaterial = \"veil-carbon-11\"\nresin    = \"r\"\n\n# the veil\n"}},
		{"a ply between, above the comment of the section", func(s *laminate.Schedule) {
			s.Plies = slices.Insert(s.Plies, 1, laminate.Ply{Material: "veil-c-15", Resin: "r", Count: 1})
		}, []string{"\"veil-c-10\"\nresin    = \"r\"\n", "\"veil-c-10\"\nresin    = \"r\"\n\n[[ply]]\nmaterial = \"veil-c-15\"\nresin    = \"r\"\n"}},
		{"a ply gone, its section stays", func(s *laminate.Schedule) { s.Plies = slices.Delete(s.Plies, 1, 2) },
			[]string{"# two mats\n[[ply]]\nmaterial  = \"mat-1.5\"\nresin     = \"r\"\ncount     = 2  # said twice\ngel_after = true\n\n", ""}},
		{"the last ply gone", func(s *laminate.Schedule) { s.Plies = s.Plies[:2] }, []string{"\n[[ply]]\nmaterial = \"woven-24\"\nresin    = \"r\"\n", ""}},
		{"a ply moved takes its comment along", func(s *laminate.Schedule) {
			s.Plies = []laminate.Ply{s.Plies[1], s.Plies[2], s.Plies[0]}
		}, []string{"# the veil\n[[ply]] # first\nmaterial = \"veil-c-10\"\nresin    = \"r\"\n\n# --- barrier", "# --- barrier",
			"\"woven-24\"\nresin    = \"r\"\n", "\"woven-24\"\nresin    = \"r\"\n\n# the veil\n[[ply]] # first\nmaterial = \"veil-c-10\"\nresin    = \"r\"\n"}},
		{"a second use of a ply is new text", func(s *laminate.Schedule) { s.Plies = append(s.Plies, s.Plies[0]) },
			[]string{"\"woven-24\"\nresin    = \"r\"\n", "\"woven-24\"\nresin    = \"r\"\n\n[[ply]]\nmaterial = \"veil-c-10\"\nresin    = \"r\"\n"}},
		{"a first material", func(s *laminate.Schedule) {
			s.Materials = []laminate.Material{{ID: "m", Form: laminate.ResinCoat, Thickness: quantity.New(10, quantity.Mil).Spelled(quantity.Mil)}}
		}, []string{"family = \"vinyl-ester\"\n", "family = \"vinyl-ester\"\n\n[[material]]\nid = \"m\"\nform = \"resin-coat\"\nthickness = \"10 mil\"\n"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, eol := range []string{"\n", "\r\n"} {
				b := bytes.ReplaceAll([]byte(small), []byte("\n"), []byte(eol))
				src, s := decoded(t, b)
				now := s.Clone()
				c.edit(now)
				want := small
				for i := 0; i < len(c.changes); i += 2 {
					if strings.Count(want, c.changes[i]) != 1 {
						t.Fatalf("%q is not there once", c.changes[i])
					}
					want = strings.Replace(want, c.changes[i], c.changes[i+1], 1)
				}
				got := src.Render(now)
				if string(got) != strings.ReplaceAll(want, "\n", eol) {
					t.Errorf("got\n%s\nwant\n%s", got, want)
				}
				if !says(t, got, now) {
					t.Error("it does not say what the schedule does")
				}
				if !bytes.Equal(src.Render(s), b) {
					t.Error("undone, the bytes are others")
				}
			}
		})
	}
}

func TestRender_allPliesReplaced(t *testing.T) {
	src, s := decoded(t, []byte(small))
	now := s.Clone()
	now.Plies = []laminate.Ply{{Material: "a", Resin: "r", Count: 1}, {Material: "b", Resin: "r", Count: 1}}
	golden(t, "edit/all-plies-replaced.golden", src.Render(now))
	now.Plies = nil
	if got := src.Render(now); !says(t, got, now) || !bytes.Contains(got, []byte("# --- barrier ---")) {
		t.Errorf("without plies\n%s", got)
	}
}

func TestRender_inlineTablesAreRewrittenInFull(t *testing.T) {
	src, s := decoded(t, documents(t)["inline-tables.toml"])
	now := s.Clone()
	now.Part.Flanged = laminate.Some(false)
	now.Plies[1].Count = 4
	got := src.Render(now)
	if !says(t, got, now) {
		t.Error("it does not say what the schedule does")
	}
	golden(t, "edit/inline-tables.golden", got)
	title := s.Clone()
	title.Title = "Another"
	if got := string(src.Render(title)); got != strings.Replace(string(documents(t)["inline-tables.toml"]), "Sample plate, inline", "Another", 1) {
		t.Errorf("a title of a document with inline tables:\n%s", got)
	}
}

func TestNew_rendersCanonicalText(t *testing.T) {
	_, s := decoded(t, Example())
	text := New(bare(s)).Render(bare(s))
	if !says(t, text, s) {
		t.Error("it does not say what the schedule does")
	}
	tidy, problems := Tidy(text, nil)
	if len(problems) > 0 || !bytes.Equal(tidy, text) {
		t.Errorf("%v; not canonical:\n%s", problems, text)
	}
	if n := New(s).Line(laminate.PlyRef(0, "")); n != 0 {
		t.Errorf("line %d of no text", n)
	}
}

func TestTidy_golden(t *testing.T) {
	for name, b := range documents(t) {
		got, problems := Tidy(b, nil)
		if len(problems) > 0 {
			t.Fatal(name, problems)
		}
		golden(t, "tidy/"+strings.TrimSuffix(name, ".toml")+".golden", got)
		again, _ := Tidy(got, nil)
		if !bytes.Equal(got, again) {
			t.Errorf("%s: twice is not once:\n%s", name, again)
		}
		_, s := decoded(t, b)
		if !says(t, got, s) {
			t.Errorf("%s says something else", name)
		}
		if a, b := commentsOf(b), commentsOf(got); !slices.Equal(a, b) {
			t.Errorf("%s: comments were\n%q, are\n%q", name, a, b)
		}
	}
}

// commentsOf lists the comments of an example document; none of them has a #
// inside a text.
func commentsOf(b []byte) []string {
	var all []string
	for _, line := range strings.Split(string(b), "\n") {
		if i := strings.IndexByte(line, '#'); i >= 0 {
			all = append(all, strings.TrimSpace(line[i:]))
		}
	}
	slices.Sort(all)
	return all
}

// A key that an edit takes away leaves what somebody remarked on it.
func TestRender_aKeyThatGoesLeavesItsComment(t *testing.T) {
	const text = "document = \"schedule\"\nformat = 1\n[service]\nph = [ # both\n  2,\n\n  4, # of the wash\n]\n[[ply]]\nmaterial = \"helical\"\n" +
		"# above\nangle = 60  # by the winder's log\ncount = 2\nzone = \"structural-layer\" \n"
	for _, b := range [][]byte{[]byte(text), crlf([]byte(text)), []byte("\ufeff" + text)} {
		src, s, _ := Decode(b, nil)
		if s == nil {
			t.Fatalf("not read: %s", b)
		}
		now := s.Clone()
		now.Plies[0].Material, now.Plies[0].Angle, now.Plies[0].Zone = catalog.Mat15, laminate.Optional[float64]{}, laminate.NoZone
		now.Service.PH = laminate.PHRange{}
		got := src.Render(now)
		want := strings.NewReplacer("helical", catalog.Mat15, "angle", "# angle", "zone = \"structural-layer\" \n", "", "zone = \"structural-layer\" \r\n", "",
			"ph =", "# ph =", "  2,", "#   2,", "  4,", "#   4,", "\n]", "\n# ]").Replace(string(b))
		if string(got) != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
		if _, back, problems := Decode(got, nil); len(problems) > 0 || back.Plies[0].Angle.Given || back.Service.PH.Given {
			t.Errorf("%v in\n%s", problems, got)
		}
		if back := src.Render(s); !bytes.Equal(back, b) {
			t.Errorf("undone it is\n%s", back)
		}
	}
}

// However a value may be written, tidying leaves it so; what stands on several
// lines and is no text goes on one.
func TestTidy_leavesValuesAsTheyAreWritten(t *testing.T) {
	schedule := "document = 'schedule'\nformat = +1\ntitle = 'a \"b\" # c'\njob = \"\\u0041\"\nrevision = +2\nauthor = ''\nnotes = '''\none\n  \\two # no remark\n'''\n" +
		"[part]\nform = \"\"\"pipe\"\"\"\ninside_diameter = '12.0 in'\n[service]\nconcentration = 5e-1\nph = [ 1.0,2 ]\n" +
		"[[resin]]\nid = 'r'\nfamily = 'vinyl-ester'\n[[ply]]\nmaterial = 'mat-1.5'\nresin = 'r'\ncount = 1_0\n"
	job := "document = 'job'\nformat = 1\ntitle = 'j'\n[[laminate]]\nid = 'a'\n[[laminate.ply]]\nmaterial = 'mat-1.5'\ncount = 0b11\n[[part]]\nid = 'p'\nlaminate = 'a'\n"
	book := "document = 'shop-book'\nformat = 1\n[takeoff]\nresin_waste_contact = 1e-1\nlap = '0.0 in'\nhour_price = 6_0.0\ncurrency = 'EUR'\n"
	values := func(b []byte) []string {
		var all []string
		for line := range strings.Lines(string(b)) {
			line = strings.TrimRight(line, "\r\n")
			if _, value, ok := strings.Cut(line, "="); ok && !strings.HasPrefix(line, "zone ") {
				all = append(all, strings.TrimSpace(value))
			} else if ok || line == "" || line[0] == '[' {
				continue
			} else {
				all = append(all, line)
			}
		}
		return all
	}
	for _, text := range []string{schedule, job, book} {
		for _, b := range [][]byte{[]byte(text), crlf([]byte(text))} {
			got, problems := Tidy(b, catalog.Library())
			if was, is := values(b), values(got); len(problems) > 0 || !slices.Equal(was, is) {
				t.Errorf("%v: values were\n%q, are\n%q", problems, was, is)
			}
		}
	}
}

func TestTidy_writesZonesOut(t *testing.T) {
	zones := catalog.Library()
	b := documents(t)["pipe-wound-brine.toml"]
	got, problems := Tidy(b, zones)
	if len(problems) > 0 || bytes.Count(got, []byte("zone     = \"structural-layer\"")) < 2 {
		t.Errorf("%v\n%s", problems, got)
	}
	if again, _ := Tidy(got, zones); !bytes.Equal(got, again) {
		t.Error("twice is not once")
	}
	if _, problems := Tidy([]byte("format = 1"), zones); len(problems) == 0 {
		t.Error("a document that cannot be read was tidied")
	}
}
