package schedules

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
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
		return tables.Canonical(bookTables, own, src.doc, src.doc.EOL()), nil
	}
	src, s, problems := Decode(b, nil)
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
	return tables.Canonical(scheduleTables, s, src.doc, src.doc.EOL()), nil
}

// keysOf lists every key of a schedule's tables with what may stand there.
func keysOf(list []tables.Table) []TableKeys {
	var all []TableKeys
	for i := range list {
		t := TableKeys{Table: list[i].Name, Array: list[i].Array}
		for _, f := range list[i].Fields {
			t.Keys = append(t.Keys, Key{f.Key, f.What})
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
