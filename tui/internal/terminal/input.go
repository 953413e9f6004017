package terminal

import (
	"bytes"
	"os"

	"frp/veilwright/tui/internal/keys"
)

// Input is a terminal to read from. The library collects a paste until its end
// mark comes, and where none comes every key after it, for good. Here the marks
// are exchanged for bytes that stand in no text (UTF-8 has no use for them), so
// that the library sees none and package keys, which waits for an end only so
// long, sees both.
type Input struct{ *os.File }

// Read reads what is there, at most a byte less than there is room for: the
// library takes a full buffer for the beginning of something longer.
func (i Input) Read(p []byte) (int, error) {
	n, err := i.File.Read(p[:max(1, len(p)-1)])
	return exchange(p[:max(0, n)]), err
}

var marks = []struct {
	mark []byte
	by   byte
}{{[]byte("\x1b[200~"), keys.PasteStart}, {[]byte("\x1b[201~"), keys.PasteEnd}}

// exchange exchanges the marks in b and gives what is left of its length.
func exchange(b []byte) int {
	n := 0
next:
	for i := 0; i < len(b); {
		for _, m := range marks {
			if bytes.HasPrefix(b[i:], m.mark) {
				b[n] = m.by
				n++
				i += len(m.mark)
				continue next
			}
		}
		if c := b[i]; c != keys.PasteStart && c != keys.PasteEnd {
			b[n] = c
			n++
		}
		i++
	}
	return n
}
