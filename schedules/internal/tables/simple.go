package tables

import (
	"bytes"
	"strconv"
	"time"

	"github.com/pelletier/go-toml/v2/unstable"
)

// simple takes the values of a document while it is scanned, so that the value
// reader need not read it a second time. It does so only for what two readers
// cannot understand differently: bare keys that are given once on a line of
// their own below headers written out, text without escapes, whole numbers and
// decimals, true and false, points in time to the second with their offset, lists
// of them. Whatever else a document holds, the
// value reader reads all of it, and words every error.
type simple struct {
	no    bool  // the document is not simple
	list  []any // by leaf
	first int   // index of the first leaf below the present header
	heads map[int]bool
}

// mostKeys bounds how many keys one table may have for its document to be
// simple: whether a key is given twice is looked for among them.
const mostKeys = 64

func (s *simple) begin(data []byte, leaves int) {
	for _, c := range data {
		if c < ' ' && c != '\n' && c != '\t' || c == 0x7f {
			s.no = true
			return
		}
	}
	s.list, s.heads = make([]any, 0, leaves), map[int]bool{}
}

// header begins a table; at is where its header stands.
func (s *simple) header(d *Document, table, from, to int, array bool) {
	if s.no {
		return
	}
	t, brackets := &d.Tables[table], 1
	if array {
		brackets = 2
	}
	s.no = array != t.Array || to-from != len(t.Name)+2*brackets || string(d.Data[from+brackets:to-brackets]) != t.Name || !t.Array && s.heads[table]
	s.heads[table] = true
	s.first = len(d.leaves)
}

// take takes the value of a leaf that is about to be added.
func (s *simple) take(d *Document, l *Leaf, value *unstable.Node) {
	if s.no {
		return
	}
	n := len(d.leaves)
	s.no = len(s.list) != n || n-s.first >= mostKeys || string(d.Data[l.Start:l.Start+len(l.Key)]) != l.Key || !bare(l.Key)
	for i := s.first; i < n && !s.no; i++ {
		s.no = d.leaves[i].Key == l.Key
	}
	if s.no {
		return
	}
	raw := d.Data[l.Value:l.End]
	v, ok := s.value(value, raw, bytes.IndexByte(raw, '\\') < 0)
	if !ok {
		s.no = true
		return
	}
	s.list = append(s.list, v)
}

// values are those of all leaves, nil where the document is not simple.
func (s *simple) values(d *Document) []any {
	if s.no || len(s.list) != len(d.leaves) {
		return nil
	}
	for _, odd := range d.odd {
		if odd {
			return nil
		}
	}
	return s.list
}

func bare(key string) bool {
	for i := range len(key) {
		switch c := key[i]; {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '_', c == '-':
		default:
			return false
		}
	}
	return key != ""
}

// value gives what the value reader would: string, int64, float64, bool, time.Time,
// or a list of them. raw is its text; plain tells that there is no escape in it.
func (s *simple) value(n *unstable.Node, raw []byte, plain bool) (any, bool) {
	switch n.Kind {
	case unstable.String:
		// Three quotes: their first line end and quotes at their end are the
		// reader's affair.
		if !plain || bytes.HasPrefix(raw, []byte(`"""`)) && (bytes.HasSuffix(raw, []byte(`""""`)) || len(raw) < 6) || bytes.HasPrefix(raw, []byte("'''")) {
			return nil, false
		}
		return string(n.Data), true
	case unstable.Integer:
		if !digits(n.Data, 18) {
			return nil, false
		}
		v, err := strconv.ParseInt(string(n.Data), 10, 64)
		return v, err == nil
	case unstable.Float:
		whole, part, ok := bytes.Cut(n.Data, []byte{'.'})
		if !ok || !digits(whole, 18) || len(part) == 0 || len(part) > 300 {
			return nil, false
		}
		for _, c := range part {
			if c < '0' || c > '9' {
				return nil, false
			}
		}
		v, err := strconv.ParseFloat(string(n.Data), 64)
		return v, err == nil
	case unstable.Bool:
		return len(n.Data) > 0 && n.Data[0] == 't', true
	case unstable.DateTime:
		return moment(n.Data)
	case unstable.Array:
		if !plain {
			return nil, false
		}
		list := []any{}
		for it := n.Children(); it.Next(); {
			c := it.Node()
			if c.Kind == unstable.Array || c.Kind == unstable.InlineTable || bytes.Contains(raw, []byte(`"""`)) {
				return nil, false
			}
			v, ok := s.value(c, nil, true)
			if !ok {
				return nil, false
			}
			list = append(list, v)
		}
		return list, true
	default:
		return nil, false
	}
}

// moment reads 2026-03-02T07:15:00Z, or the same with an offset of hours and
// minutes, as the value reader does.
func moment(b []byte) (any, bool) {
	t, err := time.ParseInLocation(time.RFC3339, string(b), time.Local)
	return t, err == nil && t.Format(time.RFC3339) == string(b)
}

// digits tells whether b is a whole number as everybody writes it, of at most
// so many digits.
func digits(b []byte, most int) bool {
	b = bytes.TrimPrefix(b, []byte{'-'})
	if len(b) == 0 || len(b) > most || len(b) > 1 && b[0] == '0' {
		return false
	}
	for _, c := range b {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

// fillSimple is fill for a document whose values the scan took.
func (d *Document) fillSimple(model any) []Problem {
	rows := make([][]Row, len(d.Tables))
	rows[0] = d.Tables[0].rows(model)
	for i := 1; i < len(d.Tables); i++ {
		counts := make([]int, d.rows[d.parents[i]])
		for _, parent := range d.of[i] {
			counts[parent]++
		}
		rows[i] = d.Tables[i].begin(model, counts)
	}
	return d.set(nil, rows, func(i int, _ *Leaf) (any, bool) { return d.simple[i], true })
}
