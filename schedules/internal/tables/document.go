package tables

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/word"
)

// Document is a text cut up by the tables it may have. It is immutable once
// Was is set and may be used from several goroutines.
type Document struct {
	Tables []Table
	Data   []byte
	Heads  []Head
	Was    any // the model as decoded; whoever decodes sets it before rendering

	parents []int    // by table: the one it stands in
	short   []string // by table: its name there
	leaves  []Leaf
	rows    []int   // by table: how many
	at      [][]int // by table and row: where it begins
	of      [][]int // by table and row: the row of the parent
	// odd tells by table that some of it is written inline, with dotted keys or
	// only by a table within it, so that no line stands for one key.
	odd []bool
	// uneven tells that some leaf is not plain, so that the leaves of a row need
	// not stand together behind where it begins.
	uneven bool
	// simple are the values by leaf where the scan could take them from the text
	// itself; nil where the value reader has to, and once they are in the model.
	simple []any

	cut    func() *layout
	places func() map[Spot]int // where uneven
	lines  func() []int        // offsets of the line ends
	plain  func() *Document    // the same in canonical form, comments kept
}

// Spot names a key of a row of a table; with no key, the row.
type Spot struct {
	Table, Row int
	Key        string
}

// Read decodes data into model as far as it goes, and numbers the rows. The
// document is nil where the text is not TOML; all else that is wrong comes
// beside it.
func Read(data []byte, tables []Table, model any) (*Document, []Problem) {
	d, problems := scan(data, tables)
	if d == nil {
		return nil, Sorted(problems)
	}
	if d.simple != nil {
		problems = d.fillSimple(model)
		d.simple = nil
		return d, problems
	}
	values, problems := d.values()
	if values == nil {
		return nil, Sorted(problems)
	}
	return d, append(problems, d.fill(model, values)...)
}

// Strange tells the texts of a model that no screen should be sent.
func (d *Document) Strange(problems []Problem, model any) []Problem {
	for i := range d.Tables {
		for n, row := range d.Tables[i].rows(model) {
			for _, f := range d.Tables[i].Fields {
				if f.Check == nil {
					continue
				}
				if wrong := f.Check(row.Value); wrong != "" {
					problems = d.Fault(problems, Spot{i, n, f.Key}, wrong)
				}
			}
		}
	}
	return problems
}

// EOL is the line end of the document.
func (d *Document) EOL() string { return d.cut().eol }

// Fault adds a problem at a place of the model, unless the value there could
// not even be read: that is told already.
func (d *Document) Fault(problems []Problem, at Spot, message string) []Problem {
	if len(problems) > 4*mostProblems {
		return problems
	}
	p := problemAt(d.Data, max(0, d.Offset(at)), Name(&d.Tables[at.Table], at.Key), message)
	for i := range problems {
		if problems[i].Line == p.Line && problems[i].Key == p.Key {
			return problems
		}
	}
	return append(problems, p)
}

// Name is a key as problems call it, with its table: "ply.count".
func Name(t *Table, key string) string {
	switch {
	case t.Name == "":
		return SafeKey(key)
	case key == "":
		return t.Name
	}
	return t.Name + "." + SafeKey(key)
}

// prepare sets up what is found out only where somebody asks.
func (d *Document) prepare() {
	d.cut = sync.OnceValue(d.blocks)
	d.places = sync.OnceValue(func() map[Spot]int {
		m := make(map[Spot]int, len(d.leaves))
		for i, l := range d.leaves {
			if _, taken := m[Spot{l.Table, l.Row, l.Key}]; !taken && l.Of == 0 {
				m[Spot{l.Table, l.Row, l.Key}] = i
			}
		}
		return m
	})
	d.lines = sync.OnceValue(func() []int {
		ends := make([]int, 0, bytes.Count(d.Data, []byte{'\n'}))
		for i, c := range d.Data {
			if c == '\n' {
				ends = append(ends, i)
			}
		}
		return ends
	})
	d.plain = sync.OnceValue(d.inCanonicalForm)
}

