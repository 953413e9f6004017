package recorder

import (
	"os"
	"path/filepath"
	"strings"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// SameSerial names the other records in the folder of the one at path that have
// its serial number. A document that cannot be read counts for none.
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
		if r, _, _ := schedules.DecodeRecord(text); r != nil && strings.EqualFold(strings.TrimSpace(r.Serial), serial) {
			same = append(same, filepath.Base(name))
		}
	}
	return same
}

// escaped keeps a folder's name from being taken for a pattern.
func escaped(folder string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(folder)
}
