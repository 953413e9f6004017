package word

import "strings"

// Alike tells whether two names are one to whoever reads them: capital and small letters,
// forms of Unicode, and spaces round and between them make no difference.
func Alike(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(Plain(a)), " "), strings.Join(strings.Fields(Plain(b)), " "))
}
