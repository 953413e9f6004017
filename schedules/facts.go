package schedules

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
)

// FactChange is a stated value that two schedules do not share: "" where one
// of them does not state it. Text is as a document spells it.
type FactChange struct{ Key, Old, New string }

// FactChanges lists what two schedules state differently beside their plies:
// header, part and service key by key, conditions by their names, resins and
// materials by their ids.
func FactChanges(older, newer *laminate.Schedule) []FactChange {
	return changes(scheduleTables, older, newer)
}

// JobChanges lists what two jobs state differently beside their plies: what
// stands once key by key, rows by their ids. Whether a laminate is there is one
// of them.
func JobChanges(older, newer *laminate.Job) []FactChange { return changes(jobTables(), older, newer) }

func changes(known []tables.Table, older, newer any) []FactChange {
	var list []FactChange
	note := func(t *tables.Table, label string, a, b any) {
		for i := range t.Fields {
			f := &t.Fields[i]
			x, y := stated(f, a), stated(f, b)
			if x != y {
				list = append(list, FactChange{Key: label + f.Key, Old: x, New: y})
			}
		}
	}
	for i := range known {
		t := &known[i]
		if t.Array {
			continue
		}
		label := ""
		if t.Name != "" {
			label = t.Name + "."
		}
		note(t, label, t.Rows(older)[0].Value, t.Rows(newer)[0].Value)
	}
	for i := range known {
		t := &known[i]
		if !t.Array || strings.HasSuffix(t.Name, "ply") {
			continue
		}
		was, is := byID(t, older), byID(t, newer)
		for _, id := range was.order {
			note(t, t.Name+" "+id+": ", was.rows[id], is.rows[id])
		}
		for _, id := range is.order {
			if was.rows[id] == nil {
				note(t, t.Name+" "+id+": ", nil, is.rows[id])
			}
		}
	}
	return list
}

type named struct {
	order []string
	rows  map[string]any
}

func byID(t *tables.Table, s any) named {
	n := named{rows: map[string]any{}}
	for _, r := range t.Rows(s) {
		// The first key of every such table is what its rows go by.
		row := r.Value
		id := strings.Trim(stated(&t.Fields[0], row), "\"")
		n.order = append(n.order, id)
		n.rows[id] = row
	}
	return n
}

func stated(f *tables.Field, row any) string {
	if row == nil {
		return ""
	}
	text, given := f.Get(row)
	if !given {
		return ""
	}
	return text
}
