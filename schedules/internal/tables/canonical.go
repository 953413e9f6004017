package tables

import (
	"bytes"
	"cmp"
	"strings"
)

// remarks are the comments of a document by what they stand at.
type remarks struct {
	above  map[Spot][]string // above a key, or with no key above a header
	behind map[Spot]string   // behind a key or a header
	below  map[Spot][]string // below the last key of a table (no key)
	free   map[Spot][][]string
	tail   [][]string
}

// remarks collects the comments; those inside a list stay
// in it (see stays), others inside a value come to stand above it.
func (d *Document) remarks() *remarks {
	r := &remarks{above: map[Spot][]string{}, behind: map[Spot]string{}, below: map[Spot][]string{}, free: map[Spot][][]string{}}
	if !bytes.ContainsRune(d.Data, '#') {
		return r
	}
	lay := d.cut()
	end := 0
	for i := range lay.blocks {
		b := &lay.blocks[i]
		here := Spot{b.table, b.row, ""}
		r.free[here] = append(r.free[here], groups(d.Data[end:b.lead])...)
		r.above[here] = append(r.above[here], comments(d.Data[b.lead:b.head])...)
		if i > 0 {
			r.noteBehind(here, d.Data[d.Heads[i-1].End:b.body])
		}
		at := b.body
		for n, l := range b.leaves {
			if n > 0 && l.From == b.leaves[n-1].From {
				continue // within the same inline table
			}
			key := d.owner(l)
			lines := d.Data[at:lineStart(d.Data, l.From)]
			if i == 0 && n == 0 {
				lead, rest := leading(lines)
				r.free[here] = append(r.free[here], lead...)
				lines = rest
			}
			r.above[key] = append(r.above[key], comments(lines)...)
			if !d.stays(l) {
				r.above[key] = append(r.above[key], Comments(d.Data[l.From:l.To])...)
			}
			at = lineEnd(d.Data, l.To)
			r.noteBehind(key, d.Data[l.To:at])
		}
		r.below[here] = append(r.below[here], comments(d.Data[at:b.end])...)
		end = b.end
	}
	r.tail = groups(d.Data[end:])
	return r
}

// stays tells whether a value is left as it was typed, lines and all: a list
// with comments, which say something of the item they stand at.
func (d *Document) stays(l Leaf) bool {
	return l.Plain && l.Of == 0 && d.Data[l.Value] == '[' && len(Comments(d.Data[l.From:l.To])) > 0
}

// owner is what a comment at a key belongs to in canonical form.
func (d *Document) owner(l Leaf) Spot {
	if l.Of > 0 {
		for row, parent := range d.of[l.Of] {
			if parent == l.Row {
				return Spot{l.Of, row, ""}
			}
		}
	}
	return Spot{l.Table, l.Row, l.Key}
}

func (r *remarks) noteBehind(at Spot, rest []byte) {
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
	src *Document // nil for a document made in the program
}

// Canonical writes a document. With the source it came from its comments are
// kept, and so are keys that say nothing (author = ""), so that no comment at
// one is lost.
func Canonical(tables []Table, model any, src *Document, eol string) []byte {
	w := &writer{r: &remarks{}, src: src}
	if src != nil {
		w.r = src.remarks()
	}
	of, _ := parents(tables)
	rows, was := make([][]Row, len(tables)), make([][]Row, len(tables))
	for i := range tables {
		rows[i] = tables[i].rows(model)
		if src != nil {
			was[i] = tables[i].rows(src.Was)
		}
	}
	var write func(table, parent int)
	write = func(table, parent int) {
		for row, to := within(rows[table], parent); row < to; row++ {
			var before any
			if row < len(was[table]) {
				before = was[table][row].Value
			}
			w.row(&tables[table], table, row, rows[table][row].Value, before)
			for i := 1; i < len(tables); i++ {
				if of[i] == table && table > 0 {
					write(i, row)
				}
			}
		}
	}
	for i := range tables {
		if of[i] == 0 {
			write(i, 0)
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
func (d *Document) spelled(at Spot) string {
	if d == nil {
		return ""
	}
	i, ok := d.leaf(at)
	if !ok {
		return ""
	}
	l := d.leaves[i]
	return string(d.Data[l.Value:l.End])
}

// kept is a value as it was typed, where that may stay: what is on several
// lines goes on one, unless it is text or a list with comments.
func (d *Document) kept(at Spot) string {
	typed := d.spelled(at)
	if typed == "" {
		return ""
	}
	i, _ := d.leaf(at)
	if text := typed[0] == '"' || typed[0] == '\''; !text && !d.stays(d.leaves[i]) && strings.ContainsAny(typed, "\n#") {
		return ""
	}
	return strings.ReplaceAll(typed, "\r\n", "\n")
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

// row writes a row of a table; before are its values as they were read, nil for none.
func (w *writer) row(t *Table, table, row int, values, before any) {
	here := Spot{table, row, ""}
	var keys, texts []string
	width := 0
	for i := range t.Fields {
		f := &t.Fields[i]
		at := Spot{table, row, f.Key}
		text, given := f.Get(values)
		if !given {
			if text = f.Blank; text == "" || w.src.spelled(at) == "" {
				continue
			}
		}
		if before != nil {
			if was, stated := f.Get(before); stated == given && (was == text || !given) {
				text = cmp.Or(w.src.kept(at), text) // 6.0 stays 6.0, and 'a' stays 'a'
			}
		}
		keys, texts = append(keys, f.Key), append(texts, text)
		width = max(width, len(f.Key))
	}
	silent := len(keys) == 0 && len(w.r.above[here]) == 0 && len(w.r.below[here]) == 0 && w.r.behind[here] == "" && len(w.r.free[here]) == 0
	if silent && !t.Array {
		return
	}
	for _, g := range w.r.free[here] {
		w.blank()
		w.lines(g)
	}
	w.blank()
	w.lines(w.r.above[here])
	if t.Name != "" {
		w.b.WriteString(t.header())
		w.behind(here)
	}
	for i, key := range keys {
		at := Spot{table, row, key}
		w.lines(w.r.above[at])
		w.b.WriteString(key + strings.Repeat(" ", width-len(key)) + " = " + texts[i])
		w.behind(at)
	}
	w.lines(w.r.below[here])
}

func (w *writer) behind(at Spot) {
	if c := w.r.behind[at]; c != "" {
		w.b.WriteString("  " + c)
	}
	w.b.WriteByte('\n')
}
