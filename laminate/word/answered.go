package word

import "strings"

// Answered says of a fact in words of a document's own whether it is stated, and
// whether it says that there is something: "none" says that there is not, and "pending"
// that nobody has said it yet, and "pending review" too.
func Answered(text string) (stated, there bool) {
	text = strings.ToLower(strings.Trim(strings.TrimSpace(text), "."))
	for _, yet := range [...]string{"not yet", "none yet", "pending", "to be ", "to follow", "awaiting", "tbd", "tbc", "tba"} {
		if strings.HasPrefix(text, yet) {
			return false, false
		}
	}
	switch text {
	case "", "?", "open", "unknown", "later", "planned", "xxx":
		return false, false
	case "none", "no", "-", "–", "n/a":
		return true, false
	}
	return true, true
}
