package recorder

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// SameSerial names the other records in the folder of the one at path that have
// its serial number. One whose head cannot be read counts for none.
func SameSerial(path, serial string) []string {
	serial = strings.TrimSpace(serial)
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
		if strings.EqualFold(serialOf(text), serial) {
			same = append(same, filepath.Base(name))
		}
	}
	return same
}

var firstTable = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?m)^[ \t]*\[`) })

// serialOf is the serial number in the head of a record: of a shop's thousands of
// entries none has to be read for it.
func serialOf(text []byte) string {
	head := text
	if at := firstTable().FindIndex(text); at != nil {
		head = text[:at[0]]
	}
	r, _, _ := schedules.DecodeRecord(head)
	if r == nil {
		r, _, _ = schedules.DecodeRecord(text)
	}
	if r == nil {
		return ""
	}
	return strings.TrimSpace(r.Serial)
}

// escaped keeps a folder's name from being taken for a pattern.
func escaped(folder string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(folder)
}
