package schedules

import (
	"cmp"
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/tables"
)

// exerciseDocument is an exercise while it is read: what is demanded is a
// specification, which not every exercise has.
type exerciseDocument struct {
	exercise.Exercise
	demands spec.Specification
}

// The tables of an exercise. Those of what is given stand where a schedule has
// them, so that a laminate.Ref leads to them.
const (
	exerciseDemands  = int(laminate.RefPly) // the tables of a specification follow, without its root
	exerciseQuestion = exerciseDemands + 6
	exerciseSpecimen = exerciseQuestion + 1
	exerciseHint     = exerciseQuestion + 2
)

var exerciseTables = sync.OnceValue(func() []tables.Table {
	list := []tables.Table{tables.One("", declared(Exercise, []tables.Field{
		tables.TextField("id", func(t *exercise.Exercise) *string { return &t.ID }),
		tables.TextField("title", func(t *exercise.Exercise) *string { return &t.Title }),
		tables.OrdinalField("step", fmt.Sprintf("the step of the course, 1 to %d", exercise.Steps), exercise.Steps, func(t *exercise.Exercise) *int { return &t.Step }),
		tables.WordField("kind", func(t *exercise.Exercise) *exercise.Kind { return &t.Kind }, exercise.Kinds),
		tables.NotesField("scenario", func(t *exercise.Exercise) *string { return &t.Scenario }),
		tables.NotesField("task", func(t *exercise.Exercise) *string { return &t.Task }),
		tables.FlagField("keep_structure", func(t *exercise.Exercise) *bool { return &t.KeepStructure }),
		tables.UnitsField("units", "us or si: what screens show", func(t *exercise.Exercise) (*quantity.System, *bool) { return &t.Given.Units, &t.Given.UnitsSet }),
	}...), func(d *exerciseDocument) *exercise.Exercise { return &d.Exercise })}
	for _, t := range scheduleTables[1:] {
		list = append(list, tables.Within(t, func(d *exerciseDocument) *laminate.Schedule { return &d.Given }))
	}
	for _, t := range specDemands() { // nothing is read off a wall that only stands on paper
		list = append(list, tables.Within(t, func(d *exerciseDocument) *spec.Specification { return &d.demands }))
	}
	return append(list,
		tables.Many("question", exercise.MostQuestions, []tables.Field{
			tables.WordField("ask", func(q *exercise.Question) *exercise.Ask { return &q.Ask }, exercise.Asks),
			tables.ShareField("tolerance", func(q *exercise.Question) *laminate.Optional[float64] { return &q.Tolerance }),
		}, func(d *exerciseDocument) *[]exercise.Question { return &d.Questions }),
		tables.Many("specimen", exercise.MostSpecimens, []tables.Field{
			groupField("zone", "total (the whole wall), barrier, or a zone: the plies that the specimen holds", func(s *exercise.Specimen) *inspection.Group { return &s.Group }),
			tables.SizeField("before", func(s *exercise.Specimen) *quantity.Mass { return &s.Before }),
			tables.SizeField("after", func(s *exercise.Specimen) *quantity.Mass { return &s.After }),
		}, func(d *exerciseDocument) *[]exercise.Specimen { return &d.Specimens }),
		tables.Many("hint", exercise.MostHints, []tables.Field{
			tables.NotesField("text", func(h *exercise.Hint) *string { return &h.Text }),
			tables.ShareField("cost", func(h *exercise.Hint) *laminate.Optional[float64] { return &h.Cost }),
		}, func(d *exerciseDocument) *[]exercise.Hint { return &d.Hints }))
})

// ExerciseKeys lists the tables and keys of an exercise in canonical order.
func ExerciseKeys() []TableKeys { return keysOf(exerciseTables()) }

// DecodeExercise reads an exercise. Where there are problems it is nil; all of
// them are told, in the order of the file.
func DecodeExercise(b []byte) (*exercise.Exercise, []Problem) {
	d := new(exerciseDocument)
	src, problems := read(b, Exercise, exerciseTables(), d)
	if src.doc == nil {
		return nil, problems
	}
	for _, f := range laminate.Validate(&d.Given, nil) {
		if f.Ref.Kind != laminate.RefSchedule || f.Ref.Key == "ply" {
			problems = src.fault(problems, spotOf(f.Ref), f.Message)
		}
	}
	problems = src.demands(problems, &d.demands, exerciseDemands)
	problems = src.unanswerable(problems, &d.Exercise, &d.demands)
	problems = src.doc.Strange(problems, d)
	if len(problems) > 0 {
		return nil, tables.Sorted(problems)
	}
	d.Demands = d.demands
	d.Given.Title = d.Title
	d.Given.Plies = laminate.SplitRow(&d.Given, catalog.Library())
	return &d.Exercise, nil
}

