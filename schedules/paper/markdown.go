package paper

import (
	"frp/veilwright/laminate/word"
	"io"
	"strings"
)

// Markdown writes a sheet as Markdown with tables.
func Markdown(w io.Writer, sheet Sheet) error {
	var b strings.Builder
	block := func(lines ...string) {
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		for _, l := range lines {
			b.WriteString(l)
			b.WriteByte('\n')
		}
	}
	listing := false
	for _, part := range sheet {
		item := false
		switch part := part.(type) {
		case Heading:
			block(strings.Repeat("#", part.Level) + " " + marked(part.Text))
		case Facts:
			var lines []string
			for _, f := range part {
				lines = append(lines, "- "+marked(f.Name)+": "+marked(f.Value))
			}
			block(lines...)
		case Table:
			block(grid(part)...)
		case Note:
			if item = part.Mark == "- "; item && listing {
				b.WriteString("- " + marked(part.Text) + "\n")
				break
			}
			block(part.Mark + marked(part.Text))
		case Section:
			table := Table{Columns: []Column{{Title: "ply"}, {Title: "zone"}, {Title: "material"}}}
			for _, l := range part.Folded() {
				table.Rows = append(table.Rows, Row{Cells: []string{l.Plies, l.Zone, l.Material}})
			}
			block(grid(table)...)
		case Figure:
			block(marked(part.Caption))
			for _, l := range part.Text {
				b.WriteString("- " + marked(l) + "\n")
			}
		case Boxes:
			var lines []string
			for _, title := range part.Titles {
				lines = append(lines, "- "+marked(title)+": "+strings.Repeat(`\_`, 20))
			}
			block(lines...)
		case Signature:
			block(marked(part.Role) + ": " + strings.Repeat(`\_`, 20) + " date: " + strings.Repeat(`\_`, 10))
		}
		listing = item
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func grid(t Table) []string {
	titles := make([]string, len(t.Columns))
	rules := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		titles[i], rules[i] = marked(c.Title), "---"
		if c.Right {
			rules[i] = "---:"
		}
	}
	lines := []string{"| " + strings.Join(titles, " | ") + " |", "|" + strings.Join(rules, "|") + "|"}
	for _, r := range t.Rows {
		if r.Band != "" {
			lines = append(lines, "| **"+marked(r.Band)+"** |"+strings.Repeat(" |", len(t.Columns)-1))
			continue
		}
		cells := make([]string, len(r.Cells))
		for i, c := range r.Cells {
			cells[i] = strings.ReplaceAll(marked(strings.ReplaceAll(c, "\n", several)), several, "<br>")
		}
		lines = append(lines, "| "+strings.Join(cells, " | ")+" |")
	}
	return lines
}

// several stands for the end of a line within a cell until it is cleaned.
const several = "¶¶"

// marked is cleaned text that Markdown takes for nothing but text.
func marked(s string) string {
	return escape.Replace(word.Clean(s))
}

var escape = strings.NewReplacer(`\`, `\\`, "|", `\|`, "`", "\\`", "*", `\*`, "<", `\<`, "[", `\[`)
