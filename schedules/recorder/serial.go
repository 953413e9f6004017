package recorder

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// SameSerial names the other records in the folder of the one at path that have
// its serial number. One whose head cannot be read counts for none, and of what is
// laid at a joint or nozzle one of something else: it has the number of the equipment.
func SameSerial(path string, of *record.Record) []string {
	serial := of.SerialNumber()
	names, err := filepath.Glob(filepath.Join(escaped(filepath.Dir(path)), "*"+store.Extension))
	if err != nil || serial == "" {
		return nil
	}
	this, _ := os.Stat(path)
	var same []string
	for _, name := range names {
		if info, err := os.Stat(name); err != nil || this != nil && os.SameFile(info, this) {
			continue
		}
		text, err := store.Bytes(name)
		if err != nil {
			continue
		}
		if kind, problems := schedules.Sniff(text); kind != schedules.Record || len(problems) > 0 {
			continue
		}
		if r := headOf(text); r != nil && has(r, serial) && !apart(r, of) {
			same = append(same, filepath.Base(name))
		}
	}
	return same
}

var firstTable = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?m)^[ \t]*\[`) })

// apart tells of two records of which one is of what is laid at a joint or nozzle,
// and the other of something else.
func apart(a, b *record.Record) bool {
	return (a.OfOverlay() || b.OfOverlay()) && (a.Joint != b.Joint || a.Overlay != b.Overlay || a.Joint == "" && a.Part != b.Part)
}

// has tells whether a record has a serial number.
func has(r *record.Record, serial string) bool {
	return slices.ContainsFunc(r.Serials(), func(s string) bool { return word.Alike(s, serial) })
}

// headOf is the head of a record, and its serial number where that was entered later; nil
// where it cannot be read: of a shop's thousands of entries none has to be read for it
// where the head says it.
func headOf(text []byte) *record.Record {
	head := text
	if at := firstTable().FindIndex(text); at != nil {
		head = text[:at[0]]
	}
	r, _, _ := schedules.DecodeRecord(head)
	if r == nil || r.Serial == "" && bytes.Contains(text[len(head):], []byte("marked")) {
		if all, _, _ := schedules.DecodeRecord(text); all != nil {
			r = all
		}
	}
	return r
}

// escaped keeps a folder's name from being taken for a pattern.
func escaped(folder string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(folder)
}