// unanswerable tells what an exercise lacks for its kind, and what it could not
// be answered with.
func (s *Source) unanswerable(problems []Problem, t *exercise.Exercise, d *spec.Specification) []Problem {
	fail := func(table, row int, key, format string, args ...any) {
		problems = s.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, fmt.Sprintf(format, args...))
	}
	need := func(text, key string) {
		if strings.TrimSpace(text) == "" {
			fail(0, 0, key, "it is missing; an exercise needs it")
		}
	}
	need(t.ID, "id")
	if strings.Trim(t.ID, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || len(t.ID) > 60 {
		fail(0, 0, "id", "lower-case letters, digits and hyphens are expected, at most 60")
	}
	need(t.Title, "title")
	need(t.Scenario, "scenario")
	need(t.Task, "task")
	if t.Step == 0 {
		fail(0, 0, "step", "it is missing; an exercise needs it")
	}
	if t.Kind == exercise.NoKind {
		fail(0, 0, "kind", "it is missing; an exercise needs it")
		return problems
	}
	ply, kind := int(laminate.RefPly), t.Kind.String()
	if len(t.Given.Plies) == 0 && t.Kind != exercise.Choose {
		fail(0, 0, "kind", "there is no [[ply]]; an exercise of the kind %s needs what is given", kind)
	}
	if t.Kind == exercise.Order && len(t.Given.Plies) > exercise.MostOrdered {
		fail(ply, exercise.MostOrdered, "", "at most %d [[ply]] tables can be put in order", exercise.MostOrdered)
	}
	if t.Kind.Asks() != (len(t.Questions) > 0) {
		fail(exerciseQuestion, 0, "", "[[question]] tables belong to exercises of the kinds predict and ignition, and those need them")
	}
	if (t.Kind == exercise.Ignition) != (len(t.Specimens) > 0) {
		fail(exerciseSpecimen, 0, "", "[[specimen]] tables belong to exercises of the kind ignition, and those need them")
	}
	for i, q := range t.Questions {
		switch {
		case q.Ask == exercise.NoAsk:
			fail(exerciseQuestion, i, "ask", "it is missing")
		case q.Ask.OfSpecimens() && t.Kind != exercise.Ignition:
			fail(exerciseQuestion, i, "ask", "%q asks about specimens, which belong to an ignition test", q.Ask)
		case q.Ask == exercise.Acceptance && !d.Barrier.GlassContent.Given && !d.Structure.GlassContent.Given:
			fail(exerciseQuestion, i, "ask", "acceptance needs a required glass_content")
		case q.Ask.Answer() == exercise.Word && q.Tolerance.Given:
			fail(exerciseQuestion, i, "tolerance", "a word has none")
		}
		if q.Tolerance.Given && !(q.Tolerance.Value >= 0 && q.Tolerance.Value <= 0.5) {
			fail(exerciseQuestion, i, "tolerance", "it is not between 0 and 0.5")
		}
	}
	for i, x := range t.Specimens {
		switch {
		case !x.Before.Given() || x.Before.SI() <= 0 || x.Before.SI() > 10:
			fail(exerciseSpecimen, i, "before", "a mass above 0 and at most 10 kg is needed")
		case !x.After.Given() || x.After.SI() < 0 || x.After.SI() > x.Before.SI():
			fail(exerciseSpecimen, i, "after", "a mass from 0 to that before the test is needed")
		case x.Group != t.Specimens[0].Group:
			fail(exerciseSpecimen, i, "zone", "all specimens hold the same plies")
		}
	}
	for i, h := range t.Hints {
		if strings.TrimSpace(h.Text) == "" {
			fail(exerciseHint, i, "text", "it is missing")
		}
		if h.Cost.Given && !(h.Cost.Value >= 0 && h.Cost.Value <= 1) {
			fail(exerciseHint, i, "cost", "it is a share from 0 to 1")
		}
	}
	return problems
}

//go:embed exercises/*.toml
var exerciseFiles embed.FS

// Exercises reads the exercises that come with the program, by step and id. A
// problem is a fault of the program, which its tests would have shown.
func Exercises() ([]*exercise.Exercise, []Problem) {
	names, err := fs.Glob(exerciseFiles, "exercises/*.toml")
	if err != nil {
		return nil, []Problem{{Message: tables.Printable(err.Error())}}
	}
	var list []*exercise.Exercise
	var problems []Problem
	for _, name := range names {
		b, err := exerciseFiles.ReadFile(name)
		if err != nil {
			problems = append(problems, Problem{Message: tables.Printable(err.Error())})
			continue
		}
		e, wrong := DecodeExercise(b)
		for _, p := range wrong {
			p.Message += " (" + name + ")"
			problems = append(problems, p)
		}
		if e != nil {
			list = append(list, e)
		}
	}
	SortExercises(list)
	return list, problems
}

// SortExercises puts exercises in the order of the course: by step, then id.
func SortExercises(list []*exercise.Exercise) {
	slices.SortStableFunc(list, func(a, b *exercise.Exercise) int {
		return cmp.Or(cmp.Compare(a.Step, b.Step), cmp.Compare(a.ID, b.ID))
	})
}
