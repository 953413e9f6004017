package tables

import "slices"

// Said appends what the rows of a table say by value, so that neither spelling
// nor place in the file counts; keys in without are left out.
func (t *Table) Said(b []byte, model any, without []string) []byte {
	for _, r := range t.rows(model) {
		b = Said(b, t.Name, t.Fields, r.Value, without)
	}
	return b
}

// Said appends what one row says, as [Table.Said] does.
func Said(b []byte, title string, fields []Field, row any, without []string) []byte {
	b = append(b, title...)
	for _, f := range fields {
		if slices.Contains(without, f.Key) {
			continue
		}
		get := f.Get
		if f.Value != nil {
			get = f.Value
		}
		if text, ok := get(row); ok {
			b = append(b, " "+f.Key+"="+text...)
		}
	}
	return append(b, '\n')
}
