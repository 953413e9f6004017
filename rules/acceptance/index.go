package acceptance

import (
	"slices"
	"sort"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// index is what is looked up of a record again and again, gone through once: a
// record may have a hundred thousand entries.
type index struct {
	stand    map[inspection.Kind][]*record.Reading     // readings neither struck nor superseded
	latest   map[reading]int                           // number of the last of those
	aside    map[*record.Disposition][]*record.Reading // what each disposition supersedes
	disposed map[int]*record.Disposition               // the last one of an entry, by its number
	examined map[string]int                            // number of the last examination by eye at a place
	sized    map[sized]int                             // number of the last measure of its kind and place
	held     int                                       // number of the last test under water without a leak
}

// reading is what a reading measures, and where.
type reading struct {
	kind  inspection.Kind
	group inspection.Group
	side  spec.Side
	place string
}

type sized struct {
	what  spec.Measure
	place string
}

// named makes names of places alike that differ in case and blanks alone.
func named(place string) string { return strings.ToLower(strings.TrimSpace(place)) }

func measured(r *record.Reading) reading { return reading{r.Kind, r.Group, r.Side, named(r.Place)} }

// Superseding gives of each reading of a record the disposition by which later
// readings count instead of it, which is of this reading or of another of its kind,
// part, place and side; nil where the reading counts.
func Superseding(by *record.Record) func(*record.Reading) *record.Disposition {
	of := map[int][]*record.Disposition{}
	for i := range by.Dispositions {
		if d := &by.Dispositions[i]; d.Of != 0 && !d.Struck && (d.Action == record.Retest || d.Action == record.Repair) {
			of[d.Of] = append(of[d.Of], d)
		}
	}
	again := map[reading][]*record.Disposition{}
	for i := range by.Readings {
		r := &by.Readings[i]
		for _, d := range of[r.Number] {
			again[measured(r)] = append(again[measured(r)], d)
		}
	}
	for _, list := range again {
		slices.SortFunc(list, func(a, b *record.Disposition) int { return a.Number - b.Number })
	}
	return func(r *record.Reading) *record.Disposition {
		list := again[measured(r)]
		if i := sort.Search(len(list), func(i int) bool { return list[i].Number > r.Number }); i < len(list) {
			return list[i]
		}
		return nil
	}
}

func newIndex(r *record.Record) index {
	x := index{stand: map[inspection.Kind][]*record.Reading{}, latest: map[reading]int{}, aside: map[*record.Disposition][]*record.Reading{},
		disposed: map[int]*record.Disposition{}, examined: map[string]int{}, sized: map[sized]int{}}
	by := Superseding(r)
	for i := range r.Readings {
		one := &r.Readings[i]
		if one.Struck {
			continue
		}
		if d := by(one); d != nil {
			x.aside[d] = append(x.aside[d], one)
			continue
		}
		x.stand[one.Kind] = append(x.stand[one.Kind], one)
		x.latest[measured(one)] = one.Number
		if one.Kind == inspection.Visual {
			x.examined[named(one.Place)] = one.Number
		}
	}
	for i := range r.Dispositions {
		if d := &r.Dispositions[i]; d.Of != 0 && !d.Struck {
			x.disposed[d.Of] = d
		}
	}
	for i := range r.Dimensions {
		if d := &r.Dimensions[i]; !d.Struck {
			x.sized[sized{d.What, named(d.Place)}] = d.Number
		}
	}
	for i := range r.Hydrotests {
		if h := &r.Hydrotests[i]; !h.Struck && h.Leaks.Given && h.Leaks.Value == 0 {
			x.held = h.Number
		}
	}
	return x
}
