package schedules

import (
	"bytes"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/syntax"
)

// Tidy gives a schedule's document in canonical form: the tables and keys in
// the usual order, one blank line between tables, the equals signs of a table
// below each other, values spelled as they were. Comments stay with the key or
// table they stand at. zones, where not nil, gives the zone of every row, which
// is written out. Tidying twice is the same as once.
//
// Shop books are tidied too. A record only ever grows at its end, and stays as
// it is written.
func Tidy(b []byte, zones func(*laminate.Schedule) []laminate.Zone) ([]byte, []Problem) {
	if kind, _ := Sniff(b); kind == ShopBook {
		src, own, problems := decodeBook(b)
		if len(problems) > 0 {
			return nil, problems
		}
		return canonical(bookTables, own, src, src.cut().eol), nil
	}
	src, s, problems := Decode(b)
	if len(problems) > 0 {
		return nil, problems
	}
	if zones != nil {
		s = s.Clone()
		for i, z := range zones(s) {
			if s.Plies[i].Zone == laminate.NoZone {
				s.Plies[i].Zone = z
			}
		}
	}
	return canonical(scheduleTables, s, src, src.cut().eol), nil
}

// remarks are the comments of a document by what they stand at.
type remarks struct {
	above  map[spot][]string // above a key, or with no key above a header
	behind map[spot]string   // behind a key or a header
	below  map[spot][]string // below the last key of a table (no key)
	free   map[spot][][]string
	tail   [][]string
}

// remarks collects the comments; those inside a list come to stand above it.
func (s *Source) remarks() *remarks {
	r := &remarks{above: map[spot][]string{}, behind: map[spot]string{}, below: map[spot][]string{}, free: map[spot][][]string{}}
	if !bytes.ContainsRune(s.data, '#') {
		return r
	}
	lay := s.cut()
	end := 0
	for i := range lay.blocks {
		b := &lay.blocks[i]
		here := spot{b.table, b.row, ""}
		r.free[here] = append(r.free[here], groups(s.data[end:b.lead])...)
		r.above[here] = append(r.above[here], comments(s.data[b.lead:b.head])...)
		if i > 0 {
			r.noteBehind(here, s.data[s.out.Heads[i-1].End:b.body])
		}
		at := b.body
		for n, l := range b.leaves {
			if n > 0 && l.From == b.leaves[n-1].From {
				continue // within the same inline table
			}
			key := s.owner(l)
			lines := s.data[at:lineStart(s.data, l.From)]
			if i == 0 && n == 0 {
				lead, rest := leading(lines)
				r.free[here] = append(r.free[here], lead...)
				lines = rest
			}
			r.above[key] = append(r.above[key], comments(lines)...)
			r.above[key] = append(r.above[key], syntax.Comments(s.data[l.From:l.To])...)
			at = lineEnd(s.data, l.To)
			r.noteBehind(key, s.data[l.To:at])
		}
		r.below[here] = append(r.below[here], comments(s.data[at:b.end])...)
		end = b.end
	}
	r.tail = groups(s.data[end:])
	return r
}

// owner is what a comment at a key belongs to in canonical form.
func (s *Source) owner(l syntax.Leaf) spot {
	if !l.Container {
		return spot{l.Table, l.Row, l.Key}
	}
	for i := range s.tables {
		if i > 0 && s.tables[i].name == l.Key {
			return spot{i, 0, ""}
		}
	}
	return spot{l.Table, l.Row, l.Key}
}

func (r *remarks) noteBehind(at spot, rest []byte) {
	text := strings.TrimSpace(string(rest))
	if !strings.HasPrefix(text, "#") {
		return
	}
	if r.behind[at] != "" {
		r.above[at] = append(r.above[at], text)
		return
	}
	r.behind[at] = text
}

// comments lists the comment lines of a text.
func comments(text []byte) []string {
	var list []string
	for _, line := range bytes.Split(text, []byte{'\n'}) {
		if isComment(line) {
			list = append(list, string(bytes.TrimSpace(line)))
		}
	}
	return list
}

// groups lists the comments that blank lines part.
func groups(text []byte) [][]string {
	var all [][]string
	var group []string
	for _, line := range bytes.Split(text, []byte{'\n'}) {
		if isComment(line) {
			group = append(group, string(bytes.TrimSpace(line)))
			continue
		}
		if len(group) > 0 {
			all, group = append(all, group), nil
		}
	}
	if len(group) > 0 {
		all = append(all, group)
	}
	return all
}

