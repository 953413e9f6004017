package output

import (
	"bytes"
	"fmt"
	"frp/veilwright/laminate/word"
)

// escapeControls escapes in JSON text what the encoder leaves as it is: DEL,
// C1 and the direction marks. They can only stand inside strings there.
func escapeControls(text []byte) []byte {
	risky := func(r rune) bool { return r >= 0x7f && word.Unsafe(r) }
	if bytes.IndexFunc(text, risky) < 0 {
		return text
	}
	var b bytes.Buffer
	for _, r := range string(text) {
		if risky(r) {
			if r > 0xffff {
				high, low := utf16Pair(r)
				fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
				continue
			}
			fmt.Fprintf(&b, `\u%04x`, r)
			continue
		}
		b.WriteRune(r)
	}
	return b.Bytes()
}

func utf16Pair(r rune) (high, low rune) {
	r -= 0x10000
	return 0xd800 + r>>10, 0xdc00 + r&0x3ff
}
