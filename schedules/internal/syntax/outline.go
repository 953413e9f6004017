// Package syntax reads the outline of a TOML document: which key of which
// table stands where, and the values. It owns the TOML libraries' traps, so
// that nothing above it has to know them: one library gives exact byte ranges
// and refuses deep nesting, the other gives the values and finds what TOML
// forbids across lines, such as a key given twice.
//
// It knows the names of tables and nothing of what they mean.
package syntax

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Limits of a document; far beyond what a person writes, low enough that no
// file costs more than a moment.
const (
	mostDepth  = 16
	mostValues = 1_000_000
)

// Table is a table a document may have. The first of a list of tables is the
// document's top level, without a name.
type Table struct {
	Name  string
	Array bool // [[name]]
	Most  int  // rows of an array; 0 = no limit
}

// Leaf is one key of a known table. Offsets count bytes.
type Leaf struct {
	Table, Row int
	Key        string
	Start      int // of the key
	Value, End int // of the value
	From, To   int // of the whole `key = value` it stands in
	Head       int // index of the header it stands below, -1 for the top level
	Plain      bool
	// Container marks a key of the top level that holds a whole known table:
	// `part = {…}`. The keys inside are leaves of their own.
	Container bool
	// Sub marks a key that holds a table which is not known.
	Sub bool
}

// Head is a `[table]` or `[[table]]` line.
type Head struct {
	Table, Row int
	Start, End int // from the bracket to behind the last one
	Array      bool
}

// Outline is a document as text. Data must not be changed.
type Outline struct {
	Data   []byte
	Leaves []Leaf
	Heads  []Head
	Rows   []int   // by table: how many
	At     [][]int // by table and row: where it begins
	// Odd tells by table that some of it is written inline or with dotted
	// keys, so that no line stands for one key.
	Odd []bool

	tables []Table
}

// Error is what is wrong at a place.
type Error struct {
	Offset  int
	Key     string
	Message string
}

type scanner struct {
	out    *Outline
	tables []Table
	parser unstable.Parser
	errs   []Error
	head   int // index of the present header, -1 at the top
	table  int // present table; -1 below an unknown header
	row    int
}

// Scan reads the outline of data. Errors of syntax end it: then the outline is
// nil. Tables that are not known come out as leaves of the top level.
func Scan(data []byte, tables []Table) (*Outline, []Error) {
	if errs := tooMany(data); errs != nil {
		return nil, errs
	}
	s := &scanner{tables: tables, head: -1}
	s.out = &Outline{Data: data, tables: tables, Rows: make([]int, len(tables)), At: make([][]int, len(tables)), Odd: make([]bool, len(tables)),
		Leaves: make([]Leaf, 0, 16+bytes.Count(data, []byte{'\n'})), Heads: make([]Head, 0, 16)}
	s.out.Rows[0], s.out.At[0] = 1, []int{0}
	s.parser.Reset(data)
	for s.parser.NextExpression() {
		e := s.parser.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			s.header(e)
		case unstable.KeyValue:
			s.keyValue(e)
		}
		if len(s.errs) > 0 {
			return nil, s.errs
		}
	}
	if err := s.parser.Error(); err != nil {
		return nil, []Error{s.syntaxError(err)}
	}
	return s.out, nil
}

// tooMany bounds what a document can cost before anything is built from it.
func tooMany(data []byte) []Error {
	if bytes.Count(data, []byte{','}) > mostValues || bytes.Count(data, []byte{'='}) > mostValues {
		return []Error{{Message: fmt.Sprintf("the document has more than %d values", mostValues)}}
	}
	return nil
}

func (s *scanner) syntaxError(err error) Error {
	var pe *unstable.ParserError
	if !errors.As(err, &pe) {
		return Error{Message: "this is not TOML: " + err.Error()}
	}
	at := 0
	if len(pe.Highlight) > 0 {
		at = int(s.parser.Range(pe.Highlight).Offset)
	}
	return Error{Offset: at, Message: "this is not TOML: " + pe.Message}
}

func (s *scanner) fail(at int, key, format string, args ...any) {
	s.errs = append(s.errs, Error{Offset: at, Key: key, Message: fmt.Sprintf(format, args...)})
}

// find gives the index of a named table, -1 when it is not known.
func (s *scanner) find(name []byte) int {
	for i := 1; i < len(s.tables); i++ {
		if s.tables[i].Name == string(name) {
			return i
		}
	}
	return -1
}

// keys gives the parts of a key and where they begin and end.
func (s *scanner) keys(it unstable.Iterator, parts *[mostDepth][]byte) (n, start, end int) {
	for it.Next() {
		k := it.Node()
		if n == 0 {
			start = int(k.Raw.Offset)
		}
		end = int(k.Raw.Offset + k.Raw.Length)
		if n == mostDepth {
			s.fail(start, "", "a key has more than %d parts", mostDepth)
			return n, start, end
		}
		parts[n] = k.Data
		n++
	}
	return n, start, end
}

func (s *scanner) newRow(table, at int) int {
	o := s.out
	if s.tables[table].Most > 0 && o.Rows[table] >= s.tables[table].Most {
		s.fail(at, s.tables[table].Name, "there are more than %d [[%s]] tables", s.tables[table].Most, s.tables[table].Name)
	}
	if !s.tables[table].Array && o.Rows[table] > 0 {
		return 0 // a second one is the value reader's to refuse
	}
	o.Rows[table]++
	o.At[table] = append(o.At[table], at)
	return o.Rows[table] - 1
}

