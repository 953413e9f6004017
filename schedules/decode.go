package schedules

import (
	"fmt"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/syntax"
)

// Source is a document as its author wrote it. It is immutable and may be used
// from several goroutines.
type Source struct {
	tables []table
	marked bool // begins with a byte order mark
	data   []byte
	out    *syntax.Outline    // nil for a document made in the program
	was    *laminate.Schedule // as decoded
	cut    func() *layout
	places func() map[spot]int
	lines  func() []int   // offsets of the line ends
	plain  func() *Source // the same in canonical form, comments kept
}

// spot names a key of a row of a table.
type spot struct {
	table, row int
	key        string
}

// Decode reads a schedule. Where there are problems the schedule is nil and
// the source serves for nothing but [Source.Line]; all problems are told, in
// the order of the file.
func Decode(b []byte) (*Source, *laminate.Schedule, []Problem) {
	s := new(laminate.Schedule)
	src, problems := read(b, Schedule, scheduleTables, s)
	if src == nil || src.out == nil {
		return src, nil, problems
	}
	for _, f := range laminate.Validate(s) {
		problems = src.fault(problems, scheduleTables, spotOf(f.Ref), f.Message)
	}
	if len(problems) > 0 {
		return src, nil, sorted(problems)
	}
	for i := range s.Resins {
		s.Resins[i].Origin = laminate.Origin(i + 1)
	}
	for i := range s.Materials {
		s.Materials[i].Origin = laminate.Origin(i + 1)
	}
	for i := range s.Plies {
		s.Plies[i].Origin = laminate.Origin(i + 1)
	}
	src.was = s.Clone()
	return src, s, nil
}

// New is the source of a schedule made in the program: rendering it gives
// canonical text. No line of it is known.
func New(s *laminate.Schedule) *Source { return &Source{tables: scheduleTables, was: s} }

func spotOf(r laminate.Ref) spot { return spot{int(r.Kind), r.Index, r.Key} }

// fault adds a problem at a place of the model, unless the value there could
// not even be read: that is told already.
func (s *Source) fault(problems []Problem, tables []table, at spot, message string) []Problem {
	if len(problems) > 4*mostProblems {
		return problems
	}
	p := Problem{Key: name(&tables[at.table], at.key), Message: message}
	if s != nil && s.out != nil {
		p.Line, p.Column = place(s.data, max(0, s.offset(at.table, at.row, at.key)))
	}
	for i := range problems {
		if problems[i].Line == p.Line && problems[i].Key == p.Key {
			return problems
		}
	}
	return append(problems, p)
}

func name(t *table, key string) string {
	switch {
	case t.name == "":
		return safeKey(key)
	case key == "":
		return t.name
	}
	return t.name + "." + safeKey(key)
}

// read decodes a document of the wanted kind into model, as far as it goes.
func read(b []byte, want Kind, tables []table, model any) (*Source, []Problem) {
	src := &Source{tables: tables}
	data, problems := text(b)
	if problems != nil {
		return src, problems
	}
	src.marked, src.data = len(data) < len(b), data
	names := make([]syntax.Table, len(tables))
	for i, t := range tables {
		names[i] = syntax.Table{Name: t.name, Array: t.array, Most: t.most}
	}
	out, errs := syntax.Scan(data, names)
	if len(errs) > 0 {
		// A document of another kind or format need not follow this one's rules.
		if p := wrongKind(data, want); len(p) > 0 && kindAt(data) != Undeclared {
			return src, p
		}
		return src, sorted(located(data, "", errs))
	}
	if p := wrongKind(data, want); p != nil {
		return src, p
	}
	values, errs := out.Values()
	problems = located(data, "", errs)
	if values == nil {
		return src, sorted(problems)
	}
	src.out = out
	src.prepare()
	return src, append(problems, fill(src, tables, model, values)...)
}

// wrongKind tells whether the document is another one than wanted.
func wrongKind(data []byte, want Kind) []Problem {
	top, _ := syntax.Top(data)
	kind, problem := declared(data, top)
	switch {
	case problem != nil:
		return []Problem{*problem}
	case kind != want:
		p := Problem{Key: "document", Message: fmt.Sprintf("this is a %s, not a %s", kind, want), Line: 1, Column: 1}
		return []Problem{p}
	}
	return nil
}

func kindAt(data []byte) Kind {
	top, _ := syntax.Top(data)
	kind, _ := declared(data, top)
	return kind
}

// prepare sets up what is found out only where somebody asks.
func (s *Source) prepare() {
	s.cut = sync.OnceValue(s.blocks)
	s.places = sync.OnceValue(func() map[spot]int {
		m := make(map[spot]int, len(s.out.Leaves))
		for i, l := range s.out.Leaves {
			if _, taken := m[spot{l.Table, l.Row, l.Key}]; !taken && !l.Container {
				m[spot{l.Table, l.Row, l.Key}] = i
			}
		}
		return m
	})
	s.lines = sync.OnceValue(func() []int {
		var ends []int
		for i, c := range s.data {
			if c == '\n' {
				ends = append(ends, i)
			}
		}
		return ends
	})
	s.plain = sync.OnceValue(s.canonicalSource)
}

