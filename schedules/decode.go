package schedules

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/keyed"
	"frp/veilwright/schedules/internal/syntax"
)

// Problem is one thing that makes a document unusable, and where: Line and
// Column from 1, Key such as "part.inside_diameter", Message without either.
type Problem = keyed.Problem

// Source is a document as its author wrote it. It is immutable and may be used
// from several goroutines.
type Source struct {
	marked  bool            // begins with a byte order mark
	partial bool            // part of it could not be read
	doc     *keyed.Document // nil for a document made in the program
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
		problems = src.fault(problems, scheduleTables, spotOf(f.Ref), f.Message)
	}
	problems = keyed.Sorted(problems)
	for i := range s.Plies {
		if n := s.Plies[i].Count; n < 1 || n > laminate.MostCount {
			s.Plies[i].Count = 1
		}
	}
	if s.NumberOfPlies() > laminate.MostPlies {
		return src, nil, problems
	}
	for i := range s.Resins {
		s.Resins[i].Origin = laminate.Origin(i + 1)
	}
	for i := range s.Materials {
		s.Materials[i].Origin = laminate.Origin(i + 1)
	}
	for i := range s.Plies {
		s.Plies[i].Origin = laminate.Origin(i + 1)
	}
	src.doc.Was = s.Clone()
	return src, s, problems
}

// Partial tells that keys or values of the text could not be read, so that it
// has what the schedule has not: rendering writes what was read alone.
func (s *Source) Partial() bool { return s.partial }

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
	if s.doc == nil || s.partial {
		return keyed.Canonical(scheduleTables, now, nil, "\n")
	}
	out := s.doc.Render(now)
	if s.marked {
		return append(slices.Clip(mark), out...)
	}
	return out
}

// Line gives the line of a key, else of the table it belongs to, from 1; 0
// where the document has none.
func (s *Source) Line(at laminate.Ref) int {
	if s == nil || s.doc == nil {
		return 0
	}
	return s.doc.LineAt(s.doc.Offset(int(at.Kind), at.Index, at.Key))
}

// Same tells whether two schedules say the same, spelling included: whether
// either may stand for the other in a document. Origins do not count.
func Same(a, b *laminate.Schedule) bool { return keyed.Same(scheduleTables, a, b) }

func spotOf(r laminate.Ref) keyed.Spot {
	return keyed.Spot{Table: int(r.Kind), Row: r.Index, Key: r.Key}
}

// fault adds a problem at a place of the model, without a line where there is
// no text.
func (s *Source) fault(problems []Problem, tables []keyed.Table, at keyed.Spot, message string) []Problem {
	var d *keyed.Document
	if s != nil {
		d = s.doc
	}
	return d.Fault(problems, tables, at, message)
}

// read decodes a document of the wanted kind into model, as far as it goes. The
// source has no document where there is nothing to go on with.
func read(b []byte, want Kind, tables []keyed.Table, model any) (*Source, []Problem) {
	data, problems := text(b)
	if problems != nil {
		return &Source{}, problems
	}
	kind, other := wrongKind(data, want)
	if other != nil && kind != Undeclared {
		return &Source{}, other
	}
	doc, problems := keyed.Read(data, tables, model)
	if doc == nil || other == nil {
		return &Source{marked: len(data) < len(b), doc: doc}, problems
	}
	return &Source{}, other
}

// wrongKind tells whether the document is another one than wanted.
func wrongKind(data []byte, want Kind) (Kind, []Problem) {
	top, errs := syntax.Top(data)
	kind, problem := declared(data, top)
	switch {
	case kind == Undeclared && len(errs) > 0:
		return kind, keyed.Located(data, "", errs)
	case problem != nil:
		return kind, []Problem{*problem}
	case kind != want:
		return kind, []Problem{{Key: "document", Message: fmt.Sprintf("this is %s, not %s", kind.Noun(), want.Noun()), Line: 1, Column: 1}}
	}
	return kind, nil
}
