package schedules

import (
	"slices"
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
		for _, id := range append(was.order, is.which(was, false)...) {
			note(t, t.Name+" "+id+": ", was.rows[id], is.rows[id])
		}
		if a, b := strings.Join(was.which(is, true), ", "), strings.Join(is.which(was, true), ", "); t.Name == "part" && a != b { // they stand on each other so
			list = append(list, FactChange{Key: "order of parts", Old: a, New: b})
		}
	}
	return list
}

type named struct {
	order []string
	rows  map[string]any
}

// which are the ids that another list has too, or those that it lacks, in order.
func (n named) which(other named, has bool) []string {
	return slices.DeleteFunc(slices.Clone(n.order), func(id string) bool { return (other.rows[id] != nil) != has })
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
	if row != nil {
		if text, given := f.Get(row); given {
			return text
		}
	}
	return ""
}
