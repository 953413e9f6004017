package tables

import (
	"bytes"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
)

// A model of its own: groups of items, and tables around them.
type (
	item struct {
		laminate.Origin
		Name  string
		Count int
	}
)

type groupRow struct {
	laminate.Origin
	ID string
}

type groupModel struct {
	Title  string
	Groups []groupRow
	Items  [][]item // by group
	Tail   []item
}

var itemFields = []Field{TextField("name", func(i *item) *string { return &i.Name }), CountField("count", func(i *item) *int { return &i.Count })}

var nested = []Table{
	One("", []Field{TextField("title", func(m *groupModel) *string { return &m.Title })}, func(m *groupModel) *groupModel { return m }),
	Many("group", 1000, []Field{TextField("id", func(g *groupRow) *string { return &g.ID })}, func(m *groupModel) *[]groupRow { return &m.Groups }),
	Nested("group.item", 1000, itemFields, func(m *groupModel) []*[]item {
		for len(m.Items) < len(m.Groups) {
			m.Items = append(m.Items, nil)
		}
		var lists []*[]item
		for i := range m.Items {
			lists = append(lists, &m.Items[i])
		}
		return lists
	}),
	Many("tail", 1000, itemFields, func(m *groupModel) *[]item { return &m.Tail }),
}

const grouped = `title = "t" # the title

# of a
[[group]] # a
id = "a"

  # first of a
  [[group.item]]
  name = "a1" # a1

  [[group.item]] # a2
  name  = "a2"
  count = 2

# between

[[tail]]
name = "t1"

# of b
[[group]]
id="b"
[[group.item]]
name="b1"
# below b1

[[group]] # c has none
id = "c"

[[tail]]
name = "t2" # last
`

func (m *groupModel) clone() *groupModel {
	c := &groupModel{Title: m.Title, Groups: slices.Clone(m.Groups), Tail: slices.Clone(m.Tail)}
	for _, list := range m.Items {
		c.Items = append(c.Items, slices.Clone(list))
	}
	return c
}

// bare is what a model says, without origins.
func (m *groupModel) bare() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q", m.Title)
	for i, g := range m.Groups {
		fmt.Fprintf(&b, " [%q", g.ID)
		for _, it := range m.Items[i] {
			fmt.Fprintf(&b, " %q×%d", it.Name, it.Count)
		}
		b.WriteString("]")
	}
	for _, it := range m.Tail {
		fmt.Fprintf(&b, " %q×%d", it.Name, it.Count)
	}
	return b.String()
}

func readGroups(t interface{ Fatalf(string, ...any) }, text []byte) (*Document, *groupModel) {
	m := new(groupModel)
	d, problems := Read(text, nested, m)
	if len(problems) > 0 {
		t.Fatalf("%v in\n%s", problems, text)
	}
	d.Was = m.clone()
	return d, m
}

func TestNested_rowsAreCountedThroughTheFileEachWithItsParent(t *testing.T) {
	d, m := readGroups(t, []byte(grouped))
	if got, want := m.bare(), `"t" ["a" "a1"×1 "a2"×2] ["b" "b1"×1] ["c"] "t1"×1 "t2"×1`; got != want {
		t.Errorf("read as %s, want %s", got, want)
	}
	if m.Items[1][0].Origin != 3 || d.LineAt(d.Offset(Spot{2, 2, "name"})) != 24 {
		t.Errorf("b1 has origin %d and line %d", m.Items[1][0].Origin, d.LineAt(d.Offset(Spot{2, 2, "name"})))
	}
	if got := d.Render(m); string(got) != grouped {
		t.Errorf("rendered as\n%s", got)
	}
}

