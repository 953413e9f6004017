package tables

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// values reads the values of the document. Keys given twice are told and then
// left out, so that whatever else is wrong can be told in the same breath.
func (d *Document) values() (map[string]any, []Problem) {
	var m map[string]any
	_, err := toml.Decode(string(d.Data), &m)
	if err == nil {
		return m, nil
	}
	problems, once := d.duplicates()
	if len(problems) > 0 {
		m = nil
		if _, err = toml.Decode(string(once), &m); err == nil {
			return m, problems
		}
	}
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return nil, append(problems, problemAt(d.Data, 0, "", Printable("this is not TOML: "+err.Error())))
	}
	// The library counts wrongly where tables repeat; only a place inside the
	// text is of use.
	at := pe.Position.Start
	if at < 0 || at > len(d.Data) {
		at = 0
	}
	return nil, append(problems, problemAt(d.Data, at, SafeKey(pe.LastKey), Printable("this is not TOML: "+pe.Message)))
}

// duplicates finds keys and tables given twice, and gives the text without the
// second ones, every offset kept.
func (d *Document) duplicates() (problems []Problem, once []byte) {
	once = bytes.Clone(d.Data)
	drop := func(from, to int) {
		for i := from; i < to; i++ {
			if once[i] != '\n' && once[i] != '\r' {
				once[i] = ' '
			}
		}
	}
	line := func(at int) int { l, _ := Place(d.Data, at); return l }
	first := make(map[Spot]int, len(d.leaves))
	// A table that stands a second time is told once, its keys with it.
	again := make(map[int]bool)
	seen := make(map[int]int)
	for i, h := range d.Heads {
		if h.Table < 0 || h.Array {
			continue
		}
		if at, twice := seen[h.Table]; twice {
			problems = append(problems, problemAt(d.Data, h.Start, d.Tables[h.Table].Name, fmt.Sprintf("the table is given twice, first on line %d", line(at))))
			drop(h.Start, h.End)
			again[i] = true
		} else {
			seen[h.Table] = h.Start
		}
	}
	for _, l := range d.leaves {
		if again[l.Head] {
			drop(l.From, l.To)
			continue
		}
		if l.Sub {
			continue
		}
		p := Spot{l.Table, l.Row, l.Key}
		at, twice := first[p]
		if !twice {
			first[p] = l.Start
			continue
		}
		problems = append(problems, problemAt(d.Data, l.Start, Name(&d.Tables[l.Table], l.Key), fmt.Sprintf("it is given twice, first on line %d", line(at))))
		if l.From == l.Start {
			drop(l.From, l.To)
		}
	}
	return problems, once
}

// TopKey is a key before the first table. Value is text without its quotes, or
// whatever else it is as it was typed.
type TopKey struct {
	Offset        int // of the key
	Value         string
	Text, Integer bool // neither: a decimal, a list, a table
}

// Top reads the keys before the first table, up to where all that are wanted
// are found, leniently: whatever follows may be anything.
func Top(data []byte, wanted ...string) (map[string]TopKey, []Problem) {
	if problems := tooMany(data); problems != nil {
		return nil, problems
	}
	s := scanner{out: &Document{Data: data}}
	s.parse(data)
	defer s.letGo()
	top := map[string]TopKey{}
	for s.parser.NextExpression() {
		e := s.parser.Expression()
		if e.Kind != unstable.KeyValue {
			return top, nil
		}
		var room [mostDepth][]byte
		parts, start, end := s.keys(e.Key(), &room)
		if len(parts) != 1 {
			continue
		}
		key := string(parts[0])
		if _, twice := top[key]; twice || !slices.Contains(wanted, key) {
			continue
		}
		k := TopKey{Offset: start}
		switch v := e.Value(); v.Kind {
		case unstable.String:
			k.Text, k.Value = true, string(v.Data)
		case unstable.Integer:
			k.Integer, k.Value = true, string(v.Data)
		default:
			k.Value = string(data[s.valueStart(end):min(len(data), int(e.Raw.Offset+e.Raw.Length))])
		}
		top[key] = k
		if len(top) == len(wanted) {
			return top, nil
		}
	}
	if err := s.parser.Error(); err != nil {
		return top, []Problem{s.syntaxError(err)}
	}
	return top, nil
}

// Comments gives the comments inside one `key = value` text, in order, each
// from its # to the end of its line.
func Comments(entry []byte) []string {
	if !bytes.ContainsRune(entry, '#') {
		return nil
	}
	p := unstable.Parser{KeepComments: true}
	p.Reset(entry)
	var found []string
	var walk func(*unstable.Node)
	walk = func(n *unstable.Node) {
		if n.Kind == unstable.Comment {
			found = append(found, string(bytes.TrimRight(n.Data, "\r \t")))
		}
		for it := n.Children(); it.Next(); {
			walk(it.Node())
		}
	}
	for p.NextExpression() {
		walk(p.Expression())
	}
	return found
}
