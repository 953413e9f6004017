package word

import "strings"

// longest is how much of what somebody typed is compared; what is longer is no
// slip of the fingers.
const longest = 64

// Nearest gives the word most like the one typed, if any is near: a third of
// its letters may differ, hyphens and underscores are one, and the front half
// of a compound (strength of strength_tension) counts as near.
func Nearest(typed string, words []string) (string, bool) {
	if len(typed) > longest {
		return "", false
	}
	best, least := "", 1+max(1, len(typed)/3)
	low := plain(typed)
	for _, w := range words {
		if len(low) > 2 && strings.HasPrefix(plain(w), low+"_") {
			return w, true
		}
		if d := Distance(low, plain(w)); d < least {
			best, least = w, d
		}
	}
	return best, best != ""
}

func plain(s string) string { return strings.ToLower(strings.ReplaceAll(s, "-", "_")) }

// Distance counts insertions, deletions, replacements and swaps of neighbors
// that turn the bytes of a into those of b (optimal string alignment).
func Distance(a, b string) int {
	rows := [3][]int{make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, last, now := rows[0], rows[1], rows[2]
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		rows = [3][]int{last, now, before}
	}
	return rows[1][len(b)]
}
