package paper

import "frp/veilwright/laminate/source"

// Sources is publications of the register, and how each was read.
func Sources(list []source.Entry) Sheet {
	t := Table{Columns: []Column{{Title: "source"}, {Title: "read"}, {Title: "title"}, {Title: "taken from it", Under: true}}}
	for _, e := range list {
		t.Rows = append(t.Rows, Row{Cells: []string{e.Name, e.Read.String(), e.Title, e.For}})
	}
	return Sheet{t}
}