// rowsOf finds the rows of a table among the decoded values.
func rowsOf(values map[string]any, t *table) (rows []map[string]any, wrong string) {
	if t.name == "" {
		return []map[string]any{values}, ""
	}
	v, ok := values[t.name]
	if !ok {
		return nil, ""
	}
	switch v := v.(type) {
	case map[string]any:
		if !t.array {
			return []map[string]any{v}, ""
		}
		return nil, fmt.Sprintf("there may be several: write [[%s]]", t.name)
	case []map[string]any:
		if t.array {
			return v, ""
		}
	case []any:
		if !t.array {
			break
		}
		for _, x := range v {
			m, ok := x.(map[string]any)
			if !ok {
				return nil, fmt.Sprintf("a [[%s]] table is expected, not %s", t.name, kindOf(x))
			}
			rows = append(rows, m)
		}
		return rows, ""
	}
	if t.array {
		return nil, fmt.Sprintf("[[%s]] tables are expected, not %s", t.name, kindOf(v))
	}
	return nil, fmt.Sprintf("there is one alone: write [%s]", t.name)
}

// fill puts the values into the model and tells what is wrong with them.
func fill(src *Source, tables []table, model any, values map[string]any) []Problem {
	var problems []Problem
	fail := func(at int, key, message string) {
		p := Problem{Key: key, Message: message}
		p.Line, p.Column = place(src.data, at)
		problems = append(problems, p)
	}
	rows := make([][]map[string]any, len(tables))
	for i := range tables {
		var wrong string
		if rows[i], wrong = rowsOf(values, &tables[i]); wrong != "" {
			fail(src.tableAt(i, tables[i].name), tables[i].name, wrong)
		}
		tables[i].resize(model, len(rows[i]))
	}
	var last spot
	for _, l := range src.out.Leaves {
		if len(problems) > 4*mostProblems {
			break
		}
		if l.Container || l.Row >= len(rows[l.Table]) {
			continue
		}
		t := &tables[l.Table]
		here := spot{l.Table, l.Row, l.Key}
		if l.Sub && here == last {
			continue // one more part of a key that is told already
		}
		last = here
		f := t.field(l.Key)
		if f == nil {
			if !(l.Table == 0 && isTable(tables, l.Key)) {
				fail(l.Start, name(t, l.Key), unknown(tables, t, l.Key))
			}
			continue
		}
		value, ok := rows[l.Table][l.Row][l.Key]
		if !ok {
			continue // the second of two, left out
		}
		if wrong := f.set(t.at(model, l.Row), value); wrong != "" {
			fail(l.Value, name(t, l.Key), wrong)
		}
	}
	return problems
}

func isTable(tables []table, name string) bool {
	for i := 1; i < len(tables); i++ {
		if tables[i].name == name {
			return true
		}
	}
	return false
}

// unknown says what an unknown key may have meant.
func unknown(tables []table, t *table, key string) string {
	known := t.keys()
	if t.name == "" {
		for i := range tables[1:] {
			known = append(known, tables[i+1].name)
		}
	}
	if n, ok := nearest(key, known); ok {
		return fmt.Sprintf("this key is not known; the nearest is %q", n)
	}
	for i := range tables {
		if &tables[i] != t && tables[i].field(key) != nil {
			if tables[i].name == "" {
				return "this key is not known here; it belongs before the first table"
			}
			return fmt.Sprintf("this key is not known here; it belongs in [%s]", tables[i].name)
		}
	}
	n := known[0]
	least := len(key) + len(n)
	for _, k := range known {
		if d := distance(clipped(key), k); d < least {
			n, least = k, d
		}
	}
	return fmt.Sprintf("this key is not known; the nearest is %q", n)
}

// tableAt finds where a table begins, whatever it is written as.
func (s *Source) tableAt(i int, key string) int {
	if at := s.out.At[i]; len(at) > 0 {
		return at[0]
	}
	if l, ok := s.places()[spot{0, 0, key}]; ok {
		return s.out.Leaves[l].Start
	}
	return 0
}

// offset finds a key of a row, else the row, else -1.
func (s *Source) offset(table, row int, key string) int {
	if s == nil || s.out == nil || table >= len(s.out.At) {
		return -1
	}
	if key != "" {
		if l, ok := s.places()[spot{table, row, key}]; ok {
			return s.out.Leaves[l].Start
		}
	}
	if row < 0 || row >= len(s.out.At[table]) {
		return -1
	}
	return s.out.At[table][row]
}
