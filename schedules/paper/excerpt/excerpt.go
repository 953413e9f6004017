// Package excerpt shows of two texts what differs, with a few words around it.
package excerpt

import (
	"slices"
	"strings"
)

const (
	// Long is how many characters a text has that nobody reads twice to find a word.
	Long = 60
	// around is how many words stand on both sides of what differs.
	around = 4
	// most is how many comparisons of words are made; texts that would take more
	// differ in one piece.
	most = 1 << 20

	more = "…"
)

// Pair is a piece of the older text and what stands there in the newer one; either
// may be "".
type Pair struct{ Old, New string }

// Of is what differs of two texts, in their order: themselves where both are short or
// one is empty. Words are compared; there is no piece where only blanks differ.
func Of(older, newer string) []Pair {
	if older == "" || newer == "" || len([]rune(older)) <= Long && len([]rune(newer)) <= Long {
		return []Pair{{older, newer}}
	}
	a, b := strings.Fields(older), strings.Fields(newer)
	var list []Pair
	for _, h := range near(hunks(a, b)) {
		list = append(list, Pair{piece(a, h.from, h.to), piece(b, h.at, h.end)})
	}
	return list
}

// hunk is words [from, to) of the older text, in the place of which the newer one has
// [at, end).
type hunk struct{ from, to, at, end int }

// hunks are what differs, by a longest common order of the words.
func hunks(a, b []string) (list []hunk) {
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	x, y := a[head:len(a)-tail], b[head:len(b)-tail]
	if len(x) == 0 && len(y) == 0 {
		return nil
	}
	if len(x)*len(y) > most {
		return []hunk{{head, len(a) - tail, head, len(b) - tail}}
	}
	// common[i][k] is how many words x[i:] and y[k:] have in common order.
	common := make([][]int32, len(x)+1)
	for i := range common {
		common[i] = make([]int32, len(y)+1)
	}
	for i, w := range slices.Backward(x) {
		for k, v := range slices.Backward(y) {
			if common[i][k] = max(common[i+1][k], common[i][k+1]); w == v {
				common[i][k] = common[i+1][k+1] + 1
			}
		}
	}
	i, k := 0, 0
	for i < len(x) || k < len(y) {
		h := hunk{from: head + i, at: head + k}
		for i < len(x) || k < len(y) {
			if i < len(x) && k < len(y) && x[i] == y[k] {
				break
			}
			if k == len(y) || i < len(x) && common[i+1][k] >= common[i][k+1] {
				i++
			} else {
				k++
			}
		}
		h.to, h.end = head+i, head+k
		if h.to > h.from || h.end > h.at {
			list = append(list, h)
		}
		for i < len(x) && k < len(y) && x[i] == y[k] {
			i, k = i+1, k+1
		}
	}
	return list
}

// near makes one of pieces whose words around them meet.
func near(list []hunk) (out []hunk) {
	for _, h := range list {
		if n := len(out); n > 0 && h.from-out[n-1].to <= 2*around {
			out[n-1].to, out[n-1].end = h.to, h.end
			continue
		}
		out = append(out, h)
	}
	return out
}

// piece is words with some around them.
func piece(words []string, from, to int) string {
	first, last := max(0, from-around), min(len(words), to+around)
	list := slices.Clone(words[first:last])
	if first > 0 {
		list = slices.Insert(list, 0, more)
	}
	if last < len(words) {
		list = append(list, more)
	}
	return strings.Join(list, " ")
}