func TestNested_anEditChangesItsLinesAlone(t *testing.T) {
	for what, c := range map[string]struct {
		edit      func(*groupModel)
		old, next string
	}{
		"a value of an item":         {func(m *groupModel) { m.Items[1][0].Name = "x" }, `name="b1"`, `name="x"`},
		"a value of a group":         {func(m *groupModel) { m.Groups[1].ID = "x" }, `id="b"`, `id="x"`},
		"an item put behind":         {func(m *groupModel) { m.Items[1] = append(m.Items[1], item{Name: "n", Count: 1}) }, "# below b1\n", "# below b1\n\n[[group.item]]\nname=\"n\"\n"},
		"an item of a group without": {func(m *groupModel) { m.Items[2] = []item{{Name: "n", Count: 1}} }, "id = \"c\"\n", "id = \"c\"\n\n[[group.item]]\nname=\"n\"\n"},
		"an item taken out":          {func(m *groupModel) { m.Items[0] = m.Items[0][:1] }, "\n  [[group.item]] # a2\n  name  = \"a2\"\n  count = 2\n", ""},
		"a group put between": {func(m *groupModel) {
			m.Groups = slices.Insert(m.Groups, 1, groupRow{ID: "n"})
			m.Items = slices.Insert(m.Items, 1, []item{{Name: "n1", Count: 1}})
		}, "  count = 2\n", "  count = 2\n\n[[group]]\nid = \"n\"\n\n[[group.item]]\nname=\"n1\"\n"},
		"a group taken out": {func(m *groupModel) { m.Groups, m.Items = slices.Delete(m.Groups, 1, 2), slices.Delete(m.Items, 1, 2) },
			"# of b\n[[group]]\nid=\"b\"\n[[group.item]]\nname=\"b1\"\n# below b1\n\n", ""},
		"an item moved to another group": {func(m *groupModel) {
			m.Items[2], m.Items[1] = m.Items[1], nil
		}, "[[group.item]]\nname=\"b1\"\n# below b1\n\n[[group]] # c has none\nid = \"c\"\n", "\n[[group]] # c has none\nid = \"c\"\n\n[[group.item]]\nname=\"b1\"\n# below b1\n"},
	} {
		d, m := readGroups(t, []byte(grouped))
		c.edit(m)
		want := strings.Replace(grouped, c.old, c.next, 1)
		if got := string(d.Render(m)); got != want {
			t.Errorf("%s gives\n%s\nwant\n%s", what, got, want)
		}
	}
}

// someItem draws an item; a count may be what it is when left out.
func someItem(t *rapid.T) item {
	return item{Name: rapid.StringMatching(`[a-z#\[ ]{0,4}`).Draw(t, "name"), Count: rapid.IntRange(1, 3).Draw(t, "count")}
}

func (m *groupModel) edited(t *rapid.T) *groupModel {
	m = m.clone()
	at := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "at") }
	g := -1
	if len(m.Groups) > 0 {
		g = at(len(m.Groups))
	}
	switch what := rapid.IntRange(0, 9).Draw(t, "edit"); {
	case what == 0 || g < 0:
		i := at(len(m.Groups) + 1)
		m.Groups = slices.Insert(m.Groups, i, groupRow{ID: rapid.StringMatching("[a-z]{0,2}").Draw(t, "id")})
		m.Items = slices.Insert(m.Items, i, []item{someItem(t)})
	case what == 1:
		m.Groups, m.Items = slices.Delete(m.Groups, g, g+1), slices.Delete(m.Items, g, g+1)
	case what == 2: // moved
		to := at(len(m.Groups))
		m.Groups[g], m.Groups[to] = m.Groups[to], m.Groups[g]
		m.Items[g], m.Items[to] = m.Items[to], m.Items[g]
	case what == 3: // copied
		m.Groups = append(m.Groups, m.Groups[g])
		m.Items = append(m.Items, slices.Clone(m.Items[g]))
	case what == 4:
		m.Groups[g].ID += "x"
	case what == 5 && len(m.Items[g]) > 0: // an item moved
		i, to := at(len(m.Items[g])), at(len(m.Groups))
		it := m.Items[g][i]
		m.Items[g] = slices.Delete(m.Items[g], i, i+1)
		m.Items[to] = slices.Insert(m.Items[to], at(len(m.Items[to])+1), it)
	case what == 6 && len(m.Items[g]) > 0:
		m.Items[g][at(len(m.Items[g]))].Count++
	case what == 7:
		slices.Reverse(m.Items[g])
	case what == 8:
		m.Tail = append(m.Tail, someItem(t))
	default:
		m.Items[g] = slices.Insert(m.Items[g], at(len(m.Items[g])+1), someItem(t))
	}
	return m
}

