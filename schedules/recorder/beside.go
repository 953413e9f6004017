package recorder

import (
	"os"
	"path/filepath"
	"slices"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// mostBeside is how many files of a folder are looked into.
const mostBeside = 300

// Beside is a record in a folder, as far as lay-up has to know it.
type Beside struct {
	Path   string
	Laid   []int     // single plies that are laid, each once, in the order recorded
	Last   time.Time // the last entry
	Torn   string    // that the last entry is half-written, "" where it is not
	Record *record.Record
}

// Unfinished are the records in a folder of which mine says by the head that they
// are wanted, whose lay-up may go on: the part is not accepted, nor rejected without
// a disposition that goes on, and not all of its plies are laid. The one that was added to last comes
// first. What cannot be read is none.
func Unfinished(folder string, plies int, mine func(head *record.Record) bool) []Beside {
	names, err := filepath.Glob(filepath.Join(escaped(folder), "*"+store.Extension))
	if err != nil {
		return nil
	}
	var list []Beside
	for _, name := range names[:min(len(names), mostBeside)] {
		if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
			continue
		}
		text, err := store.Bytes(name)
		if err != nil {
			continue
		}
		if kind, problems := schedules.Sniff(text); kind != schedules.Record || len(problems) > 0 {
			continue
		}
		if head := headOf(text); head == nil || !mine(head) {
			continue
		}
		r, torn, problems := schedules.DecodeRecord(text)
		if r == nil || len(problems) > 0 || decided(r) {
			continue
		}
		b := Beside{Path: name, Torn: torn, Record: r}
		for i := range r.Laid {
			if t := &r.Laid[i]; !t.Struck && t.Ply >= 1 && t.Ply <= plies && !slices.Contains(b.Laid, t.Ply) {
				b.Laid = append(b.Laid, t.Ply)
			}
		}
		if len(b.Laid) >= plies {
			continue
		}
		for _, e := range r.Entries() {
			if at := e.Head().At; at.After(b.Last) {
				b.Last = at
			}
		}
		list = append(list, b)
	}
	slices.SortStableFunc(list, func(a, b Beside) int { return b.Last.Compare(a.Last) })
	return list
}

// decided tells whether a part is accepted, or rejected for good.
func decided(r *record.Record) (over bool) {
	last := 0
	for i := range r.Decisions {
		if d := &r.Decisions[i]; !d.Struck {
			over, last = d.Outcome == record.Accept || d.Outcome == record.Reject, d.Number
		}
	}
	return over && !slices.ContainsFunc(r.Dispositions, func(d record.Disposition) bool {
		return !d.Struck && d.Number > last && d.Action != record.Scrap
	})
}
