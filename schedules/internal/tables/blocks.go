package tables

import (
	"bytes"
	"strings"
)

// layout is a document cut into blocks. What stands between two blocks (blank
// lines, comments with blank lines around them) belongs to neither: it is the
// gap before the later one.
type layout struct {
	blocks []block
	eol    string
	sep    string // between two blocks of a kind, usually one empty line
}

// block is the text of one table: the comments right above its header, the
// header, its keys, and comments right below them.
type block struct {
	table, row int
	lead, head int // where its comments and its header line begin
	body, end  int // where the keys begin and the block ends, line ends included
	leaves     []Leaf
}

// lineStart and lineEnd give the line that holds an offset; the end is behind
// its line end.
func lineStart(b []byte, at int) int { return bytes.LastIndexByte(b[:at], '\n') + 1 }

func lineEnd(b []byte, at int) int {
	if n := bytes.IndexByte(b[at:], '\n'); n >= 0 {
		return at + n + 1
	}
	return len(b)
}

func (d *Document) blocks() *layout {
	lay := &layout{eol: "\n", sep: "\n"}
	if i := bytes.IndexByte(d.Data, '\n'); i > 0 && d.Data[i-1] == '\r' {
		lay.eol = "\r\n"
	}
	lay.blocks = make([]block, len(d.Heads)+1)
	for i, h := range d.Heads {
		lay.blocks[i+1] = block{table: h.Table, row: h.Row, head: lineStart(d.Data, h.Start), body: lineEnd(d.Data, h.End)}
		lay.blocks[i+1].end = lay.blocks[i+1].body
	}
	for i := 0; i < len(d.leaves); {
		b, first := &lay.blocks[d.leaves[i].Head+1], i
		for ; i < len(d.leaves) && d.leaves[i].Head == d.leaves[first].Head; i++ {
			b.end = max(b.end, lineEnd(d.Data, d.leaves[i].To))
		}
		b.leaves = d.leaves[first:i] // those below one header stand together
	}
	for i := range lay.blocks {
		b := &lay.blocks[i]
		next := len(d.Data)
		if i+1 < len(lay.blocks) {
			next = lay.blocks[i+1].head
		}
		below, above := d.ownComments(b.end, next, i+1 < len(lay.blocks))
		b.end = below
		if i+1 < len(lay.blocks) {
			lay.blocks[i+1].lead = above
		}
	}
	lay.sep = d.separator(lay)
	return lay
}

// ownComments splits the lines from one block's last key to the next header:
// comments right above the header are the header's, others right below the
// last key are that block's.
func (d *Document) ownComments(from, to int, header bool) (below, above int) {
	above = to
	for header && above > from {
		start := lineStart(d.Data, above-1)
		if !isComment(d.Data[start:above]) {
			break
		}
		above = start
	}
	below = from
	for below < above {
		end := lineEnd(d.Data, below)
		if !isComment(d.Data[below:end]) {
			break
		}
		below = end
	}
	return below, above
}

func isComment(line []byte) bool { return bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("#")) }

func isBlank(b []byte) bool { return len(bytes.TrimSpace(b)) == 0 }

// separator is what the author puts between two rows of one kind.
func (d *Document) separator(lay *layout) string {
	for i := 2; i < len(lay.blocks); i++ {
		gap := d.Data[lay.blocks[i-1].end:lay.blocks[i].lead]
		if lay.blocks[i].table == lay.blocks[i-1].table && isBlank(gap) {
			return string(gap)
		}
	}
	return lay.eol
}

// style is how a block writes its keys.
type style struct {
	indent string
	width  int    // column of the equals sign behind the indent; 0 = not aligned
	equals string // with the blanks around it, where not aligned
}

func (d *Document) styleOf(b *block) style {
	st := style{equals: " = "}
	column, keys, shortest := -1, 0, 0
	aligned := true
	for _, l := range b.leaves {
		if !l.Plain {
			continue
		}
		eq := bytes.IndexByte(d.Data[l.Start+len(l.Key):l.Value], '=')
		if eq < 0 {
			continue
		}
		eq += len(l.Key)
		if keys == 0 {
			column, shortest = eq, len(l.Key)
			st.indent = string(d.Data[lineStart(d.Data, l.Start):l.Start])
		}
		aligned = aligned && eq == column
		shortest = min(shortest, len(l.Key))
		if eq == len(l.Key) {
			st.equals = "="
			if l.Value > l.Start+eq+1 {
				st.equals = "= "
			}
		} else {
			st.equals = " = "
		}
		keys++
	}
	if strings.TrimSpace(st.indent) != "" {
		st.indent = ""
	}
	// One key alone aligns with nothing, unless it is padded.
	if aligned && keys > 0 && (keys > 1 && st.equals != "=" || column > shortest+1) {
		st.width = column
	}
	return st
}

func (st style) line(key, value string) string {
	if st.width > 0 {
		return st.indent + key + strings.Repeat(" ", max(1, st.width-len(key))) + "= " + value
	}
	return st.indent + key + st.equals + value
}
