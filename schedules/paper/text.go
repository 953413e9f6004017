package paper

import (
	"bytes"
	"io"
	"strings"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/paper/measure"
)

// Text writes a sheet as lines of at most width columns; 0 sets no limit.
// Tables whose columns do not fit grow beyond it.
func Text(w io.Writer, sheet Sheet, width int) error {
	t := texter{width: width}
	t.b.Grow(4096) // a report of findings; thousands are printed in a run
	for _, b := range sheet {
		switch b := b.(type) {
		case Heading:
			t.wrapped("", "  ", b.Text)
		case Facts:
			t.facts(b, 0)
		case Table:
			t.table(b)
		case Note:
			indent := strings.Repeat(" ", b.Indent)
			t.wrapped(indent+b.Mark, indent+strings.Repeat(" ", measure.Width(b.Mark)), b.Text)
		case Section:
			t.section(b)
		case Figure:
			t.wrapped("", "  ", b.Caption)
			for _, l := range b.Text {
				t.wrapped("  ", "    ", l)
			}
		case Boxes:
			for _, title := range b.Titles {
				t.line(gap + word.Clean(title) + ": " + strings.Repeat("_", 30))
			}
		case Signature:
			t.line(word.Clean(b.Role) + ": " + strings.Repeat("_", 30) + "  date: " + strings.Repeat("_", 12))
		}
	}
	_, err := w.Write(t.b.Bytes())
	return err
}

type texter struct {
	b     bytes.Buffer
	width int
}

func (t *texter) line(s string) {
	t.b.WriteString(s)
	t.end()
}

// end ends the line, without the blanks that nothing follows.
func (t *texter) end() {
	t.b.Truncate(len(bytes.TrimRight(t.b.Bytes(), " ")))
	t.b.WriteByte('\n')
}

func (t *texter) blanks(n int) {
	for range n {
		t.b.WriteByte(' ')
	}
}

// wrapped sets text after first, its other lines after hanging.
func (t *texter) wrapped(first, hanging, text string) {
	width := 0
	if t.width > 0 {
		width = max(20, t.width-measure.Width(hanging))
	}
	for i, line := range measure.Wrap(word.Clean(text), width) {
		if i == 0 {
			t.line(first + line)
			continue
		}
		t.line(hanging + line)
	}
}

// facts are names in one column, at least so wide, and what they are in
// another.
func (t *texter) facts(f Facts, wide int) {
	for _, x := range f {
		wide = max(wide, measure.Width(word.Clean(x.Name)))
	}
	for _, x := range f {
		name := word.Clean(x.Name)
		t.wrapped(gap+name+strings.Repeat(" ", wide-measure.Width(name))+gap, strings.Repeat(" ", wide+2*len(gap)), x.Value)
	}
}

const (
	gap   = "  "
	blank = "______" // to be written in
)

func (t *texter) table(b Table) {
	widths := make([]int, len(b.Columns))
	columns, first, last := false, 0, -1
	for _, r := range b.Rows {
		if r.Band != "" {
			continue
		}
		columns = columns || r.Line == ""
		first = max(first, measure.Width(word.Clean(r.Cells[0])))
	}
	for i, c := range b.Columns {
		if c.Under {
			continue
		}
		last = i
		widths[i] = measure.Width(word.Clean(c.Title))
		if c.Write {
			widths[i] = max(widths[i], len(blank))
		}
		for _, r := range b.Rows {
			if r.Line == "" && r.Band == "" {
				widths[i] = max(widths[i], measure.Width(word.Clean(r.Cells[i])))
			}
		}
	}
	if columns {
		t.cells(b.Columns, widths, last, func(i int) string { return word.Clean(b.Columns[i].Title) })
	}
	for _, r := range b.Rows {
		switch {
		case r.Band != "":
			t.wrapped("  -- ", "     ", r.Band)
			continue
		case r.Place:
			t.line(word.Clean(r.Line))
		case r.Line != "":
			t.facts(Facts{{r.Cells[0], r.Line}}, first)
		default:
			t.cells(b.Columns, widths, last, func(i int) string {
				if b.Columns[i].Write {
					return blank
				}
				return word.Clean(r.Cells[i])
			})
		}
		for i, c := range b.Columns {
			if !c.Under || r.Brief || r.Cells[i] == "" {
				continue
			}
			title := word.Clean(c.Title) + ": "
			if c.Plain {
				title = ""
			}
			if c.List {
				for _, text := range strings.Split(r.Cells[i], "\n") {
					t.wrapped("    - ", "      ", text)
				}
				continue
			}
			t.wrapped("    ", "      ", title+r.Cells[i])
		}
	}
}

// cells sets one line of columns; the last wraps under itself where the line
// would grow too long.
func (t *texter) cells(columns []Column, widths []int, last int, cell func(int) string) {
	start := t.b.Len()
	for i, c := range columns {
		if c.Under {
			continue
		}
		text := cell(i)
		fill := widths[i] - measure.Width(text)
		if i == last && !c.Right {
			at := measure.Width(string(t.b.Bytes()[start:])) + len(gap)
			room := 0
			if t.width > 0 {
				room = max(20, t.width-at)
			}
			for k, part := range measure.Wrap(text, room) {
				if k > 0 {
					t.blanks(at - len(gap))
				}
				t.line(gap + part)
			}
			return
		}
		t.b.WriteString(gap)
		if c.Right {
			t.blanks(fill)
		}
		t.b.WriteString(text)
		if !c.Right {
			t.blanks(fill)
		}
	}
	t.end()
}

// section draws a layer a line, its length to scale; what repeats is one.
func (t *texter) section(s Section) {
	const longest = 40
	most := 0.0
	for _, l := range s.Folded() {
		most = max(most, l.Thickness)
	}
	table := Table{Columns: []Column{{Title: "ply"}, {Title: "zone"}, {Title: "material"}, {Title: "thickness, to scale"}}}
	for _, l := range s.Folded() {
		bar := ""
		if most > 0 {
			bar = strings.Repeat("#", max(1, int(longest*l.Thickness/most+0.5)))
		}
		if l.Gel {
			bar += " | gel stop"
		}
		table.Rows = append(table.Rows, Row{Cells: []string{l.Plies, l.Zone, l.Material, bar}})
	}
	t.table(table)
}