// typedRows finds the rows of a table among the values of the one it stands in.
func typedRows(values map[string]any, t *Table, short string) (rows []map[string]any, wrong string) {
	v, ok := values[short]
	if !ok {
		return nil, ""
	}
	switch v := v.(type) {
	case map[string]any:
		if !t.Array {
			return []map[string]any{v}, ""
		}
		return nil, "there may be several: write " + t.header()
	case []map[string]any:
		if t.Array {
			return v, ""
		}
	case []any:
		if !t.Array {
			break
		}
		for _, x := range v {
			m, ok := x.(map[string]any)
			if !ok {
				return nil, fmt.Sprintf("a %s table is expected, not %s", t.header(), KindOf(x))
			}
			rows = append(rows, m)
		}
		return rows, ""
	}
	if t.Array {
		return nil, fmt.Sprintf("%s tables are expected, not %s", t.header(), KindOf(v))
	}
	return nil, "there is one alone: write " + t.header()
}

// fill puts the values into the model and tells what is wrong with them.
func (d *Document) fill(model any, values map[string]any) []Problem {
	var problems []Problem
	fail := func(at int, key, message string) {
		problems = append(problems, problemAt(d.Data, at, key, message))
	}
	typed := make([][]map[string]any, len(d.Tables))
	rows := make([][]Row, len(d.Tables))
	typed[0], rows[0] = []map[string]any{values}, d.Tables[0].rows(model)
	for i := 1; i < len(d.Tables); i++ {
		t := &d.Tables[i]
		var counts []int
		for parent, outer := range typed[d.parents[i]] {
			own, wrong := typedRows(outer, t, d.short[i])
			if wrong != "" {
				fail(d.tableAt(i, parent), t.Name, wrong)
			}
			counts = append(counts, len(own))
			typed[i] = append(typed[i], own...)
		}
		rows[i] = t.begin(model, counts)
	}
	return d.set(problems, rows, func(_ int, l *Leaf) (value any, ok bool) {
		if l.Row >= len(typed[l.Table]) {
			return nil, false
		}
		value, ok = typed[l.Table][l.Row][l.Key]
		return value, ok
	})
}

// begin makes the rows of a table, so many a row of its parent, and numbers them.
func (t *Table) begin(model any, counts []int) []Row {
	t.resize(model, counts)
	rows := t.rows(model)
	for n := range rows {
		if o := origin(rows[n].Value); o != nil {
			*o = laminate.Origin(n + 1)
		}
	}
	return rows
}

// set puts the value of each key into its row, and tells what is wrong with it
// or that the key is not known.
func (d *Document) set(problems []Problem, rows [][]Row, value func(i int, l *Leaf) (any, bool)) []Problem {
	fail := func(at int, key, message string) {
		problems = append(problems, problemAt(d.Data, at, key, message))
	}
	var last Spot
	for i := range d.leaves {
		l := &d.leaves[i]
		if len(problems) > 4*mostProblems {
			break
		}
		if l.Of > 0 || l.Row >= len(rows[l.Table]) {
			continue
		}
		t := &d.Tables[l.Table]
		here := Spot{l.Table, l.Row, l.Key}
		if l.Sub && here == last {
			continue // one more part of a key that is told already
		}
		last = here
		f := t.Field(l.Key)
		v, ok := value(i, l)
		if f == nil {
			if _, taken := d.find(l.Table, [][]byte{[]byte(l.Key)}); taken == 0 {
				fail(l.Start, Name(t, l.Key), d.unknown(l.Table, l.Key, v))
			}
			continue
		}
		if !ok {
			continue // the second of two, left out
		}
		if wrong := f.Set(rows[l.Table][l.Row].Value, v); wrong != "" {
			fail(l.Value, Name(t, l.Key), wrong)
		}
	}
	return problems
}