func TestNested_anyEditsReadBackAndUndoToTheSameBytes(t *testing.T) {
	texts := map[string]string{"grouped": grouped, "empty": "", "inline": "group = [{id = 'a', item = [{name = 'x'}, {name = 'y'}]}, {id = 'b'}]\n[[tail]]\nname = 't'\n",
		"inline items": "[[group]] # c\nid = 'a'\nitem = [ # why\n {name = 'x'}, # x\n]\n[[group]]\nid = 'b'\n[[group.item]]\nname = 'z'"}
	rapid.Check(t, func(t *rapid.T) {
		text := texts[rapid.SampledFrom([]string{"grouped", "empty", "inline", "inline items"}).Draw(t, "text")]
		if rapid.Bool().Draw(t, "crlf") {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		d, m := readGroups(t, []byte(text))
		for now := m; ; {
			got := d.Render(now)
			_, back := readGroups(t, got)
			if back.bare() != now.bare() {
				t.Fatalf("reads back as %s, not %s, from\n%s", back.bare(), now.bare(), got)
			}
			plain := func(text []byte) []byte {
				d, m := readGroups(t, text)
				return Canonical(nested, m, d, d.EOL())
			}
			if once := plain(got); !bytes.Equal(once, plain(once)) {
				t.Fatalf("tidied once\n%s\ntwice\n%s", once, plain(once))
			}
			if rapid.IntRange(0, 4).Draw(t, "end") == 0 {
				break
			}
			now = now.edited(t)
		}
		if got := d.Render(m); string(got) != text {
			t.Fatalf("undone it is\n%s", got)
		}
	})
}

func TestNested_commentsSurviveEveryOrder(t *testing.T) {
	words := func(b []byte) []string {
		var all []string
		for _, line := range strings.Split(string(b), "\n") {
			if _, c, ok := strings.Cut(line, "#"); ok {
				all = append(all, c)
			}
		}
		slices.Sort(all)
		return all
	}
	rapid.Check(t, func(t *rapid.T) {
		d, m := readGroups(t, []byte(grouped))
		order := rapid.Permutation([]int{0, 1, 2}).Draw(t, "order")
		now := m.clone()
		for i, o := range order {
			now.Groups[i], now.Items[i] = m.Groups[o], rapid.Permutation(m.Items[o]).Draw(t, "items")
		}
		if got := d.Render(now); !reflect.DeepEqual(words(got), words([]byte(grouped))) {
			t.Fatalf("the comments are %q in\n%s", words(got), got)
		}
	})
}

func TestNested_problemsNameTheRowThatTheyAreIn(t *testing.T) {
	for text, want := range map[string]string{
		"[[group]]\n[[group.item]]\n[[group]]\n[[group.item]]\nnme = 'x'": `line 5: group.item.nme: this key is not known; the nearest is "name"`,
		"[[group]]\n[[group.itm]]\n":                                      `line 2: group.itm: this key is not known; the nearest is "item"`,
		"[[group]]\n[group.item]\n":                                       "line 2: group.item: there may be several: write [[group.item]]",
		"[[group]]\nid = 'a'\n[[group]]\nitem = 3\n":                      "line 4: group.item: [[group.item]] tables are expected, not the number 3",
		"[[group.item]]\nname = 'a'":                                      "line 1: group: there may be several: write [[group]]",
		"[[group]]\nid = 'a'\n[[group.item]]\nname = 'x'\nname = 'y'\n":   "line 5: group.item.name: it is given twice, first on line 4",
		"group = [{item = [{name = 'x', count = 'y'}]}]":                  "line 1: group.item.count: a whole number is expected, not the text \"y\"",
		"[[group]]\n[[group.item.deep]]\nx = 1":                           "line 2: group.item: there may be several: write [[group.item]]",
	} {
		m := new(groupModel)
		_, problems := Read([]byte(text), nested, m)
		var got []string
		for _, p := range Sorted(problems) {
			got = append(got, p.String())
		}
		if strings.Join(got, "; ") != want {
			t.Errorf("%q: told\n%s\nwant\n%s", text, strings.Join(got, "; "), want)
		}
	}
}
