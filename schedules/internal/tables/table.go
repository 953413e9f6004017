package tables

import (
	"sort"
	"strings"

	"frp/veilwright/laminate"
)

// Table is one table of a document. A list of tables begins with the
// document's top level, which has no name; a table stands behind its parent.
type Table struct {
	Name   string // "ply"; of a table within another "laminate.ply"
	Array  bool   // [[name]]
	Most   int    // rows of an array in the whole document; 0 = no limit
	Fields []Field

	rows   func(model any) []Row
	resize func(model any, counts []int) // one count a row of the parent
	same   func(a, b any) bool           // nil: equal where the keys are
}

// Row is a row of a table and the row of the parent's table it belongs to.
type Row struct {
	Parent int
	Value  any // pointer into the model
}

// One is a table that stands once at most; with no name, the top level.
func One[M, R any](name string, fields []Field, row func(*M) *R) Table {
	return Table{Name: name, Fields: fields,
		rows:   func(model any) []Row { return []Row{{Value: row(model.(*M))}} },
		resize: func(any, []int) {}}
}

// Many is a table that may stand several times.
func Many[M any, R comparable](name string, most int, fields []Field, list func(*M) *[]R) Table {
	return equal[R](rowsOf(name, most, fields, func(model any) []*[]R { return []*[]R{list(model.(*M))} }))
}

// Nested is such a table within the rows of another, whose lists it is given.
func Nested[M any, R comparable](name string, most int, fields []Field, lists func(*M) []*[]R) Table {
	return equal[R](rowsOf(name, most, fields, func(model any) []*[]R { return lists(model.(*M)) }))
}

// equal has rows compared as wholes.
func equal[R comparable](t Table) Table {
	t.same = func(a, b any) bool { return *a.(*R) == *b.(*R) }
	return t
}

// Holding is a table that may stand several times and holds others.
func Holding[M, R any](name string, most int, fields []Field, list func(*M) *[]R) Table {
	return rowsOf(name, most, fields, func(model any) []*[]R { return []*[]R{list(model.(*M))} })
}

// rowsOf is what the compiler makes for every type of row, and not for every
// document that has it.
//
//go:noinline
func rowsOf[R any](name string, most int, fields []Field, lists func(model any) []*[]R) Table {
	return Table{Name: name, Array: true, Most: most, Fields: fields,
		rows: func(model any) []Row {
			all, n := lists(model), 0
			for _, list := range all {
				n += len(*list)
			}
			rows := make([]Row, 0, n)
			for parent, list := range all {
				for i := range *list {
					rows = append(rows, Row{parent, &(*list)[i]})
				}
			}
			return rows
		},
		resize: func(model any, counts []int) {
			for parent, list := range lists(model) {
				*list = nil
				if parent < len(counts) && counts[parent] > 0 {
					*list = make([]R, counts[parent])
				}
				for i := range *list {
					for _, f := range fields {
						if f.Begin != nil {
							f.Begin(&(*list)[i])
						}
					}
				}
			}
		}}
}

// Within makes a table of a document one of another that holds it.
func Within[M, Inner any](t Table, inner func(*M) *Inner) Table {
	rows, resize := t.rows, t.resize
	t.rows = func(model any) []Row { return rows(inner(model.(*M))) }
	t.resize = func(model any, counts []int) { resize(inner(model.(*M)), counts) }
	return t
}

// Rows lists the rows that a model has of the table.
func (t *Table) Rows(model any) []Row { return t.rows(model) }

// within finds the rows that belong to one row of the parent.
func within(rows []Row, parent int) (from, to int) {
	from = sort.Search(len(rows), func(i int) bool { return rows[i].Parent >= parent })
	for to = from; to < len(rows) && rows[to].Parent == parent; to++ {
	}
	return from, to
}

// Field finds a key of the table, nil where it has none.
func (t *Table) Field(key string) *Field {
	for i := range t.Fields {
		if t.Fields[i].Key == key {
			return &t.Fields[i]
		}
	}
	return nil
}

// equal tells whether two rows say the same, spelling and origin included.
func (t *Table) equal(a, b any) bool {
	if t.same != nil {
		return t.same(a, b)
	}
	return t.alike(a, b)
}

// alike tells whether the keys of two rows are written alike.
func (t *Table) alike(a, b any) bool {
	for i := range t.Fields {
		textA, givenA := t.Fields[i].Get(a)
		textB, givenB := t.Fields[i].Get(b)
		if givenA != givenB || givenA && textA != textB {
			return false
		}
	}
	return true
}

func (t *Table) header() string {
	if t.Array {
		return "[[" + t.Name + "]]"
	}
	return "[" + t.Name + "]"
}

// origin is where a row says that it comes from, nil where it cannot say.
func origin(row any) *laminate.Origin {
	if r, ok := row.(interface{ From() *laminate.Origin }); ok {
		return r.From()
	}
	return nil
}

// parents gives for each table the one it stands in, 0 for the top level, and
// its name there.
func parents(tables []Table) (of []int, short []string) {
	of, short = make([]int, len(tables)), make([]string, len(tables))
	for i, t := range tables {
		short[i] = t.Name
		if outer, inner, nested := strings.Cut(t.Name, "."); nested {
			for p := range i {
				if tables[p].Name == outer {
					of[i], short[i] = p, inner
				}
			}
		}
	}
	return of, short
}

// Same tells whether two models say the same, spelling included. Origins do
// not count.
func Same(tables []Table, a, b any) bool {
	for i := range tables {
		t := &tables[i]
		x, y := t.rows(a), t.rows(b)
		if len(x) != len(y) {
			return false
		}
		for row := range x {
			if x[row] == y[row] { // the two share it
				continue
			}
			if x[row].Parent != y[row].Parent || !t.equal(x[row].Value, y[row].Value) && !t.alike(x[row].Value, y[row].Value) {
				return false
			}
		}
	}
	return true
}
