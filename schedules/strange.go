package schedules

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/keyed"
)

// strange finds text in the tables of a document that no screen should be sent.
// Newline and tab pass in the keys that hold several lines.
func (s *Source) strange(tables []keyed.Table, lines ...string) []Problem {
	values, _ := s.doc.Out.Values()
	var problems []Problem
	look := func(table, row int, keys map[string]any) {
		for key, value := range keys {
			several := false
			for _, k := range lines {
				several = several || k == key
			}
			if r, bad := badText(value, several); bad {
				p := Problem{Key: keyed.Name(&tables[table], key), Message: fmt.Sprintf("the character %U is not allowed in it", r)}
				p.Line, p.Column = keyed.Place(s.doc.Data, max(0, s.doc.Offset(table, row, key)))
				problems = append(problems, p)
			}
		}
	}
	look(0, 0, values)
	for i := 1; i < len(tables); i++ {
		switch rows := values[tables[i].Name].(type) {
		case map[string]any:
			look(i, 0, rows)
		case []map[string]any:
			for n, row := range rows {
				look(i, n, row)
			}
		}
	}
	return problems
}

// badText looks into a text or a list of texts; deeper tables are looked at by
// whoever reads them.
func badText(value any, several bool) (rune, bool) {
	switch v := value.(type) {
	case string:
		return laminate.BadCharacter(v, several)
	case []any:
		for _, x := range v {
			if r, bad := badText(x, several); bad {
				return r, true
			}
		}
	}
	return 0, false
}
