package schedules

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
)

// Problem is one thing that makes a document unusable, and where: Line and
// Column from 1, Key such as "part.inside_diameter", Message without either.
type Problem = tables.Problem

// Source is a document as its author wrote it. It is immutable and may be used
// from several goroutines.
type Source struct {
	marked  bool             // begins with a byte order mark
	partial bool             // part of it could not be read
	doc     *tables.Document // nil for a document made in the program
	plies   []laminate.Ply   // of a schedule, as it was read
}

// Partial tells that keys or values of the text could not be read, so that it
// has what the schedule has not: rendering writes what was read alone.
func (s *Source) Partial() bool { return s.partial }

func spotOf(r laminate.Ref) tables.Spot {
	return tables.Spot{Table: int(r.Kind), Row: r.Index, Key: r.Key}
}

// render gives the text of a model of the tables, which came from this source.
func (s *Source) render(known []tables.Table, now any) []byte {
	if s.doc == nil || s.partial {
		return tables.Canonical(known, now, nil, "\n")
	}
	out := s.doc.Render(now)
	if s.marked {
		return append(slices.Clip(mark), out...)
	}
	return out
}

// fault adds a problem at a place of the model.
func (s *Source) fault(problems []Problem, at tables.Spot, message string) []Problem {
	return s.doc.Fault(problems, at, message)
}

// read decodes a document of the wanted kind into model, as far as it goes. The
// source has no document where there is nothing to go on with.
func read(b []byte, want Kind, known []tables.Table, model any) (*Source, []Problem) {
	most := MostBytes
	if want == Record {
		most = MostRecordBytes
	}
	data, problems := text(b, most)
	if problems != nil {
		return &Source{}, problems
	}
	kind, other := wrongKind(data, want)
	if other != nil && kind != Undeclared {
		return &Source{}, other
	}
	doc, problems := tables.Read(data, known, model)
	if doc == nil || other == nil {
		return &Source{marked: len(data) < len(b), doc: doc}, problems
	}
	return &Source{}, other
}

// wrongKind tells whether the document is another one than wanted.
func wrongKind(data []byte, want Kind) (Kind, []Problem) {
	top, errs := tables.Top(data, "document", "format")
	kind, problem := kindOf(data, top)
	switch {
	case kind == Undeclared && len(errs) > 0:
		return kind, errs
	case problem != nil:
		return kind, []Problem{*problem}
	case kind != want:
		return kind, []Problem{{Key: "document", Message: fmt.Sprintf("this is %s, not %s", kind.Noun(), want.Noun()), Line: 1, Column: 1}}
	}
	return kind, nil
}
