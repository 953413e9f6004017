package paper

import (
	"bytes"
	"strings"

	"frp/veilwright/schedules/store"
)

// Fingerprint is that of a schedule or a job by its text: the SHA-256 of all but
// what it says of its own release, in hexadecimal digits.
func Fingerprint(text []byte) string { return store.SumOf(unreleased(text)).String() }

// unreleased is the text of a schedule or a job without what it says of its own
// release: a fingerprint cannot be part of what it is the fingerprint of.
func unreleased(text []byte) []byte {
	kept := make([]byte, 0, len(text))
	head := true // before the first table
	for line := range bytes.Lines(text) {
		trimmed := strings.TrimSpace(string(line))
		head = head && !strings.HasPrefix(trimmed, "[")
		key, _, isKey := strings.Cut(trimmed, "=")
		if key = strings.TrimSpace(key); head && isKey && (key == "released" || key == "superseded") {
			continue
		}
		kept = append(kept, line...)
	}
	return kept
}
