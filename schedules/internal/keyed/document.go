package keyed

import (
	"fmt"
	"sort"
	"sync"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/syntax"
)

// Document is a text cut up by the tables it may have. It is immutable once
// Was is set and may be used from several goroutines.
type Document struct {
	Tables []Table
	Data   []byte
	Out    *syntax.Outline
	Was    any // the model as decoded; whoever decodes sets it before rendering
	cut    func() *layout
	places func() map[Spot]int
	lines  func() []int     // offsets of the line ends
	plain  func() *Document // the same in canonical form, comments kept
}

// Spot names a key of a row of a table; with no key, the row.
type Spot struct {
	Table, Row int
	Key        string
}

// Read decodes data into model as far as it goes. The document is nil where
// the text is not TOML; all else that is wrong comes beside it.
func Read(data []byte, tables []Table, model any) (*Document, []Problem) {
	d, errs := outline(data, tables)
	if len(errs) > 0 {
		return nil, Sorted(Located(data, "", errs))
	}
	values, errs := d.Out.Values()
	problems := Located(data, "", errs)
	if values == nil {
		return nil, Sorted(problems)
	}
	return d, append(problems, fill(d, tables, model, values)...)
}

func outline(data []byte, tables []Table) (*Document, []syntax.Error) {
	names := make([]syntax.Table, len(tables))
	for i, t := range tables {
		names[i] = syntax.Table{Name: t.Name, Array: t.Array, Most: t.Most}
	}
	out, errs := syntax.Scan(data, names)
	if len(errs) > 0 {
		return nil, errs
	}
	d := &Document{Tables: tables, Data: data, Out: out}
	d.prepare()
	return d, nil
}

// EOL is the line end of the document.
func (d *Document) EOL() string { return d.cut().eol }

// Fault adds a problem at a place of the model, unless the value there could
// not even be read: that is told already.
func (d *Document) Fault(problems []Problem, tables []Table, at Spot, message string) []Problem {
	if len(problems) > 4*mostProblems {
		return problems
	}
	p := Problem{Key: Name(&tables[at.Table], at.Key), Message: message}
	if d != nil {
		p.Line, p.Column = Place(d.Data, max(0, d.Offset(at.Table, at.Row, at.Key)))
	}
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
		m := make(map[Spot]int, len(d.Out.Leaves))
		for i, l := range d.Out.Leaves {
			if _, taken := m[Spot{l.Table, l.Row, l.Key}]; !taken && !l.Container {
				m[Spot{l.Table, l.Row, l.Key}] = i
			}
		}
		return m
	})
	d.lines = sync.OnceValue(func() []int {
		var ends []int
		for i, c := range d.Data {
			if c == '\n' {
				ends = append(ends, i)
			}
		}
		return ends
	})
	d.plain = sync.OnceValue(d.inCanonicalForm)
}

// rowsOf finds the rows of a table among the decoded values.
func rowsOf(values map[string]any, t *Table) (rows []map[string]any, wrong string) {
	if t.Name == "" {
		return []map[string]any{values}, ""
	}
	v, ok := values[t.Name]
	if !ok {
		return nil, ""
	}
	switch v := v.(type) {
	case map[string]any:
		if !t.Array {
			return []map[string]any{v}, ""
		}
		return nil, fmt.Sprintf("there may be several: write [[%s]]", t.Name)
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
				return nil, fmt.Sprintf("a [[%s]] table is expected, not %s", t.Name, KindOf(x))
			}
			rows = append(rows, m)
		}
		return rows, ""
	}
	if t.Array {
		return nil, fmt.Sprintf("[[%s]] tables are expected, not %s", t.Name, KindOf(v))
	}
	return nil, fmt.Sprintf("there is one alone: write [%s]", t.Name)
}

// fill puts the values into the model and tells what is wrong with them.
func fill(src *Document, tables []Table, model any, values map[string]any) []Problem {
	var problems []Problem
	fail := func(at int, key, message string) {
		p := Problem{Key: key, Message: message}
		p.Line, p.Column = Place(src.Data, at)
		problems = append(problems, p)
	}
	rows := make([][]map[string]any, len(tables))
	for i := range tables {
		var wrong string
		if rows[i], wrong = rowsOf(values, &tables[i]); wrong != "" {
			fail(src.tableAt(i, tables[i].Name), tables[i].Name, wrong)
		}
		tables[i].Resize(model, len(rows[i]))
	}
	var last Spot
	for _, l := range src.Out.Leaves {
		if len(problems) > 4*mostProblems {
			break
		}
		if l.Container || l.Row >= len(rows[l.Table]) {
			continue
		}
		t := &tables[l.Table]
		here := Spot{l.Table, l.Row, l.Key}
		if l.Sub && here == last {
			continue // one more part of a key that is told already
		}
		last = here
		f := t.Field(l.Key)
		if f == nil {
			if !(l.Table == 0 && isTable(tables, l.Key)) {
				fail(l.Start, Name(t, l.Key), Unknown(tables, t, l.Key))
			}
			continue
		}
		value, ok := rows[l.Table][l.Row][l.Key]
		if !ok {
			continue // the second of two, left out
		}
		if wrong := f.Set(t.At(model, l.Row), value); wrong != "" {
			fail(l.Value, Name(t, l.Key), wrong)
		}
	}
	return problems
}

func isTable(tables []Table, name string) bool {
	for i := 1; i < len(tables); i++ {
		if tables[i].Name == name {
			return true
		}
	}
	return false
}

// Unknown says what an unknown key may have meant.
func Unknown(tables []Table, t *Table, key string) string {
	known := t.keys()
	if t.Name == "" {
		for i := range tables[1:] {
			known = append(known, tables[i+1].Name)
		}
	}
	if n := word.Nearest(key, known); n != "" {
		return fmt.Sprintf("this key is not known; the nearest is %q", n)
	}
	for i := range tables {
		if &tables[i] != t && tables[i].Field(key) != nil {
			if tables[i].Name == "" {
				return "this key is not known here; it belongs before the first table"
			}
			return fmt.Sprintf("this key is not known here; it belongs in [%s]", tables[i].Name)
		}
	}
	n := known[0]
	least := len(key) + len(n)
	for _, k := range known {
		if d := word.Distance(Clipped(key), k); d < least {
			n, least = k, d
		}
	}
	return fmt.Sprintf("this key is not known; the nearest is %q", n)
}

// tableAt finds where a table begins, whatever it is written as.
func (d *Document) tableAt(i int, key string) int {
	if at := d.Out.At[i]; len(at) > 0 {
		return at[0]
	}
	if l, ok := d.places()[Spot{0, 0, key}]; ok {
		return d.Out.Leaves[l].Start
	}
	return 0
}

// Offset finds a key of a row, else the row, else -1.
func (d *Document) Offset(table, row int, key string) int {
	if d == nil || table >= len(d.Out.At) {
		return -1
	}
	if key != "" {
		if l, ok := d.places()[Spot{table, row, key}]; ok {
			return d.Out.Leaves[l].Start
		}
	}
	if row < 0 || row >= len(d.Out.At[table]) {
		return -1
	}
	return d.Out.At[table][row]
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
	plain, errs := outline(Canonical(d.Tables, d.Was, d, d.EOL()), d.Tables)
	if len(errs) > 0 {
		return nil
	}
	plain.Was = d.Was
	return plain
}
