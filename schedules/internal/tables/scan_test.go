package tables

import (
	"fmt"
	"strings"
	"testing"
)

var known = []Table{{}, {Name: "one"}, {Name: "many", Array: true, Most: 3}, {Name: "many.inner", Array: true, Most: 9}, {Name: "one.inner", Array: true, Most: 9}}

// cuts are the pieces of text that the outline points at.
func cuts(o *Document) string {
	var all []string
	for _, l := range o.leaves {
		mark := ""
		if l.Plain {
			mark = "plain"
		}
		if l.Of > 0 {
			mark = "container"
		}
		all = append(all, fmt.Sprintf("%d/%d %s=%s %s", l.Table, l.Row, l.Key, o.Data[l.Value:l.End], mark))
	}
	return strings.Join(all, "; ")
}

// The ranges expected here are read off the text by eye; the grammar is TOML
// 1.0's.
func TestScan_pointsAtEveryKey(t *testing.T) {
	for text, want := range map[string]string{
		"a = 1 # c\n[one]\nb='x#y' # d\n":                                  "0/0 a=1 plain; 1/0 b='x#y' plain",
		"[[many]]\na = 1\n[[ many ]] # x\na = [1, # c\n 2]":                "2/0 a=1 plain; 2/1 a=[1, # c\n 2] plain",
		"one.a = 1\none.b = 2":                                             "1/0 a=1 ; 1/0 b=2 ",
		"one = { a = 1, b = {c = 2} }":                                     "0/0 one={ a = 1, b = {c = 2} } container; 1/0 a=1 ; 1/0 b={c = 2} ",
		"many = [{a = 1}, {a = 2}]":                                        "0/0 many=[{a = 1}, {a = 2}] container; 2/0 a=1 ; 2/1 a=2 ",
		"\"a\" = \"\"\"\n[one]\n\"\"\"\n":                                  "0/0 a=\"\"\"\n[one]\n\"\"\" plain",
		"[other]\nx = 1":                                                   "0/0 other= ",
		"[one.deep]\nx = 1":                                                "1/0 deep= ",
		"[[many]]\n[[many.inner]]\na = 1\n[[many]]\n[[many.inner]]\na = 2": "3/0 a=1 plain; 3/1 a=2 plain",
		"[[one.inner]]\na = 1\n[one]\na = 2":                               "4/0 a=1 plain; 1/0 a=2 plain",
		"[[many]]\ninner = [{a = 1}]":                                      "2/0 inner=[{a = 1}] container; 3/0 a=1 ",
		"many = [{inner = [{a = 1}]}, {inner = [{a = 2}]}]":                "0/0 many=[{inner = [{a = 1}]}, {inner = [{a = 2}]}] container; 2/0 inner=[{a = 1}] container; 3/0 a=1 ; 2/1 inner=[{a = 2}] container; 3/1 a=2 ",
		"one.inner = [{a = 1}]":                                            "0/0 one=[{a = 1}] container; 4/0 a=1 ",
		"[[many.inner.deep]]\na=1":                                         "3/0 deep= ",
		"[one]\r\na = 1\r\n":                                               "1/0 a=1 plain",
		"":                                                                 "",
	} {
		o, errs := scan([]byte(text), known)
		if len(errs) > 0 {
			t.Errorf("%q: %v", text, errs)
			continue
		}
		if got := cuts(o); got != want {
			t.Errorf("%q is cut into\n%s, want\n%s", text, got, want)
		}
	}
}

func TestScan_headersReachFromBracketToBracket(t *testing.T) {
	o, errs := scan([]byte("x = '['\n  [ \"one\" ] # [x]\n[[many]]\n[[ many ]]\n"), known)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	var got []string
	for _, h := range o.Heads {
		got = append(got, fmt.Sprintf("%d/%d %s", h.Table, h.Row, o.Data[h.Start:h.End]))
	}
	if want := `1/0 [ "one" ]; 2/0 [[many]]; 2/1 [[ many ]]`; strings.Join(got, "; ") != want {
		t.Errorf("headers are %q, want %q", strings.Join(got, "; "), want)
	}
}

func TestScan_refuses(t *testing.T) {
	for text, want := range map[string]string{
		"a = ": "line 1: this is not TOML", "[[many]]\n[[many]]\n[[many]]\n[[many]]\n": "line 4: many: there are more than 3 [[many]] tables",
		"[[many]]\n" + strings.Repeat("[[many.inner]]\n", 10):      "line 11: many.inner: there are more than 9 [[many.inner]] tables",
		"a = " + strings.Repeat("[", 20) + strings.Repeat("]", 20): "line 1: values are nested more than 16 deep",
		"a = " + strings.Repeat("[", 20_000):                       "line 1: this is not TOML",
		strings.Repeat("a.", 20) + "b = 1":                         "line 1: a key has more than 16 parts",
		"a = [" + strings.Repeat("1,", 1_000_001) + "]":            "line 1: the document has more than 1000000 values",
	} {
		o, errs := scan([]byte(text), known)
		if o != nil || len(errs) != 1 || !strings.HasPrefix(errs[0].String(), want) {
			t.Errorf("%.40q: %v, want %q", text, errs, want)
		}
	}
}

func TestValues_keysGivenTwiceAreToldAndTheRestIsRead(t *testing.T) {
	o, errs := scan([]byte("a = 1\na = 2\n[[many]]\nb = [\n1]\nb = [\n2]\n[[many]]\nb = 3\n[one]\nc = 1\n[one]\nc = 2\nd = 2\n"), known)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	m, errs := o.values()
	var got []string
	for _, e := range errs {
		got = append(got, fmt.Sprintf("%d %s %s", e.Line, e.Key, e.Message))
	}
	want := "12 one the table is given twice, first on line 10; 2 a it is given twice, first on line 1; 6 many.b it is given twice, first on line 4"
	if strings.Join(got, "; ") != want {
		t.Errorf("told %q, want %q", strings.Join(got, "; "), want)
	}
	if m["a"] != int64(1) || fmt.Sprint(m["many"]) != "[map[b:[1]] map[b:3]]" || fmt.Sprint(m["one"]) != "map[c:1]" {
		t.Errorf("values %v", m)
	}
}

func TestTop_readsWhatStandsBeforeTheFirstTable(t *testing.T) {
	top, errs := Top([]byte("a = 'x'\nb = 1\nc = [1]\nd.e = 2\ng = 3\n[one]\nf = \n"), "a", "b", "c", "d")
	if len(errs) > 0 || fmt.Sprint(top) != "map[a:{0 x true false} b:{8 1 false true} c:{14 [1] false false}]" {
		t.Errorf("%v %v", top, errs)
	}
	if top, errs := Top([]byte("a = 1\nb = \n"), "a", "b"); len(errs) != 1 || top["a"].Value != "1" {
		t.Errorf("%v %v", top, errs)
	}
	if top, errs := Top([]byte("a = 1\na = 2\nb = \n"), "a"); len(errs) != 0 || top["a"].Value != "1" {
		t.Errorf("it reads on behind what was wanted: %v %v", top, errs)
	}
}

func TestComments_insideAValue(t *testing.T) {
	got := Comments([]byte("a = [ # one\n  # two\n  # three\n  \"# no\", # four\n  2,\n  # five\r\n]"))
	if strings.Join(got, "|") != "# one|# two|# three|# four|# five" {
		t.Errorf("%q", got)
	}
	if got := Comments([]byte(`a = "#"`)); len(got) > 0 {
		t.Errorf("%q", got)
	}
}
