package syntax

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Values reads the values of the document. Keys given twice are told and then
// left out, so that whatever else is wrong can be told in the same breath.
func (o *Outline) Values() (map[string]any, []Error) {
	var m map[string]any
	_, err := toml.Decode(string(o.Data), &m)
	if err == nil {
		return m, nil
	}
	errs, once := o.duplicates()
	if len(errs) > 0 {
		m = nil
		if _, err = toml.Decode(string(once), &m); err == nil {
			return m, errs
		}
	}
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return nil, append(errs, Error{Message: "this is not TOML: " + err.Error()})
	}
	// The library counts wrongly where tables repeat; only a place inside the
	// text is of use.
	at := pe.Position.Start
	if at < 0 || at > len(o.Data) {
		at = 0
	}
	return nil, append(errs, Error{Offset: at, Key: pe.LastKey, Message: "this is not TOML: " + pe.Message})
}

// duplicates finds keys and tables given twice, and gives the text without the
// second ones, every offset kept.
func (o *Outline) duplicates() ([]Error, []byte) {
	type place struct {
		table, row int
		key        string
	}
	var errs []Error
	once := bytes.Clone(o.Data)
	drop := func(from, to int) {
		for i := from; i < to; i++ {
			if once[i] != '\n' && once[i] != '\r' {
				once[i] = ' '
			}
		}
	}
	first := make(map[place]int, len(o.Leaves))
	// A table that stands a second time is told once, its keys with it.
	again := make(map[int]bool)
	seen := make(map[int]int)
	for i, h := range o.Heads {
		if h.Table < 0 || h.Array {
			continue
		}
		if at, twice := seen[h.Table]; twice {
			name := string(bytes.Trim(o.Data[h.Start:h.End], "[] \t"))
			errs = append(errs, Error{Offset: h.Start, Key: name, Message: fmt.Sprintf("the table is given twice, first on line %d", o.line(at))})
			drop(h.Start, h.End)
			again[i] = true
		} else {
			seen[h.Table] = h.Start
		}
	}
	for _, l := range o.Leaves {
		if again[l.Head] {
			drop(l.From, l.To)
			continue
		}
		if l.Sub {
			continue
		}
		p := place{l.Table, l.Row, l.Key}
		at, twice := first[p]
		if !twice {
			first[p] = l.Start
			continue
		}
		errs = append(errs, Error{Offset: l.Start, Key: o.named(l), Message: fmt.Sprintf("it is given twice, first on line %d", o.line(at))})
		if l.From == l.Start {
			drop(l.From, l.To)
		}
	}
	return errs, once
}

// named is a key with its table: "part.length".
func (o *Outline) named(l Leaf) string {
	if name := o.tables[l.Table].Name; name != "" {
		return name + "." + l.Key
	}
	return l.Key
}

func (o *Outline) line(at int) int { return 1 + bytes.Count(o.Data[:at], []byte{'\n'}) }

// TopKey is a key before the first table. Value is text without its quotes, or
// whatever else it is as it was typed.
type TopKey struct {
	Offset        int // of the key
	Value         string
	Text, Integer bool // neither: a decimal, a list, a table
}

// Top reads the keys before the first table, leniently: whatever follows may
// be anything.
func Top(data []byte) (map[string]TopKey, []Error) {
	if errs := tooMany(data); errs != nil {
		return nil, errs
	}
	s := scanner{out: &Outline{Data: data}}
	s.parser.Reset(data)
	top := map[string]TopKey{}
	for s.parser.NextExpression() {
		e := s.parser.Expression()
		if e.Kind != unstable.KeyValue {
			return top, nil
		}
		var parts [mostDepth][]byte
		n, start, end := s.keys(e.Key(), &parts)
		if n != 1 {
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
		if _, twice := top[string(parts[0])]; !twice {
			top[string(parts[0])] = k
		}
	}
	if err := s.parser.Error(); err != nil {
		return top, []Error{s.syntaxError(err)}
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
