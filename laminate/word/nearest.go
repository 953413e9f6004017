package word

import "strings"

// longestTyped is the longest word that is looked for: what is longer is no
// slip of the keyboard.
const longestTyped = 64

// Nearest gives the word that the one typed was likely meant to be: one that
// begins with it (half a key: strength_tension), else the one that differs from
// it by the fewest letters put in, left out, changed or swapped with their
// neighbor, at most one of three. "" where none is as near as that. Capitals
// count for nothing, and a hyphen stands for an underscore.
func Nearest(typed string, words []string) string {
	if len(typed) > longestTyped {
		return ""
	}
	low := folded(typed)
	best, least := "", 1+max(1, len(low)/3)
	for _, w := range words {
		other := folded(w)
		if len(low) > 2 && strings.HasPrefix(string(other), string(low)+"_") {
			return w
		}
		if d := distance(low, other); d < least {
			best, least = w, d
		}
	}
	return best
}

func folded(s string) []rune { return []rune(strings.ToLower(strings.ReplaceAll(s, "-", "_"))) }

// Distance counts the letters put in, left out, changed or swapped with their
// neighbor that turn a into b.
func Distance(a, b string) int { return distance([]rune(a), []rune(b)) }

// distance is the optimal string alignment distance (Levenshtein's with swaps
// of neighbors).
func distance(a, b []rune) int {
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			now[j] = min(change, last[j]+1, now[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
