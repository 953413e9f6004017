package practice

import (
	"cmp"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// mostTried orders are judged at most; the first tried are the likeliest.
const mostTried = 2000

// order finds the order of the given rows that has least against it. Orders
// are tried from the likeliest on: veil, mats in the veil's resin, the rest,
// coats.
func (v *solver) order() *laminate.Schedule {
	given := &v.exercise.Given
	// What the wall bears hardly hangs on the order, and takes longest to judge.
	v.list = slices.DeleteFunc(slices.Clone(v.list), func(r *rules.Rule) bool { return r.Family == "structure" || r.Family == "resin" })
	rows := slices.Clone(given.Plies)
	a := laminate.Analyze(given, v.library)
	veilResin := ""
	for i := range a.Rows {
		if rules.FormOf(&a.Rows[i]) == laminate.Veil {
			veilResin = rows[i].Resin
		}
	}
	rank := func(i int) int {
		form := rules.FormOf(&a.Rows[i])
		switch {
		case form == laminate.Veil && rows[i].Resin == veilResin:
			return 0
		case form.Chopped() && rows[i].Resin == veilResin && !rows[i].GelAfter:
			return 1
		case form.Chopped() && rows[i].Resin == veilResin:
			return 2
		case form.Chopped():
			return 3
		case form == laminate.Veil:
			return 6
		case form == laminate.ResinCoat:
			return 7
		}
		return 4
	}
	at := make([]int, len(rows))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(i, j int) int { return cmp.Compare(rank(i), rank(j)) })

	var best *laminate.Schedule
	var least weight
	tried := 0
	lay := func() {
		s := given.Clone()
		for i, from := range at {
			s.Plies[i] = rows[from]
		}
		tried++
		if w := v.weigh(s); best == nil || w.less(least) {
			best, least = s, w
		}
	}
	done := func() bool { return tried >= mostTried || best != nil && least == (weight{}) }
	// What stands at the process side changes last, so that the likeliest barrier
	// is tried with every structure first.
	var permute func(from int)
	permute = func(from int) {
		if done() {
			return
		}
		if from == len(at) {
			lay()
			return
		}
		for i := from; i < len(at); i++ {
			moved := at[i]
			if slices.ContainsFunc(at[from:i], func(j int) bool { return rows[j] == rows[moved] }) {
				continue // the same ply stood here already
			}
			copy(at[from+1:i+1], at[from:i])
			at[from] = moved
			permute(from + 1)
			copy(at[from:i], at[from+1:i+1])
			at[i] = moved
		}
	}
	permute(0)
	return best
}