// unknown says what an unknown key of a table may have meant by its value.
func (d *Document) unknown(table int, key string, v any) string {
	var known []string
	for _, f := range d.Tables[table].Fields {
		known = append(known, f.Key)
	}
	for i := 1; i < len(d.Tables); i++ {
		if d.parents[i] == table {
			known = append(known, d.short[i])
		}
	}
	if now := word.Renamed(key, known); now != "" {
		return fmt.Sprintf("this key is called %q now", now)
	}
	for i := range d.Tables {
		if d.parents[i] != table && d.short[i] == key && (KindOf(v) == "a table" || KindOf(v) == "a list") {
			return "this table is not known here; write " + d.Tables[i].header()
		}
	}
	if n := word.Nearest(key, known); n != "" {
		return fmt.Sprintf("this key is not known; the nearest is %q", n)
	}
	if at, n := d.elsewhere(table, key); n != "" {
		where := "in [" + d.Tables[at].Name + "]"
		if at == 0 {
			where = "before the first table"
		}
		if n != key {
			return fmt.Sprintf("this key is not known here; the nearest is %q, which belongs %s", n, where)
		}
		return "this key is not known here; it belongs " + where
	}
	if len(known) > 12 {
		return "this key is not known here"
	}
	return "this key is not known here; known are " + strings.Join(known, ", ")
}

// elsewhere finds the key, else the one most like it, in another table.
func (d *Document) elsewhere(table int, key string) (at int, name string) {
	for i := range d.Tables {
		if i != table && d.Tables[i].Field(key) != nil {
			return i, key
		}
	}
	for i := range d.Tables {
		var keys []string
		for _, f := range d.Tables[i].Fields {
			if strings.HasPrefix(key, "prov") || !strings.HasPrefix(f.Key, "proved_") { // nobody states a proof by a slip
				keys = append(keys, f.Key)
			}
		}
		if n := cmp.Or(word.Renamed(key, keys), word.Nearest(key, keys)); i != table && n != "" {
			return i, n
		}
	}
	return 0, ""
}

// tableAt finds where a table within a row of its parent begins, whatever it is
// written as.
func (d *Document) tableAt(i, parent int) int {
	if row := slices.Index(d.of[i], parent); row >= 0 {
		return d.at[i][row]
	}
	return max(0, d.Offset(Spot{d.parents[i], parent, d.short[i]}))
}

// Offset finds a key of a row, else the row, else -1.
func (d *Document) Offset(at Spot) int {
	if d == nil || at.Table >= len(d.at) {
		return -1
	}
	if at.Key != "" {
		if l, ok := d.leaf(at); ok {
			return d.leaves[l].Start
		}
	}
	if at.Row < 0 || at.Row >= len(d.at[at.Table]) {
		return -1
	}
	return d.at[at.Table][at.Row]
}

// Has tells whether a key stands in the text.
func (d *Document) Has(at Spot) bool {
	_, has := d.leaf(at)
	return has
}

// leaf finds the leaf of a key of a row.
func (d *Document) leaf(at Spot) (i int, ok bool) {
	if d.uneven {
		i, ok = d.places()[at]
		return i, ok
	}
	if at.Table >= len(d.at) || at.Row < 0 || at.Row >= len(d.at[at.Table]) {
		return 0, false
	}
	begins := d.at[at.Table][at.Row]
	for i = sort.Search(len(d.leaves), func(i int) bool { return d.leaves[i].Start >= begins }); i < len(d.leaves); i++ {
		switch l := &d.leaves[i]; {
		case l.Table != at.Table || l.Row != at.Row:
			return 0, false
		case l.Key == at.Key && l.Of == 0:
			return i, true
		}
	}
	return 0, false
}

// LineAt turns an offset into a line, from 1; 0 for none (below 0).
func (d *Document) LineAt(offset int) int {
	if offset < 0 {
		return 0
	}
	return 1 + sort.SearchInts(d.lines(), offset)
}

// inCanonicalForm is the same document in canonical form.
func (d *Document) inCanonicalForm() *Document {
	plain, _ := scan(Canonical(d.Tables, d.Was, d, d.EOL()), d.Tables)
	if plain != nil {
		plain.Was = d.Was
	}
	return plain
}
