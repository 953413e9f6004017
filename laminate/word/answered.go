package word

import (
	"slices"
	"strings"
	"unicode"
)

// Answered says of a fact in words of a document's own whether it is stated, and
// whether it says that there is something: "none" and "not required" say that there is
// not, "pending" and "T.B.D." that nobody has said it yet, and "calculation 45, pending"
// too. It goes by whole words, whatever dots and brackets stand among them. No list of
// such words is ever whole: where a fact has to be a document, ask for its number too.
func Answered(text string) (stated, there bool) {
	text = strings.ToLower(strings.TrimSpace(Plain(text)))
	words := wordsOf(text)
	first, second := "", ""
	if len(words) > 0 {
		first = words[0]
	}
	if len(words) > 1 {
		second = words[1]
	}
	switch whole := strings.Join(words, " "); {
	case whole == "":
		return strings.ContainsFunc(text, dash), false // a dash in a field says none
	case strings.HasSuffix(strings.TrimRight(text, ")]}> ."), "?"), strings.Trim(whole, "x") == "",
		slices.Contains([]string{"open", "later", "planned", "by others", "others"}, whole),
		slices.Contains([]string{"unknown", "missing", "requested", "todo", "unstated"}, first),
		first == "to" && (second == "do" || second == "be" && (len(words) == 2 || done(words[2]))),
		first == "not" && slices.Contains(unsaid, second), yet(whole):
		return false, false
	case slices.Contains([]string{"no", "na", "n a", "without"}, whole), first == "not",
		slices.Contains([]string{"none", "nobody", "noone", "nothing", "nil", "n/a"}, first),
		first == "no" && slices.Contains([]string{"one", "calculation", "proof", "test"}, second):
		return true, false
	}
	return true, true
}

// unsaid follows "not" where nobody has said anything; "not grounded" has.
var unsaid = []string{"yet", "stated", "known", "given", "available", "sure", "clear", "issued", "received", "named", "confirmed", "decided", "done", "started", "found"}

// yet tells whether it says somewhere that it is still to come.
func yet(whole string) bool {
	return slices.ContainsFunc([]string{"pending", "tbd", "tbc", "tba", "awaiting", "awaited", "not yet", "none yet", "to follow", "will follow", "in progress", "in preparation"},
		func(said string) bool { return strings.Contains(" "+whole+" ", " "+said+" ") })
}

// done tells whether "to be" goes on with what is still to be done: "confirmed".
func done(word string) bool {
	return strings.HasSuffix(word, "ed") || slices.Contains([]string{"done", "made", "given", "sent", "written", "found", "shown", "proven", "drawn", "chosen"}, word)
}

func dash(r rune) bool { return unicode.Is(unicode.Pd, r) || r == '−' }

// wordsOf are the words of a text, without what only stands round or between them.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.Map(func(r rune) rune {
		if r == '.' || unicode.Is(unicode.Ps, r) || unicode.Is(unicode.Pe, r) || r == '<' || r == '>' {
			return -1
		}
		return r
	}, text), func(r rune) bool { return unicode.IsSpace(r) || dash(r) || strings.ContainsRune(",;:?!…_\"'", r) })
}