// leading takes the comments above the first key off that have a blank line
// below them: they head the document and not the key.
func leading(text []byte) (heads [][]string, rest []byte) {
	cut := 0
	for at := 0; at < len(text); {
		end := lineEnd(text, at)
		if isBlank(text[at:end]) {
			cut = end
		}
		at = end
	}
	return groups(text[:cut]), text[cut:]
}

// writer puts a canonical document together.
type writer struct {
	b   bytes.Buffer
	r   *remarks
	src *Source // nil for a document made in the program
}

// canonical writes a document. With the source it came from its comments are
// kept, and so are keys that say nothing (author = ""), so that no comment at
// one is lost.
func canonical(tables []table, model any, src *Source, eol string) []byte {
	w := &writer{r: &remarks{}, src: src}
	if src != nil {
		w.r = src.remarks()
	}
	for i := range tables {
		t := &tables[i]
		for row := range t.rows(model) {
			w.row(t, i, row, t.at(model, row))
		}
	}
	for _, g := range w.r.tail {
		w.blank()
		w.lines(g)
	}
	if eol != "\n" {
		return bytes.ReplaceAll(w.b.Bytes(), []byte("\n"), []byte(eol))
	}
	return w.b.Bytes()
}

// spelled is a value as it was typed, "" where it was not.
func (s *Source) spelled(at spot) string {
	if s == nil {
		return ""
	}
	i, ok := s.places()[at]
	if !ok {
		return ""
	}
	l := s.out.Leaves[i]
	return string(s.data[l.Value:l.End])
}

func (w *writer) blank() {
	if w.b.Len() > 0 {
		w.b.WriteByte('\n')
	}
}

func (w *writer) lines(list []string) {
	for _, l := range list {
		w.b.WriteString(l)
		w.b.WriteByte('\n')
	}
}

func (w *writer) row(t *table, table, row int, values any) {
	here := spot{table, row, ""}
	var keys, texts []string
	width := 0
	for i := range t.fields {
		f := &t.fields[i]
		text, given := f.get(values)
		typed := w.src.spelled(spot{table, row, f.key})
		switch {
		case !given && (typed == "" || f.blank == ""):
			continue
		case !given:
			text = f.blank
		case typed != "" && text[0] != '"' && !strings.ContainsAny(typed, "\n#"):
			text = typed // 6.0 stays 6.0
		}
		keys, texts = append(keys, f.key), append(texts, text)
		width = max(width, len(f.key))
	}
	silent := len(keys) == 0 && len(w.r.above[here]) == 0 && len(w.r.below[here]) == 0 && w.r.behind[here] == "" && len(w.r.free[here]) == 0
	if silent && !t.array {
		return
	}
	for _, g := range w.r.free[here] {
		w.blank()
		w.lines(g)
	}
	w.blank()
	w.lines(w.r.above[here])
	if t.name != "" {
		header := "[" + t.name + "]"
		if t.array {
			header = "[" + header + "]"
		}
		w.b.WriteString(header)
		w.behind(here)
	}
	for i, key := range keys {
		at := spot{table, row, key}
		w.lines(w.r.above[at])
		w.b.WriteString(key + strings.Repeat(" ", width-len(key)) + " = " + texts[i])
		w.behind(at)
	}
	w.lines(w.r.below[here])
}

func (w *writer) behind(at spot) {
	if c := w.r.behind[at]; c != "" {
		w.b.WriteString("  " + c)
	}
	w.b.WriteByte('\n')
}

// keysOf lists every key of a schedule's tables with what may stand there.
func keysOf(tables []table) []TableKeys {
	var all []TableKeys
	for i := range tables {
		t := TableKeys{Table: tables[i].name, Array: tables[i].array}
		for _, f := range tables[i].fields {
			t.Keys = append(t.Keys, Key{f.key, f.what})
		}
		all = append(all, t)
	}
	return slices.Clip(all)
}

// TableKeys describes one table of a document; the top level has no name.
type TableKeys struct {
	Table string
	Array bool
	Keys  []Key
}

// Key is a key and what may stand there.
type Key struct{ Name, What string }

// Keys lists the tables and keys of a schedule in canonical order, from the
// tables that read it.
func Keys() []TableKeys { return keysOf(scheduleTables) }
