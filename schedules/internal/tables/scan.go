package tables

import (
	"bytes"
	"errors"
	"fmt"
	"sync"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Limits of a document; far beyond what a person writes, low enough that no
// file costs more than a moment.
const (
	mostDepth  = 16
	mostValues = 1_000_000
)

// Leaf is one key of a known table. Offsets count bytes.
type Leaf struct {
	Table, Row int
	Key        string
	Start      int // of the key
	Value, End int // of the value
	From, To   int // of the whole `key = value` it stands in
	Head       int // index of the header it stands below, -1 for the top level
	Plain      bool
	// Of is the known table that the key holds whole, `part = {…}`, 0 for none.
	// The keys inside are leaves of their own.
	Of int
	// Sub marks a key that holds a table which is not known.
	Sub bool
}

// Head is a `[table]` or `[[table]]` line; Table is -1 where it is not known.
type Head struct {
	Table, Row int
	Start, End int // from the bracket to behind the last one
	Array      bool
}

// scanner finds which key of which table stands where.
type scanner struct {
	out    *Document
	parser *unstable.Parser
	errs   []Problem
	head   int // index of the present header, -1 at the top
	simple simple
	table  int // present table; -1 below an unknown header
	row    int
}

// parsers are kept for the room that the parts of one line take in them.
var parsers = sync.Pool{New: func() any { return new(unstable.Parser) }}

// parse begins to read data. Nothing that the parser gave may be used once it is
// let go.
func (s *scanner) parse(data []byte) {
	s.parser = parsers.Get().(*unstable.Parser)
	s.parser.Reset(data)
}

func (s *scanner) letGo() {
	s.parser.Reset(nil)
	parsers.Put(s.parser)
}

// scan reads the outline of data. Errors of syntax end it: then there is no
// document. Tables that are not known come out as leaves of the top level.
func scan(data []byte, tables []Table) (*Document, []Problem) {
	if problems := tooMany(data); problems != nil {
		return nil, problems
	}
	n := len(tables)
	d := &Document{Tables: tables, Data: data, rows: make([]int, n), at: make([][]int, n), of: make([][]int, n), odd: make([]bool, n),
		leaves: make([]Leaf, 0, 16+min(bytes.Count(data, []byte{'='}), bytes.Count(data, []byte{'\n'}))), Heads: make([]Head, 0, 16)}
	d.parents, d.short = parents(tables)
	d.rows[0], d.at[0], d.of[0] = 1, []int{0}, []int{0}
	s := &scanner{out: d, head: -1}
	s.simple.begin(data, cap(d.leaves))
	s.parse(data)
	defer s.letGo()
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
		return nil, []Problem{s.syntaxError(err)}
	}
	d.simple = s.simple.values(d)
	d.prepare()
	return d, nil
}

// tooMany bounds what a document can cost before anything is built from it.
func tooMany(data []byte) []Problem {
	if bytes.Count(data, []byte{','}) > mostValues || bytes.Count(data, []byte{'='}) > mostValues {
		return []Problem{problemAt(data, 0, "", fmt.Sprintf("the document has more than %d values", mostValues))}
	}
	return nil
}

func (s *scanner) syntaxError(err error) Problem {
	var pe *unstable.ParserError
	if !errors.As(err, &pe) {
		return problemAt(s.out.Data, 0, "", Printable("this is not TOML: "+err.Error()))
	}
	at := 0
	if len(pe.Highlight) > 0 {
		at = int(s.parser.Range(pe.Highlight).Offset)
	}
	return problemAt(s.out.Data, at, "", Printable("this is not TOML: "+pe.Message))
}

func (s *scanner) fail(at int, key, format string, args ...any) {
	s.errs = append(s.errs, problemAt(s.out.Data, at, key, fmt.Sprintf(format, args...)))
}

// find follows the parts of a key from a table to the tables within, and says
// how many of the parts it took.
func (d *Document) find(table int, parts [][]byte) (at, taken int) {
next:
	for ; taken < len(parts); taken++ {
		for i := 1; i < len(d.Tables); i++ {
			if d.parents[i] == table && i != table && d.short[i] == string(parts[taken]) {
				table = i
				continue next
			}
		}
		break
	}
	return table, taken
}

