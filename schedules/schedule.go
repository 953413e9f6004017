package schedules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
)

// The tables of a schedule stand in the order of the laminate.RefKind, so a
// Ref leads to its table without a search.
var scheduleTables = []tables.Table{
	tables.One("", declared(Schedule, headFields(func(h *laminate.Head) *laminate.Head { return h })...), func(s *laminate.Schedule) *laminate.Head { return &s.Head }),
	tables.One("part", partFields, func(s *laminate.Schedule) *laminate.Part { return &s.Part }),
	tables.One("service", serviceFields, func(s *laminate.Schedule) *laminate.Service { return &s.Service }),
	tables.Many("condition", laminate.MostConditions, conditionFields, func(s *laminate.Schedule) *[]laminate.Condition { return &s.Conditions }),
	tables.Many("resin", laminate.MostRows, resinFields, func(s *laminate.Schedule) *[]laminate.Resin { return &s.Resins }),
	tables.Many("material", laminate.MostRows, materialFields, func(s *laminate.Schedule) *[]laminate.Material { return &s.Materials }),
	tables.Many("ply", laminate.MostRows, plyFields, func(s *laminate.Schedule) *[]laminate.Ply { return &s.Plies }),
}

// Decode reads a schedule and has its values judged ([laminate.Validate]), with
// no library by themselves. All problems are told, in the order of the file.
//
// Beside problems the schedule is what could be read, to be shown and mended,
// and nothing to build from; nil where there is nothing to show. A count that
// cannot be is 1 in it.
func Decode(b []byte, lib *laminate.Library) (*Source, *laminate.Schedule, []Problem) {
	s := new(laminate.Schedule)
	src, problems := read(b, Schedule, scheduleTables, s)
	if src.doc == nil {
		return src, nil, problems
	}
	src.partial = len(problems) > 0
	for _, f := range laminate.Validate(s, lib) {
		problems = src.fault(problems, spotOf(f.Ref), f.Message)
	}
	problems = tables.Sorted(problems)
	countable(s.Plies)
	if s.NumberOfPlies() > laminate.MostPlies {
		return src, nil, problems
	}
	src.doc.Was = s.Clone()
	s.Plies = laminate.SplitRow(s, lib)
	src.plies = s.Plies
	return src, s, problems
}

// countable makes a count that cannot be 1.
func countable(plies []laminate.Ply) {
	for i := range plies {
		if n := plies[i].Count; n < 1 || n > laminate.MostCount {
			plies[i].Count = 1
		}
	}
}

// New is the source of a schedule made in the program: rendering it gives
// canonical text. No line of it is known.
func New(*laminate.Schedule) *Source { return &Source{} }

// Render gives the text of a schedule that came from this source by editing.
// Tables equal to what they came from are copied byte for byte; of a changed
// one only the changed values are rewritten. New rows stand behind the row they
// follow, moved ones take their comments along. A document that writes the
// tables concerned inline or with dotted keys is rewritten in canonical form
// when a key or a row comes or goes.
//
// Render is pure: the same schedule gives the same bytes, and the schedule as
// it was read gives the bytes that were read.
func (s *Source) Render(now *laminate.Schedule) []byte {
	n := *now
	n.Plies = laminate.JoinRow(now.Plies)
	return s.render(scheduleTables, &n)
}

// Line gives the line of a key, else of the table it belongs to, from 1; 0
// where the document has none.
func (s *Source) Line(at laminate.Ref) int {
	if s == nil || s.doc == nil {
		return 0
	}
	if at.Kind == laminate.RefPly {
		at.Index = laminate.RowRead(s.plies, at.Index)
	}
	return s.doc.LineAt(s.doc.Offset(spotOf(at)))
}

// Same tells whether two schedules say the same, spelling included: whether
// either may stand for the other in a document. Origins do not count.
func Same(a, b *laminate.Schedule) bool { return tables.Same(scheduleTables, a, b) }
