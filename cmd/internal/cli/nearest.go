package cli

// nearest gives the candidate that differs from word by the fewest letters
// put in, left out, changed or swapped with their neighbor; "" when none is
// close enough to have been meant.
func nearest(word string, candidates []string) string {
	best, least := "", len(word)/2+1
	if least > 4 {
		least = 4
	}
	for _, c := range candidates {
		if d := distance([]rune(word), []rune(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// distance is the optimal string alignment distance (Levenshtein's with swaps
// of neighbors).
func distance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
