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
	Over   string    // why its lay-up is over: accepted, rejected, all plies laid; "" where it may go on
	Torn   string    // that the last entry is half-written, "" where it is not
	Record *record.Record
}

// Lying are the records in a folder of which mine says by the head that they are
// wanted: first those that may go on, and the one that was added to last. What cannot be read is none.
func Lying(folder string, plies int, mine func(head *record.Record) bool) []Beside {
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
		if r == nil || len(problems) > 0 {
			continue
		}
		b := Beside{Path: name, Torn: torn, Record: r, Over: decided(r)}
		for i := range r.Laid {
			if t := &r.Laid[i]; !t.Struck && t.Ply >= 1 && t.Ply <= plies && !slices.Contains(b.Laid, t.Ply) {
				b.Laid = append(b.Laid, t.Ply)
			}
		}
		if b.Over == "" && len(b.Laid) >= plies {
			b.Over = "all plies laid"
		}
		for _, e := range r.Entries() {
			if at := e.Head().At; at.After(b.Last) {
				b.Last = at
			}
		}
		list = append(list, b)
	}
	slices.SortStableFunc(list, func(a, b Beside) int {
		if a.Over == "" != (b.Over == "") {
			return map[bool]int{true: -1, false: 1}[a.Over == ""]
		}
		return b.Last.Compare(a.Last)
	})
	return list
}

// Unfinished are those of them whose lay-up may go on: the part is not accepted, nor
// rejected without a disposition that goes on, and not all of its plies are laid.
func Unfinished(list []Beside) []Beside {
	return slices.DeleteFunc(slices.Clone(list), func(b Beside) bool { return b.Over != "" })
}

// decided says that a part is accepted, or rejected for good.
func decided(r *record.Record) (over string) {
	last := 0
	for i := range r.Decisions {
		if d := &r.Decisions[i]; !d.Struck {
			over, last = map[record.Outcome]string{record.Accept: "accepted", record.Reject: "rejected"}[d.Outcome], d.Number
		}
	}
	if slices.ContainsFunc(r.Dispositions, func(d record.Disposition) bool {
		return !d.Struck && d.Number > last && d.Action != record.Scrap
	}) {
		return ""
	}
	return over
}
