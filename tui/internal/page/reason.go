package page

import "frp/veilwright/tui/internal/keys"

// least is how many rows its paragraph leaves in sight: all that have digits.
func (l *List) least() int {
	if len(l.found) > 9 {
		return min(9, l.tall()-1)
	}
	return len(l.found)
}

// read opens the paragraph over the rows, to be read to its end.
func (l *List) read() {
	l.reader = &Text{Head: l.Head, Body: func(int) []string { return l.wrapped(l.Text) }}
	l.reader.Attach(l.desk, func() { l.reader = nil })
	l.reader.SetSize(l.w, l.h)
}

// reads is the key that reads the paragraph, where it has no room over the rows.
func (l *List) reads() keys.Table {
	if l.Find != "" || len(l.wrapped(l.Text)) <= max(0, l.tall()-l.least()) {
		return nil
	}
	return keys.Table{{Keys: []string{"w"}, Short: "whole text", Long: "read what stands over the rows to its end", Group: "Choosing", Rank: 1, Do: keys.Do(l.read)}}
}
