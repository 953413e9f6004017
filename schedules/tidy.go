package schedules

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
)

// Tidy gives a schedule's document in canonical form: the tables and keys in
// the usual order, one blank line between tables, the equals signs of a table
// below each other, values spelled as they were. Comments stay with the key or
// table they stand at. With a library the zone of every row is written out. Tidying twice is the same as once.
//
// Jobs and shop books are tidied too. A record only ever grows at its end, and stays as
// it is written.
func Tidy(b []byte, lib *laminate.Library) ([]byte, []Problem) {
	kind, _ := Sniff(b)
	switch kind {
	case ShopBook:
		src, own, problems := decodeBook(b)
		return canonical(src, bookTables(), own, problems)
	case Job:
		src, j, problems := DecodeJob(b, nil, nil)
		if len(problems) == 0 && lib != nil {
			split := false
			j = j.Clone()
			for i := range j.Laminates {
				if !slices.ContainsFunc(j.Parts, func(p laminate.JobPart) bool { return p.Laminate == j.Laminates[i].ID }) {
					continue // an overlay: zones are those of a wall
				}
				now := j.Schedule(i)
				split = writeZones(now, lib) || split
				j.Laminates[i].Plies = now.Plies
			}
			if split {
				return Tidy(src.RenderJob(j), lib)
			}
		}
		return canonical(src, jobTables(), j, problems)
	default: // what is no schedule is told so
	}
	src, s, problems := Decode(b, nil)
	if len(problems) == 0 && lib != nil {
		s = s.Clone()
		if writeZones(s, lib) {
			return Tidy(src.Render(s), lib)
		}
	}
	return canonical(src, scheduleTables, s, problems)
}

// writeZones states the zone of every row, and tells whether one that is in two
// has become two.
func writeZones(s *laminate.Schedule, lib *laminate.Library) (split bool) {
	plies := laminate.SplitRow(s, lib)
	split = len(plies) > len(s.Plies)
	s.Plies = slices.Clone(plies)
	for i, z := range laminate.InferZones(s, lib) {
		p := &s.Plies[i]
		if p.Zone == laminate.NoZone {
			p.Zone = z
		}
		if p.Rest {
			p.Rest, p.Origin = false, 0
		}
	}
	return split
}

func canonical(src *Source, known []tables.Table, model any, problems []Problem) ([]byte, []Problem) {
	if len(problems) > 0 {
		return nil, problems
	}
	return tables.Canonical(known, model, src.doc, src.doc.EOL()), nil
}

// keysOf lists every key of a schedule's tables with what may stand there.
func keysOf(list []tables.Table) []TableKeys {
	var all []TableKeys
	for i := range list {
		t := TableKeys{Table: list[i].Name, Array: list[i].Array}
		for _, f := range list[i].Fields {
			t.Keys = append(t.Keys, Key{f.Key, f.Takes()})
		}
		all = append(all, t)
	}
	return slices.Clip(all)
}

// TableKeys describes one table of a document; the top level has no name.
type TableKeys struct {
	Table string
	Array bool
	Keys  []Key
}

// Key is a key and what may stand there.
type Key struct{ Name, What string }

// Keys lists the tables and keys of a schedule in canonical order, from the
// tables that read it.
func Keys() []TableKeys { return keysOf(scheduleTables) }
