package edit

import (
	"slices"

	"frp/veilwright/laminate"
)

// Meeting lists the pairs of parts that a joint may join, in the order of the document:
// those that stand next to each other there. What a nozzle ends in is bolted or laid to
// its neck, and covers and panels are bolted or hung: they are passed over.
func Meeting(j *laminate.Job) (pairs [][2]int) {
	last := -1
	for i := range j.Parts {
		if f := j.Parts[i].Form; f == laminate.Cover || f == laminate.Panel || slices.ContainsFunc(j.Nozzles, func(n laminate.Nozzle) bool { return n.Flange == j.Parts[i].ID }) {
			continue
		}
		if last >= 0 && meet(j.Parts[last].Form, j.Parts[i].Form) {
			pairs = append(pairs, [2]int{last, i})
		}
		last = i
	}
	return pairs
}

// meet tells whether parts of two forms may be laid to each other: a flange ends what
// is open, and a head or a bottom closes it.
func meet(a, b laminate.PartForm) bool {
	closed := func(f laminate.PartForm) bool {
		return f == laminate.Flange || f == laminate.HeadPart || f == laminate.FlatBottom
	}
	return !(a == laminate.Flange && closed(b) || b == laminate.Flange && closed(a))
}

// NextJoint is the pair of parts that a joint added at a part would join: that part and
// the one after it, or before it, or any others, those first that no joint joins yet.
// Not ok where no two parts meet.
func NextJoint(j *laminate.Job, part int) (pair [2]int, ok bool) {
	pairs := Meeting(j)
	joined := func(p [2]int) bool {
		a, b := j.Parts[p[0]].ID, j.Parts[p[1]].ID
		return slices.ContainsFunc(j.Joints, func(x laminate.Joint) bool {
			return x.Between == [2]string{a, b} || x.Between == [2]string{b, a}
		})
	}
	for _, fits := range []func(p [2]int) bool{
		func(p [2]int) bool { return p[0] == part && !joined(p) },
		func(p [2]int) bool { return p[1] == part && !joined(p) },
		func(p [2]int) bool { return !joined(p) },
		func(p [2]int) bool { return p[0] == part },
		func(p [2]int) bool { return true },
	} {
		if i := slices.IndexFunc(pairs, fits); i >= 0 {
			return pairs[i], true
		}
	}
	return pair, false
}
