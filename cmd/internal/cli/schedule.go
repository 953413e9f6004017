package cli

import (
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
)

// document is an input that was read, as far as it could be.
type document struct {
	input
	text     []byte
	kind     schedules.Kind
	problems []schedules.Problem
	err      error // it could not be read at all
}

// open reads an input and looks what kind of document it is.
func (c *call) open(in input) document {
	d := document{input: in}
	d.text, d.err = c.read(in)
	if d.err == nil {
		d.kind, d.problems = schedules.Sniff(d.text)
	}
	return d
}

// validate reads a document of a kind that is not judged by itself, for its
// problems alone; torn says that a record ends in a half-written entry.
func (d *document) validate() (torn string) {
	switch d.kind {
	case schedules.Specification:
		_, d.problems = schedules.DecodeSpecification(d.text)
	case schedules.Record:
		_, torn, d.problems = schedules.DecodeRecord(d.text)
	case schedules.ShopBook:
		_, d.problems = schedules.DecodeBook(d.text)
	case schedules.Exercise:
		_, d.problems = schedules.DecodeExercise(d.text)
	case schedules.Unreadable, schedules.Undeclared, schedules.Schedule:
	}
	return torn
}

// loaded is a schedule that can be judged.
type loaded struct {
	source   *schedules.Source
	schedule *laminate.Schedule
	library  *laminate.Library
}

// load reads the schedule of a document with the library that holds for it. The
// problems say why it cannot be judged; err one sentence where no line of it is
// to blame.
func (s *shelf) load(d *document) (l loaded, err error) {
	l.library, err = s.library(d.folder)
	known := l.library
	if err != nil {
		known = nil
	}
	if l.source, l.schedule, d.problems = schedules.Decode(d.text, known); len(d.problems) > 0 {
		return l, nil
	}
	return l, err
}

// units are those asked for, else those of the document.
func (c *call) units(s *laminate.Schedule) quantity.System {
	switch c.Units {
	case unitsUS:
		return quantity.US
	case unitsSI:
		return quantity.Metric
	case unitsAsWritten:
	}
	return s.Units
}

// unread is the report of a document that cannot be used.
func unread(d *document, sentence string) report.Schedule {
	var problems []report.Problem
	for _, p := range d.problems {
		problems = append(problems, report.Problem{Line: p.Line, Column: p.Column, Key: p.Key, Message: p.Message})
	}
	if sentence == "" && len(d.problems) > 0 {
		sentence = counted(d.problems)
	}
	return report.Unread(d.name, sentence, nil, problems)
}