func (s *scanner) header(e *unstable.Node) {
	var parts [mostDepth][]byte
	n, first, end := s.keys(e.Key(), &parts)
	start := bytes.LastIndexByte(s.out.Data[:first], '[')
	if e.Kind == unstable.ArrayTable {
		start--
	}
	if close := bytes.IndexByte(s.out.Data[end:], ']'); close >= 0 {
		end += close + 1
		if e.Kind == unstable.ArrayTable {
			end++
		}
	}
	array := e.Kind == unstable.ArrayTable
	t := s.find(parts[0])
	switch {
	case t < 0:
		s.leaf(Leaf{Table: 0, Key: string(parts[0]), Start: first, Value: end, End: end, From: start, To: end, Head: len(s.out.Heads), Sub: true})
		s.table = -1
	case n > 1:
		row := max(0, s.out.Rows[t]-1)
		if s.out.Rows[t] == 0 {
			row = s.newRow(t, start)
		}
		s.leaf(Leaf{Table: t, Row: row, Key: string(parts[1]), Start: first, Value: end, End: end, From: start, To: end, Head: len(s.out.Heads), Sub: true})
		s.table = -1
	default:
		s.table, s.row = t, s.newRow(t, start)
	}
	s.head = len(s.out.Heads)
	s.out.Heads = append(s.out.Heads, Head{Table: t, Row: s.row, Start: start, End: end, Array: array})
}

func (s *scanner) leaf(l Leaf) {
	s.out.Leaves = append(s.out.Leaves, l)
	if !l.Plain && l.Table > 0 {
		s.out.Odd[l.Table] = true
	}
}

func (s *scanner) keyValue(e *unstable.Node) {
	if s.table < 0 {
		s.depth(e.Value(), 1)
		return
	}
	from, to := int(e.Raw.Offset), int(e.Raw.Offset+e.Raw.Length)
	s.entry(e, Leaf{Table: s.table, Row: s.row, Head: s.head, From: from, To: to}, true)
}

// entry takes in one `key = value`, at the top or inside an inline table.
func (s *scanner) entry(e *unstable.Node, l Leaf, ownLine bool) {
	var parts [mostDepth][]byte
	n, start, end := s.keys(e.Key(), &parts)
	value := e.Value()
	s.depth(value, 1)
	if n == 0 || len(s.errs) > 0 {
		return
	}
	l.Start, l.End = start, int(e.Raw.Offset+e.Raw.Length)
	l.Value = s.valueStart(end)
	l.Key, l.Plain, l.Sub = string(parts[0]), ownLine && n == 1, n > 1
	t := -1
	if l.Table == 0 && ownLine {
		t = s.find(parts[0])
	}
	switch {
	case t > 0 && n > 1: // part.form = "pipe"
		if s.tables[t].Array { // the value reader's type will be wrong, and said
			s.leaf(l)
			return
		}
		l.Table, l.Row, l.Key, l.Sub = t, s.newRow(t, start), string(parts[1]), n > 2
		s.leaf(l)
	case t > 0 && value.Kind == unstable.InlineTable && !s.tables[t].Array:
		l.Container = true
		s.leaf(l)
		s.inline(value, Leaf{Table: t, Row: s.newRow(t, start), Head: l.Head, From: l.From, To: l.To})
	case t > 0 && value.Kind == unstable.Array && s.tables[t].Array:
		l.Container = true
		s.leaf(l)
		s.out.Odd[t] = true
		for it := value.Children(); it.Next(); {
			if it.Node().Kind == unstable.InlineTable {
				at := int(it.Node().Raw.Offset)
				s.inline(it.Node(), Leaf{Table: t, Row: s.newRow(t, at), Head: l.Head, From: l.From, To: l.To})
			}
			if len(s.errs) > 0 {
				return
			}
		}
	default:
		s.leaf(l)
	}
}

func (s *scanner) inline(table *unstable.Node, l Leaf) {
	s.out.Odd[l.Table] = true
	for it := table.Children(); it.Next(); {
		if it.Node().Kind == unstable.KeyValue {
			s.entry(it.Node(), l, false)
		}
	}
}

// valueStart skips blanks and the equals sign behind a key.
func (s *scanner) valueStart(at int) int {
	d := s.out.Data
	for at < len(d) && (d[at] == ' ' || d[at] == '\t' || d[at] == '=') {
		at++
	}
	return at
}

// depth refuses nesting: the value reader recurses.
func (s *scanner) depth(n *unstable.Node, level int) {
	if n.Kind != unstable.Array && n.Kind != unstable.InlineTable {
		return
	}
	if level > mostDepth {
		if len(s.errs) == 0 {
			s.fail(int(s.parser.Expression().Raw.Offset), "", "values are nested more than %d deep", mostDepth)
		}
		return
	}
	for it := n.Children(); it.Next(); {
		c := it.Node()
		if c.Kind == unstable.KeyValue {
			c = c.Value()
		}
		s.depth(c, level+1)
	}
}
