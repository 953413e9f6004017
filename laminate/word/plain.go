package word

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Plain writes a name the one way in which names that look alike are the same: letters
// and their marks in the composed form of Unicode (NFC, UAX 15), spaces of every kind
// as a plain one, without the selectors of variants, which show nothing by themselves.
// Capital and small letters stay what they are.
func Plain(name string) string {
	if ascii(name) {
		return name
	}
	return norm.NFC.String(strings.Map(func(r rune) rune {
		switch {
		case wide(r):
			return ' '
		case unicode.Is(unicode.Variation_Selector, r):
			return -1
		}
		return r
	}, name))
}

// Plainly goes on behind a name that is not written plainly: "; write it", and how, in
// the escapes of TOML. It is empty of one that is, and of one that has a [BadCharacter].
func Plainly(name string) string {
	plain := Plain(name)
	if _, bad := BadCharacter(name, false); bad || plain == name {
		return ""
	}
	return "; write it " + strconv.QuoteToASCII(plain)
}

func ascii(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}