// keys gives the parts of a key and where they begin and end.
func (s *scanner) keys(it unstable.Iterator, room *[mostDepth][]byte) (parts [][]byte, start, end int) {
	parts = room[:0]
	for it.Next() {
		k := it.Node()
		if len(parts) == 0 {
			start = int(k.Raw.Offset)
		}
		end = int(k.Raw.Offset + k.Raw.Length)
		if len(parts) == mostDepth {
			s.fail(start, "", "a key has more than %d parts", mostDepth)
			break
		}
		parts = append(parts, k.Data)
	}
	return parts, start, end
}

// newRow begins a row of a table, in the last row of its parent.
func (s *scanner) newRow(table, at int) int {
	d := s.out
	t := &d.Tables[table]
	if t.Most > 0 && d.rows[table] >= t.Most {
		s.fail(at, SafeKey(t.Name), "there are more than %d %s tables", t.Most, t.header())
	}
	if !t.Array && d.rows[table] > 0 {
		return 0 // a second one is the value reader's to refuse
	}
	of := s.present(d.parents[table], at)
	d.rows[table]++
	d.at[table] = append(d.at[table], at)
	d.of[table] = append(d.of[table], of)
	return d.rows[table] - 1
}

// present is the last row of a table, which a table within it stands for where
// it has none of its own.
func (s *scanner) present(table, at int) int {
	if s.out.rows[table] == 0 {
		s.out.odd[table] = true
		return s.newRow(table, at)
	}
	return s.out.rows[table] - 1
}

func (s *scanner) header(e *unstable.Node) {
	var room [mostDepth][]byte
	parts, first, end := s.keys(e.Key(), &room)
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
	t, taken := s.out.find(0, parts)
	if taken == len(parts) {
		s.simple.header(s.out, t, start, end, e.Kind == unstable.ArrayTable)
		s.table, s.row = t, s.newRow(t, start)
	} else {
		s.leaf(Leaf{Table: t, Row: s.present(t, start), Key: string(parts[taken]), Start: first, Value: end, End: end, From: start, To: end, Head: len(s.out.Heads), Sub: true})
		s.table, s.row = -1, 0
	}
	s.head = len(s.out.Heads)
	s.out.Heads = append(s.out.Heads, Head{Table: s.table, Row: s.row, Start: start, End: end, Array: e.Kind == unstable.ArrayTable})
}

func (s *scanner) leaf(l Leaf) {
	s.out.leaves = append(s.out.leaves, l)
	s.out.uneven = s.out.uneven || !l.Plain
	if !l.Plain && l.Table > 0 {
		s.out.odd[l.Table] = true
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
	var room [mostDepth][]byte
	parts, start, end := s.keys(e.Key(), &room)
	value := e.Value()
	s.depth(value, 1)
	if len(parts) == 0 || len(s.errs) > 0 {
		return
	}
	l.Start, l.End = start, int(e.Raw.Offset+e.Raw.Length)
	l.Value = s.valueStart(end)
	l.Key, l.Plain, l.Sub = string(parts[0]), ownLine && len(parts) == 1, len(parts) > 1
	t, taken := s.out.find(l.Table, parts)
	array := s.out.Tables[t].Array
	within := Leaf{Table: t, Head: l.Head, From: l.From, To: l.To}
	switch {
	case taken == 0, taken < len(parts) && array: // where it is wrong the value reader says so
		if l.Plain && taken == 0 {
			s.simple.take(s.out, &l, value)
		}
		s.leaf(l)
	case taken < len(parts): // part.form = "pipe"
		l.Table, l.Row, l.Key, l.Sub = t, s.newRow(t, start), string(parts[taken]), taken+1 < len(parts)
		s.leaf(l)
	case value.Kind == unstable.InlineTable && !array:
		l.Of = t
		s.leaf(l)
		within.Row = s.newRow(t, start)
		s.inline(value, within)
	case value.Kind == unstable.Array && array:
		l.Of = t
		s.leaf(l)
		s.out.odd[t] = true
		for it := value.Children(); it.Next() && len(s.errs) == 0; {
			if it.Node().Kind == unstable.InlineTable {
				within.Row = s.newRow(t, int(it.Node().Raw.Offset))
				s.inline(it.Node(), within)
			}
		}
	default:
		s.leaf(l)
	}
}

func (s *scanner) inline(table *unstable.Node, l Leaf) {
	s.out.odd[l.Table] = true
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
