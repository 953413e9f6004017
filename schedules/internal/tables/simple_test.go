package tables

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

var headers = regexp.MustCompile(`(?m)^(\[\[?)([a-z][a-z.-]*)\]`)

// headed makes tables of the headers that stand in a text, parents first.
func headed(text []byte) []Table {
	array := map[string]bool{}
	var names []string
	for _, m := range headers.FindAllSubmatch(text, 60) {
		parts := strings.Split(string(m[2]), ".")
		for i := range min(len(parts), 2) {
			name := strings.Join(parts[:i+1], ".")
			if parts[i] == "" {
				return []Table{{}}
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		if _, known := array[string(m[2])]; !known {
			array[string(m[2])] = string(m[1]) == "[["
		}
	}
	slices.SortStableFunc(names, func(a, b string) int { return strings.Count(a, ".") - strings.Count(b, ".") })
	tables := []Table{{}}
	for _, n := range names {
		tables = append(tables, Table{Name: n, Array: array[n]})
	}
	return tables
}

// rebuilt puts the values that the scan took into maps as the library does.
func rebuilt(d *Document) map[string]any {
	maps := make([][]map[string]any, len(d.Tables))
	maps[0] = []map[string]any{{}}
	for t := 1; t < len(d.Tables); t++ {
		for row := range d.rows[t] {
			own, parent := map[string]any{}, maps[d.parents[t]][d.of[t][row]]
			if d.Tables[t].Array {
				list, _ := parent[d.short[t]].([]map[string]any)
				parent[d.short[t]] = append(list, own)
			} else {
				parent[d.short[t]] = own
			}
			maps[t] = append(maps[t], own)
		}
	}
	for i, l := range d.leaves {
		maps[l.Table][l.Row][l.Key] = d.simple[i]
	}
	return maps[0][0]
}

// same fails where the scan takes values and the library reads others, or none.
func same(t *testing.T, text []byte) (simple bool) {
	d, problems := scan(text, headed(text))
	if d == nil || len(problems) > 0 || d.simple == nil {
		return false
	}
	var want map[string]any
	if _, err := toml.Decode(string(text), &want); err != nil {
		t.Fatalf("the scan took the values of %q, the library says %v", text, err)
	}
	if got := rebuilt(d); !reflect.DeepEqual(got, want) && len(got)+len(want) > 0 {
		t.Fatalf("of %q the scan took %#v, the library reads %#v", text, got, want)
	}
	return true
}

var spellings = []string{
	"a = \"b\"\n", "a = 'b'\n", "a = 1\nb = -2\nc = 0\nd = -0\n", "a = 1.5\nb = -0.25\nc = 100.0\n", "a = true\nb = false\n",
	"a = [1, 2.5, \"x\", true]\n", "a = []\n", "a = [ # one\n 1,\n 2, # two\n]\n", "a = \"\"\"\nlines\nmore\n\"\"\"\n", "a = \"\"\"x\"\"\"\n", "a = \"é – µ\" # c\n",
	"[one]\na = 1\n[[many]]\n[[many]]\na = 1\n[[many.in]]\nb = \"x\"\n[[many]]\n[[many.in]]\nb = 2\n",
	"a = 2026-03-02T07:15:00Z\nb = 2026-03-02T07:15:00+05:30\nc = 2026-12-31T23:59:59-08:00\nd = [2026-03-02T07:15:00Z]\n",
	// Not simple, whatever they mean.
	"a = 2026-03-02T07:15:00\n", "a = 2026-03-02t07:15:00z\n", "a = 2026-03-02 07:15:00Z\n", "a = 2026-03-02T07:15:00.5Z\n", "a = 2026-02-30T07:15:00Z\n", "a = 2026-03-02T07:15Z\n",
	"a = 1_000\n", "a = 0x1f\n", "a = +1\n", "a = 01\n", "a = 1e5\n", "a = inf\n", "a = nan\n", "a = 1979-05-27\n", "a = \"\\u00e9\"\n", "a = '''x'''\n", "a = '\\'\n",
	"a = {b = 1}\n", "a.b = 1\n", "\"a\" = 1\n", "a = 1\na = 2\n", "[one]\n[one]\n", "[[one]]\n[one]\n", "[many.in]\n[many]\n", "a = [[1]]\n", "a = [\"\"\"x\"\"\"]\n",
	"a = \"\"\"x\"\"\"\"\n", "a = \"\"\"\"\"\"\n", "a = 1\r\n", "a = 99999999999999999999\n", "[ one ]\na = 1\n", "a = 1. \n", "a = .5\n", "a = 1\n[a]\n",
}

// Whatever values the scan takes from a text are those that the TOML library
// reads, and it takes none from a text that the library refuses.
func TestScan_takesTheValuesThatTheLibraryReads(t *testing.T) {
	for i, text := range spellings {
		if simple := same(t, []byte(text)); simple != (i < 13) {
			t.Errorf("%q: simple %v", text, simple)
		}
	}
	n := 0
	_ = filepath.WalkDir(filepath.Join("..", "..", "..", "testdata"), func(path string, _ os.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".toml") {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if same(t, text) {
				n++
			}
		}
		return nil
	})
	if n < 8 {
		t.Errorf("of the documents in testdata the scan takes the values of %d", n)
	}
}

func FuzzScanValues(f *testing.F) {
	for _, text := range spellings {
		f.Add([]byte(text))
	}
	f.Add([]byte(grouped))
	f.Fuzz(func(t *testing.T, text []byte) { same(t, text) })
}
