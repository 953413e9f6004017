package word

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// CharacterName names what [BadCharacter] found, for a message: "the control
// character U+001B", "the invisible character U+200B".
func CharacterName(r rune) string {
	if unseen(r) {
		return fmt.Sprintf("the invisible character %U", r)
	}
	return fmt.Sprintf("the control character %U", r)
}

// unseen tells the characters that take no room or show nothing, so that two
// words look alike and are not: those of the category Cf (marks of direction,
// joiners, byte order marks, tags) and the fillers that Unicode counts as
// letters (its property Default_Ignorable_Code_Point).
func unseen(r rune) bool {
	switch r {
	case 0x034f, 0x115f, 0x1160, 0x17b4, 0x17b5, 0x2800, 0x3164, 0xffa0:
		return true
	}
	return unicode.Is(unicode.Cf, r)
}

// BadCharacter finds the first character that no screen should be sent or no
// reader sees: controls, separators of lines and paragraphs, the marks that
// turn the direction of text, and what is invisible. Notes may have newlines
// and tabs, and the joiners and soft hyphens that running text of some
// languages needs. Broken UTF-8 is reported as U+FFFD.
func BadCharacter(s string, notes bool) (rune, bool) {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= utf8.RuneSelf || c < ' ' || c == 0x7f {
			return badRune(s[i:], notes)
		}
	}
	return 0, false
}

func badRune(s string, notes bool) (rune, bool) {
	for i, r := range s {
		switch {
		case r == utf8.RuneError:
			if _, size := utf8.DecodeRuneInString(s[i:]); size == 1 {
				return r, true
			}
		case notes && (r == '\n' || r == '\t' || r == 0x00ad || r == 0x200c || r == 0x200d):
		case unicode.IsControl(r), r == 0x2028, r == 0x2029, unseen(r):
			return r, true
		}
	}
	return 0, false
}
