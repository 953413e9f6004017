package shop

import (
	"errors"
	"fmt"
	"path/filepath"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// Opened is a document as far as it could be read. Of the models one is set,
// that of its kind. All but a schedule and a job is nil where there is anything
// wrong; they are what could be read, to be shown and mended.
type Opened struct {
	Name string // as reports call it
	Text []byte
	Kind schedules.Kind

	Schedule *laminate.Schedule
	Part     string // of a job, whose wall the schedule is; "" of a schedule by itself
	Source   *schedules.Source
	Job      *laminate.Job
	Library  *laminate.Library // that holds for the schedule or job, nil where Err says why there is none

	Levels        []spec.LevelLimit // of a schedule or job: as the shop's book states them
	Stock         stock.Stock       // of a schedule or job: how the shop buys and works
	OtherFiles    *OtherFiles       // of a schedule or job: what else was read for it
	Specification *spec.Specification
	Record        *record.Record
	Torn          string // says that the record ends in a half-written entry
	Book          *catalog.Book
	Exercise      *exercise.Exercise

	// Problems say why the document cannot be used, in the order of the file;
	// Err does where no line of it is to blame.
	Problems []schedules.Problem
	Err      error

	line    func(laminate.Ref) int // of the wall of a part of a job
	overlay overlay.Overlay        // of what a job has laid at a joint or nozzle
	of      *laminate.Job          // that job
	at      int                    // which of its parts, where it is no overlay
}

// Open takes in a document: name is what to call it, folder where its shop books
// are looked for.
func (s *Shop) Open(name string, text []byte, folder string) *Opened {
	o := &Opened{Name: name, Text: text}
	if o.Kind, o.Problems = schedules.Sniff(text); len(o.Problems) > 0 {
		return o
	}
	if o.Kind == schedules.Schedule || o.Kind == schedules.Job {
		made := s.find(folder)
		o.Library, o.Levels, o.Stock, o.Err = made.library, made.levels, made.stock, made.err
		o.OtherFiles = s.otherFiles(folder, made)
	}
	switch o.Kind {
	case schedules.Schedule:
		o.decode()
	case schedules.Job:
		o.Source, o.Job, o.Problems = schedules.DecodeJob(text, o.Library, o.OtherFiles.beside(o.Library))
	case schedules.Specification:
		o.Specification, o.Problems = schedules.DecodeSpecification(text)
	case schedules.Record:
		o.Record, o.Torn, o.Problems = schedules.DecodeRecord(text)
	case schedules.ShopBook:
		o.Book, o.Problems = schedules.DecodeBook(text)
	case schedules.Exercise:
		o.Exercise, o.Problems = schedules.DecodeExercise(text)
	case schedules.Unreadable, schedules.Undeclared: // these have problems
	}
	return o
}

// JudgeJob says what the rules say of a job that can be used: of each of its
// parts, and of the whole.
func (o *Opened) JudgeJob(options rules.Options) *rules.JobReport {
	return rules.JudgeJob(all.Rules(), o.Job, o.Library, options)
}

// Of is what of a job a record is of, as a document by itself: the wall of a part,
// with none named that of a job of one part, or what is laid at a joint or nozzle.
// Of a schedule it is the schedule.
func (o *Opened) Of(r *record.Record) *Opened {
	if o.Job == nil || !o.Usable() {
		return o
	}
	n := &Opened{Name: o.Name, Text: o.Text, Kind: schedules.Schedule, Source: o.Source, Library: o.Library, Levels: o.Levels}
	if r.OfOverlay() {
		n.overlay, n.Err = overlay.Find(o.Job, r.Part, r.Joint, r.Overlay)
		if n.Err == nil {
			n.of = o.Job
			n.Schedule = n.Judge(rules.Options{}).Schedule
			n.line = func(ref laminate.Ref) int { return o.Source.JobLine(o.Job, n.overlay.Place(o.Job, ref)) }
		}
		return n
	}
	at := o.Job.Part(r.Part)
	if r.Part == "" && len(o.Job.Parts) == 1 {
		at = 0
	}
	switch {
	case r.Part == "" && at < 0:
		n.Err = errors.New("is a job of several parts, which are compared part by part: the record says which one it is of (part)")
	case at < 0:
		n.Err = fmt.Errorf("has no [[part]] with the id %q, which the record is of", r.Part)
	default:
		n.of, n.at, n.Part = o.Job, at, r.Part
		n.Schedule = n.Judge(rules.Options{}).Schedule
		n.line = func(ref laminate.Ref) int {
			ref.Part = at
			return o.Source.JobLine(o.Job, ref)
		}
	}
	return n
}

// Head is that of a schedule or a job that can be used.
func (o *Opened) Head() laminate.Head {
	if o.Job != nil {
		return o.Job.Head
	}
	return o.Schedule.Head
}

// Line gives the line of a place in the document, 0 where it has none.
func (o *Opened) Line(at laminate.Ref) int {
	if o.line != nil {
		return o.line(at)
	}
	if o.Job != nil {
		return o.Source.JobLine(o.Job, at)
	}
	return o.Source.Line(at)
}

// Read takes in the file at path.
func (s *Shop) Read(path string) *Opened {
	text, err := store.Bytes(path)
	if err != nil {
		return &Opened{Name: path, Err: why(err)}
	}
	return s.Open(path, text, filepath.Dir(path))
}

// With is the document with its schedule or job read again from another text,
// as after an edit; the schedules beside a job stay as they were read.
func (o *Opened) With(text []byte) *Opened {
	n := &Opened{Name: o.Name, Text: text, Kind: schedules.Schedule, Library: o.Library, Levels: o.Levels, Stock: o.Stock, Err: o.Err}
	if o.Kind == schedules.Job {
		n.Kind = o.Kind
		n.Source, n.Job, n.Problems = schedules.DecodeJob(text, o.Library, func(name string) (*laminate.Schedule, error) {
			if s := o.Job.Schedules[name]; s != nil {
				return s, nil
			}
			return nil, errors.New("it was not read")
		})
		return n
	}
	n.decode()
	return n
}

func (o *Opened) decode() {
	o.Source, o.Schedule, o.Problems = schedules.Decode(o.Text, o.Library)
}

// Want tells whether the document is of the kind that who, a command or a page,
// takes, and notes the error if it is not.
func (o *Opened) Want(kind schedules.Kind, who string) bool {
	if o.Kind != kind && o.Err == nil && len(o.Problems) == 0 {
		o.Err = fmt.Errorf("is of kind %s; %s takes %s", o.Kind, who, kind.Noun())
	}
	return o.Usable()
}

// Usable tells that nothing is wrong with the document.
func (o *Opened) Usable() bool { return o.Err == nil && len(o.Problems) == 0 }

// Warnings are what a shop book states that is hardly meant, each with the row it is in and
// an id: shares of initiator and promoter, which are weighed by it on the floor.
func (o *Opened) Warnings() (list []string) {
	if o.Book == nil {
		return nil
	}
	for i := range o.Book.Stock.Initiators {
		row := &o.Book.Stock.Initiators[i]
		for _, odd := range catalog.OddShares(row, row.Cure) {
			list = append(list, fmt.Sprintf("peroxide-outside-range: [[initiator]] %d, %s: %s: make sure that the table was copied right (common practice, no source)", i+1, row.Family, odd.Says))
		}
	}
	return list
}

// Why says in one sentence why the document cannot be used, "" when it can.
func (o *Opened) Why() string { return sentence(o.Err, o.Problems) }

// Verdict says in a word how a schedule or a job stands, unusable where it
// cannot be used; false of other documents, which no rule judges.
func (o *Opened) Verdict(options rules.Options) (rules.Severity, bool) {
	switch {
	case o.Kind == schedules.Schedule:
		return o.Judge(options).Verdict, true
	case o.Kind == schedules.Job && o.Usable():
		return o.JudgeJob(options).Verdict, true
	case o.Usable() || o.Kind == schedules.Undeclared:
		return 0, false
	}
	return rules.Unusable, true
}

// Judge says what the rules say of the schedule. Where it cannot be used no rule
// is asked: the verdict is unusable, and the findings are its problems. A
// document without a schedule has no figures then either.
func (o *Opened) Judge(options rules.Options) *rules.Report {
	switch {
	case o.Usable() && o.of != nil && o.overlay.Kind == overlay.None:
		return rules.JudgeJob(all.Rules(), o.of, o.Library, options).PartReport(o.at)
	case o.Usable() && o.of != nil:
		return rules.JudgeJob(all.Rules(), o.of, o.Library, options).Overlay(o.overlay)
	case o.Usable():
		return all.Judge(o.Schedule, o.Library, options)
	}
	library := o.Library
	if library == nil {
		library = catalog.Library()
	}
	r := rules.Unjudged(o.Schedule, library)
	if len(o.Problems) == 0 {
		r.Add(laminate.Ref{}, nil, o.Why())
	}
	at := o.places(library)
	for _, p := range o.Problems {
		ref := at[p.Line]
		var rows []int
		if ref.Kind == laminate.RefPly {
			rows = []int{ref.Index}
		}
		r.Add(ref, rows, p.String())
	}
	return r
}

// places finds what stands in a line that a value of it is refused for.
func (o *Opened) places(library *laminate.Library) map[int]laminate.Ref {
	at := map[int]laminate.Ref{}
	if o.Schedule == nil {
		return at
	}
	for i := range o.Schedule.Plies {
		at[o.Source.Line(laminate.PlyRef(i, ""))] = laminate.PlyRef(i, "")
	}
	for _, f := range laminate.Validate(o.Schedule, library) {
		at[o.Source.Line(f.Ref)] = f.Ref
	}
	return at
}
